"""Zones, presses, throw-ins, breaks, continuities: twenty-nine sets as a coach writes them, with facts that stand here.

Who screens whom; whose hands the ball goes through; who shoots; two places where players end; what one coverage changes.
Common practice of the trade, no source: written down before the tool could read the sets.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import pytest
from test_books_facts import Facts, _hands, _scorer

from generator.model.court import Point, court_for
from generator.model.settled import Screen
from generator.model.spots import name_place
from generator.pipeline import load_book, time_play

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
