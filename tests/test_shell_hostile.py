"""Links and forms that somebody else made, against a phone on which the book is open or locked."""

from __future__ import annotations

import pytest
from publish_fixture import Published, hosted, open_book, told, wait_saved, wait_until

pytestmark = pytest.mark.browser

ELSEWHERE = "localhost.example"


@pytest.fixture(scope="module")
def published(tmp_path_factory):
    made = Published(tmp_path_factory.mktemp("book"))
    made.publish()
    return made


@pytest.fixture
def host(published):
    with hosted(published.web) as running:
        yield running


def arrived(page, host):
    """Where a link led, and nowhere on the way: the link itself is gone from the address, an open page of the book is there."""
    wait_until(page, lambda: "#" not in page.url and page.locator(".vault-bar").count() == 1)
    assert page.url.startswith(host.url())


@pytest.mark.parametrize("hash", [f"#//{ELSEWHERE}/", f"#/\\{ELSEWHERE}/", f"#/%2F/{ELSEWHERE}/", f"#///{ELSEWHERE}"])
def test_a_link_never_leads_out_of_an_open_book(published, host, phone, hash):
    """`https://plays.example.org/#//elsewhere/` would take a player from his coach's address to a page that asks for his code."""
    page = phone.new_page()
    left = []
    phone.route(f"**://{ELSEWHERE}/**", lambda route: (left.append(route.request.url), route.fulfill(body="your code, please")))
    open_book(page, host, published.codes[0])
    page.evaluate("(to) => { location.hash = to; }", hash)
    arrived(page, host)
    assert left == []


@pytest.mark.parametrize("path", [f"#//{ELSEWHERE}/", f"/{ELSEWHERE}/q7f2/"])
def test_a_link_never_leads_out_of_a_locked_book(published, host, phone, path):
    page = phone.new_page()
    left = []
    phone.route(f"**://{ELSEWHERE}/**", lambda route: (left.append(route.request.url), route.fulfill(body="your code, please")))
    page.goto(host.url(path))
    page.wait_for_selector("#form:not([hidden])")
    page.fill("#code", published.codes[0])
    page.click("#open")
    arrived(page, host)
    assert left == []


def test_a_form_of_another_site_seals_nothing_in_the_readers_name(published, host, phone, tmp_path):
    page = phone.new_page()
    open_book(page, host, published.codes[0])
    wait_saved(page)
    trap = tmp_path / "trap"
    trap.mkdir()
    (trap / "index.html").write_text(
        f'<form method="post" enctype="text/plain" action="{host.url("_v/result")}"><input name="q1" value="3"></form><script>document.forms[0].submit()</script>'
    )
    with hosted(trap) as elsewhere:
        page.goto(elsewhere.url().replace("localhost", "127.0.0.1"))
        wait_until(page, lambda: host.url("_v/result") in page.content())  # "not found", says the browser
    page.goto(host.url())
    assert told(page, "/_v/unsent") == {"lines": []}
    lines = page.evaluate(
        "Promise.all(['a', 'b', 'c', 'd'].map((body) => fetch('/_v/result', { method: 'POST', body }).then((r) => r.json())))"
    )
    kept = told(page, "/_v/unsent")["lines"]
    assert sorted(kept) == sorted(answer["line"] for answer in lines)  # finished at once, none lost


def test_a_link_broken_on_its_way_still_shows_the_page(published, host, phone):
    page = phone.new_page()
    errors = []
    page.on("pageerror", lambda problem: errors.append(str(problem)))
    page.goto(host.url("#c=%E0%A4%A"))
    wait_until(page, lambda: "sixteen letters" in page.inner_text("#wrong"))
    page.fill("#code", published.codes[0])
    page.click("#open")
    page.wait_for_selector("text=Quarterdeck Home")
    page.goto(host.url("q7f2/"))
    page.evaluate("() => { location.hash = '#c=%'; }")
    wait_until(page, lambda: page.locator("text=Sign out").count() == 1 and "#c=" not in page.url)
    assert errors == []
