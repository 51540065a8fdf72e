"""Turn or plant: which is faster where a way bends (timeline.md 2.8)."""

from __future__ import annotations

from functools import lru_cache
from math import acos, hypot, pi, sqrt, tan

from generator.model.court import Point
from generator.timeline.parameters import CORNER, TURN_RADII, Pace
from generator.timeline.time_map import Leg, run_legs

GENTLE = pi / 9  # below 20 degrees the default rounding is as good
FAR = 4.0  # legs are compared over this much of their length


def best_turn(before: Point, corner: Point, after: Point, strive: float, pace: Pace) -> float:
    """Radius of the fastest turn at `corner`; 0 for a plant."""
    ax, ay = corner[0] - before[0], corner[1] - before[1]
    bx, by = after[0] - corner[0], after[1] - corner[1]
    a, b = hypot(ax, ay), hypot(bx, by)
    if a < 1e-9 or b < 1e-9:
        return CORNER
    angle = acos(min(1.0, max(-1.0, (ax * bx + ay * by) / (a * b))))
    if angle < GENTLE:
        return CORNER
    numbers = (pace.tau, pace.braking, pace.cornering, pace.plant)
    return _best(round(min(a, FAR), 3), round(min(b, FAR), 3), round(angle, 4), round(strive, 4), numbers)


@lru_cache(maxsize=4096)
def _best(a: float, b: float, angle: float, strive: float, numbers: tuple[float, float, float, float]) -> float:
    tau, braking, cornering, plant = numbers
    best = run_legs([Leg(a, strive, strive, plant), Leg(b, strive, strive)], tau, braking).total
    chosen = 0.0
    if angle > pi - 0.02:
        return chosen
    for radius in TURN_RADII:
        t = min(radius * tan(angle / 2), 0.98 * a, 0.98 * b)
        bend = t / tan(angle / 2)
        cap = min(strive, sqrt(cornering * bend))
        legs = [Leg(a - t, strive, strive), Leg(bend * angle, strive, cap), Leg(b - t, strive, strive)]
        total = run_legs(legs, tau, braking).total
        if total < best - 1e-9:
            best, chosen = total, radius
    return chosen
