"""The manifest: which path of the site is which blob. Itself a blob; one per audience."""

from __future__ import annotations

import json
from base64 import b64decode, b64encode
from binascii import Error as NotBase64
from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.vault.blob import AudienceKey, Blob, open_blob, seal
from generator.vault.cipher import KEY_BYTES, NotOpened

VERSION = 1


@dataclass(frozen=True, slots=True)
class Entry:
    """One file: its blob, the id of the key that opens it, its media type, its size when open."""

    blob: str
    key: str
    media: str
    size: int


@dataclass(frozen=True, slots=True)
class Manifest:
    """`generation` grows with every change of it. `old_keys`: content keys, by id, that unchanged blobs are still under.
    `before`: earlier manifests whose blobs are kept, (blob, key id), latest first."""

    generation: int
    files: Mapping[str, Entry]
    old_keys: Mapping[str, bytes] = field(default_factory=dict)
    before: tuple[tuple[str, str], ...] = ()


def seal_manifest(key: AudienceKey, manifest: Manifest) -> Blob:
    """The manifest's blob under the audience's current key."""
    keys = [key.id, *sorted(manifest.old_keys)]
    types = sorted({e.media for e in manifest.files.values()})
    files = {
        path: [e.blob, keys.index(e.key), types.index(e.media), e.size] for path, e in sorted(manifest.files.items())
    }
    text = json.dumps(
        {
            "v": VERSION, "g": manifest.generation, "kids": keys, "types": types, "files": files,
            "keys": {k: b64encode(v).decode() for k, v in sorted(manifest.old_keys.items())},
            "before": [list(b) for b in manifest.before],
        },
        ensure_ascii=False, separators=(",", ":"),
    )
    return seal(key, text.encode(), manifest=True)


def open_manifest(key: AudienceKey, blob: Blob) -> Manifest:
    """The manifest, or NotOpened."""
    raw = open_blob(key, blob, manifest=True)
    try:
        d = json.loads(raw)
        files = {p: Entry(b, d["kids"][k], d["types"][t], int(s)) for p, (b, k, t, s) in d["files"].items()}
        old = {k: b64decode(v, validate=True) for k, v in d["keys"].items()}
        manifest = Manifest(int(d["g"]), files, old, tuple((b, k) for b, k in d["before"]))
    except (ValueError, KeyError, IndexError, TypeError, AttributeError, RecursionError, NotBase64):
        raise NotOpened("not a manifest") from None
    if d.get("v") != VERSION or any(len(k) != KEY_BYTES for k in old.values()):
        raise NotOpened("not a manifest of this version")
    return manifest
