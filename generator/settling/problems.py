"""Gathers what is wrong, each place once per rule. In: diagnostics; out: a tuple of them.

Inside this package a line that makes no sense raises `Mistake`; the walker catches it, notes it and goes on with the
next line. It never leaves the package.
"""

from __future__ import annotations

from generator.diagnostics import Diagnostic, Location, Severity, error, info, warning


class Mistake(Exception):
    """A line cannot be settled; carries the diagnostic."""

    def __init__(self, diagnostic: Diagnostic):
        super().__init__(diagnostic.message)
        self.diagnostic = diagnostic


def mistake(location: Location, rule: str, message: str, hint: str = "") -> Mistake:
    """The exception for an error at `location`."""
    return Mistake(error(location, rule, message, hint))


def not_yet(location: Location, words: str) -> Mistake:
    """For a word that the grammar knows and settling does not."""
    return mistake(location, "not-yet", f"not understood yet: {words}", "say it with a verb of the language page")


class Problems:
    """Diagnostics in the order met; the same rule at the same place counts once, whatever branch met it again."""

    def __init__(self) -> None:
        self._found: dict[tuple[Location, str], Diagnostic] = {}
        self.muted = 0

    def add(self, diagnostic: Diagnostic) -> None:
        """Notes it unless muted or already known."""
        if not self.muted:
            self._found.setdefault((diagnostic.location, diagnostic.rule), diagnostic)

    def error(self, location: Location, rule: str, message: str, hint: str = "") -> None:
        """Notes an error."""
        self.add(error(location, rule, message, hint))

    def warn(self, location: Location, rule: str, message: str, hint: str = "") -> None:
        """Notes a warning."""
        self.add(warning(location, rule, message, hint))

    def tell(self, location: Location, rule: str, message: str, hint: str = "") -> None:
        """Notes an info."""
        self.add(info(location, rule, message, hint))

    @property
    def has_errors(self) -> bool:
        """True when an error was noted."""
        return any(d.severity is Severity.ERROR for d in self._found.values())

    def all(self) -> tuple[Diagnostic, ...]:
        """What was noted."""
        return tuple(self._found.values())
