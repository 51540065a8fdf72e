"""Files that are either the old or the new, never half of one."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

PART = ".part"


def write_atomically(path: Path, content: bytes, mode: int = 0o644) -> None:
    """Writes beside, flushes to the disk, then renames over."""
    part = path.with_name(path.name + PART)
    if os.path.lexists(part):
        part.unlink()  # a killed run's, or a trap laid by somebody else in a shared folder
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode)
    try:
        with os.fdopen(handle, "wb") as out:
            if hasattr(os, "fchmod"):  # Windows has none: a file there has the rights of its folder
                os.fchmod(out.fileno(), mode)
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
        os.replace(part, path)
    except BaseException:
        with suppress(OSError):
            part.unlink()  # on a full disk half a file is all that keeps the next try from working
        raise


def flush_folder(folder: Path) -> None:
    """Makes the renames inside `folder` last through a power cut, where the system can."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(handle)
    except OSError:
        pass
    finally:
        os.close(handle)
