"""The clock report on hand-made lengths: chains, ranges, latest start, words, JSON, chart.

Lengths are given, not computed, so that every expected number stands here. 24 s: FIBA Art. 29.1.1.
"""

from __future__ import annotations

import json
import xml.etree.ElementTree as ET
from dataclasses import dataclass, field
from types import SimpleNamespace

import pytest
from branch_builder import BranchBuilder, settled_play
from settling_case import book_of

from generator.clock import (
    as_json,
    as_svg,
    as_text,
    chain_lines,
    clock_report,
    permitted_chains,
    range_words,
    seconds_range,
)
from generator.clock.report import hand_over
from generator.diagnostics import Location
from generator.model.book import Book, Team
from generator.model.court import RuleSet, court_for
from generator.model.play import LeadInRef, Play
from generator.model.settled import Branch, BranchPhase, Ending, Instant, SettledPlay, Variant
from generator.pipeline import compute
from generator.timeline.simulate import simulate_play
from generator.timeline.timed import PhaseSpan, PlayTimes

HERE = Location("x.yml", 1, 1)


@dataclass
class Length:
    """A timeline of which only lengths matter."""

    branch: Branch
    duration: float
    phases: tuple[PhaseSpan, ...]
    timed: dict = field(default_factory=dict)


def play(name, *lead_ins, clock=None, is_lead_in=False):
    refs = tuple(LeadInRef(n, source=HERE) for n in lead_ins)
    return Play(name.lower(), name, None, (), lead_ins=refs, clock=clock, is_lead_in=is_lead_in, source=HERE)


def times(play_, *lengths, variant=None):
    branches, timelines = [], {}
    for i, seconds in enumerate(lengths):
        key = "main" if i == 0 else f"b{i}"
        phase = BranchPhase("p", "Only", {}, {}, {}, 1, 1, ())
        branch = Branch(key, "main line" if i == 0 else f"branch {i}", (phase,), (), (), (), Ending.SHOT, 1)
        branches.append(branch)
        timelines[key] = Length(branch, seconds, (PhaseSpan(0.0, seconds),))
    return PlayTimes(SettledPlay(play_, variant or Variant(), tuple(branches)), timelines)


def book(shot_clock=24.0):
    return Book(Team("Fernhill", shot_clock=shot_clock))


LOOM = times(play("Loom", is_lead_in=True), 7.0)
FERRY = times(play("Ferry", is_lead_in=True), 6.0)


def test_a_play_permits_its_lead_ins_alone_and_chained_in_written_order():
    assert permitted_chains(play("P", "A", "B", "C")) == (
        (), ("A",), ("B",), ("C",), ("A", "B"), ("A", "C"), ("B", "C"), ("A", "B", "C"),
    )


@pytest.mark.parametrize("seconds, low, high", [(20.0, 20, 23), (7.4, 7, 9), (0.0, 0, 0), (8.0, 8, 9.5), (9.99, 9.5, 11.5)])
def test_people_are_told_half_seconds(seconds, low, high):
    """Low never above the computed length, high never below it, both in halves."""
    assert seconds_range(seconds) == (low, high)
    assert low <= seconds <= high


def test_words_of_a_range():
    assert range_words(20.0) == "20 to 23 s"
    assert range_words(0.0) == "0 s"


def test_every_permitted_chain_is_tried_and_the_one_that_does_not_fit_is_named():
    """7 + 6 + 7 s need 20 to 23 of 24: start by 23. 7 + 6 + 9.5 need 22.5 to 26: only a quick run. 13 + 13: no."""
    fits = clock_report([times(play("A", "Loom", "Ferry"), 7.0), LOOM, FERRY], book())[0]
    assert [(c.lead_ins, c.fits, c.latest_start) for c in fits.chains] == [
        ((), "yes", 8.5), (("Loom",), "yes", 16.5), (("Ferry",), "yes", 15.0), (("Loom", "Ferry"), "yes", 23.0),
    ]
    assert "Two lead-ins (Loom then Ferry) plus this play need 20 to 23 of 24 s: start by 23." in chain_lines(fits)
    tight = clock_report([times(play("A", "Loom", "Ferry"), 9.5), LOOM, FERRY], book())[0]
    assert tight.chains[-1].fits == "tight"
    none = clock_report([times(play("A", "Loom", "Ferry"), 13.0), LOOM, FERRY], book())[0]
    assert none.chains[-1].fits == "no" and chain_lines(none)[-1].endswith("that does not fit.")


def test_the_longest_branch_counts():
    report = clock_report([times(play("A"), 7.0, 11.0, 9.0)], book())[0]
    assert (report.alone.main, report.alone.worst) == (7.0, 11.0)
    assert "longest branch, branch 1: 11 to 13 s" in as_text([report])


def test_a_chain_simulated_as_one_run_lends_its_own_length():
    alone = play("A", "Loom")
    whole = times(alone, 12.5, variant=Variant(lead_ins=("Loom",)))
    report = clock_report([times(alone, 7.0), LOOM, whole], book())[0]
    assert report.chains[1].worst == 12.5


def test_without_a_clock_there_are_only_lengths():
    report = clock_report([times(play("A", "Loom"), 7.0), LOOM], book(None))[0]
    assert {c.fits for c in report.chains} == {None} and {c.latest_start for c in report.chains} == {None}
    assert chain_lines(report)[0] == "The play alone needs 7 to 8.5 s."
    assert json.loads(as_json([report]))["plays"][0]["latest_start"] is None


