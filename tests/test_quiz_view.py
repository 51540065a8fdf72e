"""The quiz on a phone: choosing, answering, feedback, reload in the middle, keyboard, touch, axe-core, 1,000 questions."""

from __future__ import annotations

import json

import pytest
from axe_core_python.sync_playwright import Axe
from browser import PATIENCE
from playwright.sync_api import expect

from generator.diagrams import court_symbol, motion_file
from tests.motion_page import timed
from tests.quiz_page import js_page

pytestmark = pytest.mark.browser
expect.set_options(timeout=PATIENCE)
SPOTS = [{"name": "left wing", "at": [-5.0, 6.5]}, {"name": "top", "at": [0.0, 8.6]}, {"name": "right corner", "at": [6.9, 1.2]}]
FLOOR = {"halfWidth": 7.5, "depth": 14, "halfLane": 2.45, "freeThrow": 5.8, "rim": 1.575, "arc": 6.75, "corner": 6.6, "join": 2.99}
SVG = ('<svg class="diagram" viewBox="-80 -5 160 115" role="img"><title>Opening</title><use href="#floor-half-up"></use>'
       '<circle cx="0" cy="80" r="5"></circle></svg>')
FLOOR_SVG = '<svg class="floors" aria-hidden="true" width="0" height="0"><symbol id="floor-half-up"><path d="M0 0h10v10z"></path></symbol></svg>'
PAGE = """<!doctype html><html lang=en><head><meta name=viewport content="width=device-width, initial-scale=1"><title>Quiz</title>
<link rel=stylesheet href=/css/tokens.css><link rel=stylesheet href=/css/site.css><link rel=stylesheet href=/css/quiz.css></head>
<body class="md-typeset"><main><h1>Quiz</h1><div class="quiz"></div></main></body></html>"""
MOUNT = """async ([who, positions]) => {
  const [{Quiz}, {openBanks}, store] = await Promise.all([import('/js/quiz_app.js'), import('/js/quiz_banks.js'), import('/js/quiz_store.js')]);
  window.clock ??= 1.8e12;
  window.quiz = new Quiz(document.querySelector('.quiz'), {banks: openBanks('/data/quiz.json'), store: store.openStore(store.browserShelf(), who),
    seat: {who, positions}, game: 'g1', now: () => window.clock, keepPositions: (list) => { window.kept = list; }, move: null});
  await window.quiz.open();
}"""


def question(n: int, **changes) -> dict:
    made = {"id": f"q{n:04}", "kind": "read", "play": f"p{n % 2}", "pos": 3, "prompt": f"Harbor, Swing: you are 3. Case {n}. What do you do?",
            "options": [f"Cut to the rim {n}.", f"Pop to the left slot {n}.", f"Stay in the corner {n}."], "right": [0], "why": f"Because {n}.",
            "twin": f"t{n}", "picture": "aa", "answer": "bb", "moment": "a-1"}
    return made | changes


def place(n: int, **changes) -> dict:
    return question(n, kind="place", options=[], right=[], at=[-5.0, 6.5], within=1.5, prompt="Where do you end up? Tap the floor.") | changes


def files(questions: list[dict], count: int = 10) -> dict[str, str]:
    plays = [{"id": p, "name": f"Play {p}", "series": "S", "bank": f"{p}.json", "pictures": f"{p}.pictures.json", "page": f"../{p}/", "counts": []}
             for p in ("p0", "p1")]
    index = {"version": 1, "book": "b1", "plays": plays, "spots": SPOTS, "floor": FLOOR,
             "tonight": [{"id": "g1", "against": "Weirgate", "date": "2026-12-04", "plays": ["p0", "p1"], "coverages": {}, "questions": count}]}
    banks = {f"/data/{p}.json": {"version": 1, "play": p, "name": p, "questions": [q for q in questions if q["play"] == p]} for p in ("p0", "p1")}
    pictures = {f"/data/{p}.pictures.json": {"version": 1, "floor": FLOOR_SVG, "pictures": {"aa": SVG, "bb": SVG}} for p in ("p0", "p1")}
    return {"/": PAGE, "/data/quiz.json": json.dumps(index)} | {k: json.dumps(v) for k, v in (banks | pictures).items()}


