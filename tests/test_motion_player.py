"""The steering of the motion: pure functions, run in Chromium on a small made-up play."""

from __future__ import annotations

import pytest
from quiz_page import js_page

pytestmark = pytest.mark.browser


def _track(key: str, duration: float, taken: int) -> dict:
    still = [[0, *[0] * 20], [0, *[0] * 20]]
    return {
        "key": key, "name": key, "rate": 5, "unit": 0.05, "duration": duration, "holder": 1,
        "offence": {str(p): still for p in range(1, 6)}, "ball": [[1.0, 1.5, 1, 2, "chest"]],
        "phases": [0.0, 2.0], "names": ["One", "Two"], "lines": [[], []], "forks": [2.5],
        "reads": [{"name": "2 watches X2", "taken": taken, "answers": [["trail", "away"], ["none", "main"]]}],
    }


MOTION = {
    "version": 1, "play": "p", "floor": "", "box": "", "casts": [["as written", [1, 2, 3, 4, 5]], ["3 in 2's place", [1, 3, 2, 4, 5]]],
    "tracks": [_track("main", 4.0, 1), _track("away", 3.4, 0)],
}


@pytest.fixture(scope="module")
def ask(chromium):
    """Runs a JS expression with `p` (player module) and `s` (a fresh state)."""
    with js_page(chromium) as page:

        def run(expression: str, **wish):
            return page.evaluate(
                """async ({ data, wish, expression }) => {
                  const p = await import('/js/motion_player.js');
                  const { decode } = await import('/js/motion_track.js');
                  const s = p.begin(decode(data), wish);
                  const out = new Function('p', 's', 'return ' + expression)(p, s);
                  return out && out.motion ? { ...out, motion: undefined } : out;
                }""",
                {"data": MOTION, "wish": wish, "expression": expression},
            )

        yield run


def test_runs_holds_and_begins_again(ask):
    assert ask("p.runOrHold(s)")["running"] is True
    assert ask("p.runOrHold(p.runOrHold(s))")["running"] is False
    ended = ask("p.pass(p.runOrHold(s), 9)")
    assert ended["t"] == 4.0 and ended["running"] is False
    assert ask("p.runOrHold(p.pass(p.runOrHold(s), 9))")["t"] == 0.0


def test_time_passes_only_while_running_and_half_as_fast_at_half_speed(ask):
    assert ask("p.pass(s, 1)")["t"] == 0
    assert ask("p.pass(p.runOrHold(s), 1)")["t"] == pytest.approx(1.0)
    assert ask("p.pass(p.runOrHold(p.changeSpeed(s)), 1)")["t"] == pytest.approx(0.5)
    assert ask("p.changeSpeed(p.changeSpeed(s))")["speed"] == 1


def test_phase_by_phase(ask):
    assert ask("p.phaseStep(s, 1)")["t"] == 2.0
    assert ask("p.phaseStep(p.phaseStep(s, 1), 1)")["t"] == 4.0
    assert ask("p.phaseStep(p.goTo(s, 3), -1)")["t"] == 2.0
    assert ask("p.phaseStep(p.goTo(s, 2.1), -1)")["t"] == 0.0
    assert [ask(f"p.phaseNow(p.goTo(s, {t}))") for t in (0, 1.9, 2.0, 4)] == [0, 0, 1, 1]


def test_no_place_outside_the_play(ask):
    assert ask("p.goTo(s, -5)")["t"] == 0 and ask("p.goTo(s, 50)")["t"] == 4.0
    clip = ask("p.goTo(s, 0)", **{"from": 1.0, "to": 3.0})
    assert clip["t"] == 1.0 and ask("p.phaseStep(s, -1)", **{"from": 1.0, "to": 3.0})["t"] == 1.0


def test_an_answer_starts_shortly_before_its_read_and_brings_the_defence(ask):
    taken = ask("p.take(s, 0, 0)")
    assert taken["branch"] == "away" and taken["running"] and taken["defence"]
    assert taken["t"] == pytest.approx(2.5 - 1.6) and taken["to"] == 3.4
    assert ask("p.take(s, 7, 0)")["branch"] == "main"  # no such read: nothing happens
    assert ask("p.take(p.take(s, 0, 0), 0, 1)")["branch"] == "main"


def test_who_runs_it(ask):
    assert ask("p.numbers(s)") == [1, 2, 3, 4, 5]
    assert ask("p.numbers(p.changeCast(s, 1))") == [1, 3, 2, 4, 5]
    assert ask("p.changeCast(s, 9)")["cast"] == 1


def test_follow_and_side_are_switches(ask):
    assert ask("p.follow(s, 3)")["follow"] == 3 and ask("p.follow(p.follow(s, 3), 3)")["follow"] == 0
    assert ask("p.changeSide(p.changeSide(s))")["otherSide"] is False


def test_stepped_pictures_visit_openings_catches_and_reads(ask):
    """Reduced motion: `run` goes from picture to picture, nothing moves by itself."""
    assert ask("p.stops(s)", still=True) == [0, 1.5, 2, 2.5, 4]
    walked = ask("[1,2,3,4,5].reduce((a) => [...a, p.runOrHold(a[a.length - 1])], [s]).map((x) => x.t)", still=True)
    assert walked == [0, 1.5, 2, 2.5, 4, 0]
    assert ask("p.runOrHold(s)", still=True)["running"] is False
    assert ask("p.runOrHold(p.runOrHold(s))", still=True)["since"] == 1.5
    assert ask("p.previousStop(p.goTo(s, 2))", still=True)["t"] == 1.5


def test_says_where_it_is(ask):
    assert ask("p.saying(p.goTo(s, 2.2))") == "Two, phase 2 of 2"
