"""Leaving on the run: how a player in motion turns to where a read sends him (timeline.md 4.2).

In: his point, heading and speed, and the knots of his new way. Out: for every turn radius and sense, and for the plant,
the pieces before the first tangent and the knots after it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import atan2, hypot, pi

from generator.model.court import Point
from generator.timeline.parameters import TURN_RADII, Pace
from generator.timeline.pieces import TURN, Arc, Line, Piece
from generator.timeline.taut import Knot, cross, settle_knots, tangent


@dataclass(frozen=True, slots=True)
class State:
    """A player in motion: place, unit heading (None: whichever way he goes first), metres a second."""

    point: Point
    heading: Point | None
    speed: float


@dataclass(frozen=True, slots=True)
class Departure:
    """One way to leave: pieces already fixed, then the rest as knots."""

    prefix: list[Piece]
    knots: list[Knot]


def departures(state: State, knots: Sequence[Knot], pace: Pace) -> Iterator[Departure]:
    """The plant and the turns; the caller takes the fastest."""
    yield _plant(state, knots, pace)
    goal = knots[1].centre
    p, h = state.point, state.heading
    near = 1 if cross(h, Point(goal[0] - p[0], goal[1] - p[1])) >= 0 else -1
    found = False
    for g in (near, -near):
        for radius in TURN_RADII:
            turn = _turn(state, knots, radius, g, pace)
            if turn is not None:
                found = True
                yield turn
        if found:
            return


def _ahead(state: State, metres: float) -> Point:
    return Point(state.point[0] + metres * state.heading[0], state.point[1] + metres * state.heading[1])


def _plant(state: State, knots: Sequence[Knot], pace: Pace) -> Departure:
    stop = _ahead(state, state.speed**2 / (2 * pace.braking))
    return Departure([Line(state.point, stop)], [Knot(stop), *knots[1:]])


def _turn(state: State, knots: Sequence[Knot], radius: float, g: int, pace: Pace) -> Departure | None:
    """Straight until slow enough, an arc tangent to the heading, then the tangent to the next knot."""
    room = max(0.0, state.speed**2 - pace.cornering * radius) / (2 * pace.braking)
    p, h = _ahead(state, room), state.heading
    circle = Knot(Point(p[0] - g * radius * h[1], p[1] + g * radius * h[0]), radius, g)
    settled = [replace(k, grow=False) for k in settle_knots([circle, *knots[1:]])]
    following = settled[1]
    if hypot(following.centre[0] - circle.centre[0], following.centre[1] - circle.centre[1]) < radius - 1e-9:
        return None
    out = tangent(circle, following)
    if out is None:
        return None
    into = atan2(h[1], h[0])
    sweep = (g * (out - into)) % TURN
    if sweep > TURN - 1e-6:
        sweep = 0.0
    if sweep > 1.5 * pi:
        return None
    prefix: list[Piece] = [Line(state.point, p)] if room > 1e-9 else []
    if sweep > 0:
        prefix.append(Arc(circle.centre, radius, into - g * pi / 2, g * sweep))
    prefix = prefix or [Line(p, p)]
    leave = prefix[-1].at(prefix[-1].length)
    return Departure(prefix, [Knot(leave), *settled[1:]])
