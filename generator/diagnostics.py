"""What is wrong with a book, as values: where, how bad, which rule, and what to write instead.

Every stage returns `(result, diagnostics)`. A coach's mistake is never an exception.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import NamedTuple


class Location(NamedTuple):
    """A place in a file of the book; line and column count from 1, path is relative to the book's folder."""

    path: str
    line: int
    column: int


class Severity(Enum):
    """Errors stop publishing, warnings do not, infos only inform."""

    ERROR = "error"
    WARNING = "warning"
    INFO = "info"


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One problem: `message` says what is wrong in the coach's words, `hint` names the fix."""

    location: Location
    severity: Severity
    rule: str
    message: str
    hint: str = ""

    def sort_key(self) -> tuple:
        """Order for printing: by file, then by place in it."""
        return (self.location, self.severity.value, self.rule, self.message)


def error(location: Location, rule: str, message: str, hint: str = "") -> Diagnostic:
    """A problem that stops publishing."""
    return Diagnostic(location, Severity.ERROR, rule, message, hint)


def warning(location: Location, rule: str, message: str, hint: str = "") -> Diagnostic:
    """A problem the coach should look at; publishing goes on."""
    return Diagnostic(location, Severity.WARNING, rule, message, hint)


def info(location: Location, rule: str, message: str, hint: str = "") -> Diagnostic:
    """Something worth knowing."""
    return Diagnostic(location, Severity.INFO, rule, message, hint)


def has_errors(diagnostics: tuple[Diagnostic, ...]) -> bool:
    """True when at least one diagnostic stops publishing."""
    return any(d.severity is Severity.ERROR for d in diagnostics)


def format_diagnostic(diagnostic: Diagnostic) -> str:
    """`file:line:col: severity: message [rule]`, and the hint on a line of its own."""
    path, line, column = diagnostic.location
    head = f"{path}:{line}:{column}: {diagnostic.severity.value}: {diagnostic.message} [{diagnostic.rule}]"
    return f"{head}\n    {diagnostic.hint}" if diagnostic.hint else head
