"""Bytes a phone loads: a diagram, the largest play page."""

from __future__ import annotations

import gzip
import re
import tempfile
from pathlib import Path

from tests.bench.big_book import DEMO

KEYS = ("diagram", "play-page")
_DIAGRAM = re.compile(rb"<svg class=\"diagram\".*?</svg>", re.DOTALL)


def measure(wanted: set[str]) -> dict[str, float]:
    """Packed as a host packs them. A diagram's weight is its share of a page that holds all of a play's."""
    with tempfile.TemporaryDirectory() as folder:
        return _pages(Path(folder))


def _pages(folder: Path) -> dict[str, float]:
    from generator.mkdocs_plugin import build_site

    root = build_site(DEMO, folder / "demo").root
    pages = [p.read_bytes() for p in root.glob("*/index.html")]
    plays = [p for p in pages if b'<article class="play"' in p]
    shares = []
    for page in plays:
        diagrams = _DIAGRAM.findall(page)
        if diagrams:
            shares.append(_packed(b"".join(diagrams)) / len(diagrams))
    return {"diagram": max(shares), "play-page": max(map(_packed, plays)) / 1000}


def _packed(content: bytes) -> int:
    return len(gzip.compress(content, 9))
