"""How zones and presses shift with the ball: where each area's defender stands, and how far he goes out to it.

In: a court, the text of `against`, the ball's place; out: a `Stand` for each X number that holds an area. Each row of a
table is one place of the ball on the right side, in metres of the international floor; the left is its mirror. Between
rows places are mixed by how near the ball is to each, so nobody jumps. As taught (common practice, no source): the guard
of the ball's side goes out to slot and wing and the other drops to the nail; the low man goes out to the corner, the
middle man takes the ball-side block in front, the far low man protects the rim; a ball at the nail is met by the middle man.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from generator.model.areas import area_shape, areas_of, mirrored_area
from generator.model.court import Court, Point, RuleSet, court_for
from generator.model.press_shifts import ON, PRESS_BALLS, PRESS_SHIFTS, Row

# Where the ball is, right side, international floor: `out` is a throw-in from the end line.
BALLS: Mapping[str, tuple[float, float]] = {
    "deep": (0.0, 11.6), "deep side": (5.0, 11.2), "top": (0.0, 8.6), "slot": (2.4, 8.2), "wing": (5.0, 6.6), "corner": (6.9, 1.2),
    "short corner": (4.4, 1.0), "block": (2.75, 2.85), "elbow": (2.45, 5.8), "nail": (0.0, 5.8), "rim": (0.0, 2.5), "out": (3.4, -0.6),
}

SHIFTS: Mapping[str, Mapping[str, Row]] = {
    "2-3": {  # top left, top right, low left, low right, middle
        "deep": ((-1.6, 7.2), (1.6, 7.2), (-2.9, 3.2), (2.9, 3.2), (0.0, 3.4)),
        "deep side": ((-1.2, 7.2), (2.2, 7.6), (-2.7, 3.2), (3.0, 3.4), (0.2, 3.4)),
        "top": ((-1.3, 6.9, 0.4), (1.3, 6.9, 0.4), (-2.9, 3.4), (2.9, 3.4), (0.0, 3.6)),
        "slot": ((-0.5, 6.3), ON, (-2.3, 3.1), (3.5, 3.9), (0.5, 3.5)),
        "wing": ((0.7, 5.6), ON, (-1.2, 2.8), (4.2, 2.5), (1.5, 2.9)),
        "corner": ((0.9, 4.9), (4.7, 4.4), (-0.2, 2.8), ON, (2.6, 2.0)),
        "short corner": ((0.6, 4.4), (3.4, 3.9), (-0.5, 2.5), ON, (1.8, 2.3)),
        "block": ((0.4, 4.6), (2.9, 4.5), (-0.8, 2.3), (3.9, 1.9), ON),
        "elbow": ((-0.5, 6.4), (3.3, 6.6), (-1.8, 2.6), (2.3, 2.8), ON),
        "nail": ((-1.8, 6.2), (1.8, 6.2), (-1.9, 2.7), (1.9, 2.7), ON),
        "rim": ((-1.0, 4.0), (1.0, 4.0), (-1.4, 2.1), (1.4, 2.1), ON),
        "out": ((0.2, 5.0), (3.4, 4.8), (-1.8, 2.8), (3.6, 1.9), (0.9, 2.3)),
    },
    "3-2": {  # top, left wing, right wing, low left, low right
        "deep": ((0.0, 7.6), (-3.2, 6.0), (3.2, 6.0), (-2.0, 3.0), (2.0, 3.0)),
        "deep side": ((0.8, 7.6), (-2.6, 6.0), (3.4, 6.6), (-1.8, 3.0), (2.2, 3.0)),
        "top": (ON, (-3.0, 6.0), (3.0, 6.0), (-1.9, 3.0), (1.9, 3.0)),
        "slot": ((1.4, 7.0, 0.7), (-2.4, 5.4), (3.6, 6.2, 0.2), (-1.4, 2.9), (2.4, 3.0)),
        "wing": ((1.6, 5.9), (-1.5, 4.6), ON, (-0.2, 2.7), (3.1, 2.6)),
        "corner": ((1.5, 5.0), (-1.0, 3.4), (4.7, 4.4), (2.2, 2.1), ON),
        "short corner": ((1.0, 4.8), (-1.2, 3.0), (3.4, 4.0), (1.6, 2.2), ON),
        "block": ((0.6, 4.6), (-1.5, 3.4), (3.2, 4.4), (-0.1, 2.4), ON),
        "elbow": ((1.6, 5.2, 0.7), (-1.7, 4.6), (3.8, 5.9), (-1.2, 2.7), (1.8, 2.9)),
        "nail": ((0.0, 5.0, 0.7), (-2.3, 5.4), (2.3, 5.4), (-1.5, 2.8), (1.5, 2.8)),
        "rim": ((0.0, 4.2), (-1.9, 3.6), (1.9, 3.6), (-0.9, 2.0, 0.4), (0.9, 2.0, 0.4)),
        "out": ((0.7, 5.2), (-1.9, 4.4), (3.3, 4.6), (-0.4, 2.6), (3.0, 1.9)),
    },
    "1-3-1": {  # top, left wing, right wing, baseline, middle
        "deep": ((0.0, 7.8), (-3.4, 5.6), (3.4, 5.6), (0.0, 2.3), (0.0, 4.9)),
        "deep side": ((1.2, 7.8), (-2.8, 5.4), (3.8, 6.2), (0.4, 2.2), (0.3, 4.9)),
        "top": (ON, (-3.3, 5.6), (3.3, 5.6), (0.0, 2.2), (0.0, 5.0)),
        "slot": ((1.6, 7.2, 0.8), (-2.2, 4.8), (4.2, 5.8), (1.0, 2.0), (0.8, 5.0)),
        "wing": ((2.0, 6.7), (-1.2, 3.8), ON, (3.3, 1.9), (2.2, 4.2)),
        "corner": ((2.2, 5.7), (-0.3, 2.9), (5.0, 4.2), ON, (2.8, 2.2)),
        "short corner": ((1.7, 5.3), (-0.6, 2.7), (3.8, 3.8), ON, (2.2, 2.5)),
        "block": ((0.9, 5.3), (-1.0, 2.9), (3.3, 4.4), (3.5, 1.5), ON),
        "elbow": ((1.4, 7.2), (-1.6, 3.9), (3.8, 5.2), (0.8, 2.3), ON),
        "nail": ((0.0, 7.2), (-2.0, 4.8), (2.0, 4.8), (0.0, 2.4), ON),
        "rim": ((0.0, 4.8), (-1.5, 2.9), (1.5, 2.9), (0.0, 1.5, 0.4), (0.0, 3.2, 0.4)),
        "out": ((0.8, 5.8), (-1.6, 3.6), (3.7, 4.4), (3.2, 1.4), (1.2, 2.8)),
    },
    "box": {  # top left, top right, low left, low right
        "deep": ((-1.8, 6.6), (1.8, 6.6), (-2.0, 3.0), (2.0, 3.0)),
        "deep side": ((-1.4, 6.6), (2.4, 7.0), (-1.8, 3.0), (2.2, 3.1)),
        "top": ((-1.5, 6.6, 0.4), (1.5, 6.6, 0.4), (-1.9, 3.0), (1.9, 3.0)),
        "slot": ((-0.5, 5.9), ON, (-1.5, 2.9), (2.5, 3.3)),
        "wing": ((0.6, 5.3), ON, (-0.2, 2.7), (3.2, 2.6)),
        "corner": ((0.4, 4.2), (4.4, 4.3), (2.1, 2.2), ON),
        "short corner": ((0.4, 4.0), (3.3, 3.9), (1.5, 2.3), ON),
        "block": ((0.1, 4.4), (2.9, 4.5), (-0.4, 2.4), ON),
        "elbow": ((-0.4, 5.4), (2.6, 5.0, 0.8), (-1.2, 2.7), (1.8, 2.9)),
        "nail": ((-0.9, 5.2, 0.5), (0.9, 5.2, 0.5), (-1.5, 2.8), (1.5, 2.8)),
        "rim": ((-1.2, 4.0), (1.2, 4.0), (-0.9, 2.0, 0.4), (0.9, 2.0, 0.4)),
        "out": ((0.2, 4.8), (3.3, 4.6), (-0.3, 2.6), (3.0, 1.9)),
    },
    "diamond": {  # top, left wing, right wing, baseline
        "deep": ((0.0, 7.4), (-2.6, 5.0), (2.6, 5.0), (0.0, 2.6)),
        "deep side": ((1.2, 7.4), (-2.2, 4.8), (3.0, 5.4), (0.4, 2.5)),
        "top": (ON, (-2.6, 5.0), (2.6, 5.0), (0.0, 2.6)),
        "slot": ((1.5, 7.0, 0.8), (-2.0, 4.4), (3.2, 5.4), (0.8, 2.4)),
        "wing": ((1.4, 6.0), (-1.0, 3.4), ON, (2.5, 2.4)),
        "corner": ((1.4, 5.2), (0.2, 2.8), (4.2, 3.9), ON),
        "short corner": ((1.2, 4.9), (0.2, 2.6), (3.3, 3.6), ON),
        "block": ((0.7, 4.8), (-0.8, 2.7), (3.0, 4.2), ON),
        "elbow": ((1.6, 6.9), (-1.4, 3.8), ON, (0.8, 2.5)),
        "nail": ((0.0, 5.1, 0.8), (-1.9, 4.2), (1.9, 4.2), (0.0, 2.5)),
        "rim": ((0.0, 4.4), (-1.3, 2.9), (1.3, 2.9), ON),
        "out": ((0.7, 5.2), (-1.3, 3.3), (3.3, 4.2), (2.8, 1.7)),
    },
    "triangle": {  # top, low left, low right
        "deep": ((0.0, 6.6), (-1.9, 3.0), (1.9, 3.0)),
        "deep side": ((0.8, 6.6), (-1.6, 3.0), (2.2, 3.0)),
        "top": ((0.0, 6.4, 0.6), (-1.8, 3.0), (1.8, 3.0)),
        "slot": ((1.4, 6.4, 0.7), (-1.3, 2.9), (2.3, 3.1)),
        "wing": ((2.6, 5.6, 0.8), (-0.2, 2.7), (3.0, 2.7)),
        "corner": ((1.0, 4.4), (1.9, 2.3), ON),
        "short corner": ((0.8, 4.2), (1.4, 2.3), ON),
        "block": ((0.8, 4.4), (-0.2, 2.5), ON),
        "elbow": ((1.6, 5.0, 0.8), (-1.0, 2.7), (1.9, 2.9)),
        "nail": ((0.0, 5.0, 0.8), (-1.5, 2.8), (1.5, 2.8)),
        "rim": ((0.0, 4.0), (-0.9, 2.0, 0.4), (0.9, 2.0, 0.4)),
        "out": ((0.8, 4.8), (-0.3, 2.6), (2.9, 1.9)),
    },
}
# What one zone has otherwise than another of the same columns.
_HIGHER_MIDDLE = {  # 2-1-2: the middle man waits at the dots and plays the high post
    "deep": (0.0, 4.8), "deep side": (0.2, 4.8), "top": (0.0, 4.8), "slot": (0.7, 4.6), "wing": (1.7, 3.6), "corner": (2.6, 2.2),
}
_NARROW_WINGS = {  # 1-2-2: the two of the second line stand at the elbows
    "deep": ((-2.3, 5.8), (2.3, 5.8)), "deep side": ((-2.0, 5.8), (2.6, 6.2)), "top": ((-2.3, 5.8), (2.3, 5.8)),
}
_LOWEST = {"zone press 1-2-1-1": 14.0, "zone press 2-2-1": 14.0}  # in the front court these two guard men
_NEAR_FLOOR = 0.05  # square metres; keeps weights finite where the ball is right on a place


@dataclass(frozen=True, slots=True)
class Stand:
    """Where one stands while the ball is elsewhere, in metres, and his share (0 to 1) of going out to the ball."""

    place: Point
    out: float


def _rows(shape: str) -> Mapping[str, Row]:
    if shape == "2-1-2":
        return {ball: (*row[:4], _HIGHER_MIDDLE.get(ball, row[4])) for ball, row in SHIFTS["2-3"].items()}
    if shape == "1-2-2":
        return {ball: (row[0], *_NARROW_WINGS.get(ball, row[1:3]), *row[3:]) for ball, row in SHIFTS["3-2"].items()}
    return SHIFTS[shape]


@lru_cache(maxsize=64)
def _stations(rule_set: RuleSet, against: str) -> tuple[tuple[Point, tuple[tuple[int, Point, float], ...]], ...]:
    """Places of the ball on both sides, each with (X number, place, share out to the ball), on this floor."""
    court, areas = court_for(rule_set), areas_of(against)
    if not areas:
        return ()
    press = against.startswith("zone press")
    shape = area_shape(against)
    balls, rows = (PRESS_BALLS, PRESS_SHIFTS[shape]) if press else (BALLS, _rows(shape))
    found = []
    for ball, row in rows.items():
        at = _on_floor(court, balls[ball], press)
        cells = [(area, _on_floor(court, cell, press), cell[2] if len(cell) > 2 else 0.0) for area, cell in zip(areas, row, strict=True)]
        found.append((at, tuple((areas[area], place, out) for area, place, out in cells)))
        if at.x:
            turned = ((areas[mirrored_area(area)], place.mirrored(), out) for area, place, out in cells)
            found.append((at.mirrored(), tuple(sorted(turned))))
    return tuple(found)


def _on_floor(court: Court, cell: tuple[float, ...], press: bool) -> Point:
    """International metres on this floor: zones grow with the arc, presses with the length."""
    if press:
        return Point(cell[0] * court.width / 15.0, cell[1] * court.length / 28.0)
    k = court.behind_arc / 7.05
    return Point(cell[0] * k, court.rim + (cell[1] - 1.575) * k)


def stands(court: Court, against: str, ball: Point) -> dict[int, Stand]:
    """X number -> his `Stand` while the ball is at `ball`; only numbers that hold an area.

    The further the ball is from every row of the table, the more alike their weights: so a ball past the table's end is
    taken as one at its edge.
    """
    seen = Point(ball.x, min(max(ball.y, _LOWEST.get(against, -1.0)), 30.0 if against.startswith("zone press") else 11.8))
    total: dict[int, list[float]] = {}
    for at, cells in _stations(court.rule_set, against):
        apart = (seen.x - at.x) ** 2 + (seen.y - at.y) ** 2 + _NEAR_FLOOR
        w = 1.0 / (apart * apart)
        for number, place, out in cells:
            t = total.setdefault(number, [0.0, 0.0, 0.0, 0.0])
            stays = w * (1.0 - out)
            t[0] += w
            t[1] += stays
            t[2] += stays * place.x
            t[3] += stays * place.y
    return {
        number: Stand(Point(x / stays, y / stays) if stays > 1e-9 else seen, 1.0 - stays / w)
        for number, (w, stays, x, y) in total.items()
    }
