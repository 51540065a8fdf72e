"""in-bounds: a player other than the one who throws in leaves the floor.

What: looks at every player's way; only the player who starts out of bounds with the ball may be there, until he steps
in. A catch out of bounds counts too.
Why: the ball is dead where a line is touched, and going out on purpose to get free is a violation.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Along, do: [1 passes to 2, 4 cuts along the baseline to right corner, 2 shoots]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Out, do: [1 passes to 2, 4 cuts to 2 m outside left corner, 2 shoots]}
Source: FIBA Official Basketball Rules Art. 23, from memory; NFHS Rule 9-3, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding
from generator.checks.stills import PLAYERS, Still
from generator.diagnostics import Severity
from generator.model.court import Court, Point

RULE = "in-bounds"
LINE = 0.05  # metres: a foot on the line is out, a rounding is not


def check(case: Case) -> Iterator[Finding]:
    """One finding a player."""
    inbounder = thrower(case)
    for branch, _ in case.timelines():
        stills = case.film(branch)
        for player in PLAYERS:
            out = _first_out(stills, player, case.court, player == inbounder)
            if out is not None and out >= case.departs(branch):
                action = case.action_at(branch, player, out)
                yield case.found(
                    Severity.ERROR, RULE, branch, action, f"{player} leaves the floor",
                    "name a place inside the lines", topic=str(player),
                )


def out_of_bounds(point: Point, court: Court) -> bool:
    """On or over a line."""
    return (
        abs(point.x) > court.half_width + LINE or point.y < -LINE or point.y > court.length + LINE
    )


def thrower(case: Case) -> int | None:
    """The player who starts out of bounds with the ball; he may throw it in the first instant."""
    main = case.times.settled.main
    holder = main.phases[0].holder if main.phases else None
    return holder if holder is not None and out_of_bounds(case.film(main)[0].place(holder), case.court) else None


def _first_out(stills: tuple[Still, ...], player: int, court: Court, may: bool) -> float | None:
    for still in stills:
        out = out_of_bounds(still.place(player), court)
        if out and not may:
            return still.t
        may = may and out  # once he has stepped in he is a player like the others
    return None
