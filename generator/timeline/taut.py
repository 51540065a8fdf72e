"""The shortest way past circles and points: tangents between them, arcs round them, corners rounded.

In: a list of `Knot`s (a point is a circle of radius 0; g = +1 keeps the circle on the runner's left). Out: pieces.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import asin, atan2, cos, hypot, pi, sin, tan

from generator.model.court import Point
from generator.timeline.parameters import CORNER, LOOSE_TURN, SCREEN_TURN, SHOULDER
from generator.timeline.pieces import TURN, Arc, Line, Piece

LIFTED = 1.5 * pi  # a sweep beyond this: the taut line leaves the circle on that side
SMALL = 1e-9


@dataclass(frozen=True, slots=True)
class Knot:
    """A place the way goes through (r 0) or round (r > 0, sense g). `rounding` is the radius of the corner at a point;
    `grow` says that the circle is a screener's, so a larger one that touches it may be taken."""

    centre: Point
    r: float = 0.0
    g: int = 0
    rounding: float = CORNER
    grow: bool = False


@dataclass(frozen=True, slots=True)
class Corner:
    """A bend between two straight pieces, before rounding: its point, and the turn's radius (0: a plant)."""

    point: Point
    rounding: float


def unit(x: float, y: float) -> Point:
    """(x, y) at length 1; (0, 0) stays."""
    length = hypot(x, y)
    return Point(x / length, y / length) if length > 1e-12 else Point(0.0, 0.0)


def toward(p: Point, q: Point, k: float) -> Point:
    """k metres from p to q."""
    u = unit(q[0] - p[0], q[1] - p[1])
    return Point(p[0] + k * u[0], p[1] + k * u[1])


def cross(a: Point, b: Point) -> float:
    """z of the cross product: positive when b lies counter-clockwise of a."""
    return a[0] * b[1] - a[1] * b[0]


def tangent(a: Knot, b: Knot) -> float | None:
    """Angle of the tangent from a to b; None where one lies inside the other."""
    dx, dy = b.centre[0] - a.centre[0], b.centre[1] - a.centre[1]
    distance = hypot(dx, dy)
    shift = b.g * b.r - a.g * a.r
    if distance < SMALL or abs(shift) > distance:
        return None
    return atan2(dy, dx) - asin(shift / distance)


def _touch(knot: Knot, direction: float) -> Point:
    """Where the tangent of that direction touches the knot: its centre lies g r to the left."""
    return Point(knot.centre[0] + knot.g * knot.r * sin(direction), knot.centre[1] - knot.g * knot.r * cos(direction))


def _sweep(knot: Knot, into: float, out: float) -> float:
    """How far the way wraps round the knot, in [0, 2 pi)."""
    sweep = (knot.g * (out - into)) % TURN
    return 0.0 if sweep > TURN - 1e-6 else sweep


def _directions(knots: Sequence[Knot]) -> list[float] | None:
    found = []
    for a, b in pairwise(knots):
        direction = tangent(a, b)
        if direction is None:
            return None
        found.append(direction)
    return found


def middle_normal(knot: Knot, into: float, out: float) -> Point:
    """Unit vector from the knot's centre to the middle of the arc round it."""
    middle = into - knot.g * pi / 2 + knot.g * _sweep(knot, into, out) / 2
    return Point(cos(middle), sin(middle))


def settle_knots(knots: Sequence[Knot]) -> list[Knot]:
    """Knots whose tangents all exist and wrap: loose circles become touch points, screeners' circles grow.

    timeline.md 1.2-1.4. A circle that cannot be wrapped at all becomes a touch point too.
    """
    settled = _shrunk(knots)
    for _ in range(len(knots)):
        loose = _first_loose(settled)
        if loose is None:
            break
        touch = _touch_point(settled, loose)
        if _seen_from(settled, loose, touch):
            settled[loose] = touch
        else:
            del settled[loose]  # he is past the screener already
    for i in range(1, len(settled) - 1):
        if settled[i].grow and settled[i].r:
            settled[i] = _grown(settled, i)
    return settled


