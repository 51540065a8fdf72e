"""Stills of a branch: where the five stand and who has the ball, five times a second.

In: a Timeline; out: Still values at t = 0, 0.2, 0.4 ... up to the branch's end. Checks that ask about positions share
them, so that every position is computed once.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.court import Point
from generator.timeline.timed import Ball, Timeline

INTERVAL = 0.2
PLAYERS = (1, 2, 3, 4, 5)


@dataclass(frozen=True, slots=True)
class Still:
    """One instant. `places[n - 1]` is where player n stands."""

    t: float
    places: tuple[Point, ...]
    ball: Ball

    def place(self, player: int) -> Point:
        """Where a player stands."""
        return self.places[player - 1]


def film(timeline: Timeline, first: int = 0) -> tuple[Still, ...]:
    """The stills from number `first` on; the last one is the end of the branch."""
    count = int(timeline.duration / INTERVAL) + 1
    instants = [i * INTERVAL for i in range(first, count)]
    if not instants or timeline.duration - instants[-1] > 1e-6:
        instants.append(timeline.duration)
    return tuple(_still(timeline, t) for t in instants)


def _still(timeline: Timeline, t: float) -> Still:
    return Still(t, tuple(timeline.position(p, t) for p in PLAYERS), timeline.ball(t))


def closest_approach(a: Still, b: Still, first: int, second: int) -> tuple[float, float]:
    """(smallest distance of two players between two stills, its second), both taken to run straight between them."""
    p, q = a.place(first), a.place(second)
    u, v = b.place(first), b.place(second)
    x, y = p.x - q.x, p.y - q.y
    dx, dy = (u.x - v.x) - x, (u.y - v.y) - y
    length = dx * dx + dy * dy
    share = 0.0 if length < 1e-12 else min(1.0, max(0.0, -(x * dx + y * dy) / length))
    distance = ((x + share * dx) ** 2 + (y + share * dy) ** 2) ** 0.5
    return distance, a.t + share * (b.t - a.t)
