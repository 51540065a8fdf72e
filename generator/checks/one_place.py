"""one-place: two players stand on the same spot when the play begins.

What: the places of the five at the start; nearer than half a metre is one place. (Two who are sent to one spot by lines
are told as two-to-one-spot and spot-held.)
Why: one of the two places is wrong, and everything that follows from it.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 2 shoots]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right wing, 3: right block, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 2 shoots]}
Source: ours; two bodies do not fit into half a metre.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from generator.checks.finding import Case, Finding
from generator.checks.stills import PLAYERS
from generator.diagnostics import Severity
from generator.model.spots import name_place

RULE = "one-place"
APART = 0.5  # metres


def check(case: Case) -> Iterator[Finding]:
    """One finding a pair."""
    branch = case.times.settled.main
    for first, second in combinations(PLAYERS, 2):
        if branch.start[first].distance(branch.start[second]) < APART:
            where = name_place(case.court, branch.start[second]).words
            yield case.found(
                Severity.ERROR, RULE, branch, None, f"{first} and {second} both start at {where}",
                f"give {second} a place of his own, or one beside him: `beside {first}`", topic=f"{first}{second}",
            )
