"""`secondside build`: the open site, for this computer only."""

from __future__ import annotations

from pathlib import Path

import click
from rich.console import Console
from rich.progress import Progress, SpinnerColumn, TextColumn, TimeElapsedColumn

from generator.commands.check import as_text, located
from generator.diagnostics import Severity


@click.command()
@click.argument("book", type=click.Path(exists=True, file_okay=False, path_type=Path), default="plays")
@click.option("--out", type=click.Path(file_okay=False, path_type=Path), default="site", show_default=True, help="folder to write")
def command(book: Path, out: Path) -> None:
    """Build the open site of the BOOK folder. It is not locked: keep it on this computer, use `publish` for phones.

    Exit status: 0 built, 1 the book has errors and nothing was written, 2 usage."""
    from generator.mkdocs_plugin import BookErrors, Refused, build_site

    console = Console(stderr=True)
    columns = (SpinnerColumn(), TextColumn("{task.description}"), TextColumn("{task.fields[count]}"), TimeElapsedColumn())
    try:
        with Progress(*columns, console=console, transient=True) as progress:
            task = progress.add_task("reading the book", total=None, count="")

            def said(step: str, done: int, total: int) -> None:
                progress.update(task, description=step, count=f"{done} of {total}" if done else "")

            made = build_site(book, out, said)
    except BookErrors as stopped:
        click.echo(as_text(located(stopped.problems, book)), err=True)
        click.echo("Nothing was written: mend the errors first.", err=True)
        raise SystemExit(1) from None
    except Refused as stopped:
        raise click.UsageError(str(stopped)) from None
    warnings = sum(d.severity is Severity.WARNING for d in made.found)
    if warnings:
        click.echo(f"{warnings} warning{'' if warnings == 1 else 's'}: secondside check {book}", err=True)
    click.echo(f"{made.pages} pages in {out}")
    click.echo("This folder is open to anybody who gets it: for this computer only. Phones get what `secondside publish` locks.")
    click.echo(f"To look at it: python3 -m http.server --directory {out} 8000, then open http://127.0.0.1:8000/")
