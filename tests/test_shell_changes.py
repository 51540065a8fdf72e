"""What happens on phones when the book changes, when someone is taken out, and when somebody meddles with the host."""

from __future__ import annotations

import json

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

from generator.publish import people
from generator.publish.targets import BOOT
from generator.vault.boot import Boot, read_boot, write_boot
from generator.vault.cipher import new_signer

pytestmark = pytest.mark.browser

@pytest.fixture
def book(tmp_path):
    made = Published(tmp_path)
    made.publish()
    return made


@pytest.fixture
def host(book):
    with hosted(book.web) as running:
        yield running


def me(page):
    return told(page, "/_v/me")


def test_the_next_visit_shows_the_new_pages_and_fetches_only_what_changed(book, host, phone):
    page = phone.new_page()
    open_book(page, host, book.codes[0])
    wait_saved(page)
    report = book.publish("a new counter")
    host.asked.clear()
    later(page)
    page.goto(host.url("k3m9/"))
    wait_for_news(page, "The book has changed since your last visit")
    wait_saved(page)
    fetched = [p for p in host.asked if p.startswith("/_v/b/")]
    assert len(fetched) == len(set(fetched)) == report.new_blobs == 2
    page.goto(host.url("q7f2/"))
    page.wait_for_selector("text=a new counter")
    assert told(page, "/_v/fresh")["pages"] == ["q7f2/index.html"]
    page.click("text=What changed for you")
    page.wait_for_selector("text=Quarterdeck Home")
    wait_until(page, lambda: "changed since your last visit" in page.inner_text("body"))
    assert page.locator("text=What changed for you").count() == 0  # we are there
    page.click("text=Seen")
    wait_until(page, lambda: told(page, "/_v/fresh")["pages"] == [])


def test_an_open_page_is_told_and_keeps_its_old_files(book, host, phone):
    page = phone.new_page()
    open_book(page, host, book.codes[0])
    wait_saved(page)
    (book.source / "assets" / "bank.json").unlink()
    from generator.publish.private_state import load_state
    from generator.publish.publish_site import publish_site
    from generator.publish.targets import FolderTarget

    publish_site(book.site, FolderTarget(book.out), book.state, book.state_file)
    assert load_state(book.state_file).counter == 2
    assert page.evaluate(ASK, {"do": "check"}) == "newer"
    page.wait_for_selector("text=There is a newer version.")
    assert page.evaluate("fetch('/assets/bank.json').then((r) => r.json())") == {"answer": "bank loaded"}
    page.click("text=Show it")
    wait_until(page, lambda: page.inner_text("#from-script") == "script ran")


def test_a_page_that_stayed_open_asks_again_when_it_is_looked_at(book, host, phone):
    page = phone.new_page()
    page.clock.install()
    open_book(page, host, book.codes[0])
    wait_saved(page)
    book.publish("meanwhile")
    page.evaluate("dispatchEvent(new Event('online'))")
    page.wait_for_timeout(300)
    assert page.locator("text=There is a newer version.").count() == 0
    page.clock.fast_forward(40_000)
    page.evaluate("dispatchEvent(new Event('online'))")
    page.wait_for_selector("text=There is a newer version.")


def test_whoever_is_removed_is_out_at_next_contact_and_the_others_type_nothing(book, host, phone, chromium):
    leaver, stayer = phone.new_page(), chromium.new_context().new_page()
    open_book(leaver, host, book.codes[0])
    open_book(stayer, host, book.codes[1])
    wait_saved(leaver)
    line = leaver.evaluate("fetch('/_v/result', { method: 'POST', body: 'late result' }).then((r) => r.json())")["line"]
    out = book.state.people[0]
    kept_state = book.state
    book.state = people.remove_person(book.state, out, relock=False)
    book.publish("after he left")
    later(leaver)
    leaver.goto(host.url("q7f2/"))
    wait_until(leaver, lambda: "no longer opens the book" in leaver.inner_text("#lead"))
    wait_until(leaver, lambda: "Not sent yet" in leaver.inner_text("body") and line in leaver.inner_text("body"))
    assert leaver.evaluate("fetch('/k3m9/').then((r) => r.status)") == 403
    later(stayer)
    stayer.goto(host.url("q7f2/"))
    wait_for_news(stayer, "after he left")
    assert me(stayer)["who"] == "player-1"
    host.stop()  # being out stays so without a signal
    later(leaver)
    leaver.goto(host.url())
    wait_until(leaver, lambda: "no longer opens the book" in leaver.inner_text("#lead"))
    host.start()
    from dataclasses import replace

    book.state = replace(book.state, people=(replace(out, wrap=b"", wrapped=""), *book.state.people))  # it was a mistake
    book.publish("back again")
    assert kept_state.counter < book.state.counter
    later(leaver)
    leaver.goto(host.url("q7f2/"))
    wait_for_news(leaver, "back again")
    assert told(leaver, "/_v/unsent")["lines"] == [line]
    stayer.context.close()


