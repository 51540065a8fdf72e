"""Reads, their answers, and the rules that look like them."""

from __future__ import annotations

from generator.model.identity import canonical, stable_id
from generator.model.play import Read, Rule
from generator.parsing import fields, notes
from generator.parsing.answers import read_answers
from generator.parsing.context import Context
from generator.parsing.lines import read_lines
from generator.parsing.watch_words import read_watch
from generator.source.nodes import Node


def read_reads(node: Node | None, scope: str, context: Context) -> tuple[Read, ...]:
    """The reads of a phase or an answer; `scope` is the id they hang on."""
    found = []
    for item in fields.items(node, "reads", context.findings):
        if context.findings.full:
            break
        keys = fields.read_fields(item, "read", "a read", context.findings)
        read = _read(keys, item, scope, context) if keys is not None else None
        if read and any(read.id == other.id for other in found):
            hint = "join their answers in one read, or put one inside an answer of the other"
            context.findings.error(item.location, "same-read", "the same player reads the same thing twice here", hint)
        elif read:
            found.append(read)
    return tuple(found)


def _read(keys: fields.Fields, node: Node, scope: str, context: Context) -> Read | None:
    findings = context.findings
    who = notes.who(keys.get("who"), findings)
    watch = notes.read_words(keys["watch"], "watch", findings, read_watch) if "watch" in keys else None
    event, relation = notes.when(keys.get("when"), findings)
    why, teach = fields.prose(keys.get("why"), "why", findings), notes.teach(keys.get("teach"), findings)
    allow = notes.allow(keys.get("allow"), findings)
    id_ = stable_id("read", scope, canonical(who), canonical(watch))
    answers = read_answers(keys.get("answers"), watch, id_, context, read_reads)
    if who is None or watch is None or answers is None:
        return None
    named = keys["who"].location
    return Read(id_, who, watch, answers, event, relation, why, teach, allow, source=node.location, who_source=named)


def read_rules(node: Node | None, scope: str, context: Context) -> tuple[Rule, ...]:
    """Rules: `when` + `do`, or the keys of a read."""
    found, findings = [], context.findings
    for item in fields.items(node, "rules", findings):
        keys = fields.read_fields(item, "rule", "a rule", findings)
        if keys is None:
            continue
        reading = keys.keys() & {"who", "watch", "answers"}
        if "do" in keys and reading:
            hint = "write `when` and `do`, or `who`, `watch` and `answers`"
            findings.error(item.location, "rule", "a rule has either `do` or answers", hint)
        elif reading:
            missing = [k for k in ("who", "watch", "answers") if k not in keys]
            for key in missing:
                findings.error(
                    item.location,
                    "missing-key",
                    f"this rule needs the key `{key}`",
                    "a rule that reads has `who`, `watch` and `answers`",
                )
            read = _read(keys, item, scope, context) if not missing else None
            if read:
                found.append(Rule(None, (), read, source=item.location))
        else:
            rule = _plain_rule(keys, item, context)
            if rule:
                found.append(rule)
    return tuple(found)


def _plain_rule(keys: fields.Fields, item: Node, context: Context) -> Rule | None:
    findings = context.findings
    for key, example in (("when", "when: anyone passes"), ("do", "do: [passer cuts to rim]")):
        if key not in keys:
            findings.error(item.location, "missing-key", f"a rule needs the key `{key}`", f"add `{example}`")
            return None
    for key in ("why", "teach", "allow"):
        if key in keys:
            findings.error(
                keys[key].location,
                "unknown-key",
                f"`{key}` belongs to rules that read",
                f"remove it, or put `{key}` on a phase",
            )
    event, _ = notes.when(keys["when"], findings, relations=False)
    lines = read_lines(keys["do"], "do", findings)
    return Rule(event, lines, None, source=item.location) if event else None
