"""Timed actions to the ways, passes and marks of a sketch.

In: a timeline, the actions to show and the second from which they count. Out: `Trails`, in picture units.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import acos, hypot, pi, radians, tan

from generator.diagrams.path import Bend, Path, Spot, Straight, apart, bowed, unit
from generator.diagrams.scene import UNITS, View
from generator.diagrams.sketch import Flight, HandOffPlace, Leg, ShotPlace, Stop, Trail, Way
from generator.model.court import Point
from generator.model.settled import AnyAction, HandOff, Instant, LooseBall, Move, Pass, Screen, Shot
from generator.timeline.timed import Route, Timed, Timeline

STANDS = 0.45  # metres: a screener who walks less than this is drawn where he stands
_NO_STEP = 0.5  # picture units: less is standing
_SHORT_STEP = 9.0
_OFF_A_SCREEN = 13.0
_RUN_UP = 26.0  # picture units before a bar in which the way to it may bend
_SHORT_RUN = 8.0
_ALONG_THE_BAR = radians(58)  # between the way to a bar and the line square to it
_ONTO_THE_BAR = radians(35)
_YET_TO_COME = 0.2  # seconds
_MANY_BALL_LINES = 3  # from so many on their order is lettered


@dataclass(frozen=True, slots=True)
class Trails:
    """What the actions draw."""

    trails: tuple[Trail, ...]
    flights: tuple[Flight, ...]
    hand_offs: tuple[HandOffPlace, ...]
    shots: tuple[ShotPlace, ...]
    order: tuple[Flight | HandOffPlace, ...]


def draw_actions(timeline: Timeline, view: View, actions: Iterable[AnyAction], since: float | None = None) -> Trails:
    """The trails of `actions`; with `since` (seconds) only what lies after that instant of each."""
    timed = [timeline.timed[a.key] for a in actions if a.key in timeline.timed]
    timed = [t for t in timed if since is None or over_at(t) > since + 1e-6]
    legs: dict[int, list[Leg]] = {}
    standing: dict[int, tuple[Spot, Spot]] = {}
    for t in timed:
        _add_leg(t, timeline, view, since, legs, standing)
    trails = tuple(Trail(p, _walked(legs.get(p, []), p in standing), standing.get(p)) for p in sorted({*legs, *standing}))
    balls = sorted((t for t in timed if isinstance(t.action, Pass | HandOff)), key=lambda t: (_leaves(t), t.action.key))
    lines = [_ball_line(t, timeline, view) for t in balls if not getattr(t.action, "fake", False)]
    shots = tuple(
        ShotPlace(t.action.player, view.place(timeline.position(t.action.player, t.start)))
        for t in timed
        if isinstance(t.action, Shot)
    )
    return Trails(
        trails,
        tuple(b for b in lines if isinstance(b, Flight)),
        tuple(b for b in lines if isinstance(b, HandOffPlace)),
        shots,
        tuple(lines) if _order_matters(lines) else (),
    )


def _walked(legs: list[Leg], stood: bool) -> tuple[Leg, ...]:
    """The legs without steps too short to draw: a first one before others, all that there is, one away from a screen."""
    while legs and not stood and legs[0].stop is Stop.OPEN and legs[0].path.length < _SHORT_STEP:
        legs = legs[1:]
    after_screen = len(legs) == 1 if stood else len(legs) > 1 and legs[-2].stop is Stop.BAR
    if legs and after_screen and legs[-1].stop is Stop.OPEN and legs[-1].path.length < _OFF_A_SCREEN:
        legs = legs[:-1]
    return tuple(legs)


def _leaves(t: Timed) -> float:
    return t.instants.get(Instant.RELEASE, t.instants.get(Instant.MEET, t.start))


def _order_matters(lines: list) -> bool:
    """Three or more ball lines, or somebody who gives the ball twice: the picture alone does not tell which is first."""
    givers = [b.passer if isinstance(b, Flight) else b.giver for b in lines]
    return len(lines) >= _MANY_BALL_LINES or len(set(givers)) < len(givers)


def _ball_line(t: Timed, timeline: Timeline, view: View) -> Flight | HandOffPlace:
    action = t.action
    if isinstance(action, HandOff):
        meet = t.instants.get(Instant.MEET, t.end)
        return HandOffPlace(action.player, action.receiver, view.place(timeline.position(action.player, meet)))
    release, catch = t.instants.get(Instant.RELEASE, t.start), t.instants.get(Instant.CATCH, t.end)
    start, end = timeline.position(action.player, release), timeline.position(action.receiver, catch)
    return Flight(action.player, action.receiver, view.place(start), view.place(end))


def _add_leg(
    t: Timed, timeline: Timeline, view: View, since: float | None, legs: dict[int, list[Leg]], standing: dict
) -> None:
    action = t.action
    if isinstance(action, Pass | Shot | LooseBall):
        return
    path = _rest(t, timeline, view, since)
    before = legs.get(action.player, [])
    if isinstance(action, Screen):
        along, coming = (_turn(view, way) for way in screen_lines(action, timeline))
        if path is not None and path.length >= STANDS * UNITS:
            before = [*before, Leg(squared(path, along), Way.CUT, Stop.BAR, along, path)]
        elif before:
            before = [*before[:-1], Leg(before[-1].path, before[-1].way, Stop.BAR, along)]
        elif since is None or _used_after(action, timeline, since):
            standing[action.player] = (along, coming)
    elif path is not None and path.length > _NO_STEP:
        before = [*before, Leg(path, _way(action), _stop(action, timeline))]
    if before:
        legs[action.player] = before


def squared(path: Path, along: Spot) -> Path:
    """The way to a screen, its last stretch bent where it would come in along the bar and be read as one line with it."""
    run = min(path.length, _RUN_UP)
    a, b = path.at(path.length - run), path.last
    way, across = unit(a, b), (-along[1], along[0])
    if across[0] * way[0] + across[1] * way[1] < 0:
        across = (-across[0], -across[1])
    slant = acos(max(-1.0, min(1.0, across[0] * way[0] + across[1] * way[1])))
    if slant < _ALONG_THE_BAR or apart(a, b) < _SHORT_RUN:
        return path
    right = (-way[1], way[0])
    side = 1.0 if across[0] * right[0] + across[1] * right[1] > 0 else -1.0
    bent = bowed(a, b, -side * apart(a, b) / 2 * tan((slant - _ONTO_THE_BAR) / 2))
    before = path.part(0.0, path.length - run).pieces if path.length > run else ()
    return Path((*before, bent))


def _used_after(screen: Screen, timeline: Timeline, since: float) -> bool:
    """True when somebody has yet to come past a standing screener; of a screen that is over nothing is drawn."""
    uses = (timeline.timed.get(key) for key in screen.users or _users(screen, timeline))
    return any(u is not None and u.instants.get(Instant.USE, 0.0) > since + _YET_TO_COME for u in uses)


def _way(action: AnyAction) -> Way:
    with_ball = isinstance(action, HandOff) or (isinstance(action, Move) and action.with_ball)
    return Way.DRIBBLE if with_ball else Way.CUT


def _stop(action: AnyAction, timeline: Timeline) -> Stop:
    gives = isinstance(action, HandOff) and not action.fake
    return Stop.HAND_OFF if gives or _takes_hand_off(action, timeline) else Stop.OPEN


def _takes_hand_off(action: AnyAction, timeline: Timeline) -> bool:
    return any(
        isinstance(a, HandOff) and a.receiver_move == action.key and not a.fake for a in timeline.branch.actions
    )


def _rest(t: Timed, timeline: Timeline, view: View, since: float | None) -> Path | None:
    """What is left to run after `since`, cut where a read stopped it."""
    if t.route is None or not t.route.pieces:
        return None
    path = path_of(t.route, view)
    begin, end = 0.0, path.length
    if since is not None and t.start < since:
        begin = path.nearest(view.place(timeline.position(t.action.player, since)), 0.5)
    if t.cut_at is not None and t.cut_at < t.end - 1e-6:
        end = path.nearest(view.place(timeline.position(t.action.player, t.cut_at)), 0.5)
    return path.part(begin, max(begin, end))


def path_of(route: Route, view: View) -> Path:
    """A route (metres) as a path of the picture."""
    k = view.place(Point(1.0, 0.0))[0]
    pieces = tuple(_scaled_piece(p, k) for p in route.pieces if p.length > 1e-6)
    return Path(pieces or (_scaled_piece(route.pieces[0], k),))


def _scaled_piece(piece: object, k: float) -> Straight | Bend:
    """A piece of the timeline (p, q or centre, r, a0, sweep) times k; a negative k turns it by half."""
    if hasattr(piece, "sweep"):
        turned = piece.a0 + (pi if k < 0 else 0.0)
        return Bend(_scaled(piece.centre, k), piece.r * abs(k), turned, piece.sweep)
    return Straight(_scaled(piece.p, k), _scaled(piece.q, k))


def _scaled(p: Point, k: float) -> Spot:
    return (k * p[0], k * p[1])


def _turn(view: View, way: Point) -> Spot:
    x, y = view.place(way)
    d = hypot(x, y) or 1.0
    return (x / d, y / d)


def screen_lines(screen: Screen, timeline: Timeline) -> tuple[Point, Point]:
    """(direction of the bar, direction the freed player comes from), unit vectors of the floor.

    The bar is square to the freed player's way where he passes; without a user, to the line from the freed player to
    where he goes next; without either, to the screener's own way (timeline.md 1.7).
    """
    run = _run_past(screen, timeline) or _meant(screen, timeline) or _own_way(screen, timeline)
    return Point(-run.y, run.x), Point(-run.x, -run.y)


def _run_past(screen: Screen, timeline: Timeline) -> Point | None:
    for key in screen.users or _users(screen, timeline):
        user = timeline.timed.get(key)
        if user and Instant.USE in user.instants:
            way = _unit(timeline.velocity(user.action.player, user.instants[Instant.USE]))
            if way:
                return way
    return None


def _users(screen: Screen, timeline: Timeline) -> tuple[str, ...]:
    moves = (a for a in timeline.branch.actions if isinstance(a, Move))
    return tuple(m.key for m in moves if any(u.screen == screen.key for u in m.uses))


def _meant(screen: Screen, timeline: Timeline) -> Point | None:
    if not screen.freed:
        return None
    set_at = timeline.timed[screen.key].end
    here = timeline.position(screen.freed[0], set_at)
    aim = screen.aim or timeline.position(screen.player, set_at)
    return _unit(Point(aim.x - here.x, aim.y - here.y))


def _own_way(screen: Screen, timeline: Timeline) -> Point:
    route = timeline.timed[screen.key].route
    return route.heading(route.length) if route is not None and route.length > 0.05 else Point(0.0, -1.0)


def _unit(v: Point) -> Point | None:
    d = hypot(v.x, v.y)
    return Point(v.x / d, v.y / d) if d > 0.05 else None


def places_at_opening(timeline: Timeline, phase: int) -> Mapping[int, Point]:
    """Where the lines of the phases before leave each player: the plan, with screens where the timeline sets them."""
    out = {}
    for player, planned in timeline.branch.phases[phase].plan.items():
        last = [
            t for t in timeline.timed.values()
            if t.action.phase < phase and t.route is not None and t.action.player == player
        ]
        out[player] = timeline.position(player, max(over_at(t) for t in last)) if last else planned
    return out


def over_at(t: Timed) -> float:
    """When it ends or a read stops it, in seconds."""
    return t.end if t.cut_at is None else min(t.end, t.cut_at)
