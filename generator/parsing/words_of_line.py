"""One sentence as words with their places, and a cursor over them."""

from __future__ import annotations

import re

from generator.diagnostics import Diagnostic, error
from generator.source.nodes import TextNode
from generator.source.typography import plain
from generator.vocabulary.words import SKIPPED, match

WORD_LIMIT = 80  # words a sentence
_COMMA = re.compile(",")
_WORD = re.compile(r"\d+(?:\.\d+)?(?=(?:ft|m|s|steps?)\b)|[^\s,\-]+")
UNITS = frozenset({"ft", "foot", "feet", "m", "metre", "metres", "meter", "meters", "step", "steps", "s", "o'clock"})


class Refused(Exception):
    """Ends the reading of one text; `offset` is where in it the problem stands. Never leaves the package."""

    def __init__(self, offset: int, rule: str, message: str, hint: str = ""):
        self.offset, self.rule, self.message, self.hint = offset, rule, message, hint


class Words:
    """The words of a text in comparable form (lower case, no articles, hyphens as spaces) and where we are in them."""

    __slots__ = ("commas", "depth", "ends", "extra", "i", "last_named", "may_measure", "node", "own_side", "several", "starts", "words")

    def __init__(self, node: TextNode):
        self.node = node
        self.words: list[str] = []
        self.starts: list[int] = []
        self.ends: list[int] = []
        self.i = 0
        self.depth = 0
        self.several = False  # True where two or more players do it, each at a place of his own
        self.own_side = False  # True where a spot without its side is the one of his own half
        self.last_named = None  # whom `who` means: `1 passes to 2 who shoots`
        self.extra: list = []  # shots that a pass names: (who, verb, index of the word)
        self.may_measure = True  # False where `4 steps` can only be a player and a verb
        text = plain(node.text).lower()
        self.commas = {found.start() for found in _COMMA.finditer(text)}  # where in the text they stand
        for found in _WORD.finditer(text):
            word = found[0]
            if word not in SKIPPED:
                self.words.append(word)
                self.starts.append(found.start())
                self.ends.append(found.end())
        self._drop_his()
        if self.words and self.words[-1].endswith(".") and len(self.words[-1]) > 1:
            self.words[-1] = self.words[-1][:-1]
        if len(self.words) > WORD_LIMIT:
            raise Refused(
                0, "too-long", f"this sentence has {len(self.words)} words", "write one line for each player's action"
            )

    def _drop_his(self) -> None:
        """`his` counts only before `defender` or `man`."""
        if "his" not in self.words:
            return
        words = self.words
        keep = [i for i, w in enumerate(words) if w != "his" or words[i + 1 : i + 2] in (["defender"], ["man"])]
        self.words = [words[i] for i in keep]
        self.starts = [self.starts[i] for i in keep]
        self.ends = [self.ends[i] for i in keep]

    def at_end(self) -> bool:
        """True when all words are read."""
        return self.i >= len(self.words)

    def peek(self, ahead: int = 0) -> str:
        """The word `ahead` of the cursor, or ""."""
        at = self.i + ahead
        return self.words[at] if at < len(self.words) else ""

    def take(self, *words: str) -> bool:
        """Steps over exactly these words if they stand here."""
        if self.words[self.i : self.i + len(words)] == list(words):
            self.i += len(words)
            return True
        return False

    def match(self, trie: dict) -> object | None:
        """Steps over the longest wording of `trie` that stands here; its meaning."""
        found = match(trie, self.words, self.i)
        if found is None:
            return None
        self.i = found[1]
        return found[0]

    def offset(self, i: int | None = None) -> int:
        """Where word `i` (the next one) begins in the text; after the last word, its end."""
        i = self.i if i is None else i
        if i < len(self.starts):
            return self.starts[i]
        return self.ends[-1] if self.ends else 0

    def after_comma(self) -> bool:
        """True when a comma parts the next word from the one before."""
        return any(self.ends[self.i - 1] <= at < self.starts[self.i] for at in self.commas) if 0 < self.i < len(self.starts) else False

    def said(self, start: int, end: int | None = None) -> str:
        """The text of words `start` to `end` as written."""
        end = self.i if end is None else end
        if start >= len(self.starts) or end <= start:
            return ""
        return self.node.text[self.starts[start] : self.ends[min(end, len(self.ends)) - 1]]

    def next_said(self, count: int = 1) -> str:
        """The next `count` words as written."""
        return self.said(self.i, min(self.i + count, len(self.words)))

    def refuse(self, rule: str, message: str, hint: str = "", i: int | None = None) -> Refused:
        """The refusal that stands at word `i` (the next one)."""
        return Refused(self.offset(i), rule, message, hint)


def refusal(node: TextNode, refused: Refused) -> Diagnostic:
    """The diagnostic of a refused text."""
    return error(node.where(refused.offset), refused.rule, refused.message, refused.hint)
