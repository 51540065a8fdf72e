"""Worked examples of the timeline: movement, routes, catches, splices, schedules (timeline.md section 9)."""

from __future__ import annotations

from math import cos, hypot, log, pi, sin, sqrt

import pytest
from branch_builder import BranchBuilder, on, settled_play, spot

from generator.model.book import Team
from generator.model.court import Point, RuleSet, court_for
from generator.model.settled import Hold, Instant
from generator.timeline.courses import Course
from generator.timeline.parameters import pace_of
from generator.timeline.pieces import Arc, Curve, Line
from generator.timeline.running_catch import catch_time
from generator.timeline.simulate import simulate_play
from generator.timeline.splice import State, departures
from generator.timeline.taut import Knot, around, polyline, round_corners, settle_knots, thread
from generator.timeline.time_map import Leg, run_legs

COURT = court_for(RuleSet.INTERNATIONAL)
TEAM = Team("Test")
PACE = pace_of(TEAM)


def near(value, wanted, by=0.002):
    assert value == pytest.approx(wanted, abs=by)


@pytest.mark.parametrize(
    ("length", "strive", "tau", "braking", "v0", "total", "peak", "switch"),
    [
        (2.0, 5.4, 0.95, 4.0, 0.0, 1.3694, 2.7592, 0.6796),
        (4.5, 5.4, 0.95, 4.0, 0.0, 2.1226, 3.8201, 1.1676),
        (8.0, 5.4, 0.95, 4.0, 0.0, 2.9486, 4.5892, 1.8013),
        (6.0, 6.0, 0.80, 4.5, 0.0, 2.2604, 4.6909, None),
        (4.5, 5.4, 0.95, 4.0, 2.74, 1.7095, None, None),
    ],
)
def test_stop_to_stop_lines(length, strive, tau, braking, v0, total, peak, switch):
    made = run_legs([Leg(length, strive, strive)], tau, braking, v0)
    near(made.total, total)
    if switch is not None:
        near(made.times[1], switch)
    if peak is not None:
        near(made.at(made.times[1])[1], peak)
    near(made.at(made.total)[0], length, 1e-9)


def test_halfway_in_time_of_a_line():
    made = run_legs([Leg(4.5, 5.4, 5.4)], 0.95, 4.0)
    near(made.at(made.total / 2)[0], 2.2796)


def test_inverse_of_a_time_map():
    made = run_legs([Leg(3.0, 5.4, 5.4), Leg(1.6, 5.4, 2.4495), Leg(3.0, 5.4, 5.4)], 0.95, 4.0)
    for i in range(101):
        s = made.length * i / 100
        near(made.at(made.time_at(s))[0], s, 1e-7)


def test_round_a_circle_and_round_a_screener():
    p, s, q = Point(0, 0), Point(3, 0.2), Point(5, 3)
    small = Curve(around(p, s, q, 1))
    first, arc, last = small.pieces
    near(first.q[0], 2.9020), near(first.q[1], -0.4426), near(last.p[0], 3.5908), near(last.p[1], -0.0711)
    near(arc.sweep, 1.2919), near(small.length, 7.1543)
    large = Curve(around(p, s, q, 1, grow=True))
    arc = large.pieces[1]
    near(arc.centre[0], 2.7389), near(arc.centre[1], 0.6841), near(arc.r, 1.2), near(arc.sweep, 1.3715)
    near(large.length, 7.2071), near(large.nearest(s)[1], 0.65, 1e-9)


def test_time_map_round_a_screener():
    curve = Curve(around(Point(0, 0), Point(3, 0.2), Point(5, 3), 1, grow=True))
    cap = sqrt(5 * 1.2)
    near(cap, 2.4495)
    legs = [Leg(piece.length, 5.4, cap if isinstance(piece, Arc) else 5.4) for piece in curve.pieces]
    made = run_legs(legs, 0.95, 4.0)
    assert [s.kind for s in made.segments] == ["exp", "brake", "cruise", "exp", "brake"]
    for time, wanted in zip(made.times, (0.0, 0.943, 1.180, 1.852, 2.310, 3.2054)):
        near(time, wanted)


def test_corner_rounding():
    curve = Curve(polyline([Point(0, 0), Point(4, 0), Point(6, 3.4641)]))
    near(4 - curve.pieces[0].length, 0.5774), near(curve.length, 7.8925)
    for a, b, length in zip(curve.pieces, curve.pieces[1:], curve.lengths):
        near(a.heading(length)[0], b.heading(0)[0], 1e-9), near(a.heading(length)[1], b.heading(0)[1], 1e-9)


