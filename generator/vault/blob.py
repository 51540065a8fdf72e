"""One content, sealed: named, padded and deterministic, so an unchanged file is an unchanged blob.

Name and nonce come from exactly the bytes that are encrypted (after compressing): another compressor gives another
body, hence another nonce, so no nonce ever meets two bodies under one key.
"""

from __future__ import annotations

import gzip
import zlib
from dataclasses import dataclass

from generator.vault.cipher import NONCE_BYTES, NotOpened, derive, lock, mac, unlock

NAME_BYTES = 16
SMALLEST = 256
LARGEST = 64 * 1024 * 1024  # of one content, opened
_HEAD = 5
_GZIP, _MANIFEST = 1, 2


@dataclass(frozen=True, slots=True)
class AudienceKey:
    """What a content key gives. `id` tells keys apart (8 hex digits)."""

    id: str
    lock: bytes
    name: bytes
    nonce: bytes


@dataclass(frozen=True, slots=True)
class Blob:
    """A sealed content under its name (32 hex digits)."""

    name: str
    data: bytes


def audience_key(content_key: bytes) -> AudienceKey:
    """The four values derived from a 32-byte content key."""
    return AudienceKey(
        derive(content_key, "secondside/1 key id", 4).hex(),
        *(derive(content_key, f"secondside/1 {use}") for use in ("lock", "name", "nonce")),
    )


def padded_size(size: int) -> int:
    """Padme (Nikitin et al. 2019, "Reducing metadata leakage from encrypted files"): at most 12 % longer, few sizes."""
    if size <= SMALLEST:
        return SMALLEST
    exponent = size.bit_length() - 1
    mask = (1 << (exponent - exponent.bit_length())) - 1
    return (size + mask) & ~mask


def seal(key: AudienceKey, content: bytes, manifest: bool = False) -> Blob:
    """The blob of `content` under `key`."""
    body = _body(content, manifest)
    name = mac(key.name, body)[:NAME_BYTES]
    nonce = mac(key.nonce, body)[:NONCE_BYTES]
    return Blob(name.hex(), nonce + lock(key.lock, nonce, body, name))


def open_blob(key: AudienceKey, blob: Blob, manifest: bool = False) -> bytes:
    """The content, or NotOpened: wrong key, changed bytes, a name that is not the body's, a page passed off as manifest."""
    try:
        name = bytes.fromhex(blob.name)
    except ValueError:
        raise NotOpened("not a blob's name") from None
    body = unlock(key.lock, blob.data[:NONCE_BYTES], blob.data[NONCE_BYTES:], name)
    if mac(key.name, body)[:NAME_BYTES] != name:
        raise NotOpened("the name is another body's")
    return _content(body, manifest)


def _body(content: bytes, manifest: bool) -> bytes:
    packed = gzip.compress(content, 9, mtime=0)
    flag = _GZIP if len(packed) < len(content) else 0
    kept = packed if flag else content
    head = bytes([flag | (_MANIFEST if manifest else 0)]) + len(kept).to_bytes(4, "big")
    return (head + kept).ljust(padded_size(_HEAD + len(kept)), b"\0")


def _content(body: bytes, manifest: bool) -> bytes:
    size = int.from_bytes(body[1:_HEAD], "big")
    kept, rest = body[_HEAD : _HEAD + size], body[_HEAD + size :]
    if len(body) < _HEAD or body[0] > 3 or len(kept) != size or any(rest):
        raise NotOpened("not a body")
    if bool(body[0] & _MANIFEST) != manifest:
        raise NotOpened("a page where a manifest should be, or the other way round")
    return _unpacked(kept) if body[0] & _GZIP else kept


def _unpacked(packed: bytes) -> bytes:
    reader = zlib.decompressobj(31)
    try:
        content = reader.decompress(packed, LARGEST)
    except zlib.error:
        raise NotOpened("not compressed as said") from None
    if not reader.eof:
        raise NotOpened("cut short, or larger than any page")
    return content