def _shrunk(knots: Sequence[Knot]) -> list[Knot]:
    """Circles round standing players never hold a neighbour inside."""
    out = list(knots)
    for i in range(1, len(knots) - 1):
        knot = knots[i]
        if knot.r and not knot.grow:
            near = min(
                hypot(k.centre[0] - knot.centre[0], k.centre[1] - knot.centre[1]) for k in (knots[i - 1], knots[i + 1]) if not k.r
            ) if not (knots[i - 1].r and knots[i + 1].r) else knot.r + 1
            out[i] = Knot(knot.centre, max(0.3, min(knot.r, near - 0.02)), knot.g)
    return out


def _first_loose(knots: list[Knot]) -> int | None:
    for i in range(1, len(knots) - 1):
        if not knots[i].r:
            continue
        into, out = tangent(knots[i - 1], knots[i]), tangent(knots[i], knots[i + 1])
        if into is None or out is None:
            return i
        sweep = _sweep(knots[i], into, out)
        if sweep == 0.0 or sweep > LIFTED:
            return i
    return None


def _touch_point(knots: list[Knot], i: int) -> Knot:
    """T = S + r n, n the normal of the straight way on the runner's side (timeline.md 1.4).

    T moves toward S by what the rounding will open, R (1 / cos(th / 2) - 1), so the rounded way touches; where that would
    be too much the turn gets tighter.
    """
    knot, p, q = knots[i], knots[i - 1].centre, knots[i + 1].centre
    touch = _bend_at(knot, p, q)
    if knots[i - 1].r or knots[i + 1].r:  # round a neighbour the way does not lead to its middle
        into, out = tangent(knots[i - 1], touch), tangent(touch, knots[i + 1])
        if into is not None and out is not None:
            touch = _bend_at(knot, _touch(knots[i - 1], into), _touch(knots[i + 1], out))
    return touch


def _bend_at(knot: Knot, p: Point, q: Point) -> Knot:
    u = unit(q[0] - p[0], q[1] - p[1])
    if u == (0.0, 0.0):
        u = unit(knot.centre[1] - p[1], p[0] - knot.centre[0])
    n = Point(knot.g * u[1], -knot.g * u[0])
    x, y = knot.centre[0] + knot.r * n[0], knot.centre[1] + knot.r * n[1]
    half = abs(turn_at(Line(p, Point(x, y)), Line(Point(x, y), q))) / 2
    opens = 1 / cos(half) - 1 if half < 1.5 else 20.0
    rounding = min(LOOSE_TURN, 0.5 * knot.r / opens) if opens > 1e-9 else LOOSE_TURN
    k = knot.r - rounding * opens
    return Knot(Point(knot.centre[0] + k * n[0], knot.centre[1] + k * n[1]), rounding=rounding)


def _seen_from(knots: list[Knot], i: int, touch: Knot) -> bool:
    """True when the bend at the touch point, once rounded, does not cut through the circle."""
    before, after = tangent(knots[i - 1], touch), tangent(touch, knots[i + 1])
    if before is None or after is None:
        return False
    p, q = _touch(knots[i - 1], before), _touch(knots[i + 1], after)
    bend = round_corners([Line(p, touch.centre), Corner(touch.centre, touch.rounding), Line(touch.centre, q)])
    return min(piece.nearest(knots[i].centre)[1] for piece in bend) >= knots[i].r - 0.005


def _grown(knots: list[Knot], i: int) -> Knot:
    """The larger circle that touches the screener's from outside on the runner's side (timeline.md 1.3)."""
    small = knots[i]
    into, out = tangent(knots[i - 1], small), tangent(small, knots[i + 1])
    n = middle_normal(small, into, out)
    radius = SCREEN_TURN
    while radius - small.r >= 0.02:
        k = small.r - radius
        large = Knot(Point(small.centre[0] + k * n[0], small.centre[1] + k * n[1]), radius, small.g)
        a, b = tangent(knots[i - 1], large), tangent(large, knots[i + 1])
        if a is not None and b is not None and 0.0 < _sweep(large, a, b) < LIFTED:
            return large
        radius = small.r + 0.7 * (radius - small.r)
    return small


