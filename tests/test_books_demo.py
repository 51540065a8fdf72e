"""The demo book: as large as the design says, without an error, and about nobody."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from pathlib import Path

import pytest

from generator.clock import clock_report
from generator.model.play import Phase, Repeat

BOOK = Path(__file__).resolve().parent.parent / "plays"


@lru_cache(maxsize=1)
def _computed():
    from generator.pipeline import load_and_compute

    return load_and_compute(BOOK)


def _reads(answers_of):
    for read in answers_of:
        yield read
        for answer in read.answers:
            yield from _reads(answer.reads)


def test_it_has_no_error_and_no_warning():
    """A coach who tries the tool sees it at its best; infos are welcome."""
    assert [d for d in _computed().diagnostics if d.severity.value != "info"] == []


def test_every_play_and_lead_in_is_timed():
    computed = _computed()
    assert len(computed.plays) == len(computed.book.plays)
    assert len(computed.lead_ins) == len(computed.book.lead_ins)


def test_it_is_as_large_as_the_design_says():
    book = _computed().book
    plays = book.plays
    assert len({p.series for p in plays if p.series}) >= 4
    assert len(plays) >= 14 and len(book.lead_ins) >= 3 and book.games
    assert sum(p.situation == "baseline out of bounds" for p in plays) >= 2
    assert sum(p.situation == "sideline out of bounds" for p in plays) >= 2
    assert any("press" in p.against for p in plays) and any(p.against.startswith("zone 2-3") for p in plays)
    assert any(isinstance(x, Repeat) for p in plays for x in p.phases)
    assert any(p.same_as for p in plays) and any(p.lead_ins for p in plays)
    assert 8 <= len(book.team.roster) <= 15


def test_its_reads_say_why_and_its_phases_teach():
    phases = [x for p in _computed().book.plays if not p.same_as for x in p.phases if isinstance(x, Phase)]
    reads = [r for phase in phases for r in _reads(phase.reads)]
    assert len(reads) >= 16
    with_why = [r for r in reads if r.why or any(a.why for a in r.answers)]
    assert len(with_why) >= 16
    assert sum(bool(p.teach) for p in phases) >= 12


def test_counters_look_like_their_base():
    """Each series has at least two plays that start in one picture."""
    by_series = {}
    for times in _computed().plays:
        if times.play.series:
            by_series.setdefault(times.play.series, []).append(times.settled.main.start)
    for series, starts in by_series.items():
        alike = [
            (a, b) for i, a in enumerate(starts) for b in starts[i + 1:]
            if all(a[p].distance(b[p]) < 1.2 for p in range(1, 6))
        ]
        assert len(starts) >= 3 and alike, series


@pytest.mark.parametrize("name, longest", [("Loom", 15.0), ("Ferry", 15.0), ("Weave", 15.0)])
def test_false_motion_burns_up_to_fifteen_seconds(name, longest):
    """Common practice, no source: false motion before the real set may burn about 15 s."""
    lead_in = next(t for t in _computed().lead_ins if t.play.name == name)
    assert 4.0 <= lead_in.main.duration <= longest


def test_two_lead_ins_and_a_set_are_on_the_edge_of_the_clock():
    """Common practice, no source: two lead-ins plus a set may not fit; one always does here."""
    computed = _computed()
    report = clock_report(computed.plays + computed.lead_ins, computed.book)
    chains = [c for play in report for c in play.chains]
    assert all(c.fits == "yes" for c in chains if len(c.lead_ins) == 1)
    assert any(c.fits != "yes" for c in chains if len(c.lead_ins) == 2)


@pytest.mark.parametrize("folder", [BOOK, Path(__file__).parent / "books" / "sets"], ids=["demo", "sets"])
def test_nobody_jumps(folder):
    """In no branch does a player cover more than 9 m/s: the fastest sprinters of the game reach 9.3 (league tracking)."""
    from generator.pipeline import load_and_compute

    computed = load_and_compute(folder)
    for times in (*computed.plays, *computed.lead_ins, *computed.chains):
        for key, timeline in times.timelines.items():
            count = int(timeline.duration / 0.1) + 1
            for player in range(1, 6):
                places = [timeline.position(player, 0.1 * i) for i in range(count)]
                steps = [a.distance(b) for a, b in pairwise(places)]
                assert max(steps, default=0.0) < 0.9, (times.play.name, key, player)


@pytest.mark.parametrize("folder", [BOOK, Path(__file__).parent / "books" / "sets"], ids=["demo", "sets"])
def test_every_pass_flies_like_a_pass(folder):
    """From hand to hand at 4 to 16 m/s: chest 8 to 12, bounce 6 to 9, baseball 14 to 20 (from memory), lobs slower."""
    from generator.model.settled import Instant, Pass
    from generator.pipeline import load_and_compute

    computed = load_and_compute(folder)
    for times in (*computed.plays, *computed.lead_ins):
        for key, timeline in times.timelines.items():
            for timed in timeline.timed.values():
                if isinstance(timed.action, Pass) and Instant.CATCH in timed.instants:
                    release, catch = timed.instants[Instant.RELEASE], timed.instants[Instant.CATCH]
                    thrown = timeline.position(timed.action.player, release)
                    length = thrown.distance(timeline.position(timed.action.receiver, catch))
                    if length > 1.0:
                        assert 4.0 < length / (catch - release) < 16.0, (times.play.name, key, timed.action.text)
