"""The answer key for staff: every read's question as written, with the right answer and why."""

from __future__ import annotations

from collections.abc import Sequence

from generator.model.book import Book
from generator.pages.views import Section, StaffView
from generator.quiz import Kind, Question


def answer_key(book: Book, questions: Sequence[Question]) -> StaffView:
    """Reads of the plays as written; the quiz asks far more, but the rest stands on the play pages."""
    reads = [q for q in questions if q.kind is Kind.READ and not q.variant.mirrored and not q.variant.run_for]
    sections, by_play = [], {}
    for question in reads:
        by_play.setdefault(question.play, []).append(question)
    for play in book.plays:
        if mine := by_play.get(play.id):
            points = tuple(_point(q, play.name) for q in mine)
            sections.append(Section(play.id, play.name, points=points, folded=True))
    lead = f"What is right at each of the {len(reads)} reads, and why. Of jobs, places, passes and calls, the rest of the {len(questions)} questions, the play pages tell."
    return StaffView("Answer key", lead, tuple(sections))


def _point(question: Question, play: str) -> tuple[str, str]:
    right = "; ".join(question.options[i].text for i in question.right)
    return question.prompt.removeprefix(f"{play}, "), f"{right} {question.why}".strip()
