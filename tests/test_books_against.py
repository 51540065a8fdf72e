"""Zones, presses, throw-ins, breaks, continuities: twenty-nine sets as a coach writes them, with facts that stand here.

Who screens whom; whose hands the ball goes through; who shoots; two places where players end; what one coverage changes.
Common practice of the trade, no source: written down before the tool could read the sets.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import pytest
from settling_case import book_of
from test_books_facts import Facts, _hands, _scorer

from generator.diagnostics import Location
from generator.jobs import derive_jobs
from generator.model.court import Point, court_for
from generator.model.sentence import Part
from generator.model.settled import Move, Screen
from generator.model.spots import name_place
from generator.parsing import parse_line
from generator.pipeline import compute, load_book, time_play

BOOK = Path(__file__).parent / "books" / "against"

FACTS = {
    "Runner": Facts((), (2, 3, 2, 4, 1), 1, {3: "left corner", 4: "left elbow"}, ("hard close-out", 4, "front of the rim")),
    "Skip and pin": Facts((), (3, 2), 2, {1: "left slot", 4: "right block"}, ("close out", 4, "right block")),
    "Two-guard front": Facts((), (2, 1, 5), 5, {1: "left slot", 5: "rim"}, ("help", 3, "right corner")),
    "Two up two down": Facts((), (2, 4, 2, 3, 1, 2), 2, {5: "right block", 1: "left wing"}, ("late", 3, "left corner")),
    "Split the gap": Facts((), (5,), 5, {4: "right short corner", 5: "nail"}, ("help", 3, "left corner")),
    "Middle man": Facts(((4, 5, ""),), (3, 5), 5, {1: "top", 5: "middle of the lane"}, ("otherwise", 5, "middle of the lane")),
    "Two for the chased man": Facts(((5, 3, ""),), (2, 3), 3, {3: "left corner", 2: "left slot"}, ("trail", 3, "middle of the lane")),
    "Their best two": Facts((), (3, 4), 4, {1: "left wing", 2: "left corner"}, ("", None, "")),
    "Cut through": Facts(((5, 1, ""),), (2, 3), None, {1: "right corner", 3: "top"}, ("", None, "")),
    "Diamond break": Facts((), (1, 3), 3, {1: "left half court", 5: "left block"}, ("trap", 5, "left block")),
    "Two-two-one break": Facts((), (1, 3, 2, 4, 5), 5, {1: "right wing", 4: "top"}, ("1 open", 1, "right wing")),
    "Beat the trap": Facts((), (5, 3), 3, {1: "right hash", 5: "nail"}, ("trap", 3, "left corner")),
    "Press stack": Facts(((2, 1, ""),), (1, 5), 5, {1: "left wing", 3: "right wing"}, ("", None, "")),
    "Peel": Facts((), (1,), 1, {2: "right corner", 4: "left block"}, ("switch", 5, "rim")),
    "Fence": Facts(((4, 4, ""),), (2,), 2, {2: "right corner", 5: "front of the rim"}, ("hard close-out", 5, "front of the rim")),
    "Flat": Facts(((4, 5, ""),), (2, 1), 1, {2: "left slot", 1: "left corner"}, ("5 open", 5, "left block")),
    "Six seconds, need three": Facts(((5, 2, ""), (4, 2, "")), (2,), 2, {1: "right corner", 2: "left slot"}, ("switch", 4, "rim")),
    "Length": Facts(((4, 5, ""),), (5, 2), 2, {5: "top", 2: "left wing"}, ("", None, "")),
    "Tip and go": Facts((), (3,), 3, {3: "rim"}, ("tip lost", None, "")),
    "Tap out": Facts((), (2,), 2, {2: "right corner", 4: "rim"}, ("made", None, "")),
    "Ninety-four": Facts(((5, 4, ""),), (1, 4, 3, 5), 5, {2: "right corner", 3: "left wing"}, ("4 open", 4, "rim")),
    "Lanes": Facts(((5, 1, ""),), (1, 3), 3, {2: "right corner", 3: "left corner"}, ("4 open", 4, "rim")),
    "Four corners": Facts((), (2,), None, {2: "deep top", 1: "right half court"}, ("", None, "")),
    "Blockers and movers": Facts(((5, 2, ""), (4, 3, "")), (2, 1, 3), None, {2: "right wing", 3: "left wing"}, ("trail", 2, "front of the rim")),
    "Wheel": Facts((), (2, 4, 5, 3), None, {1: "right corner", 2: "left corner"}, ("1 open", 1, "right block")),
    "Away": Facts(((1, 3, ""), (2, 1, "")), (2, 3), None, {3: "top"}, ("deny", 2, "rim")),
    "Gap": Facts(((4, 3, ""),), (3, 2), 2, {5: "right dunker spot", 2: "right corner"}, ("help", 5, "right dunker spot")),
    "Nightshade": Facts(((4, 3, ""),), (3, 4), 4, {3: "left wing", 2: "left corner"}, ("deny", 3, "rim")),
    "Nightshade Twist": Facts(((4, 3, ""), (5, 4, "")), (3, 4, 1), None, {3: "left wing", 5: "right block"}, ("Go", 4, "right low block")),
}


@lru_cache(maxsize=1)
def _book():
    return load_book(BOOK)


@lru_cache(maxsize=64)
def _played(name: str):
    book, _ = _book()
    return time_play(book.play(name), book)


def _near(point: Point, words: str, room: float) -> bool:
    book, _ = _book()
    court = court_for(book.team.rule_set)
    if words == "rim":
        return point.distance(Point(0.0, court.rim)) < 1.6
    name = name_place(court, point).words
    return name == words or name.endswith(words) or any(
        name_place(court, Point(point.x + x, point.y + y)).words == words for x in (-room, 0.0, room) for y in (-room, 0.0, room))


def test_every_set_has_its_facts_and_no_set_an_error():
    book, said = _book()
    assert {p.name for p in book.plays} == set(FACTS)
    assert not [d for d in said if d.severity.value == "error"]


@pytest.mark.parametrize("name", FACTS)
def test_the_main_line_is_what_the_coach_wrote(name):
    facts, (times, said) = FACTS[name], _played(name)
    assert not [d for d in said if d.severity.value == "error"], said
    main = times.settled.main
    first = {key for phase in main.phases if phase.round == 0 for key in phase.actions}
    screens = [a for a in main.actions if isinstance(a, Screen) and a.key in first]
    assert [a.player for a in screens] == [s for s, _, _ in facts.screens]
    assert all(freed in a.freed + a.on for a, (_, freed, _) in zip(screens, facts.screens)), [a.text for a in screens]
    hands = tuple(_hands(times.main))
    assert hands[: len(facts.hands)] == facts.hands
    assert facts.shooter is None or (hands, _scorer(times.main)) == (facts.hands, facts.shooter)


@pytest.mark.parametrize("name", FACTS)
def test_where_two_players_end(name):
    times, _ = _played(name)
    first = [i for i, phase in enumerate(times.settled.main.phases) if phase.round == 0]
    for player, words in FACTS[name].ends.items():
        ends = [t.end for t in times.main.timed.values() if t.action.player == player and t.action.phase in first]
        point = times.main.position(player, max(ends, default=0.0))
        assert _near(point, words, 0.6), (player, words, point)


@pytest.mark.parametrize("name", [n for n in FACTS if FACTS[n].change[0]])
def test_what_one_coverage_changes(name):
    key, shooter, words = FACTS[name].change
    times, _ = _played(name)
    branches = [b for b in times.settled.branches if b.forks and any(key in f.answer.key for f in b.forks)]
    assert branches, f"no branch answers {key}"
    if shooter is not None:
        timeline = times.timelines[branches[0].key]
        assert _scorer(timeline) == shooter
        assert _near(timeline.position(shooter, timeline.duration), words, 0.6)


def test_traps_come_from_the_two_who_are_named_and_the_others_wait_for_the_next_pass():
    """1-2-1-1: front man and left wing trap in the corner, right wing in the middle, next man up that sideline."""
    times, _ = _played("Diamond break")
    trap = next(t for t in times.timelines.values() if t.branch.departure and "trap" in t.branch.name)
    at = trap.fork_times[0] + 0.6
    ball = trap.ball(at).point
    near = sorted(range(1, 6), key=lambda x: trap.defender(x, at).distance(ball))
    assert set(near[:2]) == {1, 2} and trap.defender(near[1], at).distance(ball) < 1.5
    assert abs(trap.defender(3, at).x) < 1.8 and trap.defender(4, at).x < -3.0


def test_the_low_man_of_a_two_three_goes_out_to_the_corner_and_the_middle_man_fronts_the_block():
    times, _ = _played("Runner")
    main, at = times.main, times.main.fork_times[0] + 0.5
    assert main.ball(at).holder == 3 and main.defender(3, at).x < -4.4
    assert -3.6 < main.defender(5, at).x < -1.5 and main.defender(5, at).y < 2.6
    assert abs(main.defender(4, at).x) < 1.2  # the far low man protects the rim
    assert abs(main.defender(2, at).x) < 1.5 and main.defender(2, at).y < 5.6  # the far guard at the nail


def test_the_first_screener_of_a_stagger_rolls_as_he_is_past_him_and_not_as_he_is_past_both():
    times, _ = _played("Six seconds, need three")
    timed = {(t.action.player, t.action.verb): t for t in times.main.timed.values()}
    assert timed[5, "roll"].start < timed[2, "cut"].end - 1.0


# -- the words of these sets -------------------------------------------------------------------------------

HERE = Location("a.yml", 1, 1)
FIVE = "{1: top with the ball, 2: right wing, 3: left wing, 4: right block, 5: left block}"


def _one(text: str) -> Part:
    line, said = parse_line(text, HERE)
    assert line is not None, said
    (part,) = line.parts
    return part


def _main(do: str, head: str = "", start: str = FIVE):
    done = compute(book_of({"a.yml": f"play: Test\n{head}start: {start}\nphases:\n  - {{name: One, do: [{do}]}}\n"}))
    assert not [d for d in done.diagnostics if d.severity.value == "error"], done.diagnostics
    return done.plays[0]


@pytest.mark.parametrize(("said", "plain"), [
    ("3 runs the right lane", "3 runs along the right sideline to right corner"),
    ("2 fills the left lane", "2 runs along the left sideline to left corner"),
    ("1 pushes it up the right side to right wing", "1 dribbles along the right sideline to right wing"),
    ("3 sprints wide to the left corner", "3 sprints along the left sideline to left corner"),
    ("1 dribbles up the left sideline to half court", "1 dribbles along the left sideline to left half court"),
    ("4 flashes to the left side of the center circle", "4 flashes to circle at 9 o'clock"),
    ("2 comes to meet the ball at the top", "2 comes to top"), ("2 meets the pass at the top", "2 comes to top"),
    ("5 tips it out to 1", "5 tips to 1"), ("1 advances the ball to 3", "1 passes to 3"), ("2 skips to 3", "2 skip passes to 3"),
    ("1 drops it off to 5", "1 drop passes to 5"), ("5 faces up", "5 faces rim"), ("5 opens up to the ball", "5 faces the ball"),
    ("2 sprints ahead to left wing", "2 sprints to left wing"), ("1 looks up the floor for 3", "1 looks for 3"),
    ("5 dives to the right block on the skip", "5 dives to the right block on the pass"),
    ("1 dribbles into the gap between X1 and X3", "1 dribbles between X1 and X3"),
])
def test_another_way_to_say_it(said, plain):
    one, other = _one(said), _one(plain)
    assert replace(one, text="", source=other.source) == replace(other, text="")


def test_the_gap_between_two_of_a_zone_is_the_middle_of_where_they_stand():
    times = _main("1 dribbles into the gap between X1 and X3, 1 passes to 3", "against: zone 1-2-2\n")
    end = next(a for a in times.settled.main.actions if a.player == 1).end
    assert end.x > 0.5 and end.y < 8.0


def test_a_pass_to_a_named_place_brings_one_whose_own_move_is_long_over():
    done = compute(book_of({"a.yml": f"play: Test\nstart: {FIVE}\nphases:\n  - {{name: One, do: [3 cuts to left corner, 1 passes to 2]}}\n"
                                     "  - {name: Two, do: [2 passes to 3 at left wing, 3 shoots]}\n"}))
    last = [a for a in done.plays[0].settled.main.actions if a.player == 3 and isinstance(a, Move)][-1]
    assert last.place.words == "left wing"


def test_a_chased_mans_defender_is_his_chaser_and_an_area_is_nobodys_man():
    times, _ = _played("Two for the chased man")
    assert {f.watched for b in times.settled.branches for f in b.forks if f.read.watch.on_screen_of} == {(3,)}
    book, _ = _book()
    said = [j.watch for j in derive_jobs(_played("Diamond break")[0], book) if j.position == 1]
    assert "Watch X1 and X2." in said and not any("your man" in w for w in said)


def test_who_seals_the_man_of_an_area_goes_to_him_and_who_comes_to_the_ball_stops_short():
    times = _main("1 passes to 3, 4 seals the low right defender, 2 comes to the ball, 3 passes to 2", "against: zone 2-3\n")
    seal, comes = (next(a for a in times.settled.main.actions if a.player == p and isinstance(a, Move)) for p in (4, 2))
    assert abs(seal.end.x) < 2.6 and comes.end.distance(Point(-4.985, 6.56)) > 2.5


def test_the_ball_handler_who_looks_for_himself_looks_for_the_others():
    times = _main("1 passes to 2, ball handler looks for 2 then 4, 3 fills up")
    assert {p for b in times.settled.branches for f in b.forks for p in f.watched} == {4}


def test_a_stack_written_man_behind_man_is_placed_and_one_that_leans_on_itself_is_told():
    stack = "{1: behind 2, 2: behind 3, 3: left elbow, 4: nail, 5: top with the ball}"
    times = _main("5 passes to 4", start=stack)
    assert times.main.position(1, 0.0).distance(times.main.position(3, 0.0)) == pytest.approx(1.8, abs=0.01)


def test_everyone_drifts_only_where_there_is_room():
    times = _main("1 drives", "rules: [{when: anyone drives, do: [everyone else drifts]}]\n",
                  "{1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: left block}")
    moved = {a.player: a.place.words for a in times.settled.main.actions if isinstance(a, Move) and a.player != 1}
    assert moved.get(2) == "right corner" and 3 not in moved and 5 not in moved


def test_a_pass_for_a_shot_sets_off_no_rule_about_passes():
    times = _main("1 passes to 2, 2 shoots", "rules: [{when: anyone passes, do: [passer cuts to rim]}]\n")
    assert not [a for a in times.settled.main.actions if a.player == 1 and isinstance(a, Move)]


def test_a_rule_that_reads_a_screen_is_met_by_whoever_uses_it():
    head = ("rules: [{who: anyone, watch: his defender on 4's screen, answers: {trail: [he curls to rim, ball handler passes to him, he finishes], "
            "otherwise: go on}}]\n")
    times = _main("4 screens for 3 at nail, 3 cuts off 4 to top, 1 dribbles to right slot, 1 passes to 3", head)
    assert {f.reader for b in times.settled.branches for f in b.forks} == {3}


def test_the_backcourt_sideline_is_level_with_him():
    start = "{1: backcourt left elbow, 2: right wing, 3: left wing, 4: backcourt right block, 5: backcourt left block with the ball}"
    times = _main("1 breaks to the backcourt left sideline, 5 outlets to 1", "situation: rebound\n", start)
    assert next(a for a in times.settled.main.actions if a.player == 1).end.y > 20


def test_a_duck_in_goes_in_front_of_the_rim():
    move = next(a for a in _main("1 passes to 2, 5 ducks in, 2 passes to 5").settled.main.actions if a.player == 5)
    assert move.place.words == "front of the rim"


def test_half_court_man_to_man_waits_for_the_ball_at_half_court():
    times, _ = _played("Ninety-four")
    assert all(times.main.defender(x, 1.0).y < 19.0 for x in range(1, 6))
