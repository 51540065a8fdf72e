"""The motion in a page: by thumb, by keyboard, by ear, without movement, and cheap enough for an old phone.

Targets: 44 px (WCAG 2.2, 2.5.5). A frame's own work: at most 4 ms at the 95th percentile.
"""

from __future__ import annotations

import pytest
from axe_core_python.sync_playwright import Axe
from motion_page import frame_ms, motion_page, timed

pytestmark = pytest.mark.browser
PHONE = {"viewport": {"width": 320, "height": 640}, "has_touch": True}
FRAME_MS = 4.0

@pytest.fixture(scope="module")
def phone(chromium):
    with motion_page(chromium, **PHONE) as page:
        yield page


def _state(page, name):
    return page.evaluate(f"window.island.state.{name}")


def _reset(page):
    page.evaluate("window.island.change((s) => ({...s, running: false, t: 0, follow: 0, defence: false, otherSide: false, branch: 'main'}))")


def test_fits_a_small_phone_and_every_control_is_a_thumb_wide(phone):
    assert phone.evaluate("document.documentElement.scrollWidth") <= 320
    boxes = phone.evaluate(
        "[...document.querySelectorAll('.motion button, .motion input')].filter(b => b.offsetParent).map(b => "
        "[b.textContent || b.type, b.getBoundingClientRect().width, b.getBoundingClientRect().height])"
    )
    assert len(boxes) > 12
    assert [b for b in boxes if b[1] < 44 or b[2] < 44] == []


def test_has_no_accessibility_fault(phone):
    found = Axe().run(phone)["violations"]
    assert [(v["id"], v["nodes"][0]["html"][:80]) for v in found] == []


def test_run_moves_people_and_hold_stops_them(phone):
    _reset(phone)
    where = "document.querySelectorAll('.token')[0].getAttribute('transform')"
    before = phone.evaluate(where)
    phone.click("text=Run it")
    phone.wait_for_function(f"{where} !== {before!r}")
    phone.click("text=Hold")
    held = _state(phone, "t")
    phone.wait_for_timeout(80)
    assert held > 0 and _state(phone, "t") == held


def test_keyboard(phone):
    _reset(phone)
    phone.focus(".motion-stage")
    phone.keyboard.press("ArrowRight")
    second = timed()[0].main.phases[1].opens
    assert _state(phone, "t") == pytest.approx(second, abs=0.01)
    phone.keyboard.press("ArrowLeft")
    assert _state(phone, "t") == 0
    phone.keyboard.press("Space")
    assert _state(phone, "running") is True
    phone.keyboard.press("Space")
    assert _state(phone, "running") is False
    phone.keyboard.press("End")
    assert _state(phone, "t") == pytest.approx(timed()[0].main.duration, abs=0.01)
    assert phone.text_content(".motion-run") == "Run it again"


def test_tap_runs_and_drag_scrubs(phone):
    _reset(phone)
    box = phone.locator(".motion-stage").bounding_box()
    x, y = box["x"] + 60, box["y"] + 60
    phone.mouse.move(x, y), phone.mouse.down(), phone.mouse.up()
    assert _state(phone, "running") is True
    phone.mouse.move(x, y), phone.mouse.down(), phone.mouse.move(x + 90, y, steps=4), phone.mouse.up()
    assert _state(phone, "running") is False and _state(phone, "t") > 1.0


def test_an_answer_is_shown_and_said(phone):
    _reset(phone)
    phone.locator(".motion-answer").first.click()
    assert _state(phone, "branch") != "main" and _state(phone, "defence") is True
    pressed = phone.evaluate("[...document.querySelectorAll('.motion-answer[aria-pressed=true]')].map(b => b.textContent)")
    assert pressed == [phone.locator(".motion-answer").first.text_content()]
    assert phone.evaluate("document.querySelector('.motion-said').getAttribute('aria-live')") == "polite"
    assert "phase" in phone.text_content(".motion-said")
    assert phone.evaluate("document.activeElement.dataset.choice") == "0-0"


def _tokens(page):
    """(number shown, x, y) of the five, by role."""
    return page.evaluate(
        "[...document.querySelectorAll('.token')].map(t => { const m = new DOMMatrix(getComputedStyle(t).transform); "
        "return [t.textContent, m.e, m.f]; })"
    )


def _shown(page, selector):
    return page.evaluate(f"[...document.querySelectorAll('{selector}')].filter(e => getComputedStyle(e).display !== 'none').length")


def test_the_buttons_go_phase_by_phase_and_the_slide_to_any_second(phone):
    _reset(phone)
    opens = [p.opens for p in timed()[0].main.phases]
    phone.click("text=Next phase")
    assert _state(phone, "t") == pytest.approx(opens[1], abs=0.01)
    there = _tokens(phone)
    phone.click("text=Phase before")
    assert _state(phone, "t") == 0 and _tokens(phone) != there
    phone.evaluate("(t) => { const s = document.querySelector('.motion-slide'); s.value = t; s.dispatchEvent(new Event('input')); }", opens[1])
    assert _state(phone, "t") == pytest.approx(opens[1], abs=0.1)
    assert all(abs(a[1] - b[1]) < 2 and abs(a[2] - b[2]) < 2 for a, b in zip(_tokens(phone), there, strict=True))


