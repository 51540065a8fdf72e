"""Finds the YAML files of a book and reads them as text."""

from __future__ import annotations

import os
from pathlib import Path
from typing import NamedTuple

from generator.diagnostics import Diagnostic, Location, error

SIZE_LIMIT = 200 * 1024  # bytes a file
SUFFIXES = (".yml", ".yaml")


class BookFile(NamedTuple):
    """One file of the book; `path` is relative to the book's folder, with `/`."""

    path: str
    text: str


def read_book_files(folder: Path | str) -> tuple[tuple[BookFile, ...], tuple[Diagnostic, ...]]:
    """All YAML files below `folder` in the order of their paths; hidden files and folders are passed over."""
    folder = Path(folder)
    if not folder.is_dir():
        hint = "name the folder that holds team.yml and the plays"
        return (), (error(Location(str(folder), 1, 1), "book-folder", f"there is no folder '{folder}'", hint),)
    files, diagnostics = [], []
    for path in sorted(_paths(folder), key=lambda p: p.relative_to(folder).as_posix()):
        name = path.relative_to(folder).as_posix().encode("utf-8", "replace").decode()
        text, problem = _read(path, Location(name, 1, 1))
        if problem:
            diagnostics.append(problem)
        else:
            files.append(BookFile(name, text))
    return tuple(files), tuple(diagnostics)


def _paths(folder: Path):
    for root, folders, names in os.walk(folder):
        folders[:] = sorted(f for f in folders if not f.startswith("."))
        for name in names:
            path = Path(root, name)
            if not name.startswith(".") and name.lower().endswith(SUFFIXES) and not path.is_dir():
                yield path


def _read(path: Path, location: Location) -> tuple[str, Diagnostic | None]:
    if not path.is_file():
        return "", error(location, "unreadable", "this is not a file that can be read", "remove it from the book")
    try:
        with path.open("rb") as stream:
            data = stream.read(SIZE_LIMIT + 1)
    except OSError as problem:
        reason = problem.strerror or "unknown reason"
        return "", error(location, "unreadable", f"this file cannot be read: {reason}", "check its permissions")
    if len(data) > SIZE_LIMIT:
        return "", too_big(location)
    return decode(data, location)


def too_big(location: Location) -> Diagnostic:
    """The problem of a file over the size limit."""
    message = f"this file is over {SIZE_LIMIT // 1024} KB; a play needs about 3 KB"
    return error(location, "too-big", message, "one play a file; texts and films belong in links or notes")


def decode(data: bytes, location: Location) -> tuple[str, Diagnostic | None]:
    """Text of `data`, or the reason why it is none."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "", error(location, "not-text", "this file is saved as UTF-16", "save it as UTF-8")
    if b"\x00" in data:
        hint = "a play file is plain text; pictures and documents do not belong among the .yml files"
        return "", error(location, "not-text", "this is not a text file", hint)
    try:
        return data.decode("utf-8-sig"), None
    except UnicodeDecodeError as problem:
        line = data.count(b"\n", 0, problem.start) + 1
        start = data.rfind(b"\n", 0, problem.start) + 1
        column = len(data[start : problem.start].decode("utf-8", "replace")) + 1
        byte = data[problem.start]
        place = Location(location.path, line, column)
        message = f"the character here (byte {byte:#04x}) is not UTF-8"
        return "", error(place, "not-text", message, "save the file as UTF-8 in your editor")
