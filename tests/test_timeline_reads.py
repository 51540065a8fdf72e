"""Reads: an answer lives through its trunk, then leaves it from the state each player has (timeline.md section 4)."""

from __future__ import annotations

from math import hypot

import pytest
from branch_builder import BranchBuilder, mark, settled_play
from timeline_plays import ANSWERS, read_play

from generator.model.book import Team
from generator.model.court import RuleSet, court_for
from generator.model.settled import Departure, Instant, Pass
from generator.timeline.distinctness import ENOUGH, distinctness
from generator.timeline.parameters import pace_of
from generator.timeline.simulate import simulate_play

COURT = court_for(RuleSet.INTERNATIONAL)
PACE = pace_of(Team("Test"))
TAKEN = [a for a, _ in ANSWERS[1:]]


@pytest.fixture(scope="module")
def play():
    made, said = simulate_play(read_play(), Team("Test"), COURT)
    assert said == ()
    return made


def steps(until, step=0.01):
    return [i * step for i in range(int(until / step) + 1)]


@pytest.mark.parametrize("taken", TAKEN)
def test_branch_equals_its_trunk_up_to_the_read(play, taken):
    branch, read = play.timelines[taken], play.timelines[taken].fork_times[0]
    for t in steps(read):
        for p in range(1, 6):
            assert branch.position(p, t) == play.main.position(p, t)
        assert branch.ball(t).holder == play.main.ball(t).holder
    moved = max(branch.position(p, read + 1.2).distance(play.main.position(p, read + 1.2)) for p in range(1, 6))
    assert moved > 0.3


@pytest.mark.parametrize("taken", TAKEN)
def test_named_players_leave_without_a_jump(play, taken):
    branch = play.timelines[taken]
    for t in steps(branch.duration, 0.005):
        for p in range(1, 6):
            a, b = branch.velocity(p, t), branch.velocity(p, t + 0.005)
            assert hypot(b.x - a.x, b.y - a.y) < 0.005 * hypot(PACE.top_speed / PACE.tau, PACE.cornering) + 0.02
            assert branch.position(p, t).distance(branch.position(p, t + 0.005)) < 0.05


def test_read_point_is_the_use_and_earlier_for_top_lock(play):
    used = play.main.timed["a2"].instants[Instant.USE]
    assert play.timelines["curl"].fork_times[0] == pytest.approx(used)
    assert play.timelines["back"].fork_times[0] == pytest.approx(used - 0.4)
    assert play.timelines["curl"].timed["a11"].start == pytest.approx(used + PACE.react)
    assert play.timelines["back"].timed["a11"].start == pytest.approx(used - 0.4)  # departure at t_u - 0.4: rule 5.7
    assert play.timelines["back"].quiz_instant(0) == pytest.approx(used - 0.1)
    assert play.timelines["curl"].quiz_instant(0) == pytest.approx(used + 0.3)


@pytest.mark.parametrize("taken", TAKEN)
def test_nobody_acts_before_the_read(play, taken):
    branch = play.timelines[taken]
    own = set(branch.branch.departure.own)
    for key, timed in branch.timed.items():
        if key in own:
            assert timed.start >= branch.fork_times[0] - 1e-9
        if isinstance(timed.action, Pass) and key in own:
            assert timed.instants[Instant.RELEASE] >= branch.fork_times[0] + (0 if taken == "back" else PACE.react) - 1e-9


def test_stopped_actions_are_cut_or_gone(play):
    curl = play.timelines["curl"]
    assert curl.timed["a2"].cut_at == pytest.approx(curl.fork_times[0] + PACE.react)
    assert curl.timed["a2"].route.length < play.main.timed["a2"].route.length
    assert "a4" not in curl.timed and "a5" not in curl.timed
    assert curl.timed["a3"].end == play.main.timed["a3"].end  # not stopped, so he finishes


def test_unnamed_players_finish_their_lines():
    b = BranchBuilder({1: "top", 2: "right corner", 3: "left block", 4: "left elbow", 5: "right block"})
    b.cut(2, "right wing")
    b.cut(5, "left block")
    b.cut(3, "left wing")
    b.pass_(1, 2)
    fork = b.read(1, mark("a1", Instant.HALFWAY), (("keep", ""), ("other", "deny")), watched=(2,), taken="keep")
    trunk = b.branch()
    from dataclasses import replace

    b.forks = [replace(fork, taken="other")]
    b.actions = b.actions[:3]
    b.answer, b.count = "other", 20
    key = b.cut(2, (0.5, 1.9), effort=0.85)
    ball = b.pass_(1, 2, lead=True)
    child = b.branch("other", "main", Departure(0, (1, 2), ("a1", "a4"), (key, ball)))
    play, _ = simulate_play(settled_play(trunk, child), Team("Test"), COURT)
    for key in ("a2", "a3"):
        assert play.timelines["other"].timed[key].instants == play.main.timed[key].instants
    assert play.timelines["other"].position(5, 9.0) == play.main.position(5, 9.0)


def test_coverages_of_a_fork_can_be_told_apart(play):
    pairs = distinctness(play, play.main.branch.forks[0])
    assert len(pairs) == 10
    assert min(pairs.values()) >= ENOUGH, pairs


def test_answer_takes_the_trunks_track_until_the_coverage_shows(play):
    for taken in TAKEN:
        branch = play.timelines[taken]
        used = play.main.timed["a2"].instants[Instant.USE]
        for t in steps(max(0.0, used - 1.4), 0.1):
            for x in range(1, 6):
                assert branch.defender(x, t) == play.main.defender(x, t)


def test_defenders_keep_speed_and_acceleration(play):
    for branch in play.timelines.values():
        samples, speeds = branch.defence.samples, branch.defence.speeds
        for i in range(1, len(samples)):
            for x in range(1, 6):
                v, u = speeds[i][x], speeds[i - 1][x]
                assert hypot(*v) <= 6.0 + 1e-9
                assert hypot(v.x - u.x, v.y - u.y) <= 0.9 + 1e-9