@pytest.fixture
def open_quiz(chromium):
    """Opens a phone with the given questions; `again()` reloads it."""
    stack = []

    def opened(questions, who="ana", positions=(3,), **context):
        options = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True} | context
        count = options.pop("count", 10)
        manager = js_page(chromium, files(questions, count), **options)
        page = manager.__enter__()
        stack.append(manager)
        page.set_default_timeout(PATIENCE)
        page.evaluate(MOUNT, [who, list(positions)])
        return page

    yield opened
    for manager in stack:
        manager.__exit__(None, None, None)


def reload(page, who="ana"):
    page.reload()
    page.evaluate(MOUNT, [who, [3]])


def press(page, words):
    page.get_by_role("button", name=words).first.tap()


def test_practice_says_what_was_right_and_why(open_quiz):
    page = open_quiz([question(n) for n in range(8)])
    press(page, "Five questions")
    expect(page.locator(".quiz-progress")).to_have_text("Question 1 of 5")
    assert page.locator("figure svg").count() == 1
    case = page.locator(".quiz-prompt").inner_text().split("Case ")[1].split(".")[0]
    page.locator(".quiz-option", has_text="Pop to").tap()
    expect(page.locator(".quiz-verdict")).to_have_text("Not this time.")
    feedback = page.locator("[role=status]").inner_text()
    assert f"Right is: Cut to the rim {case}." in feedback and f"Because {case}." in feedback
    assert page.locator(".quiz-option.is-right .quiz-tag").inner_text() == "right"
    assert page.locator(".quiz-option.is-wrong .quiz-tag").inner_text() == "yours"
    assert page.get_by_role("link", name="Find it in the play").get_attribute("href").endswith("/#a-1")
    assert page.evaluate("document.activeElement.textContent") == "Next"
    press(page, "Next")
    expect(page.locator(".quiz-progress")).to_have_text("Question 2 of 5")
    expect(page.locator(".quiz-prompt")).to_be_focused()


def test_tonight_counts_the_first_try_and_tells_at_the_end(open_quiz):
    page = open_quiz([question(n) for n in range(12)], count=3)
    press(page, "Before Weirgate: 3 questions")
    for number in range(3):
        assert page.locator(".quiz-verdict").count() == 0
        page.locator(".quiz-option", has_text="Pop to" if number == 0 else "Cut to").tap()
        if number == 1:  # changes his mind before going on
            page.locator(".quiz-option", has_text="Stay").tap()
            page.locator(".quiz-option", has_text="Cut to").tap()
        press(page, "Finish" if number == 2 else "Next")
        expect(page.locator("#quiz-done" if number == 2 else ".quiz-progress")).to_have_text("2 of 3 right" if number == 2 else f"Question {number + 2} of 3")
    expect(page.locator("#quiz-done")).to_have_text("2 of 3 right")
    assert page.locator(".quiz-study li").count() == 1
    assert "This first try is the one that counts." in page.locator(".quiz-end").inner_text()
    result = page.evaluate("window.quiz.out.store.results()")
    assert len(result) == 1 and result[0]["attempt"] == 1 and result[0]["quiz"] == "g1" and result[0]["book"] == "b1"
    assert sorted(a["right"] for a in result[0]["answers"].values()) == [False, True, True]
    press(page, "Choose another quiz")
    press(page, "once more")
    expect(page.locator(".quiz-prompt")).to_be_visible()
    assert page.evaluate("window.quiz.session.attempt") == 2


def test_the_same_person_gets_the_same_quiz_and_another_another(open_quiz):
    pool = [question(n) for n in range(60)]
    drawn = {}
    for who in ("ana", "bea"):
        page = open_quiz(pool, who=who)
        press(page, "Before Weirgate")
        expect(page.locator(".quiz-prompt")).to_be_visible()
        drawn[who] = page.evaluate("window.quiz.session.ids")
        page.evaluate("localStorage.clear()")
        page.reload()
        page.evaluate(MOUNT, [who, [3]])
        press(page, "Before Weirgate")
        expect(page.locator(".quiz-prompt")).to_be_visible()
        assert page.evaluate("window.quiz.session.ids") == drawn[who]
    assert drawn["ana"] != drawn["bea"]


