"""Small marks that look for room once the lines lie: the shot's ring and the letters of order."""

from __future__ import annotations

from math import cos, radians, sin

from generator.diagrams.lines import place_of
from generator.diagrams.notation import SHOT_RING, SHOT_STEM
from generator.diagrams.path import Spot, apart, shifted, unit
from generator.diagrams.room import Stroke
from generator.diagrams.scene import HAND_OFF_RADIUS, MARK_RADIUS, OrderMark, ShotMark
from generator.diagrams.sketch import Flight, HandOffPlace, Sketch
from generator.diagrams.stations import Disc, Stations
from generator.model.court import Point

_TURNS = (0, 25, -25, 50, -50, 75, -75, 105, -105, 140, -140, 180)
_ALONG = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82)
_RIM_ROOM = 2.6
_LETTERS = "abcdefghijklmnop"


def shot_marks(sketch: Sketch, stations: Stations, lines: list[Stroke], own: int | None) -> tuple[ShotMark, ...]:
    """Each shot's mark at its shooter, toward the rim or turned away from it as far as it must be to be seen."""
    rim = sketch.view.place(Point(0.0, sketch.view.court.rim))
    out: list[ShotMark] = []
    for shot in sketch.shots:
        station = place_of(shot.player, shot.at, sketch, stations)
        best = min(_turned(station, rim), key=lambda m: (_crowd(m[1], lines, stations, out, rim), m[0]))
        out.append(ShotMark(best[1].at, best[1].toward, own == shot.player))
    return tuple(out)


def _turned(station: Disc, rim: Spot) -> list[tuple[int, ShotMark]]:
    way = unit(station.at, rim)
    marks = []
    for rank, turn in enumerate(_TURNS):
        c, s = cos(radians(turn)), sin(radians(turn))
        toward = (c * way[0] - s * way[1], s * way[0] + c * way[1])
        marks.append((rank, ShotMark(shifted(station.at, toward, station.radius + 0.8), toward)))
    return marks


def shot_ring(mark: ShotMark) -> Disc:
    """The room of a shot's ring."""
    return Disc(shifted(mark.at, mark.toward, SHOT_STEM + SHOT_RING), SHOT_RING + 0.4)


def _crowd(mark: ShotMark, lines: list[Stroke], stations: Stations, placed: list[ShotMark], rim: Spot) -> int:
    room = (Disc(shifted(mark.at, mark.toward, SHOT_STEM / 2), 1.6), shot_ring(mark))
    touched = sum(_touches(disc, lines, stations) + (apart(disc.at, rim) < disc.radius + _RIM_ROOM) for disc in room)
    return touched + sum(apart(shot_ring(p).at, room[1].at) < 2 * room[1].radius for p in placed)


def _touches(disc: Disc, lines: list[Stroke], stations: Stations) -> int:
    numbers = sum(apart(d.at, disc.at) < d.radius + disc.radius - 0.6 for d in stations.discs())
    bars = sum(apart(shifted(b.at, b.along, k), disc.at) < disc.radius + 1.0 for b in stations.bars for k in (-4, 0, 4))
    heads = sum(apart(s.head.at, disc.at) < s.head.radius + disc.radius for s in lines if s.head)
    return numbers + bars + heads + sum(_near(s, disc) for s in lines)


def _near(line: Stroke, disc: Disc) -> bool:
    reach = disc.radius + line.half
    x, y = disc.at
    left, top, right, bottom = line.box
    return left - reach < x < right + reach and top - reach < y < bottom + reach and line.path.gap(disc.at) < reach


def order_marks(
    sketch: Sketch, stations: Stations, flights: dict[Flight, Stroke], lines: list[Stroke], shots: tuple[ShotMark, ...]
) -> tuple[OrderMark, ...]:
    """a, b, c beside the ball lines of `sketch.order`, where nothing else stands."""
    taken = [shot_ring(s) for s in shots] + [Disc(at, HAND_OFF_RADIUS + 0.4) for at in stations.hand_offs.values()]
    out = []
    for letter, line in zip(_LETTERS, sketch.order, strict=False):
        spots = _beside_hand_off(stations.hand_offs[line]) if isinstance(line, HandOffPlace) else _beside_flight(flights.get(line))
        ranked = [(_blocked(Disc(s, MARK_RADIUS), taken, lines, stations, sketch), i, s) for i, s in enumerate(spots)]
        if ranked:
            at = min(ranked)[2]
            taken.append(Disc(at, MARK_RADIUS))
            out.append(OrderMark(letter, at))
    return tuple(out)


def _blocked(disc: Disc, taken: list[Disc], lines: list[Stroke], stations: Stations, sketch: Sketch) -> int:
    left, top, width, height = sketch.view.box
    x, y = disc.at
    out = not (left + 3 < x < left + width - 3 and top + 3 < y < top + height - 3)
    clash = sum(apart(t.at, disc.at) < t.radius + disc.radius for t in taken)
    return _touches(disc, lines, stations) + clash + 5 * out


def _beside_flight(line: Stroke | None) -> list[Spot]:
    if line is None:
        return []
    spots = []
    for away in (4.4, 5.4, 7.0):
        for k in _ALONG:
            s = k * line.path.length
            way = line.path.heading(s)
            across = (-way[1], way[0])
            spots += [shifted(line.path.at(s), across, side * away) for side in (1.0, -1.0)]
    return spots


def _beside_hand_off(mark: Spot) -> list[Spot]:
    return [shifted(mark, (cos(radians(a)), sin(radians(a))), r) for r in (6.2, 7.6, 9.0) for a in range(0, 360, 30)]
