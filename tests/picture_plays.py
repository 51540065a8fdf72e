"""Hand-made plays whose phases show every mark a picture knows, for the picture tests."""

from __future__ import annotations

from branch_builder import BranchBuilder, settled_play

from generator.diagrams import play_view
from generator.model.book import Team
from generator.model.court import court_for
from generator.timeline.simulate import simulate_play

TEAM = Team("Hand")


def pin_down() -> BranchBuilder:
    """A reversal, a pin-down, a shot: three phases."""
    b = BranchBuilder({1: "top", 2: "right wing", 3: "left corner", 4: "right elbow", 5: "left block"})
    b.dribble(1, "right slot"), b.cut(2, "right corner"), b.cut(4, "left slot"), b.pass_(1, 4)
    b.phase("Pin-down")
    b.screen(5, 3), b.cut(3, "left wing", off=5)
    b.phase("Shot")
    b.pass_(4, 3), b.shoot(3)
    return b


def baseline_screen() -> BranchBuilder:
    """A screen by a man who already stands there."""
    b = BranchBuilder({1: "right slot", 2: "right corner", 3: "left corner", 4: "left slot", 5: "left block"}, holder=4)
    b.screen(5, 3, at="left block"), b.cut(3, "right wing", off=5)
    b.phase("Second side")
    b.pass_(4, 1), b.pass_(1, 3), b.shoot(3)
    return b


def hand_offs() -> BranchBuilder:
    """Two hand-offs on the move."""
    b = BranchBuilder({1: "right slot", 2: "right corner", 3: "left corner", 4: "left wing", 5: "left block"})
    b.cut(2, (4.2, 7.0)), b.hand_off(1, 2, at=(4.2, 7.0)), b.cut(1, "right corner")
    b.phase("Other side")
    b.cut(4, (-2.0, 8.0)), b.hand_off(2, 4, at=(-2.0, 8.0)), b.dribble(4, "right elbow")
    return b


def ball_screen() -> BranchBuilder:
    """A ball screen, a roll, a pass on the run, a shot at the rim."""
    b = BranchBuilder({1: "right slot", 2: "right corner", 3: "left corner", 4: "left wing", 5: "right elbow"})
    b.screen(5, 1, at=(2.2, 7.4), ball_screen=True), b.dribble(1, "left elbow", off=5, effort=0.8)
    b.cut(5, (0.6, 2.0), verb="roll"), b.cut(4, "left slot"), b.pass_(1, 5, lead=True), b.shoot(5)
    return b


def give_and_go() -> BranchBuilder:
    """The ball goes and comes back: order matters."""
    b = BranchBuilder({1: "top", 2: "right wing", 3: "left wing", 4: "right block", 5: "left block"})
    b.pass_(1, 2), b.cut(1, (0.4, 1.9)), b.cut(3, "top"), b.cut(5, "left wing"), b.pass_(2, 1), b.pass_(1, 3), b.shoot(3)
    return b


def throw_in() -> BranchBuilder:
    """From behind the end line."""
    b = BranchBuilder({1: (2.0, -0.6), 2: "left block", 3: "right block", 4: "left elbow", 5: "right elbow"})
    b.screen(3, 2, at=(0.5, 2.6)), b.cut(2, "right corner", off=3), b.cut(4, "left wing"), b.cut(5, "top"), b.pass_(1, 2)
    return b


PLAYS = (pin_down, baseline_screen, hand_offs, ball_screen, give_and_go, throw_in)


def times_of(make, team: Team = TEAM):
    """The play timed, and its view."""
    times, _ = simulate_play(settled_play(make().branch()), team, court_for(team.rule_set))
    return times, play_view(times, team)
