"""All versions of all plays -> all questions, seeded, each once, with what had to be dropped."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from generator.diagnostics import Diagnostic
from generator.model.book import Book
from generator.model.play import Play
from generator.quiz.call_questions import Openings, opening_drafts, openings, signal_drafts
from generator.quiz.drafts import Draft, finished
from generator.quiz.job_questions import job_drafts, place_drafts
from generator.quiz.next_questions import next_drafts
from generator.quiz.question import Question
from generator.quiz.read_questions import read_drafts
from generator.quiz.scene import Version
from generator.quiz.team_questions import team_questions
from generator.quiz.tell_questions import rivals, tell_drafts
from generator.timeline.timed import PlayTimes

Yield = tuple[tuple[Question, ...], tuple[Diagnostic, ...]]
Own = Callable[[PlayTimes, tuple[PlayTimes, ...], tuple[PlayTimes, ...]], Yield]


def generate_questions(all_times: Sequence[PlayTimes], book: Book, seed: str | int, own: Own | None = None) -> Yield:
    """Every question of a book. `all_times`: each play in all its versions, and the lead-ins (they tell which opening
    pictures a play may have). Drafts and retired plays are not asked about. Same input, same questions. `own` stands
    for `own_questions` with this seed: whoever remembers its results hands them in.
    """
    asked = [t for t in all_times if not t.play.is_lead_in and not t.play.draft and not t.play.retired]
    known = [t for t in all_times if not t.play.draft and not t.play.retired]
    plays = tuple({t.play.id: t.play for t in asked}.values())
    plain = [t for t in asked if not t.settled.variant.mirrored and not t.settled.variant.run_for]
    starts, by_series = openings(known), {}
    for times in asked:
        by_series.setdefault(times.play.series, []).append(times)
    questions: dict[str, Question] = {}
    said: list[Diagnostic] = []
    for times in asked:
        series = _series(times, by_series.get(times.play.series, ()))
        version = Version(times, series)
        alike = rivals(times, plain) if version.is_plain else ()
        mine = own(times, series, alike) if own else own_questions(times, series, alike, seed)
        for made, problems in (mine, _finished(_shared_drafts(version, known, plays, starts), version, seed)):
            said += problems
            for question in made:
                questions.setdefault(question.id, question)
    questions |= {q.id: q for q in team_questions(book, plays, seed)}
    return tuple(questions.values()), tuple(dict.fromkeys(said))


def own_questions(
    times: PlayTimes, series: tuple[PlayTimes, ...], alike: tuple[PlayTimes, ...], seed: str | int
) -> Yield:
    """The questions of one version that only its play, its series and the plays that begin like it can change."""
    version = Version(times, series)
    return _finished(_own_drafts(version, alike), version, seed)


def _finished(drafts: Iterator[Draft], version: Version, seed: str | int) -> Yield:
    questions: list[Question] = []
    said: list[Diagnostic] = []
    for draft in drafts:
        if draft.problem is None:
            questions.append(finished(draft, version, str(seed)))
        elif version.is_plain:
            said.append(draft.problem)
    return tuple(questions), tuple(said)


def _series(times: PlayTimes, asked: Sequence[PlayTimes]) -> tuple[PlayTimes, ...]:
    """The other plays of the series, drawn to the same side and run by the same numbers."""
    mine = times.settled.variant
    return tuple(
        t for t in asked
        if times.play.series and t.play.series == times.play.series and t.play.id != times.play.id
        and t.settled.variant.mirrored == mine.mirrored and not t.settled.variant.run_for
    )


def _own_drafts(version: Version, alike: tuple[PlayTimes, ...]) -> Iterator[Draft]:
    yield from read_drafts(version)
    yield from job_drafts(version)
    yield from place_drafts(version)
    if version.is_plain:
        yield from next_drafts(version)
        yield from tell_drafts(version, alike)


def _shared_drafts(
    version: Version, known: Sequence[PlayTimes], plays: Sequence[Play], starts: Openings
) -> Iterator[Draft]:
    if version.is_plain:
        yield from signal_drafts(version, plays)
        yield from opening_drafts(version, known, starts)
