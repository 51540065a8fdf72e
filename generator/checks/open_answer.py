"""open-answer: an answer leads nowhere.

What: the branch that takes the answer ends without a shot, without a pass to a scorer and without another phase or
play to go on to. After a lost tip the ball is theirs, and nothing need follow.
Why: the player has read the defence right and then nobody knows what comes.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - name: Swing
        do: [1 passes to 2]
        reads:
          - {who: 2, watch: X2, answers: {hard close-out: [2 drives, 2 finishes], otherwise: [2 shoots]}}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - name: Swing
        do: [1 passes to 2]
        reads:
          - {who: 2, watch: X2, answers: {hard close-out: [2 dribbles to right elbow], otherwise: [2 shoots]}}
Source: ours.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding
from generator.diagnostics import Diagnostic, Severity
from generator.model.settled import Branch, Ending, Pass

RULE = "open-answer"


def check(case: Case) -> Iterator[Finding]:
    """One finding an answer."""
    for branch, _ in case.timelines():
        if branch.departure is None or branch.ending in (Ending.SHOT, Ending.OTHER_PLAY):
            continue
        fork = branch.forks[branch.departure.fork]
        answer = fork.answer
        lost = any(s.coverage == "tip lost" for group in answer.sights for s in group)
        if lost or _goes_on(branch, fork.phase) or _ends_in_a_catch(branch):
            continue
        yield Finding(
            Diagnostic(
                answer.source, Severity.WARNING, RULE, f"after `{answer.key}` nobody shoots and nothing follows",
                "end it with a shot, a pass to the scorer, or `go to: PHASE`",
            ),
            branch.phases[fork.phase].id, answer.id,
        )


def _goes_on(branch: Branch, phase: int) -> bool:
    return phase < len(branch.phases) - 1


def _ends_in_a_catch(branch: Branch) -> bool:
    """The last thing the answer does with the ball is to give it to a scorer."""
    own = [a for a in branch.actions if branch.departure and a.key in branch.departure.own]
    return any(isinstance(a, Pass) and a.receiver == branch.scorer for a in own)
