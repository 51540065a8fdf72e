"""A second opinion on fairness: what an option leads to, read off the timeline alone.

Knows nothing of how questions are made. An option names a stretch (branch, player, from, to); here that stretch is
played: where he is at its end, from whom he gets the ball, to whom it goes from his hands, for whom he screens,
whether he shoots.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.model.court import Point
from generator.model.settled import Screen, Shot

STEP = 0.05


@dataclass
class Seen:
    """What a watcher writes down about one player."""

    end: Point
    gets: set[int] = field(default_factory=set)
    gives: set[int] = field(default_factory=set)
    screens: set[tuple[int, ...]] = field(default_factory=set)
    shoots: bool = False

    def within(self, truth: Seen) -> bool:
        """Nothing with ball or screen that the other does not do as well."""
        return (
            self.gets <= truth.gets and self.gives <= truth.gives and self.screens <= truth.screens
            and (truth.shoots or not self.shoots)
        )


def watch(timeline, player: int, start: float, end: float, mirrored: bool = False) -> Seen:
    """Plays `start` to `end` and notes what this player does."""
    place = timeline.position(player, end)
    seen = Seen(place.mirrored() if mirrored else place)
    steps = max(1, round((end - start) / STEP))
    holder, passer = None, None
    for i in range(-1, steps + 2):
        t = min(max(0.0, start + i * STEP), timeline.duration)
        ball = timeline.ball(t)
        if ball.holder is None:
            passer = ball.passer
            continue
        if holder is not None and ball.holder != holder:
            if ball.holder == player:
                seen.gets.add(holder)
            if holder == player:
                seen.gives.add(ball.holder)
        elif holder is None and passer is not None and ball.holder == player and passer != player:
            seen.gets.add(passer)
        holder = ball.holder
    if passer == player and holder is None:
        seen.gives.add(timeline.ball(min(end, timeline.duration)).receiver or 0)
    for key, timed in timeline.timed.items():
        action = timeline.branch.action(key)
        if action.player == player and start - STEP <= timed.end and timed.start <= end + STEP:
            if isinstance(action, Screen):
                seen.screens.add(tuple(sorted(action.freed)))
            if isinstance(action, Shot):
                seen.shoots = True
    return seen


def next_holder(timeline, passer: int, start: float) -> int | None:
    """Who has the ball next after `passer` has had it, from `start` on."""
    t, had = start, False
    while t <= timeline.duration + STEP:
        holder = timeline.ball(min(t, timeline.duration)).holder
        if holder == passer:
            had = True
        elif holder is not None and had:
            return holder
        t += STEP
    return None
