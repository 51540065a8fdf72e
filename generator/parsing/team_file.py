"""team.yml -> Team."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from generator.diagnostics import Location
from generator.model import nothing
from generator.model.book import RosterEntry, Team
from generator.model.court import RuleSet
from generator.model.identity import stable_id
from generator.parsing import fields
from generator.parsing.findings import Findings
from generator.parsing.words_of_line import Refused, Words
from generator.source.nodes import MappingNode, Node, TextNode
from generator.vocabulary.keys import PACES, RULE_SETS
from generator.vocabulary.nearest import did_you_mean
from generator.vocabulary.table import COVERAGE_TRIE
from generator.vocabulary.words import add, forms, match, split_words

# Seconds; the rulebooks are cited in `checks/counts.py`. High school has a shot clock by state adoption only.
SHOT_CLOCKS: dict[RuleSet, float | None] = {
    RuleSet.INTERNATIONAL: 24.0,
    RuleSet.PROFESSIONAL: 24.0,
    RuleSet.COLLEGE: 30.0,
    RuleSet.HIGH_SCHOOL: None,
}
_PATH = "team.yml"


def no_team() -> Team:
    """The team of a book without team.yml."""
    return Team("Our team", shot_clock=SHOT_CLOCKS[RuleSet.INTERNATIONAL])


def read_team(node: MappingNode, findings: Findings) -> Team:
    """The team; what is wrong in the file falls back to its default."""
    keys = fields.read_fields(node, "team", "team.yml", findings) or {}
    rule_set = RuleSet(fields.choice(keys.get("rule set"), "rule set", RULE_SETS, "international", findings))
    return Team(
        fields.text(keys.get("team"), "team", findings) or "Our team",
        rule_set,
        women=fields.yes_no(keys.get("women"), "women", findings),
        pace=fields.choice(keys.get("pace"), "pace", PACES, "high school", findings),
        shot_clock=_shot_clock(keys.get("shot clock"), rule_set, findings),
        stopwatch=_stopwatch(keys.get("stopwatch"), findings),
        stopwatch_at=_stopwatch_at(keys.get("stopwatch")),
        screens=fields.choice(keys.get("screens"), "screens", ("on time", "wait until set"), "on time", findings),
        basket=fields.choice(keys.get("basket"), "basket", ("up", "down"), "up", findings),
        roster=_roster(keys.get("roster"), findings),
        calls=_calls(keys.get("calls"), findings),
        coverages=_coverages(keys.get("coverages"), findings),
        send_results_to=fields.text(keys.get("send results to"), "send results to", findings),
        full_names=fields.yes_no(keys.get("full names"), "full names", findings),
        source=node.location,
    )


def _shot_clock(node: Node | None, rule_set: RuleSet, findings: Findings) -> float | None:
    if node is None:
        return SHOT_CLOCKS[rule_set]
    if isinstance(node, TextNode) and fields.fold(node.text) == "none":
        return None
    return fields.seconds(node, "shot clock", findings)


def _entries(node: Node | None, key: str, example: str, findings: Findings) -> tuple[tuple[TextNode, Node], ...]:
    if node is None:
        return ()
    if isinstance(node, MappingNode):
        return node.entries
    findings.error(
        node.location, "shape", f"`{key}` is a mapping, not {fields.kind_of_node(node)}", f"write `{example}`"
    )
    return ()


def _stopwatch(node: Node | None, findings: Findings) -> Mapping[str, float]:
    found = {}
    for key, value in _entries(node, "stopwatch", "stopwatch: {PLAY: 13}", findings):
        seconds = fields.seconds(value, f"stopwatch {key.text}", findings)
        if seconds:
            found[" ".join(key.text.split())] = seconds
    return MappingProxyType(found) if found else nothing()


def _stopwatch_at(node: Node | None) -> Mapping[str, Location]:
    if not isinstance(node, MappingNode):
        return nothing()
    return MappingProxyType({" ".join(key.text.split()): key.location for key, _ in node.entries})


def _calls(node: Node | None, findings: Findings) -> Mapping[str, str]:
    found = {}
    for key, value in _entries(node, "calls", "calls: {fist: press after a made basket}", findings):
        meaning = fields.text(value, f"calls {key.text}", findings)
        if meaning:
            found[" ".join(key.text.split())] = meaning
    return MappingProxyType(found) if found else nothing()


def _coverages(node: Node | None, findings: Findings) -> Mapping[str, str]:
    found = {}
    for key, value in _entries(node, "coverages", "coverages: {spy: trail}", findings):
        said = fields.text(value, f"coverages {key.text}", findings)
        id_ = coverage_id(said) if said else None
        own = coverage_id(key.text)
        words = split_words(key.text)
        if said and id_ is None:
            findings.error(
                value.location,
                "coverage",
                f"'{said[:40]}' is no coverage",
                did_you_mean(said, _coverage_names()) or "the handbook's language page has all coverages",
            )
        elif not words or {"or", "and"} & set(words) or words == ["otherwise"]:
            findings.error(
                key.location,
                "coverage",
                f"'{key.text}' cannot be a coverage's name",
                "choose a word of your own, without `or` and `and`",
            )
        elif own and own != id_:
            findings.error(key.location, "coverage", f"'{key.text}' already means {own}", "choose a word of your own")
        elif id_ and not own:
            found[fields.fold(key.text)] = id_
    return MappingProxyType(found) if found else nothing()


def _coverage_names() -> tuple[str, ...]:
    from generator.vocabulary.coverages import COVERAGES
    from generator.vocabulary.words import plain_form

    return tuple(plain_form(w) for c in COVERAGES for w in c.words)


def coverage_id(said: str, trie: dict = COVERAGE_TRIE) -> str | None:
    """The coverage that `said` names as a whole."""
    try:
        words = Words(TextNode(said, Location("", 1, 1))).words
    except Refused:
        return None
    found = match(trie, words, 0)
    return found[0] if found and found[1] == len(words) else None


def coverage_trie(team: Team) -> dict:
    """The table's coverages and the team's own words."""
    if not team.coverages:
        return COVERAGE_TRIE
    trie = _copy(COVERAGE_TRIE)
    for word, id_ in team.coverages.items():
        for words in forms(word + "+" if word.isalpha() else word):
            if match(trie, words, 0) is None or match(trie, words, 0)[1] < len(words):
                add(trie, words, id_)
    return trie


def _copy(trie: dict) -> dict:
    return {k: _copy(v) if isinstance(v, dict) else v for k, v in trie.items()}


def _roster(node: Node | None, findings: Findings) -> tuple[RosterEntry, ...]:
    entries: dict[str, RosterEntry] = {}
    for item in fields.items(node, "roster", findings):
        keys = fields.read_fields(item, "roster", "a roster entry", findings)
        if keys is None:
            continue
        name = fields.name(keys.get("name"), "name", findings)
        number = fields.name(keys.get("number"), "number", findings)
        positions = _positions(keys.get("positions"), findings)
        key = stable_id("person", fields.fold(name))
        twin = entries.get(key)
        if twin:
            findings.error(
                item.location,
                "same-name",
                f"'{name}' stands in the roster twice; first in line {twin.source.line}",
                "add a letter or the number to one of them",
            )
        elif name:
            entries[key] = RosterEntry(key, name, number, positions, item.location)
    return tuple(entries.values())


def _positions(node: Node | None, findings: Findings) -> tuple[int, ...]:
    found = [fields.player_number(item, "positions", findings) for item in fields.items(node, "positions", findings)]
    return tuple(dict.fromkeys(p for p in found if p is not None))
