"""Where those end who screen without standing still: a ghost past his man, two who shut the gap. In: Doing; out: Found."""

from __future__ import annotations

from generator.model.court import Point
from generator.model.settled import Move, Screen
from generator.model.spots import PERIMETER, perimeter_index, perimeter_points, side_of
from generator.settling.bearings import half_of, leaning, off_spot, player_meant, toward
from generator.settling.defence import beside_man
from generator.settling.doing import Doing
from generator.settling.places import Found, named
from generator.settling.problems import mistake

GHOST_ROOM = 0.9  # metres from the defender a ghost runs past: two shoulders and a hand
HALF_GAP = 0.33  # metres from the middle of the gap: shoulder to shoulder


def ghost_end(doing: Doing) -> Found:
    """The next arc spot beyond the player he comes to, on the side away from where he came."""
    court = doing.setting.court
    index = perimeter_index(court, leaning(doing, beside_man(_ghosted_man(doing), doing.setting)))
    points = perimeter_points(court)
    around = sorted((i for i in (index - 1, index + 1) if 0 <= i <= 6), key=lambda i: points[i].distance(doing.origin))
    if len(around) == 2 and points[around[1]].distance(doing.origin) - points[around[0]].distance(doing.origin) < 0.05:
        around.sort(key=lambda i: side_of(points[i], 0.0) == half_of(doing))
    return named(doing.setting, *PERIMETER[around[-1]])


def ghosted_place(doing: Doing) -> Point:
    """Where he runs past the defender he does not screen: behind him, with room for two shoulders."""
    man = _ghosted_man(doing)
    guard = beside_man(man, doing.setting)
    return toward(guard, Point(2 * guard.x - man.x, 2 * guard.y - man.y), GHOST_ROOM)


def _ghosted_man(doing: Doing) -> Point:
    """Place of the man he comes for, else of the ball."""
    if doing.part.objects:
        return doing.state.place[player_meant(doing)]
    if doing.state.ball is None:
        raise mistake(doing.where, "screen-for-nobody", "ghosts for whom?", "name the player: `3 ghosts for 1`")
    return doing.state.ball


def close_end(doing: Doing) -> Found:
    """Shoulder to shoulder with the other screener of the pair."""
    state = doing.state
    own = state.get(state.last.get(doing.player))
    if not isinstance(own, Screen) or not own.group:
        return _close_standing(doing)
    pair = [a for a in state.actions if isinstance(a, Screen) and a.group == own.group]
    middle = Point(sum(a.end.x for a in pair) / len(pair), sum(a.end.y for a in pair) / len(pair))
    return off_spot(doing, toward(own.end, middle, max(0.0, own.end.distance(middle) - HALF_GAP)))


def _close_standing(doing: Doing) -> Found:
    """Two who stand without having screened: each to his half of the gap."""
    mate = next((p for p in doing.others if p != doing.player), None)
    if mate is None or len(doing.others) != 2:
        return off_spot(doing, doing.origin)
    last = doing.state.get(doing.state.last.get(mate))
    there = last.origin if isinstance(last, Move) and last.verb == "close" else doing.state.place[mate]
    middle = Point((doing.origin.x + there.x) / 2, (doing.origin.y + there.y) / 2)
    return off_spot(doing, toward(doing.origin, middle, max(0.0, doing.origin.distance(middle) - HALF_GAP)))
