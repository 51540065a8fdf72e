"""Half-court sets told in practice talk: what the floor shows is what the words mean.

The sets are common practice of the trade, no source; each test names what must be seen.
"""

from __future__ import annotations

import pytest

from generator.model.court import Point
from generator.model.settled import HandOff, Instant, Move, Pass, Screen, Shot
from generator.settling import settle
from tests.settling_case import AS_WRITTEN, book_of
from tests.test_reach_unseen import COURT, acts, branch_of, named, play, played

RIM = Point(0.0, COURT.rim)


def passes(branch) -> list[tuple[int, int]]:
    return [(a.player, a.receiver) for a in branch.actions if isinstance(a, (Pass, HandOff))]


def refused(do: list[str], start: str) -> str:
    book = book_of({"a.yml": play(do, start)})
    return " / ".join(d.message for d in settle(book.play("Test"), book, AS_WRITTEN)[1] if d.severity.value == "error")


FLOPPY = """play: Test
start: {1: top with the ball, 2: front of the rim, 3: left block, 4: left mid-post, 5: right mid-post}
phases:
  - name: Pick a side
    do:
      - 5 pin-downs for 2 at the right block
      - 4 screens down for 3
      - 1 dribbles to right slot
      - 2 comes off 5's pin-down to the right wing
      - 3 pops out off 4 to the left wing
      - 1 hits 2 coming off the screen
    reads:
      - who: 2
        watch: X2 on 5's screen
        answers:
          trail: [2 curls tight, 1 passes to 2 on the move, 2 lays it in]
          otherwise: [2 catches and shoots]
"""


def test_floppy_gives_each_of_two_cutters_his_own_screen():
    times, _ = played(FLOPPY)
    main = times.settled.main
    assert [(a.player, a.freed) for a in main.actions if isinstance(a, Screen)] == [(5, (2,)), (4, (3,))]
    uses = {a.player: [u.screener for u in a.uses] for a in main.actions if isinstance(a, Move) and a.uses}
    assert uses == {2: [5], 3: [4]} and passes(main) == [(1, 2)]
    assert named(main.phases[-1].end_plan[2]) == "right wing" and main.scorer == 2
    trailed = times.timelines[branch_of(times, "X2 trails").key]
    assert trailed.position(2, trailed.duration).distance(RIM) < 2.2


HORNS = "{1: top with the ball, 2: left wing, 3: right corner, 4: left elbow, 5: right elbow}"


def test_who_stands_on_the_cutters_way_screens_there_and_nobody_crosses_the_lane_for_it():
    times, said = played(play(["4 and 5 stagger for 2", "2 cuts over the top of 4 and 5 to right wing", "1 passes to 2", "2 shoots"], HORNS))
    main = times.settled.main
    assert [named(a.end) for a in main.actions if isinstance(a, Screen)] == ["left elbow", "right elbow"]
    cut = acts(main, 2)[0]
    assert [(u.screener, u.words) for u in cut.uses] == [(4, "over"), (5, "over")]
    highest = max(times.main.position(2, t / 20).y for t in range(80))
    assert highest > COURT.free_throw_line + 0.3 and not [d for d in said if d.rule == "collision"]


def test_two_who_stand_on_both_blocks_screen_each_on_his_block():
    do = ["5 and 4 set baseline screens for 2", "2 loops under 5 and 4 to the left wing", "1 passes to 2 for three"]
    times, _ = played(play(do, "{1: top with the ball, 2: right wing, 3: left corner, 4: left block, 5: right block}"))
    assert [named(a.end) for a in times.settled.main.actions if isinstance(a, Screen)] == ["right block", "left block"]
    assert min(times.main.position(2, t / 20).y for t in range(100)) < COURT.block_middle + 1.0
    assert [a.player for a in times.settled.main.actions if isinstance(a, Shot)] == [2]