def thread(knots: Sequence[Knot]) -> tuple[list[Piece | Corner], bool]:
    """Pieces along settled knots, corners still sharp. False when a tangent is missing (the way then goes straight)."""
    directions = _directions(knots)
    if directions is None:
        ends = [Knot(knots[0].centre), *[k for k in knots[1:-1] if not k.r], knots[-1]]
        return _straight(ends), False
    pieces: list[Piece | Corner] = []
    for i, direction in enumerate(directions):
        start, end = _touch(knots[i], direction), _touch(knots[i + 1], direction)
        if hypot(end[0] - start[0], end[1] - start[1]) > SMALL:
            pieces.append(Line(start, end))
        if i + 1 == len(directions):
            break
        following = knots[i + 1]
        if following.r:
            sweep = _sweep(following, direction, directions[i + 1])
            pieces.append(Arc(following.centre, following.r, direction - following.g * pi / 2, following.g * sweep))
        else:
            pieces.append(Corner(following.centre, following.rounding))
    return pieces, True


def _straight(knots: Sequence[Knot]) -> list[Piece | Corner]:
    pieces: list[Piece | Corner] = []
    for a, b in pairwise(knots):
        if pieces:
            pieces.append(Corner(a.centre, a.rounding))
        pieces.append(Line(a.centre, b.centre))
    return pieces


def turn_at(before: Line, after: Line) -> float:
    """Signed angle between two straight pieces."""
    a, b = before.heading(0.0), after.heading(0.0)
    return atan2(cross(a, b), a[0] * b[0] + a[1] * b[1])


def round_corners(pieces: Sequence[Piece | Corner]) -> list[Piece]:
    """Corners become arcs of their radius, as far as the legs allow (timeline.md 1.5); radius 0 stays sharp."""
    out: list[Piece] = []
    rest = list(pieces)
    for i, piece in enumerate(rest):
        if not isinstance(piece, Corner):
            out.append(piece)
            continue
        before, after = out[-1] if out else None, rest[i + 1] if i + 1 < len(rest) else None
        if isinstance(before, Line) and isinstance(after, Line) and piece.rounding > 0:
            arc, trimmed, remaining = _rounded(before, after, piece, _has_corner(rest, i + 2))
            if arc is not None:
                out[-1] = trimmed
                out.append(arc)
                rest[i + 1] = remaining
    return out


def _has_corner(pieces: Sequence[Piece | Corner], i: int) -> bool:
    return i < len(pieces) and isinstance(pieces[i], Corner)


def _rounded(before: Line, after: Line, corner: Corner, shared: bool) -> tuple[Arc | None, Line, Line]:
    angle = turn_at(before, after)
    half = abs(angle) / 2
    if half < 1e-6 or half > pi / 2 - 1e-6:
        return None, before, after
    room = min(0.98 * before.length, (0.49 if shared else 0.98) * after.length)
    t = min(corner.rounding * tan(half), room)
    radius = t / tan(half)
    if radius < 0.02:
        return None, before, after
    a, b = before.heading(0.0), after.heading(0.0)
    p = Point(corner.point[0] - t * a[0], corner.point[1] - t * a[1])
    q = Point(corner.point[0] + t * b[0], corner.point[1] + t * b[1])
    g = 1 if angle > 0 else -1
    centre = Point(p[0] - g * radius * a[1], p[1] + g * radius * a[0])
    arc = Arc(centre, radius, atan2(p[1] - centre[1], p[0] - centre[0]), angle)
    return arc, Line(before.p, p), Line(q, after.q)


def polyline(points: Sequence[Point], radius: float = CORNER) -> list[Piece]:
    """Straight legs with rounded corners."""
    return round_corners(_straight([Knot(p, rounding=radius) for p in points]))


def around(p: Point, centre: Point, q: Point, g: int, r: float = SHOULDER, grow: bool = False) -> list[Piece]:
    """From p round one circle to q (timeline.md 1.2-1.4)."""
    knots = settle_knots([Knot(p), Knot(centre, r, g, grow=grow), Knot(q)])
    return round_corners(thread(knots)[0])
