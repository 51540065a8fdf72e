"""Who ends where: every verb's own end, places, sides, routes, screens (language.md sections 4 to 6)."""

from __future__ import annotations

import pytest

from generator.model.court import Point, RuleSet, court_for
from generator.model.settled import HandOff, Move, Pass, PassKind, Screen, Shot, Stand
from generator.model.spots import spot_point
from tests.settling_case import ends, settled

COURT = court_for(RuleSet.INTERNATIONAL)
FIVE_OUT = "{1: top with the ball, 2: left wing, 3: right wing, 4: left corner, 5: right corner}"
OUT = "{1: right baseline out of bounds with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}"


@pytest.mark.parametrize(("lines", "player", "place"), [
    (["3 lifts"], 3, "left wing"), (["2 drifts"], 2, "right corner"), (["4 pops"], 4, "right slot"),
    (["5 dives"], 5, "rim"), (["3 back cuts"], 3, "rim"), (["5 posts up"], 5, "left block"),
    (["1 passes to 2", "4 flashes"], 4, "right elbow"), (["1 dribbles to left wing", "4 flashes"], 4, "left elbow"),
    (["3 fades"], 3, "left corner"), (["2 fades"], 2, "right wing"), (["1 passes to 2", "1 flares"], 1, "left slot"),
    (["3 fills 2"], 3, "right wing"), (["2 exchanges with 3"], 3, "right wing"), (["2 exchanges with 3"], 2, "left corner"),
    (["5 screens for 3 at left mid-post", "5 short rolls"], 5, "nail"), (["5 screens for 3", "5 rolls"], 5, "rim"),
    (["1 dribbles to right wing", "1 snakes"], 1, "a step inside the left mid-post"),
    (["1 drives", "1 finishes"], 1, "rim"), (["4 cuts to where 2 was"], 4, "right wing"),
    (["3 lifts", "4 cuts to a step below where 3 is"], 4, "a step inside the left free-throw line extended"),
    (["4 cuts to opposite 3 corner"], 4, "right corner"), (["3 cuts to opposite wing"], 3, "right wing"),
    (["1 passes to 2", "5 cuts to ball-side block"], 5, "right block"), (["1 passes to 2", "4 cuts to weak-side elbow"], 4, "left elbow"),
    (["3 cuts to same-side wing"], 3, "left wing"), (["2 clears to left side"], 2, "left slot"),
    (["4 cuts to a step above left block"], 4, "a step below the left mid-post"), (["4 cuts to circle at 12 o'clock"], 4, "a step below half court"),
    (["3 cuts to between left wing and right wing"], 3, "a step above the free-throw line"), (["4 follows 2"], 4, "a step above the right inside wing"),
])
def test_where_a_line_ends(lines, player, place):
    assert ends(settled(lines))[player] == place


def test_a_driver_who_passes_or_pulls_up_stops_at_the_lane_edge():
    """language.md section 4, `drives`: at the lane edge on his own line to the rim."""
    found = settled(["1 passes to 2", "2 drives", "2 passes to 3"]).main
    drive = next(a for a in found.actions if a.verb == "drive")
    assert drive.end.x == pytest.approx(COURT.half_lane) and drive.place.words == "right lane edge"
    pulled = settled(["1 drives", "1 pulls up"]).main.actions[0]
    assert pulled.end == pytest.approx((0, COURT.free_throw_line), abs=1e-6)
    assert next(a for a in settled(["1 passes to 2", "2 drives", "2 finishes"]).main.actions if a.verb == "drive").place.spot == "rim"


def test_places_beside_and_behind_players():
    """language.md section 5: 0.9 m along the ray from the rim, or square to it on the sideline side."""
    elbow = spot_point(COURT, "elbow", "right")
    behind = settled(["3 cuts to behind 4"]).main.actions[0].end
    beside = settled(["3 cuts to beside 4"]).main.actions[0].end
    assert behind.distance(elbow) == pytest.approx(0.9) and beside.distance(elbow) == pytest.approx(0.9)
    rim = Point(0, COURT.rim)
    assert behind.distance(rim) == pytest.approx(elbow.distance(rim) + 0.9) and beside.x > elbow.x
    assert settled(["3 goes to behind the ball"]).main.actions[0].end == pytest.approx((0, 8.625 + 3.0))


