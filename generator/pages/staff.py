"""Pages for staff: the handbook (language, checks, care), notes and findings. Never in menus, search or sitemap."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from generator.diagnostics import Diagnostic, Severity
from generator.model.book import Book
from generator.pages.addresses import fixed_page, url_of
from generator.pages.care import care_view
from generator.pages.parts import PlayParts
from generator.pages.render import render
from generator.pages.site import Audience, SitePage
from generator.pages.views import Link, Section, StaffView

_ORDER = {Severity.ERROR: 0, Severity.WARNING: 1, Severity.INFO: 2}


class StaffSource(Protocol):
    """What staff pages are made from."""

    book: Book
    diagnostics: tuple[Diagnostic, ...]


def staff_pages(computed: StaffSource, parts: Mapping[str, PlayParts]) -> tuple[SitePage, ...]:
    """All staff pages; the first, `staff`, leads to the others."""
    inner = (
        ("notes", _notes(computed.book)),
        ("findings", _findings(computed.diagnostics)),
        ("care", care_view()),
    )
    links = tuple(Link(view.title, url_of(fixed_page(f"staff {name}")), _sentence(view.lead)) for name, view in inner)
    front = StaffView("Staff", "Only staff seats open these pages.", (), links)
    return (_page("staff", front), *(_page(f"staff {name}", view) for name, view in inner))


def _page(name: str, view: StaffView) -> SitePage:
    page_id = fixed_page(name)
    return SitePage(page_id, view.title, render("staff", view, page_id), Audience.STAFF)


def _sentence(text: str) -> str:
    return text.split(". ")[0].rstrip(".")


def _notes(book: Book) -> StaffView:
    games = tuple(
        Section(g.id, f"{g.against}, {g.date}", (g.staff_note,)) for g in book.games if g.staff_note
    )
    plays = tuple(Section(p.id, p.name, (p.staff_note,)) for p in book.plays if p.staff_note)
    return StaffView("Notes", "What the files say under staff-note.", games + plays)


def _findings(found: tuple[Diagnostic, ...]) -> StaffView:
    rows = tuple(
        (d.severity.value, f"{d.location.path}:{d.location.line}", d.message + (f" ({d.hint})" if d.hint else ""), d.rule)
        for d in sorted(found, key=lambda d: (_ORDER[d.severity], d.sort_key()))
    )
    table = (("Weight", "Where", "What", "Rule"), *rows) if rows else ()
    text = () if rows else ("Nothing found.",)
    return StaffView("Findings", "What the checks said about this book when it was built.", (Section("all", "All", text, rows=table),))
