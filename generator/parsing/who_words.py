"""Who: players, defenders, roles."""

from __future__ import annotations

from generator.model.sentence import (
    AreaDefender,
    DefenderBody,
    DefenderOf,
    Everyone,
    NearestTo,
    One,
    Player,
    PlayerAt,
    Role,
)
from generator.parsing.words_of_line import UNITS, Words
from generator.vocabulary.table import AREA_TRIE, ROLE_TRIE
from generator.vocabulary.talk import NOUN_TRIE
from generator.vocabulary.words import match

PLAYERS = {str(n): Player(n) for n in range(1, 6)}
_BODIES = {f"x{n}": DefenderBody(n) for n in range(1, 6)}
_ROLES: dict[str, Role] = {}
DEFENDERS = (DefenderBody, DefenderOf, AreaDefender)
WHO_HINT = "say 1 to 5, X1 to X5, `3's defender`, or a role such as `ball handler`"


def one(words: Words) -> One | None:
    """The one who stands here, or None; the cursor steps over him."""
    word = words.peek()
    player = PLAYERS.get(word)
    if player:
        return _player(words, player)
    body = _BODIES.get(word)
    if body:
        words.i += 1
        return body
    if word.endswith("'s") and words.peek(1) in ("defender", "man"):
        return _owned(words, word[:-2])
    if word.endswith("'s") and word[:-2] in PLAYERS and match(NOUN_TRIE, words.words, words.i + 1):
        words.i += 1
        return PLAYERS[word[:-2]]
    return _other(words, word)


def _player(words: Words, player: Player) -> One | None:
    following = words.peek(1)
    if words.may_measure and following in UNITS:
        return None
    words.i += 1
    if words.take("defender") or words.take("man"):
        return DefenderOf(player)
    return player


def _owned(words: Words, owner: str) -> One | None:
    player = PLAYERS.get(owner)
    if player:
        words.i += 2
        return DefenderOf(player)
    if owner.isdigit():
        raise no_player(words, owner)
    return None


def _other(words: Words, word: str) -> One | None:
    if word == "his":
        words.i += 2
        return DefenderOf(None)
    if word in ("everyone", "everybody"):
        words.i += 1
        return Everyone(words.take("else"))
    if word in ("others", "rest"):
        words.i += 1
        return Everyone(True)
    role = words.match(ROLE_TRIE)
    if role:
        return _ROLES.setdefault(role, Role(role))
    area = words.match(AREA_TRIE)
    if area:
        return AreaDefender(area)
    if word in ("nearest", "player"):
        return _at_place(words, word)
    number = word[1:] if word[:1] == "x" else word
    if number.isascii() and number.isdigit() and words.peek(1) not in UNITS:
        raise no_player(words, word.upper())
    return None


def _at_place(words: Words, word: str) -> One | None:
    from generator.parsing.place_words import base

    start = words.i
    if word == "nearest" and words.take("nearest", "to"):
        return NearestTo(base(words))
    if word == "player" and words.take("player", "at"):
        return PlayerAt(base(words))
    words.i = start
    return None


def no_player(words: Words, written: str):
    """The refusal of a number that is no position."""
    what = "defender" if written.startswith("X") else "player"
    return words.refuse("player", f"there is no {what} {written}", "players are 1 to 5, defenders X1 to X5")


def needed_one(words: Words, after: str) -> One:
    """Somebody must stand here."""
    start = words.i
    found = one(words)
    if found is None:
        written = words.next_said()
        stands = f", but '{written}' stands there" if written else ""
        raise words.refuse("who", f"`{after}` needs somebody after it{stands}", WHO_HINT, start)
    return found


def name(who: One) -> str:
    """How somebody is called in messages."""
    match who:
        case Player(number):
            return str(number)
        case DefenderBody(number):
            return f"X{number}"
        case DefenderOf(None):
            return "his defender"
        case DefenderOf(of):
            return f"{name(of)}'s defender"
        case AreaDefender(area):
            return f"the {area} defender"
        case Role(role):
            return role
        case Everyone(others):
            return "everyone else" if others else "everyone"
        case NearestTo():
            return "nearest to ..."
        case _:
            return "player at ..."
