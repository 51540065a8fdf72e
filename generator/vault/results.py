"""Quiz results on their way to the coach: locked with the key of the person's seat, one line of text."""

from __future__ import annotations

from base64 import urlsafe_b64decode, urlsafe_b64encode
from binascii import Error as NotBase64
from collections.abc import Mapping

from generator.vault.cipher import NONCE_BYTES, NotOpened, lock, unlock

VERSION = 1
ID_BYTES = 4
_HEAD = 1 + ID_BYTES


def seal_result(result_id: str, key: bytes, content: bytes, nonce: bytes) -> str:
    """The line to send: letters, digits, - and _ only."""
    who = bytes.fromhex(result_id)
    sealed = bytes([VERSION]) + who + nonce + lock(key, nonce, content, _bound(who))
    return urlsafe_b64encode(sealed).decode().rstrip("=")


def open_result(line: str, keys: Mapping[str, bytes]) -> tuple[str, bytes]:
    """(result id, content) with `keys` by result id; NotOpened when nobody of them made it."""
    text = "".join(line.split())
    try:
        raw = urlsafe_b64decode(text + "=" * (-len(text) % 4))
    except (ValueError, NotBase64):
        raise NotOpened("not a result") from None
    who, nonce, sealed = raw[1:_HEAD], raw[_HEAD : _HEAD + NONCE_BYTES], raw[_HEAD + NONCE_BYTES :]
    if raw[:1] != bytes([VERSION]) or who.hex() not in keys:
        raise NotOpened("a result of nobody on this list, or of another version")
    return who.hex(), unlock(keys[who.hex()], nonce, sealed, _bound(who))


def _bound(who: bytes) -> bytes:
    return b"secondside/1 result" + who
