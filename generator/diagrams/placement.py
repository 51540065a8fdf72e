"""Sketch to scene: lines bent until none runs through a number, an arrowhead or along another line.

Numbers stand first (`stations`), then ways, then passes, then small marks. Every line tries itself as it is; only
where that disturbs something are bows and detours tried and the cheapest taken. What is left over is counted in
`Scene.strain`, the measure of a crowded picture.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import inf

from generator.diagrams.bending import bows, bypasses, corners, detours
from generator.diagrams.lines import LINE_HALF, Ray, flight_ray, restarted, trail_rays
from generator.diagrams.marks import order_marks, shot_marks
from generator.diagrams.passing import bent_passes, straight_passes
from generator.diagrams.path import Path, apart
from generator.diagrams.room import Stroke, beside, head_hits, hits, outside, stroke
from generator.diagrams.scene import (
    Bar,
    DefenderMark,
    EndGhost,
    HandOffMark,
    Item,
    Line,
    PassLine,
    Scene,
    Token,
    Wave,
)
from generator.diagrams.sketch import Flight, Sketch
from generator.diagrams.stations import Disc, Stations, settle_stations

_ROUNDS = 3
_MOST_ASIDE = 14.0  # picture units a defender may be shown from where he is
_DEAREST_STRAIGHT = 7.0  # price: a straight pass that strays no farther is not bent
_DEAREST_WAY = 26.0  # a disturbance costs more than this times `_STRAY`
_FARTHER = (5.0, 10.0)  # picture units
_LOOK = 5.0  # picture units between the spots of a way looked at
_STRAY = 0.12  # what a unit of straying from the plain way costs against a disturbance
_WAYS_PAST = (detours, corners, bypasses)
_Variant = tuple[Ray, float, Path]  # the line to lead another way, the price, that way


def compose(sketch: Sketch) -> Scene:
    """The scene of a sketch, on as much of its view's floor as it uses."""
    sketch = replace(sketch, view=sketch.view.reaching(_deepest(sketch)))
    table = _table(sketch)
    if table.strain() and (unbent := _unbent(sketch)) != sketch:
        table = min(table, _table(unbent), key=_Table.strain)
    stations = table.stations
    shots = shot_marks(sketch, stations, table.strokes(), sketch.own)
    letters = order_marks(sketch, stations, table.flight_paths(), table.strokes(), shots)
    items = (
        *_numbers(sketch, stations),
        *(_drawn(ray, sketch) for ray in table.rays),
        *(Bar(b.at, b.along, b.player, b.player == sketch.own) for b in stations.bars),
        *(HandOffMark(at, sketch.own in (h.giver, h.receiver)) for h, at in stations.hand_offs.items()),
        *shots,
        *letters,
    )
    return Scene(sketch.view, items, sketch.title, sketch.words, table.strain())


def _unbent(sketch: Sketch) -> Sketch:
    """The sketch with every way to a screen as it is run."""
    trails = (replace(t, legs=tuple(replace(leg, path=leg.unbent or leg.path) for leg in t.legs)) for t in sketch.trails)
    return replace(sketch, trails=tuple(trails))


def _deepest(sketch: Sketch) -> float:
    """Metres from the end line to whatever the picture has farthest from it."""
    ways = (spot for t in sketch.trails for leg in t.legs for spot in leg.path.samples(_LOOK))
    balls = (spot for f in sketch.flights for spot in (f.start, f.end))
    return max(sketch.view.floor(s).y for s in (*sketch.starts.values(), *sketch.defenders.values(), *ways, *balls))


def _table(sketch: Sketch) -> _Table:
    """The lines placed; defenders step off the plain way of a line that finds no way past them, if that is better."""
    table = _settled(sketch, settle_stations(sketch))
    if not table.strain() or not sketch.defenders:
        return table
    ways = [spot for i in table.strained() for spot in table.plain[i].path.samples(3.0)]
    other = _settled(sketch, settle_stations(sketch, ways))
    return other if other.strain() < table.strain() and _near_enough(sketch, other.stations) else table


