"""Settles a play written in a test. `settled(lines)` for one phase on the usual start, `settled_book(files, name)` else."""

from __future__ import annotations

from generator.model.book import Book
from generator.model.court import court_for
from generator.model.settled import SettledPlay, Variant
from generator.model.spots import name_place
from generator.parsing import parse_book
from generator.settling import settle
from generator.settling.rules import STANDING
from generator.source import BookFile

AS_WRITTEN = Variant()
TEAM = "team: Fernhill\nrule set: international\n"


def book_of(files: dict[str, str]) -> Book:
    """A book of texts; the parser must find no fault."""
    given = {"team.yml": TEAM} | files
    book, found = parse_book([BookFile(path, text) for path, text in given.items()])
    assert [d for d in found if d.severity.value == "error"] == [], found
    return book


def play_text(phases: str | list[str], start: str = STANDING, head: str = "", name: str = "Test") -> str:
    """A play; a list of lines is one phase."""
    if isinstance(phases, list):
        phases = "  - name: Only\n    do:\n" + "".join(f"      - {line}\n" for line in phases)
    return f"play: {name}\n{head}start: {start}\nphases:\n{phases}"


def said(files: dict[str, str], name: str = "Test", variant: Variant = AS_WRITTEN):
    """What settling returns for one play of a book."""
    book = book_of(files)
    return settle(book.play(name), book, variant)


def settled_book(files: dict[str, str], name: str = "Test", variant: Variant = AS_WRITTEN) -> SettledPlay:
    """The settled play; errors fail the test."""
    found, problems = said(files, name, variant)
    assert found is not None, problems
    return found


def settled(phases: str | list[str], start: str = STANDING, head: str = "", variant: Variant = AS_WRITTEN) -> SettledPlay:
    """One play, settled."""
    return settled_book({"a.yml": play_text(phases, start, head)}, variant=variant)


def ends(found: SettledPlay, branch: int = 0) -> dict[int, str]:
    """Where each player stands at the end of a branch, in words."""
    court = court_for(book_of({}).team.rule_set)
    plan = found.branches[branch].phases[-1].end_plan
    return {p: name_place(court, at).words for p, at in plan.items()}
