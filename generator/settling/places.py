"""Turns the places of a sentence into points. In: a `Place`, who goes there, the state; out: (Point, PlaceName).

Sides and derived places come from the text, never from a clock (language.md sections 5 and 6).
"""

from __future__ import annotations

from dataclasses import replace
from math import hypot

from generator.diagnostics import Location
from generator.model.court import FOOT, Point
from generator.model.sentence import (
    BallPlace,
    BetweenPlace,
    HalfPlace,
    MeasuredPlace,
    Place,
    Player,
    RelativePlace,
    Role,
    Side,
    SpotPlace,
    WherePlace,
)
from generator.model.settled import PlaceName
from generator.model.spots import (
    BESIDE,
    STEP,
    name_place,
    needs_side,
    other_side,
    side_of,
    spot_point,
    spot_words,
    takes_side,
)
from generator.settling.problems import mistake, not_yet
from generator.settling.state import Item, Setting, State
from generator.settling.who import find_defender, find_player, is_defender

SAME_SPOT = 0.5  # two players closer than this stand on one spot
_HALF_SPOTS = ("slot", "wing", "corner", "dunker spot")
Found = tuple[Point, PlaceName]


def find_place(place: Place, mover: int | None, state: State, setting: Setting, item: Item, where: Location) -> Found:
    """Where a place is for `mover` (None: for nobody in particular)."""
    if isinstance(place, SpotPlace):
        return _spot(place, mover, state, setting, item, where)
    if isinstance(place, HalfPlace):
        return _half(place, mover, state, setting, where)
    point = _derived(place, mover, state, setting, item, where)
    name = name_place(setting.court, point)
    if isinstance(place, BallPlace) and place.behind:
        return point, replace(name, words="behind the ball")
    if isinstance(place, RelativePlace):
        return point, replace(name, words=_relative_words(place, mover, state, setting, item, where) or name.words)
    return point, name


def _derived(place: Place, mover: int | None, state: State, setting: Setting, item: Item, where: Location) -> Point:
    if isinstance(place, WherePlace):
        return _where_is(place, state, setting, item, where)
    if isinstance(place, RelativePlace):
        return _relative(place, mover, state, setting, item, where)
    if isinstance(place, BetweenPlace):
        first = find_place(place.first, mover, state, setting, item, where)[0]
        second = find_place(place.second, mover, state, setting, item, where)[0]
        return Point((first.x + second.x) / 2, (first.y + second.y) / 2)
    if isinstance(place, BallPlace):
        ball = _ball(state, where)
        return Point(ball.x, ball.y + 3.0) if place.behind else ball
    if isinstance(place, MeasuredPlace):
        return place.point
    raise not_yet(where, type(place).__name__)


def _ball(state: State, where: Location) -> Point:
    if state.ball is None:
        raise mistake(where, "ball-nowhere", "nobody has the ball here, so `the ball` is no place", "name a spot")
    return state.ball


def _where_is(place: WherePlace, state: State, setting: Setting, item: Item, where: Location) -> Point:
    if is_defender(place.one):
        from generator.settling.defence import body_place

        return body_place(find_defender(place.one, state, setting, item, where, about_body=False), state, setting)
    player = find_player(place.one, state, setting, item, where)
    return _place_of(player, state, where, place.was)


def _place_of(player: int, state: State, where: Location, opening: bool = False) -> Point:
    """Where a player is; told where he has no place, as in a start that leans on itself or on nobody."""
    found = (state.opening if opening else state.place).get(player)
    if found is None:
        raise mistake(where, "not-placed", f"{player} has no place here, so no other can be told by his", "name a spot")
    return found


# -- sides -----------------------------------------------------------------------------------------------


