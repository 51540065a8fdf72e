"""Reads: points, departures, what is kept and what falls, branches (language.md section 7)."""

from __future__ import annotations

import pytest

from generator.model.settled import Instant, Mark, Move, Pass
from tests.settling_case import STANDING, ends, play_text, said, settled, settled_book

SCREEN = ["5 screens for 3 at left block", "3 cuts off 5 to left wing"]


def phase(lines: list[str], read: str = "", name: str = "Only", more: str = "") -> str:
    """A phase with one read in flow style."""
    do = "".join(f"      - {line}\n" for line in lines)
    reads = f"    reads:\n      - {read}\n" if read else ""
    return f"  - name: {name}\n    do:\n{do}{reads}{more}"


def read(answers: str, who: str = "3", watch: str = "X3 on 5's screen", when: str = "") -> str:
    at = f", when: {when}" if when else ""
    return f"{{who: {who}, watch: {watch}{at}, answers: {{{answers}}}}}"


def fork_of(lines: list[str], the_read: str, branch: int = 0):
    return settled(phase(lines, the_read)).branches[branch].forks[0]


# -- read points -----------------------------------------------------------------------------------------


def test_watching_a_screen_the_read_point_is_its_use():
    fork = fork_of(SCREEN, read("trail: [3 curls], otherwise: go on"))
    assert fork.point == Mark("0d.1.3", Instant.USE) and fork.below == "0d.1.3"
    assert (fork.screen, fork.user, fork.watched, fork.reader) == ("0d.0.5", "0d.1.3", (3,), 3)


def test_ice_and_top_lock_are_read_sooner():
    """language.md 7.4: 0.4 s."""
    found = settled(phase(SCREEN, read("top-lock: [3 back cuts], trail: [3 curls], otherwise: go on")))
    assert [b.forks[0].point.offset for b in found.branches] == [0.0, -0.4, 0.0]


def test_without_on_the_screen_a_watched_pair_is_read_at_the_screen_too():
    assert fork_of(SCREEN, read("trail: [3 curls], otherwise: go on", watch="X3")).point.instant is Instant.USE


def test_else_as_he_catches():
    fork = fork_of(["1 passes to 2", "2 passes to 4"], read("sag: [2 shoots], otherwise: go on", "2", "X2"))
    assert fork.point == Mark("0d.0.1", Instant.CATCH) and fork.below == "0d.0.1"


def test_else_just_before_he_gives_up_the_ball():
    fork = fork_of(["3 lifts", "1 passes to 2"], read("deny: [1 drives, 1 finishes], otherwise: go on", "1", "X2"))
    assert fork.point == Mark("0d.1.1", Instant.START) and fork.below == "0d.0.3"


def test_else_as_the_moves_end():
    fork = fork_of(["3 lifts", "2 drifts"], read("deny: [4 flashes], otherwise: go on", "4", "X4"))
    assert fork.point == Mark("0d.1.2", Instant.END)


def test_when_names_the_point():
    fork = fork_of(["1 passes to 2", *SCREEN], read("help: [2 passes to 4, 4 shoots], otherwise: go on", "2", "X4", "3 arrives"))
    assert fork.point == Mark("0d.2.3", Instant.ARRIVE)


# -- departures ------------------------------------------------------------------------------------------


def test_the_answer_replaces_what_its_players_were_doing_and_the_others_finish():
    lines = [*SCREEN, "2 clears to right corner", "3 cuts to top", "5 pops"]
    found = settled(phase(lines, read("trail: [3 curls, 1 passes to 3, 3 finishes], otherwise: go on")))
    main, trail = found.branches
    assert trail.parent == "main" and trail.departure.named == (1, 3)
    assert set(trail.departure.stopped) == {"0d.1.3", "0d.3.3"}
    assert {a.key for a in trail.actions} >= {a.key for a in main.actions}
    assert trail.departure.own[0].endswith(".0.3") and ends(found, 1)[2] == "right corner" and ends(found, 1)[5] == "left wing"
    curl = next(a for a in trail.actions if a.verb == "curl")
    assert curl.origin.distance(next(a for a in main.actions if a.key == "0d.0.5").end) == pytest.approx(0.65)


def test_ball_lines_of_others_stay_just_above_the_answers_first_ball_line():
    lines = [*SCREEN, "1 passes to 4"]
    found = settled(phase(lines, read("trail: [3 curls, 4 passes to 3, 3 finishes], otherwise: go on")))
    order = [(a.player, a.verb) for a in found.branches[1].actions]
    assert order[-4:] == [(3, "curl"), (1, "pass"), (4, "pass"), (3, "shoot")]


def test_a_ball_line_whose_player_has_no_ball_then_is_dropped():
    lines = [*SCREEN, "1 passes to 2", "2 passes to 4"]
    found = settled(phase(lines, read("trail: [3 curls, 1 passes to 3, 3 finishes], otherwise: go on")))
    assert [a.player for a in found.branches[1].actions if isinstance(a, Pass) and a.answer is None and
            a.key not in found.branches[1].departure.stopped] == []


