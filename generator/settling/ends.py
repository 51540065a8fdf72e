"""Where a mover ends when his line names no place (language.md section 4). In: Doing; out: (Point, PlaceName)."""

from __future__ import annotations

from collections.abc import Callable
from math import atan2, copysign, cos, pi, sin

from generator.model.court import Point
from generator.model.sentence import BallPlace, Everyone, WherePlace
from generator.model.settled import Move, PlaceName
from generator.model.spots import (
    ARC,
    PERIMETER,
    STEP,
    down_the_arc,
    other_side,
    perimeter_index,
    rim_point,
    side_of,
    straight_out,
    up_the_arc,
)
from generator.settling.bearings import half_of, leaning, off_spot, player_meant, toward
from generator.settling.defence import area_middle, body_place
from generator.settling.doing import Doing
from generator.settling.perimeter import circle_spot, empty_spot_above, on_the_arc, spot_taken
from generator.settling.places import Found, ball_side, named
from generator.settling.problems import mistake
from generator.settling.screener_ends import close_end, ghost_end
from generator.settling.who import find_defender, is_defender

MEETS = 3.0  # metres from the ball where who comes to it stops at the nearest, assumed
AT_RIM = 0.75  # metres between two at the rim, at least
QUARTER = pi / 2 * 0.95  # of the ring: 0.8 m apart, neither behind the board
SAME_LINE = 0.17  # radians: who comes on the other's line goes by on the outside


def find_end(doing: Doing) -> Found:
    """The end of a move: the place named, else what the verb means."""
    if doing.part.places:
        return _to_the_ball(doing) or doing.find(doing.part.places[-1])
    rule = ENDS.get(doing.part.verb)
    if rule is None:
        word = doing.part.kind or doing.part.verb
        raise mistake(doing.where, "place-needed", f"`{word}` needs a place", "say where: `to left wing`")
    return rule(doing)


def _to_the_ball(doing: Doing) -> Found | None:
    """`2 comes back to the ball`: he comes to meet a pass, and stops before he stands where the ball is."""
    place, ball = doing.part.places[-1], doing.state.ball
    if not isinstance(place, BallPlace) or place.behind or ball is None or doing.state.holder == doing.player:
        return None
    far = doing.origin.distance(ball)
    return off_spot(doing, toward(doing.origin, ball, max(0.0, far - max(MEETS, 0.5 * far))))


def _rim(doing: Doing) -> Found:
    return rim_point(doing.setting.court, doing.origin), PlaceName("rim", "rim")


def beside_the_rim(doing: Doing, end: Point) -> Point:
    """`end` at the rim, or a quarter of the ring away from a teammate who is there: each on the side he comes from."""
    rim = Point(0.0, doing.setting.court.rim)
    there = [p for player, p in doing.state.place.items() if player != doing.player and p.distance(rim) < 2 * AT_RIM]
    if all(p.distance(end) >= AT_RIM for p in there):
        return end
    other = min(there, key=end.distance)
    first = atan2(other.y - rim.y, other.x - rim.x)
    own = atan2(doing.origin.y - rim.y, doing.origin.x - rim.x)
    turn = (own - first + pi) % (2 * pi) - pi
    outward = -1.0 if doing.origin.x > 0.05 or abs(doing.origin.x) <= 0.05 and other.x <= 0 else 1.0
    sides = (turn, -turn) if abs(turn) > SAME_LINE else (outward, -outward)
    radius = end.distance(rim)
    tries = [Point(rim.x + radius * cos(first + a), rim.y + radius * sin(first + a)) for a in (copysign(QUARTER, s) for s in sides)]
    return next((t for t in tries if all(p.distance(t) >= AT_RIM for p in there)), end)


def _front(doing: Doing) -> Found:
    return named(doing.setting, "front of the rim")


def _fade(doing: Doing) -> Found:
    below = doing.origin.y < doing.setting.court.free_throw_line
    return named(doing.setting, "corner" if below else "wing", half_of(doing))


