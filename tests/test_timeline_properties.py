"""What must hold for every play: continuous, legal speeds, clearance, mirror, slower levels, one ball, tight samples."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import hypot

import pytest
from branch_builder import BranchBuilder, mirrored_branch, settled_play, spot
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString
from shapely.geometry import Point as Dot
from svgelements import Path as SvgPath
from timeline_plays import pin_down_to_shot, random_branch

from generator.model.book import Team
from generator.model.court import Point, RuleSet, court_for
from generator.model.settled import HandOff, Instant, Pass, Screen, Variant
from generator.timeline.motion import RATE, WITHIN, motion_data, place_at
from generator.timeline.parameters import PACES, SHOULDER, pace_of, stopwatch_factor
from generator.timeline.pieces import Arc, Curve
from generator.timeline.simulate import simulate_play
from generator.timeline.taut import Knot, around, round_corners, settle_knots, thread

COURT = court_for(RuleSet.INTERNATIONAL)
SEEDS = st.integers(0, 10_000)
QUICK = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True)


def timed(branch, team=Team("Test"), variant=Variant(), factor=1.0):
    return simulate_play(settled_play(branch, variant=variant), team, COURT, factor)[0].main


def instants(end, step):
    return [i * step for i in range(int(end / step) + 1)]


@QUICK
@given(SEEDS)
def test_positions_are_continuous_and_speeds_step_little(seed):
    main = timed(random_branch(seed))
    pace = pace_of(Team("Test"))
    bound = 0.005 * hypot(max(pace.top_speed / pace.tau, pace.braking), pace.cornering) + 0.01
    for p in range(1, 6):
        velocity = main.velocity(p, 0.0)
        for t in instants(main.duration, 0.005):
            following = main.velocity(p, t + 0.005)
            assert hypot(following.x - velocity.x, following.y - velocity.y) <= bound
            velocity = following
        for t in instants(main.duration, 0.05):
            assert main.position(p, t).distance(main.position(p, t + 0.05)) <= 0.05 * pace.top_speed + 1e-9


@QUICK
@given(SEEDS)
def test_clearance_at_every_screener_used(seed):
    main = timed(random_branch(seed))
    for one in main.timed.values():
        for use in one.uses:
            course = main.schedule.courses.of(one.action.key)
            if use.place.distance(course.curve.start) > SHOULDER and use.place.distance(course.curve.end) > SHOULDER:
                assert course.curve.nearest(use.place)[1] >= 0.64


@QUICK
@given(SEEDS)
def test_mirrored_play_is_the_mirror_image(seed):
    branch = random_branch(seed)
    one, two = timed(branch), timed(mirrored_branch(branch), variant=Variant(mirrored=True))
    assert one.duration == pytest.approx(two.duration, abs=1e-9)
    for key in one.timed:
        for instant, t in one.timed[key].instants.items():
            assert two.timed[key].instants[instant] == pytest.approx(t, abs=1e-9)
    for t in instants(one.duration, 0.25):
        for p in range(1, 6):
            a, b = one.position(p, t), two.position(p, t)
            assert hypot(a.x + b.x, a.y - b.y) < 1e-9
            a, b = one.defender(p, t), two.defender(p, t)
            assert (a.x, a.y) == (-b.x, b.y)  # not nearly: a last digit would grow where one steps aside


@QUICK
@given(SEEDS)
def test_a_slower_level_is_never_faster(seed):
    branch = random_branch(seed, passes_on_the_run=False)
    lengths = [timed(branch, Team("Test", pace=name)).duration for name in PACES]
    assert all(slow >= fast - 0.02 for slow, fast in pairwise(lengths)), lengths
    assert timed(branch, Team("Test", women=True)).duration >= lengths[1] - 0.02


@QUICK
@given(SEEDS)
def test_ball_and_receiver_come_together_and_there_is_one_ball(seed):
    main = timed(random_branch(seed))
    events = main.ball_events
    for before, after in pairwise(events):
        assert before.caught <= after.release + 1e-9
        assert before.receiver == after.passer
    for one in main.timed.values():
        if isinstance(one.action, Pass):
            t = one.instants[Instant.CATCH]
            ball = main.ball(t)
            assert ball.holder == one.action.receiver
            assert ball.point.distance(main.position(one.action.receiver, t)) < 1e-9
            speed = pace_of(Team("Test")).flight_speed(one.action.pass_kind)
            flown = main.position(one.action.player, one.instants[Instant.RELEASE]).distance(ball.point)
            assert t - one.instants[Instant.RELEASE] == pytest.approx(flown / speed, abs=1e-6)
        if isinstance(one.action, HandOff):
            t = one.instants[Instant.MEET]
            assert main.position(one.action.player, t).distance(main.position(one.action.receiver, t)) < 1.6


@QUICK
@given(SEEDS)
def test_order_of_every_player_and_of_phases(seed):
    main = timed(random_branch(seed))
    for a, b in zip(main.phases, main.phases[1:]):
        assert b.opens >= a.opens
    for one in main.timed.values():
        assert one.start >= main.phases[one.action.phase].opens - 1e-9
        times = one.instants
        assert times[Instant.START] <= times[Instant.END] + 1e-9
        if one.uses:
            assert times[Instant.START] <= times[Instant.USE] <= times[Instant.CLEAR] + 1e-9 <= times[Instant.END] + 2e-9
            screen = main.timed.get(one.uses[0].screen)
            assert screen is None or times[Instant.USE] >= screen.instants[Instant.SET] - 1e-9


@settings(QUICK, max_examples=10)
@given(SEEDS)
def test_samples_stay_within_five_centimetres(seed):
    main = timed(random_branch(seed))
    data = motion_data(main)
    assert data["rate"] == RATE and len(data["offence"]["1"][0]) >= main.duration * RATE
    for p in range(1, 6):
        for t in instants(main.duration, 0.01):
            assert place_at(data["offence"][str(p)], t).distance(main.position(p, t)) <= WITHIN
            assert place_at(data["defence"][str(p)], t).distance(main.defender(p, t)) <= WITHIN + 0.03


@QUICK
@given(SEEDS)
def test_an_idle_players_move_changes_nothing_else(seed):
    """4 walks from one corner of the back court to the other: off everybody's way, in a phase with ball lines."""
    branch = random_branch(seed)
    b = BranchBuilder(dict(branch.start))
    idle = next((p for p in range(1, 6) if all(p not in (a.player, getattr(a, "receiver", 0)) for a in branch.actions)), None)
    if idle is None or not any(a.phase == 0 and (isinstance(a, Pass | HandOff | Screen) or getattr(a, "with_ball", False)) for a in branch.actions):
        return
    far = Point(-6.0, 12.0)
    phases = tuple(replace(ph, plan={**ph.plan, idle: far}) for ph in branch.phases)
    still = replace(branch, phases=phases)
    b.place[idle] = far
    key = b.cut(idle, (6.0, 12.5))
    moved = replace(still, actions=(*branch.actions[:1], replace(b._get(key), key="idle"), *branch.actions[1:]))
    one, two = timed(still), timed(moved)
    for key in one.timed:
        assert one.timed[key].instants == two.timed[key].instants


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    st.tuples(st.floats(-7, 7), st.floats(0.5, 12)), st.tuples(st.floats(-5, 5), st.floats(1, 10)),
    st.tuples(st.floats(-7, 7), st.floats(0.5, 12)), st.sampled_from((1, -1)),
)
def test_lengths_against_shapely_and_svgelements(p, s, q, g):
    p, s, q = Point(*p), Point(*s), Point(*q)
    if min(p.distance(s), q.distance(s), p.distance(q)) < 1.0:
        return
    curve = Curve(around(p, s, q, g, grow=True))
    points = [curve.at(curve.length * i / 4000) for i in range(4001)]
    line = LineString(points)
    assert line.length == pytest.approx(curve.length, rel=2e-5)
    assert line.distance(Dot(s)) == pytest.approx(curve.nearest(s)[1], abs=2e-3)
    assert curve.nearest(s)[1] >= 0.64
    path = f"M{points[0].x},{points[0].y}"
    for piece, length in zip(curve.pieces, curve.lengths):
        end = piece.at(length)
        if isinstance(piece, Arc):
            large, sweep = int(abs(piece.sweep) > 3.14159265), int(piece.sweep > 0)
            path += f"A{piece.r},{piece.r} 0 {large} {sweep} {end.x},{end.y}"
        else:
            path += f"L{end.x},{end.y}"
    assert SvgPath(path).length(error=1e-6) == pytest.approx(curve.length, rel=1e-3)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.lists(st.tuples(st.floats(-6, 6), st.floats(1, 11)), min_size=3, max_size=5), st.integers(0, 7))
