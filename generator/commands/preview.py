"""`secondside preview`: the book in a browser, built anew whenever a file is saved."""

from __future__ import annotations

import errno
from pathlib import Path

import click

from generator.commands._ending import ended_tidily
from generator.commands.check import as_text, located
from generator.diagnostics import Diagnostic, Severity


@click.command()
@click.argument("book", type=click.Path(exists=True, file_okay=False, path_type=Path), default="plays")
@click.option("--port", type=click.IntRange(1, 65535), default=8000, show_default=True, help="port on this computer")
def command(book: Path, port: int) -> None:
    """Show the BOOK folder in a browser of this computer; every saved file is there at once, errors in the page."""
    from generator.mkdocs_plugin import preview_site

    def told(found: tuple[Diagnostic, ...], pages: int) -> None:
        serious = tuple(d for d in found if d.severity is not Severity.INFO)
        if serious:
            click.echo(as_text(located(serious, book)))
        click.echo(f"{pages} pages at http://127.0.0.1:{port}/ (this computer only; Ctrl+C ends it)")

    try:
        with ended_tidily():
            preview_site(book, "127.0.0.1", port, told)
    except OSError as refused:
        if refused.filename or refused.errno == errno.ENOSPC:
            raise
        raise click.UsageError(f"port {port} cannot be used ({refused.strerror}): choose another with --port") from None
