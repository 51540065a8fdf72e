"""Reads the tree that is about to be published as a stranger would, and stops it when anything in it can be read.

Plain files must match their known hashes; every other file is a blob that one of our keys opens, or the boot file spelt exactly as
we spell it. In what is neither, words of the book are looked for, to say what stands in the clear. In what is proven to be locked
they are not: among hundreds of thousands of random characters a short word stands by chance, and would stop a publish for nothing.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.publish.targets import BLOBS, BOOT
from generator.vault.blob import AudienceKey, Blob, open_blob
from generator.vault.boot import body_of, packed, read_boot
from generator.vault.cipher import SIGNATURE_BYTES, NotOpened

_NAME = re.compile(r"[0-9a-f]{32}\Z")
SHORTEST = 6  # letters: shorter words stand in random bytes by chance


@dataclass(frozen=True, slots=True)
class Leak:
    """A file that must not be published, and why."""

    path: str
    why: str


def scan(tree: Mapping[str, bytes], shell: Mapping[str, str], keys: Iterable[AudienceKey], words: Iterable[str]) -> tuple[Leak, ...]:
    """Everything wrong with the tree; empty when a stranger learns nothing."""
    held = tuple(keys)
    sought = _spellings(words)
    leaks = []
    for path, content in sorted(tree.items()):
        if path in shell:
            if hashlib.sha256(content).hexdigest() != shell[path]:
                leaks.append(Leak(path, "is not the plain file it should be"))
            continue
        if _is_sealed(path, content, held):
            continue
        leaks.append(Leak(path, "is neither a locked file of this book nor the boot file"))
        if found := _first_word(sought, path.encode()) or _first_word(sought, content):
            leaks.append(Leak(path, f"holds the word {found.decode()!r} of the book in the clear"))
    return tuple(leaks)


def _is_sealed(path: str, content: bytes, keys: tuple[AudienceKey, ...]) -> bool:
    if path == BOOT:
        return _is_boot(content)
    name = path.removeprefix(BLOBS)
    if not path.startswith(BLOBS) or not _NAME.match(name):
        return False
    blob = Blob(name, content)
    return any(_opens(lambda k=key, m=kind: open_blob(k, blob, m)) for key in keys for kind in (False, True))


def _is_boot(content: bytes) -> bool:
    """True when there is nothing in it but what a boot file has: not a field, a blank or a second spelling more."""
    try:
        signed = read_boot(content)
    except NotOpened:
        return False
    return content == packed(body_of(signed.boot), signed.signature) and len(signed.signature) == SIGNATURE_BYTES


def _opens(attempt) -> bool:
    try:
        attempt()
    except NotOpened:
        return False
    return True


def _spellings(words: Iterable[str]) -> re.Pattern[bytes] | None:
    """One pattern for every word as written, in small letters, in capitals and with one capital."""
    long = {w for w in words if len(w) >= SHORTEST}
    every = {spelt.encode() for w in long for spelt in (w, w.lower(), w.upper(), w.capitalize())}
    return re.compile(b"|".join(re.escape(w) for w in sorted(every))) if every else None


def _first_word(sought: re.Pattern[bytes] | None, content: bytes) -> bytes | None:
    found = sought.search(content) if sought else None
    return found.group() if found else None