def test_tangents_are_shared_along_a_threaded_way(places, senses):
    points = [Point(*p) for p in places]
    if min(a.distance(b) for i, a in enumerate(points) for b in points[:i]) < 1.4:
        return
    knots = [Knot(points[0]), *[Knot(c, 0.65, 1 if senses >> i & 1 else -1) for i, c in enumerate(points[1:-1])], Knot(points[-1])]
    settled = settle_knots(knots)
    curve = Curve(round_corners(thread(settled)[0]))
    assert curve.start.distance(points[0]) < 1e-6 and curve.end.distance(points[-1]) < 1e-6
    for a, b, length in zip(curve.pieces, curve.pieces[1:], curve.lengths):
        assert a.at(length).distance(b.at(0.0)) < 1e-6
        if isinstance(a, Arc) != isinstance(b, Arc):
            h, k = a.heading(length), b.heading(0.0)
            assert h[0] * k[0] + h[1] * k[1] > 1 - 1e-6


@pytest.mark.parametrize("factor", [0.8, 1.0, 1.3])
def test_stopwatch_scales_every_second(factor):
    branch = pin_down_to_shot().branch()
    one, other = timed(branch), timed(branch, factor=factor)
    assert other.duration == pytest.approx(one.duration * factor, rel=1e-6)
    for key in one.timed:
        for instant, t in one.timed[key].instants.items():
            assert other.timed[key].instants[instant] == pytest.approx(t * factor, rel=1e-6, abs=1e-9)
    assert stopwatch_factor(one.duration, one.duration * factor) == pytest.approx(factor)


