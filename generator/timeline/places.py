"""Where a screen stands when the line names no place, and where a hand-off is taken (timeline.md 1.7, 2.7)."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from generator.model.court import Point
from generator.model.settled import HandOff, Move, Screen
from generator.timeline.parameters import (
    DEFENDER_GAP,
    GATE,
    NEAREST,
    ON_HIM,
    SHOULDER,
    SHOULDERS,
    STAGGER,
    STEP_BEHIND,
    STEP_IN_VIEW,
)
from generator.timeline.taut import toward, unit

if TYPE_CHECKING:
    from generator.timeline.courses import Courses

BLIND = frozenset({"back", "up", "flex", "flare", "hammer"})  # kinds set where the defender does not look


def freed_defender(courses: Courses, screen: Screen) -> tuple[Point, Point] | None:
    """(place of the freed player, place of his defender: 1.0 m from him toward the rim) before the screen is used."""
    user = next((courses.chains.actions[k] for k in screen.users if k in courses.chains.actions), None)
    player = user.player if user is not None else (screen.freed[0] if screen.freed else None)
    if player is None or player == screen.player:
        return None
    if user is not None:
        place = courses.place_before(user.key, user.player)
    else:
        place = _latest_place(courses, screen, player)
    return place, toward(place, courses.rim, DEFENDER_GAP)


def _latest_place(courses: Courses, screen: Screen, player: int) -> Point:
    """Where the player's last action written above the screen leaves him."""
    order = courses.chains.order
    above = [a for a in courses.chains.of.get(player, ()) if order[a.key] < order[screen.key]]
    return courses.place_after(above[-1], player) if above else courses.branch.start[player]


def screen_place(courses: Courses, screen: Screen) -> Point:
    """S = D + k unit(Q - D); partners of a group stand beside or beyond. A named place stays, unless it is the freed
    player's own: `screens for 3 at right wing` with 3 on the right wing says where he is found."""
    found = freed_defender(courses, screen)
    on_him = found is not None and hypot(screen.end[0] - found[0][0], screen.end[1] - found[0][1]) < ON_HIM
    if (screen.place_given and not on_him) or screen.side:
        return screen.end
    user = next((courses.chains.actions[k] for k in screen.users if k in courses.chains.actions), None)
    goal = user.end if user is not None else screen.aim
    if found is None or goal is None:
        return screen.end
    freed, defender = found
    step = STEP_BEHIND if screen.kind in BLIND else STEP_IN_VIEW
    place = toward(defender, goal, step)
    if hypot(place[0] - freed[0], place[1] - freed[1]) < NEAREST:
        place = toward(freed, place, NEAREST)
    met = [u.screen for u in user.uses] if isinstance(user, Move) else []
    return _beside_partner(courses, screen, place, defender, goal, met)


def _beside_partner(courses: Courses, screen: Screen, place: Point, defender: Point, goal: Point, met: list[str | None]) -> Point:
    """`met`: the screens of the user's way in his order, which a stagger follows."""
    partners = [a for a in courses.chains.actions.values() if isinstance(a, Screen) and screen.group and a.group == screen.group]
    if len(partners) < 2:
        return place
    if screen.group_kind == "stagger" and all(a.key in met for a in partners):
        partners.sort(key=lambda a: met.index(a.key))
    rank = partners.index(screen)
    if screen.group_kind == "stagger":
        return toward(place, goal, STAGGER * rank)
    along = unit(goal[0] - defender[0], goal[1] - defender[1])
    apart = (GATE if screen.group_kind == "elevator" else SHOULDERS) * (rank - (len(partners) - 1) / 2)
    return Point(place[0] - apart * along[1], place[1] + apart * along[0])


def facing(courses: Courses, screen: Screen) -> Point | None:
    """Unit vector from the freed player's defender to the screener: the bar of the screen is square to it."""
    found = freed_defender(courses, screen)
    place = courses.end_of(screen)
    return unit(found[1][0] - place[0], found[1][1] - place[1]) if found else None


def hand_off_place(courses: Courses, move: Move) -> Point:
    """Where a receiver's run to a hand-off ends: shoulder to shoulder with the giver when both are sent to one place."""
    order = courses.chains.of[move.player]
    i = courses.chains.index[move.key, move.player]
    following = order[i + 1] if i + 1 < len(order) else None
    if not isinstance(following, HandOff) or following.receiver != move.player:
        return move.end
    giver = courses.place_after(following, following.player)
    if hypot(giver[0] - move.end[0], giver[1] - move.end[1]) >= SHOULDER:
        return move.end
    return toward(giver, courses.place_before(move.key, move.player), SHOULDER)
