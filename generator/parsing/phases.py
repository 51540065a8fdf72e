"""Phases and repeats."""

from __future__ import annotations

import re

from generator.model.identity import stable_id
from generator.model.play import Phase, Repeat
from generator.parsing import fields, notes
from generator.parsing.context import Context
from generator.parsing.lines import read_lines
from generator.parsing.reads import read_reads
from generator.source.nodes import MappingNode, Node

_ROUNDS = 10
_FROM = re.compile(r"(?:(mirrored)\s+)?from\s+(.+)\Z", re.IGNORECASE)


def read_phases(node: Node, context: Context) -> tuple[Phase | Repeat, ...]:
    """All phases in written order; names are unique."""
    findings = context.findings
    phases: list[Phase | Repeat] = []
    names: dict[str, Node] = {}
    for item in fields.items(node, "phases", findings):
        if findings.full:
            break
        if isinstance(item, MappingNode) and any(fields.fold(k.text) == "repeat" for k, _ in item.entries):
            phases += filter(None, [_repeat(item, context)])
            continue
        phase = _phase(item, context)
        if phase is None:
            continue
        first = names.setdefault(fields.fold(phase.name), item)
        if first is not item:
            for here, there in ((first, item), (item, first)):
                message = f"two phases are called '{phase.name}'; the other begins in line {there.location.line}"
                findings.error(here.location, "same-name", message, "give each its own name")
        phases.append(phase)
    return tuple(phases)


def _phase(node: Node, context: Context) -> Phase | None:
    findings = context.findings
    keys = fields.read_fields(node, "phase", "a phase", findings)
    if keys is None:
        return None
    name = fields.name(keys.get("name"), "name", findings)
    if fields.fold(name) in ("end", "next phase"):
        findings.error(
            keys["name"].location,
            "same-name",
            f"a phase cannot be called '{name}': `go to` uses that word",
            "choose another name",
        )
    id_ = stable_id("phase", *context.scope, fields.fold(name))
    lines = read_lines(keys["do"], "do", findings) if "do" in keys else ()
    event, relation = notes.when(keys.get("when"), findings)
    roles, by_place = notes.roles(keys.get("roles"), findings, True)
    if not keys.keys() & {"do", "reads"}:
        findings.error(node.location, "empty", f"nothing happens in the phase '{name}'", "add `do: [1 passes to 2]`")
    return Phase(
        id_,
        name,
        lines,
        read_reads(keys.get("reads"), id_, context),
        event,
        relation,
        notes.go_to(keys.get("go to"), findings),
        roles,
        by_place,
        fields.yes_no(keys.get("optional"), "optional", findings),
        notes.teach(keys.get("teach"), findings),
        notes.allow(keys.get("allow"), findings),
        source=node.location,
    )


def _repeat(node: MappingNode, context: Context) -> Repeat | None:
    findings = context.findings
    keys = fields.read_fields(node, "repeat", "a repeat", findings)
    value = keys.get("repeat") if keys else None
    said = fields.name(value, "repeat", findings)
    found = _FROM.match(said)
    times = fields.count(keys.get("times"), "times", 1, _ROUNDS, findings)
    until, (roles, _) = (
        fields.text(keys.get("until"), "until", findings),
        notes.roles(keys.get("roles"), findings, False),
    )
    if not found:
        if said:
            findings.error(
                value.location,
                "repeat",
                f"'{said[:40]}' does not say from where",
                "write `repeat: from PHASE` or `repeat: mirrored from PHASE`",
            )
        return None
    return Repeat(found[2], bool(found[1]), times, until, roles, source=node.location)
