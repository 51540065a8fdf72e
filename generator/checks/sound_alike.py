"""sound-alike: two calls sound the same from the far sideline.

What: compares the calls of all plays and lead-ins by sound: letters that a noisy gym makes equal (b and p, d and t, m
and n, f and v, e and i ...) count as one; calls that are then equal are named, and long ones that differ by one sound.
Calls that begin with the same words are compared by the words that follow.
Why: half the team runs one play and half the other.
Passes:
    play: Good
    call: Lantern
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 2 shoots]}
    ---
    play: Other
    call: Orchard
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 3, 3 shoots]}
Fails:
    play: Bad
    call: Tiger
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 2 shoots]}
    ---
    play: Other
    call: Digger
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 3, 3 shoots]}
Source: ours.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import combinations

from generator.checks.finding import Finding
from generator.diagnostics import Diagnostic, Severity
from generator.model.book import Book
from generator.model.play import Play

RULE = "sound-alike"
_CLASSES = {"bpfvw": "b", "dt": "d", "mn": "m", "gkcqxjsz": "s", "l": "l", "r": "r", "aou": "a", "eiy": "e"}
_SOUND = {letter: sound for letters, sound in _CLASSES.items() for letter in letters}


def check_book(book: Book) -> Iterator[Finding]:
    """One finding a pair, at the later of the two."""
    named = [(p, p.call or p.name) for p in (*book.lead_ins, *book.plays) if not p.retired]
    for (first, call), (second, other) in combinations(named, 2):
        if alike(call, other):
            yield _finding(first, call, second, other)


def _finding(first: Play, call: str, second: Play, other: str) -> Finding:
    same = call.casefold() == other.casefold()
    return Finding(
        Diagnostic(
            second.source, Severity.INFO, RULE,
            f'the call "{other}" {"is also that of" if same else "sounds like"} {first.name}'
            + ("" if same else f' ("{call}")'),
            "choose a call that begins and ends with other sounds",
        )
    )


def alike(first: str, second: str) -> bool:
    """True when the calls differ by at most one sound (short ones: by none)."""
    a, b = _after_common_words(first, second)
    if not a and not b:
        return True
    if not a or not b:
        return False
    one, other = sounds(a), sounds(b)
    most = 1 if min(len(one), len(other)) > 5 else 0
    if most == 0 or abs(len(one) - len(other)) > most:
        return one == other
    return _distance(one, other) <= most


@cache
def sounds(words: str) -> str:
    """The sounds of a call: one letter a class, doubled sounds once, h not at all."""
    code = [_SOUND[c] for c in words.casefold() if c in _SOUND]
    return "".join(c for i, c in enumerate(code) if i == 0 or c != code[i - 1])


def _after_common_words(first: str, second: str) -> tuple[str, str]:
    a, b = first.casefold().split(), second.casefold().split()
    while a and b and a[0] == b[0]:
        a, b = a[1:], b[1:]
    return " ".join(a), " ".join(b)


def _distance(a: Sequence[str], b: Sequence[str]) -> int:
    """Fewest changes, additions and removals that turn a into b."""
    row = list(range(len(b) + 1))
    for i, x in enumerate(a, 1):
        previous, row[0] = row[0], i
        for j, y in enumerate(b, 1):
            previous, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, previous + (x != y))
    return row[-1]
