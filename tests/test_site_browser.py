"""The built demo site on a small phone: from home to ten answers, no error, no other host, nothing to scroll sideways,
nothing axe-core objects to, on every kind of page, light and dark."""

from __future__ import annotations

import functools
import http.server
import json
import threading
from pathlib import Path

import axe_core_python
import pytest

from generator.mkdocs_plugin import build_site
from generator.pages.addresses import fixed_page, position_page

pytestmark = pytest.mark.browser
DEMO = Path(__file__).resolve().parent.parent / "plays"
AXE = next(Path(axe_core_python.__file__).parent.rglob("axe*.js")).read_text(encoding="utf-8")
NARROW = {"width": 320, "height": 740}
PHONE = {"width": 360, "height": 740}


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *args):
        pass


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """(address, root) of the demo site, served."""
    root = build_site(DEMO, tmp_path_factory.mktemp("site") / "site").root
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Quiet, directory=root))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/", root
    server.shutdown()


@pytest.fixture
def phone(chromium, site):
    """A page that fails the test when anything is wrong behind it."""
    address, _ = site
    wrong: list[str] = []
    context = chromium.new_context(viewport=PHONE, has_touch=True)
    context.grant_permissions(["clipboard-read", "clipboard-write"], origin=address.rstrip("/"))
    page = context.new_page()
    page.on("console", lambda m: wrong.append(f"console: {m.text}") if m.type in ("error", "warning") else None)
    page.on("pageerror", lambda e: wrong.append(f"thrown: {e}"))
    page.on("request", lambda r: wrong.append(f"other host: {r.url}") if not r.url.startswith((address, "data:", "blob:")) else None)
    page.on("requestfailed", lambda r: wrong.append(f"failed: {r.url}") if "ERR_ABORTED" not in (r.failure or "") else None)
    yield page
    context.close()
    assert wrong == []


def kinds(site) -> dict[str, str]:
    """One address of every kind of page."""
    _, root = site
    pages = {p.parent.relative_to(root).as_posix(): p.read_text(encoding="utf-8") for p in root.glob("*/index.html")}
    with_read = max((i for i, text in pages.items() if '<article class="play"' in text), key=lambda i: len(pages[i]))
    series = next(i for i, text in pages.items() if 'class="card"' in text)
    own = next(i for i, text in pages.items() if "How we play</h1>" in text)
    fixed = {name: f"{fixed_page(name)}/" for name in ("my page", "calls", "game plan", "quiz", "staff", "staff findings", "staff clock", "staff answers", "staff checks")}
    return {
        "home": "", "play": f"{with_read}/", "series": f"{series}/", "own": f"{own}/", "position": f"{position_page(3)}/",
    } | fixed


def test_from_home_to_ten_answers(site, phone):
    address, _ = site
    phone.goto(address)
    phone.click(".tonight .play-line a >> nth=0")
    phone.wait_for_selector("article.play h1")
    phone.wait_for_selector(".motion [role=group], .motion button")
    phone.click("[data-choose-position] button[data-position='3']")
    jobs = phone.locator(".jobs > .job:visible")
    assert jobs.count() > 0 and set(jobs.evaluate_all("all => all.map(j => j.dataset.position)")) == {"3"}
    phone.click(".ways >> text=Plays")
    phone.click(".tile[data-position='3']")
    phone.click(".position-play > summary >> nth=0")
    phone.wait_for_selector(".position-jobs .job")
    phone.click(".ways >> text=Quiz")
    phone.wait_for_selector(".quiz button")
    assert answer_until_done(phone, 10) == 10


