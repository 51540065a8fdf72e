"""Broken and odd books by the thousand: never an exception, never slow, never a strange word accepted in silence.

5,000 cases in the daily run; `--deep` runs 1,000,000 and prints the count.
"""

from __future__ import annotations

import random
import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.diagnostics import Diagnostic, Location, Severity, format_diagnostic
from generator.parsing import parse_book, parse_line
from generator.pipeline import compute
from generator.source import BookFile, compose
from generator.source.files import decode
from tests import fuzz_language as fuzz

HERE = Location("f", 1, 1)
TIMED_LEAD_INS = 0.5  # seconds: every run times the lead-ins of the demo book as well
SLOWEST = 1.0  # seconds of this process a file: other work on the machine does not count
DEEP_CASES = 1_000_000
SEEDS = st.integers(0, 2**32 - 1)
DEMO = Path(__file__).resolve().parent.parent / "plays"
DEMO_FILES = {p.relative_to(DEMO).as_posix(): p.read_text(encoding="utf-8") for p in sorted(DEMO.rglob("*.yml"))}
SHARED = tuple(path for path in DEMO_FILES if path in ("team.yml", "alignments.yml") or path.startswith("lead-ins/"))
PLAYS = tuple(path for path in DEMO_FILES if path not in SHARED and not path.startswith("games/"))


def many(cases: int):
    """So many cases, the same in every run."""
    return settings(
        max_examples=cases, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck)
    )


def _survives(raw: bytes) -> tuple[Diagnostic, ...]:
    """What is said about a file of these bytes; it must come in time and be printable."""
    started = time.process_time()
    text, problem = decode(raw, Location("harbor/p.yml", 1, 1))
    found = (
        (problem,)
        if problem
        else parse_book([BookFile("harbor/p.yml", text), BookFile("team.yml", "team: A\nrule set: college\n")])[1]
    )
    assert time.process_time() - started < SLOWEST
    for diagnostic in found:
        assert diagnostic.location.line >= 1 and diagnostic.location.column >= 1
        assert format_diagnostic(diagnostic)
    return found


def _errors(found) -> bool:
    return any(d.severity is Severity.ERROR for d in found)


def check_line(seed: int) -> None:
    """A line of the grammar is read as what it says; with a strange word in it, it is refused."""
    chance = random.Random(seed)
    text, verb, kind = fuzz.valid_line(chance)
    line, found = parse_line(text, HERE)
    assert line and not _errors(found), (text, [format_diagnostic(d) for d in found])
    assert (line.parts[0].verb, line.parts[0].kind) == (verb, kind), text
    strange = fuzz.with_strange_word(text, chance)
    line, found = parse_line(strange, HERE)
    assert line is None and _errors(found), strange


def check_play(seed: int) -> None:
    """A valid play has no errors; with a strange key it has one."""
    chance = random.Random(seed)
    text = fuzz.valid_play(chance)
    found = _survives(text.encode())
    assert not _errors(found), (text, [format_diagnostic(d) for d in found])
    assert _errors(_survives(fuzz.with_strange_key(text, chance).encode()))


def check_broken(seed: int) -> None:
    """A broken play is answered, whatever it is."""
    chance = random.Random(seed)
    _survives(fuzz.mutated(fuzz.valid_play(chance), chance))


def check_demo(seed: int) -> None:
    """Any file of the demo book, broken by words, lines and bytes, is answered beside the files that plays lean on."""
    chance = random.Random(seed)
    path = chance.choice(tuple(DEMO_FILES))
    raw = fuzz.mutated(DEMO_FILES[path], chance)
    started = time.process_time()
    text, problem = decode(raw, Location(path, 1, 1))
    found = (problem,) if problem else parse_book(_beside(path, text))[1]
    assert time.process_time() - started < SLOWEST
    assert all(format_diagnostic(d) for d in found)


def check_demo_to_the_end(seed: int) -> bool:
    """A play of the demo book with a few lines changed goes through settling, timeline and checks; True if it was timed."""
    chance = random.Random(seed)
    path = chance.choice(PLAYS)
    text = fuzz.rearranged(DEMO_FILES[path], chance)
    started = time.process_time()
    computed = compute(parse_book(_beside(path, text))[0])
    assert time.process_time() - started < SLOWEST + TIMED_LEAD_INS, (path, seed)
    assert all(format_diagnostic(d) for d in computed.diagnostics)
    return bool(computed.plays)


def _beside(path: str, text: str) -> list[BookFile]:
    return [BookFile(p, DEMO_FILES[p]) for p in SHARED if p != path] + [BookFile(path, text)]


@many(2000)
@given(SEEDS)
def test_lines_of_the_grammar(seed):
    check_line(seed)


@many(500)
@given(SEEDS)
def test_plays_of_the_grammar(seed):
    check_play(seed)


@many(1000)
@given(SEEDS)
def test_broken_plays(seed):
    check_broken(seed)


@many(800)
@given(SEEDS)
def test_broken_files_of_the_demo_book(seed):
    check_demo(seed)


def test_changed_plays_of_the_demo_book_run_to_the_end():
    """Most are refused, with a reason; enough are still plays to try the later stages too."""
    assert sum(check_demo_to_the_end(seed) for seed in range(150)) >= 25


@many(400)
@given(st.text(max_size=300))
def test_any_text_is_a_file(text):
    compose(text, "f")
    _survives(text.encode("utf-8", "replace"))


@many(300)
@given(st.binary(max_size=300))
def test_any_bytes_are_a_file(raw):
    _survives(raw)


@pytest.mark.parametrize(
    "text",
    [
        "play: A\nphases: [" + "{name: b, do: [1 passes to 2]}, " * 6000 + "]",
        "- " * 100_000,
        "? " * 100_000,
        "a: " * 60_000,
        "{" * 200_000,
        "&a " * 60_000,
        "a:\n" * 60_000,
        "play: " + "9" * 200_000,
        "play: A\nphases:\n  - name: b\n    do:\n" + "      - 1 zorps\n" * 12_000,
        "play: A\nphases: [{name: b, do: [1 cuts " + "off 2 then " * 18_000 + "]}]",
        "play: A\nphases: [{name: b, do: [1 cuts to " + "between " * 25_000 + "]}]",
        "".join(f"key{i}: {{a: b}}\n" for i in range(12_000)),
        "lead-in: [" + "Ferry, " * 28_000 + "]",
        '"' * 200_000,
        "'" * 200_000,
        "\t\n" * 100_000,
        "why: a: b\n" * 20_000,
    ],
    ids=range(17),
)
def test_huge_files_are_answered_within_a_second(text):
    _survives(text[:204_800].encode())


@pytest.mark.deep
def test_a_million_cases(capsys):
    chance, cases, started = random.Random(20261125), 0, time.perf_counter()
    while cases < DEEP_CASES:
        seed = chance.getrandbits(48)
        (check_line, check_broken, check_demo, check_play, check_line, check_broken, check_line, check_play)[cases % 8](seed)
        if cases % 1000 == 0:
            check_demo_to_the_end(seed)
        cases += 1
    with capsys.disabled():
        print(f"\n{cases} cases in {time.perf_counter() - started:.0f} s")
