"""The knots of a run: where it bends, whom it passes on which side, where each member ends. Before any shaping.

In: a run and the courses that know where everybody stands. Out: knots, boundaries between members, points of use.
"""

from __future__ import annotations

from itertools import combinations
from math import hypot
from typing import TYPE_CHECKING

from generator.model.court import Point
from generator.model.settled import HandOff, Screen, Use
from generator.timeline.chains import Run, Walk
from generator.timeline.parameters import CLEAR_BY, SHOULDER
from generator.timeline.pieces import Curve
from generator.timeline.sides import choose_side
from generator.timeline.taut import Knot
from generator.timeline.timed import UsePoint

if TYPE_CHECKING:
    from generator.timeline.courses import Courses


class Waypoints:
    """Knots of a run before shaping, with what belongs to which member."""

    def __init__(self, courses: Courses, run: Run, start: Point):
        self.courses, self.run, self.start = courses, run, start
        self.knots: list[Knot] = [Knot(start)]
        self.used: list[tuple[int, Use, Point, int]] = []  # member, use, place, g
        self.boundaries: list[Point] = []
        if run.key in courses.aside:
            self.knots.append(Knot(courses.aside[run.key]))
        here = start
        for i, member in enumerate(run.members):
            here = self._add(i, member, here)

    def _add(self, i: int, member: Walk, here: Point) -> Point:
        end = self.courses.end_of(member)
        vias = list(getattr(member, "via", ()))
        uses = [u for u in getattr(member, "uses", ()) if u.words != "reject"]
        stops = _merge(here, end, vias, [(u, self.courses.screen_at(u)) for u in uses])
        gate = _gate(self.courses, member)
        for j, stop in enumerate(stops):
            if isinstance(stop, Point):
                self.knots.append(Knot(stop))
                continue
            use, place = stop
            before = self.knots[-1].centre
            after = next((s if isinstance(s, Point) else s[1] for s in stops[j + 1:]), end)
            if gate and use.screen in gate[1]:
                g = 0
                if self.knots[-1].centre != gate[0]:
                    self.knots.append(Knot(gate[0]))
            else:
                g = choose_side(self.courses, member, use, place, before, after)
                self.knots.append(Knot(place, SHOULDER, g, grow=True))
            self.used.append((i, use, place, g))
        hand_off = self.run.through[i]
        if i + 1 == len(self.run.members):
            self.knots.append(Knot(end))
        elif hand_off is not None:
            self.boundaries.append(self._pass_giver(hand_off, end))
            return end
        else:
            self.knots.append(Knot(end))
        self.boundaries.append(end)
        return end

    def round_knots(self) -> list[Knot] | None:
        """A curl by one whom the read meets at a screen goes on round that screener; None for anything else."""
        member, trunk = self.run.members[0], self.courses.trunk
        if not getattr(member, "curl", False) or getattr(member, "uses", ()) or trunk is None:
            return None
        found = trunk.wrapped.get(self.run.player)
        return [self.knots[0], Knot(found[0], SHOULDER, found[1], grow=True), *self.knots[1:]] if found else None

    def _pass_giver(self, hand_off: HandOff, end: Point) -> Point:
        """Run by the giver shoulder to shoulder when the meeting point is where he stands; where the ball is taken."""
        giver = self.courses.place_after(hand_off, hand_off.player)
        i = len(self.boundaries)
        if hypot(giver[0] - end[0], giver[1] - end[1]) > 0.9:
            self.knots.append(Knot(end))
            return end
        before, after = self.knots[-1].centre, self.courses.end_of(self.run.members[i + 1])
        side = (after[0] - before[0]) * (giver[1] - before[1]) - (after[1] - before[1]) * (giver[0] - before[0])
        rim = self.courses.rim
        if abs(side) < 1e-9:
            side = (giver[0] - before[0]) * (rim[1] - before[1]) - (giver[1] - before[1]) * (rim[0] - before[0])
        self.knots.append(Knot(giver, SHOULDER, 1 if side > 0 else -1, grow=True))
        return giver

    def signature(self) -> tuple:
        speeds = tuple((m.effort, getattr(m, "with_ball", isinstance(m, HandOff))) for m in self.run.members)
        return (tuple(self.knots), speeds, tuple(self.boundaries))

    def strives(self) -> list[float]:
        """V of each member."""
        pace = self.courses.pace
        return [
            pace.speed(m.effort, isinstance(m, HandOff) or getattr(m, "with_ball", False)) for m in self.run.members
        ]

    def use_points(self, curve: Curve, ends: tuple[float, ...]) -> tuple[tuple[UsePoint, ...], ...]:
        found: list[list[UsePoint]] = [[] for _ in self.run.members]
        reached = 0.0
        for i, use, place, g in self.used:
            s, _ = curve.nearest(place, frm=reached)
            s = max(s, reached)
            reached = s
            found[i].append(UsePoint(
                use.screener, use.screen, place, g, s, min(s + CLEAR_BY, curve.length), curve.at(s), curve.heading(s),
            ))
        return tuple(map(tuple, found))


def _merge(start: Point, end: Point, vias: list[Point], uses: list) -> list:
    """Places and screeners on the way, each in its own order, mixed so that the way is shortest."""
    if not vias or not uses:
        return [*vias, *uses]
    total = len(vias) + len(uses)
    best: tuple[float, list] | None = None
    for chosen in combinations(range(total), len(vias)):
        v, u = iter(vias), iter(uses)
        stops = [next(v) if i in chosen else next(u) for i in range(total)]
        points = [start, *(s if isinstance(s, Point) else s[1] for s in stops), end]
        length = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in zip(points, points[1:]))
        if best is None or length < best[0] - 1e-9:
            best = (length, stops)
    return best[1]


def _gate(courses: Courses, member: Walk) -> tuple[Point, frozenset[str]] | None:
    """The middle between the two screeners of an elevator on this move's way."""
    groups: dict[str, list[Screen]] = {}
    for use in getattr(member, "uses", ()):
        screen = courses.chains.actions.get(use.screen) if use.screen else None
        if isinstance(screen, Screen) and (screen.group_kind == "elevator" or use.words == "between"):
            groups.setdefault(screen.group or "between", []).append(screen)
    for screens in groups.values():
        if len(screens) == 2:
            a, b = map(courses.end_of, screens)
            return Point((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), frozenset(s.key for s in screens)
    return None
