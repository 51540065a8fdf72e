"""`draw` and `print` from the command line: files that stand alone, paper without cuts or colour, words when it cannot be."""

from __future__ import annotations

import html
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from browser import find_chromium
from click.testing import CliRunner
from quiz_page import js_page

from generator.cli import main
from tests.quiz_bank import demo_bank

BOOK = Path(__file__).resolve().parent.parent / "plays"
PX_PER_MM = 96 / 25.4


def run(*words: str):
    return CliRunner().invoke(main, [*words])


def draw(*words: str):
    return run("draw", *words, "--book", str(BOOK))


def paper(*words: str):
    return run("print", *words, "--book", str(BOOK))


@pytest.fixture
def browser_named(monkeypatch):
    if find_chromium():
        monkeypatch.setenv("SECONDSIDE_CHROMIUM", find_chromium())


# -- draw ------------------------------------------------------------------------------------------------


def test_a_drawn_svg_stands_alone(tmp_path):
    out = tmp_path / "deep" / "lantern.svg"
    done = draw("lantern", "--phase", "2", "--out", str(out))
    assert done.exit_code == 0, done.output
    text = out.read_text()
    root = ET.fromstring(text)
    assert root.tag.endswith("svg") and root.find("{http://www.w3.org/2000/svg}title").text == "Lantern: Pin-down"
    assert "var(--" not in text and "url(" not in text and "href" not in text and "#20242b" in text
    assert not list(tmp_path.rglob("*.part"))


def test_looks_differ_and_equal_calls_are_equal(tmp_path):
    for name, look in (("a", "light"), ("b", "dark"), ("c", "light"), ("d", "print")):
        assert draw("Lantern", "--look", look, "--out", str(tmp_path / f"{name}.svg")).exit_code == 0
    a, b, c, d = ((tmp_path / f"{n}.svg").read_bytes() for n in "abcd")
    assert a == c and len({a, b, d}) == 3


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("Lantarn", "--out", "x.svg"), "Did you mean Lantern?"),
        (("zzzzzz", "--out", "x.svg"), "The book has:"),
        (("Lantern", "--phase", "9", "--out", "x.svg"), "phases 1 to 3"),
        (("Lantern", "--answer", "zone", "--out", "x.svg"), "Its answers: shoot the gap, trail"),
        (("Lantern", "--out", "x.gif"), ".svg or .png"),
    ],
)
def test_what_cannot_be_drawn_is_said(words, said):
    done = draw(*words)
    assert done.exit_code == 2 and said in done.output and "Traceback" not in done.output


def test_a_play_that_cannot_be_placed_names_its_line(tmp_path):
    (tmp_path / "team.yml").write_text("team: Hand\n")
    (tmp_path / "bad.yml").write_text(
        "play: Bad\nstart: {1: top with the ball, 2: left wing, 3: right wing, 4: left block, 5: right block}\n"
        "phases:\n  - name: One\n    do:\n      - 2 passes to 3\n"
    )
    done = run("draw", "Bad", "--book", str(tmp_path), "--out", str(tmp_path / "x.svg"))
    assert done.exit_code == 1 and "bad.yml:6" in done.output and not (tmp_path / "x.svg").exists()


@pytest.mark.browser
def test_a_png_has_the_pictures_shape(tmp_path, browser_named):
    out = tmp_path / "lantern.png"
    done = draw("Lantern", "--answer", "trail", "--position", "3", "--out", str(out))
    assert done.exit_code == 0, done.output
    head = out.read_bytes()[:24]
    width, height = int.from_bytes(head[16:20]), int.from_bytes(head[20:24])
    assert head[:4] == b"\x89PNG" and width == 900 and 0.6 < height / width < 0.8


@pytest.mark.parametrize("words", [("draw", "Lantern", "--out", "x.png"), ("print", "play", "Lantern", "--out", "x.pdf")])
def test_no_browser_is_said_in_words(words, monkeypatch, tmp_path):
    monkeypatch.setenv("SECONDSIDE_CHROMIUM", str(tmp_path / "none"))
    monkeypatch.chdir(tmp_path)
    done = run(*words, "--book", str(BOOK))
    assert done.exit_code == 1 and "SECONDSIDE_CHROMIUM" in done.output and not list(tmp_path.iterdir())


# -- print -----------------------------------------------------------------------------------------------

PAPERS = {
    "play": ("play", "Lantern"),
    "own": ("play", "Lantern Over", "--position", "3", "--mirrored"),
    "series": ("series", "lantern"),
    "booklet": ("position", "3"),
    "bench": ("bench",),
    "quiz": ("quiz", "Weirgate"),
}


@pytest.fixture(scope="module")
def papers(tmp_path_factory):
    """The HTML of every kind of paper."""
    folder, made = tmp_path_factory.mktemp("paper"), {}
    for name, words in PAPERS.items():
        out = folder / f"{name}.html"
        done = paper(*words, "--out", str(out))
        assert done.exit_code == 0, done.output
        made[name] = out.read_text()
    return made


def test_paper_needs_nothing_from_outside(papers):
    for text in papers.values():
        assert not re.search(r"(src|href)=\"(?!#)", text) and "@import" not in text and "http" not in text.replace("http://www.w3.org", "")


def test_paper_is_the_same_twice(papers, tmp_path):
    out = tmp_path / "again.html"
    assert paper(*PAPERS["quiz"], "--out", str(out)).exit_code == 0
    assert out.read_text() == papers["quiz"]


