"""Finds and times the play that a command names."""

from __future__ import annotations

from difflib import get_close_matches
from pathlib import Path

import click

from generator.commands.check import located
from generator.diagnostics import format_diagnostic, has_errors
from generator.model.book import Book
from generator.model.settled import Variant
from generator.timeline.timed import PlayTimes

AS_WRITTEN = Variant()


def timed_play(folder: Path, name: str, variant: Variant = AS_WRITTEN) -> tuple[Book, PlayTimes]:
    """The book and the play's timelines; a usage error for an unknown name, exit 1 with the mistakes for a broken play."""
    from generator.pipeline import load_book, time_play

    book, mistakes = load_book(folder)
    play = book.play(name) or book.lead_in(name)
    if play is None:
        known = [p.name for p in (*book.plays, *book.lead_ins)]
        near = get_close_matches(name, known, 1, 0.5)
        broken = [d for d in mistakes if has_errors((d,))]
        hint = f" Did you mean {near[0]}?" if near else f" The book has: {', '.join(known) or 'no plays'}."
        hint += f" {len(broken)} errors keep plays out: run check." if broken else ""
        raise click.UsageError(f"no play is called {name}.{hint}")
    times, said = time_play(play, book, variant)
    if times is None:
        for diagnostic in located(said, folder):
            click.echo(format_diagnostic(diagnostic), err=True)
        raise SystemExit(1)
    return book, times
