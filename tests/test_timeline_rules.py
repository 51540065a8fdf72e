"""The rules of the schedule one by one: edges, triggers, missed deadlines, waiting, phase openings, groups of screens."""

from __future__ import annotations

import inspect
import re
from pathlib import Path

import pytest
from branch_builder import BranchBuilder, mark, on, settled_play, spot

from generator.model.book import Team
from generator.model.court import Point, RuleSet, court_for
from generator.model.settled import Hold, Instant, Mark, PassKind, Trigger
from generator.timeline.parameters import (
    BY_PACE,
    CLEAR_BY,
    FIXED,
    LATE,
    OFF_THE_WAY,
    STEP_BEHIND,
    STEP_IN_VIEW,
    pace_of,
)
from generator.timeline.parameters import PassKind as _Kind
from generator.timeline.simulate import simulate_play

COURT = court_for(RuleSet.INTERNATIONAL)
TEAM = Team("Test")
PACE = pace_of(TEAM)
FIVE = {1: "top", 2: "right wing", 3: "left corner", 4: "left elbow", 5: "right block"}


def timed(b, team=TEAM):
    play, said = simulate_play(settled_play(b.branch()), team, COURT)
    return play.main, said


def near(value, wanted, by=1e-6):
    assert value == pytest.approx(wanted, abs=by)


# -- edges -------------------------------------------------------------------------------------------------


def test_pass_to_a_standing_receiver_and_on_after_the_pivot():
    b = BranchBuilder(FIVE)
    b.pass_(1, 2), b.pass_(2, 3, kind=PassKind.SKIP), b.shoot(3)
    main, _ = timed(b)
    first, second, shot = main.timed.values()
    flight = spot("top").distance(spot("right wing")) / PACE.chest
    near(first.instants[Instant.CATCH], flight)
    near(second.start, flight + PACE.catch + PACE.pivot)
    near(second.end - second.start, spot("right wing").distance(spot("left corner")) / PACE.overhead)
    near(shot.start, second.end + PACE.catch), near(shot.end, shot.start + PACE.shot), near(main.duration, shot.end)


def test_dribble_after_a_catch_needs_no_pivot():
    b = BranchBuilder(FIVE)
    b.pass_(1, 2), b.dribble(2, "right corner")
    main, _ = timed(b)
    near(main.timed["a2"].start, main.timed["a1"].end + PACE.catch)


def test_passer_moves_right_after_his_release():
    b = BranchBuilder(FIVE)
    b.pass_(1, 2), b.cut(1, "left slot")
    main, _ = timed(b)
    near(main.timed["a2"].start, PACE.passer_leaves)


def test_ball_waits_for_a_late_receiver_and_receiver_for_a_late_ball():
    b = BranchBuilder(FIVE)
    b.cut(3, "left wing"), b.pass_(1, 3)
    main, _ = timed(b)
    near(main.timed["a2"].end, main.timed["a1"].end)
    b = BranchBuilder(FIVE)
    b.cut(3, (-6.9, 2.0)), b.dribble(1, "right slot"), b.pass_(1, 3)
    main, _ = timed(b)
    assert main.timed["a3"].end > main.timed["a1"].end + 0.5
    near(main.timed["a3"].start, main.timed["a2"].end)


def test_pass_on_the_run_is_caught_before_the_end_of_the_run():
    b = BranchBuilder(FIVE)
    b.cut(3, (-0.6, 1.7), effort=0.85), b.pass_(1, 3, lead=True), b.shoot(3)
    main, _ = timed(b)
    run, ball, shot = main.timed.values()
    caught = main.position(3, ball.end)
    near(caught.distance(run.route.at(run.route.length)), 1.2, 0.01)
    assert ball.end < run.end
    near(shot.start, max(run.end, ball.end + PACE.catch))


def test_lob_is_caught_at_the_end():
    b = BranchBuilder(FIVE)
    b.cut(3, (-0.6, 1.7), effort=0.85), b.pass_(1, 3, lead=True, kind=PassKind.LOB)
    main, _ = timed(b)
    near(main.position(3, main.timed["a2"].end).distance(Point(-0.6, 1.7)), 0.2, 0.01)


