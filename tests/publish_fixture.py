"""A small made-up site, a plain static host, and the shortcuts that the tests of vault, publish and shell share."""

from __future__ import annotations

import http.server
import threading
import time
from contextlib import contextmanager
from pathlib import Path
from typing import ClassVar

from browser import PATIENCE

from generator.publish.built_site import BuiltSite, words_of
from generator.publish.people import add_person, new_state
from generator.publish.publish_site import publish_site
from generator.publish.targets import BLOBS, BOOT, FolderTarget
from generator.vault.blob import Blob, audience_key, open_blob
from generator.vault.boot import read_boot
from generator.vault.codes import seat_key
from generator.vault.manifest import open_manifest
from generator.vault.seats import unwrap

QUICK = 2000  # rounds of stretching where a test is not about them
# Asks the worker as its pages do.
ASK = """(message) => new Promise((done) => { const c = new MessageChannel(); c.port1.onmessage = (e) => done(e.data);
  navigator.serviceWorker.controller.postMessage(message, [c.port2]); })"""

PAGE = """<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{title}</title>
<link rel="stylesheet" href="{up}assets/look.css"></head><body><h1>{title}</h1><nav><a href="{up}">Home</a> <a href="{up}q7f2/">Plays</a></nav>
<p>{text}</p><img src="{up}assets/court.svg" alt="court"><p id="from-script">waiting</p><p id="data">waiting</p>
<script type="module" src="{up}assets/main.js"></script></body></html>"""


def write_site(root: Path, extra: str = "") -> BuiltSite:
    """Pages for players and for staff; `extra` changes one page."""
    pages = {
        "index.html": ("Quarterdeck Home", "The lanternfish series begins on the weakside.", ""),
        "q7f2/index.html": ("Tidewater Over", f"Screener sets at the elbow for Hollis Brandywine. {extra}", "../"),
        "k3m9/index.html": ("Millwheel Under", "Never visited before, yet it opens without a signal.", "../"),
        "404.html": ("No such page", "Nothing lies here.", ""),
        "zz81/index.html": ("Answerkey Sheet", "Staffonly: Brandywine misses the hedgerow read.", "../"),
    }
    for path, (title, text, up) in pages.items():
        file = root / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(PAGE.format(title=title, text=text, up=up), encoding="utf-8")
    assets = root / "assets"
    assets.mkdir(exist_ok=True)
    (assets / "look.css").write_text("h1 { color: rgb(27, 79, 134); } body { background: url('court.svg'); }")
    (assets / "court.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="90" height="60"><rect width="90" height="60" fill="#eee"/></svg>'
    )
    (assets / "echo.js").write_text("onmessage = (e) => postMessage('heard ' + e.data);")
    (assets / "part.js").write_text("export const words = 'script ran';")
    (assets / "main.js").write_text(
        "import { words } from './part.js';\n"
        "document.getElementById('from-script').textContent = words;\n"
        "const up = document.querySelector('nav a').href;\n"
        "fetch(new URL('assets/bank.json', up)).then((r) => r.json()).then((d) => {\n"
        "  document.getElementById('data').textContent = d.answer; });\n"
    )
    (assets / "bank.json").write_text('{"answer": "bank loaded"}')
    (assets / "large.json").write_text('{"rows": [' + ",".join(str(i * 7919 % 10007) for i in range(4000)) + "]}")
    (root / "sitemap.xml").write_text(
        "<urlset><url><loc>http://localhost/</loc><lastmod>2026-01-01</lastmod></url><url><loc>http://localhost/q7f2/</loc></url></urlset>"
    )
    words = words_of(text for page in pages.values() for text in page)
    return BuiltSite(root, frozenset({"zz81/"}), words, frozenset({"Tidewater Over", "Hollis Brandywine", "Ada"}))


