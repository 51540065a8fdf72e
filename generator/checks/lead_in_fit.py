"""lead-in-fit: a lead-in ends in another picture than the play starts in.

What: where each player stands when the lead-in is over (in the roles the play gives him) against where the play wants
him, and who has the ball; more than 1.5 m off, or another holder, is an error. Lead-ins that may be chained are
compared with each other too.
Why: the play would begin with five players walking, and every second of it would be wrong.
Passes:
    lead-in: Side to side
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Over, do: [1 passes to 2, 2 passes to 1]}
    ---
    play: Good
    lead-in: [Side to side]
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 2 shoots]}
Fails:
    lead-in: Side to side
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Over, do: [1 passes to 2, 4 cuts to left block]}
    ---
    play: Bad
    lead-in: [Side to side]
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 2 shoots]}
Source: ours.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations

from generator.checks.finding import Case, Finding
from generator.checks.stills import PLAYERS
from generator.diagnostics import Diagnostic, Severity
from generator.model.book import fold_name
from generator.model.play import LeadInRef
from generator.model.settled import BranchPhase
from generator.model.spots import name_place
from generator.timeline.timed import PlayTimes

RULE = "lead-in-fit"
OFF = 1.5  # metres


def check_lead_ins(case: Case, lead_ins: Mapping[str, PlayTimes]) -> Iterator[Finding]:
    """One finding a lead-in of the play that does not fit, and one a pair that cannot be chained."""
    start = case.times.settled.main.phases[0]
    known = [(ref, lead_ins[fold_name(ref.name)]) for ref in case.play.lead_ins if fold_name(ref.name) in lead_ins]
    for ref, lead_in in known:
        yield from _compare(case, ref, lead_in, start, {}, case.play.name)
    for (first, before), (second, after) in combinations(known, 2):
        opening = after.settled.main.phases[0]
        yield from _compare(case, first, before, opening, second.roles, after.play.name)


def _compare(
    case: Case, ref: LeadInRef, lead_in: PlayTimes, wanted: BranchPhase, roles: Mapping[int, int], name: str
) -> Iterator[Finding]:
    """`roles` of the picture wanted, where it is another lead-in's; of the ending one they stand in `ref`."""
    end = lead_in.settled.main.phases[-1]
    for player in PLAYERS:
        there, here = end.end_plan[ref.roles.get(player, player)], wanted.plan[roles.get(player, player)]
        if there.distance(here) > OFF:
            yield _finding(
                ref, f"{player} ends {ref.name} at {name_place(case.court, there).words}, and {name} starts with him "
                f"at {name_place(case.court, here).words}, {there.distance(here):.1f} m away",
            )
    holder, wants = _player_of(ref.roles, end.end_holder), _player_of(roles, wanted.holder)
    if holder != wants:
        yield _finding(ref, f"{ref.name} ends with the ball at {_who(holder)}, and {name} starts with it at {_who(wants)}")


def _player_of(roles: Mapping[int, int], role: int | None) -> int | None:
    """The player of the play who has `role` in the lead-in."""
    return next((p for p in PLAYERS if roles.get(p, p) == role), None)


def _who(player: int | None) -> str:
    return "nobody" if player is None else str(player)


def _finding(ref: LeadInRef, message: str) -> Finding:
    hint = "change the lead-in's end or the play's start, or say who takes which role: `lead-in: [{NAME: {2: 3, 3: 2}}]`"
    return Finding(Diagnostic(ref.source, Severity.ERROR, RULE, message, hint), topic=message)
