"""The private state of a book: keys, seats and codes. Never published; readable by its owner alone.

Lies in `.secondside/private.json` inside the book's folder, with a `.gitignore` of its own, mode 600 in a folder of mode 700.
A backup is the same file elsewhere; restoring it on a second laptop hands the book over.
"""

from __future__ import annotations

import json
import os
from base64 import b64decode, b64encode
from dataclasses import dataclass, field
from pathlib import Path

from generator.publish.atomic_files import write_atomically
from generator.vault.cipher import KEY_BYTES, public_point
from generator.vault.codes import SALT_BYTES
from generator.vault.seats import WRAP_BYTES, seats_shown

FOLDER = ".secondside"
FILE = "private.json"
VERSION = 1


@dataclass(frozen=True, slots=True)
class Person:
    """Whoever has a seat. `who` is the roster key; `by_hand`: his positions were given with the code and no longer follow the
    roster; `wrap` is the entry last published and `wrapped` the payload's digest."""

    name: str
    who: str
    positions: tuple[int, ...]
    staff: bool
    code: str = field(repr=False)
    seat: str
    key: bytes = field(repr=False)
    result_id: str
    result_key: bytes = field(repr=False)
    by_hand: bool = False
    wrap: bytes = field(default=b"", repr=False)
    wrapped: str = ""


@dataclass(frozen=True, slots=True)
class PastResult:
    """A result key that is no longer given out; what it locked before may still come in."""

    result_id: str
    who: str
    key: bytes = field(repr=False)


@dataclass(frozen=True, slots=True)
class Audience:
    """`id` stands in the boot file; `current` locks what is new, `old` still opens what has not changed since."""

    id: str
    current: bytes = field(repr=False)
    old: tuple[bytes, ...] = field(default=(), repr=False)


@dataclass(frozen=True, slots=True)
class PrivateState:
    """Everything that a published site's readers must not have. `dropped`: seats taken away, by id;
    `address`: where the site lies, for the cards."""

    salt: bytes = field(repr=False)
    rounds: int
    signer: bytes = field(repr=False)
    players: Audience
    staff: Audience
    counter: int = 0
    people: tuple[Person, ...] = ()
    dummies: tuple[tuple[str, bytes], ...] = field(default=(), repr=False)
    dropped: tuple[str, ...] = ()
    past_results: tuple[PastResult, ...] = ()
    address: str = ""

    def person(self, name: str) -> Person | None:
        """The person of that name, letter case and spacing free."""
        wanted = " ".join(name.casefold().split())
        return next((p for p in self.people if " ".join(p.name.casefold().split()) == wanted), None)


class UnreadableState(Exception):
    """The file is there but is not a private state of this version."""


def state_path(book: Path) -> Path:
    """Where a book keeps its private state."""
    return book / FOLDER / FILE


def load_state(path: Path) -> PrivateState | None:
    """The state in the file; None when there is none."""
    if not path.exists():
        return None
    try:
        return decode_state(path.read_bytes())
    except (ValueError, KeyError, TypeError, RecursionError) as problem:
        raise UnreadableState(f"{path} is not a private state of this version") from problem


def save_state(path: Path, state: PrivateState) -> None:
    """Written beside, flushed, renamed: the old state stays whole if this fails."""
    if path.parent.name == FOLDER:
        private_folder(path.parent.parent)
    else:
        path.parent.mkdir(parents=True, exist_ok=True)
    write_atomically(path, encode_state(state), mode=0o600)


def private_folder(book: Path) -> Path:
    """The folder beside the book's texts that holds what is never published, made if it is not there."""
    folder = book / FOLDER
    folder.mkdir(parents=True, exist_ok=True)
    os.chmod(folder, 0o700)
    ignore = folder / ".gitignore"
    if not ignore.exists():
        write_atomically(ignore, b"*\n", mode=0o600)
    return folder


def encode_state(state: PrivateState) -> bytes:
    """The file's bytes: JSON, keys in base64."""
    d = {
        "version": VERSION, "salt": _text(state.salt), "rounds": state.rounds, "signer": _text(state.signer),
        "players": _audience(state.players), "staff": _audience(state.staff), "counter": state.counter,
        "people": [_person(p) for p in state.people], "dummies": [[s, _text(w)] for s, w in state.dummies],
        "dropped": list(state.dropped), "address": state.address,
        "past_results": [[r.result_id, r.who, _text(r.key)] for r in state.past_results],
    }
    return (json.dumps(d, ensure_ascii=False, indent=1) + "\n").encode()


def decode_state(raw: bytes) -> PrivateState:
    """The state of `encode_state`; ValueError, KeyError or TypeError otherwise."""
    d = json.loads(raw)
    if d["version"] != VERSION:
        raise ValueError("another version")
    state = PrivateState(
        salt=_raw(d["salt"]), rounds=int(d["rounds"]), signer=_raw(d["signer"]), counter=int(d["counter"]),
        players=_read_audience(d["players"]), staff=_read_audience(d["staff"]),
        people=tuple(map(_read_person, d["people"])), dummies=tuple((s, _raw(w)) for s, w in d["dummies"]),
        dropped=tuple(d["dropped"]), address=str(d["address"]),
        past_results=tuple(PastResult(i, w, _raw(k)) for i, w, k in d["past_results"]),
    )
    _refuse_damaged(state)
    return state


def _refuse_damaged(state: PrivateState) -> None:
    """A file edited by hand or cut short must not be published from: its site would open for nobody, or count the players."""
    public_point(state.signer)
    keys = [k for a in (state.players, state.staff) for k in (a.current, *a.old)]
    keys += [k for p in state.people for k in (p.key, p.result_key)] + [r.key for r in state.past_results]
    entries = [e for _, e in state.dummies] + [p.wrap for p in state.people if p.wrap]
    whole = (
        len(state.salt) == SALT_BYTES and state.rounds > 0 and state.counter >= 0 and state.players.id != state.staff.id
        and {len(k) for k in keys} == {KEY_BYTES} and {len(e) for e in entries} <= {WRAP_BYTES}
        and len(state.people) + len(state.dummies) >= seats_shown(len(state.people))
    )
    if not whole:
        raise ValueError("damaged")


def _audience(a: Audience) -> dict:
    return {"id": a.id, "current": _text(a.current), "old": [_text(k) for k in a.old]}


def _read_audience(d: dict) -> Audience:
    return Audience(d["id"], _raw(d["current"]), tuple(_raw(k) for k in d["old"]))


def _person(p: Person) -> dict:
    return {
        "name": p.name, "who": p.who, "positions": list(p.positions), "staff": p.staff, "code": p.code, "seat": p.seat,
        "key": _text(p.key), "result_id": p.result_id, "result_key": _text(p.result_key), "wrap": _text(p.wrap),
        "wrapped": p.wrapped, "by_hand": p.by_hand,
    }


def _read_person(d: dict) -> Person:
    return Person(
        d["name"], d["who"], tuple(int(n) for n in d["positions"]), bool(d["staff"]), d["code"], d["seat"],
        _raw(d["key"]), d["result_id"], _raw(d["result_key"]), bool(d["by_hand"]), _raw(d["wrap"]), d["wrapped"],
    )


def _text(raw: bytes) -> str:
    return b64encode(raw).decode()


def _raw(text: str) -> bytes:
    return b64decode(text, validate=True)
