"""The stages joined: one measured play slows the whole book, a play that fails hides no other."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from generator.cli import main
from generator.pipeline import compute, load_and_compute, load_book

TEAM = "team: Fernhill\nrule set: international\n"
START = "start: {1: top with the ball, 2: right wing, 3: left wing, 4: right elbow, 5: left block}\n"


def book(tmp_path, team=TEAM, **plays):
    tmp_path.mkdir(exist_ok=True)
    (tmp_path / "team.yml").write_text(team)
    for name, lines in plays.items():
        do = "".join(f"      - {line}\n" for line in lines)
        (tmp_path / f"{name}.yml").write_text(f"play: {name}\n{START}phases:\n  - name: Only\n    do:\n{do}")
    return tmp_path


SWING = ("2 cuts to right corner", "1 passes to 2 as 2 arrives", "2 shoots")
DRIVE = ("1 drives to rim", "1 finishes")


def test_one_stopwatch_time_slows_every_play_alike(tmp_path):
    plain = compute(load_book(book(tmp_path, swing=SWING, drive=DRIVE))[0])
    seconds = {t.play.name: t.main.duration for t in plain.plays}
    measured = round(seconds["swing"] * 1.25, 1)
    timed = compute(load_book(book(tmp_path, TEAM + f"stopwatch: {{swing: {measured}}}\n", swing=SWING, drive=DRIVE))[0])
    for times in timed.plays:
        assert times.main.duration == pytest.approx(seconds[times.play.name] * measured / seconds["swing"], rel=1e-6)


def test_a_play_that_cannot_be_settled_hides_no_other(tmp_path):
    computed = load_and_compute(book(tmp_path, good=SWING, bad=("3 passes to 2",)))
    assert [t.play.name for t in computed.plays] == ["good"]
    assert {d.location.path for d in computed.diagnostics if d.severity.value == "error"} == {"bad.yml"}


def test_draft_mistakes_are_warnings(tmp_path):
    folder = book(tmp_path, bad=("3 passes to 2",))
    text = (folder / "bad.yml").read_text()
    (folder / "bad.yml").write_text(text.replace("play: bad\n", "play: bad\ndraft: yes\n"))
    severities = {d.severity.value for d in load_and_compute(folder).diagnostics}
    assert "error" not in severities and "warning" in severities


@pytest.mark.parametrize("verb", ["check", "clock", "lookalikes"])
def test_every_report_names_mistakes_from_the_current_folder(tmp_path, verb, monkeypatch):
    book(tmp_path / "team-book", good=SWING, bad=("3 passes to 2",))
    monkeypatch.chdir(tmp_path)
    done = CliRunner().invoke(main, [verb, "team-book"])
    assert done.exit_code == 1
    assert "team-book/bad.yml:6:9: error:" in done.output
