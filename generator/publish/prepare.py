"""Finished files as they go under lock: a script for the open page, nothing that changes by the calendar, no source maps."""

from __future__ import annotations

import mimetypes
import re
from collections.abc import Mapping
from pathlib import Path

from generator.publish.built_site import BuiltSite
from generator.publish.shell import page_head

_HEAD = re.compile(rb"<head[^>]*>", re.IGNORECASE)
_LASTMOD = re.compile(rb"\s*<lastmod>[^<]*</lastmod>")
_LEFT_OUT = (".map", "sitemap.xml.gz")
_TYPES = {
    ".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
    ".json": "application/json", ".svg": "image/svg+xml", ".xml": "application/xml", ".txt": "text/plain; charset=utf-8",
    ".woff2": "font/woff2", ".webmanifest": "application/manifest+json",
}


def read_files(site: BuiltSite) -> Mapping[str, bytes]:
    """Every file that goes under lock, by its path from the site's root, prepared."""
    files = {}
    for path in sorted(site.root.rglob("*")):
        name = path.relative_to(site.root).as_posix()
        if path.is_file() and not name.endswith(_LEFT_OUT) and not name.startswith("_v/"):
            files[name] = prepared(name, path.read_bytes())
    return files


def prepared(path: str, content: bytes) -> bytes:
    """One file's bytes."""
    if path.endswith(".html"):
        up = "../" * path.count("/")
        return with_head(content, up)
    return _LASTMOD.sub(b"", content) if path == "sitemap.xml" else content


def with_head(page: bytes, up: str) -> bytes:
    """The page with the reader's script before anything else of its head, so that a code in the address goes first, and with the
    neutral name and icon it gets on a home screen."""
    tag = page_head(up).encode()
    head = _HEAD.search(page)
    return page[: head.end()] + tag + page[head.end() :] if head else tag + page


def media_type(path: str) -> str:
    """The type a browser is told."""
    return _TYPES.get(Path(path).suffix.lower()) or mimetypes.guess_type(path)[0] or "application/octet-stream"