def test_a_player_whose_part_in_the_answer_begins_with_a_catch_finishes_his_move():
    found = settled(phase(["1 dribbles to right slot", "3 lifts", "1 passes to 4"],
                          read("help: [1 passes to 3, 3 shoots], otherwise: go on", "1", "X4", "1 dribbles")))
    child = found.branches[1]
    assert "0d.1.3" not in child.departure.stopped and ends(found, 1)[3] == "left wing"


def test_waiting_for_something_the_answer_took_away_falls():
    lines = [*SCREEN, "2 clears to right corner as 3 arrives"]
    main, trail = settled(phase(lines, read("trail: [1 holds], otherwise: go on"))).branches
    clear = lambda b: next(a for a in b.actions if a.verb == "clear")
    assert clear(main).triggers[0].marks == clear(trail).triggers[0].marks
    lines = [*SCREEN, "3 cuts to top", "2 clears to right corner as 3 is halfway"]
    _, curl = settled(phase(lines, read("trail: [3 stays], otherwise: go on"))).branches
    assert all(m.action != "0d.2.3" for t in clear(curl).triggers for m in t.marks)


def test_keys_before_the_departure_are_the_parents():
    found = settled(phase(SCREEN, read("trail: [3 curls, 1 passes to 3, 3 finishes], otherwise: go on")))
    main, trail = found.branches
    assert [a.key for a in trail.actions][:2] == [a.key for a in main.actions][:2]
    assert len({a.key for a in trail.actions}) == len(trail.actions)


def test_after_a_switch_the_bodies_have_changed_men():
    text = phase(["5 ball screens for 1", "1 dribbles off 5 to right wing"], read(
        "switch: {do: [1 holds], reads: [{who: 1, watch: 1's defender, answers: {sag: [1 shoots], otherwise: [1 drives, 1 finishes]}}]}, "
        "otherwise: go on", "1", "X1 and X5 on 5's screen"))
    assert settled(text).branches[1].forks[1].watched == (5,)


# -- otherwise, nesting, several reads -------------------------------------------------------------------


def test_otherwise_with_lines_is_the_main_line():
    found = settled(phase(["3 lifts"], read("deny: [3 back cuts, 1 passes to 3, 3 finishes], otherwise: [1 passes to 3, 3 shoots]",
                                            watch="X3")))
    assert [(a.player, a.verb) for a in found.main.actions] == [(3, "lift"), (1, "pass"), (3, "shoot")]
    assert found.main.forks[0].answer.is_otherwise and found.branches[1].forks[0].answer.key == "deny"


def test_lines_of_otherwise_wait_for_the_read_and_for_what_was_begun():
    """By the text 1 has begun his dribble when 3 arrives, so the main line keeps it; his drive comes after the read."""
    found = settled(phase(["3 ghosts for 1 to right slot", "1 dribbles to left slot", "1 passes to 4"],
                          read("hedge: [1 passes to 3, 3 shoots], otherwise: [1 drives, 1 finishes]", "1", "X3", "3 arrives")))
    assert [(a.player, a.verb) for a in found.main.actions] == [(3, "ghost"), (1, "dribble"), (1, "drive"), (1, "shoot")]
    drive = found.main.actions[2]
    assert [(t.hold.value, t.marks, t.words) for t in drive.triggers] == [("then", (Mark("0d.0.3", Instant.ARRIVE),), "")]
    assert found.branches[1].departure.stopped == ("0d.1.1",)


def test_nested_reads_combine_with_the_answer_they_stand_in():
    nested = "{who: 1, watch: 3 then 2, answers: {3 open: [1 passes to 3, 3 finishes], otherwise: [1 passes to 2, 2 shoots]}}"
    found = settled(phase(SCREEN, read(f"trail: {{do: [3 curls], reads: [{nested}]}}, otherwise: go on")))
    assert [len(b.choices if hasattr(b, "choices") else b.key.split("+")) for b in found.branches] == [1, 1, 2]
    assert [f.depth for f in found.branches[2].forks] == [0, 1] and found.branches[1].scorer == 2 and found.branches[2].scorer == 3
    assert found.branches[2].parent == found.branches[1].key


def test_in_one_phase_one_read_departs_and_reads_of_two_phases_combine():
    one = phase(["1 passes to 2", *SCREEN], read("trail: [3 curls], otherwise: go on") + "\n      - " +
                read("sag: [2 holds], otherwise: go on", "2", "X2"))
    two = phase(["2 passes to 1"], read("sag: [1 shoots], otherwise: go on", "1", "X1"), "Next")
    found = settled(one + two)
    assert len(found.branches) == 6  # (main, two of the first phase) times (main, one of the second)
    assert all(len({f.phase for f in b.forks if not f.answer.is_otherwise}) == len([f for f in b.forks if not f.answer.is_otherwise])
               for b in found.branches)


def test_own_choice_and_bench_take_their_first_key():
    found = settled(phase(["1 holds"], read("drive: [1 drives, 1 finishes], shot: [1 shoots]", "1", "own choice")))
    assert [b.actions[-1].verb for b in found.branches] == ["shoot", "shoot"]
    assert found.main.actions[1].verb == "drive" and found.branches[1].name == "shot"


