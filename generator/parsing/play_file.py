"""A play's file and a lead-in's file -> Play."""

from __future__ import annotations

import re
from pathlib import PurePosixPath

from generator.model.identity import stable_id
from generator.model.play import Film, LeadInRef, Play, SameAs
from generator.parsing import fields, notes
from generator.parsing.context import Context
from generator.parsing.phases import read_phases
from generator.parsing.reads import read_rules
from generator.parsing.starts import EXAMPLE, read_start
from generator.source.nodes import MappingNode, Node
from generator.vocabulary.keys import AGAINST, SITUATIONS


def read_play(node: MappingNode, context: Context) -> Play | None:
    """The play of a file; None where it has no name. Problems are in the context."""
    findings = context.findings
    keys = fields.read_fields(node, "play", "a play", findings, needed=False) or {}
    name = fields.name(keys.get("play"), "play", findings)
    context.scope = ("play", fields.fold(name))
    same_as = _same_as(keys.get("same as"), findings)
    _needed(keys, node, same_as is not None or "same as" in keys, findings)
    scope = stable_id(*context.scope)
    play = Play(
        scope,
        name,
        read_start(keys["start"], findings) if "start" in keys else None,
        read_phases(keys["phases"], context) if "phases" in keys else (),
        series=fields.name(keys.get("series"), "series", findings),
        call=fields.name(keys.get("call"), "call", findings),
        signal=fields.text(keys.get("signal"), "signal", findings),
        purpose=fields.text(keys.get("purpose"), "purpose", findings),
        situation=fields.choice(keys.get("situation"), "situation", SITUATIONS, "live", findings),
        against=fields.choice(keys.get("against"), "against", AGAINST, "man", findings),
        clock=fields.seconds(keys.get("clock"), "clock", findings),
        lead_ins=_lead_ins(keys.get("lead-in"), findings),
        same_as=same_as,
        also_for=fields.pairs(keys.get("also for"), "also for", findings),
        interchangeable=_groups(keys.get("interchangeable"), findings),
        both_sides=fields.yes_no(keys.get("both sides"), "both sides", findings),
        rules=read_rules(keys.get("rules"), scope, context),
        teach=notes.teach(keys.get("teach"), findings),
        allow=notes.allow(keys.get("allow"), findings),
        draft=fields.yes_no(keys.get("draft"), "draft", findings),
        retired=fields.yes_no(keys.get("retired"), "retired", findings),
        film=_film(keys.get("film"), findings),
        staff_note=fields.text(keys.get("staff-note"), "staff-note", findings),
        folder=_folder(node),
        source=node.location,
    )
    return play if name else None


def read_lead_in(node: MappingNode, context: Context) -> Play | None:
    """The lead-in of a file."""
    findings = context.findings
    keys = fields.read_fields(node, "lead-in", "a lead-in", findings) or {}
    name = fields.name(keys.get("lead-in"), "lead-in", findings)
    context.scope = ("lead-in", fields.fold(name))
    lead_in = Play(
        stable_id(*context.scope),
        name,
        read_start(keys["start"], findings) if "start" in keys else None,
        read_phases(keys["phases"], context) if "phases" in keys else (),
        is_lead_in=True,
        call=fields.name(keys.get("call"), "call", findings),
        signal=fields.text(keys.get("signal"), "signal", findings),
        both_sides=fields.yes_no(keys.get("both sides"), "both sides", findings),
        allow=notes.allow(keys.get("allow"), findings),
        folder=_folder(node),
        source=node.location,
    )
    return lead_in if name else None


def _folder(node: MappingNode) -> str:
    folder = PurePosixPath(node.location.path).parent.as_posix()
    return "" if folder == "." else folder


def _needed(keys: fields.Fields, node: Node, continues: bool, findings) -> None:
    if "play" not in keys:
        findings.error(node.location, "missing-key", "a play needs the key `play`", "add `play: NAME`")
    if "start" not in keys and not continues:
        findings.error(node.location, "missing-key", "this play does not say where the five stand", EXAMPLE)
    if "start" in keys and continues:
        message = "`start` and `same as` both say where the five stand"
        findings.error(
            keys["start"].location, "same-as", message, "remove `start`: it comes from the play that is continued"
        )
    if "lead-in" in keys and continues:
        message = "`lead-in` and `same as` both say what comes before"
        findings.error(
            keys["lead-in"].location, "same-as", message, "remove `lead-in`: it comes from the play that is continued"
        )
    if not keys.keys() & {"phases", "rules"}:
        findings.error(
            node.location,
            "missing-key",
            "nothing happens in this play",
            "add `phases: [{name: Swing, do: [1 passes to 2]}]`",
        )


def _same_as(node: Node | None, findings) -> SameAs | None:
    said = fields.name(node, "same as", findings)
    if not said:
        return None
    found = re.match(r"(.+) until (.+)\Z", said, re.IGNORECASE)
    if not found:
        findings.error(
            node.location,
            "same-as",
            f"'{said[:60]}' does not say until which phase",
            "write `same as: PLAY until PHASE`",
        )
        return None
    return SameAs(found[1], found[2], source=node.location)


def _lead_ins(node: Node | None, findings) -> tuple[LeadInRef, ...]:
    found: list[LeadInRef] = []
    for item in fields.items(node, "lead-in", findings):
        if isinstance(item, MappingNode):
            for key, value in item.entries:
                found.append(
                    LeadInRef(
                        " ".join(key.text.split()),
                        fields.pairs(value, f"lead-in {key.text}", findings),
                        source=key.location,
                    )
                )
        elif fields.name(item, "lead-in", findings):
            found.append(LeadInRef(fields.name(item, "lead-in", findings), source=item.location))
    return tuple(found)


def _groups(node: Node | None, findings) -> tuple[tuple[int, ...], ...]:
    groups = (
        notes.group(item, "interchangeable", findings) for item in fields.items(node, "interchangeable", findings)
    )
    return tuple(g for g in groups if g)


def _film(node: Node | None, findings) -> tuple[Film, ...]:
    films = []
    for item in fields.items(node, "film", findings):
        keys = fields.read_fields(item, "film", "a film", findings)
        if keys is None:
            continue
        title, link = fields.text(keys.get("title"), "title", findings), fields.text(keys.get("link"), "link", findings)
        if link and not re.match(r"https?://[^\s]+\Z", link):
            findings.error(keys["link"].location, "link", f"'{link[:60]}' is no link", "a link begins with `https://`")
        elif title and link:
            films.append(Film(title, link))
    return tuple(films)
