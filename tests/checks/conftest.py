"""Plants plays in a book of their own and tells what the checks say about them."""

from __future__ import annotations

from inspect import cleandoc
from textwrap import dedent

import pytest

TEAM = "team: Fernhill\nrule set: international\nshot clock: 24\n"
SECTIONS = ("What:", "Why:", "Passes:", "Fails:", "Source:")
QUIET = "idle"  # said about nearly every small play; asked for by name only
# What cannot be played is an error; spacing, kinds, calls, who stands by are information; the rest warns.
SEVERITY = {
    "one-place": "error", "in-bounds": "error", "lead-in-fit": "error",
    "spacing": "info", "screen-kind": "info", "sound-alike": "info", "idle": "info", "waiting": "info",
}


@pytest.fixture
def said(tmp_path):
    """`said(text, team=TEAM)`: the diagnostics of a book whose files are `text`, cut at lines of `---`."""
    count = 0

    def run(text: str, team: str = TEAM):
        nonlocal count
        count += 1
        folder = tmp_path / str(count)
        folder.mkdir()
        (folder / "team.yml").write_text(team, encoding="utf-8")
        for number, one in enumerate(dedent(text).strip().split("\n---\n")):
            (folder / f"{number}.yml").write_text(one + "\n", encoding="utf-8")
        from generator.pipeline import load_and_compute

        return load_and_compute(folder).diagnostics

    return run


@pytest.fixture
def rules(said):
    """`rules(text)`: the ids of all rules that speak, without the one about idle positions."""

    def run(text: str, team: str = TEAM) -> set[str]:
        return {d.rule for d in said(text, team)} - {QUIET}

    return run


def sections(page: str) -> dict[str, str]:
    """A manual page by its sections."""
    found: dict[str, list[str]] = {}
    current = "Head:"
    for line in cleandoc(page).splitlines():
        head = next((s for s in SECTIONS if line.startswith(s)), None)
        current = head or current
        found.setdefault(current, []).append(line.removeprefix(head) if head else line)
    return {head: dedent("\n".join(lines)).strip("\n") for head, lines in found.items()}


@pytest.fixture
def manual(said):
    """`manual(module)`: the page has all its sections; about its good example nothing at all is said, about its bad one
    this rule speaks and no other. (Idle positions are information about nearly every small play.)"""

    def run(module) -> None:
        page = sections(module.__doc__)
        assert set(page) == {"Head:", *SECTIONS}
        assert page["Head:"].startswith(f"{module.RULE}: ")
        good = [d for d in said(page["Passes:"]) if d.rule == module.RULE or d.rule != QUIET]
        bad = [d for d in said(page["Fails:"]) if d.rule == module.RULE or d.rule != QUIET]
        assert not good
        assert {d.rule for d in bad} == {module.RULE}, bad
        assert {d.severity.value for d in bad} == {SEVERITY.get(module.RULE, "warning")}
        assert all(d.message and (d.hint or d.rule == QUIET) for d in bad)

    return run
