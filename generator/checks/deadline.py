"""deadline: a timing word asks for what nobody can do.

What: `as`, `before`, `at once` and `at N s` are deadlines; each is compared with the second at which the player is really
there, starts or throws; a rule's line has none (it begins as soon as he is free). Up to half a second is let pass for `as` and `at`.
Why: the line promises a picture that will never be seen; the play is later than it says.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left corner, 4: left slot, 5: right block}
    phases:
      - {name: In time, do: [5 clears to left block before 3 arrives, 3 cuts to right corner, 1 passes to 2, 2 shoots]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right wing, 3: left corner, 4: left slot, 5: right block}
    phases:
      - {name: Too late, do: [3 cuts to right corner before 5 arrives, 5 cuts to right elbow, 1 passes to 2, 2 shoots]}
Source: the schedule itself; half a second: ours.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding
from generator.diagnostics import Severity

RULE = "deadline"
LEAST = 0.05  # seconds: less is rounding


def check(case: Case) -> Iterator[Finding]:
    """One finding a line."""
    for branch, _ in case.timelines():
        for timed in case.own(branch):
            if timed.late > LEAST and timed.cut_at is None and not timed.action.from_rule:
                action = timed.action
                asked = next((t.words for t in action.triggers if t.words), "the time it names")
                yield case.found(
                    Severity.WARNING, RULE, branch, action,
                    f"{action.player} cannot do this {asked}: he is {timed.late:.1f} s late",
                    "let him start sooner or nearer, let the other come later, or leave the timing word out",
                    topic=action.key,
                )
