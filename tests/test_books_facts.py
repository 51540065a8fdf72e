"""Proof of reach: forty-nine sets in trade terms, each with five facts that stand here and not in the tool.

Who screens whom and where; whose hands the ball goes through after the first; who shoots in the main line; two places
where players end; what one coverage changes (who then shoots, and where). All of it is common practice, no source:
the facts were written down from the sets' own names before the tool could read them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import pytest

from generator.model.court import Point, RuleSet, court_for
from generator.model.settled import HandOff, Instant, Pass, Screen, Shot
from generator.model.spots import spot_point

BOOK = Path(__file__).parent / "books" / "sets"
COURT = court_for(RuleSet.INTERNATIONAL)
TOLERANCE = 1.25  # metres: a screen's named place is where the screener stands, give or take the step he leaves


@dataclass(frozen=True)
class Facts:
    """`screens`: (screener, freed player or the X he screens, place or ""). `change`: (key, who shoots, where or "")."""

    screens: tuple[tuple[int, int, str], ...]
    hands: tuple[int, ...]
    shooter: int | None
    ends: dict[int, str]
    change: tuple[str, int | None, str]


FACTS = {
    "Stagger": Facts(
        ((5, 2, "right short corner"), (4, 2, "right mid-post")), (2,), 2,
        {2: "top", 1: "left slot"}, ("trail", 2, "front of the rim")),
    "Single Double": Facts(
        ((4, 2, "right mid-post"), (5, 2, "right mid-post"), (3, 2, "left mid-post")), (2,), 2,
        {2: "right wing", 1: "right slot"}, ("single", 2, "left wing")),
    "Flex Cut": Facts(
        ((5, 3, "right block"), (1, 5, "right mid-post")), (2, 5), 5,
        {3: "left block", 5: "right slot"}, ("3 open", 3, "left block")),
    "High Post Backdoor": Facts((), (4, 2), 2, {2: "left slot", 1: "right slot"}, ("deny", 2, "rim")),
    "Pass and Cut": Facts((), (2, 3, 4), 4, {1: "left corner", 3: "top"}, ("ball watch", 1, "rim")),
    "Horns": Facts(((5, 1, ""),), (4,), 4, {1: "right elbow", 4: "left slot"}, ("X5 hedge", 5, "rim")),
    "Zipper": Facts(
        ((4, 2, "left mid-post"), (5, 2, "")), (2,), 2, {1: "right wing", 2: "rim"}, ("go under", 2, "")),
    "Ram": Facts(((3, 5, "right elbow"), (5, 1, "")), (5,), 5, {1: "right wing", 3: "right corner"}, ("late", 1, "rim")),
    "Ghost": Facts((), (), 1, {3: "left slot", 1: "rim"}, ("hedge", 3, "left slot")),
    "Behind the Roller": Facts(
        ((5, 1, ""), (2, 5, "")), (2,), 2, {1: "right wing", 2: "top"}, ("5 open", 5, "rim")),
    "Step-up": Facts(((5, 1, ""),), (), 1, {5: "right wing", 1: "rim"}, ("trap", 5, "right wing")),
    "Double Drag": Facts(
        ((4, 1, "right slot"), (5, 1, "top")), (4,), 4, {1: "left slot", 5: "right slot"}, ("hedge", 5, "right slot")),
    "Hand-off Weave": Facts((), (2, 3), 3, {1: "right wing", 2: "left wing"}, ("go under", 3, "")),
    "Hammer": Facts(((4, 2, "left mid-post"),), (3, 2), 2, {2: "left corner", 1: "left slot"}, ("stay", 3, "rim")),
    "Cross then Down": Facts(
        ((2, 5, "left block"), (4, 2, "nail")), (2,), 2, {5: "right block", 2: "top"}, ("play behind", 5, "right block")),
    "Flare": Facts(
        ((4, 2, ""),), (2,), 2, {1: "top", 2: "left wing"}, ("shoot the gap", 2, "rim")),
    "Pin-down into Hand-off": Facts(
        ((4, 2, "left mid-post"),), (5, 2), 2, {1: "right wing", 2: "rim"}, ("trail", 2, "front of the rim")),
    "Split Cuts": Facts(
        ((1, 2, "right slot"),), (5, 2), 2, {2: "right wing", 5: "right mid-post"}, ("switch", 1, "rim")),
    "High Low": Facts((), (4, 5), 5, {4: "nail", 1: "right wing"}, ("sag", 4, "nail")),
    "Overload": Facts(
        ((5, 3, "right short corner"),), (2, 3), 3,
        {3: "right corner", 2: "right wing"}, ("hard close-out", 5, "right short corner")),
    "Baseline Box": Facts(
        ((4, 2, "right dunker spot"),), (2,), 2, {2: "right corner", 1: "top"}, ("5 open", 5, "rim")),
    "Sideline Zipper": Facts(
        ((4, 2, "left mid-post"), (5, 2, "")), (2,), 2, {3: "right corner", 1: "left corner"}, ("cheat high", 2, "rim")),
    "Press Break": Facts((), (1, 4, 2, 5), 5, {5: "right wing", 4: "left wing"}, ("front", 2, "rim")),
    "Numbered Break": Facts((), (1, 2, 4), 4, {4: "right block", 3: "left corner"}, ("stay", 1, "rim")),
    "Flat": Facts(((5, 1, "right slot"),), (), 1, {5: "right wing", 2: "left corner"}, ("switch", 5, "right wing")),
    "Delay Game": Facts((), (2, 3, 2), 2, {1: "right corner", 3: "top"}, ("deny", None, "rim")),
    "Elbow Rub": Facts(
        ((4, 1, "right elbow"),), (2, 4), 4, {1: "right block", 4: "right slot"}, ("go under", 1, "top")),
    "Shuffle": Facts(
        ((5, 2, "right mid-post"), (1, 5, "right elbow")), (4, 5), 5,
        {2: "left block", 5: "top"}, ("trail", 2, "left block")),
    "Across Two Elbows": Facts(
        ((4, 2, "left elbow"), (5, 2, "right elbow")), (2,), 2,
        {2: "right wing", 1: "left slot"}, ("shoot the gap", 2, "top")),
    "Elevator": Facts(
        ((4, 3, "free-throw line"), (5, 3, "free-throw line")), (3,), 3,
        {3: "top", 1: "right wing"}, ("jump the screen", 5, "rim")),
    "Rip and Down": Facts(
        ((2, 5, "left elbow"), (4, 2, "free-throw line")), (2,), 2,
        {5: "right block", 2: "top"}, ("switch", 4, "rim")),
    "Low Shooter": Facts(
        ((5, 2, "right block"),), (2, 1, 4, 2), 2, {2: "right corner", 3: "left corner"}, ("go over", 2, "left block")),
    "Strong Side Turned": Facts(
        ((5, 3, "right short corner"), (4, 3, "right mid-post")), (2, 3), 3,
        {1: "left corner", 3: "right slot"}, ("shoot the gap", 3, "right corner")),
    "Wing Hand-off and Screen": Facts(
        ((5, 2, ""),), (2, 5), 5, {1: "right corner", 3: "left corner"}, ("drop", 2, "")),
    "Short Roll": Facts(
        ((5, 1, "right slot"),), (5, 4), 4, {1: "right wing", 4: "left dunker spot"}, ("stay", 5, "rim")),
    "Rejected": Facts(((5, 1, ""),), (), 1, {1: "rim", 4: "right corner"}, ("ice", 4, "right corner")),
    "Flipped": Facts(
        ((5, 1, "right slot"), (5, 1, "")), (5,), 5, {2: "left corner", 3: "right corner"}, ("go under", 1, "")),
    "Baseline Open": Facts((), (2,), 2, {5: "right elbow", 2: "rim"}, ("cheat low", 2, "rim")),
    "Drive and Kick": Facts((), (2,), 2, {3: "left corner", 2: "top"}, ("X3 help", 3, "left corner")),
    "Swing Continuity": Facts(
        ((1, 3, "right wing"),), (2,), None, {3: "right slot", 2: "left slot"}, ("trail", 3, "front of the rim")),
    "Entry and Clear": Facts((), (5,), 5, {1: "left corner", 2: "right wing"}, ("trap", 2, "right wing")),
    "Gaps": Facts((), (2, 4), 4, {4: "right corner", 3: "left corner"}, ("close out", 3, "left corner")),
    "Corners": Facts((), (2, 4), 4, {5: "left block", 4: "right short corner"}, ("hard close-out", 5, "left block")),
    "The Chased One": Facts(
        ((5, 2, "right short corner"), (4, 2, "right elbow")), (2,), 2,
        {2: "top", 1: "left slot"}, ("switch", 4, "rim")),
    "Baseline Line": Facts(
        ((5, 4, "middle of the lane"),), (2,), 2, {4: "rim", 2: "right corner"}, ("4 open", 4, "rim")),
    "Baseline Screen the Screener": Facts(
        ((2, 5, "middle of the lane"), (4, 2, "left elbow")), (2,), 2,
        {5: "right block", 2: "top"}, ("5 open", 5, "right block")),
    "Sideline Stagger": Facts(
        ((5, 2, "right short corner"), (4, 2, "right mid-post")), (1, 2), 2,
        {1: "left slot", 2: "right slot"}, ("trail", 2, "front of the rim")),
    "Length of the Floor": Facts((), (4,), 4, {2: "right wing", 4: "top"}, ("front", 2, "right wing")),
    "Missed on Purpose": Facts((), (3,), 3, {3: "right wing", 2: "left wing"}, ("made", None, "")),
}


@lru_cache(maxsize=1)
def _computed():
    from generator.pipeline import load_and_compute

    return load_and_compute(BOOK)


def _times(name: str):
    found = next((p for p in _computed().plays if p.play.name == name), None)
    said = [d for d in _computed().diagnostics if d.severity.value == "error"]
    assert found is not None, f"{name} did not settle: {said}"
    return found


def _place(words: str) -> Point:
    side = next((s for s in ("left", "right") if s in words.split()), "")
    spot = " ".join(w for w in words.split() if w not in ("left", "right"))
    return spot_point(COURT, spot, side)


def _at(point: Point, words: str, tolerance: float) -> bool:
    """Near the named place; for the rim anywhere within arm's reach of it and the lane edge on the way."""
    if words == "rim":
        return point.distance(Point(0.0, COURT.rim)) <= 1.6
    return point.distance(_place(words)) <= tolerance


