"""What a computer refuses (no such folder, a file in the way, no right, a full disk) is one sentence and a status, never a traceback."""

from __future__ import annotations

import errno
import os

import click
import pytest
from click.testing import CliRunner

from generator import cli
from generator.starter import write_starter


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    """A starter book in a folder with a blank and an umlaut in its name."""
    home = tmp_path_factory.mktemp("coach") / "Fähre Süd"
    write_starter(home, "Oakfield", "high school", "high school")
    (home / "file").write_text("in the way")
    return home / "plays"


@pytest.mark.parametrize(
    "words",
    [
        ("new", "{home}/file/new", "--team", "Oakfield", "--rule-set", "college", "--pace", "college"),
        ("draw", "Cedar", "--book", "{book}", "--out", "{home}/file/a.svg"),
        ("print", "play", "Cedar", "--book", "{book}", "--out", "{home}/file/a.html"),
        ("build", "{book}", "--out", "{home}/file/site"),
        ("publish", "{book}", "--to", "{home}/file/web"),
        ("publish", "{book}", "--zip", "{home}/file/site.zip"),
    ],
)
def test_a_place_that_cannot_be_written_is_told_in_a_sentence(book, words):
    done = CliRunner().invoke(cli.main, [w.format(home=book.parent, book=book) for w in words])
    assert done.exit_code == 2 and isinstance(done.exception, SystemExit)
    said = " ".join(done.output.split())
    assert "Error: " in said and ("Not a directory" in said or "File exists" in said) and "Traceback" not in said
    assert (book.parent / "file").read_text() == "in the way"


def _failing(number: int) -> click.Command:
    @click.command()
    def command() -> None:
        raise OSError(number, os.strerror(number), "plays/team.yml")

    return command


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES, errno.EROFS, errno.EIO])
def test_every_verb_has_the_same_net(monkeypatch, number):
    monkeypatch.setattr(cli._Verbs, "get_command", lambda *_: _failing(number))
    done = CliRunner().invoke(cli.main, ["check"])
    assert done.exit_code == 2 and done.output.strip() == f"Error: The computer refused this: {os.strerror(number)} (plays/team.yml)."


def test_a_reader_who_has_enough_is_no_mistake(monkeypatch):
    """`secondside clock | head`: the command line's own way of ending quietly is left alone."""
    monkeypatch.setattr(cli._Verbs, "get_command", lambda *_: _failing(errno.EPIPE))
    assert "refused" not in CliRunner().invoke(cli.main, ["clock"]).output
