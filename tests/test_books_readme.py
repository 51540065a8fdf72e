"""README.md says what is so: its play is the demo book's, its commands exist."""

from __future__ import annotations

import re
from pathlib import Path

from click.testing import CliRunner

from generator.cli import main

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_play_it_shows_is_the_file_it_names():
    shown = re.search(r"```yaml\n(.*?)```", README, re.DOTALL).group(1)
    assert shown == (ROOT / "plays" / "lantern" / "lantern-over.yml").read_text(encoding="utf-8")


def test_every_command_it_names_exists():
    for line in sorted(set(re.findall(r"^ {4}secondside ([a-z].*?)(?: {2,}#.*)?$", README, re.MULTILINE))):
        verb, *rest = line.split()
        names = [verb] + ([rest[0]] if verb in ("access", "print", "results") else [])
        done = CliRunner().invoke(main, [*names, "--help"])
        assert done.exit_code == 0, line
        for option in re.findall(r"--[a-z-]+", line):
            assert option in done.output, line


def test_its_pictures_are_what_draw_makes_of_the_play(golden, tmp_path):
    names = re.findall(r"\]\(tests/golden/(svg/readme-(\d)\.svg)\)", README)
    assert [number for _, number in names] == ["1", "2", "3"]
    for name, number in names:
        drawn = tmp_path / "drawn.svg"
        done = CliRunner().invoke(main, ["draw", "Lantern Over", "--book", str(ROOT / "plays"), "--phase", number, "--out", str(drawn)])
        assert done.exit_code == 0, done.output
        golden(name, drawn.read_text(encoding="utf-8"))


def test_every_folder_of_the_book_it_names_is_there():
    for name in re.findall(r"^ {6}([a-z.-]+(?:/ [a-z/ -]+)?/|[a-z]+\.yml)", README, re.MULTILINE):
        for part in name.split():
            assert (ROOT / "plays" / part).exists(), part


def test_it_stays_short_enough_to_be_read():
    assert len(README.splitlines()) < 220 and max(map(len, README.splitlines())) <= 170
