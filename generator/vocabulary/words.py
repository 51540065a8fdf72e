"""How wordings are matched: letter case, hyphens, articles and verb number do not count; the longest wording wins.

A wording is written in its base form with `+` after the word that takes an `s` ("back cut+", "kick+ out").
`match(trie, words, i)` walks plain dictionaries, so a table is compiled once and a look-up costs a few steps.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

SKIPPED = frozenset({"the", "a", "an"})
_END = ""


def split_words(text: str) -> list[str]:
    """The words of `text` as they are compared: lower case, hyphens as spaces, articles left out."""
    return [w for w in text.lower().replace("-", " ").split() if w not in SKIPPED]


def third_person(word: str) -> str:
    """The form with an s: passes, carries, goes, cuts."""
    if re.search(r"(s|x|z|ch|sh|o)$", word):
        return word + "es"
    if re.search(r"[^aeiou]y$", word):
        return word[:-1] + "ies"
    return word + "s"


def plain_form(wording: str) -> str:
    """The wording without its mark: "back cut"."""
    return wording.replace("+", "")


def third_form(wording: str) -> str:
    """The wording as said of one player: "back cuts"."""
    return re.sub(r"(\w+)\+", lambda m: third_person(m[1]), wording)


def forms(wording: str) -> Iterable[list[str]]:
    """All ways to write a wording, as word lists: both numbers (`hands off`, `hand-offs`), and the words run together."""
    seen = set()
    for form in (plain_form(wording), third_form(wording)):
        words = split_words(form)
        variants = [words, ["".join(words)]]
        if "+" in wording and len(words) > 1 and form == plain_form(wording):
            variants += [third_person("".join(words))], [*words[:-1], third_person(words[-1])]
        if "+ a " in wording and words[0].startswith("set"):  # `4 and 5 set screens for 2`
            variants += [[*words[:-1], third_person(words[-1])]]
        if " screen" in form:  # a screen is a pick
            variants += [["pick" if w == "screen" else "picks" if w == "screens" else w for w in v] for v in variants if len(v) > 1]
        if "-" in form:  # pindown
            joined = split_words(form.replace("-", ""))
            variants += [joined, *([[*joined[:-1], third_person(joined[-1])]] if "+ a " in wording and words[0].startswith("set") else [])]
        for variant in variants:
            if tuple(variant) not in seen:
                seen.add(tuple(variant))
                yield variant


def add(trie: dict, words: list[str], value: object) -> None:
    """Puts `value` at the end of the path of `words`. Two meanings of one wording are a mistake of the table."""
    for word in words:
        trie = trie.setdefault(word, {})
    if trie.get(_END, value) != value:
        raise ValueError(f"two meanings for {' '.join(words)!r}: {trie[_END]} and {value}")
    trie[_END] = value


def build(pairs: Iterable[tuple[str, object]]) -> dict:
    """A trie of wordings and what they mean."""
    trie: dict = {}
    for wording, value in pairs:
        for words in forms(wording):
            add(trie, words, value)
    return trie


def match(trie: dict, words: list[str], i: int) -> tuple[object, int] | None:
    """The longest wording that stands at `words[i]`: its meaning and the index after it. None ends between `ball` and `side`."""
    best = None
    n = len(words)
    while i < n:
        trie = trie.get(words[i])
        if trie is None:
            break
        i += 1
        if _END in trie and words[i - 1 : i + 1] != ["ball", "side"]:
            best = (trie[_END], i)
    return best
