"""One publish: read what is there, lock, scan, write blobs first and the boot file last.

Stops before writing anything when the target is not ours, holds strange files, or the scan finds something readable.
"""

from __future__ import annotations

import json
import secrets
from base64 import b64encode
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.publish.built_site import BuiltSite
from generator.publish.leak_scan import Leak, scan
from generator.publish.lock_site import Locked, lock_site
from generator.publish.prepare import read_files
from generator.publish.private_state import PrivateState, save_state
from generator.publish.published import NotOurs, read_published
from generator.publish.shell import shell_files, shell_hashes
from generator.publish.targets import BLOBS, BOOT, Progress, Target, is_left_over
from generator.vault.blob import audience_key

STAFF_PEOPLE = "_people.json"  # in the staff's tree only


class StrangeFiles(Exception):
    """The target holds files that no publish of ours wrote; they would be readable by everyone."""


class Leaks(Exception):
    """The scan found something readable."""

    def __init__(self, leaks: tuple[Leak, ...]) -> None:
        super().__init__("; ".join(f"{leak.path} {leak.why}" for leak in leaks[:5]))
        self.leaks = leaks


@dataclass(frozen=True, slots=True)
class PublishReport:
    """`changed`: phones will notice; `files`: locked files of this version; of them `new_blobs`, and `bytes_written`, are what a host
    must be sent, `removed` what it must lose."""

    changed: bool
    new_blobs: int
    bytes_written: int
    files: int
    counter: int
    removed: int


def publish_site(
    site: BuiltSite, target: Target, state: PrivateState, state_file: Path, forget_unknown: bool = False,
    entropy: Callable[[int], bytes] = secrets.token_bytes, progress: Progress = lambda *_: None,
) -> PublishReport:
    """Publishes the site. The new private state is saved before anything is written, so no seat is ever on the host only."""
    there = target.names()
    _refuse_strangers(there)
    published = read_published(target, state, forget_unknown)
    players, staff = _by_audience(site, state)
    locked = lock_site(players, staff, state, published, entropy, progress)
    files = _to_write(locked, target)
    gone = _gone(there, locked)
    progress("scanning", 0, 1)
    _stop_leaks(target, there, files, locked, gone, site)
    save_state(state_file, locked.state)
    target.commit(files, locked.boot, gone, progress)
    written = sum(map(len, files.values())) + len(locked.boot or b"")
    return PublishReport(
        locked.boot is not None, sum(path.startswith(BLOBS) for path in files), written, len(locked.blobs),
        locked.state.counter, len(gone),
    )


def _by_audience(site: BuiltSite, state: PrivateState) -> tuple[Mapping[str, bytes], Mapping[str, bytes]]:
    files = read_files(site)
    players = {path: content for path, content in files.items() if not site.is_staff(path)}
    staff = {path: content for path, content in files.items() if site.is_staff(path)}
    return players, {**staff, STAFF_PEOPLE: _people_file(state)}


def _people_file(state: PrivateState) -> bytes:
    """What a staff phone needs to open quiz results: who made them, and with which key. `old`: the card has been replaced."""
    rows = [
        {"id": p.result_id, "who": p.who, "positions": list(p.positions), "key": b64encode(p.result_key).decode()}
        for p in sorted(state.people, key=lambda p: p.result_id)
    ]
    past = [{"id": r.result_id, "who": r.who, "key": b64encode(r.key).decode(), "old": True} for r in state.past_results]
    return json.dumps({"version": 1, "people": rows + past}, ensure_ascii=False, separators=(",", ":")).encode()


def _refuse_strangers(there: frozenset[str]) -> None:
    fresh = not any(p.startswith("_v/") for p in there)  # nothing of ours yet: an index.html there is somebody's own page
    strange = sorted(
        p for p in there if (fresh or p not in shell_files()) and not p.startswith("_v/") and not is_left_over(p)
    )
    if strange:
        listed = ", ".join(strange[:5]) + (f" and {len(strange) - 5} more" if len(strange) > 5 else "")
        raise StrangeFiles(f"files that do not belong to a published site lie there: {listed}. Choose an empty folder")


def _to_write(locked: Locked, target: Target) -> Mapping[str, bytes]:
    """Blobs first, then the plain files, the page itself last of them; nothing that is already there byte for byte."""
    shell = dict(sorted(shell_files().items(), key=lambda item: (item[0].endswith(".html"), item[0] == "sw.js", item[0])))
    wanted = {**{BLOBS + name: data for name, data in sorted(locked.blobs.items())}, **shell}
    return {path: content for path, content in wanted.items() if target.read(path) != content}


def _gone(there: frozenset[str], locked: Locked) -> frozenset[str]:
    """What nobody needs any more: old blobs, leftovers of a killed run, plain files of an older version of ours."""
    stays = {BLOBS + name for name in (*locked.blobs, *locked.kept)} | set(shell_files()) | {BOOT}
    return frozenset(p for p in there if p not in stays)


def _stop_leaks(
    target: Target, there: frozenset[str], files: Mapping[str, bytes], locked: Locked, gone: frozenset[str], site: BuiltSite
) -> None:
    stays = {path: target.read(path) or b"" for path in there - gone - set(files)}
    tree = {**stays, **files, **({BOOT: locked.boot} if locked.boot is not None else {})}
    state = locked.state
    keys = [audience_key(k) for a in (state.players, state.staff) for k in (a.current, *a.old)]
    leaks = scan(tree, shell_hashes(), keys, site.words | site.names)
    if leaks:
        raise Leaks(leaks)


__all__ = ["Leaks", "NotOurs", "PublishReport", "StrangeFiles", "publish_site"]
