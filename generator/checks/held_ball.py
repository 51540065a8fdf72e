"""five-seconds: a player holds the ball for five seconds without passing, shooting or dribbling.

What: from the catch (or the opening) to the next dribble, pass, hand-off or shot of the same player.
Why: with a defender close by that is a whistle, and with none it is still a play that stands. The professional rule
book has no such count in front of the basket, so there it is not checked.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Quick, do: [1 passes to 2, 2 shoots]}
Fails:
    play: Bad
    clock: 20 s
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Stand, do: [1 holds until 10 s on the clock, 1 drives, 1 finishes]}
Source: FIBA Official Basketball Rules Art. 27 (secondary source); NCAA men's rules (secondary source), women's from
memory; NFHS Rules 4-10 and 9-10-1a, 2019-20.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding, about
from generator.checks.in_bounds import out_of_bounds
from generator.diagnostics import Severity
from generator.model.court import RuleSet
from generator.model.settled import Branch, HandOff, Instant, Move, Pass, Shot
from generator.timeline.timed import Timed, Timeline

RULE = "five-seconds"
LIMIT = 5.0


def check(case: Case) -> Iterator[Finding]:
    """One finding a holder and stand."""
    if case.book.team.rule_set is RuleSet.PROFESSIONAL:
        return
    for branch, timeline in case.timelines():
        for holder, since, until, action in _stands(branch, timeline):
            if until - since <= LIMIT or until < case.departs(branch):
                continue
            if out_of_bounds(timeline.position(holder, since), case.court):
                continue  # the throw-in has its own count
            yield case.found(
                Severity.WARNING, RULE, branch, action, f"{holder} holds the ball for {about(until - since)}",
                "five seconds closely guarded are a violation: dribble, pass, or start later", topic=str(holder),
            )


def _stands(branch: Branch, timeline: Timeline) -> Iterator[tuple[int, float, float, object]]:
    """(holder, from, to, the action that ends it) for every time the ball rests in two hands."""
    holder, since = branch.phases[0].holder, 0.0
    for timed in sorted(timeline.timed.values(), key=lambda t: t.start):
        action = timed.action
        if action.player != holder or not _uses_the_ball(timed) or timed.start < since - 0.05:
            continue
        yield holder, since, timed.start, action
        since = timed.end
        if isinstance(action, Pass) and Instant.CATCH in timed.instants:
            holder, since = action.receiver, timed.instants[Instant.CATCH]
        elif isinstance(action, HandOff) and not action.fake:
            holder = action.receiver


def _uses_the_ball(timed: Timed) -> bool:
    action = timed.action
    return isinstance(action, (Pass, HandOff, Shot)) or (isinstance(action, Move) and action.with_ball)
