"""The split of two plays: never for equal ones, not moved by small delays, the same from both sides; trees and words."""

from __future__ import annotations

import json
from dataclasses import replace
from types import SimpleNamespace
from xml.etree import ElementTree

import pytest
from branch_builder import BranchBuilder, settled_play
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st
from timeline_plays import pin_down_to_shot, random_branch

from generator.cli import main as command_line
from generator.lookalikes import (
    Candidate,
    as_json,
    as_svg,
    as_text,
    knots,
    lookalike_report,
    split,
    tell_words,
)
from generator.lookalikes import report as report_module
from generator.lookalikes.split import join_clocks
from generator.lookalikes.words import alike_lines, turned
from generator.model.book import Team
from generator.model.court import RuleSet, court_for
from generator.model.settled import Variant
from generator.timeline.simulate import simulate_play

COURT = court_for(RuleSet.INTERNATIONAL)


def play_of(branch, name="Hand", team=Team("Test"), series="", variant=Variant()):
    settled = settled_play(branch, variant=variant)
    settled = replace(settled, play=replace(settled.play, id=name.lower(), name=name, series=series))
    return simulate_play(settled, team, COURT)[0]


def reversal(b, slow=1.0):
    """1 dribbles right, 4 pops, the ball goes over; `slow` stretches the first dribble."""
    b.dribble(1, "right slot", effort=0.5 * slow)
    b.cut(2, "right corner", effort=0.55)
    b.cut(4, "left slot", effort=0.55)
    b.pass_(1, 4)
    b.phase("Two")
    b.screen(5, 3, at=(-2.6, 3.4))
    return b


def base(slow=1.0, end="right wing"):
    b = reversal(BranchBuilder({1: "top", 2: "right wing", 3: "left corner", 4: "right elbow", 5: "left block"}), slow)
    b.cut(3, end, off=5)
    b.phase("Three")
    b.pass_(4, 3)
    b.shoot(3)
    return b.branch()


def test_same_play_never_parts():
    one = play_of(base()).main
    assert split(one, one).never and split(one, one).departure is None


@settings(max_examples=12, deadline=None, derandomize=True)
@given(st.integers(0, 5000))
def test_random_play_never_parts_from_itself_and_sides_agree(seed):
    one, other = play_of(random_branch(seed)).main, play_of(random_branch(seed + 1)).main
    assert split(one, one).never
    there, back = split(one, other), split(other, one)
    assert there.never == back.never
    if not there.never:
        assert back.a_s == pytest.approx(there.b_s, abs=0.1) and back.b_s == pytest.approx(there.a_s, abs=0.1)


def test_counter_parts_where_the_cutter_turns_off():
    one, other = play_of(base()).main, play_of(base(end="top")).main
    parted = split(one, other)
    assert parted.tell.player == 3
    begins = one.timed["a6"].start
    assert begins < parted.a_s < one.timed["a6"].end
    assert parted.departure == pytest.approx(begins)
    assert 0.3 < parted.a_s - parted.departure < 3.0
    assert one.position(3, parted.a_s).distance(other.position(3, parted.b_s)) >= 1.1
    assert tell_words(parted).startswith("3 goes to")


@pytest.mark.parametrize("slow", [0.84, 0.9, 1.1])
def test_a_slow_dribble_does_not_move_the_split(slow):
    """Equal-looking plays parted at 3.15 s instead of 9.35 s on raw clocks (timeline.md 6.1)."""
    straight = split(play_of(base()).main, play_of(base(end="top")).main)
    delayed = split(play_of(base()).main, play_of(base(slow, "top")).main)
    assert delayed.a_s == pytest.approx(straight.a_s, abs=0.25)
    assert delayed.tell.player == straight.tell.player
    assert split(play_of(base()).main, play_of(base(slow)).main).never


def test_levels_look_alike_until_the_same_moment():
    one = split(play_of(base()).main, play_of(base(end="top")).main)
    two = split(play_of(base()).main, play_of(base(end="top"), team=Team("Test", pace="college")).main)
    assert two.a_s == pytest.approx(one.a_s, abs=0.45)


@pytest.mark.parametrize("overlooked", [0.8, 1.2, 1.6])
def test_threshold_moves_the_split_little(overlooked):
    one, other = play_of(base()).main, play_of(base(end="top")).main
    assert split(one, other, overlooked).a_s == pytest.approx(split(one, other).a_s, abs=0.6)


def test_another_start_parts_at_once_by_whoever_stands_elsewhere():
    b = BranchBuilder({1: "top", 2: "left wing", 3: "left corner", 4: "right elbow", 5: "left block"})
    b.shoot(1)
    parted = split(play_of(base()).main, play_of(b.branch()).main)
    assert (parted.a_s, parted.b_s, parted.tell.player) == (0.0, 0.0, 2)


def test_another_holder_is_told_by_the_ball():
    one = BranchBuilder({1: "top", 2: "right wing", 3: "left corner", 4: "right elbow", 5: "left block"})
    one.stand(1, 2.0, verb="hold")
    other = BranchBuilder({1: "top", 2: "right wing", 3: "left corner", 4: "right elbow", 5: "left block"})
    other.pass_(1, 2)
    other.stand(2, 1.0, verb="hold")
    parted = split(play_of(one.branch()).main, play_of(other.branch()).main)
    assert parted.tell.player is None and 0.2 < parted.a_s < 1.2
    assert tell_words(parted) in ("1 has the ball instead of 2", "1 keeps the ball")


def test_clocks_join_at_common_ball_events_and_invert():
    clocks = join_clocks(play_of(base()).main, play_of(base(0.84)).main)
    assert len(clocks.knots) >= 5
    for t in (0.0, 0.7, 2.0, 5.0, 30.0):
        assert clocks.to_a(clocks.to_b(t)) == pytest.approx(t, abs=1e-9)


