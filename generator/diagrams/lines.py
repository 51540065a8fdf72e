"""Ways and passes of a sketch as lines between its stations: cut off at the numbers, bent to where these stand now."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import sqrt

from generator.diagrams.bending import softened
from generator.diagrams.notation import bar_ends
from generator.diagrams.path import Bend, Path, Spot, Straight, apart, bowed, crown, shifted
from generator.diagrams.room import head_disc
from generator.diagrams.scene import HAND_OFF_RADIUS, HEAD_LENGTH
from generator.diagrams.sketch import Flight, Leg, Sketch, Stop, Trail
from generator.diagrams.stations import Disc, Stations
from generator.model import nothing

AIR = 0.8  # between a number's room and a line
JOINT = 1.6  # room at a place where a player stops on his way
SHORTEST = HEAD_LENGTH + 1.0
LINE_HALF = 0.5
WAVE_HALF = 1.9
_TURN_BACK = 30.0
_TURN_WIDTH = 2.5
_HAIRPIN_WIDTH = 11.0  # the same where he runs back the way he came: a stop and a new start, no way round anybody
_HAIRPIN = -0.8
_WINDING = 1.6
_AT_A_PLACE = 7.0  # a ball given or caught so near to a stop is drawn at the stop
_ON_THE_WAY = 4.0
_MARK_NEAR = 12.0
_NONE: Mapping[int, Sequence[Path]] = nothing()
_RUN_IN = 12.0  # how far before a moved end the way begins to bend to it


@dataclass(frozen=True, slots=True)
class Ray:
    """A line to place. `whole` runs from middle to middle, `path` is what is left between the numbers at its ends.

    `player`: whose; `receiver`: of a pass. `leaves`, `reaches`: the rooms it is cut off at, if any.
    """

    path: Path
    whole: Path
    kind: str  # cut | dribble | pass
    player: int
    head: bool
    receiver: int | None = None
    leaves: Disc | None = None
    reaches: Disc | None = None
    starts: tuple[Spot, ...] = ()  # other spots it may start at: the ends of the bar it leaves

    @property
    def half(self) -> float:
        """Half of what it covers across."""
        return WAVE_HALF if self.kind == "dribble" else LINE_HALF

    def by(self, whole: Path) -> Ray:
        """The same line by another way."""
        begin = _exit(whole, self.leaves) if self.leaves else 0.0
        end = whole.length - (_exit(_reversed(whole), self.reaches) if self.reaches else 0.0)
        path = whole.part(begin, end) if end - begin > 0.1 else whole.part(begin, begin + 0.1)
        path = _grown(path) if self.head and path.length < SHORTEST else softened(path)
        return replace(self, path=path, whole=whole)


def trail_rays(trail: Trail, stations: Stations) -> list[Ray]:
    """The lines of a player's way, one for each stretch drawn alike."""
    stretches = _stretches(_to_marks(trail, stations))
    rays: list[Ray] = []
    for i, legs in enumerate(stretches):
        last = i == len(stretches) - 1
        leaves = stations.starts[trail.player] if i == 0 else _room_left(stretches[i - 1][-1], rays[-1])
        reaches = stations.ends.get(trail.player) if last else None
        if reaches is None and legs[-1].stop is Stop.HAND_OFF:
            reaches = Disc(legs[-1].path.last, HAND_OFF_RADIUS)
        whole = _joined(legs)
        if i == 0:
            whole = _without_turning_back(_reversed(_toward(_reversed(whole), leaves.at)), leaves)
        if reaches:
            whole = _toward(whole, reaches.at)
            if i and stretches[i - 1][-1].stop is Stop.BAR and apart(whole.first, reaches.at) < reaches.radius + AIR + SHORTEST:
                continue  # his end stands at the bar: there is no room for a line, and none is needed
        head = legs[-1].stop is not Stop.BAR
        starts = _bar_ends(stretches[i - 1][-1], trail.player, stations) if i else ()
        ray = Ray(whole, whole, legs[0].way.value, trail.player, head, None, leaves, reaches, starts)
        rays.append(ray.by(whole))
    return rays