def _flare(doing: Doing) -> Found:
    court, ball = doing.setting.court, doing.state.ball
    own = perimeter_index(court, leaning(doing))
    middle = side_of(ball, 0.05) if ball is not None else ""
    if ball is None or perimeter_index(court, ball) == own:
        return named(doing.setting, *down_the_arc(court, doing.origin, middle or half_of(doing)))
    step = 1 if own > perimeter_index(court, ball) else -1
    return named(doing.setting, *PERIMETER[min(6, max(0, own + step))])


def _flash(doing: Doing) -> Found:
    if doing.part.kind == "duck-in":
        return _front(doing)
    side = doing.state.ball_side or side_of(doing.origin)
    return named(doing.setting, "elbow", side or ball_side(doing.state, doing.where))


def _lift(doing: Doing) -> Found:
    if _keeps_his_place(doing, 1):
        return doing.origin, doing.state.name[doing.player]
    return named(doing.setting, *up_the_arc(doing.setting.court, leaning(doing)))


def _keeps_his_place(doing: Doing, way: int) -> bool:
    """Where everyone lifts (way 1) or drifts (-1): one who stands inside, or whose next spot is taken, stays."""
    if not isinstance(doing.item.line.who[0], Everyone):
        return False
    court = doing.setting.court
    goal = (up_the_arc if way > 0 else down_the_arc)(court, leaning(doing))
    return not on_the_arc(court, doing.origin) or spot_taken(doing, named(doing.setting, *goal)[0])


def _drift(doing: Doing) -> Found:
    if _keeps_his_place(doing, -1):
        return doing.origin, doing.state.name[doing.player]
    court = doing.setting.court
    if perimeter_index(court, doing.origin) == ARC.index("top"):
        return named(doing.setting, *down_the_arc(court, doing.origin, half_of(doing)))
    return named(doing.setting, *down_the_arc(court, leaning(doing)))


def _fill(doing: Doing) -> Found:
    if not doing.part.objects:
        raise mistake(doing.where, "place-needed", "`fills` needs a place or a player", "say `fills left wing` or `fills 3`")
    other = player_meant(doing)
    return doing.find(WherePlace(doing.part.objects[0], True)) if other else off_spot(doing, doing.origin)


def _exchange(doing: Doing) -> Found:
    other = player_meant(doing) if doing.part.objects else next(p for p in doing.others if p != doing.player)
    last = doing.state.get(doing.state.last.get(other))
    mine = isinstance(last, Move) and last.verb == "exchange" and last.phase == doing.state.phase
    mine = mine and last.end.distance(doing.origin) < 0.3  # he has gone to this player's place, who has not left it yet
    return off_spot(doing, last.origin if mine else doing.state.place[other])


def _follow(doing: Doing) -> Found:
    goal = doing.state.place[player_meant(doing)]
    far = max(0.0, doing.origin.distance(goal) - STEP)
    return off_spot(doing, toward(doing.origin, goal, far))


def _trail(doing: Doing) -> Found:
    if doing.state.ball is None:
        raise mistake(doing.where, "ball-nowhere", "nobody has the ball here, so nobody can trail it", "name a place")
    ball = doing.state.ball
    return off_spot(doing, Point(ball.x, ball.y + 3.0))


def _dribble_at(doing: Doing) -> Found:
    one = doing.part.objects[0]
    if is_defender(one):
        body = find_defender(one, doing.state, doing.setting, doing.item, doing.where, about_body=False)
        # Toward his area: he comes out to the ball anyway, so where he stands now says nothing of the way.
        goal = area_middle(body, doing.setting) or body_place(body, doing.state, doing.setting)
    else:
        goal = doing.state.place[player_meant(doing)]
    return off_spot(doing, toward(doing.origin, goal, max(0.0, doing.origin.distance(goal) - STEP)))


