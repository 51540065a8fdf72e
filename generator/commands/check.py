"""`secondside check`: every mistake of a book in one run."""

from __future__ import annotations

import json
import os
from dataclasses import replace
from pathlib import Path

import click

from generator.diagnostics import Diagnostic, Severity, format_diagnostic, has_errors

JSON_VERSION = 1
MANY = 5  # infos that push the rest off a screen


@click.command()
@click.argument("book", type=click.Path(exists=True, file_okay=False, path_type=Path), default="plays")
@click.option("--format", "style", type=click.Choice(["text", "json"]), default="text", help="text for people, json for programs")
@click.option("--quiet", is_flag=True, help="errors and warnings only")
@click.option("--editor", is_flag=True, help="also write what an editor needs to offer the keys, into `editor` beside the book")
def command(book: Path, style: str, quiet: bool, editor: bool) -> None:
    """Check the BOOK folder: what is wrong, where, and what to write instead.

    Exit status: 0 clean or warnings only, 1 errors, 2 usage."""
    from generator.pipeline import load_and_compute

    found = located(load_and_compute(book).diagnostics, book)
    if quiet:
        found = tuple(d for d in found if d.severity is not Severity.INFO)
    click.echo(as_json(found) if style == "json" else as_text(found))
    if editor:
        _for_editors(book.resolve().parent)
    raise SystemExit(1 if has_errors(found) else 0)


def _for_editors(folder: Path) -> None:
    """Writes the schemas of this version and tells, on the error stream, what to do with them."""
    from generator.starter import write_editor_files

    try:
        write_editor_files(folder)
    except OSError as refused:
        raise click.UsageError(f"{folder / 'editor'} cannot be written ({refused.strerror})") from None
    click.echo(f"{Path(os.path.relpath(folder)) / 'editor'}: one JSON Schema for each kind of file, of this version.", err=True)
    click.echo("Name it in your editor's settings for YAML, or in the first line of a file, for a play in a folder of its series:", err=True)
    click.echo("  # yaml-language-server: $schema=../../editor/play.json", err=True)


def located(found: tuple[Diagnostic, ...], book: Path) -> tuple[Diagnostic, ...]:
    """Diagnostics with paths from the current folder, as an editor wants them."""
    return tuple(replace(d, location=d.location._replace(path=from_here(d.location.path, book))) for d in found)


def from_here(path: str, book: Path) -> str:
    """A file of the book, as a path from the current folder."""
    folder = Path(os.path.relpath(book)) if book.is_absolute() else book
    return (folder / path).as_posix()


def tell_errors(found: tuple[Diagnostic, ...], book: Path) -> int:
    """Prints what stops publishing on the error stream, for verbs that go on with the sound plays; how many there were."""
    errors = [d for d in located(found, book) if d.severity is Severity.ERROR]
    for diagnostic in errors:
        click.echo(format_diagnostic(diagnostic), err=True)
    return len(errors)


def as_text(found: tuple[Diagnostic, ...]) -> str:
    """One block a problem, then a line that counts them. The grave ones come last: there a terminal stands still."""
    count = {s: sum(d.severity is s for d in found) for s in Severity}
    total = ", ".join(f"{count[s]} {s.value}{'' if count[s] == 1 else 's'}" for s in Severity)
    more = " (--quiet leaves infos out)" if count[Severity.INFO] > MANY else ""
    by_weight = sorted(found, key=lambda d: list(Severity).index(d.severity), reverse=True)
    return "\n".join([*map(format_diagnostic, by_weight), total + more])


def as_json(found: tuple[Diagnostic, ...]) -> str:
    """`{"version": 1, "diagnostics": [...]}`, see README."""
    rows = [
        {
            "path": d.location.path, "line": d.location.line, "column": d.location.column,
            "severity": d.severity.value, "rule": d.rule, "message": d.message, "hint": d.hint,
        }
        for d in found
    ]
    return json.dumps({"version": JSON_VERSION, "diagnostics": rows}, ensure_ascii=False, indent=1)
