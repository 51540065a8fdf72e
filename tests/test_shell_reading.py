"""A reader's phone on a plain static host: opening, going about, without a signal, links, sub-path, two tabs, sign-out."""

from __future__ import annotations

import pytest
from publish_fixture import Published, hosted, later, open_book, told, wait_saved, wait_until

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def published(tmp_path_factory):
    made = Published(tmp_path_factory.mktemp("book"))
    made.publish()
    return made


@pytest.fixture(scope="module")
def host(published):
    with hosted(published.web) as running:
        yield running


def test_a_wrong_code_is_refused_and_the_right_one_opens(published, host, phone):
    page = phone.new_page()
    errors = []
    page.on("pageerror", lambda problem: errors.append(str(problem)))
    page.goto(host.url())
    page.wait_for_selector("#form:not([hidden])")
    assert page.title() == "Locked"
    for code, words in (("12345", "sixteen letters"), ("0000-0000-0000-0000", "does not open the book")):
        page.fill("#code", code)
        page.click("#open")
        wait_until(page, lambda w=words: w in page.inner_text("#wrong"))
        assert page.get_attribute("#code", "aria-invalid") == "true"
    page.fill("#code", published.codes[0].lower().replace("-", " "))
    page.click("#open")
    page.wait_for_selector("text=Quarterdeck Home")
    wait_until(page, lambda: page.inner_text("#data") == "bank loaded" and page.inner_text("#from-script") == "script ran")
    assert page.evaluate("document.querySelector('img').naturalWidth") == 90
    page.click("text=Plays")
    page.wait_for_selector("text=Tidewater Over")
    page.reload()
    page.wait_for_selector("text=Tidewater Over")
    assert errors == []


def test_the_host_sees_no_inner_address_and_no_other_host_is_asked(published, host, phone):
    page = phone.new_page()
    elsewhere = []
    page.on("request", lambda r: elsewhere.append(r.url) if f":{host.port}/" not in r.url and not r.url.startswith(("blob:", "data:")) else None)
    host.asked.clear()
    open_book(page, host, published.codes[0])
    page.click("text=Plays")
    page.wait_for_selector("text=Tidewater Over")
    page.goto(host.url("k3m9/"))
    page.wait_for_selector("text=Millwheel Under")
    wait_saved(page)
    for path in host.asked:
        bare = path.split("?")[0]
        assert bare in {"/", "/sw.js", "/favicon.ico"} or bare.startswith("/_v/"), path
    assert elsewhere == []


def test_everything_works_with_the_host_dead(published, phone, tmp_path):
    with hosted(published.web) as host:
        page = phone.new_page()
        open_book(page, host, published.codes[0])
        wait_saved(page)
        host.stop()
        try:
            later(page)
            page.goto(host.url("k3m9/"))
            page.wait_for_selector("text=yet it opens without a signal")
            wait_until(page, lambda: page.inner_text("#data") == "bank loaded")
            again = phone.new_page()
            again.goto(host.url("#/q7f2/?side=left#end"))
            again.wait_for_selector("text=Tidewater Over")
            assert again.url.endswith("/q7f2/?side=left#end")
            again.goto(host.url("nowhere/"))
            again.wait_for_selector("text=No such page")
        finally:
            host.start()


@pytest.mark.parametrize("asked", ["#/q7f2/?side=left#end", "q7f2/?side=left#end"])
def test_a_cold_deep_link_lands_on_its_page(published, host, phone, asked):
    """A `#/` link never tells the host the path; a plain one comes through the host's page for unknown addresses."""
    page = phone.new_page()
    host.asked.clear()
    open_book(page, host, published.codes[0], asked)
    page.wait_for_selector("text=Tidewater Over")
    assert page.url == host.url("q7f2/?side=left#end")
    if asked.startswith("#"):
        assert not any("q7f2" in path for path in host.asked)


def test_a_scanned_card_opens_and_leaves_no_code_in_the_address(published, host, phone):
    page = phone.new_page()
    seen = []
    page.on("framenavigated", lambda frame: seen.append(frame.url))
    host.asked.clear()
    page.goto(host.url(f"#c={published.codes[1]}"))
    page.wait_for_selector("text=Quarterdeck Home")
    code = published.codes[1]
    assert code not in page.url and not any(code in path for path in host.asked)
    assert not any(code in url for url in seen[1:])
    assert page.evaluate("JSON.stringify([Object.entries(localStorage), Object.entries(sessionStorage)])").count(code[:4]) == 0
    assert told(page, "_v/me")["who"] == "player-1"
    page.goto(host.url(f"#c={published.codes[0]}"))  # another card on an open book, in the same tab
    page.wait_for_selector("text=Use the card")
    assert "#c=" not in page.url
    page.goto("about:blank")
    page.goto(host.url(f"#c={published.codes[0]}"))  # and in a fresh one
    page.wait_for_selector("text=Use the card")
    assert "#c=" not in page.url
    page.click("text=Use the card")
    wait_until(page, lambda: told(page, "_v/me").get("who") == "player-0")


