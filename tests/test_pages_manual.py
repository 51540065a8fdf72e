"""The manual of the checks is their docstrings, whole: every rule has what, why, an example that passes and one that fails."""

import pytest

from generator.checks import CHECKS
from generator.pages.manual import manual_view, parts_of
from generator.pages.render import render


@pytest.mark.parametrize("check", CHECKS, ids=lambda c: c.rule)
def test_every_rule_has_a_whole_page(check):
    head, parts = parts_of(check.page)
    assert head and {"What", "Why", "Passes", "Fails", "Source"} <= set(parts)
    assert all(text.strip() for text in parts.values())
    assert parts["Passes"].startswith(("play:", "lead-in:")) and not parts["Fails"].startswith(" ")


def test_the_page_holds_every_rule_once_and_its_examples():
    body = render("staff", manual_view(CHECKS), "abc")
    for check in CHECKS:
        assert body.count(f'id="{check.rule}"') == 1
    assert "{name: Trade, do: [4 cuts to right block" in body


def test_parts_keep_the_indentation_of_examples():
    head, parts = parts_of("rule: it is wrong.\n\nWhat: one\ntwo.\nPasses:\n    a:\n      - b\nFails:\n    c\nSource: ours.")
    assert head == "It is wrong."
    assert parts == {"What": "one\ntwo.", "Passes": "a:\n  - b", "Fails": "c", "Source": "ours."}
