"""Look-alikes for pages: the lines of each play, the tree of each series.

A play's lines are compared again only when it or a play that begins like it has changed. In a large book only the
plays of a series are compared: pairs grow with the square of the book, and a series is what is meant to look alike.
`secondside lookalikes` compares all.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from generator.lookalikes import (
    Candidate,
    Pair,
    Report,
    Trunk,
    alike_lines,
    half_seconds,
    series_tree,
    tell_words,
)
from generator.lookalikes.report import best_pair
from generator.lookalikes.split import opening_difference
from generator.lookalikes.words import turned
from generator.model import nothing
from generator.model.book import fold_name
from generator.model.play import Play
from generator.pages.addresses import url_of
from generator.pages.kept import Kept
from generator.pages.keys import digest
from generator.pages.views import Link, TrunkNode
from generator.timeline.timed import PlayTimes

WHOLE = 120  # plays up to which all are compared with all


@dataclass(frozen=True, slots=True)
class Alike:
    """`lines` by play id, `trees` by the series' folded name."""

    lines: Mapping[str, tuple[str, ...]] = field(default_factory=nothing)
    trees: Mapping[str, TrunkNode] = field(default_factory=nothing)


def alike(published: Sequence[PlayTimes], versions: Sequence[PlayTimes], keys: Mapping[str, str], kept: Kept) -> Alike:
    """`versions`: every version of the plays; others in it do not matter."""
    others: dict[str, list[PlayTimes]] = {}
    for times in versions:
        if times.settled.variant.mirrored or times.settled.variant.run_for:
            others.setdefault(times.play.id, []).append(times)
    candidates = [Candidate(t, tuple(others.get(t.play.id, ()))) for t in published]
    series = _by_series(candidates)
    pairs = _Pairs()
    lines = {}
    for one in candidates:
        group = candidates if len(candidates) <= WHOLE else series.get(fold_name(one.play.series), [])
        like = [c for c in group if c.play.id == one.play.id or _begin_alike(one, c)]
        lines[one.play.id] = _once("lines", one.play.id, like, keys, kept, lambda one=one, like=like: pairs.lines(one, like))
    trees = {
        name: _once("tree", name, members, keys, kept, lambda members=members: _node(series_tree(members)))
        for name, members in series.items()
        if name and len(members) > 1
    }
    return Alike(lines, trees)


class _Pairs:
    """Each pair is compared once a build."""

    def __init__(self) -> None:
        self._found: dict[tuple[str, str], Pair] = {}

    def lines(self, one: Candidate, like: Sequence[Candidate]) -> tuple[str, ...]:
        """What the page of `one` says; `like` in book order, itself among them."""
        at = next(i for i, c in enumerate(like) if c is one)
        pairs = tuple(self._pair(*((one, c) if i > at else (c, one))) for i, c in enumerate(like) if i != at)
        return alike_lines(Report(pairs, (), {}), one.play)

    def _pair(self, a: Candidate, b: Candidate) -> Pair:
        key = (a.play.id, b.play.id)
        if key not in self._found:
            self._found[key] = best_pair(a, b)
        return self._found[key]


def _begin_alike(a: Candidate, b: Candidate) -> bool:
    """Whether either could be taken for the other in its first picture, in any version."""
    return any(opening_difference(a.times.main, v.main) is None for v in (b.times, *b.versions)) or any(
        opening_difference(b.times.main, v.main) is None for v in a.versions
    )


def _by_series(candidates: Sequence[Candidate]) -> dict[str, list[Candidate]]:
    groups: dict[str, list[Candidate]] = {}
    for candidate in candidates:
        groups.setdefault(fold_name(candidate.play.series), []).append(candidate)
    return groups


def _once(
    what: str, name: str, like: Sequence[Candidate], keys: Mapping[str, str], kept: Kept, make: Callable
) -> tuple[str, ...] | TrunkNode:
    names = [keys.get(c.play.id, "") for c in like]
    return kept.get(f"{what}-{digest(name, *names)}", make) if all(names) else make()


def _node(trunk: Trunk) -> TrunkNode:
    if trunk.until is None:
        links = tuple(Link(p.name, url_of(p.id)) for p in trunk.plays)
        return TrunkNode("alike to the end" if len(links) > 1 else "", "", links)
    return TrunkNode(_knot(trunk), _tell(trunk), (), tuple(map(_node, trunk.branches)))


def _knot(trunk: Trunk) -> str:
    """`All three look alike for 3.5 s, then Lantern parts`, `Lantern Low is known at once`."""
    alone = _alone(trunk)
    if trunk.until < 0.25:
        return f"{alone[0].name} is known at once" if len(alone) == 1 else "They part at once"
    count = {2: "Both", 3: "All three", 4: "All four"}.get(len(trunk.plays), f"All {len(trunk.plays)}")
    who = f"{alone[0].name} parts" if len(alone) == 1 else "they part"
    return f"{count} look alike for {half_seconds(trunk.until)}, then {who}"


def _tell(trunk: Trunk) -> str:
    """`in Lantern, 3 goes to right wing instead of staying`: said of the play that parts, where it is one."""
    if trunk.pair is None:
        return ""
    pair, alone = trunk.pair, _alone(trunk)
    if len(alone) == 1 and pair.b.id == alone[0].id:
        return f"in {pair.b.name}, {tell_words(turned(pair.split))}"
    return f"in {pair.a.name}, {tell_words(pair.split)}"


def _alone(trunk: Trunk) -> list[Play]:
    """The plays that part alone from others which stay together."""
    return [b.plays[0] for b in trunk.branches if len(b.plays) == 1] if len(trunk.plays) > 2 else []
