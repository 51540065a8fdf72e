"""Where numbers stand: starts, ends and bars of a picture, pushed apart until none covers another.

Starts move least. An end that falls on somebody's start (he takes a place just left) stops short of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from itertools import combinations

from generator.diagrams.path import Spot, apart, shifted, unit
from generator.diagrams.scene import (
    BALL_RADIUS,
    DEFENDER_RADIUS,
    GHOST_RADIUS,
    HAND_OFF_RADIUS,
    HEAD_LENGTH,
    READER_RADIUS,
    TOKEN_RADIUS,
    WATCHED_RADIUS,
)
from generator.diagrams.sketch import HandOffPlace, Sketch, Stop, Trail
from generator.model import nothing

AIR = 0.6  # least room between two numbers
SHORT_STEP = 15.0  # a way that ends nearer than this to its start gets an arrow and no second number
ARROW_ROOM = HEAD_LENGTH + 2.2  # between a player's own two numbers
BAR_ROOM = 1.1
WAY_ROOM = 1.2
_ROUNDS = 24
_AT_MARK = 9.0  # picture units between an end and a hand-off that it is at
_TOUCH = 1e-3
_INK = (4.6, 3.2, 5.0)  # picture units of a defender's mark: to either side, up, down


@dataclass(frozen=True, slots=True)
class Disc:
    """Room that a number needs."""

    at: Spot
    radius: float


@dataclass(frozen=True, slots=True)
class Bar:
    """A screen's bar: its middle and direction; `leg`: index of the leg that ends there, -1 where he already stood."""

    player: int
    at: Spot
    along: Spot
    leg: int = -1

    def discs(self) -> tuple[Disc, ...]:
        """Its room, as a row of discs."""
        return tuple(Disc(shifted(self.at, self.along, k), BAR_ROOM) for k in (-3.6, -1.8, 0.0, 1.8, 3.6))


@dataclass(frozen=True, slots=True)
class Stations:
    """Discs of starts and ends by player, of defenders by body, and the bars of screens."""

    starts: Mapping[int, Disc]
    ends: Mapping[int, Disc]
    defenders: Mapping[int, Disc]
    bars: tuple[Bar, ...]
    hand_offs: Mapping[HandOffPlace, Spot] = field(default_factory=nothing)

    def discs(self) -> tuple[Disc, ...]:
        """Every number of the picture."""
        return (*self.starts.values(), *self.ends.values(), *self.defenders.values())


def settle_stations(sketch: Sketch, lines: Iterable[Spot] = ()) -> Stations:
    """Places the numbers of a sketch. Defenders step off `lines`, spots along the ways, as far as they may."""
    starts = _spread_starts(sketch)
    defenders = _spread_defenders(sketch, starts, tuple(Disc(at, WAY_ROOM) for at in lines))
    bars = tuple(_bars(sketch, starts, tuple(defenders.values())))
    hand_offs = _hand_off_spots(sketch, starts)
    return Stations(starts, _spread_ends(sketch, starts, defenders, bars, hand_offs), defenders, bars, hand_offs)


def _start_radius(sketch: Sketch, player: int) -> float:
    if player == sketch.reader:
        return READER_RADIUS
    return BALL_RADIUS if player == sketch.holder else TOKEN_RADIUS


def _spread_starts(sketch: Sketch) -> dict[int, Disc]:
    return _spread({p: Disc(at, _start_radius(sketch, p)) for p, at in sketch.starts.items()}, lambda _: ())


def _spread_defenders(sketch: Sketch, starts: Mapping[int, Disc], lines: tuple[Disc, ...]) -> dict[int, Disc]:
    hand_offs = (Disc(h.at, HAND_OFF_RADIUS) for h in sketch.hand_offs)
    numbers = [(disc, (0.0, 1.0)) for disc in (*starts.values(), *hand_offs, *lines)]
    radii = {b: WATCHED_RADIUS if b in sketch.watched else DEFENDER_RADIUS for b in sketch.defenders}
    pushed = _spread({b: Disc(at, radii[b]) for b, at in sketch.defenders.items()}, lambda _: numbers)
    if all(_inside(sketch, d) == d for d in pushed.values()):
        return pushed
    return _spread({b: _inside(sketch, d) for b, d in pushed.items()}, lambda _: numbers, lambda d: _inside(sketch, d))


