"""Small phrases: places with their article and preposition, players in a row, what a defender does.

Words only; no rules. A coverage is said as a coach says it to the player who must see it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from generator.model.settled import PlaceName

_BARE = ("half court", "lane space", "deep top", "where ", "the ", "his ", "your ", "behind the ball", "out of bounds")
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
    words = _counted(place.words.strip())
    if place.spot in _OUT and "out of bounds" in words:
        return f"out of bounds on the {_OUT[place.spot]}"
    if words.startswith("circle at"):
        return f"the center {words}"
    if place.spot == "lane space" and words.startswith(("left ", "right ")):
        side, _, space = words.partition(" ")
        return f"{space} on the {side}"
    if words in (place.spot, f"{place.side} {place.spot}", f"{place.spot} {place.side}"):
        return _with_article(words)
    if words == "behind the ball":
        return words
    told = [(words.index(f"{d} "), d) for d in _DIRECTIONS if f" {d} " in f" {words}"]
    told = [(at, d) for at, d in told if words[at:] not in ("inside slot", "inside wing")]  # spots of their own
    if not told:
        return _with_article(words)
    at, direction = min(told)
    head, tail = words[:at], words[at + len(direction) + 1 :]
    return f"{head}{direction} {_with_article(tail)}" if head else f"the spot {direction} {_with_article(tail)}"


_NUMBERS = {"2": "two", "3": "three", "4": "four", "5": "five", "6": "six"}


def _counted(words: str) -> str:
    """`2 steps above` -> `two steps above`: a digit is a player."""
    number, _, rest = words.partition(" ")
    return f"{_NUMBERS.get(number, number)} {rest}" if rest.startswith(("step", "m ", "ft ")) else words


def _with_article(words: str) -> str:
    if not words or words.startswith(_BARE) or words[0].isdigit() or (words[0] == "X" and words[1:2].isdigit()):
        return words
    return f"the {words}"


def at_place(place: PlaceName) -> str:
    """`in the left corner`, `on the right wing`, `at the top`, `a step above the right block`."""
    words = place_words(place)
    if words.startswith(("out of bounds", "where ", "a step", "behind")) or words[:1].isdigit() or " steps " in words:
        return words
    if words.startswith("lane space"):
        return f"in {words}"
    if not words.startswith("the ") or words.startswith("the spot"):
        return f"at {words}"
    return f"{_PREPOSITION.get(place.spot, 'at')} {words}"


_OUTSIDE = ("corner", "wing", "slot", "top")


def is_outside(place: PlaceName) -> bool:
    """Whether he stands round the arc, where spacing is what he gives; inside and out of bounds he is simply there."""
    return place.spot.split(" ")[-1] in _OUTSIDE and place.spot != "short corner" and "backcourt" not in place.words


def to_place(place: PlaceName) -> str:
    """`to the left wing`; `out of bounds on the baseline` stays."""
    words = place_words(place)
    return words if words.startswith(("out of bounds", "behind the ball")) else f"to {words}"


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


# -- what defenders do -----------------------------------------------------------------------------------

# Base forms; {u} is whom it is done to ("you", "3", or "" when nobody is named).
_DOES = {
    "trail": "trail {u}", "under": "go under the screen", "over": "go over the screen",
    "shoot the gap": "shoot the gap", "switch": "switch", "hedge": "hedge", "drop": "drop back",
    "at the level": "come up to the level of the screen", "trap": "trap {u}", "ice": "ice the screen",
    "squeeze": "squeeze the screener", "top-lock": "top-lock {u}", "deny": "deny {u}", "front": "front {u}",
    "play behind": "play behind {u}", "sag": "sag off {u}", "cheat high": "cheat high", "cheat low": "cheat low",
    "jump to the ball": "jump to the ball", "jump the screen": "jump the screen", "help": "help",
    "low help": "help from the low side", "high help": "help from the nail", "tag": "tag the roll man",
    "stay": "stay home", "ball watch": "watch the ball", "close out": "close out", "hard close-out": "close out hard",
    "stunt": "stunt at the ball",
}
_IS = {"late": "late", "open": "open", "denied": "denied"}
_PAIR = {"two on the ball": "put two on the ball"}


def defender_does(coverage: str, whom: str = "") -> str:
    """`trails you`, `goes under the screen`: what follows one defender's name."""
    if coverage in _IS:
        return f"is {_IS[coverage]}"
    base = _DOES.get(coverage, "double the ball" if coverage in _PAIR else f"play {coverage}")
    return third_person(_filled(base, whom), own=False)


def they_do(coverage: str, whom: str = "") -> str:
    """`They switch`: both defenders of a screen, or the whole defence."""
    if coverage in _IS:
        return f"They are {_IS[coverage]}"
    return f"They {_base(coverage, whom)}"


def does_not(who: str, plural: bool, coverages: Iterable[tuple[str, str]]) -> str:
    """`X3 does not trail you or shoot the gap`; items are (coverage, whom)."""
    items = list(coverages)
    states = [_IS[c] for c, _ in items if c in _IS]
    acts = [_base(c, u) for c, u in items if c not in _IS]
    said = []
    if acts:
        said.append(f"{'do' if plural else 'does'} not {listed(acts, 'or')}")
    if states:
        said.append(f"{'are' if plural else 'is'} not {listed(states, 'or')}")
    return f"{who} {' and '.join(said)}"


def _base(coverage: str, whom: str) -> str:
    return _filled(_DOES.get(coverage) or _PAIR.get(coverage) or f"play {coverage}", whom)


def _filled(base: str, whom: str) -> str:
    return " ".join(base.format(u=whom).split())


# -- third person ----------------------------------------------------------------------------------------

_HEADS = (
    "back cut", "shuffle cut", "short roll", "bounce pass", "pocket pass", "shallow cut", "box out", "skip it", "step up",
)
_OWN = (("your", "his"), ("yours", "his"), ("you", "him"))


def third_person(clause: str, own: bool = True) -> str:
    """`come off 5's screen` -> `comes off 5's screen`; every verb joined by `and` or `then` as well. `own`: the clause
    speaks to the player, so `your` becomes `his`."""
    parts = re.split(r"(, then |, and | and |, )", clause)
    said = "".join(part if i % 2 else _inflected(part) for i, part in enumerate(parts))
    for mine, his in _OWN if own else ():
        said = re.sub(rf"\b{mine}\b", his, said)
    return said


def _inflected(part: str) -> str:
    """The first word (or the last of a two-word verb) with its s; parts that begin with no verb stay."""
    if not part or part[0].isdigit() or part.startswith(("to ", "the ", "rubbing", "where ")):
        return part
    head = next((h for h in _HEADS if part.startswith(h)), part.split(" ", 1)[0])
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
