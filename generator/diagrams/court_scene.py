"""The lines of a floor as shapes in picture units, for any rule set; each lies in the middle of its painted line.

Lane, arc and circles are given by outer edges and the restricted arc by its inner edge (facts in
`generator.model.court`), so half a line's width is taken off or added here.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from math import acos, asin, pi, sqrt

from generator.diagrams.path import Bend, Path, Straight
from generator.diagrams.scene import UNITS, View
from generator.model.court import Court, RuleSet

# Length across the lane line of the painted marks, from memory: 10 cm, 6 in, 8 in, 8 in.
_MARK_DEPTH = {
    RuleSet.INTERNATIONAL: 0.10,
    RuleSet.PROFESSIONAL: 0.1524,
    RuleSet.COLLEGE: 0.2032,
    RuleSet.HIGH_SCHOOL: 0.2032,
}
# The inner half of the free-throw circle is a broken line except on the international floor (from memory).
_BROKEN_HALF = {RuleSet.PROFESSIONAL, RuleSet.COLLEGE, RuleSet.HIGH_SCHOOL}
# From the sideline outward, and at which sides: outside on the side away from the benches; 3 ft inward on both (from memory).
_THROW_IN = {RuleSet.INTERNATIONAL: (0.0, 0.15, (1,)), RuleSet.PROFESSIONAL: (-0.9144, 0.0, (1, -1))}


@dataclass(frozen=True, slots=True)
class CourtShapes:
    """What is painted: `lines` and `broken` are paths, `marks` and `lane` are (x, y, width, height) of rectangles."""

    lines: tuple[Path, ...]
    broken: tuple[Path, ...]
    marks: tuple[tuple[float, float, float, float], ...]
    lane: tuple[tuple[float, float, float, float], ...]
    line_width: float


def court_shapes(view: View) -> CourtShapes:
    """All that is painted on the part of the floor that the view shows, basket up (the writer turns it)."""
    court = view.court
    near = _basket_half(court)
    halves = (near, tuple(_turned(p, court.length * UNITS) for p in near)) if view.full else (near,)
    lane = _lane(court)
    far_lane = _turned_boxes(lane, court.length * UNITS)
    broken = (_broken_half(court),) if court.rule_set in _BROKEN_HALF else ()
    marks = _lane_marks(court) + (_turned_boxes(_lane_marks(court), court.length * UNITS) if view.full else ())
    return CourtShapes(
        tuple(p for half in halves for p in half) + _common(court, view.full),
        broken + (tuple(_turned(p, court.length * UNITS) for p in broken) if view.full else ()),
        marks,
        lane + (far_lane if view.full else ()),
        court.line_width * UNITS,
    )


def _path(*points: tuple[float, float]) -> Path:
    scaled = [(x * UNITS, y * UNITS) for x, y in points]
    return Path(tuple(Straight(a, b) for a, b in itertools.pairwise(scaled)))


def _arc(x: float, y: float, radius: float, a0: float, sweep: float) -> Bend:
    return Bend((x * UNITS, y * UNITS), radius * UNITS, a0, sweep)


def _basket_half(court: Court) -> tuple[Path, ...]:
    h = court.line_width / 2
    board = court.backboard_width / 2
    face = court.backboard
    return (
        _path((-board, face), (board, face)),
        _path((0.0, face), (0.0, court.rim - court.rim_diameter / 2)),
        Path((_arc(0, court.rim, court.rim_diameter / 2, -pi / 2, 2 * pi),)),
        _three_point_line(court, h),
        *_restricted(court, h),
        *_free_throw(court, h),
        *_throw_in(court, h),
    )


def _three_point_line(court: Court, h: float) -> Path:
    side, radius = court.corner_line - h, court.arc_radius - h
    join = court.rim + sqrt(max(0.0, radius * radius - side * side))
    open_by = acos(min(1.0, side / radius))
    arc = _arc(0, court.rim, radius, open_by, pi - 2 * open_by)
    right, left = _path((side, 0.0), (side, join)), _path((-side, join), (-side, 0.0))
    return Path(right.pieces + (arc,) + left.pieces)


def _restricted(court: Court, h: float) -> tuple[Path, ...]:
    if court.restricted_radius is None:
        return ()
    radius = court.restricted_radius + h
    right = _path((radius, court.backboard), (radius, court.rim))
    left = _path((-radius, court.rim), (-radius, court.backboard))
    return (Path(right.pieces + (_arc(0, court.rim, radius, 0.0, pi),) + left.pieces),)


def _free_throw(court: Court, h: float) -> tuple[Path, ...]:
    k, line = court.half_lane - h, court.free_throw_line - h
    circle = Path((_arc(0, line, court.free_throw_circle_radius - h, 0.0, pi),))
    return (_path((-k, 0.0), (-k, line), (k, line), (k, 0.0)), circle)


def _broken_half(court: Court) -> Path:
    h = court.line_width / 2
    return Path((_arc(0, court.free_throw_line - h, court.free_throw_circle_radius - h, pi, pi),))


def _throw_in(court: Court, h: float) -> tuple[Path, ...]:
    if court.rule_set not in _THROW_IN:
        return ()
    w, y = court.half_width, court.throw_in_line - h
    inner, outer, sides = _THROW_IN[court.rule_set]
    return tuple(_path((s * (w + inner), y), (s * (w + outer), y)) for s in sides)


def _lane_marks(court: Court) -> tuple[tuple[float, float, float, float], ...]:
    deep = _MARK_DEPTH[court.rule_set]
    k = court.half_lane
    boxes = ((x, near, deep, far - near) for near, far in court.lane_marks for x in (k, -k - deep))
    return tuple(tuple(v * UNITS for v in box) for box in boxes)


def _lane(court: Court) -> tuple[tuple[float, float, float, float], ...]:
    k = court.half_lane * UNITS
    return ((-k, 0.0, 2 * k, court.free_throw_line * UNITS),)


def _common(court: Court, full: bool) -> tuple[Path, ...]:
    """Boundary, division line and centre circle: half of it, or all."""
    h = court.line_width / 2
    w, half = court.half_width + h, court.length / 2
    q = court.center_circle_radius - h
    if full:
        end = court.length + h
        around = _path((-w, -h), (w, -h), (w, end), (-w, end), (-w, -h))
        return (around, _path((-w, half), (w, half)), Path((_arc(0, half, q, 0.0, 2 * pi),)))
    begin = asin(min(1.0, h / q))
    circle = Path((_arc(0, half, q, -begin, -pi + 2 * begin),))
    return (_path((-w, half), (-w, -h), (w, -h), (w, half), (-w, half)), circle)


def _turned(path: Path, length: float) -> Path:
    """The same at the other end: turned by half round the middle of the floor."""

    def spot(p):
        return (-p[0], length - p[1])

    pieces = tuple(
        Straight(spot(p.a), spot(p.b)) if isinstance(p, Straight) else Bend(spot(p.centre), p.radius, p.a0 + pi, p.sweep)
        for p in path.pieces
    )
    return Path(pieces)


def _turned_boxes(boxes, length: float):
    return tuple((-x - w, length - y - h, w, h) for x, y, w, h in boxes)
