"""`secondside clock`: how long every play is and until when it can still start."""

from __future__ import annotations

from pathlib import Path

import click

from generator.commands.check import tell_errors


@click.command()
@click.argument("book", type=click.Path(exists=True, file_okay=False, path_type=Path), default="plays")
@click.option(
    "--format", "style", type=click.Choice(["text", "json", "svg"]), default="text",
    help="text for people, json for programs, svg a chart",
)
def command(book: Path, style: str) -> None:
    """Length of each play of the BOOK folder, branch by branch, alone and behind its lead-ins, against the clock.

    Exit status: 0, or 1 when the book has errors (its sound plays are still reported)."""
    from generator.clock import as_json, as_svg, as_text, clock_report
    from generator.pipeline import load_and_compute

    computed = load_and_compute(book)
    report = clock_report((*computed.plays, *computed.lead_ins, *computed.chains), computed.book)
    click.echo({"text": as_text, "json": as_json, "svg": as_svg}[style](report))
    raise SystemExit(1 if tell_errors(computed.diagnostics, book) else 0)