def _room_left(before: Leg, ray: Ray) -> Disc | None:
    """What stands where the stretch before ended: a hand-off mark, an arrowhead, or nothing beside a bar."""
    if before.stop is Stop.HAND_OFF:
        return Disc(before.path.last, HAND_OFF_RADIUS)
    return head_disc(ray.path) if ray.head else None


def _bar_ends(before: Leg, player: int, stations: Stations) -> tuple[Spot, ...]:
    """Both ends of the bar at which the stretch before ended."""
    near = [b for b in stations.bars if b.player == player and apart(b.at, before.path.last) < 0.5]
    return bar_ends(near[0].at, near[0].along) if near and before.stop is Stop.BAR else ()


def _toward(path: Path, end: Spot) -> Path:
    return _retarget(path, end) if apart(path.last, end) > 0.3 else path


def _to_marks(trail: Trail, stations: Stations) -> tuple[Leg, ...]:
    """The legs, led to and from their bars and hand-off marks where these stand now."""
    legs = list(trail.legs)
    moved = {b.leg: b.at for b in stations.bars if b.player == trail.player and b.leg >= 0}
    for i, leg in enumerate(legs):
        if leg.stop is Stop.HAND_OFF:
            marks = [at for h, at in stations.hand_offs.items() if trail.player in (h.giver, h.receiver)]
            near = [at for at in marks if apart(at, leg.path.last) < _MARK_NEAR]
            if near:
                moved[i] = min(near, key=lambda at: apart(at, leg.path.last))
    for i, at in moved.items():
        if apart(legs[i].path.last, at) > 0.3:
            legs[i] = replace(legs[i], path=_retarget(legs[i].path, at))
            if i + 1 < len(legs):
                legs[i + 1] = replace(legs[i + 1], path=_reversed(_retarget(_reversed(legs[i + 1].path), at)))
    return tuple(legs)


def _stretches(legs: tuple[Leg, ...]) -> list[list[Leg]]:
    """Legs that make one line: alike, and without a bar between them."""
    out: list[list[Leg]] = []
    for leg in legs:
        if out and out[-1][-1].way is leg.way and out[-1][-1].stop is Stop.OPEN:
            out[-1].append(leg)
        else:
            out.append([leg])
    return out


def _joined(legs: list[Leg]) -> Path:
    pieces: list[Straight | Bend] = []
    for leg in legs:
        if pieces and apart(pieces[-1].at(pieces[-1].length), leg.path.first) > 0.5:
            pieces.append(Straight(pieces[-1].at(pieces[-1].length), leg.path.first))
        pieces += leg.path.pieces
    return Path(tuple(pieces))


def _exit(path: Path, disc: Disc) -> float:
    """The length after which a path that begins inside a disc has left its room; 0 when it begins outside."""
    gone, room = 0.0, disc.radius + AIR
    for piece in path.pieces:
        s = _leaves_at(piece, disc.at, room)
        if s is not None:
            return gone + s
        gone += piece.length
    return gone


def _leaves_at(piece: Straight | Bend, c: Spot, room: float) -> float | None:
    """Where a piece first is `room` away from `c`, None when it stays nearer."""
    if isinstance(piece, Straight):
        (x, y), (hx, hy) = piece.a, piece.heading(0.0)
        dx, dy = x - c[0], y - c[1]
        outside = dx * dx + dy * dy - room * room
        if outside >= 0:
            return 0.0
        along = dx * hx + dy * hy
        s = -along + sqrt(along * along - outside)
        return s if s <= piece.length else None
    s = 0.0
    while s <= piece.length:
        away = room - apart(piece.at(s), c)
        if away <= 0.02:
            return s
        s += max(0.1, away)
    return None


