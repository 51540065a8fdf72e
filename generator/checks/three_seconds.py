"""three-seconds: an offensive player stands in the lane for more than three seconds.

What: counts, from the moment the ball is in bounds and in the front court, how long each player is inside the lane
without leaving it; the count ends with the shot and pauses while the ball is out of bounds.
Why: the whistle gives the ball away, and the schedule is the fastest clean run: in a game he stands there longer.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Cut, do: [5 cuts to left block, 1 dribbles to right slot, 1 passes to 2, 2 shoots]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: middle of the lane}
    phases:
      - {name: Around, do: [1 passes to 2, 2 passes to 1, 1 passes to 3]}
      - {name: And back, do: [3 passes to 1, 1 passes to 2, 2 shoots]}
Source: FIBA Official Basketball Rules Art. 26, 2020 (secondary source); NBA Rule 10, 2018-19 (secondary source); NFHS
Rule 9-7, 2019-20; NCAA men's and women's from memory. Editions of the first two from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.counts import count_of
from generator.checks.finding import Case, Finding, over
from generator.checks.stills import PLAYERS, Still
from generator.diagnostics import Severity
from generator.model.court import Court, Point

RULE = "three-seconds"
EDGE = 0.3  # metres: elbow, nail and the like are named on the lane's lines; who stands there keeps his feet outside


def check(case: Case) -> Iterator[Finding]:
    """One finding a player and stay."""
    count = count_of("lane", case.book.team)
    if count is None:
        return
    for branch, _ in case.timelines():
        stills = case.film(branch)
        for player in PLAYERS:
            for entered, left in _stays(stills, player, case.court):
                if left - entered > count.seconds and left > case.departs(branch):
                    action = case.action_at(branch, player, entered)
                    yield case.found(
                        Severity.WARNING, RULE, branch, action,
                        f"{player} is in the lane for {over(left - entered)}, from second {entered:.0f} on; {count.words}",
                        "send him out of the lane earlier, or let him arrive later", topic=str(player),
                    )


def in_lane(point: Point, court: Court) -> bool:
    """Inside the lane by more than `EDGE`."""
    return abs(point.x) < court.half_lane - EDGE and 0.0 <= point.y < court.free_throw_line - EDGE


def counts(still: Still, court: Court) -> bool:
    """The count runs: the ball is in bounds and in the front court."""
    ball = still.ball.point
    return abs(ball.x) <= court.half_width and 0.0 <= ball.y <= court.length / 2


def _stays(stills: tuple[Still, ...], player: int, court: Court) -> Iterator[tuple[float, float]]:
    entered = None
    for still in stills:
        inside = counts(still, court) and in_lane(still.place(player), court)
        if inside and entered is None:
            entered = still.t
        if not inside and entered is not None:
            yield entered, still.t
            entered = None
    if entered is not None:
        yield entered, stills[-1].t
