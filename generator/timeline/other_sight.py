"""A branch with another of the coverages that an answer's key joins by `or`: the five do the same, the defence another thing.

A timeline shows the first coverage of a key. A question about the second needs its own picture and its own motion: here
the branch is the same to the last centimetre and second, only its defenders follow the coverage asked.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from typing import TYPE_CHECKING

from generator.model.court import Point
from generator.model.settled import Branch, Fork
from generator.timeline.timed import Timeline

if TYPE_CHECKING:
    from generator.timeline.defence import Defence


def other_sight(timeline: Timeline, index: int, way: int) -> Timeline:
    """`timeline` with coverage `way` (0: the first) of the key taken at fork `index`."""
    return OtherSight(timeline, index, way) if way else timeline


def sight_key(branch: Branch, index: int, way: int) -> str:
    """Names such a branch beside the others of its play."""
    return f"{branch.key}+{index}.{way}" if way else branch.key


class OtherSight:
    """Satisfies `timed.Timeline`."""

    def __init__(self, timeline: Timeline, index: int, way: int) -> None:
        self._like = timeline
        forks = timeline.branch.forks
        seen = (*forks[:index], _seen_first(forks[index], way), *forks[index + 1 :])
        self.branch = replace(timeline.branch, forks=seen)

    def __getattr__(self, name: str) -> object:
        if name.startswith("__") or name == "_like":
            raise AttributeError(name)
        return getattr(self._like, name)

    @cached_property
    def shown(self) -> tuple:
        """Coverages this branch shows."""
        from generator.timeline.showings import showings

        return showings(self)

    @cached_property
    def defence(self) -> Defence:
        """The five defenders' tracks."""
        from generator.timeline.defence import track_defence

        return track_defence(self)

    def defender(self, body: int, t: float) -> Point:
        """Where a defender stands at second t."""
        return self.defence.place(body, t)

    def quiz_instant(self, fork: int) -> float:
        """When the picture of a fork's question is frozen: that of the first coverage, for they are read at one time."""
        return self._like.quiz_instant(fork)


def _seen_first(fork: Fork, way: int) -> Fork:
    """The fork with that coverage of the answer taken put first."""
    answers = tuple(
        replace(a, sights=(a.sights[way], *a.sights[:way], *a.sights[way + 1 :])) if a.id == fork.taken else a
        for a in fork.read.answers
    )
    return replace(fork, read=replace(fork.read, answers=answers))
