"""Who holds which area of a zone, a press, a box, diamond or triangle (language.md 6.6), and about where he stands.

In: the text of `against`, a court; out: area words -> X number, points in metres. The points are ours (judged by
eye, no source): they say where an area is when a line goes at its defender, not how a zone shifts.
"""

from __future__ import annotations

import re
from functools import lru_cache

from generator.model.court import Court, Point

_ZONES: dict[str, tuple[str, ...]] = {
    "2-3": ("top left", "top right", "low left", "low right", "middle"),
    "2-1-2": ("top left", "top right", "low left", "low right", "middle"),
    "3-2": ("top", "left wing", "right wing", "low left", "low right"),
    "1-3-1": ("top", "left wing", "right wing", "baseline", "middle"),
    "1-2-2": ("top", "top left", "top right", "low left", "low right"),
}
_PRESSES: dict[str, tuple[str, ...]] = {
    "1-2-1-1": ("front", "left wing", "right wing", "middle", "deep"),
    "2-2-1": ("front left", "front right", "left wing", "right wing", "deep"),
    "1-3-1": ("top", "left wing", "right wing", "baseline", "middle"),
}
_CHASED = {
    "box": ("top left", "top right", "low left", "low right"),
    "diamond": ("top", "left wing", "right wing", "baseline"),
    "triangle": ("top", "low left", "low right"),
}
_CHASES = re.compile(r"(box|diamond) and one on ([1-5])$|(triangle) and two on ([1-5]) and ([1-5])$")


@lru_cache(maxsize=64)
def areas_of(against: str) -> dict[str, int]:
    """Area words -> X number; empty against man, man press and nobody. Do not change the result."""
    words = " ".join(against.lower().split())
    shape = area_shape(against)
    if shape in _CHASED:
        others = [n for n in (1, 2, 3, 4, 5) if n not in chasers_of(against)]
        return dict(zip(_CHASED[shape], others))
    table = _PRESSES if words.startswith("zone press ") else _ZONES
    return {area: number for number, area in enumerate(table.get(shape, ()), 1)}


@lru_cache(maxsize=64)
def chasers_of(against: str) -> frozenset[int]:
    """The men chased in a box or diamond and one, a triangle and two; the X of each has his number."""
    found = _CHASES.match(" ".join(against.lower().split()))
    return frozenset(int(n) for n in (found.groups() if found else ()) if n and n.isdigit())


def area_shape(against: str) -> str:
    """`2-3` of `zone 2-3`, `1-2-1-1` of a press, `box`, `diamond` or `triangle`; empty against man and nobody."""
    words = " ".join(against.lower().split())
    found = _CHASES.match(words)
    if found:
        return found[1] or found[3]
    return words.rsplit(" ", 1)[-1] if words.startswith(("zone ", "matchup zone ")) else ""


def mirrored_area(area: str) -> str:
    """`low left` for `low right`; areas without a side stay."""
    swap = {"left": "right", "right": "left"}
    return " ".join(swap.get(word, word) for word in area.split())


def mirrored_body(against: str, body: int) -> int:
    """The X number that holds the mirrored area; against man the same number."""
    areas = areas_of(against)
    own = next((area for area, number in areas.items() if number == body), None)
    return areas.get(mirrored_area(own), body) if own else body


def area_point(court: Court, against: str, area: str) -> Point:
    """About where the defender of an area stands."""
    press = against.startswith("zone press")
    side = -1 if "left" in area else 1
    place = area.replace("left", "").replace("right", "").strip()
    k, f, b, m = court.half_lane, court.free_throw_line, court.rim, court.block_middle
    at = {
        "top": Point(side * (0.75 * k if area != "top" else 0.0), f + 1.2), "wing": Point(side * (k + 1.6), f - 0.8),
        "low": Point(side * (k + 0.5), m), "middle": Point(0.0, (b + f) / 2), "baseline": Point(0.0, b + 0.6),
        "front": Point(side * (2.6 if area != "front" else 0.0), b + 3.4), "deep": Point(0.0, b),
    }[place]
    if press:
        at = {"deep": Point(0.0, court.length - b - 3.0), "middle": Point(0.0, court.length / 2 - 1.5),
              "wing": Point(at.x, court.length / 2 - 4.5), "baseline": Point(0.0, court.length - b - 3.0)}.get(place, at)
        return Point(at.x, court.length - at.y)
    return at
