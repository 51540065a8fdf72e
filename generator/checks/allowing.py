"""`allow: {rule: reason}` for what the stages before the checks say, found by place in the file.

In: warnings and infos with their places, plays and lead-ins; out: those that no node around them allows. A node reaches
from its first line to the line before the next node of its kind. Errors are never silenced here: such a play has no
timeline.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.diagnostics import Diagnostic, Severity, error
from generator.model.play import Allow, Phase, Play, Read, Repeat
from generator.vocabulary.nearest import did_you_mean

Node = tuple[str, int, float, tuple[Allow, ...]]  # path, first line, line after the last, what is allowed there


def heed_allow(found: Iterable[Diagnostic], plays: Iterable[Play]) -> tuple[Diagnostic, ...]:
    """`found` without the warnings and infos that the play, phase or read around them allows."""
    nodes = [node for play in plays for node in _nodes(play)]
    return tuple(d for d in found if d.severity is Severity.ERROR or not _allowed(d, nodes))


def unknown_allows(plays: Iterable[Play], known: Iterable[str]) -> tuple[Diagnostic, ...]:
    """`allow` with the name of no rule: it would silence nothing, and nobody would notice."""
    names = tuple(sorted(known))
    hint = "the name stands in brackets behind each message"
    return tuple(
        error(a.source, "allow", f"'{a.rule}' is no rule that could be allowed", did_you_mean(a.rule, names, hint))
        for play in plays for a in dict.fromkeys(_all(play)) if a.rule not in names and a.source.path == play.source.path
    )


def _all(play: Play) -> Iterator[Allow]:
    yield from play.allow
    for phase in play.phases:
        if isinstance(phase, Phase):
            yield from phase.allow
            for read in phase.reads:
                yield from _in_read(read)
    for rule in play.rules:
        if rule.read is not None:
            yield from _in_read(rule.read)


def _in_read(read: Read) -> Iterator[Allow]:
    yield from read.allow
    for answer in read.answers:
        for nested in answer.reads:
            yield from _in_read(nested)


def _allowed(said: Diagnostic, nodes: list[Node]) -> bool:
    return any(
        path == said.location.path and first <= said.location.line < last and any(a.rule == said.rule for a in allow)
        for path, first, last, allow in nodes
    )


def _nodes(play: Play) -> Iterator[Node]:
    """The play, its phases, its rules' reads and its reads at any depth, where something is allowed."""
    path, end = play.source.path, float("inf")
    if play.allow:
        yield path, 0, end, play.allow
    starts = sorted(p.source.line for p in (*play.phases, *play.rules) if p.source.path == path)
    for part in (*play.phases, *play.rules):
        if isinstance(part, Repeat) or part.source.path != path:
            continue  # taken over by `same as`: its own file decides
        last = min((line for line in starts if line > part.source.line), default=end)
        if isinstance(part, Phase) and part.allow:
            yield path, part.source.line, last, part.allow
        reads = part.reads if isinstance(part, Phase) else (part.read,) if part.read else ()
        yield from _nodes_of_reads(reads, last)


def _nodes_of_reads(reads: tuple[Read, ...], last: float) -> Iterator[Node]:
    for read, following in zip(reads, (*reads[1:], None)):
        end = following.source.line if following else last
        if read.allow:
            yield read.source.path, read.source.line, end, read.allow
        for answer in read.answers:
            yield from _nodes_of_reads(answer.reads, end)
