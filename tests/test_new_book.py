"""`secondside new`: a book that is sound for every rule set, in an empty folder, from an installed wheel."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import jsonschema
import pytest
import yaml
from click.testing import CliRunner

from generator.cli import main
from generator.commands.new import PACES, RULE_SETS
from generator.starter import NotEmpty, starter_files, write_starter

ROOT = Path(__file__).resolve().parent.parent


def new(folder: Path, *words: str, given: str | None = None):
    return CliRunner().invoke(main, ["new", str(folder), *words], input=given)


@pytest.mark.parametrize("rule_set", RULE_SETS)
def test_the_book_has_nothing_to_mend(tmp_path, rule_set):
    from generator.pipeline import load_and_compute

    for pace in PACES[:: 3 if rule_set != "high school" else 1]:
        write_starter(tmp_path / pace, "Oakfield", rule_set, pace)
        found = load_and_compute(tmp_path / pace / "plays")
        assert [str(d.message) for d in found.diagnostics] == []
        assert found.book.team.rule_set.value == rule_set and found.book.team.pace == pace
        assert {t.play.name for t in found.published} == {"Cedar", "Cedar Back"}


def test_flags_or_answers(tmp_path):
    flags = new(tmp_path / "a", "--team", "Oak: field", "--rule-set", "college", "--pace", "college")
    asked = new(tmp_path / "b", given="Oak: field\ncollege\ncollege\n")
    assert flags.exit_code == asked.exit_code == 0
    for path in starter_files("x", "college", "college"):
        assert (tmp_path / "a" / path).read_text() == (tmp_path / "b" / path).read_text()
    assert (tmp_path / "a" / ".gitignore").exists() and "Oak: field" in (tmp_path / "a" / "README.md").read_text()
    assert new(tmp_path / "c", given="").exit_code == 2
    assert not (tmp_path / "c").exists()
    assert new(tmp_path / "c", "--team", "Oak", "--rule-set", "other", "--pace", "college").exit_code == 2


def test_a_book_that_is_there_gets_its_schemas_and_new_ones_after_a_change_of_version(tmp_path):
    """What `new` wrote is written anew; the report stays as it is, for programs that read it."""
    write_starter(tmp_path / "book", "Oakfield", "college", "college")
    first = {p.name: p.read_bytes() for p in (tmp_path / "book" / "editor").iterdir()}
    (tmp_path / "book" / "editor" / "play.json").write_text("of an older version")
    (tmp_path / "book" / "editor" / "mine.txt").write_text("mine")
    told = CliRunner().invoke(main, ["check", str(tmp_path / "book" / "plays"), "--editor", "--format", "json"])
    assert told.exit_code == 0 and json.loads(told.stdout) == {"version": 1, "diagnostics": []}
    assert "$schema=../../editor/play.json" in told.stderr
    assert {p.name: p.read_bytes() for p in (tmp_path / "book" / "editor").iterdir()} == {**first, "mine.txt": b"mine"}


@pytest.mark.parametrize("team", ['The "Oaks"', "Oak's: #1", "Ω-Team", "- dash", "yes", "$ 5", "C:\\temp"])
def test_any_team_name_comes_back_as_typed(tmp_path, team):
    from generator.pipeline import load_book

    assert new(tmp_path / "book", "--team", team, "--rule-set", "high school", "--pace", "youth").exit_code == 0
    book, found = load_book(tmp_path / "book" / "plays")
    assert book.team.name == team and not found


def test_an_empty_folder_is_filled_and_a_used_one_left_alone(tmp_path):
    (tmp_path / "empty").mkdir()
    assert new(tmp_path / "empty", "--team", "Oak", "--rule-set", "college", "--pace", "college").exit_code == 0
    (tmp_path / "used").mkdir()
    (tmp_path / "used" / "mine.txt").write_text("mine")
    refused = new(tmp_path / "used", "--team", "Oak", "--rule-set", "college", "--pace", "college")
    assert refused.exit_code == 2 and "not empty" in refused.output
    assert [p.name for p in (tmp_path / "used").iterdir()] == ["mine.txt"]
    (tmp_path / "file").write_text("x")
    with pytest.raises(NotEmpty):
        write_starter(tmp_path / "file", "Oak", "college", "college")


def test_a_failure_leaves_nothing_half_written(tmp_path, monkeypatch):
    real, count = Path.write_text, 0

    def failing(self, *args, **kwargs):
        nonlocal count
        count += 1
        if count == 4:
            raise OSError(28, "No space left on device")
        return real(self, *args, **kwargs)

    monkeypatch.setattr(Path, "write_text", failing)
    with pytest.raises(OSError):
        write_starter(tmp_path / "book", "Oak", "college", "college")
    assert list(tmp_path.iterdir()) == []


def test_the_cautions_and_the_next_steps_are_in_it():
    made = starter_files("Oak", "college", "college")
    care = made["plays/before-we-run-it.md"]
    for words in ("Walk every new play through first", "concussion", "licensed medical staff", "local code decide"):
        assert words in care.replace("\n  ", " ")
    readme = made["README.md"]
    for words in ("python -m generator", "access add --roster", "publish plays --to", "backup", "minors"):
        assert words in readme
    assert not re.search(r"\$(?!schema=)", "".join(made.values()))
    assert len(re.findall(r"^ *#", made["plays/cedar/cedar.yml"], re.MULTILINE)) >= 4


def test_an_editor_finds_the_schemas_and_they_hold_for_the_book(tmp_path):
    """The starter's own files are valid, and a misspelt key in them is not."""
    write_starter(tmp_path / "book", "Oak", "college", "college")
    made = tmp_path / "book"
    kinds = {"cedar": "play", "lead-ins": "lead-in", "games": "game", "team.yml": "team", "alignments.yml": "alignments"}
    seen = set()
    for file in sorted((made / "plays").rglob("*.yml")):
        kind = kinds[file.relative_to(made / "plays").parts[0]]
        rules = json.loads((made / "editor" / f"{kind}.json").read_text(encoding="utf-8"))
        value = yaml.load(file.read_text(encoding="utf-8"), yaml.BaseLoader)
        jsonschema.validate(value, rules)
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate({**value, "sereis": "Oak"}, rules)
        seen.add(kind)
    assert seen == set(kinds.values()) == {f.stem for f in (made / "editor").iterdir()}
    assert "editor/play.json" in (made / "README.md").read_text(encoding="utf-8")