@pytest.mark.parametrize("order", ["4 then 5", "5 then 4"])
def test_a_stagger_stands_in_the_order_it_is_met_in(order):
    times, _ = played(play(["4 and 5 stagger for 2", f"2 cuts off {order} to top", "1 passes to 2", "2 shoots"],
                           "{1: left wing with the ball, 2: right corner, 3: left corner, 4: right wing, 5: right elbow}"))
    cut = next(t for t in times.main.timed.values() if t.action.verb == "cut")
    first, second = cut.uses
    assert f"{first.screener} then {second.screener}" == order
    assert second.place.distance(cut.action.end) < first.place.distance(cut.action.end) - 1
    assert cut.route.length < 1.15 * times.settled.main.start[2].distance(cut.action.end)


BACK_SIDE = """play: Test
start: {1: deep top with the ball, 2: middle of the lane, 3: right corner, 4: left corner, 5: nail}
phases:
  - name: Pick and one behind
    do:
      - 5 comes up and sets a high ball screen for 1
      - 1 comes off 5 to the right elbow
      - 2 back screens 5's man at the nail as 1 uses the screen
      - 5 rolls hard to the rim off 2
      - 2 pops to the top
    reads:
      - who: 1
        watch: X5 and X2
        answers:
          switch: [1 throws a lob to 5, 5 dunks it]
          otherwise: [1 kicks it out to 2, 2 shoots the three]
"""


def test_the_passer_reads_both_men_of_the_back_screen_at_that_screen():
    times, _ = played(BACK_SIDE)
    main = times.main
    screen = next(t for t in main.timed.values() if isinstance(t.action, Screen) and t.action.player == 2)
    dribble = next(t for t in main.timed.values() if t.action.player == 1 and isinstance(t.action, Move))
    throw = next(t for t in main.timed.values() if isinstance(t.action, Pass))
    assert dribble.action.with_ball and [u.screener for u in dribble.action.uses] == [5]
    assert main.position(1, throw.start).distance(dribble.action.end) < 0.5
    assert throw.start > screen.instants[Instant.SET] and times.settled.main.scorer == 2
    assert branch_of(times, "X5 and X2 switch").scorer == 5


HELP = """play: Test
start: {1: top with the ball, 2: right corner, 3: left wing, 4: left dunker spot, 5: right elbow}
phases:
  - name: Pick
    do: [5 sprints into a ball screen for 1, 1 turns the corner off 5, 5 rolls]
    reads:
      - {who: 1, watch: X4, answers: {help: [1 drops it off to 4, 4 dunks it], otherwise: [1 finishes at the rim]}}
"""


@pytest.mark.parametrize("text", [HELP, HELP.replace("5 sprints into a ball screen for 1, 1 turns the corner off 5, 5 rolls", "1 drives middle")])
def test_a_driver_reads_the_help_in_the_lane_and_not_before_his_screen(text):
    times, _ = played(text)
    shot = next(t for t in times.main.timed.values() if isinstance(t.action, Shot))
    assert shot.action.player == 1 and times.main.position(1, shot.start).distance(RIM) < 1.2
    helped = times.timelines[branch_of(times, "X4 helps").key]
    given = next(t for t in helped.timed.values() if isinstance(t.action, Pass))
    at = helped.position(1, given.start)
    assert given.action.receiver == 4 and 1.5 < at.distance(RIM) and at.y < COURT.free_throw_line + 0.3


ZOOM = """play: Test
start: {1: right slot with the ball, 2: left corner, 3: right corner, 4: left mid-post, 5: top}
phases:
  - name: Pin-down into a hand-off
    do:
      - 1 passes to 5 and clears to the right wing
      - 4 pins down for 2
      - 2 comes off the pindown to the left slot
      - 2 takes the handoff from 5 and drives to the rim
      - 5 rolls
    reads:
      - who: 2
        watch: X2
        when: as 5 hands off
        answers:
          go under: [2 shoots behind the screen]
          otherwise: [2 finishes at the rim]
"""


