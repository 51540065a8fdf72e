"""Hosts and networks that answer with something else, and what happens on the phone at the same moment."""

from __future__ import annotations

import pytest
from publish_fixture import (
    ASK,
    Published,
    hosted,
    later,
    open_book,
    told,
    wait_for_news,
    wait_saved,
    wait_until,
)

from generator.publish.private_state import load_state
from generator.publish.publish_site import publish_site
from generator.publish.targets import FolderTarget

pytestmark = pytest.mark.browser
KEPT = """async () => { const name = (await caches.keys()).find((n) => n.endsWith(':blobs'));
  return name ? (await (await caches.open(name)).keys()).length : 0; }"""


@pytest.fixture
def book(tmp_path):
    made = Published(tmp_path)
    made.publish()
    return made


@pytest.fixture
def host(book):
    with hosted(book.web) as running:
        running.cache = "no-store"  # else the browser's own cache answers for the host
        yield running


PAGE = b"<!doctype html><title>Welcome to our network</title><p>Please sign in."
AWKWARD = {
    "a page instead of it": lambda data: PAGE,
    "half of it": lambda data: data[: len(data) // 2],
    "nothing": lambda data: b"",
    "more than it": lambda data: data + b"\n<!-- added by the host -->",
}


@pytest.mark.parametrize("how", AWKWARD)
def test_a_host_that_answers_with_something_else_is_never_taken_for_the_page(book, host, phone, how):
    """As hotels, some proxies and hosts for one-page sites do: status 200 and another body."""
    page = phone.new_page()
    open_book(page, host, book.codes[0])
    wait_saved(page)
    good = {p: p.read_bytes() for p in (book.web / "_v/b").iterdir()}
    page.evaluate("async () => { await caches.delete((await caches.keys()).find((n) => n.endsWith(':blobs'))); }")
    for path, data in good.items():
        path.write_bytes(AWKWARD[how](data))
    later(page)
    page.goto(host.url("k3m9/"))
    wait_until(page, lambda: "not on this phone yet" in page.inner_text("#lead"))
    assert page.evaluate(ASK, {"do": "state"})["state"] == "open"
    assert page.evaluate(ASK, {"do": "state"})["kept"]["done"] == 0  # nothing of it counts as kept
    for path, data in good.items():
        path.write_bytes(data)
    page.click("button:text-is('Try again')")
    page.wait_for_selector("text=Millwheel Under")
    wait_saved(page)


def test_what_arrives_after_signing_out_is_not_kept(book, host, phone):
    """Pages are being fetched for later while the reader signs out: the rest of them must not fill the shelf again."""
    page = phone.new_page()
    open_book(page, host, book.codes[0])
    wait_saved(page)
    page.evaluate("async () => { await caches.delete((await caches.keys()).find((n) => n.endsWith(':blobs'))); }")
    later(page)
    host.gate.clear()
    page.evaluate("navigator.serviceWorker.controller.postMessage({ do: 'save' })")
    wait_until(page, lambda: host.held)
    page.evaluate("navigator.serviceWorker.controller.postMessage({ do: 'leave' })")
    wait_until(page, lambda: page.evaluate(ASK, {"do": "state"})["state"] == "shut")
    host.gate.set()
    page.evaluate(ASK, {"do": "save"})  # ends when the one at work has ended
    assert page.evaluate(KEPT) == 0


def test_seen_counts_although_the_worker_was_ended_meanwhile(book, host, phone):
    """Browsers end a worker after half a minute; the page may be looked at for longer before `Seen` is pressed."""
    page = phone.new_page()
    open_book(page, host, book.codes[0])
    wait_saved(page)
    book.publish("a new cut")
    later(page)
    page.goto(host.url())
    wait_for_news(page, "The book has changed since your last visit")
    wait_saved(page)
    later(page)
    page.click("text=Seen")
    wait_until(page, lambda: told(page, "/_v/fresh") == {"pages": []})


def test_two_laptops_that_publish_under_one_number_leave_nobody_behind(book, host, phone):
    """Both had the same keys and the same folder; the one whose upload came last is what players read."""
    import shutil

    page = phone.new_page()
    other = book.web.parent / "other laptop"
    shutil.copytree(book.web, other)
    first = load_state(book.state_file)
    book.publish("of the first laptop")
    open_book(page, host, book.codes[0])
    wait_saved(page)
    site = book.write(book.source, "of the second laptop")
    report = publish_site(site, FolderTarget(other), first, book.state_file)
    assert report.counter == book.state.counter
    shutil.rmtree(book.web)
    shutil.copytree(other, book.web)
    later(page)
    page.goto(host.url("q7f2/"))
    wait_for_news(page, "of the second laptop")


def test_word_of_a_newer_version_that_comes_before_the_page_is_there_is_not_lost(book, host, phone):
    """The look at the boot file may end while the page is still being read."""
    page = phone.new_page()
    open_book(page, host, book.codes[0])
    wait_saved(page)
    early = "navigator.serviceWorker?.dispatchEvent(new MessageEvent('message', { data: { said: 'newer', pages: 1 } }));"
    page.add_init_script(
        f"new MutationObserver((_, me) => {{ if (!document.body) return; me.disconnect(); {early} }}).observe(document, {{ childList: true, subtree: true }});"
    )
    page.goto(host.url("q7f2/"))
    page.wait_for_selector("text=There is a newer version.")


def test_a_page_put_aside_by_the_browser_is_not_shown_again_after_signing_out(book, host, phone):
    page = phone.new_page()
    open_book(page, host, book.codes[0], "#/q7f2/")
    page.wait_for_selector("text=Tidewater Over")
    wait_saved(page)
    page.evaluate(ASK, {"do": "leave"})  # who asks is not told, as little as a page that is put aside
    assert page.inner_text("h1") == "Tidewater Over"
    page.evaluate("dispatchEvent(new PageTransitionEvent('pageshow', { persisted: true }))")
    page.wait_for_selector("#form:not([hidden])")


def test_a_clock_that_was_set_back_does_not_stop_the_news(book, host, phone):
    page = phone.new_page()
    page.clock.install()
    open_book(page, host, book.codes[0])
    wait_saved(page)
    book.publish("meanwhile")
    page.evaluate("() => { const now = Date.now(); Date.now = () => now - 3600000; dispatchEvent(new Event('online')); }")
    page.wait_for_selector("text=There is a newer version.")
