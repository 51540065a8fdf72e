"""moving-screen: the screener is not standing when the screen is used.

What: compares the instant both his feet are down with the instant the user is at his shoulder, and both with the
instant he leaves.
Why: contact with a screener who moves is a foul on him, and the play is over.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}
    phases:
      - {name: Screen, do: [5 down screens for 3, 3 cuts off 5 to left wing, 1 passes to 3, 3 shoots]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right corner, 3: left corner, 4: right wing, 5: right block}
    phases:
      - {name: Screen, do: [5 screens for 3 at left short corner, 3 cuts off 5 to left wing at once, 1 passes to 3, 3 shoots]}
Source: FIBA Official Basketball Rules Art. 33.7 (2010 text, 2022 in part); NBA Rule 12-B-III (older text); NCAA 4-35 and
App. III sec. 2, 2021-22; NFHS 4-40 and 10-6-3.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding
from generator.checks.screen_uses import Used, uses
from generator.diagnostics import Severity
from generator.model.settled import Branch, Instant
from generator.timeline.timed import Timeline

RULE = "moving-screen"
LET_PASS = 0.1  # seconds: less is within what the schedule promises


def check(case: Case) -> Iterator[Finding]:
    """One finding a screen and use."""
    for branch, timeline in case.timelines():
        for used in uses(case, branch):
            late = used.screen.instants.get(Instant.SET, used.screen.end) - used.at
            gone = used.at - _leaves(timeline, used)
            screener, user = used.screen.action.player, used.move.action.player
            if late > LET_PASS:
                yield _moving(case, branch, used, f"{screener} is still moving when {user} uses his screen", late)
            elif gone > LET_PASS:
                yield _moving(case, branch, used, f"{screener} has left before {user} uses his screen", gone)


def _leaves(timeline: Timeline, used: Used) -> float:
    """When the screener takes his next step; far ahead when he never does."""
    mine = [
        t.start for t in timeline.timed.values()
        if t.action.player == used.screen.action.player and t.start > used.screen.start and t is not used.screen
        and t.route is not None
    ]
    return min(mine, default=float("inf"))


def _moving(case: Case, branch: Branch, used: Used, message: str, by: float) -> Finding:
    hint = "let him wait until it is set: leave out `at once`, or send the screener sooner"
    return case.found(
        Severity.WARNING, RULE, branch, used.screen.action, f"{message}, by {by:.1f} s", hint,
        topic=f"{used.move.action.player}",
    )
