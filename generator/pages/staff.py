"""Pages for staff: the handbook (language, privacy, checks, care), notes and findings. Never in menus, search or sitemap."""

from __future__ import annotations

from dataclasses import replace
from typing import Protocol

from markdown import markdown
from markdown.extensions.toc import TocExtension

from generator.clock import PlayClock, range_words
from generator.diagnostics import Diagnostic, Severity
from generator.model.book import Book, Team
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

_IDLE = "idle"
_IDLE_MEANS = "Nothing is wrong with them: their job in that phase is to hold the spacing, and their page says so. `3 stays` says that you mean it."
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
        ("clock", _clock(gathered.clocks, computed.book.team)),
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
    told = text.replace("\n## ", "\n[TOC]\n\n## ", 1)  # the way to each part stands after the lead
    body = kept.get(f"text-{digest(program(), told)}", lambda: markdown(told, extensions=["tables", TocExtension(toc_depth="2-2")]))
    return SitePage(page_id, title, render("language", up, page_id, text=body), Audience.STAFF)


def _sentence(text: str) -> str:
    return text.split(". ", 1)[0].rstrip(".")


def _notes(book: Book) -> StaffView:
    games = tuple(
        Section(g.id, f"{g.against}, {g.date}", (g.staff_note,)) for g in book.games if g.staff_note
    )
    plays = tuple(Section(p.id, p.name, (p.staff_note,)) for p in book.plays if p.staff_note)
    return StaffView("Notes", "What the files say under staff-note.", games + plays)


def _clock(clocks: tuple[PlayClock, ...], team: Team) -> StaffView:
    usual = team.shot_clock
    head = ("Play", "Start by", "Main line", "Longest branch")
    rows = []
    for clock in clocks:
        own = f" ({clock.clock:g} on the clock)" if clock.clock is not None and clock.clock != usual else ""
        for chain in clock.chains:
            name = " + ".join((*chain.lead_ins, clock.play.name)) + own
            start = "" if chain.latest_start is None else "does not fit" if chain.fits == "no" else f"{chain.latest_start:g}"
            rows.append((name, start, _seconds(chain.main), _seconds(chain.worst)))
    given = "There is no shot clock." if usual is None else f"The clock gives {usual:g}."
    text = (
        f"In seconds: the fastest clean run and a slower one, since people wait and look. {given} `Start by` is what the clock "
        "must still show. A stopwatch knows better.",
    )
    return StaffView("Clock", "How long every play takes and until when it can start.", (Section("all", "All plays", text, rows=(head, *rows)),))


def _seconds(length: float) -> str:
    return range_words(length).removesuffix(" s")


def _findings(found: tuple[Diagnostic, ...]) -> StaffView:
    sections = []
    for severity, title in _WEIGHTS.items():
        mine = tuple(_finding(d) for d in found if d.severity is severity and d.rule != _IDLE)
        if mine:
            sections.append(Section(severity.value, f"{title} ({len(mine)})", points=mine))
    idle = tuple((f"{d.location.path}:", d.message.rpartition(": ")[2]) for d in found if d.rule == _IDLE)
    if idle:
        sections.append(Section(_IDLE, f"Positions without a line ({len(idle)} files)", (_IDLE_MEANS,), idle, folded=True))
    nothing = (Section("nothing", "", ("Nothing found.",)),)
    return StaffView("Findings", "What the checks said about this book when it was built.", tuple(sections) or nothing)


def _finding(found: Diagnostic) -> tuple[str, str]:
    hint = f" ({found.hint})" if found.hint else ""
    return f"{found.location.path}:{found.location.line}:", f"{found.message}{hint} `{found.rule}`"
