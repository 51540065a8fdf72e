"""Where defenders are as places, and whom their bodies guard. In: state and setting; out: points and X numbers.

The point of a man's defender is 1.0 m from the man toward the rim (timeline.md 5.7); in a zone where his area has
shifted to for the ball's place by the text.
"""

from __future__ import annotations

from generator.model.areas import area_point, areas_of, chasers_of
from generator.model.court import Point
from generator.model.zone_shifts import stands
from generator.settling.state import PLAYERS, Setting, State

ON_HIS_MAN = 1.0


def prepare_defence(setting: Setting, state: State) -> None:
    """Sets who guards whom at the start: X3 guards 3; in a zone areas, and only chasers have a man."""
    against = setting.play.against
    setting.areas = areas_of(against)
    setting.bodies_follow_men = not setting.areas
    men = PLAYERS if not setting.areas else chasers_of(against)
    state.guards = {n: n for n in men if n in state.place}


def body_place(body: int, state: State, setting: Setting) -> Point:
    """Where X `body` stands by the text."""
    man = state.guards.get(body)
    if man is not None:
        return beside_man(state.place[man], setting)
    area = area_middle(body, setting)
    if area is None:
        return Point(0.0, setting.court.rim)
    if state.ball is None:
        return area
    stand = stands(setting.court, setting.play.against, state.ball)[body]
    at_ball = beside_man(state.ball, setting)
    return Point(stand.place.x + stand.out * (at_ball.x - stand.place.x), stand.place.y + stand.out * (at_ball.y - stand.place.y))


def area_middle(body: int, setting: Setting) -> Point | None:
    """The middle of the area X `body` holds, wherever the ball is; None when he holds none."""
    area = next((a for a, number in setting.areas.items() if number == body), None)
    return None if area is None else area_point(setting.court, setting.play.against, area)


def beside_man(man: Point, setting: Setting) -> Point:
    """1.0 m from the man toward the rim, half the way when he is nearer."""
    rim = Point(0.0, setting.court.rim)
    far = man.distance(rim)
    share = min(ON_HIS_MAN, far / 2) / far if far > 1e-9 else 0.0
    return Point(man.x + (rim.x - man.x) * share, man.y + (rim.y - man.y) * share)


def nearest_body(point: Point, state: State, setting: Setting) -> int:
    """The X nearest to a point; a tie goes to the lower number."""
    bodies = sorted(set(state.guards) | set(setting.areas.values())) or list(PLAYERS)
    return min(bodies, key=lambda x: (round(body_place(x, state, setting).distance(point), 2), x))


def area_holding(point: Point, state: State, setting: Setting) -> int | None:
    """The X whose area holds a point: the one whose area's middle is nearest; between two the one on the ball's side."""
    against, side = setting.play.against, state.ball_side or ""
    middles = sorted((round(area_point(setting.court, against, a).distance(point), 3), not (side and side in a), number)
                     for a, number in setting.areas.items())
    return middles[0][2] if middles else None


def switch(state: State, first: int, second: int) -> None:
    """Two defenders change men from here on."""
    one, other = state.guards.get(first), state.guards.get(second)
    if one is not None and other is not None:
        state.guards[first], state.guards[second] = other, one