def seated_state(rounds: int = QUICK, players: int = 2, entropy=None):
    """A state with players and one coach: (state, codes of the players, code of the coach)."""
    given = {"entropy": entropy} if entropy else {}
    state = new_state(rounds=rounds, **given)
    codes = []
    for i in range(players):
        state, person = add_person(state, f"Player {i}", f"player-{i}", (1 + i % 5,), False, **given)
        codes.append(person.code)
    state, coach = add_person(state, "Coach", "coach", (), True, **given)
    return state, codes, coach.code


def tree(root: Path) -> dict[str, bytes]:
    return {p.relative_to(root).as_posix(): p.read_bytes() for p in root.rglob("*") if p.is_file()}


def opened(files: dict[str, bytes], code: str, public: bytes | None = None, rounds: int = QUICK) -> dict[str, bytes]:
    """The whole site as a reader with `code` sees it; fails on anything a phone would refuse."""
    signed = read_boot(files[BOOT])
    found = seat_key(code, signed.boot.salt, rounds)
    if found.seat not in signed.boot.seats:
        raise KeyError("no seat")
    payload = unwrap(found.key, found.seat, signed.boot.seats[found.seat])
    assert signed.is_from(public or payload.public)
    pages: dict[str, bytes] = {}
    for audience, content_key in reversed(payload.keys):
        key, head = audience_key(content_key), signed.boot.heads[audience]
        manifest = open_manifest(key, Blob(head, files[BLOBS + head]))
        keys = {key.id: key} | {i: audience_key(k) for i, k in manifest.old_keys.items()}
        for path, e in manifest.files.items():
            pages[path] = open_blob(keys[e.key], Blob(e.blob, files[BLOBS + e.blob]))
            assert len(pages[path]) == e.size
    return pages


def write_small_site(root: Path, extra: str = "") -> BuiltSite:
    """Two pages for players and one for staff: every kind of write of a publish, and few of each."""
    whole = write_site(root, extra)
    for path in sorted(root.rglob("*"), reverse=True):
        if path.is_file() and path.relative_to(root).as_posix() not in {"index.html", "q7f2/index.html", "zz81/index.html"}:
            path.unlink()
    return whole


class Published:
    """A site published into a folder, to be changed and published again."""

    def __init__(self, tmp: Path, rounds: int = QUICK, below: str = "", write=write_site) -> None:
        self.source, self.web, self.state_file = tmp / "built", tmp / "web", tmp / "private" / "state.json"
        self.out = self.web / below.strip("/") if below else self.web
        self.source.mkdir()
        self.state, self.codes, self.coach = seated_state(rounds)
        self.write = write
        self.site = write(self.source)

    def publish(self, extra: str = ""):
        """Publishes, with one page changed by `extra`."""
        from generator.publish.private_state import load_state

        self.site = self.write(self.source, extra)
        report = publish_site(self.site, FolderTarget(self.out), self.state, self.state_file)
        self.state = load_state(self.state_file)
        return report


class _Handler(http.server.SimpleHTTPRequestHandler):
    protocol_version = "HTTP/1.0"  # no line stays open, so a stopped host is really gone
    extensions_map: ClassVar[dict[str, str]] = {**http.server.SimpleHTTPRequestHandler.extensions_map, ".js": "text/javascript", ".webmanifest": "application/manifest+json"}

    def do_GET(self):
        owner = self.server.owner
        if "/_v/b/" in self.path and not owner.gate.is_set():
            owner.held.append(self.path)
            owner.gate.wait(60)
        super().do_GET()

    def log_message(self, *_):
        self.server.asked.append(self.path)

    def send_error(self, code, *_, **__):
        """As plain hosts do: the nearest 404.html above, with status 404."""
        parts = self.path.split("?")[0].split("/")[1:-1]
        for depth in range(len(parts), -1, -1):
            page = Path(self.directory, *parts[:depth], "404.html")
            if page.is_file():
                break
        body = page.read_bytes() if page.is_file() else b"nothing here"
        self.send_response(code)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(body)

    def end_headers(self):
        self.send_header("Cache-Control", self.server.owner.cache)
        super().end_headers()


