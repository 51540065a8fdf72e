"""`teach`, `allow`, `roles`, `go to`, `when`: keys that several mappings share."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import TypeVar

from generator.model import nothing
from generator.model.play import Allow, GoTo, Teach
from generator.model.sentence import Event, One
from generator.parsing import fields
from generator.parsing.event_words import RELATIONS, event
from generator.parsing.findings import Findings
from generator.parsing.who_words import DEFENDERS, WHO_HINT, name, one
from generator.parsing.words_of_line import Refused, Words, refusal
from generator.source.nodes import MappingNode, Node, TextNode

Value = TypeVar("Value")


def read_words(node: Node, key: str, findings: Findings, reader: Callable[[Words], Value]) -> Value | None:
    """What `reader` makes of a text; None where it is refused or no text."""
    if not fields.text(node, key, findings):
        return None
    try:
        words = Words(node)
        return reader(words)
    except Refused as refused:
        findings.add(refusal(node, refused))
        return None


def teach(node: Node | None, findings: Findings) -> tuple[Teach, ...]:
    """`{3: text, 2 and 4: text, everyone: text}`."""
    if node is None:
        return ()
    if not isinstance(node, MappingNode):
        findings.error(
            node.location,
            "shape",
            "`teach` says who it is for",
            "write `teach: {3: TEXT}` or `teach: {everyone: TEXT}`",
        )
        return ()
    found = []
    for key, value in node.entries:
        players = _group(key)
        if players is None:
            findings.error(
                key.location, "teach", f"'{key.text[:40]}' is nobody in `teach`", "write `3`, `2 and 4` or `everyone`"
            )
            continue
        words = fields.text(value, f"teach {key.text}", findings)
        if words:
            found.append(Teach(players, words, key.location))
    return tuple(found)


def _group(key: TextNode) -> tuple[int, ...] | None:
    said = fields.fold(key.text)
    if said == "everyone":
        return ()
    if not re.fullmatch(r"[1-5](?:(?:,| and|, and) ?[1-5])*", said):
        return None
    players = tuple(int(d) for d in re.findall(r"[1-5]", said))
    return tuple(sorted(players)) if len(set(players)) == len(players) else None


def group(node: Node, key: str, findings: Findings) -> tuple[int, ...] | None:
    """`2 and 3` as a list item."""
    said = fields.text(node, key, findings)
    players = _group(node) if said else None
    if said and (not players or len(players) < 2):
        findings.error(
            node.location, "players", f"'{said[:40]}' is no group of players in `{key}`", f"write `{key}: [2 and 3]`"
        )
        return None
    return players


def allow(node: Node | None, findings: Findings) -> tuple[Allow, ...]:
    """`{rule-id: reason}`."""
    if node is None:
        return ()
    if not isinstance(node, MappingNode):
        findings.error(
            node.location, "shape", "`allow` needs the check and the reason", "write `allow: {spacing: REASON}`"
        )
        return ()
    found = []
    for key, value in node.entries:
        reason = value.text.strip() if isinstance(value, TextNode) else ""
        if not reason:
            findings.error(
                key.location,
                "allow",
                f"`allow` gives no reason for '{key.text}'",
                f"write `allow: {{{key.text}: REASON}}`",
            )
            continue
        found.append(Allow("-".join(fields.fold(key.text).split()), reason, key.location))
    return tuple(found)


def go_to(node: Node | None, findings: Findings) -> GoTo | None:
    """A phase, `next phase`, `end` or a play, with `mirrored` after it."""
    said = fields.name(node, "go to", findings)
    if not said:
        return None
    bare = re.sub(r"\s+mirrored\Z", "", said, flags=re.IGNORECASE)
    target = fields.fold(bare) if fields.fold(bare) in ("next phase", "end") else bare
    return GoTo(target, bare != said, source=node.location)


def roles(node: Node | None, findings: Findings, by_place: bool) -> tuple[Mapping[int, int], bool]:
    """`{3: 1}`, or with `by_place` also the words `by place`."""
    if by_place and isinstance(node, TextNode) and fields.fold(node.text) == "by place":
        return nothing(), True
    if isinstance(node, TextNode) and fields.fold(node.text) == "by place":
        findings.error(node.location, "shape", "a repeat goes by place by itself", "leave `roles` out, or write `roles: {4: 3}`")
        return nothing(), False
    return fields.pairs(node, "roles", findings), False


def when(node: Node | None, findings: Findings, relations: bool = True) -> tuple[Event | None, str]:
    """An event with `as`, `after` or `before` before it (`as` if left out)."""
    if node is None:
        return None, ""

    def reader(words: Words) -> tuple[Event, str]:
        relation = "as"
        if words.peek() in RELATIONS:
            relation = RELATIONS[words.peek()].value
            if relation == "until" or not relations and relation != "as":
                raise words.refuse(
                    "when",
                    f"`{words.next_said()}` does not begin a `when`",
                    "write `when: as 2 catches`" if relations else "write `when: anyone passes`",
                )
            words.i += 1
        found = event(words, "when")
        if not words.at_end():
            raise words.refuse(
                "when", f"'{words.next_said()}' follows the event", "`when` holds one event, as in `as 2 catches`"
            )
        return found, relation

    return read_words(node, "when", findings, reader) or (None, "")


def who(node: Node | None, findings: Findings) -> One | None:
    """Who reads: a player or a role."""
    if node is None:
        return None

    def reader(words: Words) -> One:
        words.may_measure = False
        found = one(words)
        if found is None or not words.at_end():
            said = words.node.text.strip()[:40]
            raise words.refuse(
                "who",
                f"'{said}' is not one reader",
                "write one player or role, as in `who: 3`",
                0 if found is None else words.i,
            )
        if isinstance(found, DEFENDERS):
            raise words.refuse(
                "who",
                f"{name(found)} is a defender; our players read",
                "write `who: 3`, and the defender under `watch`",
                0,
            )
        return found

    return read_words(node, "who", findings, reader)


__all__ = ["WHO_HINT", "allow", "go_to", "group", "read_words", "roles", "teach", "when", "who"]
