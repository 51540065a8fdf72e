"""Every picture of the demo book and of the test sets: faults, second pictures, bytes, text on a small phone.

Zero faults is a promise, in the demo book and in the sets, which nobody wrote with pictures in mind.
"""

from __future__ import annotations

import gzip
from pathlib import Path

import pytest
from contact_sheet import pictures, sheet
from picture_geometry import inspect
from quiz_page import js_page

from generator.diagrams import diagram_svg, phase_diagrams, play_view
from generator.pipeline import load_and_compute

ROOT = Path(__file__).resolve().parent.parent
BOOKS = {"demo": ROOT / "plays", "sets": ROOT / "tests" / "books" / "sets"}
MOST_SECOND_PICTURES = 0.05
MOST_BYTES = 400
LEAST_TEXT = 11  # CSS pixels as rendered, picture in the column of a 320 px phone


@pytest.fixture(scope="module", params=BOOKS)
def book(request):
    return list(pictures(BOOKS[request.param]))


def test_nothing_stands_on_anything(book):
    faulty = {name: faults for name, scene in book if (faults := inspect(scene).faults)}
    assert len(book) > 100
    assert faulty == {}


def test_bytes_per_diagram_in_books(book):
    """As pages carry them: eight neighbours together."""
    texts = [diagram_svg(scene, "") for name, scene in book if "?" not in name]
    sizes = [len(gzip.compress("".join(texts[i : i + 8]).encode(), 9)) / 8 for i in range(0, len(texts) - 7, 8)]
    assert max(sizes) <= MOST_BYTES


@pytest.mark.parametrize("name", BOOKS)
def test_few_phases_need_a_second_picture(name):
    computed = load_and_compute(BOOKS[name])
    counts = [
        len(phase_diagrams(t, t.settled.main.key, i, play_view(t, computed.book.team)))
        for t in (*computed.plays, *computed.lead_ins)
        for i in range(len(t.main.branch.phases))
    ]
    assert counts and sum(n > 1 for n in counts) / len(counts) < MOST_SECOND_PICTURES


def test_same_book_same_pictures():
    folder = BOOKS["demo"]
    once, again = ([diagram_svg(s, "") for _, s in pictures(folder)] for _ in range(2))
    assert once == again


SMALL = {"answer": (254, ("player", "end", "holder", "order", "word", "watched")), "read": (288, ("player", "holder", "defender", "watched"))}


@pytest.mark.browser
@pytest.mark.parametrize("use", SMALL)
def test_text_is_large_enough_on_a_small_phone(chromium, book, use):
    """Rendered size of every kind of text: answers stand in a box 254 px wide at 320, phases and reads at 288."""
    width, kinds = SMALL[use]
    by_view = {scene.view: (name, scene) for name, scene in book}
    with js_page(chromium, {"/": sheet(list(by_view.values()), width, 1)}, viewport={"width": 320, "height": 640}) as page:
        sizes = page.evaluate(
            """(kinds) => [...document.querySelectorAll('svg.diagram')].flatMap((svg) => {
              const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
              return kinds.map((kind) => {
                const text = document.createElementNS('http://www.w3.org/2000/svg', 'text');
                text.setAttribute('class', kind === 'watched' ? 'defender watched' : kind);
                svg.append(text);
                return [kind, parseFloat(getComputedStyle(text).fontSize) * scale];
              });
            })""",
            list(kinds),
        )
    assert len(sizes) >= len(kinds) * len(by_view)
    assert [s for s in sizes if s[1] < LEAST_TEXT] == []
