"""Sets that no book of ours holds, as coaches say them: what the floor shows is what the words mean.

The sets are common practice of the trade, no source; each test names what must be seen.
"""

from __future__ import annotations

from functools import cache

from generator.checks.ghost_contact import CONTACT
from generator.model.court import FOOT, Point, RuleSet, court_for
from generator.model.settled import HandOff, Instant, Move, Pass, Screen, Shot
from generator.model.spots import name_place
from generator.pipeline import compute
from tests.settling_case import book_of

COURT = court_for(RuleSet.INTERNATIONAL)
STARTS = {
    "horns": "{1: top with the ball, 2: right corner, 3: left corner, 4: left elbow, 5: right elbow}",
    "four out": "{1: left slot with the ball, 2: right slot, 3: left wing, 4: right wing, 5: left block}",
}


@cache
def played(text: str):
    """The play with its timelines, and what was said about it."""
    done = compute(book_of({"a.yml": text}))
    assert not [d for d in done.diagnostics if d.severity.value == "error"], done.diagnostics
    return done.plays[0], done.diagnostics


def play(do: list[str], start: str, head: str = "", after: str = "") -> str:
    lines = "".join(f"      - {line}\n" for line in do)
    return f"play: Test\n{head}start: {STARTS.get(start, start)}\nphases:\n  - name: One\n    do:\n{lines}{after}"


def named(point: Point) -> str:
    return name_place(COURT, point).words


def acts(branch, player: int, kind=Move):
    return [a for a in branch.actions if a.player == player and isinstance(a, kind)]


def branch_of(times, name: str):
    return next(b for b in times.settled.branches if b.name == name)


PISTOL = play(
    ["1 dribbles at 2", "1 hands off to 2", "1 cuts to left corner", "4 step-up screens for 2 at left slot on the right side",
     "2 drives off 4 to right elbow", "5 clears to right dunker spot", "4 pops to left slot", "2 looks for 4 then 5 then 3"],
    "{1: deep left slot with the ball on the run, 2: left wing, 3: right corner, 4: deep right slot, 5: rim}")


def test_a_look_at_one_who_has_long_arrived_waits_for_the_readers_own_drive():
    times, said = played(PISTOL)
    line = times.timelines[branch_of(times, "5 is open").key]
    drive = next(t for t in line.timed.values() if t.action.player == 2 and t.action.verb == "drive")
    throw = next(t for t in line.timed.values() if isinstance(t.action, Pass) and t.action.receiver == 5)
    assert throw.start >= drive.end - 1e-6 and drive.cut_at is None
    assert line.position(2, throw.start).distance(drive.action.end) < 0.05
    assert not [d for d in said if d.rule == "long-pass" and "to 5" in d.message]


def test_a_look_at_one_who_arrives_during_the_drive_cuts_it_short_but_not_before_the_screen():
    times, _ = played(PISTOL)
    line = times.timelines[branch_of(times, "4 is open").key]
    drive = next(t for t in line.timed.values() if t.action.verb == "drive")
    main = next(t for t in times.main.timed.values() if t.action.verb == "drive")
    assert main.instants[Instant.CLEAR] <= drive.cut_at < main.end


def test_who_looks_out_of_a_drive_stops_at_the_lane_edge():
    times, _ = played(play(["5 ball screens for 1 at right slot", "1 drives off 5", "5 rolls", "1 looks for 5 then 2"], "horns"))
    drive = acts(times.settled.main, 1)[0]
    assert drive.place.words == "right lane edge" and acts(times.settled.main, 5)[0].place.spot == "rim"


def test_the_next_phase_waits_until_the_cutter_has_been_looked_at():
    text = play(["1 passes to 2", "1 cuts off 5 to ball-side block", "2 looks for 1"],
                "{1: top with the ball, 2: right wing, 3: left wing, 4: left block, 5: right elbow}",
                after="  - {name: Two, do: [5 pops to top, 2 passes to 5]}\n")
    times, said = played(text)
    cut = next(t for t in times.main.timed.values() if t.action.verb == "cut")
    assert times.main.phases[1].opens >= cut.instants[Instant.ARRIVE] - 1e-6
    assert not [d for d in said if d.rule == "late-read"]


