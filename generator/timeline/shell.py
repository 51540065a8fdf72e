"""Where defenders stand when nobody has named a coverage: on the ball, one pass away, in help, on a post, in a zone.

In: men, ball point and holder weights of one instant; out: a target in metres (timeline.md 5.2, 5.3). Weights only,
never "who is nearest": categories jump.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import hypot

from generator.model.court import Point
from generator.model.zone_shifts import Stand
from generator.timeline.parameters import BEHIND_CHASER, LOOSE
from generator.timeline.taut import toward, unit


def smooth(k: float) -> float:
    """Smoothstep, clamped to [0, 1]."""
    k = min(1.0, max(0.0, k))
    return k * k * (3 - 2 * k)


def rounded(p: Point) -> Point:
    """To a micrometre: what the defence reads of a mirrored play is the exact mirror image, so its tracks are too (the
    last digits of two ways of adding would grow where a man steps aside to one hand or the other)."""
    return Point(round(p[0], 6), round(p[1], 6))


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


def press_target(now: Moment, man: int) -> Point:
    """Man-to-man over the whole floor: on the ball, else in his man's way to it, an arm nearer the rim the farther the
    ball is; nobody sags into a lane that is half a floor away. Judged by eye, no source."""
    p, share = now.men[man], now.share.get(man, 0.0)
    far = hypot(now.ball[0] - p[0], now.ball[1] - p[1])
    denies = toward(toward(p, now.ball, min(1.0, 0.4 * far)), now.rim, 0.3 + 0.9 * smooth((far - 5.0) / 6.0))
    return mix(denies, on_ball(p, now.rim), share)


def area_target(now: Moment, stands: Callable[[Point], Stand], chased: frozenset[int] = frozenset(),
                mind: tuple[float, float] = LOOSE) -> Point:
    """A zone defender: where his area shifts to for the ball (`zone_shifts.py`), out to it when it is his, and toward a
    man who stands in his area.

    In a pass he goes from the place for the passer to the place for the receiver, so a skip over the zone pulls nobody to
    its middle. A man with a chaser of his own is left to him: the area only closes the way behind. No rulebook or coach
    behind the numbers.
    """
    held = sum(now.share.values())
    x = y = 0.0
    for man, share in now.share.items():
        if share > 0.0:
            p = _stands_for(now, stands(now.men[man]), now.men[man], man in chased, mind)
            x, y = x + share * p[0], y + share * p[1]
    if held < 1.0:
        loose = stands(now.ball).place
        x, y = x + (1.0 - held) * loose[0], y + (1.0 - held) * loose[1]
    return Point(x, y)


def _stands_for(now: Moment, stand: Stand, ball: Point, chased: bool, mind: tuple[float, float]) -> Point:
    """His place while somebody at `ball` has it."""
    going = on_ball(ball, now.rim) if not chased else toward(ball, now.rim, BEHIND_CHASER)
    return mix(_to_men(now, stand.place, ball, mind), going, stand.out)


def _to_men(now: Moment, place: Point, ball: Point, mind: tuple[float, float]) -> Point:
    """Shifted toward the men of the area who are a pass from the ball: low men in front, others an arm away."""
    x, y = place
    for p in now.men.values():
        from_ball = hypot(p[0] - ball[0], p[1] - ball[1])
        near = smooth((mind[0] - hypot(p[0] - place[0], p[1] - place[1])) / 1.4)
        k = mind[1] * near * smooth((from_ball - 0.5) / 1.0) * (1 - smooth((from_ball - 5.5) / 2.5))
        if k > 0.0:
            q = off_ball(p, ball, now.rim)
            x, y = x + k * (q[0] - place[0]), y + k * (q[1] - place[1])
    return Point(x, y)
