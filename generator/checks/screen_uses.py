"""Pairs of a screen and the move that uses it, with their instants.

In: a Case and one of its branches; out: Used values for screens whose setting or use is the branch's own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.checks.finding import Case
from generator.checks.screen_shapes import Shape
from generator.model.settled import Branch, Instant, Move, Screen, Use
from generator.timeline.timed import Timed, Timeline

TICK = 0.04  # seconds


@dataclass(frozen=True, slots=True)
class Used:
    """`screen` and `move` timed; `use` is the move's word about it; `at` the second of shoulder to shoulder."""

    screen: Timed
    move: Timed
    use: Use
    at: float


def uses(case: Case, branch: Branch) -> Iterator[Used]:
    """Every use of a set screen in the branch that its parent does not have."""
    timeline = case.times.timelines[branch.key]
    for timed in case.own(branch):
        if isinstance(timed.action, Move):
            yield from _of_move(timeline, timed)


def _of_move(timeline: Timeline, timed: Timed) -> Iterator[Used]:
    if timed.cut_at is not None:
        return
    for use in timed.action.uses:
        screen = timeline.timed.get(use.screen) if use.screen else None
        if screen is not None:
            yield Used(screen, timed, use, _instant(timeline, timed, screen))


def _instant(timeline: Timeline, timed: Timed, screen: Timed) -> float:
    """Shoulder to shoulder: the USE instant for one screener, else when the user is nearest to the screener's place."""
    if len(timed.action.uses) == 1 and Instant.USE in timed.instants:
        return timed.instants[Instant.USE]
    stands = timeline.position(screen.action.player, screen.end)
    steps = max(1, int((timed.end - timed.start) / TICK))
    instants = [timed.start + i * TICK for i in range(steps + 1)]
    return min(instants, key=lambda t: timeline.position(timed.action.player, t).distance(stands))


def shape_of(case: Case, branch: Branch, used: Used) -> Shape:
    """The use seen from above. The goal is where the move ends, or turns next if it has a way to go."""
    timeline = case.times.timelines[branch.key]
    screen, move = used.screen.action, used.move.action
    assert isinstance(screen, Screen) and isinstance(move, Move)
    next_screens = [
        t.action for t in timeline.timed.values()
        if isinstance(t.action, Screen) and t.action.player == move.player and t.start >= used.at
    ]
    return Shape(
        court=case.court, start=move.origin, goal=move.end, came=screen.origin, stands=screen.end,
        ball=timeline.ball(used.at).point, user_has_ball=move.with_ball,
        frees_a_ball_screener=bool(next_screens) and next_screens[0].ball_screen,
    )
