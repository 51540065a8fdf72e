"""Cold builds, builds after one changed play, the same pages by MkDocs alone, the preview, memory at 2,000 plays."""

from __future__ import annotations

import gzip
import re
import shutil
import tempfile
from pathlib import Path
from time import process_time

from tests.bench.big_book import change_one_play, write_big_book
from tests.bench.builds import build, run

KEYS = ("build-ratio", "cold-play", "change-60", "change-500", "change-preview", "search", "memory")
_BODY = re.compile(r'<article class="md-content__inner md-typeset">(.*?)</article>\s*</div>', re.DOTALL)


def measure(wanted: set[str]) -> dict[str, float]:
    """Costs are CPU seconds; one run each."""
    asked = wanted & set(KEYS) or set(KEYS)
    found: dict[str, float] = {}
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        if asked & {"build-ratio", "cold-play", "change-60", "change-preview"}:
            found |= _sixty(home, asked)
        if asked & {"change-500", "search"}:
            found |= _five_hundred(home)
        if "memory" in asked:
            found["memory"] = _memory(home)
    return found


def _sixty(home: Path, asked: set[str]) -> dict[str, float]:
    book = write_big_book(home / "sixty", 60)
    cold = build(book, home / "site", home / "cache").seconds
    found = {"cold-play": 1000 * cold / 60}
    if "build-ratio" in asked:
        again = build(book, home / "site", home / "cache").seconds
        found["build-ratio"] = again / _alone(home / "site", home / "alone")
    if "change-60" in asked:
        change_one_play(book)
        found["change-60"] = build(book, home / "site", home / "cache").seconds / cold
    if "change-preview" in asked:
        found["change-preview"] = _preview(book, home) / cold
    return found


def _alone(site: Path, place: Path) -> float:
    """The very same page bodies as Markdown files under the stock theme with search, by MkDocs and nothing else."""
    docs = place / "docs"
    shutil.rmtree(place, ignore_errors=True)
    docs.mkdir(parents=True)
    count = 0
    for page in sorted(site.rglob("index.html")):
        body = _BODY.search(page.read_text(encoding="utf-8"))
        name = page.parent.relative_to(site).as_posix().replace("/", "-").replace(".", "index")
        text = "\n".join(line for line in body.group(1).splitlines() if line.strip())
        (docs / f"{name}.md").write_text(f"<div>\n{text}\n</div>\n", encoding="utf-8")
        count += 1
    assert count > 60
    (place / "mkdocs.yml").write_text(
        "site_name: alone\nsite_url: http://127.0.0.1:8000/\nnav: [index.md]\nnot_in_nav: '*.md'\n"
        "theme: {name: material, font: false, features: [navigation.instant, navigation.prune]}\nplugins: [search]\n"
    )
    return run(["-m", "mkdocs", "build", "-q", "-f", str(place / "mkdocs.yml"), "-d", str(place / "site")]).seconds


def _preview(book: Path, home: Path) -> float:
    """A changed play in a process that has built the book before."""
    from generator.mkdocs_plugin import rebuild

    rebuild(book, home / "preview")
    change_one_play(book)
    before = process_time()
    rebuild(book, home / "preview")
    return process_time() - before


def _five_hundred(home: Path) -> dict[str, float]:
    book = write_big_book(home / "five-hundred", 500)
    cold = build(book, home / "large", home / "large-cache").seconds
    search = len(gzip.compress((home / "large" / "search" / "search_index.json").read_bytes(), 9)) / 1000
    change_one_play(book)
    warm = build(book, home / "large", home / "large-cache").seconds
    return {"change-500": warm / cold, "search": search}


def _memory(home: Path) -> float:
    book = write_big_book(home / "two-thousand", 2000)
    peak = build(book, home / "huge", home / "huge-cache").peak
    pages = sum(1 for _ in (home / "huge").rglob("index.html"))
    return peak / (0.3 * pages + 50)
