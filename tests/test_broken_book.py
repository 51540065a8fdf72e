"""A book with every common mistake planted once: each is reported where it stands, all in one run.

In the texts below `§` marks the place that must be named; it is taken out before the file is written.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent

TEAM = "team: Fernhill\nrule set: international\n"
START = "start: {1: top with the ball, 2: right wing, 3: left wing, 4: right elbow, 5: left block}\n"


def play(name: str, body: str, start: str = START) -> str:
    return f"play: {name}\n{start}{body}"


def one_phase(name: str, *lines: str, start: str = START, reads: str = "") -> str:
    do = "".join(f"      - {line}\n" for line in lines)
    return play(name, f"phases:\n  - name: Only\n    do:\n{do}{reads}", start)


READ = """    reads:
      - who: {who}
        watch: {watch}
        answers:
{answers}
"""


def read(answers: str, who: str = "3", watch: str = "X3 on 5's screen") -> str:
    return READ.format(who=who, watch=watch, answers="\n".join(" " * 10 + a for a in answers.split("|")))


SCREEN = ("5 screens for 3 at left block", "3 cuts off 5 to left corner")

PLANTED = {
    "unknown-verb": one_phase("A1", "1 §teleports to right slot"),
    "unknown-spot": one_phase("A2", "1 dribbles to right §wimg"),
    "misspelt-key": play("A3", "phases:\n  - name: Only\n    §doo:\n      - 1 passes to 2\n"),
    "duplicate-key": play("A4", "call: one\n§call: two\nphases:\n  - name: Only\n    do: [1 passes to 2]\n"),
    "pass-without-ball": one_phase("A5", "1 passes to 2", "§3 passes to 4"),
    "pass-to-himself": one_phase("A6", "1 passes to §1"),
    "screen-for-nobody": one_phase("A7", "5 §screens"),
    "two-to-one-spot": one_phase("A8", "3 cuts to left corner", "§4 cuts to left corner"),
    "player-six": one_phase("A9", "1 passes to §6"),
    "missing-start": "§play: B1\nphases:\n  - name: Only\n    do: [1 passes to 2]\n",
    "missing-otherwise": one_phase("B2", *SCREEN, reads=read("§trail: [3 curls to rim, 1 passes to 3, 3 finishes]")),
    "comma": play("B3", "phases:\n  - name: Only\n    do: [1 dribbles to right slot, §hard, 2 cuts to right corner]\n"),
    "colon": one_phase("B4", "§1 passes to 2: on the move"),
    "tab": play("B5", "phases:\n  - name: Only\n§\tdo: [1 passes to 2]\n"),
    "cyclic-after": one_phase("B6", "§2 cuts to right corner after 3 arrives", "3 cuts to left corner after 2 arrives"),
    "unknown-coverage": one_phase("B7", *SCREEN, reads=read("§trial: [3 curls to rim, 1 passes to 3, 3 finishes]|otherwise: go on")),
    "unknown-alignment": play("B8", "phases:\n  - name: Only\n    do: [1 passes to 2]\n", "start: §bocks\n"),
    "unfit-lead-in": play("B9", "lead-in: [§Drift]\nphases:\n  - name: Only\n    do: [1 passes to 2]\n"),
    "two-balls": one_phase("C1", "1 passes to 2", start=START.replace("2: right wing", "2: §right wing with the ball")),
    "empty-do": play("C2", "phases:\n  - name: Only\n    do:§\n"),
    "idle-reader": one_phase("C3", "1 passes to 2", reads=read("deny: [1 passes to 3]|otherwise: go on", "§4", "X4")),
    "alias": play("C4", "phases:\n  - name: Only\n    do: §&lines [1 passes to 2]\n"),
    "brackets": "§" + "[" * 30_000,
    "or-in-a-line": one_phase("C5", "1 passes to 2 §or 3"),
    "empty-otherwise": one_phase("C6", *SCREEN, reads=read("trail: [3 curls to rim, 1 passes to 3, 3 finishes]|§otherwise:")),
    "unknown-lead-in": play("C7", "lead-in: [§Nowhere]\nphases:\n  - name: Only\n    do: [1 passes to 2]\n"),
    "walks-with-the-ball": one_phase("C8", "1 §cuts to right slot"),
}
DRIFT = "lead-in: Drift\nstart: {1: left corner with the ball, 2: right wing, 3: left wing, 4: right elbow, 5: left block}\n" \
        "phases:\n  - name: Only\n    do: [2 cuts to right corner]\n"
WRONG_RULES = "team: Fernhill\nrule set: §intergalactic\n"


def place_of(text: str) -> tuple[int, int]:
    """Line and column of the mark, counted from 1."""
    before = text[: text.index("§")]
    return before.count("\n") + 1, len(before) - before.rfind("\n")


def run(folder: Path, *extra: str) -> subprocess.CompletedProcess:
    return subprocess.run(
        [sys.executable, "-m", "generator", "check", str(folder), *extra],
        cwd=ROOT, capture_output=True, text=True, timeout=60, check=False,
    )


@pytest.fixture(scope="module")
def report(tmp_path_factory):
    folder = tmp_path_factory.mktemp("broken")
    (folder / "team.yml").write_text(WRONG_RULES.replace("§", ""))
    (folder / "lead-ins").mkdir()
    (folder / "lead-ins" / "drift.yml").write_text(DRIFT)
    for name, text in PLANTED.items():
        (folder / f"{name}.yml").write_text(text.replace("§", ""), encoding="utf-8")
    (folder / "noise.yml").write_bytes(bytes(range(256)) * 20)
    done = run(folder, "--format", "json")
    assert "Traceback" not in done.stderr, done.stderr[-3000:]
    return done, [d | {"path": Path(d["path"]).name} for d in json.loads(done.stdout)["diagnostics"]]


def test_at_least_twenty_five_mistakes_are_planted():
    assert len(PLANTED) + 2 >= 25


@pytest.mark.parametrize("name", sorted(PLANTED))
def test_a_planted_mistake_is_named_where_it_stands(report, name):
    errors = [d for d in report[1] if d["path"] == f"{name}.yml" and d["severity"] == "error"]
    places = [(d["line"], d["column"]) for d in errors]
    assert place_of(PLANTED[name]) in places, errors
    assert all(d["message"] and d["rule"] for d in errors)
    at_mark = [d for d in errors if (d["line"], d["column"]) == place_of(PLANTED[name])]
    assert any(d["hint"] for d in at_mark), at_mark


def test_a_wrong_rule_set_and_a_binary_file_are_named(report):
    rows = {(d["path"], d["line"], d["column"]) for d in report[1] if d["severity"] == "error"}
    assert ("team.yml", *place_of(WRONG_RULES)) in rows
    assert ("noise.yml", 1, 1) in rows


def test_the_run_ends_with_status_one_and_no_traceback(report):
    assert report[0].returncode == 1


def test_a_broken_play_does_not_hide_the_others(report):
    assert {d["path"] for d in report[1]} >= {f"{n}.yml" for n in PLANTED}


def test_a_clean_book_ends_with_status_zero(tmp_path):
    (tmp_path / "team.yml").write_text(TEAM)
    (tmp_path / "good.yml").write_text(one_phase("Good", "1 passes to 2", "2 shoots"))
    done = run(tmp_path)
    assert done.returncode == 0, done.stdout + done.stderr


def test_a_folder_that_is_not_there_is_wrong_use(tmp_path):
    assert run(tmp_path / "nothing").returncode == 2
