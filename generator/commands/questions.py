"""`secondside questions`: the bank of questions and what it reaches."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from pathlib import Path

import click

from generator.commands.check import from_here, located
from generator.diagnostics import Diagnostic, format_diagnostic
from generator.model.book import Book, fold_name
from generator.quiz import Kind, Question, Reach

JSON_VERSION = 1


@click.command()
@click.argument("book", type=click.Path(exists=True, file_okay=False, path_type=Path), default="plays")
@click.option("--format", "style", type=click.Choice(["text", "json"]), default="text", help="text for people, json for programs")
@click.option("--play", "plays", multiple=True, help="only this play; may be given several times")
@click.option("--position", "positions", type=click.IntRange(0, 5), multiple=True, help="only this position; 0: questions for everybody")
@click.option("--kind", "kinds", type=click.Choice([k.value for k in Kind]), multiple=True, help="only this kind")
@click.option("--seed", default="1", help="another seed, other wrong options")
def command(book: Path, style: str, plays: tuple[str, ...], positions: tuple[int, ...], kinds: tuple[str, ...], seed: str) -> None:
    """Show the questions computed from the BOOK folder and which forks and jobs they reach.

    Exit status: 0, also with mistakes in the book (`check` tells them); 2 usage or no such play."""
    from generator.pipeline import all_versions, load_and_compute
    from generator.quiz import generate_questions, reach

    computed = load_and_compute(book)
    _known(plays, computed.book)
    questions, dropped = generate_questions(all_versions(computed), computed.book, seed)
    reached = reach(questions, computed.published)
    names = {p.id: p.name for p in computed.book.plays}
    shown = [q for q in questions if _fits(q, names, plays, positions, kinds)]
    if style == "json":
        click.echo(as_json(shown, reached, names, book))
    else:
        click.echo(as_text(shown, reached, names, located((*dropped, *reached.gaps), book)))


def _known(plays: tuple[str, ...], book: Book) -> None:
    for name in plays:
        if book.play(name) is None:
            raise click.BadParameter(f"no play named {name!r}; there are {', '.join(p.name for p in book.plays)}")


def _fits(q: Question, names: dict[str, str], plays: tuple[str, ...], positions: tuple[int, ...], kinds: tuple[str, ...]) -> bool:
    wanted = {fold_name(p) for p in plays}
    return (
        (not wanted or fold_name(names.get(q.play, "")) in wanted)
        and (not positions or q.position in positions)
        and (not kinds or q.kind.value in kinds)
    )


def as_json(questions: Sequence[Question], reached: Reach, names: dict[str, str], book: Path) -> str:
    """`{"version": 1, "questions": [...], "reach": {...}}`; `right` is indexes into `options`, `[x, y]` for a place."""
    rows = [
        {
            "id": q.id, "kind": q.kind.value, "play": names.get(q.play, ""), "position": q.position or None, "prompt": q.prompt,
            "options": [o.text for o in q.options],
            "right": [round(q.at.x, 2), round(q.at.y, 2)] if q.at else list(q.right),
            "source": {"path": from_here(q.source.path, book), "line": q.source.line},
        }
        for q in questions
    ]
    return json.dumps({"version": JSON_VERSION, "questions": rows, "reach": reached.summary()}, ensure_ascii=False, indent=1)


def as_text(questions: Sequence[Question], reached: Reach, names: dict[str, str], said: Iterable[Diagnostic]) -> str:
    """Every question with its options, the right ones marked; then reach and what could not be asked."""
    blocks = [_block(q) for q in questions]
    blocks.append(
        f"{len(questions)} questions. Reach: {reached.forks_asked} of {reached.forks} reads, "
        f"{reached.answers_asked} of {reached.answers} answers, {reached.jobs_asked} of {reached.jobs} jobs."
    )
    blocks.extend(format_diagnostic(d) for d in said)
    return "\n\n".join(blocks)


def _block(q: Question) -> str:
    lines = [f"[{q.kind.value}] {q.prompt}"]
    lines += [f"  {'*' if i in q.right else '-'} {o.text}" for i, o in enumerate(q.options)]
    if q.at:
        side = "right" if q.at.x >= 0 else "left"
        lines.append(f"  * {abs(q.at.x):.1f} m {side} of the middle, {q.at.y:.1f} m up, within {q.within:.1f} m")
    if q.why:
        lines.append(f"    {q.why}")
    return "\n".join(lines)
