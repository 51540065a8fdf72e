"""collision: two teammates on the move run into each other.

What: the closest approach of two players who both run, when neither uses the other's screen (from when the screener is
there, since two who run to the same screen can meet too soon) and no hand-off joins them; nearer than 0.6 m is a
collision. Players who stand are walked round already; one run through all the same, nearer than 0.5 m, is a collision
too.
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
from generator.checks.stills import INTERVAL, PLAYERS, Still, closest_approach
from generator.diagnostics import Severity
from generator.model.settled import AnyAction, Branch, HandOff, Instant, Move, Screen
from generator.timeline.timed import Timeline

RULE = "collision"
APART = 0.6  # metres
THROUGH = 0.5  # metres from one who stands
RUNS = 0.8  # metres a second: slower than that he stands
BEFORE_IT, AFTER_IT = 1.0, 0.3  # seconds round a hand-off in which the two are near on purpose


def check(case: Case) -> Iterator[Finding]:
    """One finding a pair."""
    for branch, timeline in case.timelines():
        stills = case.new_stills(branch)
        for first, second in combinations(PLAYERS, 2):
            met = next((m for m in _meetings(stills, first, second) if not _meant(case, branch, timeline, (first, second), m)), None)
            if met is None:
                continue
            ours, theirs = (case.action_at(branch, p, met[1]) for p in (first, second))
            yield case.found(
                Severity.WARNING, RULE, branch, theirs or ours, f"{first} and {second} run into each other",
                "send one of them by another way (`over`, `along the baseline`), or one after the other",
                topic=f"{first}{second}",
            )


def _meetings(stills: tuple[Still, ...], first: int, second: int) -> Iterator[tuple[float, float]]:
    """(metres, second) of every time that the two meet."""
    for a, b in pairwise(stills):
        near, t = closest_approach(a, b, first, second)
        running = _runs(a, b, first) + _runs(a, b, second)
        if running and near < (APART if running == 2 else THROUGH):
            yield near, t


def _meant(case: Case, branch: Branch, timeline: Timeline, pair: tuple[int, int], met: tuple[float, float]) -> bool:
    """They are near each other on purpose."""
    (first, second), (near, t) = pair, met
    return (
        _on_purpose(timeline, case.action_at(branch, first, t), second, near, t)
        or _on_purpose(timeline, case.action_at(branch, second, t), first, near, t)
        or _hand_over(timeline, first, second, t)
        or any(_is_sent_there(case, branch, timeline, one, other, t) for one, other in ((first, second), (second, first)))
    )


def _is_sent_there(case: Case, branch: Branch, timeline: Timeline, runner: int, other: int, t: float) -> bool:
    """He is about to arrive where the other is to stand: told as spot-held or two-to-one-spot."""
    action = case.action_at(branch, runner, t)
    if action is None or t > timeline.timed[action.key].end + INTERVAL:
        return False
    plan = branch.phases[action.phase].end_plan
    return plan[runner].distance(plan[other]) < THROUGH


def _runs(a: Still, b: Still, player: int) -> bool:
    return a.place(player).distance(b.place(player)) > RUNS * (b.t - a.t)


def _on_purpose(timeline: Timeline, one: AnyAction | None, other: int, near: float, t: float) -> bool:
    """By what he does he is near `other` on purpose: a ghost, a hand-off, a screen that is there and whom it frees, who
    goes by it and not through it."""
    if isinstance(one, Move) and one.ghost:
        return True
    if isinstance(one, HandOff) and one.receiver == other:
        return True
    if near < THROUGH:
        return False
    if isinstance(one, Screen):
        return other in one.freed and _is_there(timeline, one.key, t)
    return isinstance(one, Move) and any(u.screener == other and _is_there(timeline, u.screen, t) for u in one.uses)


def _is_there(timeline: Timeline, screen: str | None, t: float) -> bool:
    """The screener has come to the place of his screen by then."""
    timed = timeline.timed.get(screen) if screen else None
    return timed is None or t >= timed.instants.get(Instant.ARRIVE, timed.start)


def _hand_over(timeline: Timeline, first: int, second: int, t: float) -> bool:
    """The ball goes from hand to hand between the two at that second, or is about to."""
    for timed in timeline.timed.values():
        action = timed.action
        if isinstance(action, HandOff) and {action.player, action.receiver} == {first, second}:
            caught = timed.instants.get(Instant.CATCH, timed.end)
            if timed.instants.get(Instant.MEET, timed.start) - BEFORE_IT < t < caught + AFTER_IT:
                return True
    return False
