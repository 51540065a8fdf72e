"""Makes sentences, plays and broken files from the vocabulary table, out of one seeded source of chance.

`valid_line(chance)` and `valid_play(chance)` keep to the grammar; `mutated(text, chance)` breaks a file by words, lines and
bytes; `with_intruder(...)` puts one word or key into a valid text that no table knows.
"""

from __future__ import annotations

import random

from generator.vocabulary import coverages, events, places, small_words, table
from generator.vocabulary.entries import Takes, Verb
from generator.vocabulary.keys import KEYS
from generator.vocabulary.words import plain_form, third_form

INTRUDERS = ("zorp", "quibbles", "floop", "xyzzy", "brillig", "wuggs", "7up", "x7x", "splunge")
PLAYERS = ("1", "2", "3", "4", "5")
_SIDES = tuple(w for s in places.SIDES for w in s.words)
_ROLES = tuple(r.words[0] for r in small_words.ROLES if not r.id.startswith("anyone"))
_PASS_TARGETS = (*PLAYERS, "ball handler", "receiver", "nearest to top")


def spot(chance: random.Random) -> str:
    """A spot with its side somewhere in the name."""
    entry = chance.choice(places.SPOTS)
    number = str(chance.randint(1, 4))
    words = chance.choice(entry.words).replace("#", number).split()
    if (
        entry.sided == "yes"
        or entry.sided == "may"
        and chance.random() < 0.5
        and len(words) < 3
        and words[0] != "middle"
    ):
        side = chance.choice(_SIDES)
        where = chance.choice((0, len(words))) if "#" in entry.words[0] else chance.randint(0, len(words))
        if side == "opposite" and (where == len(words) or chance.random() < 0.5):  # at the end an object may follow
            side += f" {chance.choice(PLAYERS)}"
        words.insert(where, side)
    return " ".join(words)


def place(chance: random.Random) -> str:
    """Any place."""
    form = chance.randint(0, 9)
    player = chance.choice(PLAYERS)
    if form == 0:
        return f"where {player} {chance.choice(('was', 'is'))}"
    if form == 1:
        direction = chance.choice(places.DIRECTIONS).words[0]
        return (
            f"{chance.choice(('a step', '2 ft', '1 m', '2 steps'))} {direction} {chance.choice((player, spot(chance)))}"
        )
    if form == 2:
        return f"between {spot(chance)} and {spot(chance)}"
    if form == 3:
        return chance.choice(
            ("the ball", "behind the ball", "left side", "weak side", f"beside {player}", "3 m left 4 m up")
        )
    return spot(chance)


def event(chance: random.Random) -> str:
    """Any event."""
    entry = chance.choice(events.EVENTS)
    if entry.of == "clock":
        return f"{chance.randint(1, 20)} s on the clock"
    word = third_form(chance.choice(entry.words))
    if entry.of == "ball":
        return f"ball {word}"
    tail = (
        f" {spot(chance)}"
        if entry.takes == "place"
        else f" {chance.choice(PLAYERS)}"
        if entry.takes == "one" and chance.random() < 0.5
        else ""
    )
    return f"{chance.choice((*PLAYERS, *_ROLES))} {word}{tail}"


def timing(chance: random.Random) -> str:
    """A timing phrase."""
    form = chance.randint(0, 4)
    if form == 0:
        return f"on the {chance.choice(events.ON_THE).words[0]}"
    if form == 1:
        return chance.choice(("at once", f"at {chance.randint(1, 20)} s", f"with {chance.choice(PLAYERS)}"))
    return f"{chance.choice(('as', 'when', 'after', 'before', 'until'))} {event(chance)}"


def _object(verb: Verb, chance: random.Random) -> str:
    if verb.of == "defender":
        who = chance.choice(("X1", "X4", "his defender", "3's defender", "the low right defender"))
    else:
        who = chance.choice(_PASS_TARGETS)
    if verb.of == "both" and chance.random() < 0.3:
        return f"X{chance.choice(PLAYERS)} for {who}"
    return f"{verb.preposition} {who}".strip()