def _without_turning_back(path: Path, disc: Disc) -> Path:
    """The way without a turn out of the number's room and back past it at the very start: a runner who stops and goes
    the other way. Of a short way that turns on itself only where it leads is shown."""
    if path.length < _TURN_BACK and path.length > _WINDING * apart(path.first, path.last):
        return Path((Straight(path.first, path.last),))
    ahead = path.part(0.0, _TURN_BACK).samples(1.5)
    far = max(range(len(ahead)), key=lambda i: apart(ahead[i], disc.at)) * min(_TURN_BACK, path.length) / (len(ahead) - 1)
    rest = path.part(far, path.length)
    away, back = path.heading(0.0), rest.heading(rest.length)
    wide = _HAIRPIN_WIDTH if away[0] * back[0] + away[1] * back[1] < _HAIRPIN else _TURN_WIDTH
    if far < disc.radius or rest.gap(disc.at) >= disc.radius + wide:
        return path
    inside = rest.nearest(disc.at)
    return _reversed(_toward(_reversed(rest.part(inside, rest.length)), disc.at)) if inside < rest.length - 8.0 else path


def _retarget(path: Path, end: Spot) -> Path:
    """The same way to another end: its last stretch goes straight there."""
    last = path.pieces[-1]
    if isinstance(last, Straight) and last.length > _RUN_IN / 2:
        return Path((*path.pieces[:-1], Straight(last.a, end)))
    if isinstance(last, Bend) and len(path.pieces) == 1:
        return _rebent(last, end)
    kept = path.part(0.0, max(0.0, path.length - _RUN_IN))
    if kept.length < 1.0:
        return Path((Straight(path.first, end),))
    return Path((*kept.pieces, Straight(kept.last, end)))


def _rebent(bend: Bend, end: Spot) -> Path:
    a = bend.at(0.0)
    chord = apart(a, bend.at(bend.length))
    return Path((bowed(a, end, crown(bend) * apart(a, end) / chord if chord > 1e-6 else 0.0),))


def _reversed(path: Path) -> Path:
    pieces = (
        Straight(p.b, p.a) if isinstance(p, Straight) else Bend(p.centre, p.radius, p.a0 + p.sweep, -p.sweep)
        for p in reversed(path.pieces)
    )
    return Path(tuple(pieces))


def _grown(path: Path) -> Path:
    """A way too short for its arrowhead, drawn on straight until it has room."""
    way = path.heading(path.length) if path.length > 0.2 else (0.0, -1.0)
    return Path((Straight(path.first, shifted(path.first, way, SHORTEST)),))


def flight_ray(flight: Flight, sketch: Sketch, stations: Stations, drawn: Mapping[int, Sequence[Path]] = _NONE) -> Ray | None:
    """The line of a pass between the places where its two players are; None when they stand side by side. `drawn`: the
    ways of players as they lie in the picture, once they do."""
    a = place_of(flight.passer, flight.start, sketch, stations, drawn.get(flight.passer, ()))
    b = place_of(flight.receiver, flight.end, sketch, stations, drawn.get(flight.receiver, ()))
    if apart(a.at, b.at) < a.radius + b.radius + SHORTEST:
        return None
    whole = Path((Straight(a.at, b.at),))
    return Ray(whole, whole, "pass", flight.passer, True, flight.receiver, a, b).by(whole)


def place_of(player: int, near: Spot, sketch: Sketch, stations: Stations, drawn: Sequence[Path] = ()) -> Disc:
    """Where the picture shows a player who by the plan is at `near`: at his start, a stop on his way, or his end; on
    the way itself (as `drawn`, if it is), where he runs past; else at the nearest of these, since he is nowhere else."""
    places = [(sketch.starts[player], stations.starts[player])] if player in sketch.starts else []
    running = False
    for trail in sketch.trails:
        if trail.player == player and trail.legs:
            places += [(leg.path.last, Disc(leg.path.last, JOINT)) for leg in trail.legs]
            if player in stations.ends:
                places[-1] = (trail.legs[-1].path.last, stations.ends[player])
            running = any(leg.path.gap(near) < _ON_THE_WAY for leg in trail.legs)
    where, disc = min(places, key=lambda p: apart(p[0], near), default=(near, Disc(near, 1.0)))
    if not running or apart(where, near) < _AT_A_PLACE:
        return disc
    way = min(drawn, key=lambda p: p.gap(near), default=None)
    return Disc(way.at(way.nearest(near)) if way else near, 1.0)


def restarted(ray: Ray) -> Iterator[Path]:
    """The way as it is, and from its other possible starts."""
    yield ray.whole
    for spot in ray.starts:
        yield _reversed(_retarget(_reversed(ray.whole), spot))