def test_a_new_code_replaces_the_old_one(book, host, phone):
    page = phone.new_page()
    open_book(page, host, book.codes[0])
    wait_saved(page)
    book.state, person = people.replace_code(book.state, book.state.people[0], relock=True)
    book.publish("relocked")
    later(page)
    page.goto(host.url())
    page.wait_for_selector("text=Enter a code")
    page.click("text=Enter a code")
    page.fill("#code", book.codes[0])
    page.click("#open")
    wait_until(page, lambda: "does not open" in page.inner_text("#wrong"))
    page.fill("#code", person.code)
    page.click("#open")
    page.wait_for_selector("text=Quarterdeck Home")
    assert me(page)["who"] == "player-0"


@pytest.mark.parametrize("meddled", ["forged", "older", "garbage", "gone", "no seats, unsigned"])
def test_meddling_with_the_host_neither_shuts_out_nor_opens(book, host, phone, meddled):
    page = phone.new_page()
    first = (book.web / BOOT).read_bytes()
    book.publish("second")
    open_book(page, host, book.codes[0])
    wait_saved(page)
    signed = read_boot((book.web / BOOT).read_bytes())
    boot = signed.boot
    foreign = write_boot(Boot(99, boot.salt, boot.rounds, boot.heads, boot.seats), new_signer())
    emptied = json.loads(first)
    emptied["body"] = json.dumps({**json.loads(signed.body), "n": 50, "seats": {}})
    spoilt = {"forged": foreign, "older": first, "garbage": b"<html>please sign in</html>", "gone": None, "no seats, unsigned": json.dumps(emptied).encode()}
    if spoilt[meddled] is None:
        (book.web / BOOT).unlink()
    else:
        (book.web / BOOT).write_bytes(spoilt[meddled])
    later(page)
    page.goto(host.url("q7f2/"))
    page.wait_for_selector("text=second")
    assert me(page)["version"] == 2
    other = page.context.browser.new_context().new_page()
    other.goto(host.url())
    other.wait_for_selector("#form:not([hidden])")
    other.fill("#code", book.codes[0])
    other.click("#open")
    if meddled == "older":  # nobody who has never been here can tell; the page says what it opened
        other.wait_for_selector("text=Quarterdeck Home")
    else:
        told = {"forged": "were not published by your coach", "garbage": "no book at this address", "gone": "no book at this address",
                "no seats, unsigned": "does not open the book"}
        wait_until(other, lambda: told[meddled] in other.inner_text("#wrong"))
    other.context.close()


def test_a_page_that_is_not_kept_yet_says_so_without_a_signal(book, host, phone):
    page = phone.new_page()
    host.cache = "no-store"  # else the browser's own cache still has the blobs
    open_book(page, host, book.codes[0])
    wait_saved(page)
    page.evaluate("""async () => { const name = (await caches.keys()).find((n) => n.endsWith(':blobs')); await caches.delete(name); }""")
    host.stop()
    later(page)
    try:
        page.goto(host.url("k3m9/"))
        wait_until(page, lambda: "not on this phone yet" in page.inner_text("#lead"))
    finally:
        host.start()
    page.click("button:text-is('Try again')")
    page.wait_for_selector("text=Millwheel Under")


def test_a_damaged_copy_on_the_phone_is_fetched_again(book, host, phone):
    page = phone.new_page()
    open_book(page, host, book.codes[0])
    wait_saved(page)
    page.evaluate("""async () => { const cache = await caches.open((await caches.keys()).find((n) => n.endsWith(':blobs')));
      for (const key of await cache.keys()) await cache.put(key, new Response(new Uint8Array(300))); }""")
    later(page)
    page.goto(host.url("k3m9/"))
    page.wait_for_selector("text=Millwheel Under")


def test_an_unfinished_upload_is_tried_again_later(book, host, phone):
    """The boot file came before its blobs: the reader stays on what he has, and gets the rest when it is there."""
    page = phone.new_page()
    open_book(page, host, book.codes[0])
    wait_saved(page)
    before = {p.name for p in (book.web / "_v/b").iterdir()}
    book.publish("late blobs")
    late = {p: p.read_bytes() for p in (book.web / "_v/b").iterdir() if p.name not in before}
    for path in late:
        path.unlink()
    later(page)
    page.goto(host.url("q7f2/"))
    page.wait_for_selector("text=Tidewater Over")
    assert me(page)["version"] == 1
    for path, data in late.items():
        path.write_bytes(data)
    later(page)
    page.goto(host.url("q7f2/"))
    wait_for_news(page, "late blobs")
