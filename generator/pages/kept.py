"""What was computed before and need not be computed again: values by a key that covers all they depend on.

Kept in memory for the next round of a preview and, when there is a folder, on disk for the next build. The folder
belongs to the person (`~/.cache`), never to the book: a book from elsewhere must not bring values along.
"""

from __future__ import annotations

import copyreg
import os
import pickle
import tempfile
from collections.abc import Callable
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from generator.model.identity import stable_id

T = TypeVar("T")


def _frozen(values: dict) -> MappingProxyType:
    return MappingProxyType(values)


copyreg.pickle(MappingProxyType, lambda mapping: (_frozen, (dict(mapping),)))


class Kept:
    """A shelf of values. Whatever cannot be read or written is computed anew; nothing here ever fails a build."""

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = folder
        self._values: dict[str, object] = {}
        self._used: set[str] = set()

    def get(self, key: str, make: Callable[[], T]) -> T:
        """The value of `key`, made when it is not there."""
        self._used.add(key)
        if key not in self._values:
            found = self._read(key)
            if found is None:
                found = (make(),)
                self._write(key, found)
            self._values[key] = found[0]
        return self._values[key]

    def sweep(self) -> None:
        """Forgets what this round did not ask for."""
        for key in set(self._values) - self._used:
            del self._values[key]
        if self.folder is not None and self.folder.is_dir():
            for path in self.folder.iterdir():
                if path.name not in self._used:
                    path.unlink(missing_ok=True)
        self._used.clear()

    def _read(self, key: str) -> tuple | None:
        if self.folder is None:
            return None
        try:
            return pickle.loads((self.folder / key).read_bytes())
        except (OSError, pickle.UnpicklingError, EOFError, AttributeError, ImportError, IndexError, TypeError, ValueError):
            return None

    def _write(self, key: str, value: tuple) -> None:
        if self.folder is None:
            return
        try:
            self.folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            with tempfile.NamedTemporaryFile(dir=self.folder, delete=False) as part:
                part.write(pickle.dumps(value, protocol=5))
            os.replace(part.name, self.folder / key)
        except OSError:
            self.folder = None


def cache_folder(book: Path) -> Path:
    """Where the values of the book in folder `book` lie between builds."""
    home = os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache"
    return Path(home) / "secondside" / stable_id("book", str(book.resolve()))
