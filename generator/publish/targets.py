"""Where a locked site goes: a folder, a zip file, a branch without history. Each is whole before and after, never between."""

from __future__ import annotations

import io
import os
import zipfile
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Protocol

from generator.publish.atomic_files import PART, flush_folder, write_atomically

BOOT = "_v/boot.json"
BLOBS = "_v/b/"

Progress = Callable[[str, int, int], None]


class Target(Protocol):
    """A tree of files by their path from the site's root."""

    def names(self) -> frozenset[str]:
        """Every file there."""

    def read(self, path: str) -> bytes | None:
        """A file's bytes."""

    def commit(self, files: Mapping[str, bytes], boot: bytes | None, gone: frozenset[str], progress: Progress) -> None:
        """Writes `files` in their order, then the boot file, then takes `gone` away."""


class FolderTarget:
    """A folder, served as it is or copied to a host. `beside`: files of the host's own that stay, such as its domain."""

    beside = frozenset({"CNAME", ".git", ".well-known", ".domains"})

    def __init__(self, root: Path) -> None:
        self.root = root

    def names(self) -> frozenset[str]:
        """Every file there, the host's own left out."""
        found = (p.relative_to(self.root) for p in self.root.rglob("*") if p.is_file() or p.is_symlink())
        return frozenset(p.as_posix() for p in found if p.parts[0] not in self.beside)

    def read(self, path: str) -> bytes | None:
        """A file's bytes."""
        try:
            return (self.root / path).read_bytes()
        except (FileNotFoundError, NotADirectoryError):
            return None

    def commit(self, files: Mapping[str, bytes], boot: bytes | None, gone: frozenset[str], progress: Progress) -> None:
        """Each file is renamed into place; until the boot file is, phones still read the site before."""
        (self.root / BLOBS).mkdir(parents=True, exist_ok=True)
        for done, (path, content) in enumerate(files.items(), 1):
            write_atomically(self.root / path, content)
            progress("writing", done, len(files))
        for folder in (self.root / BLOBS, self.root / "_v", self.root):
            flush_folder(folder)
        if boot is not None:
            write_atomically(self.root / BOOT, boot)
            flush_folder(self.root / "_v")
        for path in sorted(gone):
            (self.root / path).unlink(missing_ok=True)


class ZipTarget:
    """One zip file to upload by hand. Written beside and renamed."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.tree = _unzipped(path) if path.exists() else {}

    def names(self) -> frozenset[str]:
        """Every file in it."""
        return frozenset(self.tree)

    def read(self, path: str) -> bytes | None:
        """A file's bytes."""
        return self.tree.get(path)

    def commit(self, files: Mapping[str, bytes], boot: bytes | None, gone: frozenset[str], progress: Progress) -> None:
        """The whole zip anew; equal trees give equal bytes."""
        tree = {**self.tree, **files, **({BOOT: boot} if boot is not None else {})}
        tree = {path: content for path, content in tree.items() if path not in gone}
        if tree == self.tree:
            return
        packed = io.BytesIO()
        with zipfile.ZipFile(packed, "w", zipfile.ZIP_STORED) as out:
            for done, (path, content) in enumerate(sorted(tree.items()), 1):
                out.writestr(_neutral(path), content)
                progress("writing", done, len(tree))
        self.path.parent.mkdir(parents=True, exist_ok=True)
        write_atomically(self.path, packed.getvalue())
        flush_folder(self.path.parent)


class NotAZip(Exception):
    """The file that is there is no zip file."""


def _unzipped(path: Path) -> dict[str, bytes]:
    try:
        with zipfile.ZipFile(path) as there:
            return {info.filename: there.read(info) for info in there.infolist() if not info.is_dir()}
    except (zipfile.BadZipFile, zlib.error, EOFError, RuntimeError, NotImplementedError):
        raise NotAZip(f"{path} is there already and is no whole zip file: name another, or take it away first") from None


def _neutral(path: str) -> zipfile.ZipInfo:
    """The same on every computer: no owner, no date, readable for the host's program once it is unpacked."""
    info = zipfile.ZipInfo(path, (1980, 1, 1, 0, 0, 0))
    info.create_system, info.external_attr = 3, 0o100644 << 16
    return info


def is_left_over(path: str) -> bool:
    """True for what a killed run of ours leaves behind."""
    return path.endswith(PART) and os.path.dirname(path) in {"", "_v", BLOBS.rstrip("/")}
