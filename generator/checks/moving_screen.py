"""moving-screen: the screener is not standing when the screen is used.

What: compares the instant both his feet are down with the instant the user is at his shoulder. (A screener who has left
before is told by the schedule, as screen-has-left.)
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
from generator.checks.screen_uses import uses
from generator.diagnostics import Severity
from generator.model.settled import Instant

RULE = "moving-screen"
LET_PASS = 0.1  # seconds: less is within what the schedule promises


def check(case: Case) -> Iterator[Finding]:
    """One finding a screen and use."""
    for branch, _ in case.timelines():
        for used in uses(case, branch):
            late = used.screen.instants.get(Instant.SET, used.screen.end) - used.at
            if late > LET_PASS:
                screener, user = used.screen.action.player, used.move.action.player
                yield case.found(
                    Severity.WARNING, RULE, branch, used.screen.action,
                    f"{screener} is still moving when {user} uses his screen, by {late:.1f} s",
                    "let him wait until it is set: leave out `at once`, or send the screener sooner", topic=str(user),
                )
