"""Stable ids: short, opaque, made from meaning, never from file names or wording.

A play's id comes from its name, a phase's from play and name, a read's from phase, who and watch, an
answer's from read and coverages. The fingerprint of a node is a digest of its canonical tree (texts and
places in files left out), so it changes exactly when an action changes.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache

ID_LENGTH = 10


def stable_id(*parts: str) -> str:
    """Ten lower-case letters and digits that name `parts`; 50 bits."""
    digest = hashlib.sha256("\x1f".join(parts).encode()).digest()
    return base64.b32encode(digest[:10]).decode().lower()[:ID_LENGTH]


def canonical(value: object) -> str:
    """One spelling for a value of the model: dataclass fields that take part in comparison, in order."""
    if is_dataclass(value):
        inner = ",".join([canonical(getattr(value, name)) for name in _compared(type(value))])
        return f"{type(value).__name__}({inner})"
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, Mapping):
        return "{" + ",".join(sorted(f"{canonical(k)}:{canonical(v)}" for k, v in value.items())) + "}"
    if isinstance(value, frozenset):
        return "{" + ",".join(sorted(map(canonical, value))) + "}"
    if isinstance(value, tuple):
        return "(" + ",".join(map(canonical, value)) + ")"
    if isinstance(value, float):
        return f"{value:.4f}"
    return str(value)


@cache
def _compared(kind: type) -> tuple[str, ...]:
    return tuple(f.name for f in fields(kind) if f.compare)


def fingerprint(*values: object) -> str:
    """A digest of the canonical trees of `values`."""
    return stable_id("fingerprint", *map(canonical, values))