def test_a_screen_on_a_named_defender_of_a_zone_stands_at_him():
    times, _ = played(play(
        ["4 screens the low left defender for 2", "2 cuts to left corner", "3 inbounds to 2", "2 shoots"],
        "{1: top, 2: right wing, 3: left baseline out of bounds with the ball, 4: left block, 5: right block}",
        "situation: baseline out of bounds\nagainst: zone 2-3\n"))
    screen = acts(times.settled.main, 4, Screen)[0]
    area = times.main.defender(3, 0.0)
    assert screen.freed == (2,) and screen.on == (3,) and screen.end.x < 0
    assert screen.end.distance(area) < 3 and screen.end.distance(screen.origin) < 3


def test_a_screen_on_another_mans_defender_frees_only_the_player_named():
    times, _ = played(play(["4 screens X3 for 2", "2 cuts off 4 to left wing"], "horns"))
    screen = acts(times.settled.main, 4, Screen)[0]
    assert (screen.freed, screen.on) == ((2,), (3,))
    assert screen.end.distance(Point(*times.settled.main.start[3])) < 3


def test_two_who_stand_close_are_a_gate_and_close_it_behind_the_cutter():
    times, _ = played(play(
        ["1 cuts between 4 and 5 to top", "4 and 5 close", "2 passes to 1", "1 shoots"],
        "{1: left block, 2: left sideline out of bounds with the ball, 3: right wing, 4: left elbow, 5: nail}"))
    cut = acts(times.settled.main, 1)[0]
    assert [(u.screener, u.words) for u in cut.uses] == [(4, "between"), (5, "between")]
    close = [times.main.timed[a.key] for p in (4, 5) for a in acts(times.settled.main, p)]
    assert min(t.start for t in close) >= times.main.timed[cut.key].instants[Instant.CLEAR] - 1e-6
    assert close[0].action.end.distance(close[1].action.end) < 0.7


def test_the_inbounder_steps_in_where_nobody_stands():
    times, _ = played(play(
        ["1 cross screens for 2", "2 cuts off 1 to short-side corner", "4 pops to top", "3 passes to 2", "3 steps in"],
        "{1: right block, 2: left block, 3: right baseline out of bounds with the ball, 4: right elbow, 5: left elbow}"))
    end = times.settled.main.phases[-1].end_plan
    assert named(end[2]) == "right corner" and named(end[3]) == "right wing"


RULES = """play: Test
start: {1: left slot with the ball, 2: right slot, 3: left wing, 4: right wing, 5: left block}
rules:
  - when: anyone passes
    do: [passer cuts to rim, passer clears to open corner, everyone else fills up]
phases:
  - {name: One, do: [1 passes to 2]}
  - {name: Two, do: [2 passes to 4]}
"""


def test_a_rules_second_line_for_a_player_follows_his_first_and_nobody_is_late():
    times, said = played(RULES)
    first, second = acts(times.settled.main, 1)[:2]
    assert (first.verb, second.verb) == ("cut", "clear") and first.triggers and not second.triggers
    assert not [d for d in said if d.rule == "deadline"]


def test_the_post_player_stays_inside_when_everyone_else_fills_up():
    times, _ = played(RULES)
    end = times.settled.main.phases[-1].end_plan
    assert named(end[5]) == "left block" and named(end[3]) == "right slot"


def test_the_giver_of_a_hand_off_rolls_as_the_receiver_turns_the_corner():
    times, _ = played(play(
        ["5 dribbles at 2", "5 hands off to 2", "5 rolls as 2 turns the corner", "2 drives middle", "2 looks for 5 then 3"],
        "{1: left corner, 2: right wing, 3: left wing, 4: right corner, 5: top with the ball}"))
    roll = next(t for t in times.main.timed.values() if t.action.verb == "roll")
    drive = next(t for t in times.main.timed.values() if t.action.verb == "drive")
    assert drive.start < roll.start < drive.end


