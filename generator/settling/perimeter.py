"""Filling and circling: who takes which perimeter spot. In: Doing; out: (Point, PlaceName).

"The next spot up" is the next of the stations, the perimeter spots somebody stood on at the phase's opening (and their
mirrored ones): so five players fill wing to top, four fill wing to slot.
"""

from __future__ import annotations

from generator.model.court import Court, Point
from generator.model.settled import Move
from generator.model.spots import PERIMETER, perimeter_index, perimeter_points
from generator.settling.doing import Doing
from generator.settling.places import Found, named

_ON = 1.5  # a player so near to a perimeter spot stands on it
TOP = 3


def stations(court: Court, places: dict[int, Point]) -> tuple[int, ...]:
    """Indexes into PERIMETER of the spots in use at the phase's opening, mirrored ones too."""
    points = perimeter_points(court)
    used = {i for at in places.values() for i in (perimeter_index(court, at),) if at.distance(points[i]) <= _ON}
    return tuple(sorted(used | {6 - i for i in used}))


def empty_spot_above(doing: Doing) -> Found:
    """The next station up if it is or becomes empty by the lines above, else his own place."""
    court, state = doing.setting.court, doing.state
    used = stations(court, state.opening)
    own = perimeter_index(court, doing.origin)
    if doing.origin.distance(perimeter_points(court)[own]) > _ON:
        return doing.origin, state.name[doing.player]  # inside: he has no spot on the perimeter to move up from
    goal = next_up(own, used) if abs(doing.origin.x) > 0.05 or own == TOP else None  # the very middle has no side
    if goal is None or spot_taken(doing, perimeter_points(court)[goal]):
        return doing.origin, state.name[doing.player]
    return named(doing.setting, *PERIMETER[goal])


def next_up(own: int, used: tuple[int, ...]) -> int | None:
    """The station above `own`: toward the top; without a top station the last ones go across."""
    if own == TOP:
        return None
    toward_top = [i for i in used if (own < i <= TOP) or (own > i >= TOP)]
    if toward_top:
        return min(toward_top, key=lambda i: abs(i - own))
    return 6 - own if 6 - own in used else None


def on_the_arc(court: Court, point: Point) -> bool:
    """True for one who stands on a spot of the perimeter."""
    return point.distance(perimeter_points(court)[perimeter_index(court, point)]) <= _ON


def spot_taken(doing: Doing, point: Point) -> bool:
    """True where a teammate stands, or is sent by a line above."""
    return any(p != doing.player and at.distance(point) < 1.0 for p, at in doing.state.place.items())


def fill_order(players: tuple[int, ...], court: Court, places: dict[int, Point]) -> tuple[int, ...]:
    """Who fills first: the highest, so that each leaves his spot before the next one comes."""
    return tuple(sorted(players, key=lambda p: (abs(perimeter_index(court, places[p]) - TOP), p)))


def circle_spot(doing: Doing) -> Found:
    """One perimeter spot the way the driver turns: to the side he goes, seen from where he began."""
    court, state = doing.setting.court, doing.state
    drive = next((a for a in reversed(state.actions) if isinstance(a, Move) and a.with_ball), None)
    own = perimeter_index(court, doing.origin)
    if drive is None or doing.origin.distance(perimeter_points(court)[own]) > _ON:  # inside he has no spot to move from
        return doing.origin, state.name[doing.player]
    turns = (at.x - drive.origin.x for at in (*drive.via, *(u.at for u in drive.uses), drive.end))
    turn = next((t for t in turns if abs(t) > 0.3), 0.0)
    step = (turn > 0) - (turn < 0)
    return named(doing.setting, *PERIMETER[min(6, max(0, own + step))])
