"""screen-kind: the word before `screen` says another thing than the floor shows.

What: compares the kind named in the sentence (down, pin-down, back, up, cross, flex, flare, ball, step-up, side, flat,
ram, hammer, exit, away, drag) with the places of screener and user.
Why: players learn the name with the picture; a cross screen that goes down the lane teaches both wrong.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}
    phases:
      - {name: Down, do: [5 down screens for 3, 3 cuts off 5 to left wing, 1 passes to 3, 3 shoots]}
Fails:
    play: Bad
    start: {1: right wing with the ball, 2: right corner, 3: left corner, 4: right block, 5: top}
    phases:
      - {name: Lane, do: [4 cross screens for 5 at nail, 5 cuts off 4 to rim, 1 lobs to 5, 5 finishes]}
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding
from generator.checks.screen_shapes import fits, looks_like
from generator.checks.screen_uses import shape_of, uses
from generator.diagnostics import Severity
from generator.model.settled import Screen

RULE = "screen-kind"


def check(case: Case) -> Iterator[Finding]:
    """One finding a screen."""
    for branch, _ in case.timelines():
        for used in uses(case, branch):
            screen = used.screen.action
            assert isinstance(screen, Screen)
            if not screen.kind or screen.group_kind:
                continue
            shape = shape_of(case, branch, used)
            if not fits(shape, screen.kind):
                seen = looks_like(shape)
                yield case.found(
                    Severity.INFO, RULE, branch, screen,
                    f"this {screen.kind} screen is none by where {screen.player} stands and "
                    f"{used.move.action.player} goes",
                    f"it looks like a {seen} screen" if seen else "move the screen, or leave its kind out",
                    topic=screen.key,
                )
