"""Nobody runs through a teammate who stands (timeline.md 1.8), also where a read sends him off on the run, where he stands
beside the man in his way, and where his way comes back past where it began. Each play was found by experiment."""

from __future__ import annotations

from itertools import pairwise
from math import hypot

import pytest

from generator.pipeline import load_and_compute

TEAM = "team: Fernhill\nrule set: international\n"
PLAYS = {
    "past two who stand, on the run": ("""
play: Two
start: {1: right short corner with the ball, 2: left dunker spot, 3: right block, 4: nail, 5: right slot}
phases:
  - name: One
    do: [5 cuts to left block, 4 screens for 5 at left block, 5 cuts off 4 to left slot, 1 passes to 5]
    reads:
      - who: 5
        watch: X5 on 4's screen
        answers:
          shoot the gap: [5 fades to right corner, 1 skip passes to 5, 5 shoots]
          otherwise: go on
  - {name: Shot, do: [5 shoots]}
""", "X5 shoots the gap", 5, 3),
    "round the screener he turns away from": ("""
play: Turn
start: {1: left wing with the ball, 2: left dunker spot, 3: left elbow, 4: right wing, 5: top}
phases:
  - name: One
    do: [5 cuts to right mid-post, 5 screens for 4 at right wing, 4 cuts off 5 to right block, 1 passes to 4]
    reads:
      - who: 4
        watch: X4 on 5's screen
        answers:
          top-lock: [4 fades to top, 1 passes to 4, 4 shoots]
          otherwise: go on
  - {name: Shot, do: [4 shoots]}
""", "X4 top-locks", 4, 5),
    "away from the screen beside him": ("""
play: Beside
start: {1: right corner with the ball, 2: right slot, 3: left wing, 4: left elbow, 5: right elbow}
phases:
  - name: One
    do: [4 screens for 5 at right elbow, 5 cuts off 4 to right slot, 1 passes to 5]
    reads:
      - who: 5
        watch: X5 on 4's screen
        answers:
          switch: [5 fades to left corner, 1 skip passes to 5, 5 shoots]
          otherwise: go on
  - {name: Shot, do: [5 shoots]}
""", "X5 switches", 5, 4),
    "a curl from where he stands": ("""
play: Curl
start: {1: right elbow with the ball, 2: left elbow, 3: right corner, 4: left dunker spot, 5: left corner}
phases:
  - name: One
    do: [4 screens for 2 at left elbow, 2 cuts off 4 to left slot, 1 passes to 2]
    reads:
      - who: 2
        watch: X2 on 4's screen
        answers:
          shoot the gap: [2 curls to front of the rim, 1 passes to 2, 2 finishes]
          otherwise: go on
  - {name: Shot, do: [2 shoots]}
""", "X2 shoots the gap", 2, 4),
}

BASE_LINE = """
play: Base
start: {1: right corner, 2: nail, 3: left wing, 4: right block with the ball, 5: top}
phases:
  - name: One
    do: [1 screens for 2 at beside 4, 2 cuts off 1 to left corner, 4 passes to 2]
    reads:
      - who: 2
        watch: X2 on 1's screen
        answers:
          top-lock: [2 fades to left corner, 4 passes to 2, 2 shoots]
          otherwise: go on
  - {name: Shot, do: [2 shoots]}
"""


def timelines(tmp_path, text: str):
    (tmp_path / "team.yml").write_text(TEAM)
    (tmp_path / "play.yml").write_text(text.strip() + "\n")
    (play,) = load_and_compute(tmp_path).plays
    return play.timelines.values()


@pytest.mark.parametrize("text, branch, runner, stander", PLAYS.values(), ids=PLAYS)
def test_who_stands_is_walked_round(tmp_path, text, branch, runner, stander):
    timeline = next(t for t in timelines(tmp_path, text) if t.branch.name == branch)
    instants = [0.02 * i for i in range(int(timeline.duration / 0.02))]
    assert min(timeline.position(runner, t).distance(timeline.position(stander, t)) for t in instants) >= 0.55


def test_a_curl_from_where_he_stands_goes_round_the_screen_on_its_side(tmp_path):
    """The cut to the slot keeps the screener on the right hand; so does the curl, over him and down the lane."""
    text, branch, runner, screener = PLAYS["a curl from where he stands"]
    found = list(timelines(tmp_path, text))
    cut = next(t for t in found[0].timed.values() if t.uses)
    curl = next(t for t in found if t.branch.name == branch)
    own = next(t for t in curl.timed.values() if t.action.text.startswith("2 curls"))
    instants = [own.start + 0.02 * i for i in range(1, int((own.end - own.start) / 0.02))]
    t = min(instants, key=lambda t: curl.position(runner, t).distance(curl.position(screener, t)))
    v, p, s = curl.velocity(runner, t), curl.position(runner, t), curl.position(screener, t)
    assert (v.x * (s.y - p.y) - v.y * (s.x - p.x)) * cut.uses[0].g > 0


def test_no_way_round_leads_over_the_end_line(tmp_path):
    """1 stands between 2 and the corner, near the end line: 2 goes by on the floor's side."""
    found = {t.branch.name: t for t in timelines(tmp_path, BASE_LINE)}
    timeline = found["X2 top-locks"]
    assert min(timeline.position(2, 0.02 * i).y for i in range(int(timeline.duration / 0.02))) > 0.5

DRAG = """
play: Drag
start: {1: right half court with the ball on the run, 2: right corner, 3: left corner, 4: deep top on the run, 5: half court}
phases:
  - name: Drag
    do: [4 drag screens for 1 at right slot, 5 drag screens for 1 at top, 1 dribbles off 4 then 5 to left slot, 1 shoots]
"""


def test_both_of_two_screens_in_a_row_are_passed_shoulder_to_shoulder(tmp_path):
    """The bend at the first, which the plain way would miss, is measured to where the way meets the second's circle."""
    (main,) = timelines(tmp_path, DRAG)
    dribble = next(t for t in main.timed.values() if t.uses)
    assert [u.screener for u in dribble.uses] == [4, 5]
    assert [u.point.distance(u.place) for u in dribble.uses] == pytest.approx([0.65, 0.65], abs=0.1)

SHORT = """
play: Short
start: {1: right elbow with the ball, 2: left wing, 3: left corner, 4: right block, 5: right short corner}
phases:
  - name: One
    do: [5 screens for 4 at right block, 4 cuts off 5 to left block, 1 passes to 4]
    reads:
      - who: 4
        watch: X4 on 5's screen
        answers:
          trail: [4 curls to front of the rim, 1 passes to 4, 4 finishes]
          otherwise: go on
  - {name: Shot, do: [4 shoots]}
"""


def test_nobody_brakes_harder_than_he_can_where_the_way_is_too_short_to_stop_on(tmp_path):
    """4 is at full speed 0.6 m from where the answer sends him: he runs past and comes back."""
    for timeline in timelines(tmp_path, SHORT):
        speeds = [hypot(*timeline.velocity(4, 0.02 * i)) for i in range(int(timeline.duration / 0.02))]
        assert max(a - b for a, b in pairwise(speeds)) <= 0.02 * 4.0 * 1.05  # high school: 4 m/s^2
