"""`secondside new`: a starter book in an empty folder."""

from __future__ import annotations

from pathlib import Path

import click

RULE_SETS = ("international", "professional", "college", "high school")
PACES = ("youth", "high school", "college", "professional")


@click.command()
@click.argument("folder", metavar="DIR", type=click.Path(file_okay=False, path_type=Path))
@click.option("--team", help="the team's name")
@click.option("--rule-set", type=click.Choice(RULE_SETS), help="whose floor and clock")
@click.option("--pace", type=click.Choice(PACES), help="how fast your players are")
def command(folder: Path, team: str | None, rule_set: str | None, pace: str | None) -> None:
    """Start a book in DIR: one small series whose comments explain the language.

    What is not given is asked."""
    from generator.starter import NotEmpty, write_starter

    try:
        team = team or click.prompt("The team's name", type=str)
        rule_set = rule_set or click.prompt("Rule set", type=click.Choice(RULE_SETS), default="high school")
        pace = pace or click.prompt("Pace", type=click.Choice(PACES), default="high school")
    except click.Abort:
        raise click.UsageError("say --team NAME, --rule-set and --pace") from None
    if not team.strip() or "\n" in team:
        raise click.UsageError("a team's name is one line")
    try:
        written = write_starter(folder, team.strip(), rule_set, pace)
    except NotEmpty as problem:
        raise click.UsageError(f"{problem}: name a new folder, nothing there was touched") from None
    click.echo(f"{len(written)} files in {folder}. Begin with {folder / 'plays' / 'cedar' / 'cedar.yml'}, then:")
    click.echo(f"  secondside check {folder / 'plays'}")
    click.echo(f"  secondside preview {folder / 'plays'}")