def test_a_relative_place_is_called_as_the_line_calls_it():
    words = lambda line: settled([line]).main.actions[0].place.words
    assert words("4 cuts to a step above left block") == "a step above the left block"
    assert words("4 cuts to 3 ft outside right block") == "3 ft outside the right block"
    assert words("4 cuts to beside 2") == "beside 2"


def test_an_open_spot_is_the_one_nobody_takes_in_this_do():
    assert ends(settled(["2 clears to open corner"]))[2] == "right corner"
    assert ends(settled(["3 cuts to right corner", "2 clears to open corner"]))[2] == "left corner"
    assert ends(settled(["2 clears to open corner", "3 cuts to right corner"]))[2] == "left corner"
    assert ends(settled(["3 cuts to left wing", "1 passes to 2", "1 clears to open corner"]))[1] == "left corner"


def test_filling_up_goes_station_by_station_highest_first():
    found = settled(["1 passes to 2", "1 cuts to rim", "everyone else fills up"], FIVE_OUT)
    assert ends(found) == {1: "rim", 2: "left wing", 3: "top", 4: "left corner", 5: "right wing"}


def test_circling_follows_the_driver():
    found = settled(["1 drives right side", "3 circles", "1 finishes"], FIVE_OUT)
    assert ends(found)[3] == "right corner"


def test_a_screen_without_a_place_is_set_where_its_user_goes():
    """timeline.md 1.7: 0.6 m from the defender toward the user's goal; the defender 1.0 m from him toward the rim."""
    found = settled(["5 screens for 2", "2 cuts off 5 to top"]).main
    screen, cut = found.actions
    assert isinstance(screen, Screen) and not screen.place_given and screen.users == (cut.key,) and screen.freed == (2,)
    wing, rim = spot_point(COURT, "wing", "right"), Point(0, COURT.rim)
    far = wing.distance(rim)
    defender = Point(wing.x * (1 - 1 / far), wing.y - (wing.y - rim.y) / far)
    assert screen.end.distance(defender) == pytest.approx(0.6) and screen.end.distance(cut.end) < defender.distance(cut.end)
    assert cut.uses[0].screen == screen.key and cut.uses[0].at == screen.end and cut.uses[0].needs_set


def test_ball_screens_and_what_follows_them():
    found = settled(["5 ball screens for 1 at right slot", "1 dribbles off 5 to right wing", "5 rolls", "4 pops"], head="").main
    screen, dribble, roll, _ = found.actions
    assert screen.ball_screen and screen.on == (1,) and dribble.with_ball and roll.waits_clear == (dribble.key,)
    slip = settled(["5 ball screens for 1", "5 slips"]).main.actions[-1]
    assert slip.waits_set == "0d.0.5" and slip.waits_clear == ()


def test_a_user_without_off_still_uses_the_screen_set_for_him():
    found = settled(["5 screens for 3 at left block", "3 curls"]).main
    assert found.actions[1].uses[0].screen == found.actions[0].key and found.actions[1].curl


def test_rubbing_past_a_standing_player_needs_no_screen():
    use = settled(["2 cuts off 4 to rim"]).main.actions[0].uses[0]
    assert (use.screener, use.screen, use.needs_set) == (4, None, False)


def test_pairs_of_screeners():
    double = settled(["4 and 5 double screen for 2 at nail", "2 cuts off 4 then 5 to left wing"]).main
    first, second, cut = double.actions
    assert first.group == second.group != "" and first.group_kind == "double"
    assert first.end.distance(second.end) == pytest.approx(0.66) and [u.screener for u in cut.uses] == [4, 5]
    stagger = settled(["5 and 4 stagger for 3 at left short corner then left mid-post", "3 cuts off 5 then 4 to top"]).main
    assert [a.place.words for a in stagger.actions[:2]] == ["left short corner", "left mid-post"]
    doors = settled(["4 and 5 elevator screen for 3 at nail", "3 cuts between 4 and 5 to deep top"]).main
    assert [(u.screener, u.words) for u in doors.actions[2].uses] == [(4, "between"), (5, "between")]
    assert all(s.users == (doors.actions[2].key,) for s in doors.actions[:2])


def test_routes_become_places_on_the_way():
    baseline = settled(["3 cuts along the baseline to right corner"]).main.actions[0]
    assert len(baseline.via) == 2 and all(p.y < 1.0 for p in baseline.via)
    over = settled(["5 screens for 2", "2 cuts off 5 over to top"]).main.actions[1]
    assert over.uses[0].words == "over" and over.via == ()
    two = settled(["3 cuts to left wing then top"]).main.actions[0]
    assert two.end == spot_point(COURT, "top") and two.via == (spot_point(COURT, "wing", "left"),)


