"""Where something is missing (no service worker, no https, no room, no memory, no host), the page says one honest sentence."""

from __future__ import annotations

import mimetypes

import pytest
from publish_fixture import Published, hosted, open_book, told, wait_until

pytestmark = pytest.mark.browser

NO_WORKER = "delete Navigator.prototype.serviceWorker;"


@pytest.fixture(scope="module")
def published(tmp_path_factory):
    made = Published(tmp_path_factory.mktemp("book"))
    made.publish()
    return made


@pytest.fixture
def host(published):
    with hosted(published.web) as running:
        yield running


def lead(page):
    return page.inner_text("#lead")


def settled(page):
    """Its own script has ended: one that is still at work when the page is replaced finds nothing to write to."""
    wait_until(page, lambda: page.inner_text("#from-script") == "script ran" and page.inner_text("#data") == "bank loaded")


def test_without_a_service_worker_the_book_can_be_read_once(published, host, phone):
    page = phone.new_page()
    errors = []
    page.on("pageerror", lambda problem: errors.append(str(problem)))
    page.add_init_script(NO_WORKER)
    page.goto(host.url("#/q7f2/"))
    page.wait_for_selector("#form:not([hidden])")
    assert "read it once" in page.inner_text("#note") and "own browser" in page.inner_text("#note")
    phone.grant_permissions(["clipboard-read", "clipboard-write"])
    page.click("text=Copy the address")
    page.wait_for_selector("button:text-is('Copied')")
    assert page.evaluate("navigator.clipboard.readText()") == host.url()
    page.fill("#code", "0000-0000-0000-0000")
    page.click("#open")
    wait_until(page, lambda: "does not open" in page.inner_text("#wrong"))
    host.asked.clear()
    page.fill("#code", published.codes[0])
    page.click("#open")
    page.wait_for_selector("text=Tidewater Over")
    settled(page)
    wait_until(page, lambda: page.evaluate("document.querySelector('img').complete"))
    assert page.evaluate("document.querySelector('img').naturalWidth") == 90
    assert page.evaluate("getComputedStyle(document.querySelector('h1')).color") == "rgb(27, 79, 134)"
    page.click("text=Home")
    page.wait_for_selector("text=Quarterdeck Home")
    settled(page)
    page.click("text=Plays")
    page.wait_for_selector("text=Tidewater Over")
    settled(page)
    assert told(page, "/_v/me")["who"] == "player-0"
    assert page.evaluate("fetch('/zz81/index.html').then((r) => r.status)") == 404
    assert page.evaluate("fetch('/_v/result', { method: 'POST', body: 'x' }).then((r) => r.json())")["line"]
    assert [p for p in host.asked if not p.startswith("/_v/")] == []
    assert errors == []
    page.reload()
    page.wait_for_selector("#form:not([hidden])")


def test_read_once_answers_requests_and_workers_of_the_page(published, host, phone):
    page = phone.new_page()
    page.add_init_script(NO_WORKER)
    open_book(page, host, published.codes[0])
    page.wait_for_selector("text=Quarterdeck Home")
    told = page.evaluate("""() => new Promise((done) => {
      const w = new Worker('/assets/echo.js'); w.onmessage = (e) => done(e.data); w.postMessage('hello'); })""")
    asked = page.evaluate("""() => new Promise((done) => {
      const x = new XMLHttpRequest(); x.open('GET', '/assets/bank.json'); x.onload = () => done(x.responseText); x.send(); })""")
    assert told == "heard hello" and asked == '{"answer": "bank loaded"}'


def test_plain_http_is_told(published, phone):
    """Browsers give no ciphers to a page of plain http unless it is this very machine."""
    page = phone.new_page()

    def serve(route):
        path = route.request.url.split("plays.example.org")[1].split("?")[0].lstrip("/") or "index.html"
        file = published.web / path
        kind = "text/javascript" if path.endswith(".js") else mimetypes.guess_type(path)[0] or "text/plain"
        if file.is_file():
            route.fulfill(status=200, content_type=kind, body=file.read_bytes())
        else:
            route.fulfill(status=404, body="")

    page.route("http://plays.example.org/**", serve)
    page.goto("http://plays.example.org/")
    wait_until(page, lambda: "begins with http" in lead(page) and "https" in lead(page))
    assert page.is_hidden("#form")


def test_a_file_opened_from_a_folder_is_told(published, phone):
    page = phone.new_page()
    page.goto((published.web / "index.html").as_uri())
    page.wait_for_selector("text=This file was opened from a folder")
    assert page.is_hidden("#form")


def test_without_scripts_it_says_so(published, host, chromium):
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(host.url())
    assert "needs JavaScript" in page.inner_text("body") and "Getting ready" not in page.inner_text("body")
    context.close()


def test_an_old_browser_is_told(published, host, phone):
    page = phone.new_page()
    page.add_init_script("delete globalThis.DecompressionStream;")
    page.goto(host.url())
    wait_until(page, lambda: "too old" in lead(page))


def test_a_host_that_is_gone_is_told(published, host, phone):
    page = phone.new_page()
    page.goto(host.url())
    page.wait_for_selector("#form:not([hidden])")
    host.stop()
    try:
        page.fill("#code", published.codes[0])
        page.click("#open")
        wait_until(page, lambda: "cannot be reached" in page.inner_text("#wrong"))
    finally:
        host.start()
    page.click("#open")
    page.wait_for_selector("text=Quarterdeck Home")


def test_a_window_that_keeps_nothing_is_told(published, phone, tmp_path):
    """As private windows of some phones do: the browser takes the key and forgets it."""
    web = spoilt(published, tmp_path, "IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); };")
    with hosted(web) as host:
        page = phone.new_page()
        page.goto(host.url())
        page.wait_for_selector("#form:not([hidden])")
        page.fill("#code", published.codes[0])
        page.click("#open")
        wait_until(page, lambda: "keeps nothing" in lead(page))
        page.click("text=Go on")
        page.wait_for_selector("text=Quarterdeck Home")
        wait_until(page, lambda: "keeps nothing" in page.inner_text("body"))


def test_a_full_phone_is_told_and_still_reads(published, phone, tmp_path):
    web = spoilt(published, tmp_path, "Cache.prototype.put = () => Promise.reject(new DOMException('full', 'QuotaExceededError'));")
    with hosted(web) as host:
        page = phone.new_page()
        open_book(page, host, published.codes[0])
        page.wait_for_selector("text=Quarterdeck Home")
        wait_until(page, lambda: "nearly full" in page.inner_text("body"))
        page.goto(host.url("k3m9/"))
        page.wait_for_selector("text=Millwheel Under")


def spoilt(published, tmp_path, script: str):
    """A copy of the published folder whose service worker meets a browser that refuses something."""
    import shutil

    web = tmp_path / "web"
    shutil.copytree(published.web, web)
    worker = web / "sw.js"
    worker.write_text(script + "\n" + worker.read_text())
    return web


def test_the_locked_page_fits_a_small_phone_and_reads_well(published, host, chromium):
    from axe_core_python.sync_playwright import Axe

    context = chromium.new_context(viewport={"width": 320, "height": 640}, bypass_csp=True)
    page = context.new_page()
    page.goto(host.url())
    page.wait_for_selector("#form:not([hidden])")
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    for box in page.evaluate("[...document.querySelectorAll('button:not([hidden]), input')].filter((e) => e.offsetParent).map((e) => e.offsetHeight)"):
        assert box >= 44
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        found = Axe().run(page)
        assert [v["id"] for v in found["violations"]] == []
    context.close()
