"""The manual holds every rule a coach can ever be told, whole, and its examples do what it says of them."""

from __future__ import annotations

import ast
import re
from functools import cache
from pathlib import Path

import pytest

from generator.checks import CHECKS
from generator.pages.manual import parts_of, rules_manual
from generator.pages.manual_more import MORE
from generator.pages.render import render
from generator.parsing import parse_book
from generator.parsing.rules import RULES, files_of
from generator.pipeline import load_and_compute
from generator.source import read_book_files

ROOT = Path(__file__).resolve().parent.parent
GOLDEN = [*(ROOT / "tests/golden/diagnostics").glob("*.yml"), *(ROOT / "tests/golden/settling_diagnostics").glob("*.yml")]
TEAM = {"team.yml": "team: Fernhill\nrule set: international\nroster: [{number: 4, name: Robin Vale}]\n"}
# Nothing a page could print shows these: sizes, bytes, folders. Their golden files do.
WITHOUT_EXAMPLE = {"book-folder", "unreadable", "not-text", "too-big", "too-long", "too-many"}


@cache
def entries() -> dict:
    return {section.id: section for section in rules_manual().sections}


@pytest.mark.parametrize("check", CHECKS, ids=lambda c: c.rule)
def test_every_check_has_a_whole_page(check):
    head, parts = parts_of(check.page)
    assert head and {"What", "Why", "Passes", "Fails", "Source"} <= set(parts)
    assert all(text.strip() for text in parts.values())
    assert parts["Passes"].startswith(("play:", "lead-in:")) and not parts["Fails"].startswith(" ")


def test_the_page_holds_every_rule_once_and_its_examples():
    body = render("staff", rules_manual(), "abc")
    for rule in entries():
        assert body.count(f'id="{rule}"') == 1
    assert "{name: Trade, do: [4 cuts to right block" in body and "5 re-screens for 1" in body and "1 pases to 2" in body


def test_every_rule_id_in_a_golden_answer_is_in_the_manual():
    told = {
        rule for path in GOLDEN
        for rule in re.findall(r": (?:error|warning|info): .* \[([a-z-]+)\]$", path.read_text(encoding="utf-8", errors="replace").split("\nexpect:")[-1], re.MULTILINE)
    }
    assert len(told) > 100 and told <= set(entries())


def _says() -> set[str]:
    """Rule ids written in the stages' own code: the literal after a place in a call that makes a diagnostic."""
    found = set()
    for path in (ROOT / "generator").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call):
                name = getattr(node.func, "attr", getattr(node.func, "id", ""))
                words = [a.value for a in node.args[:2] if isinstance(a, ast.Constant) and isinstance(a.value, str)]
                if name in ("error", "warning", "info", "mistake", "refuse") and words and re.fullmatch(r"[a-z]+(-[a-z]+)*", words[0]):
                    found.add(words[0])
            if isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "") == "RULE" and isinstance(node.value, ast.Constant):
                found.add(node.value.value)
    return found


def test_every_rule_id_in_the_code_is_in_the_manual():
    assert len(_says()) > 90
    assert _says() <= set(entries())


def _said(files: dict[str, str], folder: Path) -> list:
    for name, text in (TEAM | files).items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    read, unreadable = read_book_files(folder)
    _, found = parse_book(read)
    return [*unreadable, *found]


@pytest.mark.parametrize("rule", RULES)
def test_examples_of_form_are_told_this_and_nothing_else_and_nothing_at_all(rule, tmp_path):
    entry = RULES[rule]
    if rule in WITHOUT_EXAMPLE:
        assert not entry.bad and not entry.good
        return
    bad, good = _said(files_of(entry.bad), tmp_path / "bad"), _said(files_of(entry.good), tmp_path / "good")
    assert {d.rule for d in bad} == {rule} and entry.severity in {d.severity.value for d in bad}
    assert not good


@pytest.mark.parametrize("rule", [r for r, e in MORE.items() if e.bad])
def test_examples_of_the_timeline_are_told_this_and_no_error(rule, tmp_path):
    for folder, example in (("bad", MORE[rule].bad), ("good", MORE[rule].good)):
        _said(files_of(example), tmp_path / folder)
    bad, good = (load_and_compute(tmp_path / f).diagnostics for f in ("bad", "good"))
    assert rule in {d.rule for d in bad} and rule not in {d.rule for d in good}
    assert {d.severity.value for d in bad if d.rule == rule} == {MORE[rule].severity}


def test_every_entry_says_what_why_and_how_grave():
    for section in entries().values():
        assert section.paragraphs[0] and {"Why:"} <= {word for word, _ in section.points}
        assert all(text.strip(" .") for _, text in section.points)


def test_parts_keep_the_indentation_of_examples():
    head, parts = parts_of("rule: it is wrong.\n\nWhat: one\ntwo.\nPasses:\n    a:\n      - b\nFails:\n    c\nSource: ours.")
    assert head == "It is wrong."
    assert parts == {"What": "one\ntwo.", "Passes": "a:\n  - b", "Fails": "c", "Source": "ours."}
