"""What is kept between builds never shows: after any change the site is the one a first build would make."""

from __future__ import annotations

import pickle
import re
import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from generator import mkdocs_plugin
from generator.mkdocs_plugin import rebuild
from generator.pages import keys
from generator.pages.kept import Kept, cache_folder
from generator.pages.keys import book_texts, play_keys
from generator.parsing import parse_book
from generator.pipeline import load_book
from generator.source.files import BookFile

DEMO = Path(__file__).resolve().parent.parent / "plays"


@pytest.fixture
def book(tmp_path) -> Path:
    """A small book with a play that continues another."""
    folder = tmp_path / "plays"
    shutil.copytree(DEMO, folder, ignore=shutil.ignore_patterns("games", "foundry", "orchard", "special", "out-of-bounds", "spindrift.yml"))
    return folder


def tree(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def built(book: Path, out: Path, cache: Path, monkeypatch) -> dict[str, bytes]:
    """As a new process would: nothing in memory, what `cache` holds on disk."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(cache))
    mkdocs_plugin._remembered.cache_clear()
    rebuild(book, out)
    return tree(out)


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


CHANGES = (  # one after the other, so that each meets what the one before has left on the shelf
    lambda b: (
        edit(b / "lantern/lantern-over.yml", "4 pops to left slot", "4 pops to left wing"),
        edit(b / "harbor/tidewall.yml", "\nphases:", "\n# moved down a line, and Breakwater continues this\nphases:"),
    ),
    lambda b: (
        edit(b / "lantern/lantern-over.yml", "play: Lantern Over", "play: Lantern Far"),
        edit(b / "lantern/lantern-back.yml", "same as: Lantern Over", "same as: Lantern Far"),
        (b / "lantern/lantern-low.yml").unlink(),
    ),
    lambda b: edit(b / "team.yml", "basket: up", "basket: down"),
)


def test_after_any_change_the_site_is_what_a_first_build_makes(book, tmp_path, monkeypatch):
    before = built(book, tmp_path / "warm", tmp_path / "cache", monkeypatch)
    for number, change in enumerate(CHANGES):
        change(book)
        warm = built(book, tmp_path / "warm", tmp_path / "cache", monkeypatch)
        assert warm == built(book, tmp_path / "cold", tmp_path / f"fresh-{number}", monkeypatch)
        assert warm != before
        before = warm


def test_a_play_depends_on_what_it_names_and_on_nothing_else(book):
    def keys():
        return play_keys(load_book(book)[0], book_texts(book))

    names = {p.name: p.id for p in load_book(book)[0].plays}
    before = keys()
    edit(book / "harbor/tidewall.yml", "\nphases:", "\n# a word\nphases:")
    after = keys()
    moved = {name for name, i in names.items() if before[i] != after[i]}
    continuing = {n for n in names if re.search(r"\bTidewall\b", (book / _file(book, n)).read_text())}
    assert "Tidewall" in moved and moved <= continuing | {"Tidewall"} and "Lantern Over" not in moved
    edit(book / "team.yml", "pace: high school", "pace: college")
    assert all(before[i] != k for i, k in keys().items())


def _file(book: Path, name: str) -> str:
    return next(p.source.path for p in load_book(book)[0].plays if p.name == name)


def test_a_spoilt_value_is_made_again(tmp_path):
    shelf = Kept(tmp_path)
    assert shelf.get("k", lambda: 1) == 1
    Kept(tmp_path).get("other", lambda: 9)
    whole = (tmp_path / "k").read_bytes()
    for spoilt in (b"", b"nothing", pickle.dumps(("a",)), whole[:-3], (tmp_path / "other").read_bytes()):
        (tmp_path / "k").write_bytes(spoilt)
        assert Kept(tmp_path).get("k", lambda: 2) == 2
        assert Kept(tmp_path).get("k", lambda: 3) == 2


def test_what_is_not_asked_for_is_forgotten(tmp_path):
    shelf = Kept(tmp_path)
    shelf.get("old", lambda: 1)
    shelf.sweep()
    shelf.get("new", lambda: 2)
    shelf.sweep()
    assert [p.name for p in tmp_path.iterdir()] == ["new"]


def test_a_folder_that_cannot_be_written_does_no_harm(tmp_path):
    (tmp_path / "file").write_text("")
    assert Kept(tmp_path / "file" / "inside").get("k", lambda: 4) == 4


def test_values_lie_with_the_person_not_in_the_book(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "mine"))
    assert cache_folder(tmp_path / "book").is_relative_to(tmp_path / "mine")
    assert cache_folder(tmp_path / "book") != cache_folder(tmp_path / "other")


def test_the_speed_measured_by_stopwatch_is_part_of_every_key(book):
    """It may come from a play's own text, which no other play's key holds."""
    loaded, texts = load_book(book)[0], book_texts(book)
    slower = replace(loaded, team=replace(loaded.team, slowness=loaded.team.slowness * 1.1))
    before, after = play_keys(loaded, texts), play_keys(slower, texts)
    assert all(before[i] != after[i] for i in before)


def test_a_play_is_named_by_its_mirrored_name_and_inside_an_answer_of_an_answer():
    names = dict.fromkeys(("lantern", "lantern mirrored", "ferry"))
    any_name = re.compile("lantern mirrored|lantern|ferry")
    assert set(keys._named("go to: lantern mirrored", any_name, names)) == {"lantern", "lantern mirrored"}
    text = (
        "play: A\nstart: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}\n"
        "phases:\n  - name: P\n    do: [1 passes to 2]\n    reads:\n"
        "      - {who: 2, watch: X2, answers: {sag: {do: go on, reads: [{who: 2, watch: X4, answers:"
        " {help: {do: [2 passes to 4], go to: B}, otherwise: go on}}]}, otherwise: go on}}\n"
    )
    other = text[: text.index("    reads:")].replace("play: A", "play: B")
    play = parse_book([BookFile("a.yml", text), BookFile("b.yml", other)])[0].play("A")
    assert list(keys._continued(play)) == ["b"]
