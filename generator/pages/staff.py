"""Pages for staff: the handbook (language, privacy, checks, care), notes and findings. Never in menus, search or sitemap."""

from __future__ import annotations

from dataclasses import replace
from typing import Protocol

from markdown import markdown

from generator.clock import PlayClock, range_words
from generator.diagnostics import Diagnostic, Severity
from generator.model.book import Book
from generator.pages.addresses import fixed_page, url_of
from generator.pages.answer_key import answer_key
from generator.pages.care import care_view
from generator.pages.gather import Gathered
from generator.pages.kept import Kept
from generator.pages.keys import digest, program
from generator.pages.manual import rules_manual
from generator.pages.render import render, template_text
from generator.pages.site import Audience, SitePage
from generator.pages.views import Link, Section, StaffView
from generator.vocabulary.language_page import language_page

_PRIVACY = "Privacy"
_WEIGHTS = {Severity.ERROR: "Errors", Severity.WARNING: "Warnings", Severity.INFO: "Worth knowing"}


class StaffSource(Protocol):
    """What staff pages are made from."""

    book: Book
    diagnostics: tuple[Diagnostic, ...]


def staff_pages(computed: StaffSource, gathered: Gathered, kept: Kept) -> tuple[SitePage, ...]:
    """All staff pages; the first, `staff`, leads to the others."""
    inner = (
        ("notes", _notes(computed.book)),
        ("findings", _findings(computed.diagnostics)),
        ("clock", _clock(gathered.clocks)),
        ("answers", answer_key(computed.book, gathered.questions)),
        ("checks", rules_manual()),
        ("care", care_view()),
    )
    language = Link("The play language", url_of(fixed_page("staff language")), "Every key and every word, from the table the checker reads")
    privacy = Link(_PRIVACY, url_of(fixed_page("staff privacy")), "What the lock hides and what not, minors and names, cards and codes")
    links = (language, privacy, *(Link(view.title, url_of(fixed_page(f"staff {name}")), _sentence(view.lead)) for name, view in inner))
    up = Link("Staff", url_of(fixed_page("staff")))
    front = StaffView("Staff", "Only staff seats open these pages.", (), links)
    pages = (
        _text_page("staff language", "The play language", language_page(), up, kept),
        _text_page("staff privacy", _PRIVACY, template_text("handbook/privacy.md"), up, kept),
    )
    return (_page("staff", front), *pages, *(_page(f"staff {name}", replace(view, up=up)) for name, view in inner))


def _page(name: str, view: StaffView) -> SitePage:
    page_id = fixed_page(name)
    return SitePage(page_id, view.title, render("staff", view, page_id), Audience.STAFF)


def _text_page(name: str, title: str, text: str, up: Link, kept: Kept) -> SitePage:
    page_id = fixed_page(name)
    body = kept.get(f"text-{digest(program(), text)}", lambda: markdown(text, extensions=["tables"]))
    return SitePage(page_id, title, render("language", up, page_id, text=body), Audience.STAFF)


def _sentence(text: str) -> str:
    return text.split(". ", 1)[0].rstrip(".")


def _notes(book: Book) -> StaffView:
    games = tuple(
        Section(g.id, f"{g.against}, {g.date}", (g.staff_note,)) for g in book.games if g.staff_note
    )
    plays = tuple(Section(p.id, p.name, (p.staff_note,)) for p in book.plays if p.staff_note)
    return StaffView("Notes", "What the files say under staff-note.", games + plays)


def _clock(clocks: tuple[PlayClock, ...]) -> StaffView:
    head = ("Play", "Main line", "Longest branch", "On the clock", "Start by")
    rows = []
    for clock in clocks:
        for chain in clock.chains:
            name = " + ".join((*chain.lead_ins, clock.play.name))
            start = "" if chain.latest_start is None else "does not fit" if chain.fits == "no" else f"{chain.latest_start:g} s"
            shown = "" if clock.clock is None else f"{clock.clock:g} s"
            rows.append((name, range_words(chain.main), range_words(chain.worst), shown, start))
    text = ("The fastest clean run and a slower one; people wait and look. A stopwatch knows better.",)
    return StaffView("Clock", "How long every play takes and until when it can start.", (Section("all", "All plays", text, rows=(head, *rows)),))


def _findings(found: tuple[Diagnostic, ...]) -> StaffView:
    sections = []
    for severity, title in _WEIGHTS.items():
        mine = tuple(_finding(d) for d in found if d.severity is severity)
        if mine:
            sections.append(Section(severity.value, f"{title} ({len(mine)})", points=mine))
    nothing = (Section("nothing", "", ("Nothing found.",)),)
    return StaffView("Findings", "What the checks said about this book when it was built.", tuple(sections) or nothing)


def _finding(found: Diagnostic) -> tuple[str, str]:
    hint = f" ({found.hint})" if found.hint else ""
    return f"{found.location.path}:{found.location.line}:", f"{found.message}{hint} `{found.rule}`"
