"""A coach's own pages and pictures: which of them may go on the site.

Whatever a link points to would be published with the book. A book can come from somebody else, so links must stay inside it.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from generator.diagnostics import Diagnostic, Location, error
from generator.source.files import decode

PAGES = frozenset({".md", ".markdown", ".mdown", ".mkdn", ".mkd"})
PICTURES = frozenset({".png", ".jpg", ".jpeg", ".gif", ".webp", ".svg"})
_COPY = "copy what it points to into the book: whatever a link leads to would be published"


def unfit_files(folder: Path) -> tuple[Diagnostic, ...]:
    """What cannot be published of the pages, pictures and folders below `folder`, each with its path from there."""
    root = folder.resolve()
    told = (_problem(path, path.relative_to(folder).as_posix(), root) for path in _candidates(folder))
    return tuple(sorted((d for d in told if d), key=lambda d: d.location))


def _candidates(folder: Path) -> Iterator[Path]:
    for where, folders, names in os.walk(folder):
        folders[:] = sorted(f for f in folders if not f.startswith("."))
        yield from (Path(where, f) for f in folders if os.path.islink(os.path.join(where, f)))
        yield from (Path(where, n) for n in names if not n.startswith(".") and Path(n).suffix.lower() in PAGES | PICTURES)


def _problem(path: Path, name: str, root: Path) -> Diagnostic | None:
    place = Location(name.encode("utf-8", "replace").decode(), 1, 1)
    if path.is_dir():
        return error(place, "unreadable", "this folder is a link", _COPY) if path.is_symlink() else None
    if path.is_symlink() and not path.resolve().is_relative_to(root):
        return error(place, "unreadable", "this is a link that leads out of the book", _COPY)
    if not path.is_file():
        return error(place, "unreadable", "this is not a file that can be read", "remove it from the book")
    try:
        return decode(path.read_bytes(), place)[1] if path.suffix.lower() in PAGES else None
    except OSError as problem:
        return error(place, "unreadable", f"this file cannot be read: {problem.strerror}", "check its permissions")