def test_a_read_at_the_screen_comes_before_the_shot_of_the_same_line():
    after = """    reads:
      - who: 1
        watch: X5 on 5's screen
        answers:
          hedge: [5 slips to rim, 1 pocket passes to 5, 5 finishes]
          trap: [1 retreats, 5 short rolls, 1 passes to 5, 5 finishes]
          otherwise: go on
"""
    times, _ = played(play(["5 ball screens for 1 at right slot on the right", "1 dribbles off 5 to right elbow then pulls up"],
                           "{1: top with the ball, 2: left corner, 3: right corner, 4: left wing, 5: right elbow}", after=after))
    main, hedged = times.settled.main, branch_of(times, "X5 hedges")
    assert named(acts(main, 1, Shot)[0].end) == "right elbow"
    shots = [t for t in times.timelines[hedged.key].timed.values() if isinstance(t.action, Shot)]
    assert [t.action.player for t in shots] == [5]
    assert [a.receiver for a in acts(hedged, 1, Pass)] == [5] and hedged.scorer == 5


def test_the_nearest_defender_of_a_read_is_the_readers():
    after = """    reads:
      - {who: 5, watch: the nearest defender, answers: {sag: [5 shoots], otherwise: [5 passes to 4]}}
"""
    times, _ = played(play(["1 passes to 5"], "horns", after=after))
    assert times.settled.main.forks[0].watched == (5,)


def test_after_a_lost_tip_the_ball_is_theirs():
    text = play(["5 tips to 4"], "{1: circle at 6 o'clock, 2: circle at 10 o'clock, 3: circle at 2 o'clock, 4: circle at 8 o'clock, 5: center circle}",
                "situation: jump ball\n",
                "    reads:\n      - {who: 4, watch: ball, answers: {tip won: [4 passes to 1], tip lost: {do: [4 runs to left slot], go to: end}}}\n"
                "  - {name: Two, do: [1 dribbles to top]}\n")
    times, _ = played(text)
    lost = next(b for b in times.settled.branches if b.parent)
    assert named(acts(lost, 4)[0].end) == "left slot" and not acts(lost, 1)


def test_practice_talk_is_played_as_it_is_meant():
    times, _ = played(play(
        ["2 and 3 go to the wings", "1 dribble hand-off with 2", "1 empties out to the left corner", "5 sets a pick for 2",
         "2 drives off 5's screen", "5 pops back out to the right slot", "2 lays it up"],
        "{1: right slot with the ball, 2: right corner, 3: left corner, 4: left dunker spot, 5: right block}"))
    main = times.settled.main
    first = [named(a.end) for p in (2, 3) for a in acts(main, p)[:1]]
    assert first == ["right wing", "left wing"]
    assert acts(main, 1, HandOff)[0].receiver == 2 and named(acts(main, 1)[-1].end) == "left corner"
    drive = acts(main, 2)[-1]
    assert drive.verb == "drive" and [u.screener for u in drive.uses] == [5] and drive.place.spot == "rim"
    assert acts(main, 2, Shot) and named(acts(main, 5)[-1].end) == "right slot"
    assert acts(main, 2, Shot)[0].end.distance(Point(0.0, COURT.rim)) < 4 * FOOT


def test_allow_with_the_name_of_no_rule_is_an_error_with_the_nearest_name():
    text = play(["1 passes to 2"], "horns", "allow: {spacing: the crowd is the point}\n", "    allow: {long-pas: we practise it}\n")
    said = compute(book_of({"a.yml": text})).diagnostics
    wrong = [d for d in said if d.rule == "allow"]
    assert [(d.severity.value, d.location.line, d.hint) for d in wrong] == [("error", 8, "did you mean `long-pass`?")]
    assert "'long-pas'" in wrong[0].message


def test_a_ball_screen_on_the_right_stands_there_and_is_passed_there():
    for place in ("", " at top"):
        times, _ = played(play([f"5 sets a ball screen for 1{place} on the right", "1 drives off 5", "5 rolls", "1 hits 5", "5 finishes"],
                               "{1: top with the ball, 2: right corner, 3: left corner, 4: left wing, 5: right block}"))
        screen = acts(times.settled.main, 5, Screen)[0]
        drive = next(t for t in times.main.timed.values() if t.action.verb == "drive")
        assert screen.end.x > 0.5 and drive.uses[0].point.x > screen.end.x and drive.action.place.words == "right lane edge"


