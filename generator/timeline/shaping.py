"""Knots to a curve with its time map: the fastest turns, clear of standing players (timeline.md 1.8, 2.8, 4.2)."""

from __future__ import annotations

from math import hypot, sqrt

from generator.model.court import Point
from generator.timeline.floor import off_the_floor
from generator.timeline.parameters import (
    AT_END,
    BODY,
    BODY_IGNORE,
    BODY_TOUCH,
    CLOSEST,
    CURL_DETOUR,
    CURL_WORTH,
    DETOUR,
    TIGHT_BODY,
    Pace,
)
from generator.timeline.pieces import Arc, Curve, Line
from generator.timeline.splice import State, departures
from generator.timeline.taut import Knot, round_corners, settle_knots, thread
from generator.timeline.time_map import NEARLY, Leg, TimeMap, run_legs
from generator.timeline.turning import best_turn
from generator.timeline.waypoints import Waypoints

Shaped = tuple[Curve, TimeMap, tuple[float, ...]]  # the way, its map, metres at which each member ends


def shape(
    way: Waypoints, state: State | None, standing: tuple[Point, ...], pace: Pace,
) -> Shaped:
    """The curve that keeps clear of the standing players, its time map and where each member ends."""
    strives, floor = way.strives(), (way.courses.sideline, way.courses.hand)
    plain = _clear(_turned(way.knots, strives, pace), way.boundaries, strives, state, standing, pace, floor, True)
    bent = way.round_knots()
    if bent is None:
        return plain
    made = _clear(_turned(bent, strives, pace), way.boundaries, strives, state, standing, pace, floor, False)
    brushed, brushes = (len(_in_the_way(m[0], standing, CLOSEST)) for m in (plain, made))
    if brushed != brushes:
        return plain if brushed < brushes else made
    worth = made[1].total <= CURL_WORTH * plain[1].total and made[0].length <= CURL_DETOUR * plain[0].length
    return made if worth else plain


def _clear(
    knots: list[Knot], boundaries: list[Point], strives: list[float], state: State | None, standing: tuple[Point, ...],
    pace: Pace, floor: tuple[float, int], plants: bool,
) -> Shaped:
    """Wraps the standing players one after the other, the first met first (timeline.md 1.8). `floor`: metres to the
    sideline, and the hand that ties go to."""
    sideline, hand = floor

    def run(along: list[Knot]) -> Shaped:
        return _fastest(along, boundaries, strives, state, standing, pace, sideline, plants)

    others = tuple(p for p in standing if not any(p.distance(k.centre) < AT_END for k in knots))  # who is passed on purpose
    made, tried = run(knots), set()
    for _ in range(3):
        blocked = [b for b in _in_the_way(made[0], others) if b[1] not in tried]
        if not blocked:
            break
        s, place = blocked[0]
        tried.add(place)
        options = [(knots, made), *((k, run(k)) for k in _past(knots, made[0], s, place, others, hand))]
        knots, made = min(options, key=lambda o: round(_cost(o[0], o[1][0], others, sideline), 6))
    return made


def _turned(knots: list[Knot], strives: list[float], pace: Pace) -> list[Knot]:
    """Corners get the turn that is fastest; radius 0 is a plant (timeline.md 2.8)."""
    out = list(knots)
    for i in range(1, len(knots) - 1):
        if not knots[i].r:
            radius = best_turn(knots[i - 1].centre, knots[i].centre, knots[i + 1].centre, max(strives), pace)
            out[i] = Knot(knots[i].centre, rounding=radius)
    return out


def _in_the_way(curve: Curve, standing: tuple[Point, ...], touch: float = BODY_TOUCH) -> list[tuple[float, Point]]:
    """(metres along the way, place) of every standing player nearer than `touch`, in the order in which they are met."""
    met = []
    for place in standing:
        s, distance = curve.nearest(place)
        if distance < touch and AT_END < s < curve.length - AT_END and not at_an_end(curve, place, s, distance):
            met.append((s, place))
    return sorted(met)