@pytest.mark.deep
def test_the_installed_wheel_starts_and_publishes_a_book(tmp_path):
    """Away from the repository: build the wheel, unpack it elsewhere, make a book, give a code, publish."""
    source = tmp_path / "source"
    for name in ("generator", "site_theme"):
        shutil.copytree(ROOT / name, source / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        if (ROOT / name).exists():
            shutil.copy(ROOT / name, source)
    built = subprocess.run(
        [sys.executable, "-m", "pip", "wheel", "--no-deps", "-q", "-w", str(tmp_path), str(source)], capture_output=True, text=True, check=False,
    )
    assert built.returncode == 0, built.stderr[-2000:]
    home = tmp_path / "installed"
    zipfile.ZipFile(next(tmp_path.glob("*.whl"))).extractall(home)

    def ran(*words):
        done = subprocess.run(
            [sys.executable, "-m", "generator", *words], cwd=tmp_path, capture_output=True, text=True, check=False, env={"PYTHONPATH": str(home), "PATH": "/usr/bin:/bin"}
        )
        assert done.returncode == 0, done.stderr[-2000:] + done.stdout[-2000:]
        return done.stdout

    ran("new", "book", "--team", "Oak", "--rule-set", "college", "--pace", "college")
    ran("check", "book/plays")
    assert "pages in" in ran("build", "book/plays", "--out", "site") and (tmp_path / "site" / "index.html").exists()
    ran("access", "add", "Ash", "--book", "book/plays")
    assert "Published version 1" in ran("publish", "book/plays", "--to", "web")
    assert (tmp_path / "web" / "_v" / "boot.json").exists()
