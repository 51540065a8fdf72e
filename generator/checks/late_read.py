"""late-read: what follows a read has begun before the read is made.

What: the main line (or the branch an answer leaves) has already thrown, driven or gone on to the next phase with the
reader or the ball before the second at which he is to look.
Why: he would have to take it back. The two lines then do not look alike until the read, and the picture of the question
shows an answer already given.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - name: Ghost
        do: [4 cuts to left block]
        reads:
          - {who: 1, watch: X4, when: 4 arrives, answers: {stay: [1 passes to 2, 2 shoots], otherwise: go on}}
      - {name: Go, when: 4 arrives, do: [1 drives, 1 finishes]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - name: Ghost
        do: [4 cuts to left block, 1 passes to 2]
        reads:
          - {who: 2, watch: X4, when: 4 arrives, answers: {stay: [2 passes to 5, 5 shoots], otherwise: go on}}
      - {name: Go, do: [2 skip passes to 3, 3 shoots]}
Source: ours.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding
from generator.diagnostics import Diagnostic, Severity
from generator.model.settled import Branch, Fork, HandOff, Move, Pass, Shot
from generator.timeline.timed import Timed, Timeline

RULE = "late-read"
LET_PASS = 0.1  # seconds


def check(case: Case) -> Iterator[Finding]:
    """One finding a read."""
    for branch, timeline in case.timelines():
        if branch.departure is None or branch.parent is None:
            continue
        fork = branch.forks[branch.departure.fork]
        seen = timeline.fork_times[branch.departure.fork]
        early = _begun(case.times.timelines[branch.parent], branch, fork, seen)
        if early is not None:
            yield _finding(case, branch, fork, early, seen)


def _begun(parent: Timeline, branch: Branch, fork: Fork, seen: float) -> Timed | None:
    """What the parent does with the ball after the read's place in the text, though before its second."""
    order = [a.key for a in parent.branch.actions]
    below = order.index(fork.below) if fork.below in order else -1
    later = [
        parent.timed[key] for key in order[below + 1:]
        if key in parent.timed and _with_ball(parent.timed[key]) and parent.timed[key].start < seen - LET_PASS
        and _follows(parent.timed[key], branch, fork)
    ]
    return min(later, key=lambda t: t.start, default=None)


def _follows(timed: Timed, branch: Branch, fork: Fork) -> bool:
    """It is stopped by the answer: the next phase's lines, or those of the default answer."""
    assert branch.departure is not None
    gone = timed.action.key in branch.departure.stopped or timed.action.key not in {a.key for a in branch.actions}
    return gone and (timed.action.phase > fork.phase or timed.action.answer is not None)


def _with_ball(timed: Timed) -> bool:
    action = timed.action
    return isinstance(action, (Pass, HandOff, Shot)) or (isinstance(action, Move) and action.with_ball)


def _finding(case: Case, branch: Branch, fork: Fork, early: Timed, seen: float) -> Finding:
    text = early.action.text
    return Finding(
        Diagnostic(
            fork.read.source, Severity.WARNING, RULE,
            f"{fork.reader} reads this about second {seen:.0f}, but `{text}` has begun {seen - early.start:.1f} s before",
            "give the read an earlier `when`, or the line or phase that follows a `when` of its own",
        ),
        branch.phases[fork.phase].id, fork.taken, fork.read.id,
    )
