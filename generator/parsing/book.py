"""Files of a book -> Book.

What is reported here and what later: everything that words, keys and names can tell is said here. Who has the ball,
who stands where, which event is meant, whether a branch ends: `settling`.
A play with an error is left out of the Book, and so is a play that continues it, but never its neighbours.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import PurePosixPath

from generator.diagnostics import Diagnostic, Location, Severity
from generator.model import nothing
from generator.model.book import Book, GamePlan, Team, fold_name
from generator.model.play import Play, Start
from generator.parsing import fields
from generator.parsing.context import Context
from generator.parsing.findings import Findings
from generator.parsing.fingerprints import play_fingerprint
from generator.parsing.game_file import Named, read_alignments, read_game
from generator.parsing.links import Known, ancestors, check_links, check_names, suggest
from generator.parsing.play_file import read_lead_in, read_play
from generator.parsing.team_file import coverage_trie, no_team, read_team
from generator.source import BookFile, MappingNode, compose
from generator.source.nodes import TextNode

TEAM, ALIGNMENTS, LEAD_INS, GAMES = "team.yml", "alignments.yml", "lead-ins", "games"


@dataclass(slots=True)
class _File:
    """One file on its way: its tree and the problems found in it."""

    path: str
    node: MappingNode | None
    findings: Findings = field(default_factory=Findings)
    draft: bool = False


def parse_book(files: Iterable[BookFile]) -> tuple[Book, tuple[Diagnostic, ...]]:
    """The book, and everything that words, keys and names can tell is wrong with it."""
    opened = [_open(f) for f in files]
    sorts: dict[str, list[_File]] = {TEAM: [], ALIGNMENTS: [], LEAD_INS: [], GAMES: [], "plays": []}
    for file in opened:
        if file.node:
            sorts[_sort(file)].append(file)
    team = _team(sorts[TEAM])
    alignments = _alignments(sorts[ALIGNMENTS])
    trie = coverage_trie(team)
    lead_ins = _plays(sorts[LEAD_INS], read_lead_in, trie)
    plays = _plays(sorts["plays"], read_play, trie)
    games = _games(sorts[GAMES], trie)
    known = Known(_names(plays, "plays"), _names(lead_ins, "lead-ins"), alignments)
    book = Book(team, alignments, _sound(lead_ins, known), _sound(plays, known), _linked_games(games, team, known))
    _check_stopwatch(team, known, sorts[TEAM])
    return book, _sorted(opened)


def _open(file: BookFile) -> _File:
    node, problems = compose(file.text, file.path)
    opened = _File(file.path, node if isinstance(node, MappingNode) else None)
    opened.findings.add(*problems)
    opened.findings.muted = frozenset(d.location.line for d in problems if d.rule in ("colon", "quotes"))
    if node is not None and opened.node is None:
        hint = "begin with `play: NAME` and the other keys, each on its own line"
        opened.findings.error(
            node.location, "shape", f"this file is {fields.kind_of_node(node)}, not keys with their values", hint
        )
    if opened.node:
        value = next((v for k, v in opened.node.entries if k.text == "draft"), None)
        opened.draft = isinstance(value, TextNode) and fields.fold(value.text) == "yes"
    return opened


def _sort(file: _File) -> str:
    """Which kind of file this is: by its name and folder, else by its first keys."""
    path = PurePosixPath(file.path)
    stem = path.with_suffix(".yml").as_posix()
    if stem in (TEAM, ALIGNMENTS):
        return stem
    folder = path.parts[0] if len(path.parts) > 1 else ""
    keys = {fields.fold(k.text).replace("-", " ") for k, _ in file.node.entries}
    if folder in (LEAD_INS, GAMES) and "play" not in keys:
        return folder
    if "play" not in keys and "lead in" in keys:
        return LEAD_INS
    if "play" not in keys and {"against", "date"} <= keys:
        return GAMES
    return "plays"


def _team(files: list[_File]) -> Team:
    return read_team(files[0].node, files[0].findings) if files else no_team()


def _alignments(files: list[_File]) -> Mapping[str, Start]:
    return read_alignments(files[0].node, files[0].findings) if files else nothing()


Read = list[tuple[_File, Play]]


def _plays(files: list[_File], reader, trie: dict) -> Read:
    found = []
    for file in files:
        play = reader(file.node, Context(file.findings, trie))
        if play:
            found.append((file, play))
    return found


def _names(read: Read, what: str) -> dict[str, Play]:
    return check_names([(play, file.findings) for file, play in read], what)


def _sound(read: Read, known: Known) -> tuple[Play, ...]:
    """The plays without errors, with their fingerprints."""
    for file, play in read:
        check_links(play, known, file.findings)
    broken = {fold_name(play.name) for file, play in read if file.findings.errors}
    sound, prints = [], {}
    for file, play in read:
        if file.findings.errors:
            continue
        chain, _ = ancestors(play, known)
        bad = next((p for p in chain if fold_name(p.name) in broken), None)
        if bad:
            message = f"'{play.name}' continues '{bad.name}', which has errors"
            file.findings.error(play.same_as.source, "same-as", message, f"mend {bad.source.path} first")
            continue
        continued = ""
        for older in reversed(chain):
            continued = prints.setdefault(older.id, play_fingerprint(older, known.alignments, continued))
        sound.append(
            replace(play, fingerprint=prints.setdefault(play.id, play_fingerprint(play, known.alignments, continued)))
        )
    return tuple(sound)


def _games(files: list[_File], trie: dict) -> list[tuple[_File, GamePlan, Named, Named]]:
    found = []
    for file in files:
        plan, plays, absent = read_game(file.node, trie, file.findings)
        if plan:
            found.append((file, plan, plays, absent))
    return found


def _linked_games(games: list[tuple[_File, GamePlan, Named, Named]], team: Team, known: Known) -> tuple[GamePlan, ...]:
    people = {fields.fold(e.name): e.name for e in team.roster}
    sound: dict[str, tuple[_File, GamePlan]] = {}
    for file, plan, plays, absent in games:
        for name, place in plays:
            _check_planned(name, place, known, file.findings)
        for name, place in absent:
            if fields.fold(name) not in people:
                hint = suggest(name, people.values(), "write the name as in the roster of team.yml")
                file.findings.error(place, "roster", f"'{name}' is not in the roster", hint)
        twin = sound.get(plan.id)
        if twin:
            file.findings.error(
                plan.source, "same-name", f"{twin[0].path} is a plan for the same game", "keep one of them"
            )
        elif not file.findings.errors:
            sound[plan.id] = (file, plan)
    return tuple(plan for _, plan in sound.values())


def _check_planned(name: str, place: Location, known: Known, findings: Findings) -> None:
    play = known.plays.get(fold_name(name))
    if play is None:
        hint = suggest(name, (p.name for p in known.plays.values()), "write the play's name as after its key `play`")
        findings.error(place, "unknown-play", f"there is no play '{name}'", hint)
    elif play.draft or play.retired:
        what = "a draft" if play.draft else "retired"
        findings.warning(
            place,
            "unknown-play",
            f"'{name}' is {what}, so the players will not see it",
            f"remove `{'draft' if play.draft else 'retired'}: yes` there, or the name here",
        )


def _check_stopwatch(team: Team, known: Known, files: list[_File]) -> None:
    for name in team.stopwatch:
        if fold_name(name) not in known.plays:
            hint = suggest(
                name, (p.name for p in known.plays.values()), "write the play's name as after its key `play`"
            )
            files[0].findings.error(
                team.stopwatch_at.get(name, team.source), "unknown-play", f"`stopwatch` names '{name}', but there is no such play", hint
            )


def _sorted(files: list[_File]) -> tuple[Diagnostic, ...]:
    found: list[Diagnostic] = []
    for file in files:
        found += soften(file.findings.items) if file.draft else file.findings.items
    return tuple(sorted(found, key=Diagnostic.sort_key))


def soften(diagnostics: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """The problems of a draft: errors become warnings."""
    return tuple(replace(d, severity=Severity.WARNING) if d.severity is Severity.ERROR else d for d in diagnostics)
