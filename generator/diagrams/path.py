"""Lines of a picture: chains of straight pieces and circular arcs, by arc length, in picture units.

The picture's unit is a decimetre of floor; x runs right, y runs down. Arcs turn with the angle as SVG counts it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import atan2, cos, hypot, pi, sin, sqrt

Spot = tuple[float, float]
TURN = 2 * pi


@dataclass(frozen=True)
class Straight:
    """The piece from `a` to `b`."""

    a: Spot
    b: Spot

    @cached_property
    def length(self) -> float:
        """Length in units."""
        return hypot(self.b[0] - self.a[0], self.b[1] - self.a[1])

    def at(self, s: float) -> Spot:
        """The spot `s` units along."""
        k = s / self.length if self.length else 0.0
        return (self.a[0] + k * (self.b[0] - self.a[0]), self.a[1] + k * (self.b[1] - self.a[1]))

    def heading(self, s: float) -> Spot:
        """Unit tangent."""
        d = self.length or 1.0
        return ((self.b[0] - self.a[0]) / d, (self.b[1] - self.a[1]) / d)

    def part(self, s0: float, s1: float) -> Straight:
        """The piece between two lengths."""
        return Straight(self.at(s0), self.at(s1))

    def gap(self, c: Spot) -> float:
        """Smallest distance to a spot."""
        (ax, ay), (bx, by) = self.a, self.b
        dx, dy = bx - ax, by - ay
        square = dx * dx + dy * dy
        k = ((c[0] - ax) * dx + (c[1] - ay) * dy) / square if square else 0.0
        k = 0.0 if k < 0 else 1.0 if k > 1 else k
        return hypot(ax + k * dx - c[0], ay + k * dy - c[1])


@dataclass(frozen=True)
class Bend:
    """The arc round `centre` from angle `a0` through `sweep` (radians, positive as SVG's sweep flag 1)."""

    centre: Spot
    radius: float
    a0: float
    sweep: float

    @cached_property
    def length(self) -> float:
        """Length in units."""
        return self.radius * abs(self.sweep)

    def at(self, s: float) -> Spot:
        """The spot `s` units along."""
        angle = self.a0 + (self.sweep * s / self.length if self.length else 0.0)
        return (self.centre[0] + self.radius * cos(angle), self.centre[1] + self.radius * sin(angle))

    def heading(self, s: float) -> Spot:
        """Unit tangent."""
        angle = self.a0 + (self.sweep * s / self.length if self.length else 0.0)
        way = 1.0 if self.sweep >= 0 else -1.0
        return (-way * sin(angle), way * cos(angle))

    def part(self, s0: float, s1: float) -> Bend:
        """The piece between two lengths."""
        k = self.sweep / self.length if self.length else 0.0
        return Bend(self.centre, self.radius, self.a0 + k * s0, k * (s1 - s0))

    def gap(self, c: Spot) -> float:
        """Smallest distance to a spot."""
        dx, dy = c[0] - self.centre[0], c[1] - self.centre[1]
        way = 1.0 if self.sweep >= 0 else -1.0
        turned = (way * (atan2(dy, dx) - self.a0)) % TURN
        if turned <= abs(self.sweep):
            return abs(hypot(dx, dy) - self.radius)
        ends = (self.at(0.0), self.at(self.length))
        return min(hypot(e[0] - c[0], e[1] - c[1]) for e in ends)


@dataclass(frozen=True)
class Path:
    """A chain of pieces."""

    pieces: tuple[Straight | Bend, ...]

    @cached_property
    def length(self) -> float:
        """Length in units."""
        return sum(p.length for p in self.pieces)

    @property
    def first(self) -> Spot:
        """Where it begins."""
        return self.pieces[0].at(0.0)

    @property
    def last(self) -> Spot:
        """Where it ends."""
        return self.pieces[-1].at(self.pieces[-1].length)

    def _find(self, s: float) -> tuple[Straight | Bend, float]:
        for piece in self.pieces[:-1]:
            if s <= piece.length:
                return piece, max(0.0, s)
            s -= piece.length
        return self.pieces[-1], min(max(0.0, s), self.pieces[-1].length)

    def at(self, s: float) -> Spot:
        """The spot `s` units along."""
        piece, rest = self._find(s)
        return piece.at(rest)

    def heading(self, s: float) -> Spot:
        """Unit tangent `s` units along."""
        piece, rest = self._find(s)
        return piece.heading(rest)

    def gap(self, c: Spot) -> float:
        """Smallest distance to a spot."""
        return min([p.gap(c) for p in self.pieces])

    def part(self, s0: float, s1: float) -> Path:
        """The chain between two lengths; at least one piece."""
        s0, s1 = max(0.0, s0), min(self.length, s1)
        out, begin = [], 0.0
        for piece in self.pieces:
            low, high = max(s0 - begin, 0.0), min(s1 - begin, piece.length)
            if high - low > 1e-9:
                out.append(piece if (low, high) == (0.0, piece.length) else piece.part(low, high))
            begin += piece.length
        return Path(tuple(out)) if out else Path((Straight(self.at(s0), self.at(s0)),))

    def samples(self, step: float) -> tuple[Spot, ...]:
        """Spots at equal lengths, both ends included, at most `step` apart."""
        n = max(1, int(self.length / step + 0.999))
        stride, out, begin = self.length / n, [self.first], 0.0
        for piece in self.pieces:
            length = piece.length
            while len(out) < n and stride * len(out) <= begin + length:
                out.append(piece.at(stride * len(out) - begin))
            begin += length
        return (*out, self.last)

    def nearest(self, c: Spot, step: float = 1.0) -> float:
        """The length along it of (about) the spot nearest to `c`."""
        spots = self.samples(step)
        gaps = [(x - c[0]) ** 2 + (y - c[1]) ** 2 for x, y in spots]
        return self.length * gaps.index(min(gaps)) / (len(spots) - 1)


def apart(a: Spot, b: Spot) -> float:
    """Distance of two spots."""
    return hypot(a[0] - b[0], a[1] - b[1])


def unit(a: Spot, b: Spot) -> Spot:
    """Direction from `a` to `b`; straight up when they are one."""
    d = apart(a, b)
    return ((b[0] - a[0]) / d, (b[1] - a[1]) / d) if d > 1e-9 else (0.0, -1.0)


def shifted(a: Spot, way: Spot, by: float) -> Spot:
    """`a` moved `by` units along `way`."""
    return (a[0] + by * way[0], a[1] + by * way[1])


def bowed(a: Spot, b: Spot, height: float) -> Straight | Bend:
    """From `a` to `b`, bulging `height` units to the right of the way (negative: left); 0 is straight."""
    chord = apart(a, b)
    if abs(height) < 0.05 or chord < 1e-6:
        return Straight(a, b)
    radius = (chord * chord / 4 + height * height) / (2 * abs(height))
    way = unit(a, b)
    side = 1.0 if height > 0 else -1.0
    right = (-way[1], way[0])
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    centre = shifted(middle, right, height - side * radius)
    a0 = atan2(a[1] - centre[1], a[0] - centre[0])
    half = atan2(chord / 2, sqrt(max(0.0, radius * radius - chord * chord / 4)))
    if abs(height) > chord / 2:
        half = pi - half
    return Bend(centre, radius, a0, -side * 2 * half)


def crown(piece: Straight | Bend) -> float:
    """How far a piece bulges to the right of its way, as `bowed` takes it; 0 for a straight one."""
    if isinstance(piece, Straight):
        return 0.0
    rise = piece.radius * (1 - cos(abs(piece.sweep) / 2))
    return -rise if piece.sweep > 0 else rise
