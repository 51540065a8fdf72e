"""Which of several screens an event is about. In: a mark; out: the mark with its screen."""

from __future__ import annotations

from dataclasses import replace

from generator.model.settled import Instant, Mark, Move
from generator.settling.state import State


def at_one_screen(mark: Mark, state: State, other: int | None, subject: int | None) -> Mark:
    """`as 2 clears` where 2 goes off two screens: the one named (`clears 5`), else the one of him who waits for it."""
    move = state.get(mark.action)
    if mark.instant not in (Instant.USE, Instant.CLEAR) or not isinstance(move, Move) or len(move.uses) < 2:
        return mark
    meant = next((u for u in move.uses if u.screener == (subject if other is None else other)), None)
    return mark if meant is None else replace(mark, screen=meant.screen)
