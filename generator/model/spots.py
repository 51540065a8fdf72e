"""Named spots of a court: where each stands, how the perimeter runs, what a point is called.

In: a Court and words; out: points in metres (court frame) and words. Letters of the formulas are those of
court.py: B rim, R arc, C corner line, W half width, L length, K half lane, F free-throw line, M middle of the
block mark, H throw-in line, Q centre circle; P = R + 0.3. `ray(a, d)` is the point at angle `a` above the end
line, `d` from the rim. Formulas give the right side; left is x negated.
Rim, lane edge, baseline and sideline depend on the player who goes there: they take his last place.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from itertools import pairwise
from math import cos, hypot, radians, sin, sqrt

from generator.model.court import Court, Point
from generator.model.settled import PlaceName

STEP = 0.8  # metres, language.md section 3
NEAR_RIM = 0.6  # a finisher stands so far from the rim's centre
BESIDE = 0.9  # default of relative places
ON_SPOT = 0.3  # within this a player is on the spot


def ray(court: Court, degrees: float, distance: float) -> Point:
    """The point `distance` metres from the rim's centre, `degrees` above the end line on the right."""
    angle = radians(degrees)
    return Point(distance * cos(angle), court.rim + distance * sin(angle))


def _space_middle(court: Court, number: int) -> float:
    """Distance from the end line to the middle of lane space `number` (1 is nearest to the end line).

    Spaces are the gaps wider than 0.5 m between marks (narrower ones are the neutral zone); above the last
    mark they go on in its width.
    """
    marks = court.lane_marks
    gaps = [(a[1], b[0]) for a, b in pairwise(marks) if b[0] - a[1] > 0.5]
    if number <= len(gaps):
        return sum(gaps[number - 1]) / 2
    width, line = gaps[-1][1] - gaps[-1][0], marks[-1][1] - marks[-1][0]
    return marks[-1][1] + width / 2 + (number - len(gaps) - 1) * (width + line)


def _clock(court: Court, hour: int) -> Point:
    angle, radius = radians(30 * hour), court.center_circle_radius + 0.35
    return Point(radius * sin(angle), court.length / 2 - radius * cos(angle))


def _extended(court: Court) -> Point:
    height = court.free_throw_line - court.rim
    return Point(sqrt(court.behind_arc**2 - height**2), court.free_throw_line)


def _corner_x(court: Court) -> float:
    return court.corner_line + min(0.35, (court.half_width - court.corner_line) / 2)


Formula = Callable[[Court], Point]

_SIDED: dict[str, Formula] = {
    "slot": lambda c: ray(c, 70, c.behind_arc),
    "wing": lambda c: ray(c, 45, c.behind_arc),
    "free-throw line extended": _extended,
    "corner": lambda c: Point(_corner_x(c), 1.2),
    "deep corner": lambda c: Point(_corner_x(c), 0.7),
    "deep slot": lambda c: ray(c, 70, c.behind_arc + 1.2),
    "deep wing": lambda c: ray(c, 45, c.behind_arc + 1.2),
    "inside wing": lambda c: ray(c, 45, c.arc_radius - 1.0),
    "inside slot": lambda c: ray(c, 70, c.arc_radius - 1.0),
    "elbow": lambda c: Point(c.half_lane, c.free_throw_line),
    "block": lambda c: Point(c.half_lane + 0.3, c.block_middle),
    "mid-post": lambda c: Point(c.half_lane + 0.3, (c.block_middle + c.free_throw_line) / 2),
    "low block": lambda c: Point(c.half_lane + 0.3, c.block_middle - 0.9),
    "dunker spot": lambda c: Point(c.half_lane + 0.6, c.rim),
    "short corner": lambda c: Point(c.half_lane + 0.45 * (c.corner_line - c.half_lane), 1.0),
    "hash": lambda c: Point(c.half_width - 0.9, c.throw_in_line),
    "half court": lambda c: Point(0.6 * c.half_width, c.length / 2 - 1),
    "baseline out of bounds": lambda c: Point(c.half_lane + 0.9, -0.6),
    "sideline out of bounds": lambda c: Point(c.half_width + 0.6, c.throw_in_line),
    "backcourt baseline out of bounds": lambda c: Point(c.half_lane + 0.9, c.length + 0.6),
}
_MIDDLE: dict[str, Formula] = {
    "top": lambda c: ray(c, 90, c.behind_arc)._replace(x=0.0),
    "deep top": lambda c: ray(c, 90, c.behind_arc + 1.2)._replace(x=0.0),
    "nail": lambda c: Point(0.0, c.free_throw_line),
    "free-throw line": lambda c: Point(0.0, c.free_throw_line + 0.15),
    "middle of the lane": lambda c: Point(0.0, (c.rim + c.free_throw_line) / 2),
    "front of the rim": lambda c: Point(0.0, c.rim + 1.4),
    "under the basket": lambda c: Point(0.0, 0.7),
    "half court": lambda c: Point(0.0, c.length / 2 - 1),
    "center circle": lambda c: Point(0.0, c.length / 2),
}
_BY_NUMBER: dict[str, Callable[[Court, int], Point]] = {
    "circle": _clock,
    "lane space": lambda c, n: Point(c.half_lane + 0.3, _space_middle(c, n)),
}
_BY_MOVER = ("rim", "lane edge", "baseline", "sideline")