def test_another_seat_takes_over_without_a_moment_in_which_the_book_is_shut(published, host, phone):
    page = phone.new_page()
    open_book(page, host, published.codes[1])
    wait_saved(page)
    seen = page.evaluate(
        """async (code) => {
          const seen = [];
          let changed = false;
          const channel = new MessageChannel();
          channel.port1.onmessage = () => (changed = true);
          navigator.serviceWorker.controller.postMessage({ do: "code", code }, [channel.port2]);
          while (!changed) seen.push(await fetch("_v/me").then((r) => (r.ok ? r.json() : { who: String(r.status) })));
          seen.push(await fetch("_v/me").then((r) => r.json()));
          return seen.map((me) => me.who);
        }""",
        published.codes[0],
    )
    assert set(seen) == {"player-1", "player-0"} and seen[-1] == "player-0"


def test_a_card_and_a_link_are_taken_by_a_locked_page_that_is_already_open(published, host, phone):
    page = phone.new_page()
    page.goto(host.url())
    page.wait_for_selector("#form:not([hidden])")
    page.goto(host.url("#/k3m9/"))
    page.evaluate("window.stayed = true")
    page.fill("#code", published.codes[1])
    page.click("#open")
    page.wait_for_selector("text=Millwheel Under")
    other = page.context.browser.new_context().new_page()
    other.goto(host.url())
    other.wait_for_selector("#form:not([hidden])")
    other.goto(host.url(f"#c={published.codes[1]}"))
    other.wait_for_selector("text=Quarterdeck Home")
    assert published.codes[1] not in other.url
    other.context.close()


def test_two_sites_below_one_host_do_not_meet(chromium, phone, tmp_path):
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    one, two = Published(tmp_path / "a", below="spring/plays"), Published(tmp_path / "b", below="autumn")
    one.publish()
    two.publish("of autumn")
    two.web.joinpath("autumn").rename(one.web / "autumn")
    with hosted(one.web) as host:
        page = phone.new_page()
        open_book(page, host, one.codes[0], "spring/plays/")
        page.click("text=Plays")
        page.wait_for_selector("text=Tidewater Over")
        assert page.url == host.url("spring/plays/q7f2/")
        page.goto(host.url("autumn/k3m9/"))
        page.wait_for_selector("#form:not([hidden])")
        open_book(page, host, two.codes[0], "autumn/#/q7f2/")
        page.wait_for_selector("text=of autumn")
        page.goto(host.url("spring/plays/k3m9/"))
        page.wait_for_selector("text=Millwheel Under")
        wait_until(page, lambda: page.locator("text=Sign out").count())
        page.on("dialog", lambda d: d.accept())
        page.click("text=Sign out")
        page.wait_for_selector("#form:not([hidden])")
        page.goto(host.url("autumn/k3m9/"))
        page.wait_for_selector("text=Millwheel Under")


def test_signing_out_shuts_every_tab_and_leaves_nothing_that_opens(published, host, phone):
    one, two = phone.new_page(), phone.new_page()
    open_book(one, host, published.codes[0])
    wait_saved(one)
    two.goto(host.url("k3m9/"))
    two.wait_for_selector("text=Millwheel Under")
    one.on("dialog", lambda d: d.accept())
    one.click("text=Sign out")
    for page in (one, two):
        page.wait_for_selector("#form:not([hidden])")
        assert page.url == host.url()
    kept = one.evaluate("""async () => {
      const db = await new Promise((done) => { const r = indexedDB.open('secondside:/'); r.onsuccess = () => done(r.result); });
      const keys = await new Promise((done) => { const r = db.transaction('kept').objectStore('kept').getAllKeys(); r.onsuccess = () => done(r.result); });
      return [keys, (await caches.keys()).filter((n) => n.endsWith(':blobs'))];
    }""")
    assert kept == [[], []]
    two.goto(host.url("q7f2/"))
    two.wait_for_selector("#form:not([hidden])")


