"""What follows what: phases, go to, repeats, lead-ins, same as, run for, situations, defenders; the examples of
language.md section 9 and the play of the README."""

from __future__ import annotations

import pytest
from yardstick import yards

from generator.model.court import RuleSet, court_for
from generator.model.settled import Hold, Mark, Screen, Variant
from generator.model.spots import name_place, side_of
from tests.settling_case import STANDING, book_of, ends, play_text, said, settled, settled_book
from tests.test_parsing_book import TIDEWALL

COURT = court_for(RuleSet.INTERNATIONAL)
FIVE_OUT = "{1: top with the ball, 2: left wing, 3: right wing, 4: left corner, 5: right corner}"


def phases_of(found, branch: int = 0) -> list[str]:
    return [p.name for p in found.branches[branch].phases]


# -- phases and go to ------------------------------------------------------------------------------------


def test_a_go_to_of_a_phase_replaces_what_stands_below():
    text = ("  - {name: A, do: [1 passes to 2], go to: C}\n  - {name: B, do: [2 passes to 3]}\n  - {name: C, do: [2 shoots]}\n")
    assert phases_of(settled(text)) == ["A", "C"]
    assert phases_of(settled("  - {name: A, do: [1 passes to 2], go to: end}\n  - {name: B, do: [2 shoots]}\n")) == ["A"]


def test_an_answer_goes_to_an_earlier_phase_once():
    text = ("  - {name: A, do: [1 holds]}\n  - name: B\n    do: [3 lifts]\n    reads:\n"
            "      - {who: 1, watch: X3, answers: {deny: {do: [3 drifts], go to: A}, otherwise: [1 passes to 3, 3 shoots]}}\n")
    found = settled(text)
    assert phases_of(found) == ["A", "B"] and phases_of(found, 1) == ["A", "B", "A", "B"] and len(found.branches) == 2
    assert found.branches[1].ending.value == "shot"


def test_an_answer_goes_to_another_play():
    other = play_text(["1 shoots"], name="Other")
    text = "  - name: A\n    do: [1 holds]\n    reads:\n      - {who: 1, watch: X1, answers: {sag: {go to: Other}, otherwise: go on}}\n"
    found = settled_book({"a.yml": play_text(text), "b.yml": other})
    assert found.branches[1].ending.value == "other play"


def test_an_optional_phase_gives_a_branch_without_it():
    text = "  - {name: A, do: [1 passes to 2]}\n  - {name: B, do: [3 lifts], optional: yes}\n  - {name: C, do: [2 shoots]}\n"
    found = settled(text)
    assert phases_of(found) == ["A", "B", "C"] and phases_of(found, 1) == ["A", "C"]
    assert found.branches[1].name == "without B" and found.branches[1].parent == "main" and ends(found, 1)[3] == "left corner"
    assert found.branches[1].departure.fork == 0 and found.main.phases[1].optional


def test_roles_after_an_exchange():
    text = ("  - {name: A, do: [2 exchanges with 3], optional: yes, roles: {3: 2, 2: 3}}\n  - {name: B, do: [1 passes to 2, 2 shoots]}\n")
    found = settled(text)
    assert (found.main.scorer, found.branches[1].scorer) == (3, 2)
    by_place = settled(text.replace("roles: {3: 2, 2: 3}", "roles: by place"))
    assert (by_place.main.scorer, by_place.branches[1].scorer) == (3, 2)


def test_when_on_a_phase_is_its_opening():
    text = "  - {name: A, do: [1 passes to 2, 3 lifts]}\n  - {name: B, when: 2 catches, do: [5 flashes]}\n"
    assert settled(text).main.phases[1].opening.action == "0d.0.1"


def test_plans_and_holders_of_phases():
    main = settled("  - {name: A, do: [1 passes to 2, 3 lifts]}\n  - {name: B, do: [2 shoots]}\n").main
    first, second = main.phases
    assert first.holder == 1 and first.end_holder == 2 == second.holder and second.end_holder is None
    assert first.end_plan == second.plan and name_place(COURT, second.plan[3]).words == "left wing"
    assert second.plan_names[3].words == "left wing" and first.actions == ("0d.0.1", "0d.1.3")


# -- repeats ---------------------------------------------------------------------------------------------

