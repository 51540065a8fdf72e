"""front-court: the ball is too long in the back court, or goes back over the middle line.

What: from the moment the ball is in bounds it must be over half court within the count of the rule set (eight or ten
seconds), and once a player holds it there it may not be held in the back court again.
Why: both give the ball away; a press wants exactly that.
Passes:
    play: Good
    start: {1: backcourt top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Up, do: [1 dribbles to top, 1 passes to 2, 2 shoots]}
Fails:
    play: Bad
    start: {1: half court with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Back, do: [2 cuts to backcourt top, 1 passes to 2, 2 dribbles to top, 2 shoots]}
Source: 8 s: FIBA Official Basketball Rules Art. 28.1, 2020; NBA Rule 10, 2018-19 (secondary source). 10 s: NFHS Rule
9-8, 2019-20; NCAA men's rules, 2021-22; NCAA women's from memory. Over and back: FIBA Art. 30, from memory. Editions of
the first two from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.counts import count_of
from generator.checks.finding import Case, Finding, over
from generator.checks.in_bounds import out_of_bounds
from generator.checks.stills import Still
from generator.diagnostics import Severity
from generator.model.court import Court
from generator.model.settled import Branch

RULE = "front-court"


def check(case: Case) -> Iterator[Finding]:
    """At most one finding of each kind a branch."""
    for branch, _ in case.timelines():
        held = [s for s in case.film(branch) if s.ball.holder is not None and not out_of_bounds(s.ball.point, case.court)]
        if held:
            yield from _count(case, branch, held)
            yield from _over_and_back(case, branch, held)


def _behind(still: Still, court: Court) -> bool:
    return still.ball.point.y > court.length / 2


def _count(case: Case, branch: Branch, held: list[Still]) -> Iterator[Finding]:
    count = count_of("front court", case.book.team)
    if count is None or not _behind(held[0], case.court):
        return
    across = next((s for s in held if not _behind(s, case.court)), held[-1])
    length = across.t - held[0].t
    if length > count.seconds:
        action = case.action_at(branch, across.ball.holder, across.t)
        yield case.found(
            Severity.WARNING, RULE, branch, action,
            f"the ball is in the back court for {over(length)}; {count.words}",
            "pass ahead sooner, or dribble less", topic="count",
        )


def _over_and_back(case: Case, branch: Branch, held: list[Still]) -> Iterator[Finding]:
    front = False
    for still in held:
        if front and _behind(still, case.court) and still.t >= case.departs(branch):
            action = case.action_at(branch, still.ball.holder, still.t)
            yield case.found(
                Severity.WARNING, RULE, branch, action,
                f"{still.ball.holder} has the ball in the back court after it was in the front court",
                "receive it before the middle line, or keep it in front of it", topic="back",
            )
            return
        front = front or not _behind(still, case.court)
