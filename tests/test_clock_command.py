"""`secondside clock` on the demo book: text for people, JSON of the contract, a chart; the same bytes each time."""

from __future__ import annotations

import json
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.cli import main

BOOK = str(Path(__file__).resolve().parent.parent / "plays")


def run(*words: str):
    return CliRunner().invoke(main, ["clock", *words])


def test_json_names_every_play_and_branch_with_phases_that_add_up():
    done = run(BOOK, "--format", "json")
    assert done.exit_code == 0, done.output
    data = json.loads(done.output)
    rows = data["plays"]
    assert data["version"] == 1
    assert all(set(r) == {"id", "play", "branch", "seconds", "phases", "latest_start"} for r in rows)
    assert all(set(p) == {"name", "seconds", "critical"} for r in rows for p in r["phases"])
    mains = {r["play"]: r for r in rows if r["branch"] == "main"}
    assert len(mains) >= 14
    for row in rows:
        assert abs(sum(p["seconds"] for p in row["phases"]) - row["seconds"]) < 0.05 * len(row["phases"]), row["play"]
    chains = {tuple(c["lead_ins"]): c["fits"] for c in data["chains"] if c["play"] == "Lantern"}
    assert set(chains) == {(), ("Loom",), ("Ferry",), ("Loom", "Ferry")}
    assert chains[("Loom",)] == "yes" and chains[("Loom", "Ferry")] != "yes"


def test_text_has_half_seconds_only():
    said = [re.sub(", because .*", "", line) for line in run(BOOK).output.splitlines()]
    words = " ".join(said).replace(",", " ").split()
    numbers = [float(w.rstrip(".:")) for w in words if w.rstrip(".:").replace(".", "", 1).isdigit()]
    assert numbers and all(n * 2 == int(n * 2) for n in numbers)


def test_svg_is_one_picture():
    assert ET.fromstring(run(BOOK, "--format", "svg").output).tag.endswith("svg")


@pytest.mark.parametrize("style", ["text", "json", "svg"])
def test_the_same_book_gives_the_same_bytes(style):
    assert run(BOOK, "--format", style).output == run(BOOK, "--format", style).output


def test_a_book_with_an_error_still_reports_its_sound_plays(tmp_path):
    (tmp_path / "team.yml").write_text("team: F\nrule set: international\n")
    good = "play: Good\nstart: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}\n" \
           "phases:\n  - {name: P, do: [1 passes to 2, 2 shoots]}\n"
    (tmp_path / "good.yml").write_text(good)
    (tmp_path / "bad.yml").write_text(good.replace("Good", "Bad").replace("1 passes to 2", "3 passes to 2"))
    done = run(str(tmp_path), "--format", "text")
    assert done.exit_code == 1 and "Good:" in done.output and "Bad:" not in done.output


def test_a_long_phase_says_why_in_words():
    """From the critical path: the pin-down waits for the screener, the shot for the shooter's way from his corner."""
    said = run(BOOK).output
    lantern = said[said.index("Lantern: "):said.index("Graft: ")].splitlines()
    assert "  Pin-down: 2 to 3 s, because 5 comes from the left block to screen" in lantern
    assert "  Shot: 2.5 to 3.5 s, because 3 comes from the left corner" in lantern


def test_the_charts_numbers_have_no_needless_zero():
    """They leave through the one formatter of drawings (generator/model/numbers.py)."""
    svg = run(BOOK, "--format", "svg").output
    assert re.search(r'\d', svg) and not re.search(r'[ "(MVH]-?\d*\.\d*0[ ")VH]', svg)
