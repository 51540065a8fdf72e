"""games/*.yml -> GamePlan, and alignments.yml."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from types import MappingProxyType

from generator.diagnostics import Location
from generator.model import nothing
from generator.model.book import GamePlan
from generator.model.identity import stable_id
from generator.model.play import Start
from generator.parsing import fields
from generator.parsing.findings import Findings
from generator.parsing.starts import read_start
from generator.parsing.team_file import coverage_id
from generator.source.nodes import MappingNode, Node, TextNode
from generator.vocabulary.coverages import COVERAGES
from generator.vocabulary.nearest import did_you_mean
from generator.vocabulary.words import plain_form

QUESTIONS = 10
_MOST_QUESTIONS = 100
Named = tuple[tuple[str, Location], ...]


def read_game(node: MappingNode, trie: dict, findings: Findings) -> tuple[GamePlan | None, Named, Named]:
    """The game plan; the play names and the roster names in it with their places, for the book to check."""
    keys = fields.read_fields(node, "game", "a game plan", findings) or {}
    against, day = fields.name(keys.get("against"), "against", findings), _date(keys.get("date"), findings)
    plays, absent = (
        fields.names(keys.get("plays"), "plays", findings),
        fields.names(keys.get("absent"), "absent", findings),
    )
    _twice(plays, "plays", findings)
    questions, only = _quiz(keys.get("quiz"), findings)
    plan = GamePlan(
        stable_id("game", day, fields.fold(against)),
        against,
        day,
        tuple(n for n, _ in plays),
        _weights(keys.get("coverages"), trie, findings),
        questions,
        tuple(n for n, _ in only),
        tuple(n for n, _ in absent),
        fields.text(keys.get("note"), "note", findings),
        fields.text(keys.get("staff-note"), "staff-note", findings),
        node.location,
    )
    return (plan if against and day else None), (*plays, *only), absent


def _twice(named: Named, key: str, findings: Findings) -> None:
    seen: dict[str, Location] = {}
    for value, place in named:
        first = seen.setdefault(fields.fold(value), place)
        if first is not place:
            findings.error(place, "twice", f"'{value}' stands in `{key}` twice", "keep one of them")


def _date(node: Node | None, findings: Findings) -> str:
    said = fields.text(node, "date", findings)
    if not said:
        return ""
    try:
        return date.fromisoformat(said).isoformat() if len(said) == 10 else _no_date(node, said, findings)
    except ValueError:
        return _no_date(node, said, findings)


def _no_date(node: Node, said: str, findings: Findings) -> str:
    findings.error(
        node.location, "date", f"'{said[:40]}' is no date", "write year, month and day, as in `date: 2026-12-04`"
    )
    return ""


def _weights(node: Node | None, trie: dict, findings: Findings) -> Mapping[str, float]:
    if node is None:
        return nothing()
    if not isinstance(node, MappingNode):
        findings.error(
            node.location, "shape", "`coverages` needs a weight for each", "write `coverages: {hedge: 3, switch: 1}`"
        )
        return nothing()
    weights: dict[str, float] = {}
    for key, value in node.entries:
        id_ = coverage_id(key.text, trie)
        said = fields.text(value, key.text, findings)
        wrong = _wrong_weight(key, value, id_, said, weights)
        if wrong is not None:
            findings.error(*wrong)
        elif said:
            weights[id_] = float(said)
    return MappingProxyType(weights)


def _wrong_weight(key: TextNode, value: Node, id_: str | None, said: str, weights: Mapping[str, float]) -> tuple | None:
    """Where, by which rule, what and what instead, of a row that is no coverage with a weight; a missing weight is told already."""
    if id_ is None:
        names = tuple(plain_form(w) for c in COVERAGES for w in c.words)
        hint = did_you_mean(key.text, names) or "the handbook's language page has all coverages"
        return key.location, "coverage", f"'{key.text[:40]}' is no coverage", hint
    if said and not _is_weight(said):
        return value.location, "number", f"'{said[:40]}' is no weight for {key.text}", "write a number over 0, as in `hedge: 3`"
    if said and id_ in weights:
        return key.location, "twice", f"'{key.text}' is weighed twice: another key means the same", "keep one of them"
    return None


def _is_weight(said: str) -> bool:
    return said.isascii() and said.replace(".", "", 1).isdigit() and 0 < float(said) <= 1000


def _quiz(node: Node | None, findings: Findings) -> tuple[int, Named]:
    if node is None:
        return QUESTIONS, ()
    keys = fields.read_fields(node, "quiz", "`quiz`", findings) or {}
    return fields.count(keys.get("questions"), "questions", QUESTIONS, _MOST_QUESTIONS, findings), fields.names(
        keys.get("plays"), "plays", findings
    )


def read_alignments(node: MappingNode, findings: Findings) -> Mapping[str, Start]:
    """Alignments by name."""
    found: dict[str, Start] = {}
    for key, value in node.entries:
        if findings.full:
            break
        name = " ".join(key.text.split())
        if not isinstance(value, MappingNode):
            findings.error(
                value.location,
                "shape",
                f"the alignment '{name}' needs a place for each player",
                "write `box: {1: top, 2: left elbow, ...}`",
            )
            continue
        start = read_start(value, findings)
        if start and start.alignment:
            findings.error(
                value.location, "alignment", f"the alignment '{name}' is told by another", "write its five places"
            )
        elif start:
            _five(start, name, key.location, findings)
            found[name] = start
    return MappingProxyType(found)


def _five(start: Start, name: str, place: Location, findings: Findings) -> None:
    missing = sorted(set(range(1, 6)) - {p.player for p in start.places})
    if missing and not findings.errors:
        said = " and ".join(map(str, missing))
        findings.error(
            place, "players", f"the alignment '{name}' has no place for {said}", f"add `{missing[0]}: left corner`"
        )