def test_a_screen_on_the_middle_side_is_passed_toward_the_middle():
    times, _ = played(play(["5 ball screens for 1 at right wing on the middle side", "1 drives off 5", "1 finishes"],
                           "{1: right wing with the ball, 2: top, 3: left corner, 4: left wing, 5: right block}"))
    drive = next(t for t in times.main.timed.values() if t.action.verb == "drive")
    screen = acts(times.settled.main, 5, Screen)[0]
    assert screen.end.x < times.settled.main.start[1].x and drive.uses[0].point.x < screen.end.x


def test_partners_of_a_dribble_hand_off_meet_half_way():
    times, _ = played(play(["1 dribble hand-off with 2", "2 drives", "2 lays it in"],
                           "{1: right slot with the ball, 2: right corner, 3: left corner, 4: left slot, 5: left block}"))
    start, give = times.settled.main.start, acts(times.settled.main, 1, HandOff)[0]
    assert abs(give.end.distance(start[1]) - give.end.distance(start[2])) < 0.1
    assert give.receiver_move is not None and give.kind == "dribble"


def test_the_screens_of_a_stagger_stand_on_the_users_way():
    times, _ = played(play(["4 and 5 set a staggered screen for 2", "2 cuts off 4 then 5 to top", "1 passes to 2", "2 shoots"],
                           "{1: left wing with the ball, 2: right corner, 3: left corner, 4: right wing, 5: right elbow}"))
    cut = next(t for t in times.main.timed.values() if t.action.verb == "cut")
    first, second = cut.uses
    end = cut.action.end
    assert (first.screener, second.screener) == (4, 5)
    assert second.place.distance(end) < first.place.distance(end) - 1 and second.place.y > first.place.y + 1
    assert cut.route.length < 1.1 * times.settled.main.start[2].distance(end)


def test_players_who_trade_places_pass_each_other():
    times, said = played(play(["4 and 2 exchange", "3 throws in to 2", "2 shoots"],
                              "{1: top, 2: left block, 3: right baseline out of bounds with the ball, 4: right block, 5: right elbow}"))
    end = times.settled.main.phases[-1].end_plan
    assert (named(end[2]), named(end[4])) == ("right block", "left block")
    assert min(times.main.position(2, t / 20).distance(times.main.position(4, t / 20)) for t in range(40)) > 0.7
    assert not [d for d in said if d.rule == "collision"]


def test_a_shallow_cut_goes_by_the_dribbler_on_the_rims_side():
    times, said = played(play(["1 dribbles toward 2", "2 shallow cuts underneath to the left wing", "1 reverses to 3", "3 shoots"],
                              "{1: left wing with the ball, 2: top, 3: right wing, 4: left corner, 5: right block}"))
    assert not [d for d in said if d.rule == "collision"]
    pairs = [(times.main.position(1, t / 20), times.main.position(2, t / 20)) for t in range(60)]
    one, two = min(pairs, key=lambda p: p[0].distance(p[1]))
    rim = Point(0.0, COURT.rim)
    assert two.distance(rim) < one.distance(rim)


def test_the_ball_pushed_up_the_middle_needs_no_side_and_goes_straight():
    times, _ = played(play(["1 pushes the ball up the middle to top", "5 rim runs", "1 passes to 2", "2 shoots"],
                           "{1: backcourt top with the ball, 2: right wing, 3: left corner, 4: left wing, 5: half court}"))
    push = next(t for t in times.main.timed.values() if t.action.verb == "dribble")
    assert push.route.length < 1.02 * push.action.origin.distance(push.action.end)


def test_a_rule_for_who_is_dribbled_at_or_when_the_ball_changes_sides_is_heeded():
    times, _ = played("""play: Test
start: {1: top with the ball, 2: right wing, 3: left wing, 4: right corner, 5: left corner}
rules:
  - {when: anyone is dribbled at, do: [he back cuts to rim, he clears to left dunker spot]}
  - {when: ball changes sides, do: [5 flashes to left elbow]}
phases:
  - {name: One, do: [1 dribbles at 2, 4 fills right wing]}
  - {name: Two, do: [1 passes to 4, 4 skip passes to 3, 3 shoots]}
""")
    cut, clear = acts(times.settled.main, 2)
    assert (cut.verb, clear.verb) == ("back-cut", "clear") and named(clear.end) == "left dunker spot"
    assert times.main.timed[cut.key].start < 0.5
    assert [named(a.end) for a in acts(times.settled.main, 5)] == ["left elbow"]