def _bits(verb: Verb, chance: random.Random) -> list[str]:
    bits = []
    to_place = verb.place is Takes.MUST or verb.place is Takes.MAY and chance.random() < 0.6
    if verb.object in (Takes.MUST, Takes.MAY) or verb.object is Takes.OR_PLACE and not to_place:
        bits.append(_object(verb, chance))
    if to_place and not (verb.object is Takes.OR_PLACE and bits):
        prepositions = ("to", "into", "toward") if verb.id == "dribble" else ("to", "at", "into", "toward")
        bits.append(f"{chance.choice(prepositions)} {place(chance)}")
    if verb.route and to_place and chance.random() < 0.4:
        one = chance.choice(PLAYERS)
        bits.append(
            chance.choice(
                (
                    f"off {one}",
                    f"around {one}",
                    "high",
                    "through the lane",
                    "along the baseline",
                    f"away from {one}",
                    f"between {one} and 2",
                )
            )
        )
    if verb.side and chance.random() < 0.2:
        bits.append(chance.choice(small_words.LINE_SIDES).words[0].replace("on ", "on the "))
    if chance.random() < 0.2:
        bits.append(chance.choice(("hard", "slowly", "on the run")))
    if verb.preposition != "to" or not bits:
        chance.shuffle(bits)
    return bits


def valid_line(chance: random.Random) -> tuple[str, str, str]:
    """A sentence of the grammar, with the verb and kind that it must be read as."""
    verb = chance.choice(table.OFFENCE)
    kinds = [("", verb.words), *((k.id, k.words) for k in verb.kinds)]
    kind, words = chance.choice(kinds)
    who = chance.sample(PLAYERS, verb.who or 1)
    form = plain_form if len(who) > 1 else third_form
    said = form(chance.choice(words))
    if chance.random() < 0.2:
        said = said.replace(" ", "-")
    if kind == "use":
        said = f"{said} {chance.choice(PLAYERS)}"
    bits = _bits(table.VERB["cut"] if kind == "v-cut" else verb, chance)
    if said in ("drop", "drops"):
        bits = [b for b in bits if not b.startswith("off ")]  # `drops off` is a pass: it is refused with that reading
    line = " ".join(
        [" and ".join(who), said, *bits, *(timing(chance) for _ in range(chance.choice((0, 0, 1, 2))))]
    )
    if chance.random() < 0.1:
        line = f"then {line}"
    return line.upper() if chance.random() < 0.05 else line, verb.id, kind


def valid_play(chance: random.Random, name: str = "Tidewall") -> str:
    """A play file without mistakes of words and keys."""
    starts = ", ".join(f"{p}: {spot(chance)}{' with the ball' if p == '1' else ''}" for p in PLAYERS)
    lines = [f"play: {name}", f"start: {{{starts}}}"]
    lines += [
        k.example
        for k in KEYS["play"]
        if k.name in ("call", "signal", "purpose", "teach", "film", "staff-note") and chance.random() < 0.3
    ]
    lines.append("phases:")
    for number in range(chance.randint(1, 3)):
        lines += [f"  - name: Phase {number}", "    do:"]
        lines += [f"      - {valid_line(chance)[0]}" for _ in range(chance.randint(1, 5))]
        if chance.random() < 0.5:
            lines += _read(chance)
    return "\n".join(lines) + "\n"


def _read(chance: random.Random) -> list[str]:
    keys = chance.sample([c.id for c in coverages.COVERAGES], chance.randint(1, 3))
    lines = [
        "    reads:",
        f"      - who: {chance.choice(PLAYERS)}",
        "        watch: X3 on 5's screen",
        "        answers:",
    ]
    lines += [f"          {key}: [{valid_line(chance)[0]}]" for key in keys]
    return [*lines, "          otherwise: go on"]


