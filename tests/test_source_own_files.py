"""A coach's own pages and pictures: what cannot be read, and links by which something else would be published."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.cli import main
from generator.mkdocs_plugin import BookErrors, build_site, rebuild
from generator.source import unfit_files
from generator.starter import write_starter


@pytest.fixture(scope="module")
def starter(tmp_path_factory):
    home = tmp_path_factory.mktemp("coach") / "book"
    write_starter(home, "Oakfield", "high school", "high school")
    return home / "plays"


@pytest.fixture
def book(starter, tmp_path):
    shutil.copytree(starter, tmp_path / "plays")
    (tmp_path / "secret.md").write_text("# Zitterpappel\n\nnot of this book\n")
    return tmp_path / "plays"


def told(book: Path) -> list[tuple[str, int, str]]:
    return [(d.location.path, d.location.line, d.message) for d in unfit_files(book)]


def test_the_starter_has_nothing_unfit_and_own_pages_are_let_pass(book):
    (book / "Notiz für Äbte.md").write_bytes(b"\xef\xbb\xbf# H\xc3\xa4user\r\n\r\nZeile\r\n")
    os.symlink("Notiz für Äbte.md", book / "same.md")
    (book / "shot.png").write_bytes(b"\x89PNG\xff\xfe")
    (book / ".hidden.md").write_bytes(b"\xff")
    assert told(book) == []


SPOILT = {
    "latin.md": (lambda p: p.write_bytes(b"# ok\n\nH\xe4user\n"), 3, "is not UTF-8"),
    "wide.md": (lambda p: p.write_bytes("# häuser".encode("utf-16")), 1, "UTF-16"),
    "gone.md": (lambda p: os.symlink("nowhere.md", p), 1, "not a file that can be read"),
    "out.md": (lambda p: os.symlink(p.parent.parent / "secret.md", p), 1, "leads out of the book"),
    "out.png": (lambda p: os.symlink(p.parent.parent / "secret.md", p), 1, "leads out of the book"),
    "round": (lambda p: os.symlink("..", p), 1, "this folder is a link"),
    "fifo.md": (os.mkfifo, 1, "not a file that can be read"),
}


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs links and pipes")
@pytest.mark.parametrize("name", SPOILT)
def test_what_cannot_be_published_is_a_mistake_with_its_place_and_stops_a_build(book, tmp_path, name):
    make, line, message = SPOILT[name]
    make(book / name)
    ((path, at, said),) = told(book)
    assert (path, at) == (name, line) and message in said
    with pytest.raises(BookErrors, match=name):
        build_site(book, tmp_path / "site")
    assert not (tmp_path / "site").exists()
    done = CliRunner().invoke(main, ["check", str(book)])
    assert done.exit_code == 1 and name in done.output and message in done.output


def test_a_preview_goes_on_without_the_file_and_shows_the_mistake(book, tmp_path):
    os.symlink(tmp_path / "secret.md", book / "out.md")
    (book / "latin.md").write_bytes(b"H\xe4user\n")
    plugin = rebuild(book, tmp_path / "site")
    assert {d.location.path for d in plugin.problems} == {"out.md", "latin.md"}
    assert not [p for p in (tmp_path / "site").rglob("*.html") if "Zitterpappel" in p.read_text()]
