"""Where a mover stands to ball, basket and sides: the small questions that the ends of moves share.

In: Doing; out: points in metres, half names, player numbers.
"""

from __future__ import annotations

from generator.model.court import Point
from generator.model.spots import ARC, STEP, name_place, other_side, perimeter_index, side_of
from generator.settling.doing import Doing
from generator.settling.places import Found, ball_side
from generator.settling.who import find_player


def off_spot(doing: Doing, point: Point) -> Found:
    """A point and what it is called."""
    return point, name_place(doing.setting.court, point)


def toward(start: Point, goal: Point, far: float) -> Point:
    """`far` metres from start toward goal, never beyond it."""
    whole = start.distance(goal)
    share = min(1.0, far / whole) if whole > 1e-9 else 0.0
    return Point(start.x + (goal.x - start.x) * share, start.y + (goal.y - start.y) * share)


def half_of(doing: Doing) -> str:
    """His half; in the middle the weak side, so that he goes away from the ball."""
    own = side_of(doing.origin)
    return own or other_side(ball_side(doing.state, doing.where))


def leaning(doing: Doing, at: Point | None = None) -> Point:
    """His place (or `at`); from the very middle below the top a step to the weak side, so that left and right differ."""
    origin = at or doing.origin
    if abs(origin.x) > 0.05 or perimeter_index(doing.setting.court, origin) == ARC.index("top"):
        return origin
    return origin._replace(x=STEP if half_of(doing) == "right" else -STEP)


def player_meant(doing: Doing) -> int:
    """The player whom the line names as its object: `fills 3`, `follows 1`."""
    return find_player(doing.part.objects[0], doing.state, doing.setting, doing.item, doing.where)