def _inside(sketch: Sketch, disc: Disc) -> Disc:
    """The disc moved into the picture, as far as its ink needs."""
    left, top, width, height = sketch.view.box
    x = min(max(disc.at[0], left + _INK[0]), left + width - _INK[0])
    y = min(max(disc.at[1], top + _INK[1]), top + height - _INK[2])
    return disc if (x, y) == disc.at else Disc((x, y), disc.radius)


def _spread(
    discs: dict[int, Disc], fixed: Callable[[int], Iterable[tuple[Disc, Spot]]], held: Callable[[Disc], Disc] = lambda d: d
) -> dict[int, Disc]:
    """The discs pushed off the fixed ones (each with the way to go when both are one) and off each other, and `held`
    where they may be."""
    pairs = list(combinations(sorted(discs), 2))
    for _ in range(_ROUNDS):
        before = dict(discs)
        for key, disc in before.items():
            for other, otherwise in fixed(key):
                disc = _push(disc, other, otherwise) if _overlap(disc, other) > _TOUCH else disc
            discs[key] = held(disc)
        for a, b in pairs:
            if _overlap(discs[a], discs[b]) > _TOUCH:
                discs[a], discs[b] = _push_both(discs[a], discs[b])
        if discs == before:
            break
    return discs


def _bars(sketch: Sketch, starts: Mapping[int, Disc], defenders: tuple[Disc, ...]) -> Iterable[Bar]:
    for trail in sketch.trails:
        others = [*(d for p, d in starts.items() if p != trail.player), *defenders]
        if trail.bar_at_start:
            yield _standing_bar(trail, starts[trail.player], others)
        for i, leg in enumerate(trail.legs):
            if leg.stop is Stop.BAR:
                yield _clear(Bar(trail.player, leg.path.last, leg.along or (1.0, 0.0), i), [*starts.values(), *defenders])


def _standing_bar(trail: Trail, disc: Disc, others: list[Disc]) -> Bar:
    """The bar of a man who already stands: before him, toward the one who comes; behind or beside where there is no
    room."""
    along, side = trail.bar_at_start
    reach = disc.radius + BAR_ROOM + 0.7
    leaving = trail.legs[0].path.at(disc.radius + reach) if trail.legs else None
    in_way = [*others, disc, *([Disc(leaving, GHOST_RADIUS)] if leaving else ())]
    bars = [
        Bar(trail.player, shifted(shifted(disc.at, side, k * reach), along, slide), along)
        for slide in (0.0, 3.0, -3.0, 6.0, -6.0) for k in (1.0, -1.0)
    ]
    return min(bars, key=lambda b: sum(max(0.0, _overlap(d, n)) for d in b.discs() for n in in_way))


def _clear(bar: Bar, numbers: list[Disc]) -> Bar:
    """The bar moved off the numbers it covers, each time straight away from them."""
    for _ in range(8):
        worst = max(((_overlap(d, n), d, n) for d in bar.discs() for n in numbers), key=lambda f: f[0], default=None)
        if worst is None or worst[0] <= _TOUCH:
            break
        depth, disc, number = worst
        bar = replace(bar, at=shifted(bar.at, unit(number.at, disc.at), depth + 0.01))
    return bar


def has_end(trail: Trail) -> bool:
    """True when the trail ends with a faint number: not at a bar, and far enough from its start."""
    if not trail.legs or trail.legs[-1].stop is Stop.BAR:
        return False
    if apart(trail.legs[0].path.first, trail.legs[-1].path.last) >= SHORT_STEP:
        return True
    return sum(leg.path.length for leg in trail.legs) >= 2 * SHORT_STEP


