"""A second opinion on fairness: what an option leads to, read off the timeline alone.

Knows nothing of how questions are made. An option names a stretch (branch, player, from, to); here that stretch is
played: where he is at its end, from whom he gets the ball, to whom it goes from his hands, for whom he screens,
whether he shoots.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.model.court import Point
from generator.model.settled import Instant, Screen, Shot

STEP = 0.05
APART = 1.5  # metres: nearer places are one place


@dataclass
class Seen:
    """What a watcher writes down about one player: `gets` and `gives` as (other player, where the ball was caught)."""

    end: Point
    gets: list[tuple[int, Point]] = field(default_factory=list)
    gives: list[tuple[int, Point]] = field(default_factory=list)
    screens: list[tuple[tuple[int, ...], Point]] = field(default_factory=list)  # for whom, where
    shoots: bool = False

    @property
    def acts(self) -> bool:
        """Something with ball or screen."""
        return bool(self.gets or self.gives or self.screens or self.shoots)

    def within(self, truth: Seen) -> bool:
        """Nothing with ball or screen that the other does not do as well."""
        return (
            all(_known(e, truth.gets) for e in self.gets) and all(_known(e, truth.gives) for e in self.gives)
            and all(_known(e, truth.screens) for e in self.screens) and (truth.shoots or not self.shoots)
        )


def _known(event: tuple, events: list[tuple]) -> bool:
    return any(n == event[0] and p.distance(event[1]) <= APART for n, p in events)


def watch(timeline, player: int, start: float, end: float, mirrored: bool = False) -> Seen:
    """Plays `start` to `end` and notes what this player does."""
    turn = Point.mirrored if mirrored else (lambda p: p)
    seen = Seen(turn(timeline.position(player, end)))
    for giver, taker, t in _ball_changes(timeline, start, end):
        where = turn(timeline.position(taker, t))
        if taker == player:
            seen.gets.append((giver, where))
        if giver == player:
            seen.gives.append((taker, where))
    for key, timed in timeline.timed.items():
        action = timeline.branch.action(key)
        if action.player == player and start - STEP <= timed.end and timed.start <= end + STEP:
            if isinstance(action, Screen):
                stands = turn(timeline.position(player, timed.instants.get(Instant.SET, timed.end)))
                seen.screens.append((tuple(sorted(action.freed)), stands))
            if isinstance(action, Shot):
                seen.shoots = True
    return seen


def _ball_changes(timeline, start: float, end: float):
    """(giver, taker, second) of every change of hands in a stretch; a ball still in the air at its end counts."""
    before = None
    for i in range(-1, round((end - start) / STEP) + 3):
        t = min(max(0.0, start + i * STEP), timeline.duration)
        now = timeline.ball(t)
        if before is not None:
            flew = before.holder is None and before.passer is not None
            landed = flew and before.receiver is not None and now.holder == before.receiver
            handed = before.holder is not None and now.holder is not None and now.holder != before.holder
            if landed:
                yield before.passer, before.receiver, t
            elif handed:
                yield before.holder, now.holder, t
        before = now
    if before is not None and before.holder is None and before.passer is not None and before.receiver is not None:
        yield before.passer, before.receiver, end


def next_holder(timeline, passer: int, start: float) -> int | None:
    """Who has the ball next after `passer` has had it, from `start` on."""
    t, had = start, False
    while t <= timeline.duration + STEP:
        holder = timeline.ball(min(t, timeline.duration)).holder
        if passer in (holder, timeline.ball(min(t, timeline.duration)).passer):
            had = True
        elif holder is not None and had:
            return holder
        t += STEP
    return None


def opening_holder(timeline) -> int | None:
    """Who has the ball before anything happens (a pass may leave his hand in the first instant)."""
    ball = timeline.ball(0.0)
    return ball.holder or ball.passer