def test_a_rule_that_only_a_defender_sets_off_is_refused_and_never_passed_over():
    book = book_of({"a.yml": f"play: Test\nstart: {STARTS['horns']}\nrules:\n  - {{when: anyone is denied, do: [he back cuts]}}\n"
                             "phases:\n  - {name: One, do: [1 passes to 2]}\n"})
    said = compute(book).diagnostics
    assert [(d.rule, d.location.line) for d in said if d.severity.value == "error"] == [("not-yet", 4)]


def test_a_coverage_shared_by_two_defenders_is_the_pairs():
    after = """    reads:
      - who: 1
        watch: X1 and X5 on 5's screen
        answers:
          X5 drop back and X1 go over: [1 pulls up]
          X1 and X5 switch: [5 seals, 1 feeds 5, 5 scores]
          otherwise: [1 hits 5, 5 dunks]
"""
    times, _ = played(play(["5 picks for 1 at right slot", "1 drives off 5", "5 rolls"], "horns", after=after))
    sights = [[(s.one, s.coverage) for s in group] for a in times.settled.main.forks[0].read.answers for group in a.sights]
    assert sights[1] == [(None, "switch")] and [c for _, c in sights[0]] == ["drop", "over"]
    assert branch_of(times, "X1 and X5 switch").scorer == 5


def test_everyone_circles_the_way_the_driver_goes():
    times, _ = played(play(["1 drives right", "everyone else circles on the drive", "1 kicks out to 2", "2 shoots"],
                           "{1: top with the ball, 2: right wing, 3: left wing, 4: right corner, 5: left corner}"))
    end = times.settled.main.phases[-1].end_plan
    assert [named(end[p]) for p in (3, 5)] == ["left slot", "left wing"]


SLIP = """play: Test
start: {1: left slot with the ball, 2: right slot, 3: left block, 4: left elbow, 5: right block}
phases:
  - name: One
    do: [1 dribbles to top, 2 lifts to right wing, 5 clears to right short corner, 4 down screens for 3 at left mid-post, 3 cuts off 4 to left wing, 4 slips, 1 passes to 4 as 4 arrives, 4 finishes]
"""


def test_a_slip_leaves_without_contact():
    for rules in ("international", "college", "high school", "professional"):
        done = compute(book_of({"a.yml": SLIP, "team.yml": f"team: Oak\nrule set: {rules}\n"}))
        line = done.plays[0].main
        slip = next(t for t in line.timed.values() if t.action.verb == "slip")
        way = [slip.start + i * 0.05 for i in range(int((slip.end - slip.start) / 0.05))]
        near = [t for t in way if line.position(4, t).distance(line.position(4, slip.start)) < 1.5]
        assert min(line.position(4, t).distance(line.defender(3, t)) for t in near) > CONTACT  # he who chases 3 runs by
        assert not [d for d in done.diagnostics if d.rule == "ghost-contact"]


def nearest(line, first: int, second: int, since: float = 0.0) -> float:
    """The least distance of two players from second `since` on, in metres."""
    instants = [since + i * 0.05 for i in range(int((line.duration - since) / 0.05))]
    return min(line.position(first, t).distance(line.position(second, t)) for t in instants)


def test_the_two_of_a_hand_off_go_by_each_other():
    times, said = played(play(["1 hands off to 2 at left slot", "1 clears to left corner", "2 dribbles to top", "2 passes to 3", "3 shoots"],
                              "{1: left slot with the ball, 2: left wing, 3: right corner, 4: right elbow, 5: right block}"))
    line = times.main
    caught = next(t.instants[Instant.CATCH] for t in line.timed.values() if isinstance(t.action, HandOff))
    assert nearest(line, 1, 2, caught) > 0.6 and not [d for d in said if d.rule == "collision"]


def test_the_giver_does_not_run_through_a_receiver_who_shoots():
    times, _ = played(play(["2 hands off to 3 at left slot", "2 clears to left wing", "3 shoots"],
                           "{1: right wing, 2: left slot with the ball, 3: left wing, 4: left corner, 5: right corner}"))
    caught = next(t.instants[Instant.CATCH] for t in times.main.timed.values() if isinstance(t.action, HandOff))
    assert nearest(times.main, 2, 3, caught) > 0.6