def test_a_reload_in_the_middle_goes_on_where_he_was(open_quiz):
    page = open_quiz([question(n) for n in range(12)], count=4)
    press(page, "Before Weirgate")
    page.locator(".quiz-option", has_text="Cut to").tap()
    press(page, "Next")
    expect(page.locator(".quiz-progress")).to_have_text("Question 2 of 4")
    page.locator(".quiz-option", has_text="Stay").tap()
    expect(page.locator(".quiz-option", has_text="Stay")).to_have_attribute("aria-pressed", "true")
    prompt = page.locator(".quiz-prompt").inner_text()
    order = page.locator(".quiz-text").all_inner_texts()
    reload(page)
    expect(page.locator(".quiz-progress")).to_have_text("Question 2 of 4")
    assert page.locator(".quiz-prompt").inner_text() == prompt
    assert page.locator(".quiz-text").all_inner_texts() == order
    assert page.locator(".quiz-option[aria-pressed=true]").inner_text().endswith(prompt.split("Case ")[1].split(".")[0] + ".")


def test_due_today_comes_back_tomorrow(open_quiz):
    page = open_quiz([question(n) for n in range(5)])
    assert page.get_by_role("button", name="Nothing is due today.").is_disabled()
    press(page, "Five questions")
    for number in range(5):
        page.locator(".quiz-option", has_text="Pop to" if number < 2 else "Cut to").tap()
        press(page, "Finish" if number == 4 else "Next")
        expect(page.locator("#quiz-done" if number == 4 else ".quiz-progress")).to_have_text("3 of 5 right" if number == 4 else f"Question {number + 2} of 5")
    page.evaluate("window.clock += 5 * 60000")  # the two wrong ones come back after a minute
    reload(page)
    page.evaluate("window.clock = 1.8e12 + 5 * 60000")
    page.evaluate("window.quiz.showMenu()")
    assert page.get_by_role("button", name="Due today: 2 questions").count() == 1
    page.evaluate("window.clock += 3 * 86400000; window.quiz.showMenu()")
    press(page, "Due today: 5 questions")
    expect(page.locator(".quiz-progress")).to_have_text("Question 1 of 5")


def test_place_by_touch_by_key_and_by_name(open_quiz):
    page = open_quiz([place(0), place(1), place(3)])
    press(page, "Five questions")
    assert page.get_by_role("button", name="That is my answer").is_disabled()
    box = page.locator(".quiz-floor svg").bounding_box()
    scale = box["width"] / 160  # viewBox -80 -5 160 115, 10 units a metre
    page.touchscreen.tap(box["x"] + (-50 + 80) * scale, box["y"] + (65 + 5) * scale)
    expect(page.locator(".quiz-said")).to_contain_text("left wing")
    press(page, "That is my answer")
    expect(page.locator(".quiz-verdict")).to_have_text("Right.")
    assert "You were 0." in page.locator(".quiz-feedback").inner_text()
    press(page, "Next")
    expect(page.locator(".quiz-progress")).to_have_text("Question 2 of 3")
    page.locator(".quiz-floor").focus()
    for _ in range(10):
        page.keyboard.press("ArrowLeft")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    press(page, "That is my answer")
    expect(page.locator(".quiz-verdict")).to_have_text("Right.")
    press(page, "Next")
    expect(page.locator(".quiz-progress")).to_have_text("Question 3 of 3")
    page.get_by_label("Or choose a place by its name").select_option("right corner")
    press(page, "That is my answer")
    expect(page.locator(".quiz-verdict")).to_have_text("Not this time.")
    assert "You were 13.0 m away." in page.locator(".quiz-feedback").inner_text()
    assert "Right is: the left" in page.locator(".quiz-feedback").inner_text()


