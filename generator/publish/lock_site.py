"""Prepared files and the private state become blobs and a boot file, as far as possible the same ones as last time."""

from __future__ import annotations

import hashlib
import secrets
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from generator.publish.prepare import media_type
from generator.publish.private_state import Audience, Person, PrivateState
from generator.publish.published import Published
from generator.vault.blob import AudienceKey, Blob, audience_key, seal
from generator.vault.boot import Boot, write_boot
from generator.vault.cipher import NONCE_BYTES, public_point
from generator.vault.manifest import Entry, Manifest, open_manifest, seal_manifest
from generator.vault.seats import Payload, dummy_seat, encode_payload, wrap

GENERATIONS_KEPT = 3

Progress = Callable[[str, int, int], None]


@dataclass(frozen=True, slots=True)
class Locked:
    """`blobs`: all of this generation; `kept`: names that earlier generations still need; `boot`: None when nothing changed."""

    blobs: Mapping[str, bytes]
    kept: frozenset[str]
    boot: bytes | None
    state: PrivateState


@dataclass(frozen=True, slots=True)
class _Shelf:
    head: str
    blobs: Mapping[str, bytes]
    kept: frozenset[str]


def lock_site(
    players: Mapping[str, bytes], staff: Mapping[str, bytes], state: PrivateState, published: Published,
    entropy: Callable[[int], bytes] = secrets.token_bytes, progress: Progress = lambda *_: None,
) -> Locked:
    """The locked form of a site: `players` are the files every seat may open, `staff` those for staff seats only."""
    counter = max(state.counter, published.counter) + 1
    total = len(players) + len(staff)
    told = _count(progress, total)
    shelves = {
        audience.id: _lock_audience(files, audience, published, counter, told)
        for audience, files in ((state.players, players), (state.staff, staff))
    }
    seated = _seated(state, entropy)
    heads = {audience: shelf.head for audience, shelf in shelves.items()}
    seats = {p.seat: p.wrap for p in seated.people} | dict(seated.dummies)
    blobs = {name: data for shelf in shelves.values() for name, data in shelf.blobs.items()}
    kept = frozenset().union(*(shelf.kept for shelf in shelves.values()))
    if published.shows(heads, seats, state.salt, state.rounds):
        return Locked(blobs, kept, None, replace(seated, counter=max(state.counter, published.counter)))
    boot = write_boot(Boot(counter, state.salt, state.rounds, heads, seats), state.signer)
    return Locked(blobs, kept, boot, replace(seated, counter=counter))


def _lock_audience(
    files: Mapping[str, bytes], audience: Audience, published: Published, counter: int, told: Callable[[], None]
) -> _Shelf:
    keys = {k.id: k for k in map(audience_key, (audience.current, *audience.old))}
    current = audience_key(audience.current)
    secrets_by_id = {audience_key(k).id: k for k in audience.old}
    last = published.manifests.get(audience.id)
    before = last.files if last else {}
    blobs, entries = {}, {}
    for path, content in sorted(files.items()):
        blob, key = _same_or_new(content, before.get(path), keys, current)
        blobs[blob.name] = blob.data
        entries[path] = Entry(blob.name, key.id, media_type(path), len(content))
        told()
    old = {e.key: secrets_by_id[e.key] for e in entries.values() if e.key != current.id}
    head = published.heads.get(audience.id, "")
    if last and last.files == entries and last.old_keys == old and published.head_keys.get(audience.id) == current.id:
        sealed = seal_manifest(current, last)
        if sealed.name == head:
            return _Shelf(head, blobs | {head: sealed.data}, _needed(last, keys, published))
    earlier = () if not last else ((head, published.head_keys[audience.id]), *last.before)
    manifest = Manifest(counter, entries, old, earlier[: GENERATIONS_KEPT - 1])
    sealed = seal_manifest(current, manifest)
    return _Shelf(sealed.name, blobs | {sealed.name: sealed.data}, _needed(manifest, keys, published))


def _same_or_new(content: bytes, last: Entry | None, keys: Mapping[str, AudienceKey], current: AudienceKey) -> tuple[Blob, AudienceKey]:
    """An unchanged file stays under the key it was locked with; after a key change only what changes gets the new one."""
    if last and last.key in keys and last.key != current.id:
        blob = seal(keys[last.key], content)
        if blob.name == last.blob:
            return blob, keys[last.key]
    return seal(current, content), current


def _needed(manifest: Manifest, keys: Mapping[str, AudienceKey], published: Published) -> frozenset[str]:
    """Every blob of the earlier generations that `manifest` names, as far as they are still there."""
    names: set[str] = set()
    for head, key in manifest.before:
        data = published.blob(head)
        if data is None or key not in keys:
            continue
        names.add(head)
        names.update(e.blob for e in open_manifest(keys[key], Blob(head, data)).files.values())
    return frozenset(names)


def _seated(state: PrivateState, entropy: Callable[[int], bytes]) -> PrivateState:
    """The state with everybody's entry. Either all entries are the ones published last, or all are made afresh, dummies too:
    one that changed alone would show a stranger that somebody sits there, and when his positions or his card changed."""
    payloads = [_payload(p, state) for p in state.people]
    digests = [hashlib.sha256(p.seat.encode() + payload).hexdigest() for p, payload in zip(state.people, payloads, strict=True)]
    if all(p.wrap and p.wrapped == digest for p, digest in zip(state.people, digests, strict=True)):
        return state
    people = tuple(
        replace(p, wrap=wrap(p.key, p.seat, payload, entropy(NONCE_BYTES)), wrapped=digest)
        for p, payload, digest in zip(state.people, payloads, digests, strict=True)
    )
    return replace(state, people=people, dummies=tuple((seat, dummy_seat(entropy)[1]) for seat, _ in state.dummies))


def _payload(person: Person, state: PrivateState) -> bytes:
    players, staff = ((a.id, a.current) for a in (state.players, state.staff))
    return encode_payload(
        Payload(
            person.staff, (staff, players) if person.staff else (players,), public_point(state.signer), person.who,
            person.positions, person.result_id, person.result_key,
        )
    )


def _count(progress: Progress, total: int) -> Callable[[], None]:
    done = 0

    def told() -> None:
        nonlocal done
        done += 1
        progress("locking", done, total)

    return told