SPOTS: tuple[str, ...] = tuple(dict.fromkeys((*_SIDED, *_MIDDLE, *_BY_NUMBER, *_BY_MOVER)))
OUT_OF_BOUNDS = ("baseline out of bounds", "sideline out of bounds", "backcourt baseline out of bounds")
ARC = ("corner", "wing", "slot", "top")  # one side of the perimeter from the bottom up
PERIMETER: tuple[tuple[str, str], ...] = (
    ("corner", "left"), ("wing", "left"), ("slot", "left"), ("top", ""), ("slot", "right"), ("wing", "right"),
    ("corner", "right"),
)  # from the left corner over the top to the right corner


def needs_side(spot: str) -> bool:
    """True where the spot exists on both sides and in no middle form."""
    return (spot in _SIDED and spot not in _MIDDLE) or spot in ("lane space", "lane edge")


def takes_side(spot: str) -> bool:
    """True where a side may be named at all (`half court` stands in the middle or on a side)."""
    return spot in _SIDED or spot in ("lane space", "lane edge", "sideline")


def spot_point(
    court: Court, spot: str, side: str = "", argument: int | None = None, backcourt: bool = False,
    origin: Point | None = None,
) -> Point:
    """Where a spot is. `side` is left, right or "" (middle); `argument` the N of clock places and lane spaces;
    `origin` the mover's last place, for spots on his own line (rim, lane edge, baseline, sideline)."""
    if backcourt and origin is not None:  # his own line in the other half
        origin = Point(origin.x, court.length - origin.y)
    right = _right_side(court, spot, side, argument, origin)
    if spot in _BY_MOVER and spot != "lane edge":
        point = right
    else:
        point = right.mirrored() if side == "left" else right
    return Point(point.x, court.length - point.y) if backcourt else point


def _right_side(court: Court, spot: str, side: str, argument: int | None, origin: Point | None) -> Point:
    if spot in _BY_NUMBER:
        return _BY_NUMBER[spot](court, argument or 1)
    if spot in _BY_MOVER:
        return _by_mover(court, spot, side, origin or Point(0.0, court.rim + 5.0))
    if not side and spot in _MIDDLE:
        return _MIDDLE[spot](court)
    formula = _SIDED.get(spot) or _MIDDLE[spot]
    return formula(court)


def _by_mover(court: Court, spot: str, side: str, origin: Point) -> Point:
    if spot == "rim":
        return rim_point(court, origin)
    if spot == "lane edge":
        return lane_edge(court, origin if side != "left" else origin.mirrored())
    if spot == "baseline":
        return Point(origin.x, 0.6)
    sign = -1.0 if side == "left" or (not side and origin.x < 0) else 1.0
    return Point(sign * (court.half_width - 0.6), origin.y)


def rim_point(court: Court, origin: Point) -> Point:
    """The finisher's place: 0.6 m from the rim's centre on the line on which he comes, never behind the board."""
    dx, dy = origin.x, max(origin.y - court.rim, 0.0)
    length = hypot(dx, dy)
    if length < 1e-9:
        return Point(0.0, court.rim + NEAR_RIM)
    return Point(dx / length * NEAR_RIM, court.rim + dy / length * NEAR_RIM)


def lane_edge(court: Court, origin: Point) -> Point:
    """Where the straight line from `origin` (right side) to the rim enters the lane; inside the lane: its own place."""
    x, rise = abs(origin.x), origin.y - court.rim
    if x <= court.half_lane and origin.y <= court.free_throw_line:
        return Point(x, origin.y)
    if x > court.half_lane and court.rim + rise * court.half_lane / x <= court.free_throw_line:
        return Point(court.half_lane, court.rim + rise * court.half_lane / x)
    return Point(x * (court.free_throw_line - court.rim) / rise, court.free_throw_line)


def side_of(point: Point, tolerance: float = 0.6) -> str:
    """left, right, or "" within `tolerance` metres of the axis."""
    if abs(point.x) <= tolerance:
        return ""
    return "right" if point.x > 0 else "left"


def other_side(side: str) -> str:
    """The other half; "" stays "" (the middle)."""
    return {"left": "right", "right": "left"}.get(side, "")


