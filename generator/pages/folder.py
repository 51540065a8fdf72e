"""The folder a site is written into: whose it is, how it is replaced, what was written. And where our theme lies."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from importlib.resources import files as package_files
from pathlib import Path

from generator.diagnostics import Diagnostic

MARK = 'name="secondside-page"'  # in the head of every page of ours


@dataclass(frozen=True, slots=True)
class SiteFolder:
    """A built folder. `staff_paths`: files in it that only staff may open, from its root, sorted. `names`: titles and
    names that must not be seen from outside. `found`: what the checks said, no errors among it."""

    root: Path
    staff_paths: tuple[str, ...]
    names: frozenset[str]
    found: tuple[Diagnostic, ...]
    pages: int


class Refused(Exception):
    """Nothing was written; the message says what to do."""


def theme_folder() -> Path:
    """Where our theme lies, in the repository or in an installed copy."""
    return Path(str(package_files("site_theme")))


def guard(book: Path, out: Path) -> None:
    """Refuses to write into the book, round it, or over something that is not a site of ours."""
    if out == book or out.is_relative_to(book) or book.is_relative_to(out):
        raise Refused(f"{out} and the book must not lie inside each other: choose another folder")
    if not out.exists():
        return
    front = out / "index.html"
    ours = front.is_file() and MARK in front.read_text(encoding="utf-8", errors="ignore")
    if not out.is_dir() or (any(out.iterdir()) and not ours):
        raise Refused(f"{out} holds something that is not a site of ours: choose an empty or a new folder")


def swap(part: Path, out: Path) -> None:
    """Puts the finished folder `part` in the place of `out`; at no time is there half a site."""
    old = out.with_name(f".{out.name}.old")
    shutil.rmtree(old, ignore_errors=True)
    if out.exists():
        out.rename(old)
    part.rename(out)
    shutil.rmtree(old, ignore_errors=True)


def theme_has(path: str) -> bool:
    """Whether the theme has that file."""
    return (theme_folder() / path).is_file()