def answer_until_done(phone, wanted: int) -> int:
    """Takes the quiz before the game: the first option, or the middle of the floor; returns how many it asked."""
    phone.click("button:has-text('Before')")
    asked = 0
    while asked <= wanted and not phone.is_visible("text=Choose another quiz"):
        phone.wait_for_selector(f"text=Question {asked + 1} of {wanted}")
        floor = phone.locator(".quiz-floor")
        if floor.count():
            floor.click()
        else:
            phone.click(".quiz-option >> nth=0")
        phone.click(".quiz-next:enabled")
        asked += 1
        phone.wait_for_selector(f"text=/Question {asked + 1} of|Choose another quiz/")
    assert phone.is_visible(f"text=/of {wanted} right/")
    return asked


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_kind_of_page_is_accessible_and_fits(chromium, site, scheme):
    address, _ = site
    context = chromium.new_context(viewport=NARROW, color_scheme=scheme)
    page = context.new_page()
    found = {}
    for kind, where in kinds(site).items():
        page.goto(address + where)
        page.wait_for_load_state("networkidle")
        page.evaluate(AXE)
        result = page.evaluate(f"axe.run({{resultTypes: ['violations']{DARK if scheme == 'dark' else ''}}})")
        if result["violations"]:
            found[kind] = [(v["id"], v["nodes"][0]["html"][:200]) for v in result["violations"]]
        assert page.evaluate("document.documentElement.scrollWidth") <= 320, kind
        small = page.evaluate(SMALL_TARGETS)
        assert small == [], kind
    context.close()
    assert found == {}


DARK = ", runOnly: ['color-contrast']"  # all else is the same as in the light
SMALL_TARGETS = """() => [...document.querySelectorAll('a, button, select, input, summary')]
  .filter((e) => {
    const wholeLine = getComputedStyle(e, '::after').position === 'absolute' ? e.closest('li') : null;
    const box = (wholeLine || e).getBoundingClientRect();
    if (!box.width || e.closest('.md-skip') || getComputedStyle(e).visibility === 'hidden') return false;
    const inText = e.tagName === 'A' && e.closest('p, li, dd') && getComputedStyle(e).display === 'inline';
    return !inText && (box.height < 43.5 || box.width < 24);
  }).map((e) => e.outerHTML.slice(0, 120))"""


def test_a_whole_line_of_a_list_takes_the_tap_and_a_series_opens_over_its_plays(site, phone):
    address, _ = site
    phone.goto(address)
    line = phone.locator(".series .play-line >> nth=0")
    box = line.bounding_box()
    assert box["height"] >= 43.5
    summary = phone.locator(".series > summary >> nth=0")
    summary.click()
    assert not line.is_visible()
    summary.click()
    line.scroll_into_view_if_needed()
    box = line.bounding_box()
    phone.touchscreen.tap(box["x"] + box["width"] - 6, box["y"] + box["height"] / 2)
    phone.wait_for_selector("article.play h1")


def test_search_finds_a_play_by_its_call(site, phone):
    address, _ = site
    phone.goto(address)
    phone.click("[data-find]")
    phone.keyboard.type("lantern", delay=20)
    phone.wait_for_selector(".md-search-result__item a")
    assert "Lantern" in phone.inner_text(".md-search-result__list")
    phone.click("[data-find-close]")
    assert not phone.is_visible(".find-form")


def test_a_shared_link_names_the_page_behind_the_hash(site, phone):
    address, _ = site
    where = kinds(site)["play"]
    phone.goto(address + where)
    phone.click("[data-share]")
    phone.wait_for_selector("text=Link copied")
    link = phone.evaluate("navigator.clipboard.readText()")
    assert link == f"{address}#/{where}"
    phone.goto("about:blank")
    phone.goto(link)
    phone.wait_for_url(address + where)


def test_my_page_gathers_the_jobs_of_my_positions(site, phone):
    address, _ = site
    phone.goto(f"{address}{fixed_page('my page')}/")
    phone.select_option("[data-person]", label="Tavi")
    phone.wait_for_selector("text=Your jobs as 1 and 2")
    phone.wait_for_selector("[data-my-jobs] summary")
    assert phone.locator("[data-my-jobs] .job:visible").count() == 0  # folded, so that a play is found at a glance
    phone.click("[data-my-jobs] .position-play:visible > summary >> nth=0")
    assert phone.locator("[data-my-jobs] h5:visible").all_inner_texts() == ["As 1", "As 2"]
    phone.goto(address + kinds(site)["play"])
    phone.click("[data-keep]")
    phone.goto(f"{address}{fixed_page('my page')}/")
    phone.wait_for_selector("[data-my-list] .play-line:visible")
    assert phone.locator("[data-my-list] .play-line:visible").count() == 1


