"""On which side a runner passes a screener (timeline.md 1.6). +1: the screener is on his left in the (x, y) plane."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.model.court import Point
from generator.model.settled import Move, Use
from generator.timeline.floor import off_the_floor
from generator.timeline.parameters import DEFENDER_GAP, SHOULDER, SIDE_SURE
from generator.timeline.pieces import Curve
from generator.timeline.taut import around, cross, toward, unit

if TYPE_CHECKING:
    from generator.timeline.chains import Walk
    from generator.timeline.courses import Courses


def choose_side(courses: Courses, member: Walk, use: Use, place: Point, before: Point, after: Point) -> int:
    """Words first, then the curl, the defender, the shorter way; a tie goes to the courses' hand. What the line does not
    say never leads over a line of the floor where the other side does not."""
    wanted = _worded(use.words, place, courses.rim)
    if wanted is not None:
        return _sense_toward(before, after, wanted)
    g = _by_the_picture(courses, member, place, before, after)
    out, other = (off_the_floor(Curve(around(before, place, after, k, SHOULDER, True)), courses.sideline) for k in (g, -g))
    return -g if out > other else g


def _by_the_picture(courses: Courses, member: Walk, place: Point, before: Point, after: Point) -> int:
    rim = courses.rim
    if isinstance(member, Move) and member.curl:
        bend = cross(Point(place[0] - before[0], place[1] - before[1]), Point(rim[0] - place[0], rim[1] - place[1]))
        if abs(bend) > 1e-6:
            return 1 if bend > 0 else -1
    defender = toward(before, rim, DEFENDER_GAP)
    c = cross(unit(after[0] - before[0], after[1] - before[1]), Point(defender[0] - before[0], defender[1] - before[1]))
    if abs(c) > SIDE_SURE:
        return 1 if c > 0 else -1
    return _shorter(before, place, after, courses.hand)


def _worded(words: str, place: Point, rim: Point) -> Point | None:
    """Which way from the screener the runner passes, by the line's own word."""
    out = unit(place[0] - rim[0], place[1] - rim[1])
    if words in ("over", "behind"):
        return out
    if words in ("under", "in-front-of"):
        return Point(-out[0], -out[1])
    if words == "baseline":
        return Point(0.0, -1.0)
    if words in ("left", "right"):
        return Point(-1.0 if words == "left" else 1.0, 0.0)
    if words == "sideline":
        return Point(1.0 if place[0] > 0 else -1.0, 0.0)
    if words == "middle":
        return Point(-1.0 if place[0] > 0 else 1.0, 0.0) if abs(place[0]) > 0.3 else Point(0.0, 1.0)
    return None


def _sense_toward(before: Point, after: Point, wanted: Point) -> int:
    """The sense whose arc lies on the wanted side: g = +1 passes right of the screener."""
    u = unit(after[0] - before[0], after[1] - before[1])
    return 1 if u[1] * wanted[0] - u[0] * wanted[1] >= 0 else -1


def _shorter(before: Point, place: Point, after: Point, hand: int) -> int:
    left = Curve(around(before, place, after, 1, SHOULDER)).length
    right = Curve(around(before, place, after, -1, SHOULDER)).length
    if abs(left - right) > 1e-6:
        return 1 if left < right else -1
    return hand
