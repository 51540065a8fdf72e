"""What was computed before and need not be computed again: values by a key that covers all they depend on.

Kept in memory for the next round of a preview and, when there is a folder, on disk for the next build. The folder
belongs to the person (`~/.cache`), never to the book: a book from elsewhere must not bring values along.
"""

from __future__ import annotations

import copyreg
import hashlib
import io
import os
import pickle
import tempfile
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path
from sys import intern
from types import MappingProxyType
from typing import TypeVar

from generator.model.identity import stable_id

T = TypeVar("T")
_SEAL = 16


def _frozen(values: dict) -> MappingProxyType:
    return MappingProxyType(values)


copyreg.pickle(MappingProxyType, lambda mapping: (_frozen, (dict(mapping),)))


class _Writer(pickle.Pickler):
    """The same bytes for the same value; the many small frozen values of the model in a form that is read back fast."""

    def reducer_override(self, value: object) -> object:
        kind = type(value)
        if "__slots__" not in kind.__dict__ or not is_dataclass(kind):
            return NotImplemented
        return _value, (kind, *[getattr(value, f.name) for f in fields(kind)])


def _value(kind: type, *parts: object) -> object:
    """The value of `kind` with these fields, without going through its constructor. Texts that many files hold, such as
    ids and names of places, are there once."""
    made = object.__new__(kind)
    for put, part in zip(_setters(kind), parts, strict=True):
        put(made, intern(part) if type(part) is str else part)
    return made


@cache
def _setters(kind: type) -> tuple[Callable[[object, object], None], ...]:
    """What sets the fields past the guard of a frozen value: the descriptors of its slots."""
    return tuple(getattr(kind, f.name).__set__ for f in fields(kind))


class Kept:
    """A shelf of values. Whatever cannot be read or written is computed anew; nothing here ever fails a build."""

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = folder if folder is None or ours(folder) else None
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
            written = (self.folder / key).read_bytes()
            seal, content = written[:_SEAL], written[_SEAL:]
            return pickle.loads(content) if seal == _seal(key, content) else None
        except Exception:  # noqa: BLE001 - a file cut short or written by another program may fail in any way
            return None

    def _write(self, key: str, value: tuple) -> None:
        if self.folder is None:
            return
        try:
            self.folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            content = io.BytesIO()
            _Writer(content, protocol=5).dump(value)
            with tempfile.NamedTemporaryFile(dir=self.folder, delete=False) as part:
                part.write(_seal(key, content.getvalue()) + content.getvalue())
            os.replace(part.name, self.folder / key)
        except OSError:
            self.folder = None


def _seal(key: str, content: bytes) -> bytes:
    """Tells a whole file of this key from one cut short or put there under another name."""
    return hashlib.blake2b(key.encode() + content, digest_size=_SEAL).digest()


def ours(folder: Path) -> bool:
    """Whether the folder is still to be made or belongs to whoever builds: values of others are not read."""
    try:
        return not hasattr(os, "getuid") or folder.stat().st_uid == os.getuid()
    except FileNotFoundError:
        return True
    except OSError:
        return False


def cache_folder(book: Path) -> Path:
    """Where the values of the book in folder `book` lie between builds."""
    return person_folder() / stable_id("book", str(book.resolve()))


def person_folder() -> Path:
    """Where the person's kept values lie, of all his books."""
    home = os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache"
    return Path(home) / "secondside"
