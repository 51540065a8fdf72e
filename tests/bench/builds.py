"""Builds as a coach starts them, each in a process of its own, with what they cost."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True, slots=True)
class Cost:
    """CPU seconds (user and system) and peak memory in MB of one process."""

    seconds: float
    peak: float


def run(arguments: list[str], cache: Path | None = None) -> Cost:
    """Runs `python ARGUMENTS`; `cache` is where the tool may keep what it computed before."""
    place = {"XDG_CACHE_HOME": str(cache)} if cache else {}
    process = subprocess.Popen(
        [sys.executable, *arguments], cwd=ROOT, env={**os.environ, **place, "NO_MKDOCS_2_WARNING": "1"},
        stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
    )
    said = process.stderr.read()
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise RuntimeError(f"{' '.join(arguments)}: {said.decode(errors='replace')[-2000:]}")
    return Cost(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def build(book: Path, out: Path, cache: Path) -> Cost:
    """`secondside build`."""
    return run(["-m", "generator", "build", str(book), "--out", str(out)], cache)
