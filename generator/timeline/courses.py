"""Ways over the floor with their time maps: one `Course` a run (timeline.md sections 1 and 2).

In: a branch's chains, the pace, the rim, states of players a read sends off. Out: curves, maps, points of use.
Nothing here knows when anything starts, so every duration is independent of the schedule.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import combinations
from math import hypot, sqrt

from generator.model.court import Point
from generator.model.settled import AnyAction, Branch, HandOff, Move, Screen, Use
from generator.timeline.chains import Chains, Run, Walk, is_walk, participants
from generator.timeline.parameters import (
    ARRIVE_BY, AT_END, CLOSEST, BODY, BODY_IGNORE, BODY_TOUCH, CLEAR_BY, JOG_EFFORT, SHOULDER, Pace,
)
from generator.timeline.pieces import Arc, Curve, Line
from generator.timeline.places import hand_off_place, screen_place
from generator.timeline.sides import choose_side
from generator.timeline.splice import State, departures
from generator.timeline.taut import Knot, round_corners, settle_knots, thread
from generator.timeline.timed import UsePoint
from generator.timeline.time_map import NEARLY, Leg, TimeMap, run_legs
from generator.timeline.turning import best_turn


@dataclass(frozen=True, slots=True)
class Course:
    """A run's way. `ends[i]`: metres at which member i ends; `uses[i]`: screeners on member i's part."""

    run: Run
    curve: Curve
    map: TimeMap
    ends: tuple[float, ...]
    uses: tuple[tuple[UsePoint, ...], ...]
    standing: tuple[Point, ...] = field(compare=False, default=())

    def index(self, key: str) -> int:
        """Which member an action is."""
        return next(i for i, m in enumerate(self.run.members) if m.key == key)

    def span(self, i: int) -> tuple[float, float]:
        """Metres at which member i begins and ends."""
        return (self.ends[i - 1] if i else 0.0), self.ends[i]

    def times(self, i: int) -> tuple[float, float]:
        """Seconds from the run's start at which member i begins and ends."""
        begin, end = self.span(i)
        return (self.map.time_at(begin) if i else 0.0), self.map.time_at(end)

    def arrive(self, i: int) -> float:
        """Seconds from the run's start until member i is within 0.3 m of its end."""
        begin, end = self.span(i)
        return self.map.time_at(max(begin, end - ARRIVE_BY))


@dataclass(frozen=True, slots=True)
class Trunk:
    """What a parent branch hands to an answer: keys begun by the read, where it leaves each player who has acted, and
    the courses and places it has worked out."""

    begun: frozenset[str]
    halts: Mapping[int, Point]
    courses: Mapping[str, Course]
    places: Mapping[str, Point]


