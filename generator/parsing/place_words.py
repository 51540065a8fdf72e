"""Where: spots, sides, measures, places told from others."""

from __future__ import annotations

import math

from generator.model.court import FOOT, Point
from generator.model.sentence import (
    BallPlace,
    BetweenPlace,
    HalfPlace,
    MeasuredPlace,
    One,
    Place,
    RelativePlace,
    Side,
    SpotPlace,
    WherePlace,
)
from generator.parsing.who_words import DEFENDERS, PLAYERS, needed_one, one
from generator.parsing.words_of_line import Words
from generator.vocabulary.advice import advice
from generator.vocabulary.nearest import closest
from generator.vocabulary.places import SIDES, SPOTS
from generator.vocabulary.spot_words import FoundSpot, match_plural, match_spot
from generator.vocabulary.table import DIRECTION_TRIE, HALF_TRIE, SIDE_TRIE
from generator.vocabulary.talk import CIRCLE_SIDE_TRIE, GAP_TRIE
from generator.vocabulary.words import match

STEP = 0.8  # metres
NESTING = 3
_UNIT = {
    "ft": FOOT,
    "foot": FOOT,
    "feet": FOOT,
    "m": 1.0,
    "metre": 1.0,
    "metres": 1.0,
    "meter": 1.0,
    "meters": 1.0,
    "step": STEP,
    "steps": STEP,
}
_SIDE = {side.value: side for side in Side} | {"": Side.NONE}
SPOT_NAMES = tuple(w.replace("#", "3") for s in SPOTS for w in s.words)
SIDE_NAMES = tuple(w for s in SIDES for w in s.words)
SPOT_WORDS = tuple(dict.fromkeys(w for name in SPOT_NAMES for w in name.split() if len(w) > 2))


def needed_place(words: Words, after: str) -> Place:
    """A place must stand here."""
    found = place(words)
    if found is None:
        raise unknown_place(words, after)
    return found


def unknown_place(words: Words, after: str):
    """The refusal of a word that is no place."""
    if words.at_end():
        return words.refuse("place", f"`{after}` needs a place after it", "name a spot, such as `left wing`")
    found = match(SIDE_TRIE, words.words, words.i)
    unsided = match_spot(words.words, found[1]) if found else None
    if unsided:
        said = words.said(words.i, unsided.end)
        name = unsided.spot.words[0]
        return words.refuse("spot", f"'{said}': `{name}` stands in the middle and has no side", f"write `{name}`")
    better = advice("word", words.words, words.i) or words.i and advice("word", words.words, words.i - 1)
    at = found[1] if found and found[1] < len(words.words) else words.i
    written = tuple(words.said(at, at + n) for n in (1, 2) if at + n <= len(words.words))
    best = closest(written, SPOT_NAMES + SPOT_WORDS + SIDE_NAMES)
    if better and not (best and at > words.i):  # after `left` may stand a mistyped spot
        return words.refuse("spot", f"'{words.next_said()}' is no spot", better)
    hint = f"did you mean `{best[0]}`?" if best else "the handbook's language page has all spots"
    return words.refuse("spot", f"'{written[0]}' is no spot", hint, at)


def place(words: Words) -> Place | None:
    """The place that stands here, or None; the cursor steps over it."""
    start = words.i
    measure = _measure(words)
    if measure is not None:
        found = _measured(words, measure, start)
        if found is None:
            words.i = start
        return found
    return _base(words)


def base(words: Words) -> Place:
    """The place after `nearest to`, `player at`, `between`, `facing`, `reaches`."""
    found = _base(words)
    if found is None:
        raise unknown_place(words, words.said(words.i - 1, words.i))
    return found


def _number(word: str) -> float | None:
    try:
        value = float(word) if word[:1].isdigit() and word.isascii() else math.nan
    except ValueError:
        return None
    return value if math.isfinite(value) else None


def _measure(words: Words) -> float | None:
    """Metres of `2 ft`, `1.5 m`, `2 steps`, `a step`."""
    word = words.peek()
    if word == "step":
        words.i += 1
        return STEP
    number = _number(word)
    unit = _UNIT.get(words.peek(1))
    if number is None or unit is None:
        return None
    words.i += 2
    return number * unit


def _measured(words: Words, metres: float, start: int) -> Place | None:
    direction = words.match(DIRECTION_TRIE)
    if direction:
        return RelativePlace(direction, _base_or_one(words), metres)
    side = words.peek()
    if side not in ("left", "right"):
        return None
    words.i += 1
    up = _measure(words)
    if up is None or not words.take("up"):
        raise words.refuse(
            "measure", f"'{words.said(start)}' lacks how far up the court", "write `3 m left 4 m up`", start
        )
    if metres > 20 or up > 40:
        raise words.refuse(
            "measure", f"'{words.said(start)}' is off the court", "count from the middle of the end line", start
        )
    return MeasuredPlace(Point(-metres if side == "left" else metres, up))


