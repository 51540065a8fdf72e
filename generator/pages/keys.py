"""Keys for what one play yields: a digest of every file that may change it, and of this program.

A play depends on its own file, on team.yml, alignments.yml and the lead-ins, on the speed measured by stopwatch, and on every play its text names (`same
as`, `go to`); naming too much costs a computation, naming too little would show yesterday's play.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from generator.model.book import Book, fold_name
from generator.model.play import Play


def book_texts(folder: Path) -> Mapping[str, str]:
    """Every YAML file of the book by its path from the book's folder."""
    paths = (p for pattern in ("*.yml", "*.yaml") for p in folder.rglob(pattern))
    return {p.relative_to(folder).as_posix(): p.read_text(encoding="utf-8", errors="replace") for p in sorted(paths)}


def play_keys(book: Book, texts: Mapping[str, str]) -> dict[str, str]:
    """Key by play id."""
    own = {p.source.path for p in book.plays}
    shared = digest(program(), repr(book.team.slowness), *(f"{path}\n{text}" for path, text in texts.items() if path not in own and not path.startswith("games/")))
    folded = {p.id: fold_name(texts.get(p.source.path, "")) for p in book.plays}
    named = {p.id: [o for o in book.plays if o.id != p.id and fold_name(o.name) in folded[p.id]] for p in book.plays}
    return {p.id: digest(shared, *_texts_of(p, named, texts)) for p in book.plays}


def _texts_of(play: Play, named: Mapping[str, list[Play]], texts: Mapping[str, str]) -> list[str]:
    """The texts of a play and of all it names, straight or through others."""
    seen: dict[str, Play] = {}
    waiting = [play]
    while waiting:
        one = waiting.pop()
        if one.id not in seen:
            seen[one.id] = one
            waiting.extend(named[one.id])
    first, *rest = seen.values()
    ordered = (first, *sorted(rest, key=lambda p: p.source.path))
    return [f"{p.source.path}\n{texts.get(p.source.path, '')}" for p in ordered]


@cache
def program() -> str:
    """A digest of this program's own text."""
    root = Path(__file__).resolve().parents[1]
    return digest(*(p.read_text(encoding="utf-8") for p in sorted(root.rglob("*.py"))))


def digest(*texts: str) -> str:
    """A short name for texts in their order."""
    made = hashlib.sha256()
    for text in texts:
        made.update(text.encode("utf-8", "surrogatepass"))
        made.update(b"\0")
    return made.hexdigest()[:32]