MILLRACE = ("  - name: Reverse\n    do:\n      - 1 passes to 2\n      - 1 down screens for 3 at right wing as 2 catches\n"
            "      - 3 cuts off 1 to right slot\n  - {repeat: mirrored from Reverse, times: 3}\n")
MILL_START = "{1: right slot with the ball, 2: left slot, 3: right wing, 4: left wing, 5: nail}"


def test_a_mirrored_repeat_is_matched_by_place():
    found = settled(MILLRACE, MILL_START).main
    assert [p.round for p in found.phases] == [0, 1, 2, 3]
    passes = [(a.player, a.receiver) for a in found.actions if a.verb == "pass"]
    assert passes == [(1, 2), (2, 3), (3, 4), (4, 1)]
    screens = [a for a in found.actions if isinstance(a, Screen)]
    assert [(s.player, s.freed, side_of(s.end)) for s in screens] == [
        (1, (3,), "right"), (2, (4,), "left"), (3, (1,), "right"), (4, (2,), "left")]


def test_roles_replace_the_match():
    text = "  - {name: A, do: [1 passes to 2, 2 passes to 3]}\n  - {repeat: from A, roles: {3: 1, 1: 3}}\n"
    passes = [(a.player, a.receiver) for a in settled(text).main.actions]
    assert passes == [(1, 2), (2, 3), (3, 2), (2, 1)]


def test_nobody_departs_in_the_rounds_of_a_repeat():
    text = MILLRACE.replace("  - {repeat", "    reads:\n      - {who: 2, watch: 3 then 4, answers: {3 open: [2 passes to 3, 3 shoots], "
                            "otherwise: go on}}\n  - {repeat")
    found = settled(text, MILL_START)
    assert len(found.branches) == 2 and [f.phase for f in found.main.forks] == [0, 1, 2, 3]


def test_a_mistake_of_a_later_round_is_told():
    """Each round moves the wings down a step: the one round written fits (0.8 m), the next would not (1.6 m)."""
    lines = "2 cuts to a step below where 2 is, 3 cuts to a step below where 3 is"
    text = f"  - {{name: A, do: [{lines}]}}\n  - repeat: mirrored from A\n"
    _, problems = said({"a.yml": play_text(text, FIVE_OUT)})
    assert [d.rule for d in problems if d.severity.value == "error"] == ["repeat-unfit"] and "1.6 m" in problems[-1].message
    once = f"  - {{name: A, do: [{lines}]}}\n  - {{name: B, do: [{lines}]}}\n"
    assert said({"a.yml": play_text(once, FIVE_OUT)})[0] is not None


# -- one play, several versions --------------------------------------------------------------------------

OVER = play_text("  - {name: A, do: [1 passes to 2]}\n  - {name: B, do: [2 shoots]}\n", head="also for: {2: 3}\n", name="Over")
BACK = "play: Back\nsame as: Over until B\nphases:\n  - {name: C, do: [2 passes to 3, 3 shoots]}\n"


def test_same_as_takes_start_and_phases():
    found = settled_book({"a.yml": OVER, "b.yml": BACK}, "Back")
    assert phases_of(found) == ["A", "C"] and found.main.scorer == 3


def test_run_for_exchanges_the_jobs():
    found = settled_book({"a.yml": OVER}, "Over", Variant(run_for=((2, 3),)))
    assert found.main.scorer == 3 and name_place(COURT, found.main.start[3]).words == "right wing"


LEAD_IN = f"lead-in: Drift\nstart: {STANDING}\nphases:\n  - {{name: In, do: [1 passes to 2, 2 passes to 1, 3 lifts, 3 drifts]}}\n"


def test_a_lead_in_comes_first_with_its_roles():
    play = play_text(["1 shoots"], head="lead-in: [{Drift: {2: 3, 3: 2}}]\n", start=STANDING.replace("2: right wing, 3: left corner", "3: right wing, 2: left corner"))
    files = {"lead-ins/drift.yml": LEAD_IN, "a.yml": play}
    found = settled_book(files, variant=Variant(lead_ins=("Drift",)))
    assert phases_of(found) == ["In", "Only"] and found.main.phases[0].lead_in == "Drift" and found.main.phases[1].lead_in == ""
    assert [a.player for a in found.main.actions] == [1, 3, 2, 2, 1] and found.main.actions[0].receiver == 3
    mirrored = settled_book(files, variant=Variant(mirrored=True, lead_ins=("Drift",)))
    assert side_of(mirrored.main.start[3]) == "left"