def _settled(sketch: Sketch, stations: Stations) -> _Table:
    table = _Table(sketch, stations)
    table.settle()
    return table


def _near_enough(sketch: Sketch, stations: Stations) -> bool:
    """True when no defender stands far from where he is."""
    return all(apart(at, stations.defenders[body].at) < _MOST_ASIDE for body, at in sketch.defenders.items())


def _numbers(sketch: Sketch, stations: Stations) -> Iterator[Item]:
    for player, disc in sorted(stations.starts.items()):
        yield Token(player, disc.at, player == sketch.holder, player == sketch.own, player == sketch.reader)
    for player, disc in sorted(stations.ends.items()):
        yield EndGhost(player, disc.at, player == sketch.own)
    for body, disc in sorted(stations.defenders.items()):
        yield DefenderMark(body, disc.at, body in sketch.watched)


def _drawn(ray: Ray, sketch: Sketch) -> Item:
    own = sketch.own is not None and sketch.own == ray.player
    if ray.kind == "pass":
        return PassLine(ray.path, ray.player, ray.receiver, own)
    return (Wave if ray.kind == "dribble" else Line)(ray.path, ray.player, ray.head, own)


def _thin(line: Stroke) -> Stroke:
    """The line as it must clear its own numbers: a wave begins close to them."""
    return line if line.half <= LINE_HALF else replace(line, half=LINE_HALF)


