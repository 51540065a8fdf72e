"""Arc length over time in closed-form segments (timeline.md section 2).

In: pieces (length, V, cap) of a route, tau, braking a, speed at both ends. Out: a `TimeMap` with s(t), v(t), t(s).
Accelerating v = V - (V - v0) e^(-t/tau); braking v = v0 - a t; cruising at a cap.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from math import exp, log, sqrt
from typing import NamedTuple

NEARLY = 0.9999  # the exponential never arrives at V


class Leg(NamedTuple):
    """A stretch of a route: metres, the speed strived for, the speed allowed; `dwell` seconds of standing at its end
    (a plant), which forces speed 0 there."""

    length: float
    strive: float
    cap: float
    dwell: float | None = None


class Segment(NamedTuple):
    """One closed-form stretch. kind: exp, cruise, brake, stand."""

    kind: str
    seconds: float
    v0: float
    strive: float = 0.0
    slowing: float = 0.0


def _travel(segment: Segment, t: float, tau: float) -> tuple[float, float]:
    """(metres, speed) after t seconds of a segment."""
    kind, _, v0, strive, slowing = segment
    if kind == "exp":
        gone = (strive - v0) * exp(-t / tau)
        return strive * t - tau * (strive - v0 - gone), strive - gone
    if kind == "brake":
        return v0 * t - 0.5 * slowing * t * t, max(0.0, v0 - slowing * t)
    if kind == "cruise":
        return v0 * t, v0
    return 0.0, 0.0


class TimeMap:
    """s(t), v(t) and the inverse, t from 0 to `total`."""

    __slots__ = ("length", "places", "segments", "tau", "times", "total")

    def __init__(self, segments: Sequence[Segment], tau: float, length: float):
        self.segments = tuple(segments)
        self.tau = tau
        times, places = [0.0], [0.0]
        for segment in self.segments:
            times.append(times[-1] + segment.seconds)
            places.append(places[-1] + _travel(segment, segment.seconds, tau)[0])
        self.times, self.places = tuple(times), tuple(places)
        self.total, self.length = times[-1], length

    def at(self, t: float) -> tuple[float, float]:
        """(metres, speed) at t, clamped to the ends."""
        if t >= self.total:
            return self.length, self._end_speed()
        i = max(0, bisect_right(self.times, t) - 1)
        if not self.segments:
            return 0.0, 0.0
        s, v = _travel(self.segments[i], max(0.0, t - self.times[i]), self.tau)
        return min(self.places[i] + s, self.length), v

    def _end_speed(self) -> float:
        return _travel(self.segments[-1], self.segments[-1].seconds, self.tau)[1] if self.segments else 0.0

    def time_at(self, s: float) -> float:
        """When the runner has gone s metres."""
        if s >= self.places[-1] - 1e-9:
            return self.total
        i = max(0, min(bisect_right(self.places, s) - 1, len(self.segments) - 1))
        if not self.segments:
            return 0.0
        return self.times[i] + _seconds_for(self.segments[i], s - self.places[i], self.tau)


def _seconds_for(segment: Segment, s: float, tau: float) -> float:
    if s <= 0:
        return 0.0
    kind, seconds, v0, strive, slowing = segment
    if kind == "brake":
        return min(seconds, 2 * s / (v0 + sqrt(max(0.0, v0 * v0 - 2 * slowing * s))))
    if kind == "cruise":
        return s / v0
    if kind == "exp":
        return min(seconds, _reach(s, strive, v0, tau))
    return 0.0


def _reach(length: float, strive: float, v0: float, tau: float) -> float:
    """t with s(t) = length while accelerating: Newton from the right, monotone since s is convex."""
    rest = strive - v0
    t = length / strive + tau * rest / strive
    for _ in range(8):
        gone = rest * exp(-t / tau)
        step = (strive * t - tau * (rest - gone) - length) / (strive - gone or 1e-12)
        t -= step
        if step < 1e-12:
            break
    return max(t, 0.0)


def _switch(length: float, strive: float, v0: float, v1: float, tau: float, braking: float, start: float) -> float:
    """When to start braking: the root of g(t) = s(t) + max(0, v(t)^2 - v1^2) / (2a) - L (timeline.md 2.4)."""
    rest, t = strive - v0, start
    low, high = 0.0, start
    for _ in range(30):
        gone = rest * exp(-t / tau)
        v = strive - gone
        g = strive * t - tau * (rest - gone) - length
        slope = v
        if v > v1:
            g += (v * v - v1 * v1) / (2 * braking)
            slope += v * gone / (tau * braking)
        low, high = (low, t) if g > 0 else (t, high)
        step = g / slope if slope > 0 else 0.0
        following = t - step
        if not low <= following <= high:
            following = 0.5 * (low + high)
        if abs(following - t) < 1e-12:
            return following
        t = following
    return t


def _run_leg(leg: Leg, v0: float, v1: float, tau: float, braking: float, out: list[Segment]) -> float:
    """Append the segments of one leg entered at v0 and left at no more than v1; the speed at its end."""
    length, strive = leg.length, leg.strive
    if length <= 1e-12:
        return min(v0, v1)
    cap = min(leg.cap, NEARLY * strive)
    if v0 > v1 and v0 * v0 - v1 * v1 > 2 * braking * length - 1e-9:
        slowing = (v0 * v0 - v1 * v1) / (2 * length)
        out.append(Segment("brake", (v0 - v1) / slowing, v0, slowing=slowing))
        return v1
    if v0 >= cap:
        return _cruise_then_brake(length, v0, v1, braking, out)
    t_reach = _reach(length, strive, v0, tau)
    t_cap = tau * log((strive - v0) / (strive - cap))
    t_end = min(t_reach, t_cap)
    v_end = strive - (strive - v0) * exp(-t_end / tau)
    if t_reach <= t_cap and v_end <= v1:
        out.append(Segment("exp", t_reach, v0, strive))
        return v_end
    t = _switch(length, strive, v0, v1, tau, braking, t_end)
    segment = Segment("exp", t, v0, strive)
    if t > 0:
        out.append(segment)
    gone, v = _travel(segment, t, tau)
    if t >= t_cap - 1e-9:
        return _cruise_then_brake(length - gone, min(v, cap), v1, braking, out)
    rest = length - gone
    if v > v1 and rest > 1e-12:
        out.append(Segment("brake", 2 * rest / (v + v1), v, slowing=(v * v - v1 * v1) / (2 * rest)))
        return v1
    return v


def _cruise_then_brake(length: float, v: float, v1: float, braking: float, out: list[Segment]) -> float:
    stopping = max(0.0, v * v - v1 * v1) / (2 * braking)
    if length - stopping > 1e-12:
        out.append(Segment("cruise", (length - stopping) / v, v))
    if v > v1 and stopping > 1e-12:
        out.append(Segment("brake", (v - v1) / braking, v, slowing=braking))
    return min(v, v1)


def run_legs(legs: Sequence[Leg], tau: float, braking: float, v0: float = 0.0, v_end: float = 0.0) -> TimeMap:
    """The fastest run over the legs that keeps every cap (timeline.md 2.3)."""
    allowed = [0.0] * (len(legs) + 1)
    allowed[-1] = v_end
    for i in range(len(legs) - 1, -1, -1):
        cap = min(legs[i].cap, NEARLY * legs[i].strive)
        before = min(legs[i - 1].cap, NEARLY * legs[i - 1].strive) if i else cap
        if i and legs[i - 1].dwell is not None:
            before = 0.0
        allowed[i] = min(cap, before, sqrt(allowed[i + 1] ** 2 + 2 * braking * legs[i].length))
    segments: list[Segment] = []
    v = v0
    for i, leg in enumerate(legs):
        v = _run_leg(leg, v, allowed[i + 1], tau, braking, segments)
        if leg.dwell is not None:
            segments.append(Segment("stand", leg.dwell, 0.0))
            v = 0.0
    return TimeMap(segments, tau, sum(leg.length for leg in legs))
