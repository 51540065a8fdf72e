"""Faults of reads that their text alone shows. In: script; out: diagnostics. Each is said once, whatever branch meets it."""

from __future__ import annotations

from collections.abc import Iterator

from generator.model.play import Answer, Phase, Read, WatchKind
from generator.settling.problems import Problems
from generator.settling.script import Script
from generator.settling.words import say_one
from generator.vocabulary.coverages import BALL_WHOLES

_NO_OTHERWISE = (WatchKind.OWN_CHOICE, WatchKind.BENCH)


def check_reads(script: Script, problems: Problems) -> None:
    """Answers that meet the same sight twice; a read that leaves something over and has no `otherwise`."""
    for read in all_reads(script):
        _sights_twice(read, problems)
        _needs_otherwise(read, problems)


def all_reads(script: Script) -> Iterator[Read]:
    """Every read of the script, nested ones too."""
    for step in script.phases:
        for rule in step.rules:
            if rule.read is not None:
                yield from _with_nested(rule.read)
        if isinstance(step.phase, Phase):
            for read in step.phase.reads:
                yield from _with_nested(read)


def _with_nested(read: Read) -> Iterator[Read]:
    yield read
    for answer in read.answers:
        for inner in answer.reads:
            yield from _with_nested(inner)


def _sights_twice(read: Read, problems: Problems) -> None:
    seen: dict[tuple, Answer] = {}
    for answer in read.answers:
        groups = answer.sights or ((),)
        for group in groups:
            if not group and read.watch.kind in _NO_OTHERWISE:
                continue
            key = tuple(sorted((say_one(s.one) if s.one else "", s.coverage, str(s.seconds)) for s in group))
            if key in seen and seen[key] is not answer:
                first = seen[key]
                problems.error(answer.source, "sight-twice", f"`{answer.key}` sees the same as `{first.key}` "
                               f"(line {first.source.line})", "take one of the two answers out, or narrow its key")
            seen.setdefault(key, answer)


def _needs_otherwise(read: Read, problems: Problems) -> None:
    if read.watch.kind in _NO_OTHERWISE or any(a.is_otherwise for a in read.answers):
        return
    keys = frozenset(s.coverage for a in read.answers for group in a.sights for s in group)
    if read.watch.kind is WatchKind.BALL and keys in BALL_WHOLES:
        return
    if read.watch.kind is WatchKind.CLOCK and _whole_clock(read):
        return
    problems.error(read.source, "otherwise-missing", "this read does not say what happens otherwise",
                   "add `otherwise: go on`")


def _whole_clock(read: Read) -> bool:
    spans = sorted((s.seconds[0] or 0.0, s.seconds[1] if s.seconds[1] is not None else float("inf"))
                   for a in read.answers for group in a.sights for s in group if s.seconds)
    reached = 0.0
    for low, high in spans:
        if low > reached + 1e-9:
            return False
        reached = max(reached, high)
    return reached == float("inf")
