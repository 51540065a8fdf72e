"""Small phrases: places with their article and preposition, players in a row, what a defender does.

Words only; no rules. A coverage is said as a coach says it to the player who must see it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from generator.model.settled import PlaceName

_BARE = ("half court", "where ", "the ", "his ", "your ", "behind the ball", "out of bounds")
_PREPOSITION = {
    "corner": "in", "deep corner": "in", "short corner": "in", "dunker spot": "in", "slot": "in", "deep slot": "in",
    "inside slot": "in", "wing": "on", "deep wing": "on", "inside wing": "on", "block": "on", "low block": "on",
    "middle of the lane": "in", "baseline": "on", "sideline": "on", "center circle": "in", "circle": "on",
}
_OUT = {
    "baseline out of bounds": "baseline", "sideline out of bounds": "sideline",
    "backcourt baseline out of bounds": "baseline",
}
_DIRECTIONS = (
    "in front of", "right of", "left of", "above", "below", "inside", "outside", "behind", "beside", "between", "along",
)


def place_words(place: PlaceName) -> str:
    """`the left wing`, `a step above the right block`, `half court`, `the spot behind 5`."""
    words = place.words.strip()
    if place.spot in _OUT and "out of bounds" in words:
        return f"out of bounds on the {_OUT[place.spot]}"
    if words.startswith("circle at"):
        return f"the center {words}"
    for direction in _DIRECTIONS:
        head, found, tail = words.partition(f"{direction} ")
        if found and (not head or head.endswith(" ")):
            return f"{head}{direction} {_with_article(tail)}".strip() if head else f"the spot {direction} {_with_article(tail)}"
    return _with_article(words)


def _with_article(words: str) -> str:
    if not words or words.startswith(_BARE) or words[0].isdigit() or (words[0] == "X" and words[1:2].isdigit()):
        return words
    return f"the {words}"


def at_place(place: PlaceName) -> str:
    """`in the left corner`, `on the right wing`, `at the top`, `a step above the right block`."""
    words = place_words(place)
    if words.startswith(("out of bounds", "where ", "a step", "behind")) or words[:1].isdigit():
        return words
    if not words.startswith("the ") or words.startswith("the spot"):
        return f"at {words}"
    return f"{_PREPOSITION.get(place.spot, 'at')} {words}"


def to_place(place: PlaceName) -> str:
    """`to the left wing`; `out of bounds on the baseline` stays."""
    words = place_words(place)
    return words if words.startswith("out of bounds") else f"to {words}"


def listed(words: Iterable[object], link: str = "and") -> str:
    """`2`, `2 and 4`, `2, 4 and 5`."""
    items = [str(w) for w in words]
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {link} {items[-1]}"


def sentence(text: str) -> str:
    """Capital at the front, full stop at the end."""
    text = text.strip()
    if not text:
        return ""
    return text[0].upper() + text[1:] + ("" if text[-1] in ".?!" else ".")


# One defender, third person; {u} is whom it is done to ("you", "3", or "" when nobody is named).
_ONE = {
    "trail": "trails {u}", "go under": "goes under the screen", "go over": "goes over the screen",
    "shoot the gap": "shoots the gap", "switch": "switches", "hedge": "hedges", "drop": "drops back",
    "at the level": "comes up to the level of the screen", "trap": "traps {u}", "ice": "ices the screen",
    "squeeze": "squeezes the screener", "top-lock": "top-locks {u}", "deny": "denies {u}", "front": "fronts {u}",
    "play behind": "plays behind {u}", "sag": "sags off {u}", "cheat high": "cheats high", "cheat low": "cheats low",
    "jump to the ball": "jumps to the ball", "jump the screen": "jumps the screen", "help": "helps",
    "low help": "helps from the low side", "high help": "helps from the nail", "tag": "tags the roll man",
    "stay": "stays home", "ball watch": "watches the ball", "late": "is late", "close out": "closes out",
    "hard close-out": "closes out hard", "two on the ball": "leaves his man to double the ball", "open": "is open",
    "denied": "is denied", "stunt": "stunts at the ball",
}
_THEY = {
    "switch": "They switch", "trap": "They trap {u}", "two on the ball": "They put two on the ball",
    "hedge": "They hedge", "drop": "They drop", "ice": "They ice the screen", "go under": "They go under",
    "go over": "They go over", "trail": "They trail {u}", "shoot the gap": "They shoot the gap",
    "top-lock": "They top-lock {u}", "deny": "They deny {u}", "help": "They help", "stay": "They stay home",
    "sag": "They sag", "late": "They are late", "at the level": "They are at the level of the screen",
    "jump the screen": "They jump the screen", "squeeze": "They squeeze the screener",
}


def defender_does(coverage: str, whom: str = "") -> str:
    """`trails you`, `goes under the screen`: what follows the defender's name."""
    return " ".join(_ONE.get(coverage, f"plays {coverage}").format(u=whom).split())


def they_do(coverage: str, whom: str = "") -> str:
    """`They switch`: both defenders of a screen, or the whole defence."""
    return " ".join(_THEY.get(coverage, f"They {defender_does(coverage)}").format(u=whom).split())


# -- third person ----------------------------------------------------------------------------------------

_HEADS = (
    "back cut", "shuffle cut", "short roll", "bounce pass", "pocket pass", "shallow cut", "box out", "skip it", "step up",
)
_OWN = (("your", "his"), ("yours", "his"), ("you", "him"))


def third_person(clause: str) -> str:
    """`come off 5's screen` -> `comes off 5's screen`; every verb joined by `and` or `then` as well."""
    parts = re.split(r"(, then |, and | and |, )", clause)
    said = "".join(part if i % 2 else _inflected(part) for i, part in enumerate(parts))
    for mine, his in _OWN:
        said = re.sub(rf"\b{mine}\b", his, said)
    return said


def _inflected(part: str) -> str:
    """The first word (or the last of a two-word verb) with its s; parts that begin with no verb stay."""
    if not part or part[0].isdigit() or part.startswith(("to ", "the ", "rubbing", "where ")):
        return part
    head = next((h for h in _HEADS if part.startswith(h)), part.split(" ")[0])
    *front, last = head.split(" ")
    if head in ("box out", "skip it", "step up"):
        front, last, tail = [], front[0], " " + last
    else:
        tail = ""
    return " ".join([*front, _with_s(last)]) + tail + part[len(head):]


def _with_s(verb: str) -> str:
    if re.search(r"(s|x|z|ch|sh|o)$", verb):
        return verb + "es"
    if re.search(r"[^aeiou]y$", verb):
        return verb[:-1] + "ies"
    return verb + "s"