def test_never_through_a_standing_player():
    b = BranchBuilder({1: "top", 2: "left wing", 3: "right corner", 4: "nail", 5: "left block"})
    b.cut(2, "right wing")
    main = timed(b.branch())
    b.place[4] = spot("nail")
    nail = main.position(4, 0.0)
    nearest = min(main.position(2, t).distance(nail) for t in instants(main.duration, 0.02))
    line = abs(nail.y - spot("left wing").y)
    assert nearest >= min(0.94, line) and nearest >= 0.89


def test_never_through_one_who_has_just_arrived():
    """4 has walked to the middle of 2's way and stands when 2 comes by: 2's way bends although 4 moves in this phase."""
    b = BranchBuilder({1: "top", 2: "left wing", 3: "right corner", 4: "left elbow", 5: "left block"})
    b.cut(4, (0.0, 6.56), effort=1.0)
    b.dribble(1, "right slot")
    b.cut(2, "right wing", effort=0.4)
    main = timed(b.branch())
    assert min(main.position(2, t).distance(main.position(4, t)) for t in instants(main.duration, 0.02)) >= 0.85


def test_where_nobody_named_a_place_the_screen_stands_by_the_defender():
    b = BranchBuilder({1: "top", 2: "right corner", 3: "right wing", 4: "right elbow", 5: "left block"})
    b.screen(4, 3)
    b.cut(3, "top", off=4)
    main = timed(b.branch())
    place, rim = main.position(4, 2.0), Point(0.0, COURT.rim)
    man = spot("right wing")
    k = 1.0 / man.distance(rim)
    defender = Point(man.x + k * (rim.x - man.x), man.y + k * (rim.y - man.y))
    assert place.distance(defender) == pytest.approx(0.6, abs=0.06)
    facing = main.timed["a1"].facing
    assert facing.x * (defender.x - place.x) + facing.y * (defender.y - place.y) == pytest.approx(place.distance(defender), abs=0.02)


@pytest.mark.deep
@pytest.mark.parametrize("start", range(0, 2000, 200))
def test_many_random_plays(start):
    """The quick properties again, over two thousand plays of three phases."""
    pace = pace_of(Team("Test"))
    bound = 0.01 * hypot(max(pace.top_speed / pace.tau, pace.braking), pace.cornering) + 0.02
    for seed in range(start, start + 200):
        main = timed(random_branch(seed, phases=3))
        for before, after in zip(main.ball_events, main.ball_events[1:]):
            assert before.caught <= after.release + 1e-9 and before.receiver == after.passer
        for p in range(1, 6):
            velocity = main.velocity(p, 0.0)
            for t in instants(main.duration, 0.01):
                following = main.velocity(p, t + 0.01)
                assert hypot(following.x - velocity.x, following.y - velocity.y) <= bound, (seed, p, t)
                velocity = following
        for one in main.timed.values():
            for use in one.uses:
                course = main.schedule.courses.of(one.action.key)
                if use.place.distance(course.curve.start) > SHOULDER and use.place.distance(course.curve.end) > SHOULDER:
                    assert course.curve.nearest(use.place)[1] >= 0.635, seed
