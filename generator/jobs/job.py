"""What one position does in one phase or one answer, as sentences with everything a page or a card needs beside them."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.settled import Variant

AS_WRITTEN = Variant()


@dataclass(frozen=True, slots=True)
class Job:
    """A position's part of a phase (`answer` empty) or of an answer.

    `id` is made from play, phase or answer, round and position: it outlives changed lines. `fingerprint` changes
    exactly when one of the actions does. `sees` is the situation of an answer ("Your man X3 trails you"), `cue` when
    to go, `watch` what to look at. `round` counts repeats of a phase, 0 first.
    """

    id: str
    play: str
    position: int
    phase: str
    phase_name: str
    sentences: tuple[str, ...]
    cue: str = ""
    why: str = ""
    watch: str = ""
    teach: tuple[str, ...] = ()
    sees: str = ""
    idle: bool = False
    read: str = ""
    answer: str = ""
    round: int = 0
    variant: Variant = AS_WRITTEN
    fingerprint: str = ""
    alike: tuple[int, ...] = ()  # positions with the same job here (interchangeable)

    @property
    def text(self) -> str:
        """The sentences in one."""
        return " ".join(self.sentences)