def _hands(timeline) -> list[int]:
    order = []
    for timed in timeline.timed.values():
        action = timed.action
        if isinstance(action, (Pass, HandOff)) and timed.cut_at is None and not getattr(action, "fake", False):
            order.append((timed.end, action.receiver))
    return [receiver for _, receiver in sorted(order)]


def _scorer(timeline) -> int | None:
    shots = [t.action.player for t in timeline.timed.values() if isinstance(t.action, Shot)]
    return shots[-1] if shots else timeline.branch.scorer


def test_every_set_has_its_facts_and_every_fact_its_set():
    """The table and the folder name the same sets, at least forty of them."""
    assert {p.name for p in _computed().book.plays} == set(FACTS)
    assert len(FACTS) >= 40


def test_the_sets_need_no_coordinate_and_no_allow():
    """Trade words reach: no metre, no foot, no silenced check in any file."""
    for path in BOOK.rglob("*.yml"):
        text = path.read_text(encoding="utf-8")
        assert "allow" not in text and " up]" not in text and " ft " not in text and " m " not in text, path


def test_no_set_has_an_error():
    """Every line of every set is understood, placed and timed."""
    assert [d for d in _computed().diagnostics if d.severity.value == "error"] == []


@pytest.mark.parametrize("name", FACTS)
def test_who_screens_whom_and_where(name):
    """The screens of the main line's first round, in order of writing."""
    main = _times(name).settled.main
    first = {key for phase in main.phases if phase.round == 0 for key in phase.actions}
    screens = [a for a in main.actions if isinstance(a, Screen) and a.key in first]
    assert len(screens) == len(FACTS[name].screens), [a.text for a in screens]
    for action, (screener, freed, place) in zip(screens, FACTS[name].screens):
        assert action.player == screener and freed in action.freed + action.on, action.text
        assert not place or _at(action.end, place, TOLERANCE), (action.text, action.place.words)