def test_loose_route_bends_to_touch_and_keeps_off():
    for y in (0.75, 1.0, 1.6):
        curve = Curve(around(Point(0, 0), Point(3, y), Point(6, 0), 1, grow=True))
        assert 0.65 - 1e-9 <= curve.nearest(Point(3, y))[1] <= 0.65 + 0.15


class _Run:
    """A straight run as the catch sees it."""

    def __init__(self, p, q):
        self.curve = Curve([Line(p, q)])
        self.map = run_legs([Leg(self.curve.length, 5.4, 5.4)], 0.95, 4.0)

    def times(self, member):
        return 0.0, self.map.total


def test_pass_on_the_run_when_the_passer_is_late():
    run = _Run(Point(0, 5.8), Point(0, 2.2))
    near(run.map.total, 1.8774)
    caught = catch_time(run, 0, 1.0, Point(5, 6.5), 1.5, 9.0)
    near(caught, 2.1647)
    near(run.curve.at(run.map.at(caught - 1.0)[0])[1], 3.216)


def pin_down(mirrored=False):
    side = -1 if mirrored else 1
    b = BranchBuilder({1: "top", 2: "right corner", 3: "left block", 4: "left elbow", 5: "right block"})
    b.place = {p: Point(side * q.x, q.y) for p, q in b.place.items()}
    b.phases[0]["plan"] = dict(b.place)
    b.screen(4, 3, at=(side * -2.0, 3.9))
    b.cut(3, "top", off=4)
    b.dribble(1, (side * spot("right wing").x, spot("right wing").y))
    b.pass_(1, 3)
    return b.branch()


def times_of(branch, team=TEAM):
    play, said = simulate_play(settled_play(branch), team, COURT)
    return play.main, said


def test_pin_down_schedule():
    main, said = times_of(pin_down())
    screen, cut, dribble, swing = main.timed.values()
    near(screen.route.length, 1.953), near(screen.instants[Instant.SET] - PACE.screen_set, 1.410), near(screen.instants[Instant.SET], 1.760)
    near(cut.route.length, 6.489), assert_sense(cut, -1)
    near(cut.instants[Instant.USE] - cut.start, 0.786, 0.02), near(cut.start, 0.974, 0.02), near(cut.end, 3.710, 0.02)
    near(dribble.route.length, 5.396), near(dribble.end, 2.96, 0.005)
    near(swing.end - swing.start, 0.5995), near(swing.start, 3.11, 0.02), near(swing.end, 3.71, 0.02)
    assert said == ()


def assert_sense(timed, g):
    assert [u.g for u in timed.uses] == [g]


def test_mirrored_pin_down_is_the_mirror_image():
    one, _ = times_of(pin_down())
    two, _ = times_of(pin_down(mirrored=True))
    assert_sense(two.timed["a2"], 1)
    for i in range(40):
        for p in range(1, 6):
            a, b = one.position(p, i * 0.1), two.position(p, i * 0.1)
            assert abs(a.x + b.x) < 1e-12 and abs(a.y - b.y) < 1e-12
            a, b = one.defender(p, i * 0.1), two.defender(p, i * 0.1)
            assert abs(a.x + b.x) < 1e-12 and abs(a.y - b.y) < 1e-12


def test_teaching_mode_waits_until_the_screen_is_set():
    taught, _ = times_of(pin_down(), Team("Test", screens="wait until set"))
    near(taught.timed["a2"].start, taught.timed["a1"].instants[Instant.SET], 1e-9)
    assert taught.duration > times_of(pin_down())[0].duration


def splice(goal, radius=None):
    """Seconds from (0,0) heading up at 3.0 m/s to `goal`, V 5.4; the fastest way or the one of that radius."""
    state = State(Point(0, 0), Point(0, 1), 3.0)
    found = []
    for option in departures(state, [Knot(Point(0, 0)), Knot(goal)], PACE):
        pieces = [*option.prefix, *round_corners(thread(settle_knots(option.knots))[0])]
        legs = []
        for i, piece in enumerate(pieces):
            cap = min(5.4, sqrt(PACE.cornering * piece.r)) if isinstance(piece, Arc) else 5.4
            turns = i + 1 < len(pieces) and _turns(piece, pieces[i + 1])
            legs.append(Leg(piece.length, 5.4, cap, PACE.plant if turns else None))
        arcs = [p.r for p in pieces if isinstance(p, Arc)]
        found.append((arcs[0] if arcs else 0.0, run_legs(legs, PACE.tau, PACE.braking, 3.0).total))
    return min(found, key=lambda f: f[1]) if radius is None else next(f for f in found if f[0] == radius)


def _turns(a, b):
    h, k = a.heading(a.length), b.heading(0.0)
    return h[0] * k[0] + h[1] * k[1] < 0.999