def _base_or_one(words: Words) -> Place | One:
    found = one(words) or _base(words)
    if found is None:
        raise unknown_place(words, words.said(words.i - 1, words.i))
    return found


def _base(words: Words) -> Place | None:
    words.depth += 1
    if words.depth > NESTING:
        raise words.refuse("spot", "this place is told by too many others", "name a spot")
    found = _side_of_circle(words) or _spot(words) or _half(words) or _told(words)
    words.depth -= 1
    return found


def _side_of_circle(words: Words) -> SpotPlace | None:
    """`left side of the center circle`: at 9 o'clock, right at 3."""
    hour = words.match(CIRCLE_SIDE_TRIE)
    return SpotPlace("circle", argument=int(hour)) if hour else None


def _spot(words: Words) -> Place | None:
    found = match_spot(words.words, words.i)
    if found:
        return _settle(words, found, words.i, found.end, found.side, False)
    return _backcourt(words) or _plural(words)


def _plural(words: Words) -> SpotPlace | None:
    """`2 and 3 space to the corners`: each to the one of his own side."""
    found = match_plural(words.words, words.i)
    if found is None:
        return None
    spot, end = found
    if not words.several:
        name = spot.words[0]
        raise words.refuse("side", f"'{words.said(words.i, end)}': which one?", f"write `left {name}` or `right {name}`")
    words.i = end
    return SpotPlace(spot.id, Side.SAME)


def _backcourt(words: Words) -> Place | None:
    side = match(SIDE_TRIE, words.words, words.i)
    at = side[1] if side else words.i
    if words.words[at : at + 1] != ["backcourt"]:
        return None
    found = match_spot(words.words, at + 1)
    if found is None:
        raise words.refuse("spot", "`backcourt` needs a spot after it", "write `backcourt left wing`", at)
    return _settle(words, found, words.i, found.end, found.side or (side[0] if side else ""), True)


def _settle(words: Words, found: FoundSpot, start: int, end: int, side: str, backcourt: bool) -> SpotPlace:
    spot = found.spot
    if spot.sided == "yes" and not side and words.own_side:
        side = Side.SAME.value
    if spot.sided == "yes" and not side:
        name = spot.words[0].replace("#", str(found.number))
        raise words.refuse(
            "side", f"'{words.said(start, end)}': which side?", f"write `left {name}` or `right {name}`", start
        )
    if spot.id == "circle" and not 1 <= (found.number or 0) <= 12:
        raise words.refuse(
            "spot", f"'{words.said(start, end)}': a clock has 1 to 12", "12 is toward our basket, 3 to our right", start
        )
    if spot.id == "lane space" and not 1 <= (found.number or 0) <= 4:
        raise words.refuse(
            "spot",
            f"'{words.said(start, end)}': lane spaces are 1 to 4 from the end line",
            "write `left lane space 2`",
            start,
        )
    words.i = end
    opposite = PLAYERS.get(found.opposite)
    return SpotPlace(spot.id, _SIDE[side], opposite, found.number, backcourt)


def _half(words: Words) -> Place | None:
    half = words.match(HALF_TRIE)
    return HalfPlace(_SIDE[half]) if half else None


def _told(words: Words) -> Place | None:
    word = words.peek()
    if word == "where":
        return _where(words)
    if word == "ball" and words.peek(1) != "handler":
        words.i += 1
        return BallPlace()
    if words.take("behind", "ball"):
        return BallPlace(behind=True)
    if word == "between" or words.match(GAP_TRIE):
        words.i += word == "between"
        return _between(words)
    start = words.i
    direction = words.match(DIRECTION_TRIE)
    if not direction:
        return None
    found = one(words) or _base(words)
    if found is None:
        words.i = start
        return None
    return RelativePlace(direction, found)


def _where(words: Words) -> Place:
    words.i += 1
    who = needed_one(words, "where")
    if words.take("was"):
        return WherePlace(who, True)
    if words.take("is"):
        return WherePlace(who, False)
    raise words.refuse("place", "`where` needs `was` or `is` after the player", "write `where 3 was`")


def _between(words: Words) -> Place | None:
    first = _end_of_gap(words, "between")
    if not words.take("and"):
        raise words.refuse("place", "`between` needs two places", "write `between top and left wing`")
    return BetweenPlace(first, _end_of_gap(words, "and"))


def _end_of_gap(words: Words, after: str) -> Place:
    """One of the two places of `between`: a spot, or where a defender is."""
    start = words.i
    who = one(words)
    if isinstance(who, DEFENDERS):
        return WherePlace(who, False)
    words.i = start
    found = _base(words)
    if found is None:
        raise unknown_place(words, after)
    return found
