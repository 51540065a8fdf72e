"""pass-lane: a pass goes through a teammate's body.

What: where the ball is in the air, no teammate stands within a ball's width of its way; a lob goes above them, and so
does a skip or an overhead pass.
Why: he is hit in the back, or his defender has the ball.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 2 shoots]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: nail, 5: front of the rim}
    phases:
      - {name: Through, do: [1 passes to 5, 5 finishes]}
Source: ours; half a body and half a ball.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding
from generator.checks.stills import PLAYERS
from generator.diagnostics import Severity
from generator.model.court import Point
from generator.model.settled import Instant, Pass, PassKind
from generator.timeline.timed import Timed, Timeline

RULE = "pass-lane"
BODY = 0.4  # metres from the ball's way to the middle of a body
HANDS = 0.8  # so near to passer or receiver nobody is in the way
OVER_HEADS = frozenset({PassKind.LOB, PassKind.SKIP, PassKind.OVERHEAD, PassKind.HIGH_LOW, PassKind.BASEBALL})


def check(case: Case) -> Iterator[Finding]:
    """One finding a pass."""
    for branch, timeline in case.timelines():
        for timed in case.own(branch):
            action = timed.action
            if caught(timed) and action.pass_kind not in OVER_HEADS:
                hit = _hit(timeline, timed)
                if hit is not None:
                    yield case.found(
                        Severity.WARNING, RULE, branch, action,
                        f"{action.player}'s pass to {action.receiver} goes through {hit}",
                        f"move {hit} out of the way first, or write `lobs` or `skip passes`", topic=action.key,
                    )


def caught(timed: Timed) -> bool:
    """A pass that was thrown and caught: no read has stopped it."""
    return isinstance(timed.action, Pass) and Instant.CATCH in timed.instants


def _hit(timeline: Timeline, timed: Timed) -> int | None:
    action = timed.action
    assert isinstance(action, Pass)
    release, catch = timed.instants[Instant.RELEASE], timed.instants[Instant.CATCH]
    a, b = timeline.position(action.player, release), timeline.position(action.receiver, catch)
    length = a.distance(b)
    for player in PLAYERS:
        if player in (action.player, action.receiver) or length < 2 * HANDS:
            continue
        for share in (0.25, 0.5, 0.75, _share(a, b, timeline.position(player, (release + catch) / 2))):
            point = Point(a.x + share * (b.x - a.x), a.y + share * (b.y - a.y))
            body = timeline.position(player, release + share * (catch - release))
            if HANDS < share * length < length - HANDS and point.distance(body) < BODY:
                return player
    return None


def _share(a: Point, b: Point, p: Point) -> float:
    """How far along a-b the point nearest to p lies, 0 to 1."""
    dx, dy = b.x - a.x, b.y - a.y
    return min(1.0, max(0.0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy)))