def _spread_ends(
    sketch: Sketch, starts: Mapping[int, Disc], defenders: Mapping[int, Disc], bars: tuple[Bar, ...],
    hand_offs: Mapping[HandOffPlace, Spot],
) -> dict[int, Disc]:
    ends, back = {}, {}
    for trail in sketch.trails:
        if has_end(trail):
            path = trail.legs[-1].path
            ends[trail.player] = Disc(path.last, GHOST_RADIUS)
            heading = path.heading(path.length)
            back[trail.player] = (-heading[0], -heading[1])
    _step_aside(hand_offs, ends, back)
    small = [*defenders.values(), *(d for bar in bars for d in bar.discs()), *(Disc(at, HAND_OFF_RADIUS) for at in hand_offs.values())]

    def fixed(player: int) -> list[tuple[Disc, Spot]]:
        wide = {player: ARROW_ROOM}
        numbers = [Disc(d.at, d.radius + wide.get(p, 0.0)) for p, d in starts.items()]
        return [(disc, back[player]) for disc in (*numbers, *small)]

    return _spread(ends, fixed)


def _step_aside(hand_offs: Mapping[HandOffPlace, Spot], ends: dict[int, Disc], back: dict[int, Spot]) -> None:
    """Who stops at a hand-off stands a little short of its mark; when both do, on either side of it."""
    for hand_off, at in hand_offs.items():
        here = [p for p in (hand_off.giver, hand_off.receiver) if p in ends and apart(ends[p].at, hand_off.at) < _AT_MARK]
        ways = {p: back[p] for p in here}
        if len(here) == 2:
            across = unit(back[here[0]], back[here[1]])
            ways = {here[0]: (-across[0], -across[1]), here[1]: across}
        for player, way in ways.items():
            ends[player] = Disc(shifted(at, way, GHOST_RADIUS + HAND_OFF_RADIUS + AIR + 0.01), GHOST_RADIUS)


def _hand_off_spots(sketch: Sketch, starts: Mapping[int, Disc]) -> dict[HandOffPlace, Spot]:
    """Each mark at its place, or at the edge of a number that covers it, on the side the receiver comes from."""
    spots = {}
    for hand_off in sketch.hand_offs:
        mark = Disc(hand_off.at, HAND_OFF_RADIUS)
        coming = unit(hand_off.at, _before(sketch, hand_off))
        for _ in range(_ROUNDS):
            covered = [d for d in starts.values() if _overlap(mark, d) > _TOUCH]
            for disc in covered:
                mark = _push(mark, disc, coming)
            if not covered:
                break
        spots[hand_off] = mark.at
    return spots


def _before(sketch: Sketch, hand_off: HandOffPlace) -> Spot:
    """A spot on the receiver's way shortly before the ball is his."""
    paths = [leg.path for t in sketch.trails if t.player == hand_off.receiver for leg in t.legs]
    near = [p for p in paths if apart(p.last, hand_off.at) < 8.0]
    return near[0].at(max(0.0, near[0].length - 10.0)) if near else sketch.starts.get(hand_off.receiver, hand_off.at)


def _overlap(a: Disc, b: Disc) -> float:
    return a.radius + b.radius + AIR - apart(a.at, b.at)


def _push(mover: Disc, fixed: Disc, otherwise: Spot) -> Disc:
    """The mover just outside the fixed disc, straight away from it; when they are one, `otherwise`."""
    way = unit(fixed.at, mover.at) if apart(mover.at, fixed.at) > 1.0 else otherwise
    return Disc(shifted(fixed.at, way, mover.radius + fixed.radius + AIR + 0.01), mover.radius)


def _push_both(a: Disc, b: Disc) -> tuple[Disc, Disc]:
    way = unit(b.at, a.at) if apart(a.at, b.at) > 1e-6 else (-1.0, 0.0)
    half = (_overlap(a, b) + 0.01) / 2
    return Disc(shifted(a.at, way, half), a.radius), Disc(shifted(b.at, way, -half), b.radius)
