"""Calls of the team that are no play's: the bench calls one, what do we do? Asked of everybody, of no play."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.diagnostics import Location
from generator.jobs.phrases import sentence
from generator.model.book import Book, fold_name
from generator.model.identity import fingerprint, stable_id
from generator.model.play import Play
from generator.quiz.candidates import WRONG
from generator.quiz.draws import Draws
from generator.quiz.question import TEAM, Kind, Option, Question


def team_questions(book: Book, plays: Sequence[Play], seed: str | int) -> Iterator[Question]:
    """One for each call; wrong are the meanings of the other calls, then plays that somebody might take it for."""
    for call, meaning in book.team.calls.items():
        id_ = stable_id("question", TEAM, fold_name(call), fingerprint(fold_name(meaning)))
        right = Option(sentence(meaning))
        wrong = _wrong(book, call, plays, id_)
        if len(wrong) < WRONG:
            continue
        options = Draws(f"{seed}/{id_}").shuffled([right, *wrong])
        yield Question(
            id=id_, kind=Kind.CALL, play=TEAM, position=0, prompt=f"The bench calls \"{call}\". What do we do?",
            options=tuple(options), right=(options.index(right),), why=_why(book, call),
            twin=stable_id("twin", TEAM, fold_name(call)), node=f"{TEAM} {fold_name(call)}",
            source=book.team.source or Location("team.yml", 1, 1),
        )


def _wrong(book: Book, call: str, plays: Sequence[Play], seed: str) -> list[Option]:
    mine = fold_name(sentence(book.team.calls[call]))
    meant = {fold_name(sentence(m)): sentence(m) for c, m in book.team.calls.items() if c != call}
    others = [text for folded, text in meant.items() if folded != mine]
    runs = [Option(f"We run {p.name}.", play=p.id) for p in plays if fold_name(call) not in (fold_name(p.call), fold_name(p.name))]
    draw = Draws(f"team/{seed}")
    return [*draw.shuffled([Option(text) for text in others]), *draw.shuffled(runs)][:WRONG]


def _why(book: Book, call: str) -> str:
    others = [f"\"{c}\" is the call for: {m.rstrip('.')}." for c, m in book.team.calls.items() if c != call]
    return " ".join(["It calls no play.", *others[:1]])