def test_an_empty_lead_in_changes_nothing_but_the_phases():
    empty = f"lead-in: Drift\nstart: {STANDING}\nphases:\n  - {{name: In, do: [1 holds]}}\n"
    files = {"lead-ins/drift.yml": empty, "a.yml": play_text(["3 lifts", "1 passes to 3"], head="lead-in: [Drift]\n")}
    alone, after = settled_book(files).main, settled_book(files, variant=Variant(lead_ins=("Drift",))).main
    places = lambda b: [(a.player, a.verb, a.origin, a.end) for a in b.actions if a.verb != "hold"]
    assert places(alone) == places(after)


# -- situations, clocks, defenders -----------------------------------------------------------------------


def test_who_has_the_ball_at_the_start():
    nobody = STANDING.replace(" with the ball", "")
    assert settled(["3 lifts"], nobody).main.phases[0].holder == 1
    toss = settled(["2 breaks to left wing as ball is tossed", "5 tips to 1", "1 passes to 2"], nobody, "situation: jump ball\n").main
    assert toss.phases[0].holder is None and toss.phases[0].end_holder == 2
    board = settled(["5 rebounds", "5 outlet passes to 1"], nobody, "situation: rebound\n").main
    assert board.phases[0].end_holder == 1


def test_seconds_on_the_clock():
    main = settled(["1 holds until 5 s on the clock", "3 cuts to rim at 4 s"], head="clock: 8 s\n").main
    assert [(t.hold, t.seconds) for a in main.actions for t in a.triggers] == [(Hold.UNTIL, 5.0), (Hold.AT_CLOCK, 4.0)]
    assert main.clock == 8.0


def test_timing_words_become_triggers():
    lines = ["1 passes to 2", "3 cuts to left wing after 2 catches", "4 cuts to top with 3", "5 flashes on the pass", "then 2 drives", "1 clears to left corner at once"]
    holds = [[(t.hold.value, t.words) for t in a.triggers] for a in settled(lines).main.actions]
    assert holds == [[], [("after", "after 2 catches")], [("with", "with 3")], [("as", "on the pass")], [("then", "then")], [("at once", "at once")]]
    then = settled(lines).main.actions[4].triggers[0]
    assert {m.action for m in then.marks} == {"0d.0.1", "0d.1.3", "0d.2.4", "0d.3.5"}


def test_defenders_lines_become_cues():
    main = settled(["X2 denies 2", "1 passes to 3", "5 ball screens for 3", "X3 and X5 switch after 3 catches"]).main
    deny, first, second = main.cues
    assert (deny.defender, deny.coverage, deny.other, deny.begins) == (2, "deny", 2, Mark(None, phase=0))
    assert {first.defender, second.defender} == {3, 5} and first.begins.action == "0d.1.1" and first.on == "0d.2.5"


def test_screens_on_areas_of_a_zone():
    found = settled(["5 screens the low right defender for 3 at right short corner", "1 dribbles at the top right defender"], head="against: zone 2-3\n").main
    assert (found.actions[0].on, found.actions[0].freed) == ((4,), (3,)) and found.actions[1].end.x > 1.0


def test_on_the_run_and_off_a_screen_further_down():
    found = settled(["1 dribbles to right wing"], STANDING.replace("with the ball", "with the ball on the run")).main
    assert found.on_the_run == (1,) and found.actions[0].on_the_run
    below = settled(["3 cuts off 5 to left wing after 5 sets", "5 screens for 3 at left mid-post"]).main
    assert below.actions[0].uses[0].screen == "0d.1.5" and below.actions[1].users == ("0d.0.3",)


def test_two_who_screen_for_each_other():
    """timeline.md 9.8: it settles; 5 goes first."""
    main = settled(["4 screens for 5", "5 screens for 4", "5 cuts off 4 to left wing", "4 cuts off 5 to right slot"]).main
    assert [u.screen for a in main.actions[2:] for u in a.uses] == ["0d.0.4", "0d.1.5"]


# -- the examples of the pages ---------------------------------------------------------------------------

