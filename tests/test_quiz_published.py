"""The quiz of the demo book behind the lock, on a phone without a signal and with the host gone: practice and tonight's,
a reload in the middle, what is kept afterwards. The player's positions come from his seat."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from browser import PATIENCE
from publish_fixture import QUICK, hosted, open_book, wait_saved, wait_until

from generator.mkdocs_plugin import build_site
from generator.pages.addresses import fixed_page
from generator.publish.built_site import BuiltSite, words_of_folder
from generator.publish.people import add_person, new_state
from generator.publish.publish_site import publish_site
from generator.publish.targets import FolderTarget

pytestmark = pytest.mark.browser
DEMO = Path(__file__).resolve().parent.parent / "plays"
QUIZ = f"{fixed_page('quiz')}/"


@pytest.fixture(scope="module")
def locked(tmp_path_factory):
    """(published folder, code of a player at 2 and 3, bank of questions by id)."""
    home = tmp_path_factory.mktemp("locked")
    made = build_site(DEMO, home / "site")
    state, person = add_person(new_state(rounds=QUICK), "Quillon", "quillon", (2, 3), False)
    built = BuiltSite(made.root, frozenset(made.staff_paths), words_of_folder(DEMO), made.names)
    publish_site(built, FolderTarget(home / "web"), state, home / "private.json")
    index = json.loads((made.root / "data" / "quiz.json").read_text())
    known = {q["id"]: q for p in index["plays"] for q in json.loads((made.root / "data" / p["bank"]).read_text())["questions"]}
    return home / "web", person.code, known


@pytest.fixture
def reader(locked, chromium):
    """(page at the quiz, questions), unlocked, everything kept on the phone, the host stopped and the signal gone."""
    web, code, known = locked
    context = chromium.new_context(viewport={"width": 360, "height": 740}, has_touch=True)
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    wrong: list[str] = []
    page.on("console", lambda m: wrong.append(f"{m.text} {m.location}") if m.type == "error" else None)
    page.on("pageerror", lambda e: wrong.append(str(e)))
    page.on("response", lambda r: wrong.append(f"{r.status} {r.url}") if r.status >= 400 else None)
    with hosted(web) as host:
        open_book(page, host, code)
        wait_saved(page)
        host.stop()
        context.set_offline(True)
        page.goto(host.url(QUIZ))
        page.wait_for_selector(".quiz-menu")
        yield page, known
        context.close()
        host.start()
    assert wrong == []


def pressed(page) -> list[str]:
    return page.locator(".quiz-position[aria-pressed=true]").all_inner_texts()


def session(page) -> dict:
    """The quiz in progress as the phone keeps it."""
    return kept(page, "/session")


def kept(page, ending: str):
    text = page.evaluate("(end) => { const key = Object.keys(localStorage).find((k) => k.endsWith(end)); return key && localStorage.getItem(key); }", ending)
    return json.loads(text) if text else None


def question(page, known) -> dict:
    now = session(page)
    return known[now["ids"][now["at"]]]


def answer(page, asked: dict, right: bool) -> None:
    """Taps the right option or a wrong one; a place by its name."""
    if asked["kind"] == "place":
        places = page.locator(".quiz-place select")
        names = [o for o in places.locator("option").all_inner_texts() if o not in ("choose a place",)]
        places.select_option(label=names[0])
        return
    wanted = [asked["options"][i] for i in asked["right"]]
    if not right:
        wanted = [next(o for i, o in enumerate(asked["options"]) if i not in asked["right"])]
    for text in wanted:
        page.locator(".quiz-option", has=page.locator(".quiz-text", has_text=re.compile(f"^{re.escape(text)}$"))).tap()


def onward(page, at: int) -> None:
    """Presses on until the question after number `at` or the end is on the screen."""
    page.locator(".quiz-foot .quiz-next").tap()
    wait_until(page, lambda: page.locator("#quiz-done").count() or page.inner_text(".quiz-progress").startswith(f"Question {at + 1} "))


def test_a_whole_practice_quiz_without_a_signal(reader):
    page, known = reader
    assert pressed(page) == ["2", "3"]
    page.get_by_role("button", name="Five questions").tap()
    page.wait_for_selector(".quiz-prompt")
    asked = []
    for number in range(1, 6):
        if number == 3:  # the phone is put away in the middle of a question
            prompt = page.inner_text(".quiz-prompt")
            page.reload()
            page.wait_for_selector(".quiz-prompt")
            assert page.inner_text(".quiz-prompt") == prompt and page.inner_text(".quiz-progress") == "Question 3 of 5"
        q = question(page, known)
        asked.append(q)
        answer(page, q, right=True)
        if q["kind"] == "place" or len(q["right"]) > 1:  # these are confirmed, a tap on the others is the answer
            page.locator(".quiz-foot .quiz-next").tap()
        page.wait_for_selector(".quiz-verdict")
        if q["kind"] != "place":
            assert page.inner_text(".quiz-verdict") == "Right."
        assert q["why"] in page.inner_text(".quiz-feedback")
        assert page.locator(".quiz-feedback .quiz-picture svg").count() or "answer" not in q
        if "then" in q and number == 1:  # the right branch plays
            page.get_by_role("button", name="See what happens").tap()
            wait_until(page, lambda: page.locator(".quiz-motion svg").count())
        onward(page, number)
    assert {q["pos"] for q in asked} <= {0, 2, 3}
    assert page.locator("#quiz-done").inner_text().endswith("of 5 right")
    page.get_by_role("button", name="Choose another quiz").tap()
    page.reload()
    page.wait_for_selector(".quiz-menu")
    assert kept(page, f"/cards/{asked[0]['play']}")


def test_tonight_without_a_signal_counts_the_first_try_and_says_what_to_study(reader):
    page, known = reader
    page.locator(".quiz-tonight button").tap()
    page.wait_for_selector(".quiz-prompt")
    asked = []
    for number in range(1, 11):
        q = question(page, known)
        asked.append(q)
        answer(page, q, right=number > 3)
        if q["kind"] != "place":
            wait_until(page, lambda q=q: q["id"] in session(page)["answers"])
        assert page.locator(".quiz-verdict").count() == 0  # what was right comes at the end
        if number == 5:
            page.reload()
            page.wait_for_selector(".quiz-prompt")
            assert page.inner_text(".quiz-progress") == "Question 5 of 10"
            assert session(page)["answers"][q["id"]]  # what was chosen is chosen still
        onward(page, number)
    end = page.inner_text(".quiz-end")
    assert "This first try is the one that counts." in end and "Look at these again" in end
    missed = next(q for q in asked[:3] if q["kind"] != "place")
    assert missed["prompt"] in end and missed["why"] in end
    stored = kept(page, "/results")
    assert len(stored) == 1 and stored[0]["who"] == "quillon" and stored[0]["attempt"] == 1
    assert stored[0]["book"] and set(stored[0]["answers"]) == {q["id"] for q in asked}
    assert {q["pos"] for q in asked} <= {0, 2, 3} and {q["pos"] for q in asked} >= {2} | {3}
    link = page.locator(".quiz-study a[href*='#']").first
    moment = link.get_attribute("href").split("#")[1]
    link.tap()
    wait_until(page, lambda: page.locator(f"[id='{moment}']").count() == 1)
    page.go_back()
    page.wait_for_selector(".quiz-menu")
    assert "once more, for yourself" in page.inner_text(".quiz-tonight")
