"""A quiz on paper: drawn from the same questions as the phone's, with a key on a sheet of its own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.commands._paper import Sheet
from generator.diagrams import diagram_svg, moment_picture, opening_picture, phase_diagram, play_view
from generator.diagrams.scene import Scene, View
from generator.model.book import Book, GamePlan
from generator.model.settled import Variant
from generator.pages.views import Figure
from generator.quiz import Kind, Question
from generator.quiz.draws import Draws
from generator.timeline.timed import PlayTimes

# Out of ten so many are of each kind; a place is tapped on a phone and has no paper form.
_SHARES = {Kind.READ: 5, Kind.JOB: 2, Kind.NEXT: 1, Kind.CALL: 1, Kind.TELL: 1}
_LETTERS = "abcdef"


@dataclass(frozen=True, slots=True)
class PaperQuestion:
    """A question as printed; `right` are letters, `position` 0 for everybody."""

    number: int
    position: int
    play: str
    prompt: str
    options: tuple[tuple[str, str], ...]
    right: str
    why: str
    picture: Figure | None


@dataclass(frozen=True, slots=True)
class PaperQuiz:
    """The whole quiz."""

    title: str
    questions: tuple[PaperQuestion, ...]


def paper_quiz(
    title: str, seed: str, questions: tuple[Question, ...], versions: tuple[PlayTimes, ...], book: Book, sheet: Sheet
) -> PaperQuiz:
    """The chosen questions with their pictures."""
    times = {(t.play.id, t.settled.variant): t for t in versions}
    draw = Draws(f"paper {seed}")
    return PaperQuiz(title, tuple(_printed(n, q, times, book, sheet, draw) for n, q in enumerate(questions, start=1)))


def choose(
    questions: tuple[Question, ...], count: int, seed: str, plays: frozenset[str], coverages: Mapping[str, float], position: int
) -> tuple[Question, ...]:
    """`count` questions: kinds by their shares, expected coverages first, every node, twin and theme once."""
    pool = [
        q for q in sorted(questions, key=lambda q: q.id)
        if q.kind in _SHARES and (not plays or q.play in plays) and (not position or q.position in (0, position))
    ]
    pool = Draws(f"choose {seed}").shuffled(pool)
    pool.sort(key=lambda q: -coverages.get(q.coverage, 0.0))
    wanted = {kind: round(share * count / 10) for kind, share in _SHARES.items()}
    chosen: list[Question] = []
    for strict in (True, False):
        for question in pool:
            room = len(chosen) < count and (not strict or sum(q.kind is question.kind for q in chosen) < wanted[question.kind])
            if room and _new(question, chosen):
                chosen.append(question)
    return tuple(chosen)


def _new(question: Question, chosen: list[Question]) -> bool:
    return all(
        q.twin != question.twin and (q.node, q.position) != (question.node, question.position)
        and not set(q.themes) & set(question.themes) for q in chosen
    )


def quiz_of_game(game: GamePlan, book: Book) -> frozenset[str]:
    """Ids of the plays a game's quiz asks about."""
    named = (book.play(name) for name in game.quiz_plays or game.plays)
    return frozenset(p.id for p in named if p is not None)


def _printed(
    number: int, question: Question, times: Mapping[tuple[str, Variant], PlayTimes], book: Book, sheet: Sheet, draw: Draws
) -> PaperQuestion:
    order = draw.shuffled(range(len(question.options)))
    letters = dict(zip(order, _LETTERS, strict=False))
    played = times.get((question.play, question.variant))
    return PaperQuestion(
        number,
        question.position,
        played.play.name if played else "",
        question.prompt.replace(": tap ", ": mark "),
        tuple((letters[i], question.options[i].text) for i in order),
        ", ".join(sorted(letters[i] for i in question.right)),
        question.why,
        _picture(question, played, book, sheet) if played else None,
    )


def _picture(question: Question, times: PlayTimes, book: Book, sheet: Sheet) -> Figure | None:
    if question.picture is None:
        return None
    view = play_view(times, book.team)
    sheet.floor(view)
    return sheet.figures.add(diagram_svg(_scene(question, times, view), ""))


def _scene(question: Question, times: PlayTimes, view: View) -> Scene:
    picture = question.picture
    if picture.kind == "read":
        return moment_picture(times.timelines[picture.branch], picture.index, view)
    if picture.kind == "phase":
        return opening_picture(times, picture.branch, picture.index, view, told=False)
    return phase_diagram(times, picture.branch, picture.index, view)