def test_several_right(open_quiz):
    page = open_quiz([question(0, right=[0, 2], pos=0, kind="call")])
    press(page, "Five questions")
    page.locator(".quiz-option", has_text="Cut to").tap()
    page.locator(".quiz-option", has_text="Stay").tap()
    press(page, "That is my answer")
    expect(page.locator(".quiz-verdict")).to_have_text("Right.")


def test_keys_alone_are_enough(open_quiz):
    page = open_quiz([question(n) for n in range(6)], has_touch=False, is_mobile=False)
    page.get_by_role("button", name="Five questions").focus()
    page.keyboard.press("Enter")
    page.wait_for_selector(".quiz-prompt")
    for _ in range(5):
        page.keyboard.press("2")
        expect(page.locator(".quiz-next")).to_be_focused()
        page.keyboard.press("Enter")
        page.wait_for_function("document.querySelector('#quiz-done') || !document.querySelector('.quiz-next')?.offsetParent")
    expect(page.locator("#quiz-done")).to_be_visible()


def test_walk_through_has_no_score_and_leaves_practice_alone(open_quiz):
    page = open_quiz([question(0), question(2)])
    page.get_by_role("button", name="Walk through it").tap()
    press(page, "Show me")
    assert "Because" in page.locator(".quiz-feedback").inner_text() and page.locator(".quiz-verdict").count() == 0
    press(page, "Next")
    expect(page.locator(".quiz-progress")).to_have_text("Question 2 of 2")
    page.locator(".quiz-option", has_text="Cut to").tap()
    press(page, "Finish")
    expect(page.locator("#quiz-done")).to_have_text("You have seen them all.")
    assert page.evaluate("window.quiz.out.store.cards('p0').size") == 0


def test_positions_can_be_changed_on_the_phone(open_quiz):
    page = open_quiz([question(0), question(2, pos=4, prompt="You are 4. Case 2.")])
    page.get_by_role("button", name="position 3").tap()
    page.get_by_role("button", name="position 4").tap()
    expect(page.get_by_role("button", name="position 3")).to_have_attribute("aria-pressed", "false")
    expect(page.get_by_role("button", name="position 4")).to_have_attribute("aria-pressed", "true")
    assert page.evaluate("window.kept") == [4]
    press(page, "Five questions")
    expect(page.locator(".quiz-prompt")).to_be_visible()
    assert "You are 4." in page.locator(".quiz-prompt").inner_text()
    expect(page.locator(".quiz-progress")).to_have_text("Question 1 of 1")


def test_full_and_blocked_storage_are_said_and_do_not_stop_him(open_quiz):
    page = open_quiz([question(n) for n in range(6)])
    page.evaluate("() => { Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }; }")
    press(page, "Five questions")
    page.locator(".quiz-option", has_text="Cut to").tap()
    press(page, "Next")
    expect(page.locator(".quiz-progress")).to_have_text("Question 2 of 5")
    press(page, "Stop here")
    expect(page.locator(".notice")).to_be_visible()
    assert "does not keep anything" in page.locator(".notice").inner_text()


def test_a_bank_that_does_not_load_is_said(open_quiz):
    page = open_quiz([question(0)])
    page.route("**/data/p0.json", lambda route: route.abort())
    press(page, "Five questions")
    page.wait_for_selector(".notice")
    assert "did not load" in page.locator(".notice").inner_text()


def test_targets_no_sideways_scroll_and_axe(open_quiz):
    page = open_quiz([question(n) for n in range(6)] + [place(8, pos=3)], viewport={"width": 320, "height": 640})
    def sound():
        assert page.evaluate("document.documentElement.scrollWidth <= 320")
        small = page.evaluate("""() => [...document.querySelectorAll('.quiz button, .quiz select, .quiz a, .quiz input')]
          .filter((b) => b.getBoundingClientRect().height < 44 || b.getBoundingClientRect().width < 44).map((b) => b.textContent)""")
        assert small == []
        found = Axe().run(page)["violations"]
        assert [v["id"] for v in found] == []
    sound()
    press(page, "Five questions")
    page.wait_for_selector(".quiz-prompt")
    sound()
    for number in range(1, 6):
        expect(page.locator(".quiz-progress")).to_have_text(f"Question {number} of 5")
        if page.locator(".quiz-option").count():
            page.locator(".quiz-option").first.tap()
        else:
            page.get_by_label("Or choose a place by its name").select_option("top")
            sound()
            press(page, "That is my answer")
        expect(page.locator(".quiz-verdict")).to_be_visible()
        sound()
        page.locator(".quiz-next").tap()
    expect(page.locator("#quiz-done")).to_be_visible()
    sound()