def test_screener_leaves_after_the_user_is_by():
    b = BranchBuilder({1: "top", 2: "right corner", 3: "left block", 4: "left elbow", 5: "right block"})
    b.screen(4, 3, at=(-2.0, 3.9))
    cut = b.cut(3, "top", off=4)
    b.cut(4, (-0.5, 1.7), verb="roll", waits_clear=(cut,))
    main, said = timed(b)
    cut, roll = main.timed["a2"], main.timed["a3"]
    assert said == ()
    near(roll.start, max(cut.instants[Instant.CLEAR], cut.instants[Instant.USE] + PACE.screen_hold))


def test_slip_waits_for_the_set_only():
    b = BranchBuilder({1: "top", 2: "right corner", 3: "left block", 4: "left elbow", 5: "right block"})
    screen = b.screen(4, 3, at=(-2.0, 3.9))
    b.cut(4, (-0.5, 1.7), verb="slip", waits_set=screen)
    main, _ = timed(b)
    near(main.timed["a2"].start, main.timed["a1"].instants[Instant.SET])


def test_hand_off_needs_both_and_nobody_stands_with_the_ball():
    b = BranchBuilder(FIVE)
    b.cut(3, (-3.0, 6.8))
    b.hand_off(1, 3, at=(-2.4, 7.4))
    main, _ = timed(b)
    cut, give = main.timed.values()
    meet = give.instants[Instant.MEET]
    near(cut.end, meet, 1e-6)
    duration = give.instants[Instant.MEET] - give.start
    assert give.start > 0.0  # 3 comes from far: 1 waits before he dribbles, not after
    near(main.position(1, give.start).y, spot("top").y)
    assert duration < 2.0
    near(give.end, meet + PACE.hand_off)
    assert main.ball(meet - 0.01).holder == 1 and main.ball(give.end + 0.01).holder == 3


def test_faked_hand_off_keeps_the_ball():
    b = BranchBuilder(FIVE)
    b.cut(3, (-0.4, 7.9)), b.hand_off(1, 3, fake=True), b.shoot(1)
    main, _ = timed(b)
    assert main.ball(main.duration - 0.01).holder == 1
    near(main.timed["a2"].end - main.timed["a2"].instants[Instant.MEET], PACE.fake)


# -- triggers ----------------------------------------------------------------------------------------------


def test_as_after_then_with():
    b = BranchBuilder(FIVE)
    dribble = b.dribble(1, "right slot")
    b.cut(3, "left wing", when=(on(Hold.AS, dribble, Instant.HALFWAY),))
    b.cut(4, "nail", when=(on(Hold.AFTER, dribble, Instant.HALFWAY),))
    b.cut(2, "right corner", when=(Trigger(Hold.THEN, (mark("a1", Instant.END), mark("a2", Instant.END))),))
    b.cut(5, "left block", when=(on(Hold.WITH, "a4"),))
    main, said = timed(b)
    half = main.timed["a1"].instants[Instant.HALFWAY]
    near(main.timed["a2"].start, half), near(main.timed["a3"].start, half + PACE.after)
    near(main.timed["a4"].start, max(main.timed["a1"].end, main.timed["a2"].end))
    near(main.timed["a5"].start, main.timed["a4"].start)
    assert said == () and all(t.late == 0.0 for t in main.timed.values())


def test_with_binds_both():
    b = BranchBuilder(FIVE)
    b.cut(3, "left wing"), b.cut(2, "right corner")
    b.cut(3, "left slot", when=(on(Hold.WITH, "a4"),))
    b.cut(4, "nail")
    main, _ = timed(b)
    near(main.timed["a3"].start, main.timed["a4"].start)
    near(main.timed["a4"].start, main.timed["a1"].end)


def test_reaching_a_place_on_the_way():
    b = BranchBuilder({**FIVE, 2: "right corner"})
    b.cut(3, "left slot")
    place = b._get("a1")
    middle = Point((place.origin.x + place.end.x) / 2, (place.origin.y + place.end.y) / 2)
    b.cut(2, "right wing", when=(Trigger(Hold.AS, (Mark("a1", Instant.ARRIVE, at=middle),)),))
    main, _ = timed(b)
    near(main.timed["a2"].start, main.timed["a1"].instants[Instant.HALFWAY], 1e-3)