def with_strange_word(line: str, chance: random.Random) -> str:
    """The line with one word in it that no table knows."""
    words = line.split()
    words.insert(chance.randint(1, len(words)), chance.choice(INTRUDERS))
    return " ".join(words)


def with_strange_key(text: str, chance: random.Random) -> str:
    """The play with one key in it that no table knows."""
    lines = text.splitlines()
    at = chance.choice(
        [
            i
            for i, line in enumerate(lines)
            if line.startswith(("play:", "start:", "phases:", "    do:", "        watch:"))
        ]
    )
    indent = lines[at][: len(lines[at]) - len(lines[at].lstrip())]
    lines.insert(at, f"{indent}{chance.choice(INTRUDERS)}: yes")
    return "\n".join(lines) + "\n"


_BITS = (
    ":",
    ": ",
    " #",
    "- ",
    "[",
    "]",
    "{",
    "}",
    "&a ",
    "*a",
    "!x ",
    "|",
    ">",
    "%",
    "@",
    "`",
    '"',
    "'",
    "\t",
    "\x00",
    "\x85",
    "\u2028",
    "\ufeff",
    "\u2019",
    "\u201c",
    "\u2013",
    ",",
    "?",
    "? ",
    "---\n",
    "...\n",
    "<<: ",
    "\\",
    "\r",
    "\n",
    "  ",
    "1",
    "X",
    "and ",
    "then ",
    "or ",
    "otherwise:",
    "same as: Tidewall until Phase 0\n",
    "repeat: from Phase 0",
    "é",
    "\U0001f3c0",
    "9" * 50,
    "between " * 5,
)


def mutated(text: str, chance: random.Random) -> bytes:
    """The file after one to six breakages: of words, of lines, of bytes."""
    data = text
    for _ in range(chance.randint(1, 6)):
        at = chance.randint(0, len(data))
        form = chance.randint(0, 6)
        if form == 0:
            data = data[:at] + chance.choice(_BITS) + data[at:]
        elif form == 1:
            data = data[:at] + data[at + chance.randint(1, 12) :]
        elif form in (2, 3, 4):
            data = _lines_mutated(data, form, chance)
        elif form == 5:
            data = data[:at] + data[at : at + 200] * chance.choice((1, 2, 5)) + data[at:]
        else:
            words = data.split(" ")
            i, j = chance.randrange(len(words)), chance.randrange(len(words))
            words[i], words[j] = words[j], words[i]
            data = " ".join(words)
    raw = data.encode("utf-8", "replace")
    if chance.random() < 0.1 and raw:
        at = chance.randrange(len(raw))
        raw = raw[:at] + bytes([chance.randrange(256)]) + raw[at + 1 :]
    return raw


def rearranged(text: str, chance: random.Random) -> str:
    """The file after one to three slips that often still make sense: other players, sides, an order, a line lost or doubled."""
    lines = text.split("\n")
    for _ in range(chance.randint(1, 3)):
        i, j = chance.randrange(len(lines)), chance.randrange(len(lines))
        form = chance.randrange(5)
        if form == 0:
            lines[i] = "".join(chance.choice("12345") if c in "12345" and chance.random() < 0.4 else c for c in lines[i])
        elif form == 1:
            sides = {"left": "right", "right": "left"}
            lines[i] = " ".join(sides.get(word, word) for word in lines[i].split(" "))
        elif form == 2:
            lines[i], lines[j] = lines[j], lines[i]
        elif form == 3:
            lines.insert(j, lines[i])
        elif len(lines) > 1:
            del lines[i]
    return "\n".join(lines)


def _lines_mutated(data: str, form: int, chance: random.Random) -> str:
    lines = data.split("\n")
    i = chance.randrange(len(lines))
    if form == 2:
        lines.insert(chance.randrange(len(lines)), lines[i])
    elif form == 3:
        lines[i] = " " * chance.randint(0, 8) + lines[i].lstrip()
    else:
        del lines[i]
    return "\n".join(lines)