REJECTED = play(
    ["5 side screens for 1", "1 drives off 5 middle", "5 rolls", "1 finishes"],
    "{1: right slot with the ball, 2: left wing, 3: left corner, 4: right corner, 5: right elbow}",
    after="    reads:\n      - {who: 1, watch: X1 and X5 on 5's screen, answers: {ice: [1 rejects off 5 to right block, 1 passes to 4, 4 shoots], otherwise: go on}}\n")


def test_driver_and_roller_finish_each_on_his_side_and_a_rejected_screener_is_not_run_through():
    times, _ = played(REJECTED)
    drive, roll = (next(a for a in acts(times.settled.main, p) if a.place.spot == "rim") for p in (1, 5))
    assert drive.end.distance(roll.end) > 0.75 and roll.end.x > drive.end.x
    rejected = times.timelines[branch_of(times, "X1 and X5 ice").key]
    assert nearest(times.main, 1, 5) > 0.6 and nearest(rejected, 1, 5) > 0.6


def test_a_curl_goes_between_the_screener_and_one_who_stands_beyond():
    times, _ = played(play(
        ["4 pin-down screens for 2 at left mid-post", "2 cuts off 4 to left wing"],
        "{1: right wing, 2: left corner, 3: right corner, 4: left block, 5: left elbow with the ball}",
        after="    reads:\n      - {who: 2, watch: X2 on 4's screen, answers: {trail: [2 curls to front of the rim, 5 passes to 2, 2 finishes], otherwise: go on}}\n"
              "  - {name: Two, do: [5 passes to 2, 2 shoots]}\n"))
    assert nearest(times.timelines[branch_of(times, "X2 trails").key], 2, 5) > 0.5


def test_any_movement_may_be_named_as_an_event_and_means_its_first_step():
    do = ["3 curls to front of the rim", "4 fades to right corner after 3 curls", "5 dives when 4 fades", "2 lifts as 5 cuts", "1 holds until 5 dives", "1 shoots"]
    times, _ = played(play(do, "{1: top with the ball, 2: left corner, 3: left wing, 4: right elbow, 5: right block}"))
    start = {t.action.player: t.start for t in times.main.timed.values() if isinstance(t.action, Move)}
    assert abs(start[4] - start[3] - 0.2) < 1e-6 and abs(start[5] - start[4]) < 1e-6 and abs(start[2] - start[5]) < 1e-6


def test_who_uses_somebodys_screen_cuts_off_him_and_a_v_cut_is_a_false_step_and_a_cut():
    times, _ = played(play(["5 down screens for 3 at left mid-post", "3 uses 5's screen to left wing", "2 v-cuts to right slot", "4 lifts as 3 uses 5's screen", "1 passes to 3", "3 shoots"],
                           "{1: top with the ball, 2: right wing, 3: left block, 4: right corner, 5: left elbow}"))
    cut, lift = acts(times.settled.main, 3)[0], acts(times.settled.main, 4)[0]
    assert [u.screener for u in cut.uses] == [5] and cut.place.words == "left wing"
    assert [a.verb for a in acts(times.settled.main, 2)] == ["set-up", "cut"]
    used = times.main.timed[cut.key].instants[Instant.USE]
    assert abs(times.main.timed[lift.key].start - used) < 1e-6


def test_a_lob_sends_a_standing_receiver_to_the_rim_unless_it_names_a_place():
    start = "{1: top with the ball, 2: right wing, 3: left corner, 4: left wing, 5: right elbow}"
    times, _ = played(play(["1 lobs to 4", "4 finishes"], start))
    line, lob = times.main, next(t for t in times.main.timed.values() if isinstance(t.action, Pass))
    assert acts(times.settled.main, 4)[0].verb == "dive" and line.position(4, lob.end).distance(Point(0.0, COURT.rim)) < 1.2
    named_one, _ = played(play(["1 lobs to 4 at left wing", "4 shoots"], start))
    assert not acts(named_one.settled.main, 4)