def test_until_lasts_and_before_misses_by_seconds():
    b = BranchBuilder(FIVE)
    b.cut(3, "left wing")
    b.stand(1, 0.5, verb="hold", when=(on(Hold.UNTIL, "a1", Instant.END),))
    b.pass_(1, 3)
    b.cut(5, "left wing", effort=0.5, when=(on(Hold.BEFORE, "a3", Instant.CATCH),))
    main, _ = timed(b)
    near(main.timed["a2"].end, main.timed["a1"].end)
    assert main.timed["a3"].start >= main.timed["a2"].end - 1e-9
    late = main.timed["a4"]
    near(late.late, late.instants[Instant.ARRIVE] - main.timed["a3"].instants[Instant.CATCH])
    assert late.late > 0.3


def test_as_more_than_half_a_second_late_is_missed():
    b = BranchBuilder(FIVE)
    b.cut(3, "right corner")
    b.cut(2, "left slot", effort=1.0)
    b.cut(2, "top", when=(on(Hold.AS, "a1", Instant.START),))
    main, _ = timed(b)
    near(main.timed["a3"].late, main.timed["a2"].end)


def test_pass_as_somebody_arrives_is_caught_then_and_as_he_cuts_is_thrown_then():
    b = BranchBuilder(FIVE)
    b.cut(4, "right elbow")
    b.pass_(1, 2, when=(on(Hold.AS, "a1", Instant.ARRIVE),))
    main, _ = timed(b)
    near(main.timed["a2"].instants[Instant.CATCH], main.timed["a1"].end)
    b = BranchBuilder(FIVE)
    b.cut(4, "right elbow"), b.cut(4, "nail")
    b.pass_(1, 2, when=(on(Hold.AS, "a2", Instant.START),))
    main, _ = timed(b)
    near(main.timed["a3"].start, main.timed["a2"].start)


def test_clock_counts_down():
    b = BranchBuilder(FIVE, clock=12.0)
    b.cut(3, "left wing", when=(Trigger(Hold.AT_CLOCK, seconds=8.0),))
    b.cut(2, "right corner")
    b.cut(2, "right slot", when=(Trigger(Hold.AT_CLOCK, seconds=11.5),))
    main, _ = timed(b)
    near(main.timed["a1"].start, 4.0)
    near(main.timed["a3"].late, main.timed["a2"].end - 0.5)


def test_at_once_waits_for_no_screen():
    def made(*when):
        b = BranchBuilder({1: "top", 2: "right corner", 3: "left block", 4: "left elbow", 5: "right block"})
        b.screen(4, 3, at=(-2.0, 3.9)), b.cut(3, "top", off=4, when=when)
        return timed(b)[0].timed["a2"].start

    assert made() > 0.5 and made(Trigger(Hold.AT_ONCE)) == 0.0


def test_phase_opens_when_the_ball_is_there_and_screens_are_used():
    b = BranchBuilder({1: "top", 2: "right wing", 3: "left block", 4: "left elbow", 5: "right block"})
    b.pass_(1, 2), b.screen(4, 3, at=(-2.0, 3.9)), b.cut(3, "top", off=4), b.cut(5, "left corner")
    b.phase("Two")
    b.pass_(2, 3)
    main, _ = timed(b)
    near(main.phases[1].opens, max(main.timed["a1"].end, main.timed["a3"].instants[Instant.USE]))
    assert main.timed["a4"].end > main.phases[1].opens  # a late mover carries over


def test_phase_without_ball_or_screen_waits_for_its_moves_and_one_set_ahead_for_the_set():
    b = BranchBuilder(FIVE)
    b.cut(3, "left wing"), b.cut(5, "left block")
    b.phase("Two")
    b.screen(4, 3, at=(-4.2, 5.4))
    b.phase("Three")
    b.cut(3, "top", off=4)
    main, _ = timed(b)
    near(main.phases[1].opens, max(main.timed["a1"].end, main.timed["a2"].end))
    near(main.phases[2].opens, main.timed["a3"].instants[Instant.SET])


def test_phase_opening_by_an_event():
    b = BranchBuilder(FIVE)
    b.dribble(1, "right slot")
    b.phase("Two", opening=mark("a1", Instant.HALFWAY))
    b.cut(3, "left wing")
    main, _ = timed(b)
    near(main.phases[1].opens, main.timed["a1"].instants[Instant.HALFWAY])


# -- waiting -----------------------------------------------------------------------------------------------