def settle_side(place: SpotPlace, mover: int | None, state: State, setting: Setting, item: Item, where: Location) -> str:
    """left, right or "" for a spot's side word."""
    side = place.side
    if side in (Side.LEFT, Side.RIGHT):
        return side.value
    if side is Side.NONE:
        if needs_side(place.spot):
            raise mistake(where, "side-missing", f"which {place.spot}: left or right?",
                          f"write `left {place.spot}` or `ball-side {place.spot}`")
        return ""
    if side in (Side.BALL, Side.WEAK):
        return ball_side(state, where) if side is Side.BALL else other_side(ball_side(state, where))
    if side in (Side.SHORT, Side.LONG):
        return _throw_in_side(side, state, where)
    if side is Side.OPEN:
        return _open_side(place, mover, state, setting, where)
    of = mover
    if side is Side.OPPOSITE and place.opposite_of is not None:
        of = find_player(place.opposite_of, state, setting, item, where)
    if of is None and side is Side.OPPOSITE:  # `nearest to opposite wing`: of the ball
        return other_side(ball_side(state, where))
    if of is None:
        raise mistake(where, "side-missing", f"`{side.value}` of whom?", "write left or right")
    own = side_of(_place_of(of, state, where))
    if not own:
        raise mistake(where, "side-in-the-middle", f"{of} stands in the middle of the floor, so he has no {side.value}",
                      "say left or right")
    return own if side is Side.SAME else other_side(own)


def ball_side(state: State, where: Location) -> str:
    """The half the ball is in or last was in."""
    if state.ball_side is None:
        raise mistake(where, "ball-in-the-middle", "the ball starts in the middle: say left or right",
                      "ball side and weak side are known once the ball has left the middle")
    return state.ball_side


def _throw_in_side(side: Side, state: State, where: Location) -> str:
    if state.inbounder is None:
        raise mistake(where, "role-empty", f"`{side.value}` needs an inbounder, and nobody stands out of bounds",
                      "write left or right, or ball-side")
    own = side_of(state.opening[state.inbounder], 0.0) or "right"
    return own if side is Side.SHORT else other_side(own)


def _open_side(place: SpotPlace, mover: int | None, state: State, setting: Setting, where: Location) -> str:
    """Where nobody stands or is sent by this `do`; both open: the weak-side one."""
    taken = setting.taken if setting.taken is not None else state.place
    free, there = [], []
    for side in ("left", "right"):
        point = spot_point(setting.court, place.spot, side, place.argument, place.backcourt)
        man = next((p for p, at in sorted(taken.items()) if p != mover and at.distance(point) < 1.0), None)
        (free.append(side) if man is None else there.append(f"{man} at the {side} {place.spot}"))
    if len(free) == 1:
        return free[0]
    if not free:
        raise mistake(where, "nothing-open", f"no {place.spot} is open: {' and '.join(there)}",
                      "send one of them away, or name another spot")
    leans = side_of(state.ball, 0.05) if state.ball is not None and state.ball_side is None else ""
    return other_side(leans or ball_side(state, where))


def _spot(place: SpotPlace, mover: int | None, state: State, setting: Setting, item: Item, where: Location) -> Found:
    side = settle_side(place, mover, state, setting, item, where)
    if side and not takes_side(place.spot):
        side = ""
    origin = state.place.get(mover) if mover is not None else None
    point = spot_point(setting.court, place.spot, side, place.argument, place.backcourt, origin)
    return point, PlaceName(spot_words(place.spot, side, place.argument, place.backcourt), place.spot, side)


def named(setting: Setting, spot: str, side: str = "") -> Found:
    """A spot by id and settled side."""
    return spot_point(setting.court, spot, side), PlaceName(spot_words(spot, side), spot, side)


def _half(place: HalfPlace, mover: int | None, state: State, setting: Setting, where: Location) -> Found:
    """The nearest free spot of that half among slot, wing, corner and dunker spot."""
    side = place.side.value if place.side in (Side.LEFT, Side.RIGHT) else ball_side(state, where)
    if place.side is Side.WEAK:
        side = other_side(side)
    spots = [named(setting, spot, side) for spot in _HALF_SPOTS]
    free = [s for s in spots if not _held(s[0], mover, state)]
    if not free:
        raise mistake(where, "nothing-open", f"no spot of the {side} side is free", "name the spot")
    if mover is None:
        return free[0]
    return min(free, key=lambda s: s[0].distance(state.place[mover]))