def test_clock_and_ball_reads():
    clock = settled(phase(["1 holds"], read("under 3 s: [1 shoots], 3 s or more: go on", "1", "clock")), head="clock: 8 s\n")
    assert len(clock.branches) == 2
    ball = settled(phase(["1 shoots"], read("missed: [5 rebounds, 5 finishes], made: go on", "5", "ball")))
    assert ball.main.scorer == 5 and ball.branches[1].ending.value == "shot" and ball.branches[1].scorer == 1


def test_a_made_basket_can_be_played_on_from():
    text = phase(["1 shoots"], read("made: go on, missed: [5 rebounds, 5 finishes]", "5", "ball")) + (
        "  - {name: Back, do: [2 sprints to backcourt left wing]}\n")
    found = settled(text)
    assert [p.name for p in found.main.phases] == ["Only", "Back"] and len(found.branches[1].phases) == 1


# -- looks -----------------------------------------------------------------------------------------------


def test_looking_for_somebody_in_the_last_phase():
    """language.md 7.6: the last named is passed to when nobody is open; who catches inside P + 1 shoots."""
    found = settled(["3 lifts", "5 posts up", "1 looks for 3 then 5"])
    main, three = found.branches
    assert main.scorer == 5 and main.actions[-1].verb == "shoot" and three.scorer == 3 and three.name == "3 is open"
    assert three.forks[0].point == Mark("0d.0.3", Instant.ARRIVE)


def test_looking_with_phases_to_come_goes_on():
    found = settled(phase(["3 lifts", "1 looks for 3 then 5"]) + phase(["1 passes to 2", "2 shoots"], name="Next"))
    assert [b.scorer for b in found.branches] == [2, 3, 5]


def test_a_look_from_out_of_bounds_always_ends_in_a_pass():
    start = STANDING.replace("1: top", "1: right baseline out of bounds")
    found = settled(phase(["4 dives", "1 looks for 4 then 2"]) + phase(["1 steps in", "2 passes to 1"], name="In"), start)
    assert [a.receiver for a in found.main.actions if isinstance(a, Pass)] == [2, 1] and found.branches[1].scorer == 4


# -- rules -----------------------------------------------------------------------------------------------

FIVE_OUT = "{1: top with the ball, 2: left wing, 3: right wing, 4: left corner, 5: right corner}"
PASS_RULE = "rules:\n  - {when: anyone passes, do: [passer dives then clears to open corner, everyone else fills up]}\n"


def test_a_rule_happens_each_time_its_event_does():
    found = settled(["1 passes to 2", "2 passes to 3"], FIVE_OUT, PASS_RULE).main
    cuts = [a for a in found.actions if a.from_rule and a.verb == "dive"]
    assert [a.player for a in cuts] == [1, 2] and cuts[0].triggers[0].marks == (Mark("0d.0.1", Instant.RELEASE),)


def test_a_read_shaped_rule_opens_with_the_phase_where_it_first_can_occur():
    rule = ("rules:\n  - {who: anyone one pass away, watch: his defender, answers: {deny: [he back cuts, ball handler passes to him, "
            "he finishes], otherwise: go on}}\n")
    found = settled(phase(["1 passes to 2"]) + phase(["2 passes to 1"], name="Back"), FIVE_OUT, rule)
    assert len(found.branches) == 2 and found.branches[1].forks[0].reader == 2
    assert found.branches[1].forks[0].point == Mark(None, phase=0) and found.branches[1].name == "2's defender denies"
    assert [type(a) for a in found.branches[1].actions[-3:-1]] == [Move, Pass]


def test_the_same_mistake_is_told_once_whatever_branch_meets_it():
    text = phase(SCREEN, read("trail: [3 stays], top-lock: [3 stays], otherwise: go on")) + phase(["4 passes to 2"], name="Next")
    _, problems = said({"a.yml": play_text(text)})
    assert [d.rule for d in problems if d.severity.value == "error"] == ["no-ball"]


def test_a_broken_line_does_not_hide_the_next_mistake():
    _, problems = said({"a.yml": play_text(["3 passes to 4", "5 screens for 5", "2 cuts to rim as 3 shoots"])})
    assert [d.rule for d in problems] == ["no-ball", "screen-for-himself", "unknown-event"]


def test_a_play_with_a_mistake_is_not_settled():
    found, _ = said({"a.yml": play_text(["3 passes to 4"])})
    assert found is None


def test_names_of_branches():
    found = settled_book({"a.yml": play_text(phase(SCREEN, read(
        "trail: [3 curls], X3 shoot the gap and X5 help: [3 fades], go under or late: [3 stays], otherwise: go on", watch="X3 and X5 on 5's screen")))})
    assert [b.name for b in found.branches] == [
        "main line", "X3 and X5 trail", "X3 shoots the gap and X5 helps", "X3 and X5 go under or X3 and X5 are late"]
