"""Tracks of the five defenders, 10 samples a second (timeline.md section 5). Computed once, when first asked for.

In: a timed branch. Out: a `Defence`; X1 guards 1 and so on, areas in a zone. An answer takes its trunk's samples over
up to the second at which the two can first differ.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from math import hypot
from typing import TYPE_CHECKING

from generator.model.areas import areas_of, chasers_of
from generator.model.court import Point
from generator.model.zone_shifts import Stand, stands
from generator.timeline.coverages import SCREENER, SINGLE, USER, none_of
from generator.timeline.parameters import (
    FOLLOWS_UP,
    FROM_FELLOW,
    FROM_OFFENCE,
    INSIDE,
    LOOK_AHEAD,
    LOOSE,
    MATCHED,
    PICKS_UP,
    SPRING,
    TOP_ACCELERATION,
    TOP_SPEED,
    TRAP,
)
from generator.timeline.shell import (
    Moment,
    area_target,
    man_target,
    mix,
    press_target,
    rounded,
    smooth,
)
from generator.timeline.showings import TWO, Showing
from generator.timeline.taut import unit

if TYPE_CHECKING:
    from generator.timeline.timeline import BranchTimeline

RATE = 10  # samples a second
COMES_OUT = frozenset({"close out", "hard close-out", "late", "trap", "two on the ball", "hedge"})  # to the ball
SUBSTEPS = 3  # a sample
FIRST_ROUNDS = 30  # of moving apart before the play begins
AFTER = 1.5  # seconds of track past the end of the branch


class Defence:
    """The samples; between them straight lines."""

    __slots__ = ("bodies", "samples", "speeds")

    def __init__(self, bodies: tuple[int, ...], samples: list[dict[int, Point]], speeds: list[dict[int, Point]]):
        self.bodies, self.samples, self.speeds = bodies, samples, speeds

    def place(self, body: int, t: float) -> Point:
        """Metres at second t."""
        at = min(max(t, 0.0) * RATE, len(self.samples) - 1)
        i = min(int(at), len(self.samples) - 2) if len(self.samples) > 1 else 0
        if len(self.samples) == 1:
            return self.samples[0][body]
        return mix(self.samples[i][body], self.samples[i + 1][body], at - i)


def track_defence(timeline: BranchTimeline) -> Defence:
    """Follow the targets from a standing start, or from the trunk's samples."""
    plan = _Plan(timeline)
    count = int((timeline.duration + AFTER) * RATE) + 2
    first = plan.moment(0.0)
    samples, speeds = [_first_places(plan, first)], [dict.fromkeys(plan.bodies, Point(0.0, 0.0))]
    taken = _taken_over(timeline, plan)
    if taken:
        trunk = timeline.parent.defence
        taken = min(taken, len(trunk.samples), count)
        samples, speeds = list(trunk.samples[:taken]), list(trunk.speeds[:taken])
    for i in range(len(samples), count):
        place, speed = _step(plan, plan.moment((i - 1) / RATE), samples[-1], speeds[-1])
        samples.append(place)
        speeds.append(speed)
    return Defence(plan.bodies, samples, speeds)


def _first_places(plan: _Plan, now: Moment) -> dict[int, Point]:
    """Their targets, moved apart a little at a time where two would stand in one place."""
    wanted = places = plan.targets(now)
    for _ in range(FIRST_ROUNDS):
        places = {b: mix(x, _apart(b, x, wanted[b], now.men, places), 0.2) for b, x in places.items()}
    return places


def _taken_over(timeline: BranchTimeline, plan: _Plan) -> int:
    """How many of the trunk's samples hold here too: until the first showing that is not the trunk's."""
    if timeline.parent is None:
        return 0
    index = timeline.branch.departure.fork
    read = timeline.fork_times[index]
    theirs = set(_signs(timeline.parent.shown))
    differs = [s.begins for s in plan.shown if _sign(s) not in theirs]
    ours = set(_signs(plan.shown))
    differs += [s.begins for s in timeline.parent.shown if _sign(s) not in ours]
    return max(0, int((min([read, *differs]) - 0.05) * RATE))


def _sign(s: Showing) -> tuple:
    return (s.coverage, s.bodies, round(s.at, 6), s.roles)


def _signs(shown: tuple[Showing, ...]):
    return map(_sign, shown)


