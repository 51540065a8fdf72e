"""Room for a man who cannot see, or who runs: FIBA Art. 33.7 (2010 text in full, 2022 in part), NBA Rule 12-B-III (older
text), NCAA App. III sec. 2 (2021-22), NFHS 4-40. No book gives a step in metres, so what is compared is ordinal."""

import pytest

from generator.checks import screen_distance
from generator.checks.screen_distance import Room, steps_needed

FLAT = """
play: Flat
start: {1: top with the ball, 2: right corner, 3: left corner, 4: left wing, 5: left block}
phases:
  - {name: Flat, do: [5 ball screens for 1 PLACE, 1 dribbles off 5 to right slot, 5 rolls, 1 shoots]}
"""
BOOKS = {"international": "FIBA Art. 33.7", "professional": "NBA Rule 12-B-III", "college": "NCAA App. III", "high school": "NFHS 4-40"}


def test_manual(manual):
    manual(screen_distance)


@pytest.mark.parametrize("rule_set", BOOKS)
def test_behind_a_man_who_cannot_see_one_step_is_asked_in_every_book(said, rules, rule_set):
    team = f"team: Fernhill\nrule set: {rule_set}\n"
    bad = FLAT.replace("PLACE", "at 4 ft below top")
    assert rules(bad, team) == {"screen-distance"}
    (found,) = [d for d in said(bad, team) if d.rule == "screen-distance"]
    assert BOOKS[rule_set] in found.message and found.severity.value == "warning"
    assert rules(FLAT.replace("PLACE", "at 6 ft below top"), team) == set()


def test_without_a_named_place_the_tool_keeps_the_step(rules):
    assert rules(FLAT.replace(" PLACE", "")) == set()


def test_the_freed_players_own_place_tells_where_he_is_found_and_the_tool_keeps_the_step(rules):
    text = """
play: Down
start: {1: top with the ball, 2: front of the rim, 3: left block, 4: left mid-post, 5: right mid-post}
phases:
  - {name: Down, do: [5 pin-downs for 2 at right block, 4 down screens for 3 at left block, 1 dribbles to right slot, 2 cuts off 5 to right wing, 3 pops off 4 to left wing, 1 passes to 2, 2 shoots]}
"""
    assert "screen-distance" not in rules(text)


def test_where_he_sees_the_screener_any_distance_will_do(rules):
    assert rules(FLAT.replace("PLACE", "at 4 ft right of top")) == set()


def test_a_zone_has_no_defender_of_his(rules):
    bad = FLAT.replace("PLACE", "at 4 ft below top").replace("start:", "against: zone 2-3\nstart:")
    assert "screen-distance" not in rules(bad)


def test_room_grows_from_seen_to_unseen_to_running():
    """0 in view and still, 1 blind and still, 1 to 2 on the move, never less for being faster."""
    assert steps_needed(Room(0.3, 0.0, True)) == 0
    assert steps_needed(Room(0.3, 0.0, False)) == 1
    moving = [steps_needed(Room(0.3, speed, sees)) for sees in (True, False) for speed in (1.5, 2.9, 3.1, 6.0)]
    assert moving == [1, 1, 2, 2] * 2
