"""What an option says, read from its words alone: whom he passes to, gets it from and screens for, whether he shoots,
where he goes. Knows nothing of deeds and clauses: a text that says one thing and is simulated by another is found here."""

from __future__ import annotations

import re
from dataclasses import dataclass

from generator.model.court import Point
from generator.model.spots import spot_point

_SPOTS = (
    "deep corner", "short corner", "corner", "deep wing", "inside wing", "wing", "deep slot", "inside slot", "slot", "elbow",
    "low block", "block", "mid-post", "dunker spot",
)
_MIDDLE = ("middle of the lane", "front of the rim", "deep top", "top", "nail")
_PLACE = re.compile(
    rf"(to|at|in|on) (?:the )?(?:(left|right) ({'|'.join(_SPOTS)})|({'|'.join(_MIDDLE)}))\b(?! of)"
)
_BALL = (
    r"(?:pass(?:es)?|skips? it|lobs? it|bounce pass(?:es)?|pocket pass(?:es)?|throws? it overhead|throws? it long|drops? it|feeds? it"
    r" high-low|outlets?|inbounds?)"
)


@dataclass(frozen=True)
class Said:
    """`ends`: where his last own move leaves him, None where the words name no spot."""

    gives: tuple[int, ...]
    gets: tuple[int, ...]
    screens: tuple[int, ...]
    shoots: bool
    ends: Point | None


def said(text: str, court) -> Said:
    """The claims of one option's text."""
    words = text.lower()
    own = _without_others(words)
    places = [] if "backcourt" in words else _PLACE.findall(own)
    _, side, spot, middle = places[-1] if places else ("", "", "", "")
    return Said(
        _numbers(rf"\b(?:{_BALL}|hands? off) to (\d)", words) if "fake the hand-off" not in words else (),
        _numbers(r"\bcatch (\d)'s", words) + _numbers(r"\btake the hand-off from (\d)", words),
        _numbers(r"\bscreen(?: of the stagger| again)?(?: from the other side)?(?: on [x\d and]+)? for (\d)", words),
        bool(re.search(r"\b(shoot|finish)\b", words)),
        spot_point(court, spot or middle, side) if places and _is_last(own) else None,
    )


def _is_last(own: str) -> bool:
    """Whether the last spot named is where he ends: no rim or lane edge after it, no steps from it."""
    last = max(m.end() for m in _PLACE.finditer(own))
    return not re.search(r"\bsteps? ", own) and not re.search(r"\b(rim|lane edge)\b", own[last:])


def _numbers(pattern: str, words: str) -> tuple[int, ...]:
    return tuple(int(n) for n in re.findall(pattern, words))


def _without_others(words: str) -> str:
    """The words without the place where somebody else catches his pass."""
    return re.sub(rf"\b{_BALL} to \d (?:at|in|on) (?:the )?[^,.]*?(?= and |,|\.|$)", "", words)
