"""Where a player is at every second: the stretches in which he moves, standing between them."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from typing import NamedTuple

from generator.model.court import Point
from generator.timeline.pieces import Curve, Line
from generator.timeline.splice import State
from generator.timeline.time_map import Segment, TimeMap


class Stretch(NamedTuple):
    """Moving along `curve` from second t0 to t1; the map's own clock began at `began`. `key`: of the run, or ""."""

    t0: float
    t1: float
    curve: Curve
    map: TimeMap
    began: float
    key: str = ""

    def place(self, t: float) -> Point:
        """Where he is."""
        return self.curve.at(self.map.at(min(max(t, self.t0), self.t1) - self.began)[0])

    def state(self, t: float) -> State:
        """Place, heading, speed."""
        s, v = self.map.at(min(max(t, self.t0), self.t1) - self.began)
        return State(self.curve.at(s), self.curve.heading(s), v)


class Movement:
    """One player's stretches in order of time."""

    __slots__ = ("_from", "start", "stretches")

    def __init__(self, start: Point, stretches: Sequence[Stretch] = ()):
        self.start = start
        self.stretches = tuple(sorted(stretches, key=lambda m: m.t0))
        self._from = [m.t0 for m in self.stretches]

    def _current(self, t: float) -> Stretch | None:
        i = bisect_right(self._from, t) - 1
        return self.stretches[i] if i >= 0 else None

    def place(self, t: float) -> Point:
        """Metres at second t."""
        current = self._current(t)
        return current.place(t) if current else self.start

    def state(self, t: float) -> State:
        """Place, heading (None when he stands), speed."""
        current = self._current(t)
        if current is None or t >= current.t1:
            return State(self.place(t), None, 0.0)
        return current.state(t)

    def velocity(self, t: float) -> Point:
        """(x, y) of his velocity at second t, m/s."""
        state = self.state(t)
        if state.heading is None:
            return Point(0.0, 0.0)
        return Point(state.speed * state.heading[0], state.speed * state.heading[1])

    def standing(self) -> list[tuple[float, float, Point]]:
        """(from, to, place) of every time he stands."""
        found, since, place = [], 0.0, self.start
        for stretch in self.stretches:
            if stretch.t0 > since:
                found.append((since, stretch.t0, place))
            since, place = stretch.t1, stretch.place(stretch.t1)
        found.append((since, float("inf"), place))
        return found

    def until(self, t: float, braking: float) -> Movement:
        """The same up to t, then a stop as short as he can make it."""
        kept = [m if m.t1 <= t else m._replace(t1=t) for m in self.stretches if m.t0 < t]
        state = self.state(t)
        if state.speed > 1e-6 and state.heading is not None:
            kept.append(stop_from(state, t, braking))
        return Movement(self.start, kept)


def stop_from(state: State, t: float, braking: float) -> Stretch:
    """Braking straight ahead from a state."""
    v, p, h = state.speed, state.point, state.heading
    metres = v * v / (2 * braking)
    curve = Curve([Line(p, Point(p[0] + metres * h[0], p[1] + metres * h[1]))])
    time_map = TimeMap([Segment("brake", v / braking, v, slowing=braking)], 1.0, metres)
    return Stretch(t, t + v / braking, curve, time_map, t)
