"""What a coach is told when who has the ball, who stands where or which event is meant does not come out.

One file of tests/golden/settling_diagnostics is one mistake: `files` (path: text), `expect` (exact output of settling).
"""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from generator.diagnostics import format_diagnostic
from generator.model.settled import Variant
from generator.parsing import parse_book
from generator.settling import settle
from generator.settling.rules import RULES, STANDING
from generator.source import read_book_files

FOLDER = Path(__file__).parent / "golden" / "settling_diagnostics"
CASES = sorted(FOLDER.glob("*.yml"))
NAMES = [p.stem for p in CASES]


def said_of(case: dict, folder: Path) -> list:
    for name, content in {"team.yml": "team: Fernhill\nrule set: international\n"}.items() | case["files"].items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content, encoding="utf-8")
    files, unreadable = read_book_files(folder)
    book, found = parse_book(files)
    said = {d for play in book.plays for variant in _variants(play) for d in settle(play, book, variant)[1]}
    assert len(book.plays) == sum(n.startswith(("a", "b")) for n in case["files"]), [*unreadable, *found]
    return sorted(said, key=lambda d: d.sort_key())


def _variants(play) -> list[Variant]:
    """As written, and after each lead-in, alone and chained."""
    names = tuple(r.name for r in play.lead_ins)
    return [Variant(), *(Variant(lead_ins=(n,)) for n in names), *([Variant(lead_ins=names)] if len(names) > 1 else [])]


@pytest.mark.parametrize("path", CASES, ids=NAMES)
def test_mistake_is_answered_in_these_words(path, tmp_path, request):
    text = path.read_text(encoding="utf-8")
    case = yaml.safe_load(text)
    said = "".join(format_diagnostic(d) + "\n" for d in said_of(case, tmp_path))
    if request.config.getoption("--update-golden"):
        kept = text.split("\nexpect:")[0].rstrip("\n")
        body = "".join(f"  {line}\n" for line in said.splitlines())
        path.write_text(f"{kept}\nexpect: |\n{body}" if body else f'{kept}\nexpect: ""\n', encoding="utf-8")
        case = yaml.safe_load(path.read_text(encoding="utf-8"))
    assert said == case["expect"]


def test_at_least_forty_distinct_mistakes():
    expected = {yaml.safe_load(p.read_text(encoding="utf-8"))["expect"] for p in CASES} - {""}
    assert len(expected) >= 40


@pytest.mark.parametrize("path", CASES, ids=NAMES)
def test_every_rule_said_is_explained_and_names_a_fix(path, tmp_path):
    for d in said_of(yaml.safe_load(path.read_text(encoding="utf-8")), tmp_path):
        assert d.rule in RULES and d.hint


def test_every_rule_has_a_golden_case():
    said = "".join(p.read_text(encoding="utf-8") for p in CASES)
    assert {rule for rule in RULES if f"[{rule}]" not in said} <= {"not-yet"}


# -- the manual's examples -------------------------------------------------------------------------------

OTHER = f"play: Other\nstart: {STANDING}\nphases:\n  - {{name: Only, do: [1 shoots]}}\n"
FITTING = f"play: Fitting\nlead-in: Drift\nstart: {STANDING}\nphases:\n  - {{name: Only, do: [1 shoots]}}\n"


def _files(example: str) -> dict[str, str]:
    if example.startswith("lead-in: "):
        return {"lead-ins/drift.yml": example, "a.yml": FITTING}
    if "phases:" not in example:
        do = "".join(f"      - {line}\n" for line in example.splitlines())
        example = f"start: {STANDING}\nphases:\n  - name: Only\n    do:\n{do}"
    return {"a.yml": f"play: Example\n{example}", "b.yml": OTHER}


@pytest.mark.parametrize("rule", sorted(set(RULES) - {"not-yet"}))
def test_the_manuals_examples_are_true(rule, tmp_path):
    row = RULES[rule]
    bad = said_of({"files": _files(row.bad)}, tmp_path / "bad")
    good = said_of({"files": _files(row.good)}, tmp_path / "good")
    assert [d.severity.value for d in bad if d.rule == rule] == [row.severity], bad
    assert [d for d in good if d.rule == rule or d.severity.value == "error"] == []