class Courses:
    """Builds and keeps the courses of a branch; `memo` is shared by the branches of a play."""

    def __init__(
        self, branch: Branch, chains: Chains, pace: Pace, rim: Point, memo: dict,
        states: Mapping[str, State] | None = None, hand: int = 1, trunk: Trunk | None = None,
    ):
        self.branch, self.chains, self.pace, self.rim, self.memo = branch, chains, pace, rim, memo
        self.states, self.hand = states or {}, hand  # hand: -1 in a mirrored play, for ties
        self.extra: dict[str, tuple[Point, ...]] = {}  # standing players met after scheduling, by run key
        self.built: dict[str, Course] = {}
        self._busy: set[str] = set()
        self.places: dict[str, Point] = {}
        self.trunk = trunk
        if trunk is not None:
            self.places.update((k, p) for k, p in trunk.places.items() if k in trunk.begun)
            self.built.update(
                (k, c) for k, c in trunk.courses.items() if k in trunk.begun and chains.runs.get(k) == c.run
            )

    # -- places ------------------------------------------------------------------------------------------

    def place_before(self, key: str, player: int) -> Point:
        """Where the player's actions above `key` leave him."""
        run = self.chains.runs.get(key)
        if run is not None and run.player == player and run.key == key and key in self.states:
            return self.states[key].point
        above = self.chains.before(key, player)
        return self.place_after(above, player) if above else self.branch.start[player]

    def place_after(self, action: AnyAction, player: int) -> Point:
        """Where `action` leaves the player; for what the trunk has begun, where the trunk leaves him."""
        if self.trunk is not None and action.key in self.trunk.begun and player in self.trunk.halts:
            return self.trunk.halts[player]
        if is_walk(action, player):
            return self.end_of(action)
        return self.place_before(action.key, player)

    def end_of(self, action: Walk) -> Point:
        """Where a walk ends on the floor: the plan's place, refined for screens and hand-offs."""
        key = action.key
        if key in self.places:
            return self.places[key]
        if key in self._busy:
            return action.end
        self._busy.add(key)
        if isinstance(action, Screen):
            place = screen_place(self, action)
        else:
            place = hand_off_place(self, action) if isinstance(action, Move) else action.end
        self._busy.discard(key)
        self.places[key] = place
        return place

    def screen_at(self, use: Use) -> Point:
        """Where the screener of a use stands."""
        screen = self.chains.actions.get(use.screen) if use.screen else None
        return self.end_of(screen) if isinstance(screen, Screen) else use.at

    # -- courses -----------------------------------------------------------------------------------------

    def of(self, key: str) -> Course:
        """The course of the run that holds this walk."""
        run = self.chains.runs[key]
        if run.key not in self.built:
            self.built[run.key] = self._build(run)
        return self.built[run.key]

    def rebuild(self, run_key: str, standing: tuple[Point, ...]) -> None:
        """Build again, keeping clear of these standing players too."""
        self.extra[run_key] = (*self.extra.get(run_key, ()), *standing)
        self.built.pop(run_key, None)

    def _build(self, run: Run) -> Course:
        start = self.place_before(run.key, run.player)
        state = self.states.get(run.key)
        if state is None and run.player in self.branch.on_the_run and self.chains.before(run.key, run.player) is None:
            state = State(start, None, JOG_EFFORT * self.pace.top_speed)
        route = _Route(self, run, start)
        standing = (*self._idle(run), *self.extra.get(run.key, ()))
        memo_key = (route.signature(), state, standing)
        made = self.memo.get(memo_key)
        if made is None:
            made = self.memo[memo_key] = _shape(route, state, standing, self.pace)
        curve, time_map, ends = made
        return Course(run, curve, time_map, ends, route.use_points(curve, ends), standing)

    def _idle(self, run: Run) -> tuple[Point, ...]:
        """Places of the players with no walk of their own in the run's phases."""
        phases = {m.phase for m in run.members}
        walkers = {p for phase in phases for p in self._walkers(phase)}
        friends = {u.screener for m in run.members if isinstance(m, Move) for u in m.uses}
        friends |= {p for h in run.through if h for p in participants(h)}
        places = []
        for player in sorted(self.branch.start):
            if player != run.player and player not in walkers and player not in friends:
                places.append(self._place_at(player, run.members[0].phase))
        return tuple(places)

    def _walkers(self, phase: int) -> frozenset[int]:
        found = self.memo.setdefault(("walkers", id(self.chains)), {})
        if phase not in found:
            found[phase] = frozenset(
                a.player for a in self.chains.actions.values() if a.phase == phase and is_walk(a, a.player)
            )
        return found[phase]

    def _place_at(self, player: int, phase: int) -> Point:
        """Where the player's actions of earlier phases leave him."""
        above = [a for a in self.chains.of[player] if a.phase < phase and is_walk(a, player)]
        return self.place_after(above[-1], player) if above else self.branch.start[player]


class _Route:
    """Knots of a run before shaping, with what belongs to which member."""

    def __init__(self, courses: Courses, run: Run, start: Point):
        self.courses, self.run, self.start = courses, run, start
        self.knots: list[Knot] = [Knot(start)]
        self.used: list[tuple[int, Use, Point, int]] = []  # member, use, place, g
        self.boundaries: list[Point] = []
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


# -- shaping -----------------------------------------------------------------------------------------------


def _shape(
    route: _Route, state: State | None, standing: tuple[Point, ...], pace: Pace,
) -> tuple[Curve, TimeMap, tuple[float, ...]]:
    """The curve that keeps clear of the standing players, its time map and where each member ends."""
    strives = route.strives()
    knots = _turned(route.knots, strives, pace)
    made = _fastest(knots, route.boundaries, strives, state, pace, standing)
    blocked = _in_the_way(made[0], knots, standing)
    for _ in range(3):
        if not blocked:
            break
        s, place = blocked[0]
        knots = _past(knots, made[0], s, place)
        made = _fastest(knots, route.boundaries, strives, state, pace, standing)
        blocked = [b for b in _in_the_way(made[0], knots, standing) if b[1] != place]
    return made


