"""A real book from text to locked folder by the commands a coach types, read back as a stranger, a player and a coach."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner
from publish_fixture import opened, tree

from generator.cli import main
from generator.publish.built_site import words_of_folder
from generator.publish.shell import shell_files
from generator.publish.targets import BOOT
from generator.starter import write_starter
from generator.vault.boot import read_boot

STAFF_ONLY = ("Pumpernickel", "Quicksilver", "Marzipan")


def run(*words) -> str:
    done = CliRunner().invoke(main, [str(w) for w in words])
    assert done.exit_code == 0, done.output
    return done.output


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A starter book with notes for staff, a draft and a retired play; two codes; published once."""
    home = tmp_path_factory.mktemp("coach")
    book = home / "book" / "plays"
    write_starter(home / "book", "Oakfield Meadowlarks", "high school", "high school")
    play = book / "cedar" / "cedar.yml"
    play.write_text(play.read_text() + "staff-note: Pumpernickel is slow to help here.\n")
    game = next((book / "games").glob("*.yml"))
    game.write_text(game.read_text() + "staff-note: Quicksilver has a sore ankle.\n")
    for name, key in (("Draughty", "draft"), ("Pensioner", "retired")):
        text = play.read_text().replace("play: Cedar", f"play: {name}").replace("call: Cedar", f"call: {name} now").replace("Pumpernickel", "Marzipan")
        (book / "cedar" / f"{name.lower()}.yml").write_text(f"{key}: yes\n{text}")
    player = run("access", "add", "Ash", "--book", book).split(": ")[1].split()[0]
    coach = run("access", "add", "Coach Vane", "--staff", "--book", book).split(": ")[1].split()[0]
    told = run("publish", book, "--to", home / "web")
    return home, book, player, coach, told


def test_publishing_tells_what_it_did(made):
    told = re.search(r"Published version 1: (\d+) locked files, (\d+) of them new or changed, \d+ KB to upload", made[4])
    assert told and int(told[1]) == int(told[2]) > 20


def test_a_stranger_finds_no_word_of_the_book(made):
    home, book, *_ = made
    words = words_of_folder(book) | {"Meadowlarks", "Oakfield"}
    assert len(words) > 80
    plain = shell_files()
    for path, content in tree(home / "web").items():
        if path in plain:
            assert content == plain[path]
            continue
        low = content.lower()
        assert not [w for w in words if w.encode() in content or w.lower().encode() in content or (len(w) > 7 and w.lower().encode() in low)], path
        assert not [w for w in words if w.lower() in path.lower()]


def test_the_players_tree_holds_nothing_for_staff(made):
    home, _, player, coach, _ = made
    players, staff = (opened(tree(home / "web"), code, rounds=600_000) for code in (player, coach))
    alone = set(staff) - set(players)
    assert len(alone) >= 3 and "_people.json" in alone
    assert any(b"Pumpernickel" in staff[path] for path in alone) and any(b"Quicksilver" in staff[path] for path in alone)
    assert [path for path in alone if b"what the lock protects" in staff[path]]
    assert not any(b"what the lock protects" in content for content in players.values())
    folders = {path.split("/")[0] for path in alone if path.endswith("index.html")}
    for path, content in players.items():
        if path.endswith((".js", ".css")):
            continue
        for word in (*STAFF_ONLY, "Draughty", "Pensioner"):
            assert word.encode() not in content, (path, word)
        if path.startswith(("search/", "sitemap")):
            assert not [f for f in folders if f.encode() in content], path
    assert any(b"Cedar Back" in content for content in players.values())


def test_what_a_code_was_given_for_is_in_the_seat(made):
    from generator.publish.private_state import load_state, state_path

    _, book, player, *_ = made
    seat = load_state(state_path(book)).person("Ash")
    assert seat.code == player and seat.positions == (1,) and seat.wrap


def test_again_without_a_change_and_with_one(made):
    home, book, player, *_ = made
    before = tree(home / "web")
    assert "Nothing has changed" in run("publish", book, "--to", home / "web")
    assert tree(home / "web") == before
    play = book / "cedar" / "cedar-back.yml"
    play.write_text(play.read_text().replace("Look at 3 until the last moment.", "Look at 3 until the very last moment."))
    told = run("publish", book, "--to", home / "web")
    changed, kilobytes = map(int, re.search(r"(\d+) of them new or changed, (\d+) KB", told).groups())
    assert changed <= 12 and kilobytes <= 60
    assert any(b"very last moment" in c for c in opened(tree(home / "web"), player, rounds=600_000).values())


def test_errors_stop_it_and_nothing_is_written(made, tmp_path):
    _, book, *_ = made
    shutil.copytree(book, tmp_path / "plays")
    play = tmp_path / "plays" / "cedar" / "cedar.yml"
    play.write_text(play.read_text().replace("3 cuts off 4", "3 cutz off 4"))
    done = CliRunner().invoke(main, ["publish", str(tmp_path / "plays"), "--to", str(tmp_path / "web")])
    assert done.exit_code == 1 and "cedar.yml" in done.output and "Nothing was published" in done.output
    assert not (tmp_path / "web").exists()


@pytest.mark.parametrize(
    "words, told",
    [
        ((), "say where: --to DIR, --zip FILE or --git-branch NAME"),
        (("--to", "{home}/w", "--zip", "{home}/x.zip"), "one of them"),
        (("--to", "{book}/out"), "outside the book's folder"),
        (("--to", "{home}/used"), "do not belong to a published site"),
        (("--git-branch", "site"), "git"),
    ],
)
def test_places_that_cannot_be_published_to(made, tmp_path, words, told):
    _, book, *_ = made
    shutil.copytree(book, tmp_path / "plays")
    (tmp_path / "used").mkdir()
    (tmp_path / "used" / "notes.txt").write_text("plain")
    spelt = [w.format(home=tmp_path, book=tmp_path / "plays") for w in words]
    done = CliRunner().invoke(main, ["publish", str(tmp_path / "plays"), *spelt])
    assert done.exit_code == 2 and told in " ".join(done.output.split())


def test_a_zip_by_command(made, tmp_path):
    import zipfile

    _, book, player, *_ = made
    shutil.copytree(book, tmp_path / "plays")
    assert "unpack it there" in run("publish", tmp_path / "plays", "--zip", tmp_path / "site.zip")
    with zipfile.ZipFile(tmp_path / "site.zip") as packed:
        files = {i.filename: packed.read(i) for i in packed.infolist()}
    assert opened(files, player, rounds=600_000)
    assert set(json.loads(files[BOOT])) == {"v", "body", "sig"} and len(read_boot(files[BOOT]).boot.seats) == 16
    assert not [p for p in files if Path(p).is_absolute() or ".." in p]
