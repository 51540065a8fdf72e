"""collision: two teammates on the move run into each other.

What: the closest approach of two players who both run, when neither uses the other's screen and no hand-off joins
them; nearer than 0.6 m is a collision. Players who stand are walked round already; one run through all the same,
nearer than 0.5 m, is a collision too.
Why: one stops for the other and the timing of the play is gone.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left block, 5: right block}
    phases:
      - {name: Trade, do: [1 passes to 2, 4 cuts to left corner, 5 cuts to right corner, 2 shoots]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left block, 5: right block}
    phases:
      - {name: Trade, do: [4 cuts to right block, 5 cuts to left block, 1 passes to 2, 2 shoots]}
Source: ours; a shoulder's width between two centres.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

from generator.checks.finding import Case, Finding
from generator.checks.stills import PLAYERS, Still, closest_approach
from generator.diagnostics import Severity
from generator.model.settled import AnyAction, Branch, HandOff, Instant, Move, Screen

RULE = "collision"
APART = 0.6  # metres
THROUGH = 0.5  # metres from one who stands
RUNS = 0.8  # metres a second: slower than that he stands
BEFORE_IT, AFTER_IT = 1.0, 0.3  # seconds round a hand-off in which the two are near on purpose


def check(case: Case) -> Iterator[Finding]:
    """One finding a pair."""
    for branch, _ in case.timelines():
        stills = case.new_stills(branch)
        for first, second in combinations(PLAYERS, 2):
            t = _meeting(stills, first, second)
            if t is None:
                continue
            ours, theirs = case.action_at(branch, first, t), case.action_at(branch, second, t)
            if ours is None or theirs is None or joined(ours, theirs) or _hand_over(case, branch, first, second, t):
                continue
            yield case.found(
                Severity.WARNING, RULE, branch, theirs, f"{first} and {second} run into each other",
                "send one of them by another way (`over`, `along the baseline`), or one after the other",
                topic=f"{first}{second}",
            )


def _meeting(stills: tuple[Still, ...], first: int, second: int) -> float | None:
    for a, b in pairwise(stills):
        near, t = closest_approach(a, b, first, second)
        running = _runs(a, b, first) + _runs(a, b, second)
        if running and near < (APART if running == 2 else THROUGH):
            return t
    return None


def _runs(a: Still, b: Still, player: int) -> bool:
    return a.place(player).distance(b.place(player)) > RUNS * (b.t - a.t)


def joined(first: AnyAction, second: AnyAction) -> bool:
    """The two belong together: a screen and its user, the two of a hand-off, a ghost."""
    for one, other in ((first, second), (second, first)):
        if isinstance(one, Move) and any(u.screener == other.player for u in one.uses):
            return True
        if isinstance(one, Screen) and other.player in one.freed:
            return True
        if isinstance(one, HandOff) and one.receiver == other.player:
            return True
        if isinstance(one, Move) and one.ghost:
            return True
    return False


def _hand_over(case: Case, branch: Branch, first: int, second: int, t: float) -> bool:
    """The ball goes from hand to hand between the two at that second, or is about to."""
    for timed in case.times.timelines[branch.key].timed.values():
        action = timed.action
        if isinstance(action, HandOff) and {action.player, action.receiver} == {first, second}:
            caught = timed.instants.get(Instant.CATCH, timed.end)
            if timed.instants.get(Instant.MEET, timed.start) - BEFORE_IT < t < caught + AFTER_IT:
                return True
    return False