def _turned(knots: list[Knot], strives: list[float], pace: Pace) -> list[Knot]:
    """Corners get the turn that is fastest; radius 0 is a plant (timeline.md 2.8)."""
    out = list(knots)
    for i in range(1, len(knots) - 1):
        if not knots[i].r:
            radius = best_turn(knots[i - 1].centre, knots[i].centre, knots[i + 1].centre, max(strives), pace)
            out[i] = Knot(knots[i].centre, rounding=radius)
    return out


def _in_the_way(
    curve: Curve, knots: list[Knot], standing: tuple[Point, ...], touch: float = BODY_TOUCH,
) -> list[tuple[float, Point]]:
    start, end = curve.start, curve.end
    met = []
    for place in standing:
        if min(hypot(place[0] - start[0], place[1] - start[1]), hypot(place[0] - end[0], place[1] - end[1])) < BODY_IGNORE:
            continue
        if touch == BODY_TOUCH and any(hypot(k.centre[0] - place[0], k.centre[1] - place[1]) < 0.3 for k in knots):
            continue
        s, distance = curve.nearest(place)
        if distance < touch and AT_END < s < curve.length - AT_END:
            met.append((s, place))
    return sorted(met)


def _past(knots: list[Knot], curve: Curve, s: float, place: Point) -> list[Knot]:
    """Knots with a circle round the standing player put in where he is met, on the shorter side."""
    at = next((i for i in range(1, len(knots)) if curve.nearest(knots[i].centre)[0] > s), len(knots) - 1)
    ends = (knots[0].centre, knots[-1].centre)
    r = min(BODY, *(max(0.3, hypot(place[0] - e[0], place[1] - e[1]) - 0.02) for e in ends))
    tries = [[*knots[:at], Knot(place, r, g), *knots[at:]] for g in (1, -1)]
    return min(tries, key=lambda k: Curve(round_corners(thread(settle_knots(k))[0])).length)


def _fastest(
    knots: list[Knot], boundaries: list[Point], strives: list[float], state: State | None, pace: Pace,
    standing: tuple[Point, ...],
) -> tuple[Curve, TimeMap, tuple[float, ...]]:
    if state is None or state.heading is None or state.speed < 0.05:
        return _timed(knots, [], boundaries, strives, state.speed if state else 0.0, pace)
    made = (
        _timed(option.knots, option.prefix, boundaries, strives, state.speed, pace)
        for option in departures(state, knots, pace)
    )
    return min(made, key=lambda m: (len(_in_the_way(m[0], knots, standing, CLOSEST)), m[1].total))


def _timed(
    knots: list[Knot], prefix: list, boundaries: list[Point], strives: list[float], v0: float, pace: Pace,
) -> tuple[Curve, TimeMap, tuple[float, ...]]:
    pieces = round_corners(thread(settle_knots(knots))[0])
    pieces = [*prefix, *pieces] or [Line(knots[0].centre, knots[-1].centre)]
    curve = Curve(pieces)
    ends, reached = [], 0.0
    for boundary in boundaries[:-1]:
        reached = max(reached, curve.nearest(boundary, frm=reached)[0])
        ends.append(reached)
    ends.append(curve.length)
    legs = []
    for i, (piece, start) in enumerate(zip(pieces, curve.starts)):
        middle = start + curve.lengths[i] / 2
        strive = strives[next((k for k, e in enumerate(ends) if middle <= e), -1)]
        cap = min(strive, sqrt(pace.cornering * piece.r)) if isinstance(piece, Arc) else strive
        sharp = i + 1 < len(pieces) and _is_sharp(piece, curve.lengths[i], pieces[i + 1])
        legs.append(Leg(curve.lengths[i], strive, cap, pace.plant if sharp else None))
    if not prefix:
        v0 = min(v0, legs[0].cap, NEARLY * legs[0].strive)
    return curve, run_legs(legs, pace.tau, pace.braking, v0), tuple(ends)


def _is_sharp(before: Line | Arc, length: float, after: Line | Arc) -> bool:
    """Heading may not jump, except where the speed is 0."""
    a, b = before.heading(length), after.heading(0.0)
    return abs(a[0] * b[1] - a[1] * b[0]) > 1e-3 or a[0] * b[0] + a[1] * b[1] < 0
