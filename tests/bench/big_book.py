"""Books of any size, made from the demo book: the same plays again under other names, in series of their own."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

DEMO = Path(__file__).resolve().parents[2] / "plays"
_NAME = re.compile(r"^(play|call|series): *(.+?) *$", re.MULTILINE)
PLAIN = ("lead-ins", "games")


def write_big_book(folder: Path, plays: int) -> Path:
    """`folder` with `plays` plays in it; the demo's team, alignments, lead-ins and notes stand once."""
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(DEMO, folder, ignore=shutil.ignore_patterns("games"))
    sources = [p for p in sorted(folder.rglob("*.yml")) if _is_play(p, folder)]
    texts = {p: p.read_text(encoding="utf-8") for p in sources}
    sources.sort(key=lambda p: ("same as:" in texts[p] or "go to:" in texts[p], p))  # a last round that is cut short has whom it names
    names = [m.group(2) for text in texts.values() for m in _NAME.finditer(text) if m.group(1) == "play"]
    for path in sources[plays:]:
        path.unlink()
    for number in range(len(sources), plays):
        source = sources[number % len(sources)]
        round_ = number // len(sources)
        target = folder / f"{source.parent.name}-{round_}" / source.name
        target.parent.mkdir(exist_ok=True)
        target.write_text(_renamed(texts[source], names, round_), encoding="utf-8")
    return folder


def _is_play(path: Path, folder: Path) -> bool:
    inner = path.relative_to(folder)
    return len(inner.parts) > 1 and inner.parts[0] not in PLAIN


def _renamed(text: str, names: list[str], round_: int) -> str:
    """Every play's own name, and every mention of a play of the book, gets the round's number."""
    own = re.sub(_NAME, lambda m: f"{m.group(1)}: {m.group(2)} {round_}", text)
    mention = re.compile(r"((?:go to|same as): *)(" + "|".join(sorted(map(re.escape, names), key=len, reverse=True)) + r")\b")
    return mention.sub(lambda m: f"{m.group(1)}{m.group(2)} {round_}", own)


def change_one_play(folder: Path) -> Path:
    """Changes a place in one play, as a coach does on a Tuesday; returns the file."""
    path = next(p for p in sorted(folder.rglob("*.yml")) if _is_play(p, folder))
    text = path.read_text(encoding="utf-8")
    match = re.search(r"^purpose: *(.+)$", text, re.MULTILINE)
    changed = text.replace(match.group(0), f"{match.group(0)} Again.") if match else f"{text}\n# again\n"
    path.write_text(changed, encoding="utf-8")
    return path