def test_half_speed_is_a_switch(phone):
    _reset(phone)
    phone.click("text=Half speed")
    assert _state(phone, "speed") == 0.5 and phone.get_attribute("text=Half speed", "aria-pressed") == "true"
    phone.click("text=Half speed")
    assert _state(phone, "speed") == 1


def test_the_defence_comes_out_and_moves(phone):
    _reset(phone)
    where = "[...document.querySelectorAll('.defender-mark')].map(m => m.getAttribute('transform'))"
    assert _shown(phone, ".defender-mark") == 0
    phone.click("text=Show the defence")
    assert _shown(phone, ".defender-mark") == 5
    before = phone.evaluate(where)
    phone.click("text=Next phase")
    assert all(a != b for a, b in zip(before, phone.evaluate(where), strict=True))


def test_one_position_is_watched(phone):
    _reset(phone)
    phone.click(".motion-positions button:text-is('3')")
    assert phone.evaluate("[...document.querySelectorAll('.token.is-own')].map(t => t.textContent)") == ["3"]
    phone.click("text=Next phase")
    assert len(phone.get_attribute(".tail:not(.step)", "d")) > 20 and _shown(phone, ".tail:not(.step)") == 1
    phone.click(".motion-positions button:text-is('All')")
    assert _shown(phone, ".token.is-own") == 0 and _shown(phone, ".tail:not(.step)") == 0


def test_others_run_it(phone):
    """`also for: {2: 3}`: the same floor, 2 and 3 with each other's number."""
    _reset(phone)
    assert [t[0] for t in _tokens(phone)] == ["1", "2", "3", "4", "5"]
    before = _tokens(phone)
    phone.locator(".motion-row", has_text="Who runs it").locator("button").nth(1).click()
    after = _tokens(phone)
    assert [t[0] for t in after] == ["1", "3", "2", "4", "5"] and [t[1:] for t in after] == [t[1:] for t in before]
    phone.locator(".motion-row", has_text="Who runs it").locator("button").nth(0).click()


def test_the_ball_is_with_its_holder_and_flies_between_the_two(phone):
    _reset(phone)
    main, flight = timed()[0].main, timed()[0].main.ball_events[0]
    ball = "(t) => { window.island.change((s) => ({...s, t})); const m = new DOMMatrix(getComputedStyle(document.querySelector('.motion-ball')).transform); return [m.e, m.f]; }"
    for t, holder in ((0.0, flight.passer), (flight.caught + 0.1, flight.receiver)):
        x, y = phone.evaluate(ball, t)
        _, px, py = _tokens(phone)[holder - 1]
        assert abs(x - px) < 8 and abs(y - py) < 8 and phone.text_content(".token.has-ball") == str(holder)
    x, y = phone.evaluate(ball, (flight.release + flight.caught) / 2)
    assert _shown(phone, ".token.has-ball") == 0 and main.ball((flight.release + flight.caught) / 2).holder is None
    tokens = _tokens(phone)
    assert min(abs(x - t[1]) + abs(y - t[2]) for t in tokens) > 8


def test_other_side_is_the_mirror(phone):
    _reset(phone)
    x = "new DOMMatrix(getComputedStyle(document.querySelectorAll('.token')[2]).transform).e"
    left = phone.evaluate(x)
    phone.click("text=Other side")
    assert phone.evaluate(x) == pytest.approx(-left, abs=0.05) and abs(left) > 10


def test_the_page_position_is_followed(phone):
    _reset(phone)
    phone.evaluate("document.dispatchEvent(new CustomEvent('secondside:positions', {detail: [4]}))")
    assert phone.evaluate("[...document.querySelectorAll('.token.is-own text')].map(t => t.textContent)") == ["4"]
    phone.evaluate("document.dispatchEvent(new CustomEvent('secondside:positions', {detail: []}))")
    assert _state(phone, "follow") == 0


def test_frame_work_is_small(phone):
    _reset(phone)
    assert frame_ms(phone) <= FRAME_MS


def test_reduced_motion_steps_through_pictures(chromium):
    with motion_page(chromium, reduced_motion="reduce", **PHONE) as page:
        assert page.text_content(".motion-run") == "Next picture"
        page.click(".motion-run")
        first = _state(page, "t")
        page.wait_for_timeout(100)
        assert first > 0 and _state(page, "t") == first and _state(page, "running") is False
        assert page.evaluate("[...document.querySelectorAll('.step')].some(p => (p.getAttribute('d') || '').length > 10)")
        assert page.locator("text=Half speed").is_hidden()


@pytest.mark.parametrize("data", ["not json", "{}", '{"version": 9}'])
def test_data_that_does_not_load_is_said_in_words(chromium, data):
    with motion_page(chromium, data=data) as page:
        assert "did not load" in page.text_content(".motion")
        assert page.get_attribute(".motion", "role") == "status"
