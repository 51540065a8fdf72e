"""Where defenders stand when nobody has named a coverage: on the ball, one pass away, in help, on a post, in a zone.

In: men, ball point and holder weights of one instant; out: a target in metres (timeline.md 5.2, 5.3). Weights only,
never "who is nearest": categories jump.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from generator.model.court import Point
from generator.timeline.taut import toward, unit


def smooth(k: float) -> float:
    """Smoothstep, clamped to [0, 1]."""
    k = min(1.0, max(0.0, k))
    return k * k * (3 - 2 * k)


def mix(a: Point, b: Point, k: float) -> Point:
    """a at k = 0, b at k = 1."""
    return Point(a[0] + k * (b[0] - a[0]), a[1] + k * (b[1] - a[1]))


@dataclass(frozen=True, slots=True)
class Moment:
    """One instant seen by the defence: offence places, the flying or held ball, each man's share of it (0 to 1), rim."""

    t: float
    men: dict[int, Point]
    ball: Point
    share: dict[int, float]
    rim: Point


def on_ball(p: Point, rim: Point) -> Point:
    """A step off the man with the ball, toward the rim."""
    return toward(p, rim, min(1.0, 0.5 * hypot(p[0] - rim[0], p[1] - rim[1])))


def off_ball(p: Point, ball: Point, rim: Point) -> Point:
    """One pass away: on the line, up the line; farther: help toward the lane; near the rim: three-quarter front."""
    bx, by = ball[0] - p[0], ball[1] - p[1]
    up = Point(p[0] + 0.28 * bx, p[1] + 0.28 * by)
    one = toward(up, rim, min(0.9, 0.3 * hypot(up[0] - rim[0], up[1] - rim[1])))
    two = Point(0.30 * p[0] + 0.10 * ball[0], rim[1] + 0.42 * (p[1] - rim[1]) + 0.12 * (ball[1] - rim[1]))
    out = mix(one, two, smooth((hypot(bx, by) - 5.2) / 3.0))
    near = 1 - smooth((hypot(p[0] - rim[0], p[1] - rim[1]) - 2.6) / 2.0)
    if near <= 0:
        return out
    to_ball, to_rim = unit(bx, by), unit(rim[0] - p[0], rim[1] - p[1])
    side = unit(0.75 * to_ball[0] + 0.55 * to_rim[0], 0.75 * to_ball[1] + 0.55 * to_rim[1])
    return mix(out, Point(p[0] + 0.75 * side[0], p[1] + 0.75 * side[1]), near)


def man_target(now: Moment, man: int) -> Point:
    """The place of the defender who guards `man`."""
    p, share = now.men[man], now.share.get(man, 0.0)
    if share >= 1.0:
        return on_ball(p, now.rim)
    off = off_ball(p, now.ball, now.rim)
    return mix(off, on_ball(p, now.rim), share) if share > 0 else off


def area_target(now: Moment, middle: Point, others: tuple[Point, ...] = ()) -> Point:
    """A zone defender: his area's middle shifted toward the ball, and out to the ball when it is nearest to his area.

    Two areas as near as each other share it half and half, so nobody jumps. No rulebook or coach behind the numbers.
    """
    shifted = Point(middle[0] + 0.28 * (now.ball[0] - middle[0]), middle[1] + 0.16 * (now.ball[1] - middle[1]))
    apart = hypot(now.ball[0] - middle[0], now.ball[1] - middle[1])
    nearest = min((hypot(now.ball[0] - q[0], now.ball[1] - q[1]) for q in others), default=apart + 2.0)
    mine = smooth((nearest - apart) / 2.0 + 0.5)
    holder = max(now.share.values(), default=0.0)
    return mix(shifted, on_ball(now.ball, now.rim), 0.9 * mine * smooth((9.0 - apart) / 3.0) * holder)