# -- the perimeter ---------------------------------------------------------------------------------------


@lru_cache(maxsize=16)
def perimeter_points(court: Court) -> tuple[Point, ...]:
    """The points of PERIMETER, from the left corner over the top to the right corner."""
    return tuple(spot_point(court, spot, side) for spot, side in PERIMETER)


def perimeter_index(court: Court, point: Point) -> int:
    """Index in PERIMETER of the spot nearest to `point`."""
    points = perimeter_points(court)
    return min(range(len(points)), key=lambda i: points[i].distance(point))


def up_the_arc(court: Court, point: Point) -> tuple[str, str]:
    """The next perimeter spot toward the top, as (spot, side): from the top it is the top."""
    index = perimeter_index(court, point)
    if point.distance(perimeter_points(court)[index]) > 1.5 and index not in (0, 6):
        return PERIMETER[index]  # he stands off the arc: its nearest spot is his next
    return PERIMETER[index + 1 if index < 3 else index - 1 if index > 3 else 3]


def down_the_arc(court: Court, point: Point, side: str = "") -> tuple[str, str]:
    """The next perimeter spot toward the corner; `side` decides at the top."""
    index = perimeter_index(court, point)
    step = 1 if index > 3 or (index == 3 and (side or side_of(point, 0.0)) != "left") else -1
    return PERIMETER[min(6, max(0, index + step))]


def straight_out(court: Court, point: Point) -> tuple[str, str]:
    """The nearest arc spot straight out from the rim through `point` (where a pop ends)."""
    dx, dy = point.x, max(0.0, point.y - court.rim)
    length = hypot(dx, dy) or 1.0
    out = Point(dx / length * court.behind_arc, court.rim + dy / length * court.behind_arc)
    return PERIMETER[perimeter_index(court, out)]


# -- words -----------------------------------------------------------------------------------------------

_NAMED_ORDER = (
    "top", "slot", "wing", "corner", "elbow", "nail", "block", "mid-post", "dunker spot", "short corner",
    "free-throw line extended", "middle of the lane", "front of the rim", "under the basket", "deep top", "deep slot",
    "deep wing", "inside wing", "inside slot", "low block", "deep corner", "hash", "half court", "center circle",
    "baseline out of bounds", "sideline out of bounds", "backcourt baseline out of bounds", "free-throw line",
)
_BACKCOURT = ("top", "slot", "wing", "corner", "elbow", "nail", "block", "hash", "free-throw line extended")


def spot_words(spot: str, side: str = "", argument: int | None = None, backcourt: bool = False) -> str:
    """How people say it: `left wing`, `baseline out of bounds right`, `circle at 4 o'clock`, `backcourt left wing`."""
    if spot == "circle":
        return f"circle at {argument} o'clock"
    name = f"{spot} {argument}" if argument is not None else spot
    if spot in OUT_OF_BOUNDS:
        return f"{name} {side}".strip()
    head = f"{side} {name}" if side else name
    return f"backcourt {head}" if backcourt else head


@lru_cache(maxsize=16)
def _named(court: Court) -> tuple[tuple[float, float, PlaceName], ...]:
    found: list[tuple[float, float, PlaceName]] = []
    for backcourt, spots in ((False, _NAMED_ORDER), (True, _BACKCOURT)):
        for spot in spots:
            sides = [s for s in ("", "left", "right") if (s and spot in _SIDED) or (not s and spot in _MIDDLE)]
            for side in sides:
                point = spot_point(court, spot, side, backcourt=backcourt)
                found.append((point.x, point.y, PlaceName(spot_words(spot, side, None, backcourt), spot, side)))
    return tuple(found)


def name_place(court: Court, point: Point) -> PlaceName:
    """The nearest named spot in words; off it by more than 0.3 m, how many steps to which side of it."""
    if hypot(point.x, point.y - court.rim) < 0.85:
        return PlaceName("rim", "rim")
    x, y, name = min(_named(court), key=lambda n: (n[0] - point.x) ** 2 + (n[1] - point.y) ** 2)
    distance = hypot(point.x - x, point.y - y)
    if distance <= ON_SPOT:
        return name
    steps = max(1, round(distance / STEP))
    measure = "a step" if steps == 1 else f"{steps} steps"
    article = "" if name.spot == "half court" else "the "
    return PlaceName(f"{measure} {_direction(point, x, y)} {article}{name.words}", name.spot, side_of(point))


def _direction(point: Point, x: float, y: float) -> str:
    if abs(point.y - y) >= abs(point.x - x):
        return "above" if point.y > y else "below"
    if abs(x) < 1e-6:
        return "right of" if point.x > 0 else "left of"
    return "outside" if abs(point.x) > abs(x) else "inside"