ALIGNMENTS = f"five-out: {FIVE_OUT}\nlamp: {STANDING}\n"
KITE = """play: Kite
start: five-out
rules:
  - {when: anyone passes, do: [passer dives then clears to open corner, everyone else fills up]}
  - {who: anyone one pass away, watch: his defender, answers: {deny: [he back cuts to rim, ball handler passes to him, he finishes], otherwise: go on}}
phases:
  - {name: Pass, do: [ball handler passes to nearest to top]}
  - {repeat: from Pass, times: 2}
"""
DOCKSIDE = """play: Dockside
situation: baseline out of bounds
start: {3: baseline out of bounds right with the ball, 4: right block, 5: right elbow, 2: beside 5, 1: left slot}
phases:
  - {name: Slap, do: [4 screens for 2 at short-side mid-post, 2 cuts off 4 to short-side corner, 5 dives as 2 clears, 1 cuts to deep top, 3 looks for 2 then 5 then 1]}
  - {name: In, do: [3 steps in to left corner]}
"""
QUARRY = """play: Quarry Low
against: zone 2-3
clock: 12 s
start: {1: top with the ball, 2: right wing, 3: left corner, 4: nail, 5: right block}
phases:
  - {name: Bait, do: [1 dribbles at the top right defender, 3 cuts along the baseline to right corner, 5 screens the low right defender for 3 at right short corner]}
  - name: Corner
    do: [1 passes to 2, 2 passes to 3]
    reads:
      - {who: 3, watch: the low right defender, answers: {hard close-out: [3 passes to 5, 5 finishes], otherwise: [3 shoots]}}
"""
LANTERN = """play: Lantern Over
start: lamp
also for: {2: 3}
both sides: yes
phases:
  - name: First reversal
    do: [1 dribbles to right slot, 2 clears to right corner, 4 pops to left slot, 1 passes to 4 as 4 arrives]
  - name: Baseline screen
    do: [5 screens for 3 at left block, 3 cuts off 5 to right wing]
    reads:
      - who: 3
        watch: X3 on 5's screen
        answers:
          trail: {do: [3 curls to front of the rim, 4 passes to 3, 3 finishes], why: He is behind you; the lane is open.}
          shoot the gap: [3 fades to left corner, 4 passes to 3, 3 shoots]
          otherwise: go on
  - name: Second side
    do: [4 passes to 1, 1 passes to 3 as 3 arrives, 3 shoots]
"""
EXAMPLES = {"Tidewall": (TIDEWALL, 5), "Millrace": (play_text(MILLRACE, MILL_START, name="Millrace"), 1), "Kite": (KITE, 2),
            "Dockside": (DOCKSIDE, 3), "Quarry Low": (QUARRY, 2), "Lantern Over": (LANTERN, 3)}


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_pages_examples_settle(name):
    text, branches = EXAMPLES[name]
    files = {"alignments.yml": ALIGNMENTS, "a.yml": text}
    found = settled_book(files, name)
    assert len(found.branches) == branches
    _, problems = said(files, name)
    assert [d for d in problems if d.severity.value == "error"] == []
    for branch in found.branches:
        keys = {a.key for a in branch.actions}
        assert len(keys) == len(branch.actions)
        assert all(m.action is None or m.action in keys for a in branch.actions for t in a.triggers for m in t.marks)


def test_lantern_over_in_detail():
    found = settled_book({"alignments.yml": ALIGNMENTS, "a.yml": LANTERN}, "Lantern Over")
    main, trail, gap = found.branches
    assert [b.name for b in found.branches] == ["main line", "X3 trails", "X3 shoots the gap"]
    assert (main.scorer, trail.scorer, gap.scorer) == (3, 3, 3)
    assert ends(found, 1)[3] == "front of the rim" and ends(found, 2)[3] == "left corner" and ends(found)[3] == "right wing"
    assert [p.name for p in trail.phases] == ["First reversal", "Baseline screen"]


def test_settling_is_quick():
    """Five phases with six branches cost six yards here; the bound is loose."""
    read = "    reads:\n      - {who: 3, watch: X3 on 5's screen, answers: {trail: [3 curls, 1 passes to 3, 3 finishes], otherwise: go on}}\n"
    phase = "  - name: P%d\n    do: [5 screens for 3 at left block, 3 cuts off 5 to left wing, 4 pops, 4 cuts to right elbow, 3 cuts to left corner]\n%s"
    text = "".join(phase % (i, read) for i in range(5))
    book = book_of({"a.yml": play_text(text)})
    from generator.settling import settle

    assert len(settle(book.play("Test"), book)[0].branches) == 6
    assert yards(lambda: settle(book.play("Test"), book)) < 30
