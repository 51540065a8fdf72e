"""Look-alikes for pages: the lines of each play, the tree of each series.

A small book is compared as a whole. In a large one only the plays of a series are compared with each other: pairs grow
with the square of the book, and a series is what is meant to look alike. `secondside lookalikes` compares all.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from generator.lookalikes import Candidate, Trunk, alike_lines, half_seconds, lookalike_report, tell_words
from generator.model import nothing
from generator.model.book import fold_name
from generator.pages.addresses import url_of
from generator.pages.kept import Kept
from generator.pages.keys import digest
from generator.pages.views import Link, TrunkNode
from generator.timeline.timed import PlayTimes

WHOLE = 80  # plays up to which all are compared with all


@dataclass(frozen=True, slots=True)
class Alike:
    """`lines` by play id, `trees` by the series' folded name."""

    lines: Mapping[str, tuple[str, ...]] = field(default_factory=nothing)
    trees: Mapping[str, TrunkNode] = field(default_factory=nothing)


def alike(published: Sequence[PlayTimes], versions: Sequence[PlayTimes], keys: Mapping[str, str], kept: Kept) -> Alike:
    """`versions`: every version of the plays; others in it do not matter."""
    groups = [list(published)] if len(published) <= WHOLE else _by_series(published)
    others: dict[str, list[PlayTimes]] = {}
    for times in versions:
        if times.settled.variant.mirrored or times.settled.variant.run_for:
            others.setdefault(times.play.id, []).append(times)
    lines: dict[str, tuple[str, ...]] = {}
    trees: dict[str, TrunkNode] = {}
    for group in groups:
        found = _kept_group(group, others, keys, kept)
        lines.update(found.lines)
        trees.update(found.trees)
    return Alike(lines, trees)


def _by_series(published: Sequence[PlayTimes]) -> list[list[PlayTimes]]:
    groups: dict[str, list[PlayTimes]] = {}
    for times in published:
        if times.play.series:
            groups.setdefault(fold_name(times.play.series), []).append(times)
    return list(groups.values())


def _kept_group(
    group: Sequence[PlayTimes], others: Mapping[str, list[PlayTimes]], keys: Mapping[str, str], kept: Kept
) -> Alike:
    names = [keys.get(t.play.id, "") for t in group]
    if not all(names):
        return _compared(group, others)
    return kept.get(f"alike-{digest(*names)}", lambda: _compared(group, others))


def _compared(group: Sequence[PlayTimes], others: Mapping[str, list[PlayTimes]]) -> Alike:
    report = lookalike_report(tuple(Candidate(t, tuple(others.get(t.play.id, ()))) for t in group))
    return Alike(
        {t.play.id: alike_lines(report, t.play) for t in group},
        {fold_name(name): _node(tree) for name, tree in report.trees.items() if len(tree.plays) > 1},
    )


def _node(trunk: Trunk) -> TrunkNode:
    if trunk.until is None:
        links = tuple(Link(p.name, url_of(p.id)) for p in trunk.plays)
        return TrunkNode("alike to the end" if len(links) > 1 else "", "", links)
    count = {2: "Both", 3: "All three"}.get(len(trunk.plays), f"All {len(trunk.plays)}")
    at_once = trunk.until < 0.25
    label = f"{count} part at once" if at_once else f"{count} look alike for {half_seconds(trunk.until)}"
    tell = tell_words(trunk.pair.split) if trunk.pair else ""
    return TrunkNode(label, tell, (), tuple(map(_node, trunk.branches)))