class _Table:
    """The lines of one picture while they are being placed."""

    def __init__(self, sketch: Sketch, stations: Stations) -> None:
        self.sketch, self.stations = sketch, stations
        self.rays: list[Ray] = [r for t in sketch.trails for r in trail_rays(t, stations)]
        self.flights: list[Flight | None] = [None] * len(self.rays)
        for flight in sketch.flights:
            ray = flight_ray(flight, sketch, stations)
            if ray:
                self.rays.append(ray)
                self.flights.append(flight)
        self.plain = list(self.rays)
        self._strokes = [stroke(r.path, r.half, r.head) for r in self.rays]
        self._rooms: dict[int, tuple[list[Disc], list[Disc]]] = {}
        self._bars = [(b.player, b.discs()) for b in stations.bars]

    def settle(self) -> None:
        """Places every line, then looks again at those that still disturb."""
        costs = [0.0] * len(self.rays)
        for round_ in range(_ROUNDS):
            disturbed = False
            for i in range(len(self.rays)):
                if not round_:
                    self._meet(i)
                others = self._strokes[:i] + (self._strokes[i + 1 :] if round_ else [])
                costs[i] = self._cost(i, self._strokes[i], others)
                if costs[i] > 0:
                    self._improve(i, costs[i], others)
                    disturbed = True
            if round_ and not disturbed:
                return

    def _meet(self, i: int) -> None:
        """A pass to or from a runner meets his way as it is drawn; ways are placed before passes."""
        flight = self.flights[i]
        if flight is None:
            return
        ways = {p: [r.path for r in self.rays if r.player == p and r.receiver is None] for p in (flight.passer, flight.receiver)}
        ray = flight_ray(flight, self.sketch, self.stations, ways)
        if ray is not None:
            self.rays[i] = self.plain[i] = ray
            self._strokes[i] = stroke(ray.path, ray.half, ray.head)

    def strokes(self) -> list[Stroke]:
        """The placed lines."""
        return self._strokes

    def flight_paths(self) -> dict[Flight, Stroke]:
        """The line of each pass."""
        return {f: s for f, s in zip(self.flights, self._strokes, strict=True) if f is not None}

    def strain(self) -> int:
        """How many lines still disturb something."""
        return len(self.strained())

    def strained(self) -> list[int]:
        """Indexes of the lines that do."""
        lines = list(enumerate(self._strokes))
        return [i for i, line in lines if self._cost(i, line, self._strokes[:i] + self._strokes[i + 1 :]) > 0]

    def _in_the_way(self, i: int) -> tuple[list[Disc], list[Disc]]:
        """Discs of others with their bars, and the numbers the line itself touches at its ends. Asked for very often."""
        if i not in self._rooms:
            self._rooms[i] = self._rooms_round(i)
        return self._rooms[i]

    def _rooms_round(self, i: int) -> tuple[list[Disc], list[Disc]]:
        mine = (self.rays[i].player, self.rays[i].receiver)
        numbers = [*self.stations.starts.items(), *self.stations.ends.items()]
        foreign = [d for p, d in numbers if p not in mine] + list(self.stations.defenders.values())
        bars = [d for owner, discs in self._bars if owner not in mine for d in discs]
        return foreign + bars, [d for p, d in numbers if p in mine]

    def _cost(self, i: int, line: Stroke, others: list[Stroke], most: float = inf) -> float:
        """How much a line disturbs; not counted to the end once it is over `most`."""
        foreign, own = self._in_the_way(i)
        cost = 10.0 * hits(line, foreign)
        if cost > most:
            return cost
        cost += 8.0 * head_hits(line, foreign) + 8.0 * head_hits(line, own) + 10.0 * hits(_thin(line), own)
        heads = [o.head for o in others if o.head]
        cost += 6.0 * hits(line, heads) + 8.0 * head_hits(line, heads)
        if cost > most:
            return cost
        cost += sum(3.0 * beside(line, o) for o in others)
        if line.head:
            cost += sum(6.0 * hits(o, [line.head]) for o in others)
        return cost + (25.0 if outside(line, self.sketch.view.box) else 0.0)

    def _improve(self, i: int, cost: float, others: list[Stroke]) -> None:
        """Takes the variant that disturbs least; of those that disturb nothing the one that strays least. Bent passes
        are tried only where no straight one is free."""
        best = (cost, None, None)
        for variants, cheap in self._stages(i):
            for price, _, plain, whole in sorted((v[1], n, v[0], v[2]) for n, v in enumerate(variants)):
                if _STRAY * price >= best[0]:
                    break
                other = plain.by(whole)
                line = stroke(other.path, other.half, other.head)
                left = self._cost(i, line, others, best[0])
                if left + _STRAY * price < best[0] - 1e-6:
                    best = (left + _STRAY * price, other, line)
                if left == 0.0:
                    break
            if best[1] is not None and best[0] <= _STRAY * cheap:
                break
        if best[1] is not None:
            self.rays[i], self._strokes[i] = best[1], best[2]

    def _stages(self, i: int) -> Iterator[tuple[Iterator[_Variant], float]]:
        """Ways to try, and the price up to which one of them that disturbs nothing ends the search."""
        if self.rays[i].receiver is not None:
            yield from self._passes(i)
            return
        yield self._ways(i, (0.0,)), _DEAREST_WAY
        yield self._ways(i, _FARTHER), _DEAREST_WAY

    def _passes(self, i: int) -> Iterator[tuple[Iterator[_Variant], float]]:
        """First the straight ways of a pass, then the bent ones."""
        plain = self.plain[i]
        receiver = plain.receiver
        stands = None if receiver in self.stations.ends else self.stations.starts.get(receiver)
        straight = tuple(straight_passes(plain.whole, plain.reaches, self._last_way(receiver), stands))
        for ways in (straight, bent_passes(straight, plain.reaches)):
            yield ((replace(plain, reaches=reaches), price, whole) for whole, price, reaches in ways), _DEAREST_STRAIGHT

    def _ways(self, i: int, outs: tuple[float, ...]) -> Iterator[_Variant]:
        ray, discs = self.rays[i], self._in_the_way(i)[0]
        for n, start in enumerate(restarted(ray)):
            met = [d for d in discs if start.gap(d.at) < d.radius + ray.half]
            past = (w for out in outs for d in met for way_past in _WAYS_PAST for w in way_past(start, d, ray.half, out))
            plain = ((start, 0.0), *bows(start)) if 0.0 in outs else ()
            for whole, price in (*plain, *past):
                yield ray, price + (3.0 if n else 0.0), whole

    def _last_way(self, player: int) -> Path | None:
        """The last stretch a player runs, as it is drawn now."""
        ways = [r.path for r in self.rays if r.player == player and r.receiver is None and r.head]
        return ways[-1] if ways else None