def test_cutter_off_a_screen_waits_for_the_ball_but_no_longer_than_the_cap():
    def made(dribble):
        b = BranchBuilder({1: "top", 2: "right corner", 3: "left block", 4: "left elbow", 5: "right block"})
        b.screen(4, 3, at=(-2.0, 3.9)), b.cut(3, "left slot", off=4)
        b.dribble(1, dribble), b.pass_(1, 3)
        main, _ = timed(b)
        return main.timed["a4"].end - main.timed["a2"].end, main.timed["a2"].start - main.timed["a1"].instants[Instant.SET]

    waits, _ = made("right slot")
    near(waits, 0.0, 0.051)
    waits, start = made((7.0, 6.0))
    assert waits > 0.2
    unheld = timed(_without_ball())[0].timed["a2"].start - timed(_without_ball())[0].timed["a1"].instants[Instant.SET]
    near(start - unheld, 0.8, 1e-6)


def _without_ball():
    b = BranchBuilder({1: "top", 2: "right corner", 3: "left block", 4: "left elbow", 5: "right block"})
    b.screen(4, 3, at=(-2.0, 3.9)), b.cut(3, "left slot", off=4)
    return b


def test_waiting_makes_nothing_else_later():
    b = BranchBuilder({1: "top", 2: "right corner", 3: "left block", 4: "left elbow", 5: "right block"})
    b.screen(4, 3, at=(-2.0, 3.9)), b.cut(3, "left slot", off=4)
    b.cut(4, "left block")
    b.dribble(1, (7.0, 6.0)), b.pass_(1, 3)
    main, _ = timed(b)
    held = main.timed["a2"].instants[Instant.USE] + PACE.screen_hold
    near(main.timed["a3"].start, held)
    near(main.timed["a2"].instants[Instant.USE], main.timed["a1"].instants[Instant.SET])


# -- joined moves, groups of screens, hard floors -----------------------------------------------------------


def test_joined_moves_are_one_run():
    def made(joined):
        b = BranchBuilder(FIVE)
        b.cut(3, "left wing"), b.cut(3, "left slot", joined=joined)
        return timed(b)[0]

    one, two = made(True), made(False)
    assert 0.5 <= two.duration - one.duration <= 1.2
    middle = one.timed["a2"].start
    near(one.timed["a1"].end, middle)
    velocity = one.velocity(3, middle)
    assert velocity.x**2 + velocity.y**2 > 4.0
    assert one.position(3, middle).distance(spot("left wing")) < 0.5
    parts = one.timed["a1"].route.length + one.timed["a2"].route.length
    near(parts, one.schedule.courses.of("a1").curve.length, 1e-6)


def test_stagger_is_passed_in_order_double_as_one_elevator_through_the_middle():
    def made(kind, places):
        b = BranchBuilder({1: "top", 2: "right corner", 3: "left corner", 4: "left elbow", 5: "left block"})
        b.screen(5, 3, at=places[0], group="g", group_kind=kind), b.screen(4, 3, at=places[1], group="g", group_kind=kind)
        b.cut(3, "top" if kind != "elevator" else (0.0, 8.9), off=(5, 4))
        main, said = timed(b)
        assert said == ()
        return main.timed["a3"], main

    stagger, main = made("stagger", ((-4.6, 3.4), (-2.4, 5.6)))
    assert stagger.uses[0].s_use < stagger.uses[1].s_use
    for use in stagger.uses:
        assert main.schedule.courses.of("a3").curve.nearest(use.place)[1] >= 0.64
    near(stagger.instants[Instant.CLEAR], main.schedule.net.times[main.schedule.start["a3"]] + main.schedule.courses.of("a3").map.time_at(stagger.uses[1].s_clear))
    double, main = made("double", ((-3.9, 4.2), (-3.4, 4.7)))
    assert len({u.g for u in double.uses}) == 1
    for use in double.uses:
        assert main.schedule.courses.of("a3").curve.nearest(use.place)[1] >= 0.64
    gate, main = made("elevator", ((-2.9, 5.9), (-2.0, 5.0)))
    for use in gate.uses:
        near(main.schedule.courses.of("a3").curve.nearest(use.place)[1], 0.636, 0.02)


def test_elevator_doors_shut_behind_the_user_unless_a_screener_has_more_to_do():
    def gate(more: bool):
        b = BranchBuilder({1: "top", 2: "right corner", 3: "left corner", 4: "left elbow", 5: "left block"})
        b.screen(5, 3, at=(-2.9, 5.9), group="g", group_kind="elevator"), b.screen(4, 3, at=(-2.0, 5.0), group="g", group_kind="elevator")
        b.cut(3, (0.0, 8.9), off=(5, 4))
        if more:
            b.cut(5, "left corner")
        main, _ = timed(b)
        through = main.timed["a3"].instants[Instant.CLEAR]
        return [main.position(4, t).distance(main.position(5, t)) for t in (through, main.duration)]

    before, after = gate(False)
    assert before > 1.2 and after == pytest.approx(0.65, abs=0.01)  # shoulder to shoulder
    assert gate(True)[1] > before


