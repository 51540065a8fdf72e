"""`secondside print`: paper, through the browser that is already on the machine."""

from __future__ import annotations

from pathlib import Path

import click

PAPERS = {"a4": "A4", "letter": "letter"}

_book = click.option(
    "--book", type=click.Path(exists=True, file_okay=False, path_type=Path), default="plays", show_default=True
)
_out = click.option("--out", type=click.Path(dir_okay=False, path_type=Path), required=True, help="FILE.pdf or FILE.html")
_paper = click.option("--paper", type=click.Choice(list(PAPERS), case_sensitive=False), default="a4", show_default=True)


@click.group(name="print")
def command() -> None:
    """Print a play, a series, a position's booklet, the bench card or a quiz as PDF (or HTML)."""


@command.command()
@click.argument("name")
@click.option("--position", type=click.IntRange(1, 5), help="only this position's jobs, his way standing out")
@click.option("--mirrored", is_flag=True, help="on the other side")
@_book
@_paper
@_out
def play(name: str, position: int | None, mirrored: bool, book: Path, paper: str, out: Path) -> None:
    """One PLAY: phases, jobs, reads."""
    from generator.commands._paper import Sheet, paper_play
    from generator.commands._plays import timed_play
    from generator.model.settled import Variant

    loaded, times = timed_play(book, name, Variant(mirrored=mirrored))
    sheet = Sheet()
    view = paper_play(times, loaded, sheet, position)
    _write("plays", out, paper, sheet, title=times.play.name, plays=(view,), position=position, team=loaded.team.name)


@command.command()
@click.argument("name")
@_book
@_paper
@_out
def series(name: str, book: Path, paper: str, out: Path) -> None:
    """All plays of a SERIES, each on a sheet of its own."""
    from generator.commands._paper import Sheet, paper_play
    from generator.model.book import fold_name
    from generator.pages.lists import series_of

    computed = _sound(book)
    known = list(dict.fromkeys(series_of(t.play) for t in computed.published))
    chosen = [t for t in computed.published if fold_name(series_of(t.play)) == fold_name(name)]
    if not chosen:
        raise click.UsageError(f"no series is called {name}. The book has: {', '.join(known) or 'none'}.")
    sheet = Sheet()
    views = tuple(paper_play(t, computed.book, sheet) for t in chosen)
    _write("plays", out, paper, sheet, title=series_of(chosen[0].play), plays=views, position=None, team=computed.book.team.name)


@command.command()
@click.argument("number", type=click.IntRange(1, 5))
@_book
@_paper
@_out
def position(number: int, book: Path, paper: str, out: Path) -> None:
    """The booklet of position NUMBER: his part of every play, his way standing out."""
    from generator.commands._paper import Sheet, paper_play

    computed = _sound(book)
    sheet = Sheet()
    views = tuple(paper_play(t, computed.book, sheet, number) for t in computed.published)
    _write(
        "plays", out, paper, sheet, title=f"Position {number}", plays=views, position=number, team=computed.book.team.name,
        booklet=True,
    )


@command.command()
@click.argument("game", default="")
@_book
@_paper
@_out
def bench(game: str, book: Path, paper: str, out: Path) -> None:
    """The bench card of a GAME plan (its opponent or date; without one: the latest)."""
    from generator.commands._paper import Sheet, bench_card

    computed = _sound(book)
    sheet = Sheet()
    card = bench_card(_game(computed.book, game), computed.book, computed.published, sheet)
    _write("bench", out, paper, sheet, title=f"Against {card.game.against}", card=card, team=computed.book.team.name)


@command.command()
@click.argument("game", default="")
@click.option("--position", type=click.IntRange(1, 5), help="only questions for this position")
@click.option("--questions", type=click.IntRange(1, 60), help="how many (default: as the game plan says)")
@_book
@_paper
@_out
def quiz(game: str, position: int | None, questions: int | None, book: Path, paper: str, out: Path) -> None:
    """A paper quiz for a GAME plan, with its key on a sheet of its own."""
    from generator.commands._paper import Sheet
    from generator.commands._paper_quiz import choose, paper_quiz, quiz_of_game
    from generator.pipeline import all_versions
    from generator.quiz import generate_questions

    computed = _sound(book)
    plan, sheet, versions = _game(computed.book, game), Sheet(), all_versions(computed)
    asked, _ = generate_questions(versions, computed.book, computed.book.team.name)
    chosen = choose(
        asked, questions or plan.quiz_questions, plan.id, quiz_of_game(plan, computed.book), plan.coverages, position or 0
    )
    if not chosen:
        raise click.ClickException("no question fits: the plan's plays have none for this position")
    title = f"Against {plan.against}" + (f", position {position}" if position else "")
    made = paper_quiz(title, plan.id, chosen, versions, computed.book, sheet)
    _write("quiz", out, paper, sheet, title=title, quiz=made, team=computed.book.team.name)


def _sound(folder: Path):
    """The computed book; its errors are said, its sound plays are printed all the same."""
    from generator.commands.check import tell_errors
    from generator.pipeline import load_and_compute

    computed = load_and_compute(folder)
    if errors := tell_errors(computed.diagnostics, folder):
        click.echo(f"{errors} errors: plays that could not be placed are left out.", err=True)
    if not computed.published:
        raise click.ClickException("the book has no play to print")
    return computed


def _game(book, wanted: str):
    """The game plan by opponent, date or id; the latest without a name."""
    from generator.model.book import fold_name
    from generator.pages.lists import latest_first

    games = latest_first(book.games)
    if not games:
        raise click.UsageError("the book has no game plan (games/DATE-OPPONENT.yml)")
    found = [g for g in games if not wanted or fold_name(wanted) in map(fold_name, (g.against, g.date, g.id))]
    if not found:
        raise click.UsageError(f"no game plan against {wanted}. The book has: {', '.join(g.against for g in games)}.")
    return found[0]


def _write(template: str, out: Path, paper: str, sheet, **values: object) -> None:
    from generator.commands._browser import find_browser, print_pdf
    from generator.commands._pages import paper_page

    kind = out.suffix.lower()
    if kind not in (".pdf", ".html"):
        raise click.UsageError(f"--out must end in .pdf or .html, not {out.name}")
    if kind == ".pdf":
        find_browser()
    html = paper_page(template, PAPERS[paper.lower()], sheet, **values)
    if kind == ".pdf":
        print_pdf(html, out)
    else:
        out.parent.mkdir(parents=True, exist_ok=True)
        part = out.with_suffix(".part")
        part.write_text(html, encoding="utf-8")
        part.replace(out)
    click.echo(str(out))