def test_jobs_are_picked_out_by_game_and_by_list(site, phone):
    """The demo's game is long over for whoever runs this test late, so a day is told."""
    address, _ = site
    phone.goto(f"{address}{position_page(2)}/")
    phone.wait_for_selector("[data-pick]")
    everything = phone.locator(".position-play").count()
    shown = phone.locator(".position-play:visible")
    phone.click("[data-pick=game]")
    tonight = shown.count()
    assert 0 < tonight < everything and f"({tonight})" in phone.inner_text("[data-pick=game]")
    assert phone.locator(".position-series:visible:not(:has(.position-play:visible))").count() == 0
    phone.reload()
    phone.wait_for_selector("[data-pick=game][aria-pressed=true]")
    assert shown.count() == tonight
    phone.click("[data-pick=all]")
    assert shown.count() == everything and phone.locator("[data-pick=list]").count() == 0
    phone.click("text=Open all")
    assert phone.locator(".position-play[open]").count() == everything
    phone.click("text=Close all")
    phone.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    assert phone.locator(".position-play[open]").count() == everything  # paper folds nothing away
    phone.evaluate("window.dispatchEvent(new Event('afterprint'))")
    assert phone.locator(".position-play[open]").count() == 0


def test_a_look_at_another_position_does_not_change_who_i_am(site, phone):
    address, _ = site
    phone.goto(f"{address}{fixed_page('my page')}/")
    phone.click("[data-own-positions] [data-position='2']")
    phone.goto(address + kinds(site)["play"])
    phone.click("[data-choose-position] [data-position='5']")
    phone.reload()
    phone.wait_for_selector("[data-choose-position] [data-position='5'][aria-pressed=true]")
    phone.goto(f"{address}{fixed_page('my page')}/")
    phone.wait_for_selector("text=Your jobs as 2")


def test_words_that_come_without_a_key_are_searched_too(site, phone):
    """Spoken, pasted and swiped words tell an input and no key."""
    address, _ = site
    phone.goto(address)
    phone.click("[data-find]")
    phone.wait_for_function("document.activeElement.matches('.find-words')")
    phone.wait_for_load_state("networkidle")
    for words, expected in (("weirgate", "Game plan"), ("lights out", "Calls and signals"), ("lantern", "Lantern series")):
        phone.fill(".find-words", words)
        phone.wait_for_selector(f".md-search-result__item >> text={expected}")


def test_home_tells_what_changed_for_my_position(site, phone):
    address, root = site
    phone.goto(address)
    phone.wait_for_function("Object.keys(localStorage).some((k) => k.endsWith(':prints'))")
    assert not phone.is_visible("[data-changes]")
    prints = json.loads((root / "data" / "prints.json").read_text())["plays"]
    play = next(iter(prints))
    old = {**prints, play: ["other", *prints[play][1:]]}
    phone.evaluate("(old) => { const k = Object.keys(localStorage).find((k) => k.endsWith(':prints')); localStorage.setItem(k, JSON.stringify(old)); }", old)
    phone.reload()
    phone.wait_for_selector("text=Changed for you")
    assert "your job as 1" in phone.inner_text("[data-changes]")
    phone.click("text=Seen")
    phone.reload()
    phone.wait_for_load_state("networkidle")
    assert not phone.is_visible("[data-changes]")


def test_the_page_stays_when_the_next_is_loaded(site, phone):
    """Instant navigation keeps the document; it needs the address the site was built for."""
    address, root = site
    site_map = (root / "sitemap.xml").read_text()
    phone.route("**/sitemap.xml", lambda route: route.fulfill(body=site_map.replace("http://127.0.0.1:8000/", address), content_type="application/xml"))
    phone.goto(address)
    phone.wait_for_load_state("networkidle")
    phone.evaluate("window.stayed = true")
    phone.click(".tonight .play-line a >> nth=0")
    phone.wait_for_selector("article.play h1")
    phone.wait_for_selector(".motion button")
    assert phone.evaluate("window.stayed === true")
    assert phone.locator("[data-tools]:visible").count() == 1
