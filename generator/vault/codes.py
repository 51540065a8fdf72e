"""Access codes: 80 random bits that a person can read out, type and scan.

Generated, never chosen: a published site can be guessed at offline for ever, and 2^80 tries are out of reach.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from dataclasses import dataclass

from generator.vault.cipher import derive, stretch

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # Crockford's 32: no I, L, O, U
CODE_BYTES = 10
GROUP = 4
ROUNDS = 600_000  # OWASP's floor for PBKDF2-HMAC-SHA256
SALT_BYTES = 16
_SLIPS = str.maketrans({"o": "0", "i": "1", "l": "1"})
_DROPPED = str.maketrans("", "", " -\u2010\u2011\u2012\u2013\u2014\u2212\t\r\n")


@dataclass(frozen=True, slots=True)
class SeatKey:
    """What a code gives: which seat is his (32 hex digits) and the key that opens it."""

    seat: str
    key: bytes


def new_code(entropy: Callable[[int], bytes]) -> str:
    """A fresh code, `XXXX-XXXX-XXXX-XXXX`."""
    number = int.from_bytes(entropy(CODE_BYTES), "big")
    letters = "".join(ALPHABET[(number >> shift) & 31] for shift in range(8 * CODE_BYTES - 5, -1, -5))
    return "-".join(letters[i : i + GROUP] for i in range(0, len(letters), GROUP))


def normalised(code: str) -> str:
    """The one spelling that is stretched: what people mistype on paper or screen is forgiven."""
    return unicodedata.normalize("NFKC", code).lower().translate(_DROPPED).translate(_SLIPS)


def seat_key(code: str, salt: bytes, rounds: int = ROUNDS) -> SeatKey:
    """One slow derivation finds the seat and its key; the seat id does not say whose it is."""
    master = stretch(normalised(code).encode(), salt, rounds)
    return SeatKey(derive(master, "secondside/1 seat id", 16).hex(), derive(master, "secondside/1 seat key"))