def test_a_hand_off_taken_is_a_hand_off_given_and_the_drive_goes_on_to_the_rim():
    times, _ = played(ZOOM)
    main = times.settled.main
    assert passes(main) == [(1, 5), (5, 2)]
    assert [u.screener for u in acts(main, 2)[0].uses] == [4]
    shot = next(t for t in times.main.timed.values() if isinstance(t.action, Shot))
    assert shot.action.player == 2 and times.main.position(2, shot.start).distance(RIM) < 1.5
    under = times.timelines[branch_of(times, "X2 goes under").key]
    assert under.position(2, under.duration).distance(RIM) > 5


def test_a_screen_that_is_got_is_a_screen_that_is_set():
    times, _ = played(play(["5 gets a cross screen from 3 at left block", "5 cuts off the screen to right block", "1 feeds 5 in the post, 5 scores"],
                           "{1: right wing with the ball, 2: top, 3: right block, 4: left wing, 5: left block}"))
    main = times.settled.main
    screen = next(a for a in main.actions if isinstance(a, Screen))
    assert (screen.player, screen.freed, screen.kind) == (3, (5,), "cross") and [u.screener for u in acts(main, 5)[0].uses] == [3]
    assert passes(main) == [(1, 5)] and main.scorer == 5


def test_the_one_who_screened_is_picked_in_turn():
    times, _ = played(play(["3 cross screens for 5", "5 cuts to right block", "4 picks the picker", "3 comes off 4's pick to the top",
                            "1 hits 3 for three"],
                           "{1: right wing with the ball, 2: left wing, 3: right block, 4: nail, 5: left block}"))
    main = times.settled.main
    assert [(a.player, a.freed) for a in main.actions if isinstance(a, Screen)] == [(3, (5,)), (4, (3,))]
    assert named(main.phases[-1].end_plan[3]) == "top" and main.scorer == 3


def test_two_sentences_in_a_line_are_two_lines_and_a_way_without_a_place_belongs_to_the_next_verb():
    times, _ = played(play(["5 ball screens for 1", "1 comes off 5 and attacks the rim", "5 rolls and 4 pops to the top, 3 drifts to the corner",
                            "1 finishes"], "{1: right slot with the ball, 2: right corner, 3: left wing, 4: left elbow, 5: right elbow}"))
    main = times.settled.main
    (drive,) = acts(main, 1)
    assert (drive.verb, [u.screener for u in drive.uses], drive.place.spot) == ("drive", [5], "rim")
    end = main.phases[-1].end_plan
    assert (named(end[4]), named(end[3])) == ("top", "left corner") and [a.text for a in acts(main, 4)] == ["4 pops to the top"]


def test_a_jumper_at_a_place_is_dribbled_to_and_a_drive_stops_there():
    start = "{1: top with the ball, 2: right wing, 3: left corner, 4: right block, 5: left block}"
    times, _ = played(play(["1 drives and pulls up at the right elbow"], start))
    assert [a.verb for a in acts(times.settled.main, 1)] == ["drive"] and named(times.settled.main.phases[-1].end_plan[1]) == "right elbow"
    times, _ = played(play(["1 passes to 2", "2 pulls up at the elbow for the jumper"], start))
    assert [a.verb for a in acts(times.settled.main, 2)] == ["dribble"] and named(times.settled.main.phases[-1].end_plan[2]) == "right elbow"


def test_a_spot_without_its_side_is_the_receivers_and_the_drifters_own():
    times, _ = played(play(["1 passes to 2 on the wing", "3 drifts to the corner", "1 dribble hand-offs to 5"][:2],
                           "{1: top with the ball, 2: right wing, 3: left wing, 4: right block, 5: left block}"))
    end = times.settled.main.phases[-1].end_plan
    assert (named(end[2]), named(end[3])) == ("right wing", "left corner")


def test_the_sideline_is_the_one_of_his_own_half():
    times, _ = played(play(["1 dribbles up the sideline to right wing"], "{1: half court right with the ball, 2: top, 3: left wing, 4: right block, 5: left block}"))
    assert acts(times.settled.main, 1)[0].ways == ("along-right-sideline",)
    assert max(times.main.position(1, t / 20).x for t in range(60)) > 6


