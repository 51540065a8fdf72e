"""The knots of a run: where it bends, whom it passes on which side, where each member ends. Before any shaping.

In: a run and the courses that know where everybody stands. Out: knots, boundaries between members, points of use.
"""

from __future__ import annotations

from itertools import combinations, pairwise
from math import hypot
from typing import TYPE_CHECKING

from generator.model.court import Point
from generator.model.settled import HandOff, Screen, Use
from generator.timeline.chains import Run, Walk
from generator.timeline.parameters import CLEAR_BY, SHOULDER
from generator.timeline.pieces import Curve
from generator.timeline.sides import choose_side
from generator.timeline.taut import Knot, cross, unit
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
        self._part_from_partner()
        here = start
        for i, member in enumerate(run.members):
            here = self._add(i, member, here)

    def _part_from_partner(self) -> None:
        """After a hand-off the two go by each other shoulder to shoulder: the receiver on the far side of the giver from
        the rim, the giver with him on the same hand."""
        courses, run = self.courses, self.run
        above = courses.chains.before(run.key, run.player)
        if not isinstance(above, HandOff) or above.fake or run.key in courses.states:
            return
        other = above.player if run.player == above.receiver else above.receiver
        theirs = (r for r in courses.chains.runs.values() if r.player == above.receiver)
        if run.player == above.player and any(h is above for r in theirs for h in r.through):
            return
        place, member = courses.place_after(above, other), run.members[0]
        after = next(iter(getattr(member, "via", ())), None) or courses.end_of(member)
        if not _meets(self.start, after, place):
            return
        self.knots.append(Knot(place, SHOULDER, self._hand_by(above, place, after), grow=True))

    def _hand_by(self, hand_off: HandOff, other: Point, after: Point) -> int:
        """On which hand he has his partner as he goes by him."""
        courses = self.courses
        if self.run.player == hand_off.player:
            his = next((r for r in courses.chains.runs.values() if r.player == hand_off.receiver
                        and courses.chains.before(r.key, r.player) is hand_off), None)
            goal = courses.end_of(his.members[0]) if his is not None else None
            if goal is not None and not _meets(other, goal, self.start):
                turns = cross(unit(after[0] - self.start[0], after[1] - self.start[1]), Point(goal[0] - other[0], goal[1] - other[1]))
                return 1 if turns > 0 else -1
        giver, receiver = (courses.place_after(hand_off, p) for p in (hand_off.player, hand_off.receiver))
        out = unit(giver[0] - courses.rim[0], giver[1] - courses.rim[1])
        return -1 if cross(unit(giver[0] - receiver[0], giver[1] - receiver[1]), out) > 0 else 1

    def _by_rejected(self, member: Walk, here: Point, after: Point) -> None:
        """Past the screener he rejects: not on the side on which he would have used him."""
        trunk = self.courses.trunk
        for use in getattr(member, "uses", ()):
            place = self.courses.screen_at(use)
            if use.words != "reject" or not _meets(here, after, place):
                continue
            used = trunk.wrapped.get(self.run.player) if trunk is not None else None
            beside = cross(unit(after[0] - here[0], after[1] - here[1]), Point(place[0] - here[0], place[1] - here[1]))
            g = -used[1] if used else (1 if beside > 0 else -1)
            self.knots.append(Knot(place, SHOULDER, g, grow=True))

    def _add(self, i: int, member: Walk, here: Point) -> Point:
        end = self.courses.end_of(member)
        vias = list(getattr(member, "via", ()))
        uses = [u for u in getattr(member, "uses", ()) if u.words != "reject"]
        self._by_rejected(member, here, vias[0] if vias else end)
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
        """The speed strived for (V, m/s) by each member."""
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


def _meets(start: Point, end: Point, place: Point) -> bool:
    """The straight way from start to end would brush somebody who stands at `place`, beyond the start."""
    if hypot(place[0] - start[0], place[1] - start[1]) <= SHOULDER + 0.01:
        return False
    way = unit(end[0] - start[0], end[1] - start[1])
    there = Point(place[0] - start[0], place[1] - start[1])
    along = way[0] * there[0] + way[1] * there[1]
    return 0.0 < along < hypot(end[0] - start[0], end[1] - start[1]) and abs(cross(way, there)) < SHOULDER


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
        length = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points))
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