def test_series_tree_and_report():
    plays = [
        Candidate(play_of(base(), "Base", series="Harbour")), Candidate(play_of(base(end="top"), "Counter", series="Harbour")),
        Candidate(play_of(base(end="right slot"), "Slot", series="Harbour")),
        Candidate(play_of(pin_down_to_shot().branch(), "Pin", series="Harbour")),
    ]
    report = lookalike_report(plays)
    assert len(report.pairs) == 6
    tree = report.trees["Harbour"]
    assert tree.until == 0.0 and len(tree.plays) == 4
    leaves = [k for k in knots(tree) if k.until is None]
    assert sorted(p.name for k in leaves for p in k.plays) == ["Base", "Counter", "Pin", "Slot"]
    for knot in knots(tree):
        for branch in knot.branches:
            assert branch.until is None or branch.until >= knot.until
            assert {p.id for p in branch.plays} < {p.id for p in knot.plays}
    assert "Base" in as_text(report) and "Harbour:" in as_text(report)
    data = json.loads(as_json(report))
    assert data["version"] == 1
    assert {"a", "b", "split_s", "a_s", "b_s", "tell"} <= set(data["pairs"][0])
    drawn = ElementTree.fromstring(as_svg(report))
    words = [e.text for e in drawn.iter("{http://www.w3.org/2000/svg}text")]
    assert {"Base", "Counter", "Pin", "Slot"} <= set(words)
    lines = alike_lines(report, plays[0].play)
    assert lines and all(line.startswith("Looks like") for line in lines)


def test_mirrored_version_that_hides_longer_is_reported():
    from branch_builder import mirrored_branch

    mirrored = play_of(mirrored_branch(base(end="top")), "Counter")
    asked = Candidate(
        play_of(mirrored_branch(base()), "Other"), (play_of(base(), "Other", variant=Variant(mirrored=True)),),
    )
    report = lookalike_report([Candidate(play_of(base(end="top"), "Counter")), asked])
    pair = report.pairs[0]
    assert pair.version == "mirrored" and pair.alike > 3.0
    assert mirrored.main.duration == pytest.approx(pair.split.a_length)


def test_turned_split_is_the_split_from_the_other_side():
    parted = split(play_of(base()).main, play_of(base(end="top")).main)
    back = turned(parted)
    assert (back.a_s, back.tell.action_a) == (parted.b_s, parted.tell.action_b)


def test_command_line_speaks_text_json_and_svg():
    run = CliRunner().invoke(command_line, ["lookalikes", "plays", "--format", "json"])
    assert json.loads(run.stdout)["version"] == 1
    assert "alike" in CliRunner().invoke(command_line, ["lookalikes", "plays"]).stdout
    ElementTree.fromstring(CliRunner().invoke(command_line, ["lookalikes", "plays", "--format", "svg"]).stdout)
    assert CliRunner().invoke(command_line, ["lookalikes", "nowhere"]).exit_code == 2


def swing(*, wait: float = 0.0, to: int = 2):
    """1 swings to 2 (or 3), who after `wait` seconds gives it back; nobody moves."""
    b = BranchBuilder({1: "top", 2: "right wing", 3: "left wing", 4: "left corner", 5: "right block"})
    b.pass_(1, to)
    if wait:
        b.stand(to, wait, verb="hold")
    b.pass_(to, 1)
    b.stand(1, 1.0, verb="hold")
    return play_of(b.branch()).main


def test_another_beat_is_no_late_pass():
    """A pass half a second later is the same pass; two seconds later it is another picture."""
    assert len(join_clocks(swing(), swing(wait=0.8)).knots) == 4
    assert len(join_clocks(swing(), swing(wait=2.0)).knots) == 2
    assert split(swing(), swing(wait=0.8)).never and not split(swing(), swing(wait=2.0)).never


def test_a_flight_is_nobodys_ball_until_somebody_has_it():
    """1 throws left 0.4 s later than right: while either ball flies nobody can tell, then two have it who stand apart."""
    b = BranchBuilder({1: "top", 2: "right wing", 3: "left wing", 4: "left corner", 5: "right block"})
    b.stand(1, 0.4, verb="hold")
    b.pass_(1, 3)
    b.stand(3, 1.0, verb="hold")
    one, other = swing(), play_of(b.branch()).main
    for first, second in ((one, other), (other, one)):
        parted = split(first, second)
        caught = max(first.ball_events[0].caught, second.ball_events[0].caught)
        assert parted.tell.player is None and parted.a_s > caught - 0.3


def test_plays_that_part_within_a_quarter_second_part_at_one_knot():
    plays = [play_of(base(), name).play for name in "ABC"]

    def tree(**alike: float):
        pairs = {
            frozenset(p.id for p in plays if p.name in names): SimpleNamespace(
                a=plays[0], b=plays[1], alike=seconds, split=SimpleNamespace(never=False))
            for names, seconds in alike.items()
        }
        return report_module._knot(plays, pairs)

    assert [len(k.plays) for k in knots(tree(AB=5.0, AC=5.0, BC=5.2))] == [3, 1, 1, 1]
    assert [len(k.plays) for k in knots(tree(AB=5.0, AC=5.0, BC=5.4))] == [3, 1, 2, 1, 1]


def test_a_lead_in_hides_nothing_that_does_not_fit_the_clock():
    one, other = play_of(base(), "A"), play_of(base(end="top"), "B")
    together = [Candidate(t, led={("Loom",): t}) for t in (one, other)]
    longest = max(one.main.duration, other.main.duration)
    assert [p.lead_ins for p in lookalike_report(together, longest + 0.1).led] == [("Loom",)]
    assert lookalike_report(together, longest - 0.1).led == ()