def test_who_goes_off_one_of_a_double_screen_goes_off_both():
    times, _ = played(play(["1 dribbles to left wing", "4 and 5 double screen for 2 at left mid-post", "2 cuts off 4 to left corner", "5 dives when 2 clears 5", "1 passes to 2", "2 shoots"],
                           "{1: top with the ball, 2: right block, 3: right corner, 4: left block, 5: left elbow}"))
    assert {u.screener for u in acts(times.settled.main, 2)[0].uses} == {4, 5}
    assert nearest(times.main, 2, 5) > 0.6 and nearest(times.main, 2, 4) > 0.6


def test_nobody_throws_a_look_over_half_a_floor():
    text = play(["2 runs to backcourt left corner", "1 looks for 2"], "four out")
    assert [d.rule for d in compute(book_of({"a.yml": text})).diagnostics if d.severity.value == "error"] == ["look-too-far"]


def test_the_same_two_may_exchange_twice():
    times, _ = played(play(["2 exchanges with 3", "2 exchanges with 3", "1 drives", "1 finishes"],
                           "{1: top with the ball, 2: right wing, 3: right corner, 4: left wing, 5: left corner}"))
    assert [a.place.words for a in acts(times.settled.main, 2)] == ["right corner", "right wing"]
    assert [a.place.words for a in acts(times.settled.main, 3)] == ["right wing", "right corner"]


def test_a_cutter_with_two_moves_is_looked_for_at_the_rim():
    text = play(["1 passes to 2", "1 dives then clears to left corner", "2 looks for 1"],
                "{1: top with the ball, 2: right wing, 3: left wing, 4: left block, 5: right elbow}", after="  - {name: Two, do: [2 drives, 2 finishes]}\n")
    times, _ = played(text)
    line = times.timelines[branch_of(times, "1 is open").key]
    throw = [t for t in line.timed.values() if isinstance(t.action, Pass)][-1]
    assert line.position(1, throw.end).distance(Point(0.0, COURT.rim)) < 2.5 and throw.end < 3.5
    assert acts(times.settled.main, 1)[-1].place.words == "left corner" and times.main.phases[1].opens > 2.0


def test_a_tip_is_read_as_it_is_tipped_and_a_lost_one_asks_for_nothing_more():
    text = """play: Test
situation: jump ball
start: {5: center circle, 1: circle at 6 o'clock, 2: circle at 9 o'clock, 3: circle at 3 o'clock, 4: circle at 12 o'clock}
phases:
  - name: Up
    do: [5 tips to 1, 2 sprints to left corner as ball is tossed, 3 sprints to right corner on the tip]
    reads:
      - {who: 5, watch: ball, answers: {tip won: [1 dribbles to top, 1 shoots], tip lost: [1 runs to nail, 2 runs to left slot, 3 runs to right slot]}}
"""
    times, said = played(text)
    assert times.main.fork_times[0] < 0.7
    assert not [d for d in said if d.rule == "open-answer"]


def test_a_close_out_is_read_on_the_catch_not_at_the_screen_before_it():
    times, _ = played(play(
        ["1 passes to 2", "5 screens the low right defender for 3 at right block", "3 cuts along the baseline to right corner", "2 passes to 3"],
        "{1: top with the ball, 2: right wing, 3: left wing, 4: nail, 5: right short corner}", head="against: zone 1-2-2\n",
        after="    reads:\n      - {who: 3, watch: the low right defender, answers: {close out: [3 drives, 3 finishes], otherwise: [3 shoots]}}\n"))
    caught = next(t.end for t in times.main.timed.values() if isinstance(t.action, Pass) and t.action.receiver == 3)
    assert abs(times.main.fork_times[0] - caught) < 0.05


def test_who_is_inside_stays_when_everyone_circles():
    times, _ = played(play(["1 passes to 2", "3 curls to front of the rim", "2 drives middle", "2 passes to 4", "4 shoots"],
                           "{1: top with the ball, 2: right slot, 3: left slot, 4: right corner, 5: left corner}",
                           head="rules:\n  - {when: anyone drives, do: [everyone else circles]}\n"))
    places = dict(times.settled.main.phases[0].end_plan)
    assert named(places[3]) == "front of the rim" and named(places[1]) == "left slot"
