"""long-pass: a plain pass of more than 25 feet.

What: from hand to hand, at the instants of release and catch; lobs, skip, overhead, outlet and baseball passes are
made for it, and so is a throw-in. From slot to corner of one side (27 ft on the international floor) is let pass.
Why: it hangs in the air long enough for any defender to arrive.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 2 skip passes to 4, 4 shoots]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 2 passes to 4, 4 shoots]}
Source: common practice, no source: 12 to 18 feet are preferred, 25 are a risk.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding
from generator.checks.ordinary import are_on
from generator.checks.pass_lane import caught
from generator.diagnostics import Severity
from generator.model.court import FOOT
from generator.model.settled import Instant, PassKind

RULE = "long-pass"
LIMIT = 25 * FOOT
SHORT_KINDS = frozenset({PassKind.CHEST, PassKind.BOUNCE, PassKind.POCKET, PassKind.DROP})


def check(case: Case) -> Iterator[Finding]:
    """One finding a pass."""
    for branch, timeline in case.timelines():
        for timed in case.own(branch):
            action = timed.action
            if not caught(timed) or action.throw_in or action.pass_kind not in SHORT_KINDS:
                continue
            start = timeline.position(action.player, timed.instants[Instant.RELEASE])
            end = timeline.position(action.receiver, timed.instants[Instant.CATCH])
            length = start.distance(end)
            if length > LIMIT and not are_on(case.court, start, end, "slot", "corner"):
                yield case.found(
                    Severity.WARNING, RULE, branch, action,
                    f"{action.player}'s pass to {action.receiver} is {length / FOOT:.0f} ft ({length:.1f} m) long",
                    "write `skip passes` or `lobs`, or go through a teammate", topic=action.key,
                )
