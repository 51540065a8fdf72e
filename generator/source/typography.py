"""Marks that word processors put in: typographic quotes and dashes where YAML or the language expects plain ones."""

from __future__ import annotations

import re

_PLAIN = str.maketrans(
    "\u2018\u2019\u201a\u201b\u2032\u201c\u201d\u201e\u201f\u2033\u2010\u2011\u2012\u2013\u2014\u2015\u2212\u00a0\u202f",
    "'''''\"\"\"\"\"-------  ",
)
_LIST_DASH = re.compile(r"^( *)[\u2010-\u2015\u2212](?= )", re.MULTILINE)
_QUOTED = re.compile(
    r"((?:^|[:,\-\[{])[ ]*)[\u201c\u201d\u201e\u201f]([^\u201c-\u201f\"\\\n]*)[\u201c\u201d\u201f](?=[ ]*(?:$|[,\]}:#]))",
    re.MULTILINE,
)
_KEY_SPACE = re.compile(r"^[ \u00a0\u202f]*[\u00a0\u202f]+", re.MULTILINE)


def plain(text: str) -> str:
    """`text` with plain quotes, dashes and spaces, character for character."""
    return text if text.isascii() else text.translate(_PLAIN)


def plain_marks(text: str) -> str:
    """Makes plain those marks that build the file: list dashes, quotes round a whole value, hard spaces that indent.

    Prose keeps its own; offsets do not move.
    """
    if text.isascii():
        return text
    text = _KEY_SPACE.sub(lambda m: " " * len(m[0]), text)
    text = _LIST_DASH.sub(r"\1-", text)
    return _QUOTED.sub(r'\1"\2"', text)
