"""Keys for what one play yields: a digest of every file that may change it, and of this program.

A play depends on its own file, on team.yml, alignments.yml and the lead-ins, on the speed measured by stopwatch, and on every play its text names (`same
as`, `go to`); naming too much costs a computation, naming too little would show yesterday's play.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path

from generator.model.book import Book, fold_name
from generator.model.play import Phase, Play


def book_texts(folder: Path) -> Mapping[str, str]:
    """Every YAML file of the book by its path from the book's folder."""
    paths = (p for pattern in ("*.yml", "*.yaml") for p in folder.rglob(pattern))
    return {p.relative_to(folder).as_posix(): p.read_text(encoding="utf-8", errors="replace") for p in sorted(paths)}


def play_keys(book: Book, texts: Mapping[str, str]) -> dict[str, str]:
    """Key by the id of the play or lead-in."""
    own = {p.source.path for p in book.plays}
    shared = digest(program(), repr(book.team.slowness), *(f"{path}\n{text}" for path, text in texts.items() if path not in own and not path.startswith("games/")))
    names = {fold_name(p.name): p for p in book.plays}
    longest_first = sorted(names, key=len, reverse=True)
    any_name = re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, longest_first)) or '(?!)'})(?!\w)")
    named = {
        p.id: [names[n] for n in (*_named(fold_name(texts.get(p.source.path, "")), any_name, names), *_continued(p)) if n in names]
        for p in book.plays
    }
    return {p.id: digest(shared, *_texts_of(p, named, texts)) for p in (*book.plays, *book.lead_ins)}


def _named(text: str, any_name: re.Pattern[str], names: Mapping[str, Play]) -> list[str]:
    """Names of plays in a folded text, each once; of names inside each other the longest. `Lantern mirrored` may mean
    the play of that name or Lantern to the other side."""
    found = dict.fromkeys(any_name.findall(text))
    return [*found, *(short for n in found if (short := n.removesuffix(" mirrored")) != n and short in names)]


def _continued(play: Play) -> Iterator[str]:
    """Names the model itself holds: the text may spell them with other marks."""
    if play.same_as is not None:
        yield fold_name(play.same_as.play)
    waiting = [r for p in play.phases if isinstance(p, Phase) for r in p.reads] + [r.read for r in play.rules if r.read]
    while waiting:
        for answer in waiting.pop().answers:
            waiting.extend(answer.reads)
            if answer.go_to is not None:
                yield fold_name(answer.go_to.target)


def _texts_of(play: Play, named: Mapping[str, list[Play]], texts: Mapping[str, str]) -> list[str]:
    """The texts of a play and of all it names, straight or through others."""
    seen: dict[str, Play] = {}
    waiting = [play]
    while waiting:
        one = waiting.pop()
        if one.id not in seen:
            seen[one.id] = one
            waiting.extend(named.get(one.id, ()))
    first, *rest = seen.values()
    ordered = (first, *sorted(rest, key=lambda p: p.source.path))
    return [f"{p.source.path}\n{texts.get(p.source.path, '')}" for p in ordered]


@cache
def program() -> str:
    """A digest of this program's own text, its templates among it."""
    root = Path(__file__).resolve().parents[1]
    own = (*sorted(root.rglob("*.py")), *sorted(Path(str(files("site_theme") / "page_templates")).rglob("*.html")))
    return digest(*(p.read_text(encoding="utf-8") for p in own))


def digest(*texts: str) -> str:
    """A short name for texts in their order."""
    made = hashlib.sha256()
    for text in texts:
        made.update(text.encode("utf-8", "surrogatepass"))
        made.update(b"\0")
    return made.hexdigest()[:32]