def test_throw_in_and_step_in():
    b = BranchBuilder({1: "top", 2: "right elbow", 3: "baseline out of bounds", 4: "right block", 5: "left block"}, holder=3)
    b.screen(4, 2, at="right mid-post"), b.cut(2, "right corner", off=4), b.pass_(3, 2)
    b.cut(3, "left corner")
    main, said = timed(b)
    assert said == () and main.ball(0.0).holder == 3
    near(main.timed["a4"].start, main.timed["a3"].start + PACE.passer_leaves)
    assert main.position(3, main.duration).y > 0


def test_full_court():
    b = BranchBuilder({1: (2.0, 26.0), 2: (-5.0, 20.0), 3: (6.0, 16.0), 4: (0.0, 14.0), 5: (-2.0, 24.0)}, holder=5)
    b.pass_(5, 1, kind=PassKind.OUTLET), b.dribble(1, "top", effort=0.8), b.cut(3, "right corner", effort=1.0), b.pass_(1, 3), b.shoot(3)
    main, said = timed(b)
    assert said == () and 4.0 < main.duration < 12.0
    for body in range(1, 6):
        assert abs(main.defender(body, 1.0).x) < 8.0


def test_every_number_has_a_mark_and_a_source():
    for values, marked, source in BY_PACE.values():
        assert len(values) == 4 and marked in ("usual", "assumed", "measured", "derived") and source
    for _, marked, source in FIXED.values():
        assert marked in ("usual", "assumed", "measured", "derived") and source
    assert all(PACE.flight_speed(kind) > 0 for kind in _Kind)
    lines = Path(inspect.getsourcefile(pace_of)).read_text(encoding="utf-8").splitlines()
    numbers = [line for line in lines if re.match(r"[A-Z][A-Z_, ]* = \(*\d", line)]
    assert len(numbers) > 30
    assert [n for n in numbers if not re.search(r"# .*(measured|derived|assumed|usual|timeline\.md|language\.md)", n)] == []


# Not about people: how finely is counted, and how far a picture of a coverage is shown (timeline.md 5.5, 5.6).
COUNTING = {"RATE", "AFTER", "FINE", "ROUNDS", "TURN", "LONGEST", "TICK", "GHOST_TICK", "LIFTED", "SMALL", "NEARLY", "FAR", "GENTLE",
            "SHOWN_BEFORE", "APART", "ENOUGH", "LOOK_ON", "SAME", "SUBSTEPS", "FIRST_ROUNDS"}


def test_numbers_about_people_stand_in_the_one_file():
    folder = Path(inspect.getsourcefile(pace_of)).parent
    found = {
        match.group(1) for path in folder.glob("*.py") if path.name != "parameters.py"
        for match in re.finditer(r"^([A-Z_]+)[A-Z_, ]* = [\dp(]+[\d.]", path.read_text(encoding="utf-8"), re.MULTILINE)
    }
    assert found <= COUNTING, found - COUNTING


def test_the_seconds_and_metres_that_the_rules_name():
    """timeline.md 3.1 and 3.3, language.md 8.3 and 8.5, by the numbers printed there: within 0.3 m he has arrived, a passer
    leaves 0.1 s after his release, `as` may be half a second late."""
    b = BranchBuilder({1: "top", 2: "right wing", 3: "left corner", 4: "left wing", 5: "right block"})
    b.pass_(1, 2)
    b.cut(1, "nail")
    main, _ = timed(b)
    release, cut = main.timed["a1"].instants[Instant.RELEASE], main.timed["a2"]
    assert cut.start == pytest.approx(release + 0.1)
    assert main.position(1, cut.instants[Instant.ARRIVE]).distance(main.position(1, cut.end)) == pytest.approx(0.3, abs=1e-6)
    assert (LATE, CLEAR_BY, OFF_THE_WAY, STEP_IN_VIEW, STEP_BEHIND) == (0.5, 0.6, 2.0, 0.6, 0.9)  # 1.7, 1.9, 1.10
