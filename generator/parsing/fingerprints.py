"""The fingerprint of a play: changes exactly when an action changes, not with texts, names of keys or files."""

from __future__ import annotations

from collections.abc import Mapping

from generator.model.identity import fingerprint
from generator.model.play import Answer, GoTo, Phase, Play, Read, Repeat, Rule, Start, WatchKind

_ORDERED = (WatchKind.OWN_CHOICE, WatchKind.BENCH)


def play_fingerprint(play: Play, alignments: Mapping[str, Start], continued: str = "") -> str:
    """A digest of what the five do. `continued` is the fingerprint of the play that `same as` takes over."""
    return fingerprint(
        start_places(play.start, alignments),
        play.situation,
        play.against,
        play.clock,
        tuple((r.name.casefold(), r.roles) for r in play.lead_ins),
        continued,
        play.same_as.until.casefold() if play.same_as else "",
        play.also_for,
        play.both_sides,
        tuple(map(_rule, play.rules)),
        tuple(_phase(p) for p in play.phases),
    )


def start_places(start: Start | None, alignments: Mapping[str, Start]) -> tuple:
    """The five places in order of players, the alignment's overridden by the play's own."""
    if start is None:
        return ()
    base = next(
        (a for n, a in alignments.items() if start.alignment and n.casefold() == start.alignment.casefold()), None
    )
    places = {p.player: p for p in (base.places if base else ())} | {p.player: p for p in start.places}
    return tuple(places[n] for n in sorted(places))


def _phase(phase: Phase | Repeat) -> tuple:
    if isinstance(phase, Repeat):
        return ("repeat", phase.phase.casefold(), phase.mirrored, phase.times, phase.roles)
    return (
        phase.lines,
        tuple(map(_read, phase.reads)),
        phase.when,
        phase.when_relation,
        _go_to(phase.go_to),
        phase.roles,
        phase.roles_by_place,
        phase.optional,
    )


def _go_to(go_to: GoTo | None) -> tuple:
    return (go_to.target.casefold(), go_to.mirrored) if go_to else ()


def _read(read: Read) -> tuple:
    answers = tuple(map(_answer, read.answers))
    if read.watch.kind in _ORDERED:
        answers = (*answers[:1], *sorted(answers[1:], key=lambda a: a[0]))
    else:
        answers = tuple(sorted(answers, key=lambda a: a[0]))
    return (read.who, read.watch, read.when, read.when_relation, answers)


def _answer(answer: Answer) -> tuple:
    return (answer.id, answer.lines, answer.go_on, tuple(map(_read, answer.reads)), _go_to(answer.go_to))


def _rule(rule: Rule) -> tuple:
    return (rule.when, rule.lines, _read(rule.read) if rule.read else "")
