"""Where ball and runner meet when the runner does not stop for it (timeline.md 3.3)."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from generator.model.court import Point

if TYPE_CHECKING:
    from generator.timeline.courses import Course

LONGEST = 4.0  # s


def catch_time(course: Course, member: int, run_start: float, passer: Point, release: float, speed: float) -> float:
    """c with c = release + dist(P(c), passer) / speed, by bisection: unique because the runner is slower than the ball."""
    end_time = course.times(member)[1]

    def early(c: float) -> bool:
        s, _ = course.map.at(min(max(0.0, c - run_start), end_time))
        x, y = course.curve.at(s)
        return c < release + hypot(x - passer[0], y - passer[1]) / speed

    low, high = release, release + LONGEST
    while early(high):
        low, high = high, high + LONGEST
    while high - low > 1e-9:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if early(middle) else (low, middle)
    return high