def test_a_thousand_questions_do_not_stall(open_quiz):
    page = open_quiz([question(n, play="p0") for n in range(1000)])
    measured = page.evaluate("""async () => {
      const quiz = window.quiz; quiz.game.questions = 1000;
      const t0 = performance.now(); await quiz.start(() => quiz.beginTonight()); const drawn = performance.now() - t0;
      const taps = [];
      for (let i = 0; i < 1000; i += 1) {
        const t = performance.now();
        document.querySelector('.quiz-option').click(); document.querySelector('.quiz-next').click();
        taps.push(performance.now() - t);
        if (i % 50 === 0) await new Promise((r) => setTimeout(r)); else await null, await null, await null, await null, await null;
        while (quiz.session && quiz.session.at !== i + 1) await new Promise((r) => setTimeout(r));
        for (let k = 0; k < 12; k += 1) await null;
      }
      return [drawn, taps.sort((a, b) => a - b)[500], document.querySelector('#quiz-done')?.textContent];
    }""")
    drawn, usual, done = measured
    assert "of 1000 right" in done
    assert usual < 200  # half of the taps with their step; 200 ms is the limit for "good" of Interaction to Next Paint (web.dev/inp)
    assert drawn < 4000


def test_the_coverage_moves_before_the_answer_in_the_version_that_is_asked(chromium):
    """The clip shows the defence, stands mirrored and with the numbers of the version, and ends where the question freezes it."""
    times, view = timed()
    branch, until = times.settled.branches[1].key, times.timelines[times.settled.branches[1].key].quiz_instant(0)
    asked = [question(n, clip={"branch": branch, "from": 0, "to": until, "version": "m2-3"}) for n in range(6)]
    made = files(asked)
    index = json.loads(made["/data/quiz.json"])
    index["plays"] = [p | {"motion": "m.json"} for p in index["plays"]]
    made |= {"/data/quiz.json": json.dumps(index), "/data/m.json": json.dumps(motion_file(times, view))}
    made["/"] = PAGE.replace('class="quiz"', 'class="quiz" data-index="/data/quiz.json"').replace("</main>", f"</main>{court_symbol(view)}")
    with js_page(chromium, made, viewport={"width": 360, "height": 740}, has_touch=True) as page:
        page.set_default_timeout(PATIENCE)
        page.evaluate("import('/js/quiz_mount.js').then((m) => m.mount(document.querySelector('.quiz')))")
        press(page, "Five questions")
        press(page, "See it move")
        expect(page.locator(".quiz-motion .token")).to_have_count(5)
        assert page.evaluate("[...document.querySelectorAll('.defender-mark')].filter(m => m.style.display !== 'none').length") == 5
        page.evaluate("(t) => { const s = document.querySelector('.motion-slide'); s.value = t; s.dispatchEvent(new Event('input')); }", 99)
        shown = page.evaluate("[...document.querySelectorAll('.token')].map((t) => [t.textContent, new DOMMatrix(getComputedStyle(t).transform).e])")
        assert float(page.get_attribute(".motion-slide", "max")) == pytest.approx(until, abs=0.02)
        assert page.locator(".motion-answer").count() == 0  # what may be answered is the question's
        assert page.locator(".motion-lines").count() == 0  # the lines of the branch would be the answer
        assert times.settled.branches[1].name not in page.locator(".quiz-motion").inner_text()
    assert [number for number, _ in shown] == ["1", "3", "2", "4", "5"]
    for role, (_, x) in enumerate(shown, start=1):
        assert x == pytest.approx(-view.place(times.timelines[branch].position(role, until))[0], abs=5)  # the slide goes by tenths