def test_turn_or_plant():
    radius, total = splice(Point(0, -4))
    assert radius == 0.0
    near(total, 3.152), near(splice(Point(0, -4), 0.5)[1], 3.36, 0.01)
    radius, total = splice(Point(3, 3))
    assert radius == 1.8
    near(total, 1.800), near(splice(Point(3, 3), 0.0)[1], 2.73, 0.01)


@pytest.mark.parametrize(
    ("name", "point"),
    [("top", (0, 8.625)), ("right slot", (2.411, 8.200)), ("right wing", (4.985, 6.560)), ("right corner", (6.95, 1.2)),
     ("right elbow", (2.45, 5.8)), ("right block", (2.75, 2.85))],
)
def test_spots_of_the_examples(name, point):
    near(spot(name).x, point[0], 0.001), near(spot(name).y, point[1], 0.001)


def test_two_cuts_that_wait_for_each_other_are_one_error():
    b = BranchBuilder({1: "top", 2: "left corner", 3: "right corner", 4: "left elbow", 5: "right block"})
    b.cut(2, "left wing", when=(on(Hold.AS, "a2", Instant.ARRIVE),), )
    b.cut(3, "right wing", when=(on(Hold.AS, "a1", Instant.ARRIVE),))
    main, said = times_of(b.branch())
    assert [d.rule for d in said] == ["timing-circle"]
    assert "line 1" in said[0].message and "line 2" in said[0].message
    assert main.duration > 0


def test_two_screeners_who_free_each_other_schedule():
    b = BranchBuilder({1: "top", 2: "right corner", 3: "left corner", 4: "left elbow", 5: "right elbow"})
    b.screen(4, 5, at=(1.4, 4.8))
    b.screen(5, 4, at=(-1.4, 4.8))
    b.cut(5, "right wing", off=4)
    b.cut(4, "left wing", off=5)
    main, said = times_of(b.branch())
    assert main.timed["a3"].start < main.timed["a4"].start
    assert [d.rule for d in said] == ["screen-has-left"]
    assert said[0].message == "5 has left before 4 uses his screen"


def test_cut_on_the_very_pass():
    b = BranchBuilder({1: "top", 2: "right wing", 3: "left corner", 4: "left elbow", 5: "left block"})
    cut = b.cut(2, (0.51, 1.88), when=(on(Hold.AS, "a2", Instant.RELEASE),), effort=0.75)
    b.pass_(1, 2, lead=True, meets=cut)
    main, said = times_of(b.branch())
    swing = main.timed["a2"]
    near(swing.instants[Instant.RELEASE], 0.0), near(swing.instants[Instant.CATCH], 0.57, 0.01)
    assert said == ()


def test_stops_are_expensive():
    """2.7: one run, a stop in the middle, a 60 degree turn, over 8 m at high-school cut pace."""
    one = run_legs([Leg(8.0, 5.4, 5.4)], 0.95, 4.0).total
    stop = 2 * run_legs([Leg(4.0, 5.4, 5.4)], 0.95, 4.0).total
    turned = Curve(polyline([Point(0, 0), Point(4, 0), Point(4 + 4 * cos(pi / 3), 4 * sin(pi / 3))]))
    legs = [Leg(p.length, 5.4, min(5.4, sqrt(5 * p.r)) if isinstance(p, Arc) else 5.4) for p in turned.pieces]
    near(one, 2.95, 0.005), near(stop, 3.98, 0.02), near(run_legs(legs, 0.95, 4.0).total, 3.40, 0.02)


def test_hand_off_taken_on_the_run_is_faster_than_standing():
    def made(joined):
        b = BranchBuilder({1: "top", 2: "right corner", 3: "left corner", 4: "left elbow", 5: "right block"})
        b.cut(2, (4.9, 5.2), no_stop=joined)
        b.hand_off(1, 2, at=(4.4, 5.9))
        b.dribble(2, (1.6, 5.2), effort=0.8)
        return times_of(b.branch())

    running, said = made(True)
    standing, _ = made(False)
    assert said == ()
    assert running.duration < standing.duration - 0.3
    meet = running.timed["a2"].instants[Instant.MEET]
    assert hypot(*running.velocity(2, meet)) > 1.0
    assert running.position(2, meet).distance(running.position(1, meet)) < 1.0
    near(running.timed["a2"].end - meet, PACE.hand_off, 1e-9)


def test_logarithm_never_blows_up():
    made = run_legs([Leg(200.0, 5.4, 5.4)], 0.95, 4.0)
    assert made.total < 45 and log(made.total) > 0


def test_course_protocol():
    main, _ = times_of(pin_down())
    assert isinstance(main.schedule.courses.of("a2"), Course)
    assert main.timed["a2"].route.at(0.0) == main.position(3, 0.0)
