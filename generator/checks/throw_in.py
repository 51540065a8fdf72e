"""throw-in: the player who throws in takes more than five seconds, or gets the ball back outside.

What: at a throw-in the ball must leave the hands within five seconds; he must be on the floor before he catches. (That
he dribbles, shoots or walks with the ball out there is refused as out-of-bounds-dribble and moves-with-ball.)
Why: each of them is a whistle and the ball is theirs.
Passes:
    play: Good
    situation: sideline out of bounds
    start: {3: sideline out of bounds right with the ball, 1: right slot, 2: left block, 4: left elbow, 5: right elbow}
    phases:
      - {name: In, do: [1 breaks to right wing, 3 inbounds to 1, 3 steps in to right corner, 1 drives, 1 finishes]}
Fails:
    play: Bad
    situation: sideline out of bounds
    start: {3: sideline out of bounds right with the ball, 1: right slot, 2: left block, 4: left elbow, 5: right elbow}
    phases:
      - {name: Wait, do: [2 cuts to right corner, 2 cuts to left corner, 2 cuts to left block, 2 breaks to right corner, 3 inbounds to 2, 2 shoots]}
Source: five seconds: FIBA Official Basketball Rules Art. 17, 2020 (secondary source); NBA video rulebook, 2018-19;
NCAA men's and women's and NFHS from memory. Editions from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.counts import Count, count_of
from generator.checks.finding import Case, Finding, over
from generator.checks.in_bounds import out_of_bounds, thrower
from generator.checks.pass_lane import caught
from generator.diagnostics import Severity
from generator.model.settled import Branch, Instant
from generator.timeline.timed import Timeline

RULE = "throw-in"


def check(case: Case) -> Iterator[Finding]:
    """Findings about the thrower of each branch."""
    player = thrower(case)
    count = count_of("throw-in", case.book.team)
    if player is None or count is None:
        return
    for branch, timeline in case.timelines():
        yield from _first_pass(case, branch, timeline, player, count)
        yield from _caught_outside(case, branch, timeline, player)


def _first_pass(case: Case, branch: Branch, timeline: Timeline, player: int, count: Count) -> Iterator[Finding]:
    passes = [t for t in timeline.timed.values() if caught(t) and t.action.player == player]
    if not passes:
        return
    first = min(passes, key=lambda t: t.start)
    release = first.instants[Instant.RELEASE]
    if release > count.seconds:
        yield case.found(
            Severity.WARNING, RULE, branch, first.action,
            f"{player} holds the ball out of bounds for {over(release)}; {count.words}",
            "let somebody come free sooner", topic="count",
        )


def _caught_outside(case: Case, branch: Branch, timeline: Timeline, player: int) -> Iterator[Finding]:
    for timed in case.own(branch):
        action = timed.action
        if caught(timed) and action.receiver == player:
            place = timeline.position(player, timed.instants[Instant.CATCH])
            if out_of_bounds(place, case.court):
                yield case.found(
                    Severity.WARNING, RULE, branch, action, f"{player} catches before he has stepped in",
                    f"write `{player} steps in` above this line", topic="outside",
                )