class _Server(http.server.ThreadingHTTPServer):
    daemon_threads = True
    allow_reuse_address = True
    block_on_close = False

    def handle_error(self, *_):
        """A browser that goes elsewhere closes its line; that is no news."""


class Host:
    """A static host on a port of its own; `asked` is its log. `stop` and `start` are the host going and coming back.
    While `gate` is not set, locked files are `held` back."""

    def __init__(self, root: Path) -> None:
        self.root, self.asked, self.port, self.cache = root, [], 0, "max-age=600"
        self.held, self.gate = [], threading.Event()
        self.gate.set()
        self.start()

    def start(self):
        self.server = _Server(("127.0.0.1", self.port), lambda *a, **k: _Handler(*a, directory=str(self.root), **k))
        self.server.asked, self.server.owner = self.asked, self
        self.port = self.server.server_address[1]
        threading.Thread(target=self.server.serve_forever, args=(0.02,), daemon=True).start()

    def stop(self):
        self.server.shutdown()
        self.server.server_close()

    def url(self, path: str = "") -> str:
        return f"http://localhost:{self.port}/{path}"


@contextmanager
def hosted(root: Path):
    """A running host over `root`."""
    root.mkdir(parents=True, exist_ok=True)
    host = Host(root)
    try:
        yield host
    finally:
        host.stop()


def wait_until(page, check, seconds: float = 30.0):
    """Polls `check()` (a locked page's policy forbids waiting by evaluated text); what is not there yet counts as not yet."""
    end = time.monotonic() + seconds
    page.set_default_timeout(400)
    try:
        while time.monotonic() < end:
            try:
                if check():
                    return
            except Exception as problem:
                if not any(word in str(problem) for word in ("context", "navigat", "Timeout", "Failed to fetch")):
                    raise
            page.wait_for_timeout(50)
    finally:
        page.set_default_timeout(PATIENCE)
    raise AssertionError(f"waited in vain at {page.url}: {page.inner_text('body')[:400]!r}")


def open_book(page, host: Host, code: str, path: str = ""):
    """Goes to `path` and opens the book with a code."""
    page.goto(host.url(path))
    page.wait_for_selector("#form:not([hidden])")
    page.fill("#code", code)
    page.click("#open")
    page.wait_for_selector("h1:not(#title)")


def told(page, address: str) -> dict:
    """What the worker answers below `_v/`; nothing where it refuses."""
    return page.evaluate("(address) => fetch(address).then((r) => (r.ok ? r.json() : {}))", address)


def later(page):
    """A later visit: the worker was ended meanwhile, so it looks at the boot file again."""
    session = page.context.new_cdp_session(page)
    session.send("ServiceWorker.enable")
    session.send("ServiceWorker.stopAllWorkers")
    session.detach()


def wait_saved(page):
    """Waits until every page is kept on the phone."""
    wait_until(page, lambda: "Everything is on this phone" in page.inner_text("body"))


def wait_for_news(page, text: str):
    """Waits for `text` of a newer version: on a slow machine the page is quicker than the look at the boot file; then it offers
    the newer one, which is taken."""

    def there():
        if page.locator("button:text-is('Show it')").count():
            with page.expect_navigation():  # the page that goes away must not be read as the new one
                page.click("button:text-is('Show it')")
        return text in page.inner_text("body")

    wait_until(page, there)


@contextmanager
def shell_modules(browser, root: Path):
    """A page with the shell's modules at hand, as `window.core` and `window.book`."""
    from generator.publish.shell import module_text

    for name in ("core.js", "book.js"):
        (root / name).write_text(module_text(name))
    (root / "index.html").write_text("<title>modules</title>")
    with hosted(root) as host:
        page = browser.new_page()
        page.goto(host.url())
        page.evaluate("async () => { window.core = await import('/core.js'); window.book = await import('/book.js'); }")
        yield page
        page.close()