def test_a_ghost_passes_by_and_goes_out():
    move = settled(["4 ghosts for 1"]).main.actions[0]
    assert move.ghost and move.place.words == "left slot" and len(move.via) == 1


def test_consecutive_moves_are_one_run_unless_something_parts_them():
    """timeline.md 2.7, decided from the text alone."""
    joined = lambda lines: [getattr(a, "joined", None) for a in settled(lines).main.actions if a.player == 3]
    assert joined(["3 lifts", "3 cuts to rim"]) == [False, True]
    assert joined(["3 cuts to left wing then cuts to rim"]) == [False, True]
    assert joined(["1 passes to 2", "3 lifts", "3 cuts to rim as 2 catches"]) == [False, False]
    assert joined(["5 screens for 3", "3 lifts", "3 cuts off 5 to top"]) == [False, False]


# -- the ball --------------------------------------------------------------------------------------------


def test_a_pass_meets_the_receivers_move():
    found = settled(["4 pops to left slot", "1 passes to 4"]).main
    pop, ball = found.actions
    assert isinstance(ball, Pass) and ball.meets == pop.key and not ball.lead and ball.catch_at == pop.end
    led = settled(["5 dives", "1 lobs to 5"]).main.actions[1]
    assert led.lead and led.pass_kind is PassKind.LOB
    still = settled(["1 skip passes to 3"]).main.actions[0]
    assert still.meets is None and still.pass_kind is PassKind.SKIP


def test_a_pass_to_a_place_brings_the_receiver_there():
    come, ball = settled(["1 passes to 3 at left wing"]).main.actions
    assert isinstance(come, Move) and come.player == 3 and ball.meets == come.key
    assert ball.catch_at == spot_point(COURT, "wing", "left") == come.end


def test_hand_offs():
    found = settled(["1 hands off to 2 at right slot", "2 drives"]).main
    run, give, drive = found.actions
    assert isinstance(give, HandOff) and give.receiver == 2 and give.receiver_move == run.key and run.no_stop
    assert give.end == spot_point(COURT, "slot", "right") and drive.with_ball
    fake = settled(["2 cuts to right slot", "1 keeps"]).main.actions[1]
    assert isinstance(fake, HandOff) and fake.fake and fake.receiver == 2


def test_shots_end_the_branch_and_name_the_scorer():
    found = settled(["1 passes to 2", "2 shoots"]).main
    assert isinstance(found.actions[-1], Shot) and found.ending.value == "shot" and found.scorer == 2
    caught = settled(["1 passes to 2"]).main
    assert caught.ending.value == "scorer" and caught.scorer == 2
    assert settled(["3 lifts"]).main.ending.value == "done"


def test_a_rebound_takes_the_play_on():
    found = settled(["1 shoots", "5 rebounds", "5 passes to 2", "2 shoots"]).main
    assert found.scorer == 2 and [type(a).__name__ for a in found.actions] == ["Shot", "LooseBall", "Pass", "Shot"]


def test_a_throw_in_and_stepping_in():
    found = settled(["1 passes to 2", "1 steps in"], OUT).main
    assert found.actions[0].throw_in and found.actions[1].place.words == "right corner"
    short = settled(["3 cuts to short-side corner", "4 cuts to long-side corner"], OUT)
    assert (ends(short)[3], ends(short)[4]) == ("right corner", "left corner")


def test_everyone_leaves_out_the_ball_handler_where_he_cannot():
    found = settled(["everyone fills up"], FIVE_OUT).main
    assert {a.player for a in found.actions} == {2, 3, 4, 5}
    assert all(isinstance(a, Stand) for a in settled(["everyone stays"], FIVE_OUT).main.actions)


def test_roles_are_settled_in_written_order():
    found = settled(["1 passes to 2", "receiver passes to passer", "5 screens for 3", "screener rolls",
                     "player at right wing clears to right corner", "ball handler passes to nearest to left corner"])
    who = [(a.player, a.verb) for a in found.main.actions]
    assert who == [(1, "pass"), (2, "pass"), (5, "screen"), (5, "roll"), (2, "clear"), (1, "pass")]
    assert found.main.actions[-1].receiver in (3, 4)