def test_keys_on_the_phone_cannot_be_taken_out(published, host, phone):
    page = phone.new_page()
    open_book(page, host, published.codes[0])
    found = page.evaluate("""async () => {
      const db = await new Promise((done) => { const r = indexedDB.open('secondside:/'); r.onsuccess = () => done(r.result); });
      const s = await new Promise((done) => { const r = db.transaction('kept').objectStore('kept').get('session'); r.onsuccess = () => done(r.result); });
      const keys = [];
      const raw = [];
      const walk = (v) => {
        if (v instanceof CryptoKey) keys.push(v);
        else if (ArrayBuffer.isView(v)) raw.push(v.length);
        else if (v && typeof v === 'object') Object.values(v).forEach(walk);
      };
      walk(s);
      return [keys.length, keys.every((k) => !k.extractable), raw, JSON.stringify(s)];
    }""")
    assert found[0] >= 4 and found[1]
    assert found[2] == [65]  # the public half of the signing key, and no other bytes
    assert published.codes[0] not in found[3]


def test_staff_see_their_pages_and_players_do_not(published, host, phone, chromium):
    page = phone.new_page()
    open_book(page, host, published.codes[0])
    assert page.goto(host.url("zz81/")).status == 404
    line = page.evaluate("fetch('/_v/result', { method: 'POST', body: 'game:1 right:7' }).then((r) => r.json())")["line"]
    assert told(page, "/_v/unsent")["lines"] == [line]
    assert page.evaluate("(l) => fetch('/_v/open-result', { method: 'POST', body: l }).then((r) => r.status)", line) == 404
    assert page.evaluate("fetch('/_people.json').then((r) => r.status)") == 404
    other = chromium.new_context()
    staff = other.new_page()
    open_book(staff, host, published.coach, "#/zz81/")
    staff.wait_for_selector("text=Answerkey Sheet")
    opened = staff.evaluate("(l) => fetch('/_v/open-result', { method: 'POST', body: l }).then((r) => r.json())", line)
    assert opened["who"] == "player-0" and not opened["old"]
    assert staff.evaluate("(t) => atob(t)", opened["content"]) == "game:1 right:7"
    assert staff.evaluate("fetch('/_v/open-result', { method: 'POST', body: 'AAAA' }).then((r) => r.status)") == 422
    other.close()


def test_a_hard_reload_finds_its_way_back(published, host, phone):
    page = phone.new_page()
    open_book(page, host, published.codes[0], "#/k3m9/")
    page.wait_for_selector("text=Millwheel Under")
    session = phone.new_cdp_session(page)
    page.evaluate("window.beforeReload = true")
    session.send("Page.reload", {"ignoreCache": True})
    wait_until(page, lambda: page.evaluate("window.beforeReload !== true") and "Millwheel Under" in page.inner_text("h1"))


def test_parts_of_a_file_can_be_asked_for(published, host, phone):
    page = phone.new_page()
    open_book(page, host, published.codes[0])
    got = page.evaluate("""fetch('/assets/large.json', { headers: { Range: 'bytes=1-6' } })
      .then(async (r) => [r.status, await r.text(), r.headers.get('content-range')])""")
    size = len((published.source / "assets/large.json").read_bytes())
    assert got == [206, '"rows"', f"bytes 1-6/{size}"]
    assert page.evaluate("fetch('/sitemap.xml').then((r) => r.text())") == (
        f"<urlset><url><loc>{host.url()}</loc></url><url><loc>{host.url('q7f2/')}</loc></url></urlset>")
    assert page.goto(host.url("q7f2")).url == host.url("q7f2/")


def test_it_can_stand_on_the_home_screen_under_a_neutral_name(published, host, phone):
    page = phone.new_page()
    page.goto(host.url())
    page.wait_for_selector("link[rel=manifest]", state="attached")
    manifest = page.evaluate("fetch(document.querySelector('link[rel=manifest]').href).then((r) => r.json())")
    assert manifest["name"] == "Notebook" and manifest["display"] == "standalone"
    for icon in manifest["icons"]:
        assert page.evaluate("(src) => fetch('/_v/' + src).then((r) => r.status)", icon["src"]) == 200
    open_book(page, host, published.codes[0], "#/q7f2/")  # people install from an open page, whose title is not neutral
    page.wait_for_selector("text=Tidewater Over")
    assert page.evaluate("document.querySelector('link[rel=manifest]').href") == host.url("_v/app.webmanifest")
    assert page.evaluate("fetch(document.querySelector('link[rel=manifest]').href).then((r) => r.json())") == manifest
    assert page.get_attribute("meta[name=apple-mobile-web-app-title]", "content") == "Notebook"
    assert page.evaluate("document.head.firstElementChild.getAttribute('src')") == "../_v/client.js"