@pytest.mark.parametrize("name", FACTS)
def test_whose_hands_the_ball_goes_through(name):
    """The order of catches and hand-offs of the main line's first round."""
    hands = tuple(_hands(_times(name).main))
    assert hands[: len(FACTS[name].hands)] == FACTS[name].hands
    if FACTS[name].shooter is not None:
        assert hands == FACTS[name].hands


@pytest.mark.parametrize("name", [n for n in FACTS if FACTS[n].shooter is not None])
def test_who_shoots(name):
    """The main line ends in the shot of the right player."""
    assert _scorer(_times(name).main) == FACTS[name].shooter


@pytest.mark.parametrize("name", FACTS)
def test_where_two_players_end(name):
    """End spots of the main line's first round, once each has run his course (a shot may fall before)."""
    times = _times(name)
    main = times.settled.main
    first = [i for i, phase in enumerate(main.phases) if phase.round == 0]
    for player, words in FACTS[name].ends.items():
        ends = [t.end for t in times.main.timed.values() if t.action.player == player and t.action.phase in first]
        point = times.main.position(player, max(ends, default=0.0))
        assert _at(point, words, 0.8), (player, words, point)


@pytest.mark.parametrize("name", FACTS)
def test_what_one_coverage_changes(name):
    """The branch that answers the coverage ends with another shot than the main line, at its own place."""
    key, shooter, words = FACTS[name].change
    times = _times(name)
    branches = [
        b for b in times.settled.branches
        if b.departure is not None and key in b.forks[b.departure.fork].answer.key
    ]
    assert branches, f"no branch answers {key}"
    timeline = times.timelines[branches[0].key]
    if shooter is not None:
        assert _scorer(timeline) == shooter
        assert not words or _at(timeline.position(shooter, timeline.duration), words, 0.6)


