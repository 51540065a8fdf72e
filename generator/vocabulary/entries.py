"""The shapes of the table's rows."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Ball(Enum):
    """What a verb asks of the ball."""

    NEEDS = "N"  # he has it before and after
    GIVES = "G"  # he has it before, somebody else after
    TAKES = "T"  # it is in the air
    WITHOUT = "-"  # he must not have it
    EITHER = "*"


class Takes(Enum):
    """Whether a verb takes a part of the sentence."""

    NO = "no"
    MAY = "may"
    MUST = "must"
    OR_PLACE = "or a place"  # either an object or a place must stand (fills)


@dataclass(frozen=True, slots=True)
class Kind:
    """A narrower meaning of a verb: "lob" of "pass". Its wordings are whole verbs; `effort` overrides the verb's;
    `own_side` as in `Verb`."""

    id: str
    words: tuple[str, ...]
    meaning: str
    example: str
    effort: str = ""
    own_side: bool = False


@dataclass(frozen=True, slots=True)
class Verb:
    """One verb. `words[0]` is the wording that messages use.

    `preposition` stands before the object ("" for none); `object`, `place` say whether one may or must stand;
    `objects` is how many may: 1, or 0 for any number parted by `then`; `of` says what an object may be: "one"
    (anybody), "player" (nobody of the defence), "defender", "both" (one player and any number of defenders).
    `route`, `side`: whether such words may stand. `end` says where he stands afterwards when no place is named.
    `effort` is a class of `EFFORTS`, "" for verbs without a move. `defence`: only defenders do it.
    `who` is how many players one line must name, 0 for any number. `bare`: wordings with the player right after them,
    without the preposition ("1 hits 4"). `own_side`: a spot named without its side is the one of his own half ("drifts to
    the corner"), after a pass the one of the receiver's half.
    """

    id: str
    words: tuple[str, ...]
    meaning: str
    example: str
    end: str
    ball: Ball
    place: Takes = Takes.NO
    object: Takes = Takes.NO
    preposition: str = ""
    of: str = "player"
    objects: int = 1
    route: bool = False
    side: bool = False
    effort: str = ""
    kinds: tuple[Kind, ...] = ()
    defence: bool = False
    who: int = 0
    bare: tuple[str, ...] = ()
    own_side: bool = False


# Share of top speed per class: timeline.md section 8 (values [a] there: judged by eye, no source).
EFFORTS = {
    "sprint": 1.0,
    "back-cut": 0.85,
    "drive": 0.80,
    "cut": 0.75,
    "flare": 0.70,
    "screen": 0.65,
    "fade": 0.65,
    "hand-off": 0.60,
    "fill": 0.55,
    "lift": 0.50,
    "dribble": 0.50,
    "drift": 0.45,
    "jog": 0.40,
}


@dataclass(frozen=True, slots=True)
class Spot:
    """One named place. `sided`: "yes" needs a side, "may" has a middle form too, "no". `#` in a name is a number."""

    id: str
    words: tuple[str, ...]
    sided: str
    formula: str
    meaning: str
    example: str


@dataclass(frozen=True, slots=True)
class Word:
    """Any other word: id, wordings, meaning, an example line (or value) that is valid as it stands."""

    id: str
    words: tuple[str, ...]
    meaning: str
    example: str


@dataclass(frozen=True, slots=True)
class EventWord:
    """What can happen. `of`: "one" or "ball"; `takes`: "", "one" (may name another player), "place" (must name one)."""

    id: str
    words: tuple[str, ...]
    meaning: str
    example: str
    of: str = "one"
    takes: str = ""


@dataclass(frozen=True, slots=True)
class Key:
    """One key of a mapping. `type` names a shape of `schema.py`; `choices` for closed sets."""

    name: str
    type: str
    meaning: str
    example: str
    needed: bool = False
    choices: tuple[str, ...] = ()
