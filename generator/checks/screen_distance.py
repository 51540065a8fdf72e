"""screen-distance: a screen is set so near to the defender that he cannot stop or step round it.

What: the room between the place of the screen and the freed player's defender, in normal steps: none needed while he
stands and sees the screener; one where he stands and does not see him; one where he runs toward the screen, and two
where he runs at speed. He is taken where the tool has him when the screener is a metre from his place, before he makes
way; he looks between his man and the ball. Only screens with a named place are judged: without one, or where the place
named is the freed player's own, the tool keeps the step itself. In a zone nobody can say whose defender it is, so nothing
is told.
Why: without that room the contact is the screener's foul, however still he stands.
Passes:
    play: Good
    start: {1: top with the ball, 2: right corner, 3: left corner, 4: left wing, 5: left block}
    phases:
      - {name: Flat, do: [5 ball screens for 1 at 5 ft right of top, 1 dribbles off 5 to right slot, 5 rolls, 1 shoots]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right corner, 3: left corner, 4: left wing, 5: left block}
    phases:
      - {name: Flat, do: [5 ball screens for 1 at 4 ft below top, 1 dribbles off 5 to right slot, 5 rolls, 1 shoots]}
Source: FIBA Official Basketball Rules Art. 33.7 (2010 text in full, 2022 in part); NBA Rule 12-B-III (older text); NCAA
4-35 and App. III sec. 2, 2021-22 (women's from memory); NFHS 4-40 and 10-6-3. No book gives the length of a step:
0.75 m, from memory. What counts as speed (3 m/s) is ours.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.checks.finding import Case, Finding
from generator.checks.screen_uses import Used, uses
from generator.diagnostics import Severity
from generator.model.court import Point, RuleSet
from generator.model.settled import Branch, Instant, Screen
from generator.timeline.parameters import ON_HIM
from generator.timeline.timed import Timeline

RULE = "screen-distance"
STEP = 0.75  # metres
ARRIVES = 1.0  # metres from his place: nearer than that the defender is making way for him
STANDS, RUNS = 1.0, 3.0  # metres a second toward the screen
TICK = 0.05
MAN_TO_MAN = ("man", "man press")
BOOKS = {
    RuleSet.INTERNATIONAL: "FIBA Art. 33.7, 2022", RuleSet.PROFESSIONAL: "NBA Rule 12-B-III, older text",
    RuleSet.COLLEGE: "NCAA App. III sec. 2, 2021-22", RuleSet.HIGH_SCHOOL: "NFHS 4-40",
}


@dataclass(frozen=True, slots=True)
class Room:
    """`gap` metres from the defender to the screen's place, `toward` his speed that way in m/s, `sees` the screener."""

    gap: float
    toward: float
    sees: bool


def check(case: Case) -> Iterator[Finding]:
    """One finding a screen with a named place."""
    if case.play.against not in MAN_TO_MAN:
        return
    for branch, timeline in case.timelines():
        for used in uses(case, branch):
            if used.screen.action.place_given and not _where_he_stands(used):
                yield from _judge(case, branch, timeline, used)


def _where_he_stands(used: Used) -> bool:
    """`down screens for 3 at left block` with 3 on the left block tells where 3 is found: the tool keeps the step itself."""
    return used.screen.action.end.distance(used.move.action.origin) < ON_HIM


def steps_needed(room: Room) -> int:
    """Normal steps between screener and defender, by every book alike: 0 still in view, 1 still and blind, 1 to 2 on
    the move by his speed."""
    if room.toward > RUNS:
        return 2
    return 1 if room.toward > STANDS or not room.sees else 0


def _judge(case: Case, branch: Branch, timeline: Timeline, used: Used) -> Iterator[Finding]:
    screen = used.screen.action
    assert isinstance(screen, Screen)
    room = room_at(timeline, used)
    steps = steps_needed(room)
    if room.gap >= steps * STEP:
        return
    user = used.move.action.player
    state = "who runs at him" if room.toward > STANDS else "who does not see him"
    words = "one step" if steps == 1 else "two steps"
    yield case.found(
        Severity.WARNING, RULE, branch, screen,
        f"{screen.player} sets his screen {room.gap:.1f} m from {user}'s defender, {state} and needs {words} "
        f"({BOOKS[case.book.team.rule_set]})",
        "leave the place out (he will stand a step away), or name one farther off", topic=screen.key,
    )


def room_at(timeline: Timeline, used: Used) -> Room:
    """The defender against the place of the screen, just before he makes way for the screener."""
    screener, user = used.screen.action.player, used.move.action.player
    place = timeline.position(screener, used.screen.end)
    t = used.screen.instants.get(Instant.SET, used.screen.end)
    while t > used.screen.start and timeline.position(screener, t).distance(place) < ARRIVES:
        t -= TICK
    guard, before = timeline.defender(user, t), timeline.defender(user, t - 2 * TICK)
    way = _unit(guard, place)
    man, ball = _unit(guard, timeline.position(user, t)), _unit(guard, timeline.ball(t).point)
    toward = ((guard.x - before.x) * way.x + (guard.y - before.y) * way.y) / (2 * TICK)
    sees = (man.x + ball.x) * way.x + (man.y + ball.y) * way.y >= 0.0
    return Room(guard.distance(place), toward, sees)


def _unit(a: Point, b: Point) -> Point:
    length = a.distance(b) or 1.0
    return Point((b.x - a.x) / length, (b.y - a.y) / length)
