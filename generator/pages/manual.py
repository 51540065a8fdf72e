"""The manual of all rules, made from where each rule stands (docstrings of checks, tables of the stages before them), so
that it cannot say anything else than they do."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from textwrap import dedent
from typing import Protocol

from generator.checks import CHECKS, Check
from generator.pages.manual_more import MORE
from generator.pages.views import Section, StaffView
from generator.pages.wording import capital
from generator.parsing.rules import RULES as FORM
from generator.settling.rules import RULES as SENSE

_PART = re.compile(r"^(What|Why|Passes|Fails|Source): ?", re.MULTILINE)
_EXAMPLES = {"Passes": "Passes", "Fails": "Is found"}
_WEIGHT = {
    "error": "an error: it stops publishing and cannot be allowed", "warning": "a warning", "info": "information only",
}
LEAD = (
    "Every rule the book is held to, by the name that stands in brackets behind each message. Silence a warning or an "
    "information with `allow: {rule: reason}` in the node it stands in; of the errors only in-bounds and lead-in-fit heed it."
)


class Entry(Protocol):
    """A rule as the stages before the checks keep it."""

    what: str
    why: str
    bad: str
    good: str
    severity: str


def rules_manual() -> StaffView:
    """Every rule id that any stage can say."""
    return manual_view(CHECKS, {**MORE, **SENSE, **FORM})


def manual_view(checks: Iterable[Check], entries: Mapping[str, Entry] = {}) -> StaffView:
    """One section a rule, in order of the alphabet; its anchor is the rule's id. A check's page comes before an entry."""
    sections = {rule: _entry(rule, entry) for rule, entry in entries.items()}
    sections |= {check.rule: _section(check) for check in checks}
    return StaffView("Checks", LEAD, tuple(sections[rule] for rule in sorted(sections)))


def _entry(rule: str, entry: Entry) -> Section:
    points = (("Why:", entry.why), ("Weight:", capital(_WEIGHT[entry.severity]) + "."))
    examples = ((_EXAMPLES["Passes"], entry.good), (_EXAMPLES["Fails"], entry.bad)) if entry.bad else ()
    return Section(rule, rule, (entry.what,), points, examples, folded=True)


def _section(check: Check) -> Section:
    head, parts = parts_of(check.page)
    examples = tuple((label, parts[name]) for name, label in _EXAMPLES.items() if name in parts)
    return Section(check.rule, check.rule, (head,), tuple(_prose(parts)), examples, folded=True)


def _prose(parts: dict[str, str]) -> Iterator[tuple[str, str]]:
    return ((f"{name}:", capital(" ".join(text.split()))) for name, text in parts.items() if name not in _EXAMPLES)


def parts_of(page: str) -> tuple[str, dict[str, str]]:
    """(what the rule finds, its parts by name) of a manual page. The first line is `rule: what it finds.`"""
    head, *rest = _PART.split(page)
    named = dict(zip(rest[::2], rest[1::2], strict=True))
    title = head.strip().split(": ", 1)[-1]
    return capital(title), {name: dedent(text.strip("\n")).rstrip() for name, text in named.items()}