def _step(
    plan: _Plan, now: Moment, place: dict[int, Point], speed: dict[int, Point],
) -> tuple[dict[int, Point], dict[int, Point]]:
    """Semi-implicit steps of the follower to the next sample, all five at once; several, since making way stiffens it."""
    targets = plan.targets(now)
    going = {p: plan.velocity(p, now.t) for p in now.men}
    dt = 1 / RATE / SUBSTEPS
    for k in range(SUBSTEPS):
        coming = {p: _on(q, going[p], k * dt + LOOK_AHEAD) for p, q in now.men.items()}
        ahead = {b: _on(place[b], speed[b], LOOK_AHEAD) for b in plan.bodies}
        new_place, new_speed = {}, {}
        for body in plan.bodies:
            x, v = place[body], speed[body]
            g = _apart(body, ahead[body], targets[body], coming, ahead)
            new_speed[body] = w = _faster(x, v, g, dt)
            new_place[body] = Point(x[0] + w[0] * dt, x[1] + w[1] * dt)
        place, speed = new_place, new_speed
    return place, speed


def _faster(x: Point, v: Point, g: Point, dt: float) -> Point:
    """The speed after dt on a damped spring toward g, as far as legs allow."""
    ax = SPRING * SPRING * (g[0] - x[0]) - 2 * SPRING * v[0]
    ay = SPRING * SPRING * (g[1] - x[1]) - 2 * SPRING * v[1]
    k = min(1.0, TOP_ACCELERATION / (hypot(ax, ay) or 1.0))
    vx, vy = v[0] + k * ax * dt, v[1] + k * ay * dt
    k = min(1.0, TOP_SPEED / (hypot(vx, vy) or 1.0))
    return Point(k * vx, k * vy)


def _on(p: Point, v: Point, seconds: float) -> Point:
    """Where he will be if he goes on like this: who sees another coming makes way before they touch."""
    return Point(p[0] + seconds * v[0], p[1] + seconds * v[1])


def _apart(body: int, x: Point, goal: Point, men: Mapping[int, Point], place: Mapping[int, Point]) -> Point:
    """The goal pushed away from whoever is too near to where he is."""
    gx, gy = goal
    for strength, kept, others in (
        (*FROM_OFFENCE, men.values()), (*FROM_FELLOW, (q for b, q in place.items() if b != body)),
    ):
        for q in others:
            dx, dy = x[0] - q[0], x[1] - q[1]
            if abs(dx) < kept and abs(dy) < kept:
                d = hypot(dx, dy)
                if 1e-6 < d < kept:
                    k = strength * (kept - d) / d
                    gx, gy = gx + k * dx, gy + k * dy
    return Point(gx, gy)


