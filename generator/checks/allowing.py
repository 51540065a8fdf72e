"""`allow: {rule: reason}` for what the stages before the checks say, found by place in the file.

In: warnings and infos with their places, plays and lead-ins; out: those that no node around them allows. A node reaches
from its first line to the line before the next node of its kind. Errors are never silenced here: such a play has no
timeline.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.diagnostics import Diagnostic, Severity
from generator.model.play import Allow, Phase, Play


def heed_allow(found: Iterable[Diagnostic], plays: Iterable[Play]) -> tuple[Diagnostic, ...]:
    """`found` without the warnings and infos that the play, phase or read around them allows."""
    nodes = [node for play in plays for node in _nodes(play)]
    return tuple(d for d in found if d.severity is Severity.ERROR or not _allowed(d, nodes))


def _allowed(said: Diagnostic, nodes: list[tuple[str, int, float, tuple[Allow, ...]]]) -> bool:
    return any(
        path == said.location.path and first <= said.location.line < last and any(a.rule == said.rule for a in allow)
        for path, first, last, allow in nodes
    )


def _nodes(play: Play) -> Iterator[tuple[str, int, float, tuple[Allow, ...]]]:
    """(path, first line, line after the last, allow) of the play, its phases and its reads, where something is allowed."""
    path, end = play.source.path, float("inf")
    if play.allow:
        yield path, play.source.line, end, play.allow
    starts = [p.source.line for p in play.phases if p.source.path == path]
    for phase in play.phases:
        if not isinstance(phase, Phase) or phase.source.path != path:
            continue  # taken over by `same as`: its own file decides
        last = min((line for line in starts if line > phase.source.line), default=end)
        if phase.allow:
            yield path, phase.source.line, last, phase.allow
        reads = [r.source.line for r in phase.reads]
        for read in phase.reads:
            if read.allow:
                yield path, read.source.line, min((n for n in reads if n > read.source.line), default=last), read.allow
