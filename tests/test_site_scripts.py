"""The small scripts of the site, run in the browser they are for."""

from __future__ import annotations

import functools
import http.server
import threading

import pytest

from generator.pages.folder import theme_folder

pytestmark = pytest.mark.browser


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *args):
        pass


@pytest.fixture(scope="module")
def page(chromium):
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Quiet, directory=theme_folder()))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    context = chromium.new_context()
    page = context.new_page()
    page.goto(f"http://127.0.0.1:{server.server_port}/assets/images/mark.svg")
    yield page
    context.close()
    server.shutdown()


def ask(page, module: str, words: str, *values):
    return page.evaluate(f"async (v) => {{ const m = await import('/assets/js/{module}.js'); return {words}; }}", list(values))


SEASON = [{"id": "c", "day": "2026-12-11"}, {"id": "b", "day": "2026-12-04"}, {"id": "a", "day": "2026-11-27"}]


@pytest.mark.parametrize(
    ("day", "expected", "word"),
    [
        ("2026-11-20", "a", "Next game"),
        ("2026-11-27", "a", "Tonight"),
        ("2026-11-28", "b", "Next game"),
        ("2026-12-04", "b", "Tonight"),
        ("2026-12-11", "c", "Tonight"),
        ("2027-01-01", "c", "Last game"),
    ],
)
def test_the_next_game_is_the_first_that_is_not_over(page, day, expected, word):
    assert ask(page, "games", "[m.nextGame(v[0], v[1])?.id, m.whenWord(m.nextGame(v[0], v[1]).day, v[1])]", SEASON, day) == [expected, word]


def test_a_book_without_games_or_days_has_no_tonight(page):
    assert ask(page, "games", "[m.nextGame([], v[0]) ?? null, m.nextGame([{id: 'x', day: ''}], v[0]).id, m.whenWord('', v[0])]", "2026-12-04") == [None, "x", "Next game"]
    assert ask(page, "games", "m.today(new Date(2026, 0, 5, 23, 59))") == "2026-01-05"


A, B = ["a1", "a2", "a3", "a4", "a5"], ["b1", "b2", "b3", "b4", "b5"]


@pytest.mark.parametrize(
    ("before", "now", "positions", "expected"),
    [
        ({"p": A}, {"p": A}, [], []),
        ({"p": A}, {"p": [*A[:2], "x", *A[3:]]}, [3], [{"play": "p", "isNew": False, "positions": [3]}]),
        ({"p": A}, {"p": [*A[:2], "x", *A[3:]]}, [1, 2], []),  # not his job
        ({"p": A}, {"p": [*A[:2], "x", *A[3:]]}, [], [{"play": "p", "isNew": False, "positions": [3]}]),
        ({"p": A}, {"q": B, "p": A}, [4], [{"play": "q", "isNew": True, "positions": []}]),
        ({"p": A, "q": B}, {"p": A}, [], []),  # a play that is gone tells nothing
    ],
)
def test_what_changed_is_what_changed_for_him(page, before, now, positions, expected):
    assert ask(page, "changes", "m.changed(v[0], v[1], v[2])", before, now, positions) == expected


def test_a_change_for_others_is_told_as_such(page):
    assert ask(page, "changes", "[m.differs(v[0], v[1]), m.differs(v[0], v[2]), m.differs(v[0], v[3])]", {"p": A, "q": B}, {"q": B, "p": A}, {"p": A}, {"p": A, "q": A}) == [False, True, True]


@pytest.mark.parametrize(
    ("value", "expected"),
    [(None, []), ([3, "1", 3, 9, "x"], [1, 3]), ("2", [2]), ([0, 6], []), ({"a": 1}, [])],
)
def test_positions_are_cleaned(page, value, expected):
    assert ask(page, "phone", "m.positionsIn(v[0])", value) == expected


def test_the_list_of_plays_toggles_and_lasts(page):
    page.evaluate("localStorage.clear()")
    assert ask(page, "phone", "[m.toggleOnList('a'), m.toggleOnList('b'), m.toggleOnList('a'), m.ownList()]") == [True, True, False, ["b"]]


def test_what_others_left_in_the_phones_memory_does_no_harm(page):
    page.evaluate("localStorage.setItem('secondside:/:list', '{broken'); localStorage.setItem('secondside:/:positions', '\"?\"')")
    assert ask(page, "phone", "[m.ownList(), m.ownPositions()]") == [[], []]


def test_two_books_on_one_host_do_not_mix(page):
    page.evaluate("localStorage.clear()")
    ask(page, "phone", "m.keep('person', 'k1')")
    assert page.evaluate("Object.keys(localStorage)") == ["secondside:/:person"]
