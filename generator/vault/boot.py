"""The boot file: the one file that changes in place. Says where each audience's manifest is, and holds the seats.

Only a boot file signed by the book's own key may change anything on a phone. The body is signed as the exact text that
stands in the file, so nobody has to agree on a spelling of JSON.
"""

from __future__ import annotations

import json
import re
from base64 import b64decode, b64encode
from binascii import Error as NotBase64
from collections.abc import Mapping
from dataclasses import dataclass

from generator.vault.cipher import NotOpened, is_signed, sign
from generator.vault.seats import WRAP_BYTES

VERSION = 1
HIGHEST_COUNTER = 2**48
LARGEST = 1_000_000  # bytes
_NAME = re.compile(r"[0-9a-f]{32}\Z")
_AUDIENCE = re.compile(r"[0-9a-f]{4}\Z")


@dataclass(frozen=True, slots=True)
class Boot:
    """`counter` grows with every change; `heads`: audience id -> manifest's blob; `seats`: seat id -> entry."""

    counter: int
    salt: bytes
    rounds: int
    heads: Mapping[str, str]
    seats: Mapping[str, bytes]


@dataclass(frozen=True, slots=True)
class SignedBoot:
    """A boot as read from a file, with what its signature covers."""

    boot: Boot
    body: str
    signature: bytes

    def is_from(self, public: bytes) -> bool:
        """True when the holder of `public`'s private half signed it."""
        return is_signed(public, _signed_text(self.body), self.signature)


def write_boot(boot: Boot, signer: bytes) -> bytes:
    """The boot file as bytes, signed."""
    body = body_of(boot)
    return packed(body, sign(signer, _signed_text(body)))


def body_of(boot: Boot) -> str:
    """The text that is signed."""
    return json.dumps(
        {
            "v": VERSION, "n": boot.counter, "kdf": {"i": boot.rounds, "s": b64encode(boot.salt).decode()},
            "heads": dict(sorted(boot.heads.items())),
            "seats": {seat: b64encode(entry).decode() for seat, entry in sorted(boot.seats.items())},
        },
        separators=(",", ":"),
    )


def packed(body: str, signature: bytes) -> bytes:
    """Body and signature as they lie in the file."""
    return json.dumps({"v": VERSION, "body": body, "sig": b64encode(signature).decode()}, separators=(",", ":")).encode()


def read_boot(raw: bytes) -> SignedBoot:
    """A well-formed boot file, its signature not yet checked; else NotOpened."""
    if len(raw) > LARGEST:
        raise NotOpened("too long for a boot file")
    try:
        outer = json.loads(raw)
        body, signature = outer["body"], b64decode(outer["sig"], validate=True)
        d = json.loads(body)
        boot = Boot(
            d["n"], b64decode(d["kdf"]["s"], validate=True), d["kdf"]["i"], dict(d["heads"]),
            {seat: b64decode(entry, validate=True) for seat, entry in d["seats"].items()},
        )
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError, NotBase64):
        raise NotOpened("not a boot file") from None
    if outer.get("v") != VERSION or d.get("v") != VERSION or not _well_formed(boot):
        raise NotOpened("not a boot file of this version")
    return SignedBoot(boot, body, signature)


def _well_formed(boot: Boot) -> bool:
    whole = (type(boot.counter) is int and 0 < boot.counter < HIGHEST_COUNTER
             and type(boot.rounds) is int and 0 < boot.rounds <= 10_000_000 and len(boot.salt) == 16)
    heads = all(_AUDIENCE.match(a) and isinstance(h, str) and _NAME.match(h) for a, h in boot.heads.items())
    return whole and heads and all(_NAME.match(s) and len(e) == WRAP_BYTES for s, e in boot.seats.items())


def _signed_text(body: str) -> bytes:
    return f"secondside/1 boot\n{body}".encode("utf-8", "surrogatepass")