# -- what the trade says about these sets: common practice, no source --------------------------------------


def _timed(name: str, text: str):
    """The timed action of the main line whose line begins with `text`."""
    return next(t for t in _times(name).main.timed.values() if t.action.text.startswith(text))


def test_low_shooter_the_middle_player_takes_his_man_away():
    """The player who clears opposite is on the other side when the low screen is used: his defender cannot switch."""
    main = _times("Low Shooter").main
    used = _timed("Low Shooter", "2 cuts off 5").instants[Instant.USE]
    assert main.position(3, used).x < -3.0 and main.defender(3, used).x < -1.0
    assert main.position(2, used).x > 1.0


def test_low_shooter_over_the_top_sends_him_back():
    """Defender over the top: he comes back the other way for the shot."""
    times = _times("Low Shooter")
    branch = next(b for b in times.settled.branches if b.departure and b.forks[b.departure.fork].answer.key == "go over")
    timeline = times.timelines[branch.key]
    used = _timed("Low Shooter", "2 cuts off 5").instants[Instant.USE]
    assert times.main.position(2, used).x > 0 > timeline.position(2, timeline.duration).x


def test_ghost_touches_nobody():
    """He passes ball handler and defenders with more than half a metre between centres, until he is past."""
    main = _times("Ghost").main
    ghost = _timed("Ghost", "3 ghosts")
    for i in range(int((ghost.end - ghost.start) / 0.1)):
        t = ghost.start + 0.1 * i
        assert main.position(3, t).distance(main.position(1, t)) > 0.5


def test_ram_the_ball_screener_is_screened_for_first():
    """5 uses 3's screen before his own is set, so that his defender comes late."""
    used = _timed("Ram", "5 cuts off 3").instants[Instant.USE]
    assert used < _timed("Ram", "5 ball screens").instants[Instant.SET]


def test_baseline_is_open_when_the_big_has_lifted():
    """As the wing catches the big leaves; when the drive begins neither he nor his man stands below the elbow."""
    main = _times("Baseline Open").main
    caught = _timed("Baseline Open", "1 passes to 2").instants[Instant.CATCH]
    lift = _timed("Baseline Open", "5 lifts")
    assert abs(lift.start - caught) < 0.3
    halfway = _timed("Baseline Open", "2 drives baseline").instants[Instant.HALFWAY]
    assert main.position(5, halfway).y > COURT.free_throw_line - 0.5
    assert main.defender(5, halfway).y > COURT.block_middle


def test_the_roller_is_freed_by_a_screen_on_his_own_man():
    """The back screen is on the ball screener's defender and stands when he rolls past it."""
    screen = _timed("Behind the Roller", "2 back screens")
    assert screen.action.on == (5,) or 5 in screen.action.freed
    assert screen.instants[Instant.SET] <= _timed("Behind the Roller", "5 rolls").instants[Instant.USE] + 0.05


def test_the_screener_of_the_cross_screen_is_the_one_who_shoots():
    """Screen, then be screened for: the cross is used before he uses the pin-down."""
    cross = _timed("Cross then Down", "5 cuts off 2").instants[Instant.USE]
    assert cross < _timed("Cross then Down", "2 cuts off 4").instants[Instant.USE]


def test_overload_leaves_the_corner_alone():
    """Two guards hold the top of the zone, 5 holds its low man: at the catch nobody is within a step and a half of 3."""
    main = _times("Overload").main
    caught = _timed("Overload", "2 passes to 3").instants[Instant.CATCH]
    shooter = main.position(3, caught)
    assert {2, 3, 5} <= {p for p in range(1, 6) if main.position(p, caught).x > 1.5}
    assert min(main.defender(x, caught).distance(shooter) for x in range(1, 6)) > 1.2


def test_the_hammer_ball_and_shooter_arrive_together():
    """The skip is caught when the shooter is in the corner and not a second later."""
    skip = _timed("Hammer", "3 skip passes").instants[Instant.CATCH]
    arrives = _timed("Hammer", "2 cuts off 4").end
    assert -0.05 <= skip - arrives < 1.0


def test_a_stagger_is_met_in_the_order_written():
    """5's screen before 4's; both stand when he passes."""
    main = _times("Stagger").main
    cut = _timed("Stagger", "2 cuts off 5")
    near = {}
    for use in cut.action.uses:
        times = [cut.start + 0.05 * i for i in range(int((cut.end - cut.start) / 0.05))]
        near[use.screener] = min(times, key=lambda t: main.position(2, t).distance(main.position(use.screener, t)))
    assert near[5] < near[4]