def test_plays_carry_the_cautions(papers):
    """Walk through first, legal screens, surface and fitness, head knock, medical staff, officials."""
    for name in ("play", "series", "booklet", "bench"):
        for words in ("Walk through first", "stands still", "fitness", "concussion protocol", "licensed medical staff", "official in charge"):
            assert words in papers[name], (name, words)


@pytest.mark.parametrize("name", PAPERS)
def test_paper_size_is_as_asked(papers, name, tmp_path):
    letter = tmp_path / "l.html"
    assert paper(*PAPERS[name], "--paper", "letter", "--out", str(letter)).exit_code == 0
    assert "size: A4" in papers[name] and "size: letter" in letter.read_text()


def test_the_key_is_right_and_apart(papers):
    """Every letter of the key is the right option of its question as the bank has it, on another sheet than the questions."""
    questions, key = papers["quiz"].split('<article class="paper-key">')
    bank = [(q.prompt, {o.text: i in q.right for i, o in enumerate(q.options)}) for q in demo_bank().questions]
    asked = re.findall(r'<li class="paper-question">(.*?)</ol>', questions, re.DOTALL)
    right = [set(r.split(", ")) for r in re.findall(r"<b>([\w, ]+)</b>", key)]
    assert len(asked) == len(right) == 10
    for text, letters in zip(asked, right, strict=True):
        plain = html.unescape(text)
        options = {option: letter for letter, option in re.findall(r"<li><span>(\w)</span> (.*?)</li>", plain)}
        found = [marked for prompt, marked in bank if prompt in plain and {o for o, good in marked.items() if good} <= set(options)]
        assert found and letters in [{options[o] for o, good in marked.items() if good} for marked in found], plain
    assert len({min(r) for r in right}) > 1


def test_a_booklet_speaks_to_its_position_only(papers):
    jobs = re.findall(r'<li value="(\d)">', papers["booklet"])
    assert len(jobs) > 20 and set(jobs) == {"3"}
    assert "for-one" in papers["booklet"]


@pytest.mark.browser
@pytest.mark.parametrize("name", PAPERS)
def test_nothing_is_cut_and_nothing_is_coloured(chromium, papers, name):
    """Pictures may not be broken over sheets and fit on one; all ink is grey; text is at least 6.5 pt."""
    with js_page(chromium, {"/": papers[name]}, viewport={"width": int(186 * PX_PER_MM), "height": 900}) as page:
        page.emulate_media(media="print")
        cut = page.evaluate(
            "[...document.querySelectorAll('.paper-picture')].filter(f => getComputedStyle(f).breakInside !== 'avoid' "
            "|| f.getBoundingClientRect().height > 250 * 96 / 25.4).length"
        )
        wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        inks = set(
            page.evaluate(
                """[...document.querySelectorAll('.paper *')].flatMap((e) => {
                  const s = getComputedStyle(e);
                  return [s.color, s.backgroundColor, s.fill, s.stroke];
                })"""
            )
        )
        small = page.evaluate(
            "[...document.querySelectorAll('.paper p, .paper li, .paper h2')].map(e => parseFloat(getComputedStyle(e).fontSize)).filter(s => s < 8.6).length"
        )
        pictures = page.locator(".paper-picture").count()
    greys = [tuple(map(float, re.findall(r"[\d.]+", ink)))[:3] for ink in inks if ink.startswith("rgb")]
    assert pictures > 0 and cut == 0 and wide <= 0 and small == 0
    assert greys and all(len(set(g)) == 1 for g in greys)


@pytest.mark.browser
@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("name", ["play", "bench"])
def test_a_play_and_the_bench_card_take_one_sheet(name, size, tmp_path, browser_named):
    out = tmp_path / f"{name}.pdf"
    done = paper(*PAPERS[name], "--paper", size, "--out", str(out))
    assert done.exit_code == 0, done.output
    data = out.read_bytes()
    assert data.startswith(b"%PDF") and len(re.findall(rb"/Type\s*/Page\b", data)) == 1


@pytest.mark.browser
def test_pictures_are_as_large_as_one_sheet_allows(chromium, papers):
    """Every play of a series stays on its sheet and none leaves a quarter of it empty while its pictures could grow."""
    with js_page(chromium, {"/": papers["series"]}, viewport={"width": int(190 * PX_PER_MM), "height": 900}) as page:
        page.wait_for_function("[...document.querySelectorAll('.paper-play')].every(p => p.style.getPropertyValue('--phase'))")
        plays = page.evaluate(
            "[...document.querySelectorAll('.paper-play')].map(p => [p.offsetHeight, parseFloat(p.style.getPropertyValue('--phase'))])"
        )
    assert len(plays) > 2
    for height, width in plays:
        filled = height / PX_PER_MM / 275
        assert filled < 1 and (filled > 0.75 or width == 112), (filled, width)


@pytest.mark.browser
def test_a_press_break_takes_two_sheets_at_most(tmp_path, browser_named):
    out = tmp_path / "long.pdf"
    done = paper("play", "Causeway", "--out", str(out))
    assert done.exit_code == 0, done.output
    assert len(re.findall(rb"/Type\s*/Page\b", out.read_bytes())) <= 2


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("series", "Nothing"), "The book has:"),
        (("bench", "Nobody"), "The book has: Weirgate"),
        (("play", "Lantern", "--out", "x.doc"), ".pdf or .html"),
        (("play", "Lantarn"), "Did you mean Lantern?"),
    ],
)
def test_what_cannot_be_printed_is_said(words, said, tmp_path):
    out = () if "--out" in words else ("--out", str(tmp_path / "x.html"))
    done = paper(*words, *out)
    assert done.exit_code == 2 and said in done.output and "Traceback" not in done.output
