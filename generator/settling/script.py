"""Makes one straight script of a play in one version: `same as` taken over, lead-ins in front, renamed, mirrored.

In: Play, Book, Variant; out: Script: an explicit start, phases in order, the play as it is run. All of it happens on
the model (model/transform.py), so that whatever follows knows one plain play.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from generator.diagnostics import Location
from generator.model.book import Book, fold_name
from generator.model.play import LeadInRef, Phase, Play, Repeat, Rule, Start, StartPlace
from generator.model.settled import Variant
from generator.model.transform import inverse, mirror, rename, swaps
from generator.settling.problems import Problems

PLAYERS = (1, 2, 3, 4, 5)


@dataclass(frozen=True, slots=True)
class ScriptPhase:
    """A phase (or repeat) with the lead-in it belongs to ("" for the play's own)."""

    phase: Phase | Repeat
    lead_in: str = ""
    rules: tuple[Rule, ...] = ()


@dataclass(frozen=True, slots=True)
class Joint:
    """The play's own start must fit where the lead-in ends; `at` is the index of the phase that follows the joint."""

    at: int
    start: Start
    name: str
    follows: str
    source: Location


@dataclass(frozen=True, slots=True)
class Script:
    """`play` as run (renamed, mirrored); `start` holds five explicit places; `joints` where parts meet."""

    play: Play
    start: Start
    phases: tuple[ScriptPhase, ...]
    joints: tuple[Joint, ...] = ()


def write_script(play: Play, book: Book, variant: Variant, problems: Problems) -> Script | None:
    """The script of this version; None when it cannot be written (the problems say why)."""
    whole = _with_same_as(play, book, problems, ())
    if whole is None:
        return None
    start = _explicit(whole, book, problems)
    if start is None:
        return None
    whole = replace(whole, start=start)
    roles = swaps(variant.run_for) if variant.run_for else {}
    if roles:
        whole = rename(whole, roles)
    if variant.mirrored:
        whole = mirror(whole)
    return _with_lead_ins(whole, book, variant, roles, problems)


# -- same as ---------------------------------------------------------------------------------------------


def _with_same_as(play: Play, book: Book, problems: Problems, seen: tuple[str, ...]) -> Play | None:
    same = play.same_as
    if same is None:
        return play
    name = fold_name(same.play)
    if name in seen or name == fold_name(play.name):
        chain = " -> ".join((play.name, *seen[1:], same.play))
        problems.error(same.source, "same-as-circle", f"these plays are the same as each other: {chain}",
                       "one of them must bring its own start")
        return None
    other = book.play(same.play)
    if other is None:
        known = ", ".join(p.name for p in book.plays[:8])
        problems.error(same.source, "unknown-play", f"there is no play {same.play}", f"plays of this book: {known}")
        return None
    base = _with_same_as(other, book, problems, (*seen, fold_name(play.name)))
    if base is None:
        return None
    names = [fold_name(p.name) for p in base.phases if isinstance(p, Phase)]
    if fold_name(same.until) not in names:
        known = ", ".join(p.name for p in base.phases if isinstance(p, Phase))
        problems.error(same.source, "unknown-phase", f"{other.name} has no phase {same.until}", f"its phases are {known}")
        return None
    return _taken_over(play, base, fold_name(same.until))


def _taken_over(play: Play, base: Play, until: str) -> Play:
    before = []
    for phase in base.phases:
        if isinstance(phase, Phase) and fold_name(phase.name) == until:
            break
        before.append(phase)
    return replace(
        play, start=play.start or base.start, phases=(*before, *play.phases), same_as=None,
        lead_ins=play.lead_ins or base.lead_ins, rules=base.rules + play.rules,
        situation=play.situation if play.situation != "live" else base.situation,
        against=play.against if play.against != "man" else base.against,
        clock=play.clock if play.clock is not None else base.clock,
    )


# -- the start -------------------------------------------------------------------------------------------


def _explicit(play: Play, book: Book, problems: Problems) -> Start | None:
    """The start with its alignment written out, one place a player."""
    start = play.start
    if start is None:
        problems.error(play.source, "missing-start", f"{play.name} does not say where the five stand",
                       "write `start:` with an alignment or five places")
        return None
    places: dict[int, StartPlace] = {}
    if start.alignment is not None:
        named = {fold_name(n): a for n, a in book.alignments.items()}.get(fold_name(start.alignment))
        if named is None:
            known = ", ".join(book.alignments) or "none yet"
            problems.error(start.source, "unknown-alignment", f"there is no alignment {start.alignment}",
                           f"alignments of this book: {known}")
            return None
        places = {p.player: p for p in named.places}
    moved_ball = any(p.with_ball for p in start.places)
    if moved_ball:
        places = {n: replace(p, with_ball=False) for n, p in places.items()}
    for place in start.places:
        places[place.player] = place
    return replace(start, alignment=None, places=tuple(places.values()))


# -- lead-ins --------------------------------------------------------------------------------------------


def _with_lead_ins(play: Play, book: Book, variant: Variant, roles: Mapping[int, int], problems: Problems) -> Script | None:
    phases: list[ScriptPhase] = []
    joints: list[Joint] = []
    start = None
    for name in variant.lead_ins:
        ref = _reference(play, name)
        lead_in = _lead_in(ref, play, book, variant, problems)
        if lead_in is None:
            return None
        if start is None:
            start = lead_in.start
        else:
            joints.append(Joint(len(phases), lead_in.start, lead_in.name, phases[-1].lead_in, ref.source))
        phases += [ScriptPhase(p, lead_in.name, lead_in.rules) for p in lead_in.phases]
    if start is not None:
        last = _reference(play, variant.lead_ins[-1])
        joints.append(Joint(len(phases), play.start, play.name, phases[-1].lead_in if phases else last.name, last.source))
    phases += [ScriptPhase(p, "", play.rules) for p in play.phases]
    return Script(play, start or play.start, tuple(phases), tuple(joints))


def _reference(play: Play, name: str) -> LeadInRef:
    wanted = fold_name(name)
    found = next((r for r in play.lead_ins if fold_name(r.name) == wanted), None)
    return found or LeadInRef(name, source=play.source)


def _lead_in(ref: LeadInRef, play: Play, book: Book, variant: Variant, problems: Problems) -> Play | None:
    """The lead-in with the play's players in its roles, and mirrored with the play."""
    lead_in = book.lead_in(ref.name)
    if lead_in is None:
        known = ", ".join(p.name for p in book.lead_ins) or "none yet"
        problems.error(ref.source, "unknown-lead-in", f"there is no lead-in {ref.name}", f"lead-ins of this book: {known}")
        return None
    full = {p: ref.roles.get(p, p) for p in PLAYERS}
    if len(set(full.values())) < len(full):
        problems.error(ref.source, "roles-not-one-to-one", f"two players would take one role in {ref.name}",
                       "name both players of an exchange: `{1: 2, 2: 1}`")
        return None
    start = _explicit(lead_in, book, problems)
    if start is None:
        return None
    lead_in = rename(replace(lead_in, start=start), inverse(full))
    return mirror(lead_in) if variant.mirrored else lead_in
