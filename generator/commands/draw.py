"""`secondside draw`: one picture of a play as a file."""

from __future__ import annotations

from pathlib import Path

import click

from generator.commands._looks import LOOKS
from generator.model.book import fold_name

_WIDTH = 900  # CSS pixels of a PNG


@click.command()
@click.argument("play")
@click.option("--phase", type=int, default=1, show_default=True, help="which phase of the main line, from 1")
@click.option("--answer", default="", help="instead: the answer to this coverage, as written in the play")
@click.option("--position", type=click.IntRange(1, 5), help="the position whose way stands out")
@click.option("--mirrored", is_flag=True, help="on the other side")
@click.option("--look", type=click.Choice(list(LOOKS)), default="light", show_default=True)
@click.option("--book", type=click.Path(exists=True, file_okay=False, path_type=Path), default="plays", show_default=True)
@click.option("--out", type=click.Path(dir_okay=False, path_type=Path), required=True, help="FILE.svg or FILE.png")
def command(play: str, phase: int, answer: str, position: int | None, mirrored: bool, look: str, book: Path, out: Path) -> None:
    """Draw a phase of PLAY, or one answer of it, as SVG or PNG."""
    from generator.commands._plays import timed_play
    from generator.model.settled import Variant

    if out.suffix.lower() not in (".svg", ".png"):
        raise click.UsageError(f"--out must end in .svg or .png, not {out.name}")
    loaded, times = timed_play(book, play, Variant(mirrored=mirrored))
    scenes = _scenes(loaded, times, phase, answer, position)
    for i, scene in enumerate(scenes):
        path = out if i == 0 else out.with_stem(f"{out.stem}-{i + 1}")
        _write(scene, look, path)
        click.echo(str(path))


def _scenes(book, times, phase: int, answer: str, position: int | None) -> tuple:
    from generator.diagrams import answer_diagram, phase_diagrams, play_view

    view = play_view(times, book.team)
    if answer:
        return (answer_diagram(times, _branch_of(times, answer), view, position),)
    count = len(times.main.branch.phases)
    if not 1 <= phase <= count:
        raise click.UsageError(f"{times.play.name} has phases 1 to {count}, not {phase}")
    return phase_diagrams(times, times.settled.main.key, phase - 1, view, position)


def _branch_of(times, answer: str) -> str:
    """The first branch that leaves its parent by the answer whose key, as written, is `answer`."""
    keys: dict[str, str] = {}
    for key, timeline in times.timelines.items():
        departure = timeline.branch.departure
        if departure is not None:
            keys.setdefault(fold_name(timeline.branch.forks[departure.fork].answer.key), key)
    wanted = fold_name(answer)
    if wanted not in keys:
        known = ", ".join(sorted(keys)) or "none"
        raise click.UsageError(f"{times.play.name} has no answer to {answer}. Its answers: {known}.")
    return keys[wanted]


def _write(scene, look: str, out: Path) -> None:
    from generator.commands._looks import picture_css
    from generator.diagrams import standalone_svg

    svg = standalone_svg(scene, picture_css(look))
    if out.suffix.lower() == ".svg":
        out.parent.mkdir(parents=True, exist_ok=True)
        part = out.with_suffix(".part")
        part.write_text(svg + "\n", encoding="utf-8")
        part.replace(out)
        return
    from generator.commands._browser import screenshot
    from generator.commands._pages import picture_page

    _, _, width, height = scene.view.box
    screenshot(picture_page(svg), (_WIDTH, round(_WIDTH * height / width)), 1.0, out)
