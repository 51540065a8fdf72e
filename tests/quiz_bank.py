"""Books with their questions, computed once a test process: the demo book, the test sets, random plays."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from pathlib import Path

from generator.pipeline import all_versions, compute, load_book
from generator.quiz import generate_questions
from tests.random_plays import random_play

ROOT = Path(__file__).resolve().parent.parent
SEED = "fair"
STILL = ("Hold your spacing", "Stay ", "Keep the ball")  # how options begin that tell a player to do nothing


class Bank:
    """A computed book with its questions."""

    def __init__(self, folder: Path, is_random: bool = False) -> None:
        self.is_random = is_random
        self.computed = compute(load_book(folder)[0])
        self.versions = all_versions(self.computed)
        self.questions, self.dropped = generate_questions(self.versions, self.computed.book, SEED)
        self.times = {(t.play.id, t.settled.variant): t for t in self.versions}

    def of(self, *kinds):
        """The questions of these kinds."""
        return [q for q in self.questions if q.kind in kinds]

    def other(self, q, source):
        """The version an option is taken from: this play's, or that of another of the series on the same side."""
        if not source.play:
            return self.times[q.play, q.variant]
        return next(t for t in self.versions if t.play.id == source.play and t.settled.variant.mirrored == q.variant.mirrored
                    and not t.settled.variant.run_for)

    def timeline(self, q, branch):
        """The timeline of a branch of the version the question is about."""
        return self.times[q.play, q.variant].timelines[branch]

    def forks(self, q):
        """(branch, fork) of every read of the question's version."""
        return [(b, f) for b in self.times[q.play, q.variant].settled.branches for f in b.forks]


@cache
def demo_bank() -> Bank:
    """The demo book."""
    return Bank(ROOT / "plays")


@cache
def sets_bank() -> Bank:
    """The test sets: a play for every word of the language."""
    return Bank(ROOT / "tests" / "books" / "sets")


def random_bank(folder: Path, seeds: Iterable[int]) -> Bank:
    """Random plays, written to `folder`."""
    (folder / "team.yml").write_text("team: Random\nrule set: international\n")
    for seed in seeds:
        (folder / f"play{seed:04}.yml").write_text(random_play(seed))
    return Bank(folder, is_random=True)
