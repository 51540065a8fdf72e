"""One command at a time changes a book's codes and keys: two at once would each save over what the other has just made."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from generator.publish.private_state import private_folder

FILE = "busy"
SCRATCH = "secondside-"  # how the folders are named that a run may leave behind


class Busy(Exception):
    """Another command is at work on this book."""


class Held:
    """The book is ours until the `with` ends; `scratch` names the folder to sweep should we be ended by force."""

    def __init__(self, file: BinaryIO) -> None:
        self._file = file

    def scratch(self, folder: Path) -> None:
        """Plain pages of the book lie in `folder` for a while."""
        self._write(str(folder.resolve()))

    def _write(self, text: str) -> None:
        self._file.seek(0)
        self._file.truncate()
        self._file.write(text.encode("utf-8", "surrogateescape"))
        self._file.flush()


@contextmanager
def alone(book: Path) -> Iterator[Held]:
    """Holds the book, or raises Busy. The system gives it free when the command ends, however it ends."""
    path = private_folder(book) / FILE
    handle = os.open(path, os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0), 0o600)
    with os.fdopen(handle, "r+b", buffering=0) as file:
        if not _taken(file):
            raise Busy("another command is at work on this book (publish or access): wait until it has ended, then try again")
        _sweep(file.read().decode("utf-8", "surrogateescape"))
        held = Held(file)
        held._write("")
        try:
            yield held
        finally:
            held._write("")


def _taken(file: BinaryIO) -> bool:
    try:
        import fcntl
    except ImportError:  # Windows
        import msvcrt

        try:
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True
    try:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True


def _sweep(left: str) -> None:
    """Takes away the open pages of a run that was ended by force; nothing but a folder of that name."""
    folder = Path(left) if left else None
    if folder and folder.is_absolute() and folder.name.startswith(SCRATCH) and folder.is_dir() and not folder.is_symlink():
        shutil.rmtree(folder, ignore_errors=True)