class _Plan:
    """Targets of all bodies at an instant."""

    def __init__(self, timeline: BranchTimeline):
        self.timeline = timeline
        self.court, self.rim = timeline.court, timeline.rim
        self.bodies = tuple(sorted(timeline.branch.start))
        self.shown = timeline.shown
        against = timeline.against
        self.against = against
        self.chased = chasers_of(against)
        self.areas = frozenset(areas_of(against).values())
        self.press = against.startswith("zone press")
        self.mind = MATCHED if against.startswith("matchup") else LOOSE
        self.trap = against == "zone press 1-3-1"  # holds in the front court too
        self.events = list(timeline.ball_events)
        self.releases = [e.release for e in self.events]
        self._stands: dict[Point, dict[int, Stand]] = {}
        self._met: dict[tuple[Showing, int], int | None] = {}

    def moment(self, t: float) -> Moment:
        """Offence, ball and attention at second t."""
        timeline = self.timeline
        men = {p: rounded(timeline.position(p, t)) for p in self.bodies}
        share = dict.fromkeys(self.bodies, 0.0)
        i = bisect_right(self.releases, t) - 1
        if i < 0:
            holder = timeline.branch.phases[0].holder
            if holder in share:
                share[holder] = 1.0
        else:
            event = self.events[i]
            release, caught = round(event.release, 6), round(event.caught, 6)
            k = smooth((t - release) / max(1e-6, caught - release))
            if event.passer in share:
                share[event.passer] += 1 - k
            if event.receiver in share:
                share[event.receiver] += k
        return Moment(t, men, rounded(timeline.ball(t).point), share, self.rim)

    def velocity(self, player: int, t: float) -> Point:
        """m/s of an offensive player."""
        return rounded(self.timeline.velocity(player, t))

    def targets(self, now: Moment) -> dict[int, Point]:
        """Where each would like to be."""
        self._stands.clear()  # the same for all five, not for the next instant
        guards = self._guards(now.t)
        base = {b: self._base(now, b, guards[b]) for b in self.bodies}
        for showing in self.shown:
            self._show(showing, now, base, guards)
        return base

    def _guards(self, t: float) -> dict[int, int]:
        """Body -> man, after the switches that are over."""
        guards = {b: b for b in self.bodies}
        for s in self.shown:
            if s.swaps and len(s.bodies) == 2 and t >= s.at + 0.9 and set(s.bodies) <= set(guards):
                a, b = s.bodies
                guards[a], guards[b] = guards[b], guards[a]
        return guards

    def _base(self, now: Moment, body: int, man: int) -> Point:
        up_floor = smooth((now.ball[1] - self.court.length / 2 + 1.0) / 3.0)  # 1: the ball is in the backcourt
        if body not in self.areas:
            target = man_target(now, man)
            pressed = 1.0 if body in self.chased else up_floor if self.against == "man press" else 0.0
            if pressed > 0.0:
                return mix(target, press_target(now, man), pressed)
            line = self.court.length / 2 + PICKS_UP  # nobody runs up to a ball that comes to him anyway
            return target if target.y < line else Point(target.x, line + FOLLOWS_UP * (target.y - line))
        zone = area_target(now, lambda ball: self._stand(body, ball), self.chased, self.mind)
        return mix(man_target(now, man), zone, up_floor) if self.press and not self.trap else zone

    def _stand(self, body: int, ball: Point) -> Stand:
        if ball not in self._stands:
            self._stands[ball] = stands(self.court, self.against, ball)
        return self._stands[ball][body]

    def _show(self, s: Showing, now: Moment, base: dict[int, Point], guards: dict[int, int]) -> None:
        weight = _weight(s, now.t)
        if weight <= 0.0:
            return
        if s.screening is None:
            body = s.bodies[0]
            place = SINGLE.get(s.coverage)
            man = self._shown_to(s, body, guards[body]) if body in base else None
            if s.coverage in TWO and man in now.men and self._holds_area(body, now):
                base[body] = mix(base[body], self._in_trap(body, s.partner, now.men[man]), weight)
            elif man in now.men and s.coverage == "":
                base[body] = mix(base[body], none_of(now, man, s.keys, base[body]), weight)
            elif man in now.men and place is not None:
                base[body] = mix(base[body], place(now, man), weight)
            return
        for body, role, table in ((s.bodies[0], "user", USER), (s.bodies[1], "screener", SCREENER)):
            if body in base and s.roles in ("both", role) and s.coverage in table:
                base[body] = mix(base[body], table[s.coverage](s.screening, now), weight)

    def _holds_area(self, body: int, now: Moment) -> bool:
        return body in self.areas and (not self.press or self.trap or now.ball[1] > self.court.length / 2)

    def _in_trap(self, body: int, partner: int | None, man: Point) -> Point:
        """One of two who trap `man`, feet together: each on the side of the way to the rim he comes from, on the floor."""
        toward_rim = unit(self.rim[0] - man[0], self.rim[1] - man[1])

        def across(number: int) -> float:
            place = self._stand(number, man).place
            return toward_rim[0] * (place[1] - man[1]) - toward_rim[1] * (place[0] - man[0])

        own = across(body)
        side = 1.0 if own > (across(partner) if partner in self.areas else 0.0) else -1.0
        ahead, aside = TRAP[0], side * TRAP[1]
        edge = self.court.half_width - INSIDE
        x = man[0] + ahead * toward_rim[0] - aside * toward_rim[1]
        return Point(min(edge, max(-edge, x)), max(INSIDE, man[1] + ahead * toward_rim[1] + aside * toward_rim[0]))

    def _shown_to(self, s: Showing, body: int, man: int) -> int:
        """Whom a defender shows a coverage: his man; of an area the one with the ball, to whom he comes out, or the
        nearest then, since his number is nobody's."""
        if body not in self.areas:
            return man
        if s.man is not None:
            return s.man
        if (s, body) not in self._met:
            self._met[s, body] = self._met_by_area(s, body, man)
        return self._met[s, body] or man

    def _met_by_area(self, s: Showing, body: int, man: int) -> int | None:
        """Whom he meets when the coverage is shown; None while his press holds no area."""
        now = self.moment(s.at)
        if not self._holds_area(body, now):
            return None
        if COMES_OUT & {s.coverage, *s.keys}:
            return max(now.men, key=lambda m: (now.share[m], -m))
        x, y = self._base(now, body, man)
        return min(now.men, key=lambda m: (hypot(now.men[m][0] - x, now.men[m][1] - y), m))


def _weight(s: Showing, t: float) -> float:
    """How much of the coverage is to be seen (timeline.md 5.5)."""
    if s.lasting:
        return smooth((t - s.at) / 0.5) * (1 - smooth((t - s.until) / 0.5))
    if s.coverage == "switch":
        if s.swaps:
            return smooth((t - s.at + 0.5) / 0.5) * (1 - smooth((t - s.at - 0.9) / 0.7))
        return min(smooth((t - s.at + 0.5) / 0.5), 1 - smooth((t - s.at - 0.9) / 0.7))
    return min(smooth((t - s.at + s.early) / 0.5), 1 - smooth((t - s.at - 0.9) / 0.7))
