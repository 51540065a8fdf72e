"""Lines and circular arcs by arc length, in closed form: place, heading, nearest point.

A `Curve` is a chain of pieces that share tangents (timeline.md 1.1). Metres, radians; counter-clockwise positive in
the (x, y) plane drawn with y up.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, cos, hypot, pi, sin

from generator.model.court import Point

TURN = 2 * pi


@dataclass(frozen=True, slots=True)
class Line:
    """Straight from p to q."""

    p: Point
    q: Point

    @property
    def length(self) -> float:
        """Metres."""
        return hypot(self.q[0] - self.p[0], self.q[1] - self.p[1])

    def at(self, s: float) -> Point:
        """The point after s metres."""
        length = self.length
        k = s / length if length else 0.0
        return Point(self.p[0] + k * (self.q[0] - self.p[0]), self.p[1] + k * (self.q[1] - self.p[1]))

    def heading(self, s: float) -> Point:
        """Unit tangent."""
        length = self.length or 1.0
        return Point((self.q[0] - self.p[0]) / length, (self.q[1] - self.p[1]) / length)

    def nearest(self, point: Point) -> tuple[float, float]:
        """(s, distance) of the piece's point nearest to `point`."""
        hx, hy = self.heading(0.0)
        s = (point[0] - self.p[0]) * hx + (point[1] - self.p[1]) * hy
        s = min(max(s, 0.0), self.length)
        x, y = self.at(s)
        return s, hypot(point[0] - x, point[1] - y)


@dataclass(frozen=True, slots=True)
class Arc:
    """From angle a0 by `sweep` (signed) round `centre`."""

    centre: Point
    r: float
    a0: float
    sweep: float

    @property
    def length(self) -> float:
        """Metres."""
        return self.r * abs(self.sweep)

    def at(self, s: float) -> Point:
        """The point after s metres."""
        a = self.a0 + (s / self.r if self.sweep >= 0 else -s / self.r)
        return Point(self.centre[0] + self.r * cos(a), self.centre[1] + self.r * sin(a))

    def heading(self, s: float) -> Point:
        """Unit tangent."""
        g = 1.0 if self.sweep >= 0 else -1.0
        a = self.a0 + g * s / self.r
        return Point(-g * sin(a), g * cos(a))

    def nearest(self, point: Point) -> tuple[float, float]:
        """(s, distance) of the piece's point nearest to `point`."""
        dx, dy = point[0] - self.centre[0], point[1] - self.centre[1]
        g = 1.0 if self.sweep >= 0 else -1.0
        along = (g * (atan2(dy, dx) - self.a0)) % TURN
        if along <= abs(self.sweep):
            return self.r * along, abs(hypot(dx, dy) - self.r)
        ends = ((s, hypot(point[0] - e[0], point[1] - e[1])) for s, e in ((0.0, self.at(0.0)), (self.length, self.at(self.length))))
        return min(ends, key=lambda found: found[1])


Piece = Line | Arc


class Curve:
    """A chain of pieces. Satisfies `timed.Route`."""

    __slots__ = ("length", "lengths", "pieces", "starts")

    def __init__(self, pieces: Sequence[Piece]):
        self.pieces = tuple(pieces)
        self.lengths = tuple(p.length for p in self.pieces)
        starts = [0.0]
        for length in self.lengths:
            starts.append(starts[-1] + length)
        self.starts = tuple(starts)
        self.length = starts[-1]

    def _piece(self, s: float) -> tuple[Piece, float]:
        i = min(max(bisect_right(self.starts, s) - 1, 0), len(self.pieces) - 1)
        return self.pieces[i], min(max(s - self.starts[i], 0.0), self.lengths[i])

    def at(self, s: float) -> Point:
        """The point after s metres, clamped to the ends."""
        piece, rest = self._piece(s)
        return piece.at(rest)

    def heading(self, s: float) -> Point:
        """Unit tangent after s metres."""
        piece, rest = self._piece(s)
        return piece.heading(rest)

    def nearest(self, point: Point, frm: float = 0.0) -> tuple[float, float]:
        """(s, distance) of the curve's point nearest to `point`; pieces that end before `frm` are left out."""
        best = (0.0, float("inf"))
        for piece, start, length in zip(self.pieces, self.starts, self.lengths):
            if start + length < frm:
                continue
            s, distance = piece.nearest(point)
            if distance < best[1] - 1e-12:
                best = (start + s, distance)
        return best

    @property
    def start(self) -> Point:
        """Its first point."""
        return self.pieces[0].at(0.0)

    @property
    def end(self) -> Point:
        """Its last point."""
        return self.pieces[-1].at(self.lengths[-1])

    def __repr__(self) -> str:
        return f"Curve({self.pieces!r})"
