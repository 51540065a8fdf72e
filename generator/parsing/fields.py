"""Nodes -> values of the simple types: texts, yes or no, numbers, choices, names."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

from generator.diagnostics import Location
from generator.model import nothing
from generator.model.play import Text
from generator.parsing.findings import Findings
from generator.source.nodes import ListNode, MappingNode, Node, TextNode
from generator.source.typography import plain
from generator.vocabulary.keys import ALSO, KEYS
from generator.vocabulary.nearest import did_you_mean

_NAMES = {mapping: tuple(k.name for k in keys) for mapping, keys in KEYS.items()}
_FOLDED = {mapping: {n.replace("-", " "): n for n in names} for mapping, names in _NAMES.items()}
_SECONDS = re.compile(r"(\d{1,4}(?:\.\d{1,2})?)(?: ?(?:s|sec|second|seconds))?\Z")
_SHAPE = re.compile(r"\d(?: \d){1,3}")
Fields = dict[str, Node]


def fold(text: str) -> str:
    """How short values compare: letter case, typographic marks and runs of spaces do not count."""
    return " ".join(plain(text).casefold().split())


def kind_of_node(node: Node) -> str:
    """What a node is, for messages."""
    return "a text" if isinstance(node, TextNode) else "a list" if isinstance(node, ListNode) else "keys and values"


def read_fields(node: Node, mapping: str, what: str, findings: Findings, needed: bool = True) -> Fields | None:
    """The values of a mapping by key name; unknown and missing keys are reported. None where it is no mapping."""
    if not isinstance(node, MappingNode):
        keys = ", ".join(f"`{k.name}`" for k in KEYS[mapping][:3])
        findings.error(
            node.location,
            "shape",
            f"{what} is written with keys such as {keys}, not as {kind_of_node(node)}",
            _shape_hint(mapping),
        )
        return None
    fields: Fields = {}
    folded = _FOLDED[mapping]
    for key, value in node.entries:
        name = folded.get(" ".join(plain(key.text).replace("-", " ").split()))
        if name is None:
            _unknown_key(key, value, mapping, what, findings)
        else:
            fields[name] = value
    if needed:
        for key in KEYS[mapping]:
            if key.needed and key.name not in fields:
                findings.error(
                    node.location, "missing-key", f"{what} needs the key `{key.name}`", f"add `{key.example}`"
                )
    return fields


def _shape_hint(mapping: str) -> str:
    return (
        "write " + ", ".join(f"`{k.example}`" for k in KEYS[mapping] if k.needed)
        if any(k.needed for k in KEYS[mapping])
        else ""
    )


def _unknown_key(key: TextNode, value: Node, mapping: str, what: str, findings: Findings) -> None:
    names = _NAMES[mapping]
    found = re.match(r"([\w -]+):(\S.*)\Z", key.text)
    if isinstance(value, TextNode) and not value.text and found:
        findings.error(
            key.location,
            "unknown-key",
            f"'{key.text}' lacks the space after its colon",
            f"write `{found[1]}: {found[2]}`",
        )
        return
    hint = did_you_mean(key.text, names)
    if not hint:
        shown = names if len(names) < 12 else names[:11] + ("...",)
        hint = "its keys are " + ", ".join(shown)
    findings.error(key.location, "unknown-key", f"'{key.text}' is no key of {what}", hint)


def text(node: Node | None, key: str, findings: Findings, empty: bool = False) -> str:
    """A text; "" where it is missing or none."""
    if node is None:
        return ""
    if not isinstance(node, TextNode):
        findings.error(
            node.location,
            "shape",
            f"`{key}` is a text, not {kind_of_node(node)}",
            "a text that contains `: ` or begins with `[` or `{` needs double quotes",
        )
        return ""
    value = node.text.strip()
    if not value and not empty:
        findings.error(node.location, "empty", f"`{key}` has no value", "write the value, or remove the key")
    return value


def prose(node: Node | None, key: str, findings: Findings) -> Text | None:
    """A text with its place."""
    value = text(node, key, findings)
    return Text(value, node.location) if value else None


def name(node: Node | None, key: str, findings: Findings) -> str:
    """A name on one line."""
    return " ".join(text(node, key, findings).split())


def yes_no(node: Node | None, key: str, findings: Findings) -> bool:
    """`yes` or `no`; no where it is missing."""
    value = text(node, key, findings)
    if not value or fold(value) in ("no", "yes"):
        return fold(value) == "yes"
    findings.error(node.location, "choice", f"`{key}` is `yes` or `no`, not '{value[:40]}'", f"write `{key}: yes`")
    return False


def _plain_choice(key: str, wanted: str) -> str:
    """The value meant by another way to write it: `2 3 zone` is `zone 2 3`."""
    shape = _SHAPE.search(wanted)
    pattern = _SHAPE.sub("#", wanted, count=1)
    meant = ALSO.get(key, {}).get(pattern)
    return meant.replace("#", shape[0] if shape else "#") if meant else wanted


def choice(node: Node | None, key: str, choices: tuple[str, ...], default: str, findings: Findings) -> str:
    """One of a closed set; letter case, spaces and hyphens do not count."""
    value = text(node, key, findings)
    if not value:
        return default
    wanted = fold(value).replace("-", " ")
    wanted = _plain_choice(key, wanted).replace("-", " ")
    for option in choices:
        if option.replace("-", " ") == wanted:
            return option
    hint = did_you_mean(fold(value), choices) or "it is " + ", ".join(choices[:8]) + (
        ", ..." if len(choices) > 8 else ""
    )
    findings.error(node.location, "choice", f"'{value[:40]}' is no value of `{key}`", hint)
    return default


def seconds(node: Node | None, key: str, findings: Findings) -> float | None:
    """`4 s` or `4`; more than 0, at most 9999."""
    value = text(node, key, findings)
    if not value:
        return None
    found = _SECONDS.match(fold(value))
    if not found or float(found[1]) <= 0:
        findings.error(
            node.location, "number", f"`{key}` is a number of seconds, not '{value[:40]}'", f"write `{key}: 4 s`"
        )
        return None
    return float(found[1])


def count(node: Node | None, key: str, default: int, most: int, findings: Findings) -> int:
    """A whole number from 1 to `most`."""
    value = text(node, key, findings)
    if not value:
        return default
    if value.isascii() and value.isdigit() and len(value) < 6 and 1 <= int(value) <= most:
        return int(value)
    findings.error(
        node.location,
        "number",
        f"`{key}` is a whole number from 1 to {most}, not '{value[:40]}'",
        f"write `{key}: {default}`",
    )
    return default


def player_number(node: Node, key: str, findings: Findings) -> int | None:
    """A position, 1 to 5; None where the text names none, which is reported."""
    value = text(node, key, findings)
    if value in ("1", "2", "3", "4", "5"):
        return int(value)
    if value:
        findings.error(node.location, "player", f"there is no player '{value[:40]}' in `{key}`", "players are 1 to 5")
    return None


def items(node: Node | None, key: str, findings: Findings) -> tuple[Node, ...]:
    """The items of a list; one text alone is a list of one."""
    if node is None:
        return ()
    if isinstance(node, ListNode):
        if not node.items:
            findings.error(node.location, "empty", f"`{key}` is an empty list", "write its items, or remove the key")
        return node.items
    if isinstance(node, TextNode) and not node.text.strip():
        findings.error(node.location, "empty", f"`{key}` has no value", "write the value, or remove the key")
        return ()
    return (node,)


def names(node: Node | None, key: str, findings: Findings) -> tuple[tuple[str, Location], ...]:
    """A list of names with their places."""
    found = ((name(item, key, findings), item.location) for item in items(node, key, findings))
    return tuple((value, place) for value, place in found if value)


def pairs(node: Node | None, key: str, findings: Findings) -> Mapping[int, int]:
    """`{3: 2}`: players to players, no player twice on either side."""
    if node is None:
        return nothing()
    if not isinstance(node, MappingNode) or not node.entries:
        findings.error(node.location, "shape", f"`{key}` needs players in pairs", f"write `{key}: {{3: 2}}`")
        return nothing()
    found: dict[int, int] = {}
    for left, right in node.entries:
        a, b = player_number(left, key, findings), player_number(right, key, findings)
        if a is None or b is None:
            continue
        if b in found.values():
            findings.error(
                right.location,
                "pairs",
                f"two players stand for {b} in `{key}`",
                "each player takes one role, each role one player",
            )
        found[a] = b
    return MappingProxyType(found)
