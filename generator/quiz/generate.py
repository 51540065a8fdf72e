"""All versions of all plays -> all questions, seeded, each once, with what had to be dropped."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.diagnostics import Diagnostic
from generator.model.book import Book
from generator.model.play import Play
from generator.quiz.call_questions import opening_drafts, signal_drafts
from generator.quiz.drafts import Draft, finished
from generator.quiz.job_questions import job_drafts, place_drafts
from generator.quiz.next_questions import next_drafts
from generator.quiz.question import Question
from generator.quiz.read_questions import read_drafts
from generator.quiz.scene import Version
from generator.quiz.tell_questions import tell_drafts
from generator.timeline.timed import PlayTimes


def generate_questions(
    all_times: Sequence[PlayTimes], book: Book, seed: str | int
) -> tuple[tuple[Question, ...], tuple[Diagnostic, ...]]:
    """Every question of a book. `all_times`: each play in all its versions, and the lead-ins (they tell which opening
    pictures a play may have). Drafts and retired plays are not asked about. Same input, same questions.
    """
    asked = [t for t in all_times if not t.play.is_lead_in and not t.play.draft and not t.play.retired]
    known = [t for t in all_times if not t.play.draft and not t.play.retired]
    plays = tuple({t.play.id: t.play for t in asked}.values())
    questions: dict[str, Question] = {}
    said: list[Diagnostic] = []
    for times in asked:
        version = Version(times, _series(times, asked))
        for draft in _drafts(version, known, plays):
            if draft.problem is not None:
                if version.is_plain:
                    said.append(draft.problem)
            else:
                questions.setdefault(draft.id, finished(draft, version, str(seed)))
    return tuple(questions.values()), tuple(dict.fromkeys(said))


def _series(times: PlayTimes, asked: Sequence[PlayTimes]) -> tuple[PlayTimes, ...]:
    """The other plays of the series, drawn to the same side and run by the same numbers."""
    mine = times.settled.variant
    return tuple(
        t for t in asked
        if times.play.series and t.play.series == times.play.series and t.play.id != times.play.id
        and t.settled.variant.mirrored == mine.mirrored and not t.settled.variant.run_for
    )


def _drafts(version: Version, known: Sequence[PlayTimes], plays: Sequence[Play]) -> Iterator[Draft]:
    yield from read_drafts(version)
    yield from job_drafts(version)
    yield from place_drafts(version)
    if version.is_plain:
        yield from next_drafts(version)
        yield from signal_drafts(version, plays)
        yield from opening_drafts(version, known)
        yield from tell_drafts(version, known)
