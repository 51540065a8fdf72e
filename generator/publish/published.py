"""What a target shows now, read with our own keys: counter, seats, manifests. Refuses what is not ours."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.publish.private_state import PrivateState
from generator.publish.targets import BLOBS, BOOT, Target
from generator.vault.blob import Blob, audience_key
from generator.vault.boot import SignedBoot, read_boot
from generator.vault.cipher import NotOpened, public_point
from generator.vault.manifest import Manifest, open_manifest


class NotOurs(Exception):
    """The target holds another book's site, or seats this computer has never heard of."""


@dataclass(frozen=True, slots=True)
class Published:
    """`heads` and `manifests` by audience id, `head_keys` the ids of the keys that open them. All empty for a new target."""

    target: Target
    boot: SignedBoot | None = None
    heads: Mapping[str, str] = field(default_factory=dict)
    manifests: Mapping[str, Manifest] = field(default_factory=dict)
    head_keys: Mapping[str, str] = field(default_factory=dict)

    @property
    def counter(self) -> int:
        """The boot file's counter; 0 when there is none."""
        return self.boot.boot.counter if self.boot else 0

    def blob(self, name: str) -> bytes | None:
        """A sealed blob of the target."""
        return self.target.read(BLOBS + name)

    def shows(self, heads: Mapping[str, str], seats: Mapping[str, bytes], salt: bytes, rounds: int) -> bool:
        """True when the boot file there already says exactly this."""
        if not self.boot:
            return False
        there = self.boot.boot
        return (there.heads, there.seats, there.salt, there.rounds) == (heads, seats, salt, rounds)


def read_published(target: Target, state: PrivateState, forget_unknown: bool = False) -> Published:
    """What the target shows; NotOurs when going on would overwrite another book, or drop seats given out elsewhere."""
    raw = target.read(BOOT)
    if raw is None:
        return Published(target)
    try:
        signed = read_boot(raw)
    except NotOpened:
        return Published(target)  # damaged beyond reading: nobody's phone follows it either
    if not signed.is_from(public_point(state.signer)):
        raise NotOurs("the site there was published with another private state: choose another place, or restore that state")
    unknown = set(signed.boot.seats) - _known(state)
    if unknown and not forget_unknown:
        raise NotOurs(
            f"{len(unknown)} access codes on the site are unknown on this computer: restore the newest backup first, "
            "or publish with --forget-unknown to shut them out"
        )
    found = {a.id: _manifest(target, signed.boot.heads.get(a.id, ""), (a.current, *a.old)) for a in (state.players, state.staff)}
    opened = {a: both for a, both in found.items() if both}
    return Published(
        target, signed, dict(signed.boot.heads), {a: m for a, (m, _) in opened.items()}, {a: k for a, (_, k) in opened.items()}
    )


def _known(state: PrivateState) -> set[str]:
    return {p.seat for p in state.people} | {seat for seat, _ in state.dummies} | set(state.dropped)


def _manifest(target: Target, head: str, keys: tuple[bytes, ...]) -> tuple[Manifest, str] | None:
    data = target.read(BLOBS + head) if head else None
    for key in map(audience_key, keys if data is not None else ()):
        try:
            return open_manifest(key, Blob(head, data or b"")), key.id
        except NotOpened:
            continue
    return None