def at_an_end(curve: Curve, place: Point, s: float, distance: float) -> bool:
    """He stands by an end of the way and is met there with a brush at most, or so near to it that he cannot be spared;
    one met later, by a way that comes back, is in the way."""
    for end, far in ((curve.start, s), (curve.end, curve.length - s)):
        near = hypot(place[0] - end[0], place[1] - end[1])
        if near < BODY_IGNORE and far < 2 * BODY_IGNORE and (distance >= CLOSEST or near < CLOSEST + 0.05):
            return True
    return False


def _past(
    knots: list[Knot], curve: Curve, s: float, place: Point, others: tuple[Point, ...], hand: int,
) -> list[list[Knot]]:
    """Knots with a circle round the standing player put in near where he is met, on either side, wide and tight, and so
    that the way leads midway between him and the one who stands nearest to him."""
    at = next((i for i in range(1, len(knots)) if curve.nearest(knots[i].centre)[0] > s), len(knots) - 1)
    r = min(BODY, *(max(0.3, hypot(place[0] - e[0], place[1] - e[1]) - 0.02) for e in (knots[0].centre, knots[-1].centre)))
    half = min((place.distance(o) / 2 for o in others if o != place), default=BODY)
    radii = dict.fromkeys(max(0.3, min(r, k)) for k in (BODY, TIGHT_BODY, half))
    return [
        [*knots[:where], Knot(place, radius, g), *knots[where:]]
        for where in sorted({max(1, at - 1), at, min(at + 1, len(knots) - 1)})
        for g in (hand, -hand) for radius in radii
    ]


def _cost(knots: list[Knot], curve: Curve, standing: tuple[Point, ...], sideline: float) -> float:
    """Of a way as it is run: metres lacking at screeners and off the floor count most, then at standing players, then
    its length."""
    lacking = sum(max(0.0, 0.64 - curve.nearest(k.centre)[1]) for k in knots if k.grow)
    near = sum(BODY_TOUCH - curve.nearest(place)[1] for _, place in _in_the_way(curve, standing))
    return 20.0 * (lacking + off_the_floor(curve, sideline)) + 4.0 * near + curve.length


def _fastest(
    knots: list[Knot], boundaries: list[Point], strives: list[float], state: State | None, standing: tuple[Point, ...],
    pace: Pace, sideline: float, plants: bool,
) -> Shaped:
    if state is None or state.heading is None or state.speed < 0.05:
        return _timed(knots, [], boundaries, strives, state.speed if state else 0.0, pace)
    options = list(departures(state, knots, pace))
    if not plants and len(options) > 1:
        options = options[1:]
    made = [_timed(o.knots, o.prefix, boundaries, strives, state.speed, pace) for o in options]
    touched = [
        len(_in_the_way(m[0], standing, CLOSEST)) + (off_the_floor(m[0], sideline) > 0.0) + 10 * _skids(m[1], pace) for m in made
    ]
    clear = [m for m, n in zip(made, touched, strict=True) if n == min(touched)]
    direct = DETOUR * min(m[0].length for m in clear)
    return min((m for m in clear if m[0].length <= direct), key=lambda m: m[1].total)


def _skids(time_map: TimeMap, pace: Pace) -> bool:
    """He would have to brake harder than he can: the way is too short to stop on."""
    return any(segment.slowing > 1.01 * pace.braking for segment in time_map.segments)


def _timed(
    knots: list[Knot], prefix: list, boundaries: list[Point], strives: list[float], v0: float, pace: Pace,
) -> Shaped:
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
        v0 = min(v0, legs[0].cap, NEARLY * legs[0].strive, sqrt(2 * pace.braking * curve.length))
    return curve, run_legs(legs, pace.tau, pace.braking, v0), tuple(ends)


def _is_sharp(before: Line | Arc, length: float, after: Line | Arc) -> bool:
    """Heading may not jump, except where the speed is 0."""
    a, b = before.heading(length), after.heading(0.0)
    return abs(a[0] * b[1] - a[1] * b[0]) > 1e-3 or a[0] * b[0] + a[1] * b[1] < 0