def test_a_step_toward_the_ball_is_a_step():
    times, _ = played(play(["2 steps toward the ball", "1 passes to 2"], "{1: top with the ball, 2: right wing, 3: left wing, 4: right block, 5: left block}"))
    main = times.settled.main
    assert 0.3 < main.start[2].distance(main.phases[-1].end_plan[2]) < 1.5


RAM = """play: Test
start: {1: right wing with the ball, 2: top, 3: left corner, 4: left wing, 5: right block}
phases:
  - name: Ram
    do:
      - 2 sets a ram screen for 5
      - 5 comes off 2 and sprints into a ball screen for 1
      - 1 uses the ball screen and gets into the lane
      - 5 rolls hard
"""


def test_who_comes_off_a_screen_to_set_one_uses_the_first_and_sets_the_second():
    main = played(RAM)[0].settled.main
    first, second = (a for a in main.actions if isinstance(a, Screen))
    assert (first.player, first.freed, second.player, second.freed, second.kind) == (2, (5,), 5, (1,), "ball")
    walk, drive = acts(main, 5)[0], acts(main, 1)[0]
    assert [u.screener for u in walk.uses] == [2] and walk.end.distance(main.start[1]) < 2.5
    assert [u.screener for u in drive.uses] == [5] and "hard" in second.manners


def test_then_after_a_screen_waits_until_it_is_set_and_not_for_its_own_user():
    times, _ = played(play(["5 screens for 3, then 3 cuts off 5 to left wing", "1 passes to 3 then 3 shoots"],
                           "{1: top with the ball, 2: right corner, 3: left corner, 4: right wing, 5: left block}"))
    timed = times.main.timed.values()
    screen = next(t for t in timed if isinstance(t.action, Screen))
    cut = next(t for t in timed if t.action.player == 3 and isinstance(t.action, Move))
    assert abs(cut.start - screen.instants[Instant.SET]) < 0.05 and times.settled.main.scorer == 3


def test_a_hand_off_may_be_taken_in_the_middle_of_a_line():
    main = played(play(["1 hits 5 at the elbow", "2 comes up to the right wing and takes the handoff from 5 then drives to the rim", "5 rolls"],
                       "{1: top with the ball, 2: right corner, 3: left corner, 4: left elbow, 5: right elbow}"))[0].settled.main
    assert passes(main) == [(1, 5), (5, 2)]
    assert named(acts(main, 2)[0].end) == "right wing" and acts(main, 2)[-1].verb == "drive"


IN_BOUNDS = """play: Test
situation: baseline out of bounds
start: {3: baseline out of bounds right with the ball, 4: right block, 5: right elbow, 2: left block, 1: left slot}
phases:
  - {name: In, do: [4 screens for 2, 2 cuts off 4 to right corner, 5 dives, 1 cuts to deep top, 3 looks for 2 then 5 then 1, 3 steps in to left corner]}
"""


def test_the_inbounder_who_has_looked_steps_in_after_his_pass_in_every_branch():
    times, _ = played(IN_BOUNDS)
    assert len(times.settled.branches) == 3
    for branch in times.settled.branches:
        timeline = times.timelines[branch.key]
        thrown = next(t for t in timeline.timed.values() if isinstance(t.action, Pass))
        steps = next(t for t in timeline.timed.values() if t.action.verb == "step-in")
        assert steps.start >= thrown.start and named(branch.phases[-1].end_plan[3]) == "left corner"


@pytest.mark.parametrize("line, message", [
    ("3 cuts off the pick to left wing", "nobody screens for 3"),
    ("1 passes to 5 on the roll", "5 is not under way here"),
    ("1 feeds 2 in the post", "2 is not inside"),
    ("1 looks for 2 on the left block", "2 is not at left block"),
    ("1 shoots at left wing", "1 shoots at left wing, but he is at top"),
])
def test_what_the_words_claim_must_be_so(line, message):
    assert message in refused([line], "{1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}")
