"""The same in words, for those who hear a picture instead of seeing it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from generator.model.play import Play
from generator.model.settled import AnyAction, BranchPhase, PlaceName


def phase_title(play: Play, phase: BranchPhase) -> str:
    """Play and phase."""
    return f"{play.name}: {phase.name}"


def picture_words(names: Mapping[int, PlaceName], holder: int | None, actions: Iterable[AnyAction]) -> str:
    """Where the five stand, who has the ball, then the coach's lines in order."""
    places = [f"{p} {name.words}" + (" with the ball" if p == holder else "") for p, name in sorted(names.items())]
    return f"{', '.join(places)}. {lines_in_words(actions)}".strip()


def lines_in_words(actions: Iterable[AnyAction]) -> str:
    """The coach's lines as one text."""
    said = written_lines(actions)
    return "; ".join(said) + "." if said else ""


def written_lines(actions: Iterable[AnyAction]) -> tuple[str, ...]:
    """The coach's lines, each once, in order."""
    lines: dict[str, str] = {}
    for action in actions:
        lines.setdefault(action.line or action.key, action.text)
    return tuple(dict.fromkeys(text for text in lines.values() if text))