def _retreat(doing: Doing) -> Found:
    rim = Point(0.0, doing.setting.court.rim)
    away = Point(2 * doing.origin.x - rim.x, 2 * doing.origin.y - rim.y)
    return off_spot(doing, toward(doing.origin, away, 2 * STEP))


def _snake(doing: Doing) -> Found:
    court = doing.setting.court
    side = other_side(side_of(doing.origin, 0.0) or ball_side(doing.state, doing.where))
    x = court.half_lane * (-1 if side == "left" else 1)
    return off_spot(doing, Point(x, (court.free_throw_line + court.rim) / 2 + 0.6))


def _reject(doing: Doing) -> Found:
    if doing.state.holder != doing.player:
        return _rim(doing)
    side = _away_from_screen(doing) or side_of(doing.origin) or ball_side(doing.state, doing.where)
    return named(doing.setting, "elbow", side)


def _away_from_screen(doing: Doing) -> str:
    """The half of the dribbler, seen from the screen: he goes away from it."""
    ready = [k for k in doing.state.screens.values() if doing.player in doing.state.get(k).freed]
    if not ready:
        return ""
    return side_of(Point(doing.origin.x - doing.state.get(ready[-1]).end.x, 0.0), 0.05)


def _set_up(doing: Doing) -> Found:
    return off_spot(doing, toward(doing.origin, Point(0.0, doing.setting.court.rim), STEP))


def _pop(doing: Doing) -> Found:
    below = doing.origin.y <= doing.setting.court.rim
    return named(doing.setting, *straight_out(doing.setting.court, leaning(doing) if below else doing.origin))


def _nail(doing: Doing) -> Found:
    return named(doing.setting, "nail")


def _roll(doing: Doing) -> Found:
    return _nail(doing) if "short" in doing.part.manners else _rim(doing)


def _step_out(doing: Doing) -> Found:
    ball = doing.state.ball
    if ball is None or doing.state.holder == doing.player:
        rim = Point(0.0, doing.setting.court.rim)
        ball = Point(2 * doing.origin.x - rim.x, 2 * doing.origin.y - rim.y)
    return off_spot(doing, toward(doing.origin, ball, STEP))


def _post_up(doing: Doing) -> Found:
    side = side_of(doing.origin, 0.05) or ball_side(doing.state, doing.where)
    return named(doing.setting, "block", side)


def _step_in(doing: Doing) -> Found:
    side = side_of(doing.origin, 0.0) or ball_side(doing.state, doing.where)
    court = doing.setting.court
    spots = [named(doing.setting, spot, side) for spot in ("corner", "wing")]
    if doing.origin.y > court.length / 2:
        spots = [off_spot(doing, Point(p.x, court.length - p.y)) for p, _ in spots]
    free = [s for s in spots if all(p == doing.player or at.distance(s[0]) > 1.0 for p, at in doing.state.place.items())]
    return min(free or spots, key=lambda s: s[0].distance(doing.origin))


def _here(doing: Doing) -> Found:
    return doing.origin, doing.state.name[doing.player]


ENDS: dict[str, Callable[[Doing], Found]] = {
    "curl": _front, "fade": _fade, "flare": _flare, "back-cut": _rim, "dive": _rim, "flash": _flash, "lift": _lift,
    "drift": _drift, "fill": _fill, "fill-up": empty_spot_above, "circle": circle_spot, "set-up": _set_up,
    "exchange": _exchange, "follow": _follow, "trail": _trail, "dribble-at": _dribble_at, "drive": _rim,
    "retreat": _retreat, "snake": _snake, "reject": _reject, "slip": _rim, "ghost": ghost_end, "roll": _roll,
    "short-roll": _nail, "pop": _pop, "step-out": _step_out, "close": close_end, "post-up": _post_up, "step-in": _step_in,
    "crash": _rim, "rebound": _here, "stay": _here, "seal": _here,
}
