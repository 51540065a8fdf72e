"""What publishing takes: a folder of finished files, which of them are for staff only, and the words that must not leak."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

_LETTERS = re.compile(r"[^\W\d_]+")
SHORTEST_WORD = 6


@dataclass(frozen=True, slots=True)
class BuiltSite:
    """`staff_paths`: files under `root`, as `a/b.html`, or folders, as `a/`; everyone with a seat may open the rest.
    `words`: words of the book, at least six letters; `names`: titles, players, team and file names, of any length."""

    root: Path
    staff_paths: frozenset[str] = frozenset()
    words: frozenset[str] = frozenset()
    names: frozenset[str] = frozenset()

    def is_staff(self, path: str) -> bool:
        """True when only staff seats may open `path`."""
        folders = path.split("/")[:-1]
        above = ("/".join(folders[: i + 1]) + "/" for i in range(len(folders)))
        return path in self.staff_paths or any(folder in self.staff_paths for folder in above)


def words_of(texts: Iterable[str]) -> frozenset[str]:
    """Every word of six letters or more, as written."""
    return frozenset(w for text in texts for w in _LETTERS.findall(text) if len(w) >= SHORTEST_WORD)


def words_of_folder(book: Path) -> frozenset[str]:
    """The words of every text in the book's folder, file and folder names included; hidden files are not read."""
    texts = []
    for path in sorted(book.rglob("*")):
        inner = path.relative_to(book)
        if any(part.startswith(".") for part in inner.parts):
            continue
        texts.append(inner.as_posix())
        if path.is_file() and path.suffix in {".yml", ".yaml", ".md", ".txt", ".csv"}:
            texts.append(path.read_text(encoding="utf-8", errors="ignore"))
    return words_of(texts)