def test_the_plays_own_clock_counts_before_the_rule_sets():
    report = clock_report([times(play("A", clock=6.0), 7.0)], book())[0]
    assert report.clock == 6.0 and report.alone.fits == "no"


def test_mirrored_and_run_for_versions_are_not_reported_again():
    one = play("A")
    versions = [times(one, 7.0), times(one, 7.0, variant=Variant(mirrored=True)), times(one, 7.0, variant=Variant(run_for=((2, 3),)))]
    assert len(clock_report(versions, book())) == 1


def test_a_lead_in_that_is_missing_is_left_out():
    report = clock_report([times(play("A", "Loom", "Ferry"), 7.0), LOOM], book())[0]
    assert [c.lead_ins for c in report.chains] == [(), ("Loom",)]


def test_json_is_the_contract():
    report = clock_report([times(play("A", "Loom"), 7.004, 8.0), LOOM], book())
    data = json.loads(as_json(report))
    assert data["version"] == 1
    assert set(data) == {"version", "plays", "chains"}
    main, other = data["plays"]
    assert main == {
        "id": "a", "play": "A", "branch": "main", "seconds": 7.0, "latest_start": 8.5,
        "phases": [{"name": "Only", "seconds": 7.0, "critical": []}],
    }
    assert other["branch"] == "b1" and set(other) == set(main)
    assert data["chains"][1] == {
        "id": "a", "play": "A", "lead_ins": ["Loom"], "seconds": 14.0, "worst_seconds": 15.0, "fits": "yes", "latest_start": 17.5,
    }


def test_the_chart_draws_a_bar_a_chain_and_the_clock():
    report = clock_report([times(play("A <b>", "Loom", "Ferry"), 7.0), LOOM, FERRY], book())
    root = ET.fromstring(as_svg(report))
    words = ["".join(t.itertext()) for t in root.iter("{http://www.w3.org/2000/svg}text")]
    assert "A <b>" in words and "24 s" in words
    assert sum("the play" in w for w in words) == 4
    assert len(list(root.iter("{http://www.w3.org/2000/svg}path"))) == 1


def test_phase_lengths_add_up_and_name_the_lines_nothing_can_be_shorter_without():
    one = times(play("A"), 7.0)
    timeline = one.timelines["main"]
    phases = (timeline.branch.phases[0], timeline.branch.phases[0])
    object.__setattr__(timeline.branch, "phases", phases)
    timeline.phases = (PhaseSpan(0.0, 3.5), PhaseSpan(3.0, 7.0))
    timeline.timed = {
        "a": SimpleNamespace(action=SimpleNamespace(phase=0, text="1 passes to 2"), slack=0.0, start=0.0, end=3.0),
        "b": SimpleNamespace(action=SimpleNamespace(phase=0, text="3 clears to left corner"), slack=0.4, start=0.0, end=2.9),
        "c": SimpleNamespace(action=SimpleNamespace(phase=1, text="2 shoots"), slack=0.0, start=3.0, end=7.0),
    }
    lengths = clock_report([one], book())[0].branches[0].phases
    assert [(p.seconds, p.critical) for p in lengths] == [(3.0, ("1 passes to 2",)), (4.0, ("2 shoots",))]


def test_what_follows_a_lead_in_opens_as_the_screen_is_used_and_the_ball_has_come():
    """The runner off the screen still has his way to go, and nobody waits for him; without ball and screen all are waited for."""
    b = BranchBuilder({1: "top", 2: "right wing", 3: "left corner", 4: "right elbow", 5: "left block"})
    b.dribble(1, "right slot")
    b.screen(5, 3, at=(-2.6, 3.4))
    cut = b.cut(3, "right corner", off=5)
    timeline = simulate_play(settled_play(b.branch()), Team("Fernhill"), court_for(RuleSet.INTERNATIONAL))[0].main
    cleared = timeline.timed[cut].instants[Instant.CLEAR]
    assert cleared > timeline.timed["a1"].end and cleared < timeline.timed[cut].end - 1.0
    assert hand_over(timeline) == cleared
    b = BranchBuilder({1: "top", 2: "right wing", 3: "left corner", 4: "right elbow", 5: "left block"})
    b.cut(4, "left slot")
    timeline = simulate_play(settled_play(b.branch()), Team("Fernhill"), court_for(RuleSet.INTERNATIONAL))[0].main
    assert hand_over(timeline) == timeline.duration > 2.0


def test_the_clock_of_a_throw_in_runs_from_the_first_touch():
    """FIBA 49.2, from memory: the game clock starts as the throw-in is touched on the floor."""
    text = (
        "play: Lob\nsituation: sideline out of bounds\nclock: 3 s\n"
        "start: {2: right sideline out of bounds with the ball, 1: right slot, 3: left corner, 4: nail, 5: left block}\n"
        "phases: [{name: Up, do: [1 back screens for 4, 4 cuts off 1 to rim, 2 lobs to 4, 4 finishes]}]\n"
    )
    done = compute(book_of({"a.yml": text}))
    (clock,) = clock_report([done.plays[0]], done.book)
    assert clock.alone.running < 2.0 < 3.0 < clock.alone.worst
    assert not [d for d in done.diagnostics if d.rule == "shot-clock"]
