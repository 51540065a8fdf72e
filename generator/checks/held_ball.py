"""five-seconds: a player keeps the ball for five seconds where the book counts them.

What: from the catch (or the opening) to the next dribble, pass, hand-off or shot of the same player; in the college
men's and the high school book only in the front court; in the high school book a dribble in the front court has a count
of five of its own. A defender within reach is taken for granted.
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
Source: FIBA Official Basketball Rules Art. 27, 2020 (secondary source, edition from memory); NCAA men's rules, 2021-22
(secondary source), women's from memory; NFHS Rules 4-10 and 9-10-1a, 2019-20.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.counts import Count, count_of
from generator.checks.finding import Case, Finding, over
from generator.checks.in_bounds import out_of_bounds
from generator.diagnostics import Severity
from generator.model.settled import AnyAction, Branch, HandOff, Instant, Move, Pass, Shot
from generator.timeline.timed import Timed, Timeline

RULE = "five-seconds"
TICK = 0.1
PICKED_UP = 0.3  # seconds: a dribble that starts again sooner has not stopped

Kept = tuple[int, float, float, AnyAction]  # holder, from, to, the action that ends it (of a dribble: its first)


def check(case: Case) -> Iterator[Finding]:
    """One finding a holder and stand, one a holder and dribble."""
    count = count_of("closely guarded", case.book.team)
    if count is None:
        return
    for branch, timeline in case.timelines():
        for kept in _stands(branch, timeline):
            yield from _judge(case, branch, count, kept, "holds the ball")
        for kept in _dribbles(timeline) if count.dribbling else ():
            yield from _judge(case, branch, count, kept, "dribbles")


def _judge(case: Case, branch: Branch, count: Count, kept: Kept, what: str) -> Iterator[Finding]:
    holder, since, until, action = kept
    timeline = case.times.timelines[branch.key]
    if until < case.departs(branch) or out_of_bounds(timeline.position(holder, since), case.court):
        return  # the throw-in has its own count
    while count.front_court_only and since < until and timeline.position(holder, since).y > case.court.length / 2:
        since += TICK
    if until - since > count.seconds:
        yield case.found(
            Severity.WARNING, RULE, branch, action, f"{holder} {what} for {over(until - since)}; {count.words}",
            "five seconds closely guarded are a violation: pass sooner, move with it, or start later",
            topic=f"{holder}{what}",
        )


def _stands(branch: Branch, timeline: Timeline) -> Iterator[Kept]:
    """Every time the ball rests in two hands."""
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


def _dribbles(timeline: Timeline) -> Iterator[Kept]:
    """Every dribble, one that goes on in the next line taken as one."""
    moves = [t for t in timeline.timed.values() if isinstance(t.action, Move) and t.action.with_ball]
    run: list[Timed] = []
    for timed in sorted(moves, key=lambda t: t.start):
        if run and (run[0].action.player != timed.action.player or timed.start > run[-1].end + PICKED_UP):
            yield run[0].action.player, run[0].start, run[-1].end, run[0].action
            run = []
        run.append(timed)
    if run:
        yield run[0].action.player, run[0].start, run[-1].end, run[0].action


def _uses_the_ball(timed: Timed) -> bool:
    action = timed.action
    return isinstance(action, (Pass, HandOff, Shot)) or (isinstance(action, Move) and action.with_ball)
