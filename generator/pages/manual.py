"""The checks' manual, made from the docstrings of their modules, so that it cannot say anything else than they do."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from textwrap import dedent

from generator.checks import Check
from generator.pages.views import Section, StaffView
from generator.pages.wording import capital

_PART = re.compile(r"^(What|Why|Passes|Fails|Source): ?", re.MULTILINE)
_EXAMPLES = {"Passes": "Passes", "Fails": "Is found"}


def manual_view(checks: Iterable[Check]) -> StaffView:
    """One section a rule; its anchor is the rule's id."""
    return StaffView(
        "Checks",
        "Every rule the book is held to. Silence one with `allow: {rule: reason}` in the node it stands in.",
        tuple(map(_section, sorted(checks, key=lambda c: c.rule))),
    )


def _section(check: Check) -> Section:
    head, parts = parts_of(check.page)
    examples = tuple((label, parts[name]) for name, label in _EXAMPLES.items() if name in parts)
    return Section(check.rule, check.rule, (head,), tuple(_prose(parts)), examples)


def _prose(parts: dict[str, str]) -> Iterator[tuple[str, str]]:
    return ((f"{name}:", capital(" ".join(text.split()))) for name, text in parts.items() if name not in _EXAMPLES)


def parts_of(page: str) -> tuple[str, dict[str, str]]:
    """(what the rule finds, its parts by name) of a manual page. The first line is `rule: what it finds.`"""
    head, *rest = _PART.split(page)
    named = dict(zip(rest[::2], rest[1::2], strict=True))
    title = head.strip().split(": ", 1)[-1]
    return capital(title), {name: dedent(text.strip("\n")).rstrip() for name, text in named.items()}
