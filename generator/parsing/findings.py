"""Gathers the problems of one file; stops counting where a coach would stop reading."""

from __future__ import annotations

import re
from dataclasses import replace

from generator.diagnostics import Diagnostic, Location, Severity, error, info, warning

FILE_LIMIT = 100  # problems a file
_LONGEST = 400  # characters of a message or a hint
_LONG_WORD = re.compile(r"([^\s'`]{40})[^\s'`]{20,}")


class Findings:
    """Diagnostics of one file in the order found. `full` tells the parsers to stop."""

    def __init__(self) -> None:
        self.items: list[Diagnostic] = []
        self.muted: frozenset[int] = frozenset()  # lines whose text could not be read as written

    @property
    def full(self) -> bool:
        """True when so many problems are known that more would not help."""
        return len(self.items) >= FILE_LIMIT

    @property
    def errors(self) -> int:
        """How many errors there are."""
        return sum(d.severity is Severity.ERROR for d in self.items)

    def add(self, *diagnostics: Diagnostic) -> None:
        """Keeps diagnostics made elsewhere."""
        for diagnostic in diagnostics:
            if diagnostic.location.line in self.muted:
                continue
            if len(self.items) < FILE_LIMIT:
                self.items.append(_brief(diagnostic))
            elif len(self.items) == FILE_LIMIT:
                hint = "mend those above first"
                self.items.append(
                    error(
                        diagnostic.location,
                        "too-many",
                        f"more than {FILE_LIMIT} problems in this file; the rest is not shown",
                        hint,
                    )
                )

    def error(self, location: Location, rule: str, message: str, hint: str = "") -> None:
        """A problem that stops publishing."""
        self.add(error(location, rule, message, hint))

    def warning(self, location: Location, rule: str, message: str, hint: str = "") -> None:
        """A problem to look at."""
        self.add(warning(location, rule, message, hint))

    def info(self, location: Location, rule: str, message: str, hint: str = "") -> None:
        """Information: nothing has to change."""
        self.add(info(location, rule, message, hint))


def _brief(diagnostic: Diagnostic) -> Diagnostic:
    """Quotes of endless words are cut, so that what is said stays readable."""
    if len(diagnostic.message) <= 100 and len(diagnostic.hint) <= 200:
        return diagnostic
    message, hint = (_LONG_WORD.sub(r"\1...", text)[:_LONGEST] for text in (diagnostic.message, diagnostic.hint))
    return replace(diagnostic, message=message, hint=hint)
