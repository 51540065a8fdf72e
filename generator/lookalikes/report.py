"""Every pair of plays compared, every series as a tree: what false motion buys.

In: `Candidate`s, each a play as written with its other versions (mirrored, run for others) and its versions behind
lead-ins. Out: a `Report`. A pair keeps the version in which the two look alike longest. Trees need the plays as written.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from generator.lookalikes.split import Split, split
from generator.lookalikes.words import version_words
from generator.model.play import Play
from generator.timeline.timed import PlayTimes

AT_ONCE = 0.5  # s: a pair that parts sooner gives itself away at once
SAME_KNOT = 0.25  # s: splits so near to each other part at one knot of a tree


@dataclass(frozen=True, slots=True)
class Candidate:
    """A play as written; `versions`: mirrored and run for others; `led`: by the names of the lead-ins before it."""

    times: PlayTimes
    versions: tuple[PlayTimes, ...] = ()
    led: Mapping[tuple[str, ...], PlayTimes] | None = None

    @property
    def play(self) -> Play:
        """The play."""
        return self.times.play


@dataclass(frozen=True, slots=True)
class Pair:
    """Two plays. `version`: words for the version of b ("" as written). `lead_ins`: before both ("" none)."""

    a: Play
    b: Play
    split: Split
    version: str = ""
    lead_ins: tuple[str, ...] = ()

    @property
    def alike(self) -> float:
        """Seconds for which they look alike, on a's clock."""
        return self.split.a_length if self.split.a_s is None else self.split.a_s

    @property
    def at_once(self) -> bool:
        """True when they give themselves away at once."""
        return self.alike < AT_ONCE


@dataclass(frozen=True, slots=True)
class Trunk:
    """A knot of a series' tree: `plays` look alike until `until` (None: to the end), then part into `branches`.
    `pair`: the pair that parts here first."""

    plays: tuple[Play, ...]
    until: float | None
    pair: Pair | None = None
    branches: tuple[Trunk, ...] = ()


@dataclass(frozen=True, slots=True)
class Report:
    """`pairs` in book order; `led`: for each pair with a common lead-in the one that hides it longest within the clock;
    `trees` by series."""

    pairs: tuple[Pair, ...]
    led: tuple[Pair, ...]
    trees: Mapping[str, Trunk]

    def of(self, play: Play) -> tuple[Pair, ...]:
        """Pairs of a play, longest alike first."""
        mine = (p for p in self.pairs if play.id in (p.a.id, p.b.id))
        return tuple(sorted(mine, key=lambda p: (-p.alike, p.a.name, p.b.name)))


def lookalike_report(candidates: Sequence[Candidate], clock: float | None = None) -> Report:
    """Compares all plays of a book; `clock`: seconds a play with its lead-ins may last (None: no limit)."""
    pairs = tuple(best_pair(a, b) for a, b in combinations(candidates, 2))
    led = tuple(p for a, b in combinations(candidates, 2) if (p := _best_led(a, b, clock)) is not None)
    series: dict[str, list[Candidate]] = {}
    for candidate in candidates:
        if candidate.play.series:
            series.setdefault(candidate.play.series, []).append(candidate)
    return Report(pairs, led, {name: series_tree(members) for name, members in sorted(series.items())})


def best_pair(a: Candidate, b: Candidate) -> Pair:
    """a as written against the version of b that looks like it longest; as written first."""
    best = Pair(a.play, b.play, split(a.times.main, b.times.main))
    for version in b.versions:
        if best.split.never:
            break
        parted = split(a.times.main, version.main)
        made = Pair(a.play, b.play, parted, version_words(version.settled.variant))
        if parted.never or made.alike > best.alike + 1e-9:
            best = made
    return best


def _best_led(a: Candidate, b: Candidate, clock: float | None) -> Pair | None:
    best: Pair | None = None
    for names in (a.led or {}).keys() & (b.led or {}).keys():
        one, two = a.led[names].main, b.led[names].main
        if clock is not None and max(one.duration, two.duration) > clock:
            continue
        made = Pair(a.play, b.play, split(one, two), "", names)
        if best is None or (made.alike, best.lead_ins) > (best.alike, made.lead_ins):
            best = made
    return best


# -- trees -------------------------------------------------------------------------------------------------


def series_tree(members: Sequence[Candidate]) -> Trunk:
    """The plays of a series as written, joined as long as no pair has parted."""
    pairs = {
        frozenset((a.play.id, b.play.id)): Pair(a.play, b.play, split(a.times.main, b.times.main))
        for a, b in combinations(members, 2)
    }
    return _knot([m.play for m in members], pairs)


def _knot(plays: list[Play], pairs: Mapping[frozenset[str], Pair]) -> Trunk:
    inner = [pairs[frozenset((a.id, b.id))] for a, b in combinations(plays, 2)]
    parting = [p for p in inner if not p.split.never]
    if not parting:
        return Trunk(tuple(plays), None)
    first = min(parting, key=lambda p: (p.alike, p.a.name, p.b.name))
    groups = _groups(plays, pairs, first.alike + SAME_KNOT)
    if len(groups) == 1:
        groups = [[p] for p in plays]
    return Trunk(tuple(plays), first.alike, first, tuple(_knot(g, pairs) for g in groups))


def _groups(plays: list[Play], pairs: Mapping[frozenset[str], Pair], beyond: float) -> list[list[Play]]:
    """Plays that still look alike after second `beyond`, directly or by way of others, stay together."""
    groups: list[list[Play]] = []
    for play in plays:
        near = [g for g in groups if any(_together(pairs[frozenset((play.id, other.id))], beyond) for other in g)]
        merged = [p for g in near for p in g] + [play]
        groups = [g for g in groups if g not in near] + [merged]
    return [sorted(g, key=plays.index) for g in sorted(groups, key=lambda g: min(map(plays.index, g)))]


def _together(pair: Pair, beyond: float) -> bool:
    return pair.split.never or pair.alike > beyond


def knots(trunk: Trunk) -> Iterable[Trunk]:
    """A tree's knots, trunk first."""
    yield trunk
    for branch in trunk.branches:
        yield from knots(branch)
