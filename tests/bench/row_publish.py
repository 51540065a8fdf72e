"""What the lock costs: a page that is opened against the same page in the clear, unlocking, locking, and what one change uploads."""

from __future__ import annotations

import functools
import http.server
import sys
import tempfile
import threading
import time
from contextlib import contextmanager
from pathlib import Path
from statistics import median

from tests.bench.big_book import change_one_play, write_big_book

KEYS = ("sealed-load", "unlock", "lock", "upload")
ROUNDS, PAGES, UNLOCKS = 3, 20, 5


def measure(wanted: set[str]) -> dict[str, float]:
    """One book of 60 plays for all of it."""
    from generator.mkdocs_plugin import build_site
    from generator.publish.people import add_person, new_state

    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        book = write_big_book(home / "book", 60)
        state, codes = new_state(), []
        for i in range(12):
            state, person = add_person(state, f"player {i}", f"p{i}", (1 + i % 5,), False)
            codes.append(person.code)
        made = build_site(book, home / "site")
        start = time.perf_counter()
        _publish(home, made, state)
        found = {"lock": time.perf_counter() - start}
        if wanted & {"sealed-load", "unlock"} or not wanted & set(KEYS):
            found |= _in_browser(home, codes[0])
        change_one_play(book)
        found["upload"] = _publish(home, build_site(book, home / "site"), None).bytes_written / 1000
        return found


def _publish(home: Path, made, state):
    from generator.publish.built_site import BuiltSite
    from generator.publish.private_state import load_state
    from generator.publish.publish_site import publish_site
    from generator.publish.targets import FolderTarget

    site = BuiltSite(made.root, frozenset(made.staff_paths), frozenset(), frozenset(made.names))
    private = home / "private.json"
    return publish_site(site, FolderTarget(home / "web"), state or load_state(private), private)


def _in_browser(home: Path, code: str) -> dict[str, float]:
    from playwright.sync_api import sync_playwright

    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
    from tests.browser import CHROMIUM_FLAGS, find_chromium

    with sync_playwright() as playwright, _served(home / "web") as locked, _served(home / "site") as plain:
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=list(CHROMIUM_FLAGS))
        unlocks = [_unlock(browser, locked, code, home)[0] for _ in range(UNLOCKS)]
        _, sealed_page = _unlock(browser, locked, code, home)
        plain_page = browser.new_page(viewport={"width": 360, "height": 740})
        paths = [p.parent.name for p in sorted((home / "site").glob("*/index.html"))][:: max(1, 60 // PAGES)][:PAGES]
        ratios = []
        for _ in range(ROUNDS):  # one after the other, so that both meet the same machine
            both = [(_load(sealed_page, f"{locked}{p}/"), _load(plain_page, f"{plain}{p}/")) for p in paths]
            ratios.append(median(s for s, _ in both) / median(o for _, o in both))
        browser.close()
    return {"unlock": median(unlocks), "sealed-load": median(ratios)}


def _unlock(browser, address: str, code: str, home: Path):
    page = browser.new_context(viewport={"width": 360, "height": 740}).new_page()
    page.goto(address)
    page.wait_for_selector("#form:not([hidden])")
    page.fill("#code", code)
    start = time.perf_counter()
    page.click("#open")
    page.wait_for_selector("h1:not(#title)")
    spent = 1000 * (time.perf_counter() - start)
    for _ in range(400):
        if "Everything is on this phone" in page.inner_text("body"):
            break
        page.wait_for_timeout(50)
    return spent, page


def _load(page, address: str) -> float:
    page.goto(address, wait_until="load")
    return page.evaluate("performance.getEntriesByType('navigation')[0].loadEventEnd")


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_):
        """Measurements are not logged."""


@contextmanager
def _served(root: Path):
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Quiet, directory=str(root)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://localhost:{server.server_address[1]}/"
    finally:
        server.shutdown()
        server.server_close()
