"""What only the whole book can tell: names that must exist, names used twice, circles."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from itertools import islice

from generator.diagnostics import Location
from generator.model.book import fold_name
from generator.model.play import GoTo, Phase, Play, Read, Repeat, Start
from generator.parsing.findings import Findings
from generator.parsing.fingerprints import start_places
from generator.vocabulary.nearest import nearest

NO_HOLDER = ("rebound", "jump ball")  # the ball is in the air as the play begins
MOST_NAMES = 300  # compared for a suggestion; a book that holds more is answered in time all the same


@dataclass(slots=True)
class Known:
    """All plays and lead-ins that were read, sound or not, by folded name."""

    plays: dict[str, Play] = field(default_factory=dict)
    lead_ins: dict[str, Play] = field(default_factory=dict)
    alignments: Mapping[str, Start] = field(default_factory=dict)


def suggest(name: str, names: Iterable[str], otherwise: str) -> str:
    """The nearest of `names`, letter case free."""
    by_fold = {fold_name(n): n for n in islice(names, MOST_NAMES)}
    found = nearest(fold_name(name), tuple(by_fold))
    return f"did you mean `{by_fold[found[0]]}`?" if found else otherwise


def check_links(play: Play, known: Known, findings: Findings) -> None:
    """Every name in the play exists."""
    _check_start(play, known, findings)
    for ref in play.lead_ins:
        if fold_name(ref.name) not in known.lead_ins:
            hint = suggest(
                ref.name,
                (p.name for p in known.lead_ins.values()),
                "lead-ins stand in the folder lead-ins/, with the key `lead-in`",
            )
            findings.error(ref.source, "unknown-lead-in", f"there is no lead-in '{ref.name}'", hint)
    _check_roles(play, findings)
    inherited = _check_same_as(play, known, findings)
    phases = {fold_name(p.name): p.name for p in (*inherited, *play.phases) if isinstance(p, Phase)}
    for place, target in _targets(play.phases):
        _check_target(place, target, phases, known, findings)
    for number, phase in enumerate(play.phases):
        if isinstance(phase, Repeat):
            _check_repeat(play, number, phase, phases, findings)
    taken = {fold_name(p.name) for p in inherited if isinstance(p, Phase)}
    for phase in (p for p in play.phases if isinstance(p, Phase) and fold_name(p.name) in taken):
        findings.error(
            phase.source,
            "same-name",
            f"the phase '{phase.name}' is taken over from '{play.same_as.play}' already",
            "give this one another name",
        )


def _check_start(play: Play, known: Known, findings: Findings) -> None:
    start = play.start
    if start is None:
        return
    if start.alignment and fold_name(start.alignment) not in {fold_name(n) for n in known.alignments}:
        hint = suggest(
            start.alignment,
            known.alignments,
            "alignments are named in alignments.yml; or write `start: {1: top with the ball, ...}`",
        )
        findings.error(start.source, "unknown-alignment", f"there is no alignment '{start.alignment}'", hint)
        return
    places = start_places(start, known.alignments)
    holders = [p for p in places if p.with_ball]
    own = [p for p in start.places if p.with_ball]
    if len(holders) > 1 and len(own) != 1:
        first, second = holders[:2]
        findings.error(
            second.source,
            "two-balls",
            f"{first.player} and {second.player} both start with the ball",
            "write `with the ball` once",
        )
    missing = sorted(set(range(1, 6)) - {p.player for p in places})
    if missing and not any(a.rule == "fewer-than-five" for a in play.allow) and not findings.errors:
        said = " and ".join(map(str, missing))
        hint = f"add `{missing[0]}: left corner`, or `allow: {{fewer-than-five: REASON}}`"
        findings.error(start.source, "players", f"the start has no place for {said}", hint)
    elif places and not holders and play.situation not in NO_HOLDER and not findings.errors:
        message = f"nobody has the ball at the start: {places[0].player} gets it"
        findings.info(start.source, "start-ball", message, "write `with the ball` after a place to say otherwise")


def _check_roles(play: Play, findings: Findings) -> None:
    for a, b in play.also_for.items():
        if a == b or play.also_for.get(b, a) != a:
            findings.error(
                play.source,
                "pairs",
                f"`also for` gives {a} the jobs of {b}, which does not go both ways",
                f"write `also for: {{{min(a, b)}: {max(a, b)}}}` with two players",
            )
            return
    for ref in play.lead_ins:
        taken = {a: ref.roles.get(a, a) for a in range(1, 6)}
        if len(set(taken.values())) < 5:
            twice = next(b for b in taken.values() if list(taken.values()).count(b) > 1)
            both = [a for a, b in taken.items() if b == twice]
            message = f"in the lead-in '{ref.name}' {both[0]} and {both[1]} both take role {twice}"
            findings.error(
                ref.source, "pairs", message, f"say both ways, as in `{{{both[0]}: {twice}, {twice}: {both[0]}}}`"
            )


def ancestors(play: Play, known: Known) -> tuple[list[Play], bool]:
    """The plays that `same as` takes over, nearest first; True when they go in a circle."""
    found, seen = [], {fold_name(play.name)}
    while play.same_as:
        name = fold_name(play.same_as.play)
        if name in seen:
            return found, True
        seen.add(name)
        if name not in known.plays:
            return found, False
        play = known.plays[name]
        found.append(play)
    return found, False


def inherited_phases(play: Play, known: Known) -> tuple[Phase | Repeat, ...]:
    """The phases taken over by `same as`, through the whole chain; empty where a name is missing."""
    chain, circle = ancestors(play, known)
    if circle:
        return ()
    phases: tuple[Phase | Repeat, ...] = ()
    for older, child in zip(reversed(chain), [*reversed(chain[:-1]), play]):
        phases = _until((*phases, *older.phases), child.same_as.until)
    return phases


def _until(phases: tuple, until: str) -> tuple:
    names = [fold_name(p.name) if isinstance(p, Phase) else "" for p in phases]
    return phases[: names.index(fold_name(until))] if fold_name(until) in names else ()


def _check_same_as(play: Play, known: Known, findings: Findings) -> tuple[Phase | Repeat, ...]:
    if not play.same_as:
        return ()
    chain, circle = ancestors(play, known)
    if circle:
        names = " -> ".join(p.name for p in (play, *chain)) + f" -> {(chain or [play])[-1].same_as.play}"
        findings.error(
            play.same_as.source,
            "same-as",
            f"`same as` goes in a circle: {names}",
            "write the phases of one of them out",
        )
        return ()
    parent = known.plays.get(fold_name(play.same_as.play))
    if parent is None:
        hint = suggest(
            play.same_as.play,
            (p.name for p in known.plays.values() if p is not play),
            "write the play's name as after its key `play`",
        )
        findings.error(play.same_as.source, "same-as", f"there is no play '{play.same_as.play}'", hint)
        return ()
    names = [p.name for p in (*inherited_phases(parent, known), *parent.phases) if isinstance(p, Phase)]
    if fold_name(play.same_as.until) not in map(fold_name, names):
        hint = suggest(play.same_as.until, names, "its phases are " + ", ".join(names))
        findings.error(play.same_as.source, "same-as", f"'{parent.name}' has no phase '{play.same_as.until}'", hint)
    return inherited_phases(play, known)


def _targets(nodes: Iterable[Phase | Repeat]) -> Iterable[tuple[str, GoTo]]:
    for phase in nodes:
        if isinstance(phase, Phase):
            if phase.go_to:
                yield "phase", phase.go_to
            yield from _read_targets(phase.reads)


def _read_targets(reads: tuple[Read, ...]) -> Iterable[tuple[str, GoTo]]:
    for read in reads:
        for answer in read.answers:
            if answer.go_to:
                yield "answer", answer.go_to
            yield from _read_targets(answer.reads)


def _check_target(place: str, target: GoTo, phases: Mapping[str, str], known: Known, findings: Findings) -> None:
    name = fold_name(target.target)
    if name in ("next phase", "end") or name in phases or name in known.plays:
        return
    names = (*phases.values(), "next phase", "end", *(p.name for p in known.plays.values()))
    hint = suggest(target.target, names, "go to a phase of this play, `next phase`, `end`, or another play by its name")
    findings.error(target.source, "go-to", f"there is no phase or play '{target.target}'", hint)


def _check_repeat(play: Play, number: int, repeat: Repeat, phases: Mapping[str, str], findings: Findings) -> None:
    if fold_name(repeat.phase) not in phases:
        hint = suggest(repeat.phase, phases.values(), "its phases are " + ", ".join(phases.values()))
        findings.error(repeat.source, "repeat", f"there is no phase '{repeat.phase}' to repeat from", hint)
        return
    later = [
        p for p in play.phases[number + 1 :] if isinstance(p, Phase) and fold_name(p.name) == fold_name(repeat.phase)
    ]
    if later:
        findings.error(
            repeat.source, "repeat", f"'{repeat.phase}' stands below the repeat", "repeat from a phase above"
        )


def check_names(found: list[tuple[Play, Findings]], what: str) -> dict[str, Play]:
    """The first play of each name; a second one is an error at both."""
    names: dict[str, tuple[Play, Findings]] = {}
    for play, findings in found:
        first = names.setdefault(fold_name(play.name), (play, findings))
        if first[0] is not play:
            _twice(first, play, what)
            _twice((play, findings), first[0], what)
    return {name: play for name, (play, _) in names.items()}


def _twice(here: tuple[Play, Findings], other: Play, what: str) -> None:
    place: Location = other.source
    message = f"two {what} are called '{here[0].name}'; the other stands in {place.path}:{place.line}"
    here[1].error(here[0].source, "same-name", message, "give each its own name")
