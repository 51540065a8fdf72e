"""`secondside lookalikes`: which plays look the same for how long, and what tells them apart."""

from __future__ import annotations

from pathlib import Path

import click

from generator.commands.check import tell_errors


@click.command()
@click.argument("book", type=click.Path(exists=True, file_okay=False, path_type=Path), default="plays")
@click.option(
    "--format", "style", type=click.Choice(["text", "json", "svg"]), default="text",
    help="text for people, json for programs, svg the trees of the series",
)
def command(book: Path, style: str) -> None:
    """Compares all plays of the BOOK folder, mirrored and run for others too, alone and behind common lead-ins.

    Exit status: 0, or 1 when the book has errors (its sound plays are still compared)."""
    from generator.lookalikes import as_json, as_svg, as_text, lookalike_report
    from generator.pipeline import load_and_compute

    computed = load_and_compute(book)
    report = lookalike_report(candidates(computed), computed.book.team.shot_clock)
    click.echo({"text": as_text, "json": as_json, "svg": as_svg}[style](report))
    raise SystemExit(1 if tell_errors(computed.diagnostics, book) else 0)


def candidates(computed) -> tuple:
    """Every sound play with its versions and its runs behind lead-ins; versions that cannot be settled are left out."""
    from generator.clock import permitted_chains
    from generator.lookalikes import Candidate
    from generator.model.settled import Variant
    from generator.pipeline import time_play, versions

    found = []
    for times in computed.plays:
        play = times.play
        if play.retired:
            continue
        others = (time_play(play, computed.book, v)[0] for v in versions(play)[1:])
        led = {c: time_play(play, computed.book, Variant(lead_ins=c))[0] for c in permitted_chains(play)[1:]}
        found.append(Candidate(
            times, tuple(t for t in others if t is not None), {c: t for c, t in led.items() if t is not None},
        ))
    return tuple(found)
