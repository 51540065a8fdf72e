"""`allow` for what settling remarks. In: diagnostics, the play as written; out: those that no node silences.

A node reaches from its own line to the line before the next node of its kind. Errors are never silenced: a play that
cannot be settled cannot be shown.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.diagnostics import Diagnostic, Location, Severity
from generator.model.play import Phase, Play, Read

Span = tuple[str, str, int, float]  # rule, path, first line, last line


def without_allowed(found: tuple[Diagnostic, ...], play: Play) -> tuple[Diagnostic, ...]:
    """The diagnostics that are not allowed where they stand."""
    spans = list(_spans(play))
    return tuple(d for d in found if d.severity is Severity.ERROR or not any(_covers(s, d) for s in spans))


def _covers(span: Span, diagnostic: Diagnostic) -> bool:
    rule, path, first, last = span
    return diagnostic.rule == rule and diagnostic.location.path == path and first <= diagnostic.location.line <= last


def _spans(play: Play) -> Iterator[Span]:
    for allow in play.allow:
        yield allow.rule, play.source.path, 0, float("inf")
    begins = [p.source for p in play.phases]
    for phase, following in zip(play.phases, [*begins[1:], None]):
        if isinstance(phase, Phase):
            last = _before(following)
            for allow in phase.allow:
                yield allow.rule, phase.source.path, phase.source.line, last
            yield from _of_reads(phase.reads, last)


def _of_reads(reads: tuple[Read, ...], last: float) -> Iterator[Span]:
    ends = [*(_before(r.source) for r in reads[1:]), last]
    for read, end in zip(reads, ends):
        for allow in read.allow:
            yield allow.rule, read.source.path, read.source.line, end
        for answer in read.answers:
            yield from _of_reads(answer.reads, end)


def _before(following: Location | None) -> float:
    return following.line - 1 if following is not None else float("inf")
