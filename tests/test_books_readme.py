"""README.md says what is so: its play is the demo book's, its commands exist."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.cli import main
from generator.starter import write_starter

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
        needed = re.findall(r"(--[a-z-]+) .*(?:\n {3,}.*)*?\[required\]", done.output)
        assert set(needed) <= set(re.findall(r"--[a-z-]+", line)), line


def _keys(value) -> set[str]:
    """Every key of a JSON value, at any depth."""
    if isinstance(value, dict):
        return set(value) | {k for v in value.values() for k in _keys(v)}
    return {k for v in value for k in _keys(v)} if isinstance(value, list) else set()


@pytest.mark.parametrize("verb, list_name", [("check", "diagnostics"), ("clock", "plays"), ("lookalikes", "pairs"), ("questions", "questions")])
def test_the_json_it_describes_is_what_comes(tmp_path, verb, list_name):
    """Key for key, on the starter book and a draft that has a mistake."""
    write_starter(tmp_path / "book", "Oak", "college", "college")
    draft = "play: Pine\ndraft: yes\nstart: grove\nphases: [{name: Only, do: [1 zorps]}]\n"
    (tmp_path / "book" / "plays" / "cedar" / "pine.yml").write_text(draft, encoding="utf-8")
    block = re.search(rf'^    \{{"version": 1,\s+"{list_name}":.*?(?=\n\n)', README, re.MULTILINE | re.DOTALL).group(0)
    done = CliRunner().invoke(main, [verb, str(tmp_path / "book" / "plays"), "--format", "json"])
    given = json.loads(done.stdout)
    assert given["version"] == 1 and given[list_name]
    assert _keys(given) == set(re.findall(r'"([a-z_]+)"', block))


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
