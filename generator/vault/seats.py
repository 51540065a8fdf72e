"""Seats: one locked entry per person in the boot file, all alike from outside.

A seat's payload carries what his phone must know: the keys of what he may read (the topmost first), the key that proves
boot files, who he is in the roster, his positions, and the key that locks his quiz results.
"""

from __future__ import annotations

import json
from base64 import b64decode, b64encode
from binascii import Error as NotBase64
from collections.abc import Callable
from dataclasses import dataclass

from generator.vault.cipher import KEY_BYTES, NONCE_BYTES, POINT_BYTES, TAG_BYTES, NotOpened, lock, unlock

PAYLOAD_BYTES = 384
WRAP_BYTES = NONCE_BYTES + PAYLOAD_BYTES + TAG_BYTES
ALL_SEATS_MULTIPLE = 16
LONGEST_WHO = 48  # bytes


@dataclass(frozen=True, slots=True)
class Payload:
    """`keys`: (audience id, 32-byte content key), what is looked at first stands first. `result_id`: 8 hex digits."""

    staff: bool
    keys: tuple[tuple[str, bytes], ...]
    public: bytes
    who: str
    positions: tuple[int, ...]
    result_id: str
    result_key: bytes


def encode_payload(payload: Payload) -> bytes:
    """384 bytes of JSON and blanks."""
    if len(payload.who.encode()) > LONGEST_WHO:
        raise ValueError(f"a roster key has at most {LONGEST_WHO} bytes: {payload.who!r}")
    text = json.dumps(
        {
            "v": 1, "a": "s" if payload.staff else "p", "k": [[a, _text(k)] for a, k in payload.keys],
            "p": _text(payload.public), "w": payload.who, "n": list(payload.positions),
            "i": payload.result_id, "r": _text(payload.result_key),
        },
        ensure_ascii=False, separators=(",", ":"),
    ).encode()
    if len(text) > PAYLOAD_BYTES:
        raise ValueError("a seat's payload does not fit")
    return text.ljust(PAYLOAD_BYTES)


def decode_payload(raw: bytes) -> Payload:
    """The payload, or NotOpened."""
    try:
        d = json.loads(raw)
        keys = tuple((str(a), b64decode(k, validate=True)) for a, k in d["k"])
        payload = Payload(
            d["a"] == "s", keys, b64decode(d["p"], validate=True), str(d["w"]), tuple(int(n) for n in d["n"]),
            str(d["i"]), b64decode(d["r"], validate=True),
        )
    except (ValueError, KeyError, TypeError, RecursionError, NotBase64):
        raise NotOpened("not a seat's payload") from None
    sizes = {len(k) for _, k in keys} | {len(payload.result_key)}
    if d.get("v") != 1 or sizes != {KEY_BYTES} or len(payload.public) != POINT_BYTES:
        raise NotOpened("not a seat's payload of this version")
    return payload


def wrap(key: bytes, seat: str, payload: bytes, nonce: bytes) -> bytes:
    """The seat's entry. The nonce is random, and may be used again only for the same payload."""
    return nonce + lock(key, nonce, payload, _bound(seat))


def unwrap(key: bytes, seat: str, entry: bytes) -> Payload:
    """What the seat holds, or NotOpened."""
    if len(entry) != WRAP_BYTES:
        raise NotOpened("not a seat")
    return decode_payload(unlock(key, entry[:NONCE_BYTES], entry[NONCE_BYTES:], _bound(seat)))


def dummy_seat(entropy: Callable[[int], bytes]) -> tuple[str, bytes]:
    """A seat nobody has: random id, random entry. Without the key it cannot be told from a real one."""
    return entropy(16).hex(), entropy(WRAP_BYTES)


def seats_shown(people: int) -> int:
    """How many entries a boot file shows for that many people."""
    return max(1, -(-people // ALL_SEATS_MULTIPLE)) * ALL_SEATS_MULTIPLE


def _bound(seat: str) -> bytes:
    return f"secondside/1 seat {seat}".encode()


def _text(raw: bytes) -> str:
    return b64encode(raw).decode()