def _held(point: Point, mover: int | None, state: State) -> bool:
    stands = any(p != mover and at.distance(point) < SAME_SPOT for p, at in state.place.items())
    return stands or any(s[0] != mover and s[1].distance(point) < SAME_SPOT for s in state.sent)


# -- relative places -------------------------------------------------------------------------------------


def _relative(place: RelativePlace, mover: int | None, state: State, setting: Setting, item: Item, where: Location) -> Point:
    base = _base(place, mover, state, setting, item, where)
    far = BESIDE if place.metres is None else place.metres
    return shift(base, place.direction, far, setting.court.rim, where)


def _relative_words(place: RelativePlace, mover: int | None, state: State, setting: Setting, item: Item, where: Location) -> str:
    """`a step above the left block`, `beside 5`: as the line says it; "" where its base is derived itself."""
    direction = place.direction.replace("-", " ")
    if isinstance(place.base, SpotPlace):
        name = find_place(place.base, mover, state, setting, item, where)[1].words
        base = name if place.base.spot in ("half court", "circle", "lane space") else f"the {name}"
    elif isinstance(place.base, (Player, Role)):
        base = str(find_player(place.base, state, setting, item, where))
    else:
        return ""
    return f"{_measure_words(place.metres)} {direction} {base}".strip()


def _measure_words(metres: float | None) -> str:
    if metres is None:
        return ""
    steps = metres / STEP
    if abs(steps - round(steps)) < 0.01:
        return "a step" if round(steps) == 1 else f"{round(steps)} steps"
    feet = metres / FOOT
    return f"{round(feet)} ft" if abs(feet - round(feet)) < 0.01 else f"{metres:g} m"


def _base(place: RelativePlace, mover: int | None, state: State, setting: Setting, item: Item, where: Location) -> Point:
    if isinstance(place.base, (SpotPlace, HalfPlace, WherePlace, RelativePlace, BetweenPlace, BallPlace, MeasuredPlace)):
        return find_place(place.base, mover, state, setting, item, where)[0]
    if is_defender(place.base):
        from generator.settling.defence import body_place

        return body_place(find_defender(place.base, state, setting, item, where, mover, about_body=False), state, setting)
    return _place_of(find_player(place.base, state, setting, item, where), state, where)


def shift(base: Point, direction: str, far: float, rim: float, where: Location) -> Point:
    """`base` moved `far` metres: above and below along y, inside and outside along x, behind, in front and beside on
    the ray from the rim, left and right as the offence faces."""
    if direction in ("above", "below"):
        return Point(base.x, base.y + (far if direction == "above" else -far))
    if direction in ("left-of", "right-of"):
        return Point(base.x + (far if direction == "right-of" else -far), base.y)
    if direction in ("inside", "outside"):
        if abs(base.x) < 0.05:
            raise mistake(where, "side-in-the-middle", f"`{direction}` of a place in the middle has no side",
                          "write `left of` or `right of`")
        sign = 1.0 if (base.x > 0) == (direction == "outside") else -1.0
        return Point(base.x + sign * far, base.y)
    dx, dy = base.x, base.y - rim
    length = hypot(dx, dy) or 1.0
    if direction in ("behind", "in-front-of"):
        sign = far if direction == "behind" else -far
        return Point(base.x + dx / length * sign, base.y + dy / length * sign)
    if direction == "beside":
        if abs(base.x) < 0.05:
            raise mistake(where, "side-in-the-middle", "`beside` a place in the middle has no sideline side",
                          "write `left of` or `right of`")
        across = Point(dy / length, -dx / length)
        if across.x * base.x < 0:
            across = Point(-across.x, -across.y)
        return Point(base.x + across.x * far, base.y + across.y * far)
    raise not_yet(where, direction)
