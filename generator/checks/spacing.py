"""spacing: teammates stand on top of each other at the end of a phase.

What: at the end picture of every phase that does not end in a shot, two players outside who are nearer than 12 ft, or
any two nearer than 7 ft, unless an action of this phase or the next joins them (a screen set together or used, a ghost, a hand-off,
a pass, a trailer),
or one of them leaves in the phase that follows. Wing and slot of one side are neighbours (10 ft) and let pass.
Why: one defender guards two, and a pass to one is a pass to both their men.
Passes:
    play: Good
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Swing, do: [1 passes to 2, 2 shoots]}
Fails:
    play: Bad
    start: {1: top with the ball, 2: right wing, 3: left wing, 4: left corner, 5: right block}
    phases:
      - {name: Crowd, do: [2 cuts to right slot, 3 cuts to left slot, 4 cuts to 3 ft below left slot, 5 cuts to 3 ft below right slot, 1 holds]}
      - {name: Alone, do: [1 shoots]}
Source: common practice, no source: 15 to 18 ft between neighbours outside, 12 to 15 for the youngest.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from generator.checks.finding import Case, Finding
from generator.checks.ordinary import are_on
from generator.checks.stills import PLAYERS
from generator.diagnostics import Severity
from generator.model.court import FOOT, Court, Point
from generator.model.play import Phase
from generator.model.settled import AnyAction, Branch, BranchPhase, HandOff, Move, Pass, Screen, Shot

RULE = "spacing"
OUTSIDE, ANYWHERE = 12 * FOOT, 7 * FOOT


def check(case: Case) -> Iterator[Finding]:
    """One finding a crowd, that names every phase at whose end it stands."""
    crowds: dict[tuple[int, ...], list[tuple[Branch, int]]] = {}
    for branch, _ in case.timelines():
        shared = 0 if branch.departure is None else branch.forks[branch.departure.fork].phase
        for index, phase in enumerate(branch.phases):
            passed_over = index < shared or phase.round or _shot_in(branch, index) or _allowed(case, phase)
            crowd = () if passed_over else _crowd(case, branch, index, phase)
            if crowd:
                crowds.setdefault(crowd, []).append((branch, index))
    for crowd, places in crowds.items():
        yield _finding(case, crowd, places)


def _shot_in(branch: Branch, index: int) -> bool:
    """Once the shot is up nobody is asked for his spacing."""
    return any(isinstance(a, Shot) and a.phase == index for a in branch.actions)


def _allowed(case: Case, phase: BranchPhase) -> bool:
    written = next((p for p in case.play.phases if isinstance(p, Phase) and p.id == phase.id), None)
    return written is not None and any(a.rule == RULE for a in written.allow)


def _crowd(case: Case, branch: Branch, index: int, phase: BranchPhase) -> tuple[int, ...]:
    busy = _busy(branch, index)
    near = [
        pair for pair in combinations(PLAYERS, 2)
        if pair not in busy and _too_near(phase.end_plan[pair[0]], phase.end_plan[pair[1]], case.court)
    ]
    return tuple(sorted({player for pair in near for player in pair}))


def _too_near(a: Point, b: Point, court: Court) -> bool:
    outside = _is_outside(a, court) and _is_outside(b, court) and not are_on(court, a, b, "wing", "slot")
    return a.distance(b) < (OUTSIDE if outside else ANYWHERE)


def _is_outside(point: Point, court: Court) -> bool:
    return point.distance(Point(0.0, court.rim)) > court.arc_radius - 0.5 and point.y < court.length / 2


def _busy(branch: Branch, index: int) -> set[tuple[int, int]]:
    """Pairs that an action of this phase or the next joins, and everybody who moves on in the next."""
    pairs: set[tuple[int, int]] = set()
    for action in branch.actions:
        if isinstance(action, Screen) and action.group and action.phase in (index, index + 1):
            group = sorted(a.player for a in branch.actions if isinstance(a, Screen) and a.group == action.group)
            pairs |= set(combinations(group, 2))
        if action.phase in (index, index + 1):
            pairs |= {tuple(sorted((action.player, other))) for other in _others(action, branch.phases[action.phase].holder)}
        if action.phase == index + 1 and _leaves(action):
            pairs |= {tuple(sorted((action.player, other))) for other in PLAYERS if other != action.player}
    return pairs


def _leaves(action: AnyAction) -> bool:
    return isinstance(action, (Move, Screen)) or (isinstance(action, HandOff) and action.end != action.origin)


def _others(action: AnyAction, holder: int | None) -> tuple[int, ...]:
    match action:
        case Screen():
            return action.freed + action.on
        case HandOff() | Pass():
            return (action.receiver,)
        case Move(ghost=True) | Move(verb="trail"):
            return (holder,) if holder else ()
        case Move():
            return tuple(use.screener for use in action.uses)
    return ()


def _finding(case: Case, crowd: tuple[int, ...], places: list[tuple[Branch, int]]) -> Finding:
    branch, index = places[0]
    phase = branch.phases[index]
    movers = [a for a in branch.actions if a.phase == index and a.player in crowd and isinstance(a, (Move, Screen))]
    names = ", ".join(map(str, crowd[:-1])) + f" and {crowd[-1]}"
    phases = list(dict.fromkeys(b.phases[i].name for b, i in places))
    where = " and of ".join(phases) if len(phases) < 3 else ", of ".join(phases)
    near = min(
        phase.end_plan[a].distance(phase.end_plan[b]) for a, b in combinations(crowd, 2)
    )
    return case.found(
        Severity.INFO, RULE, branch, movers[-1] if movers else None,
        f"{names} stand close together at the end of {where}: {near / FOOT:.0f} ft",
        "send one of them farther, or say why: `allow: {spacing: reason}`", topic=names,
    )
