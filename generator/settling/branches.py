"""A walked path as a Branch of the contract. In: Path; out: Branch, every reference inside it kept whole."""

from __future__ import annotations

from dataclasses import replace

from generator.model.settled import (
    AnyAction,
    Branch,
    BranchPhase,
    Cue,
    Departure,
    HandOff,
    Move,
    Pass,
    Screen,
    Trigger,
    Use,
)
from generator.settling.continuing import scorer_of
from generator.settling.naming import branch_name
from generator.settling.paths import Path, PhaseRun
from generator.settling.state import Setting, State


def make_branch(path: Path, setting: Setting) -> Branch:
    """The branch of a path."""
    state = path.state
    actions = tuple(_whole(a, state) for a in state.actions)
    return Branch(
        path.key, branch_name(path.names), _phases(path), actions, tuple(path.forks()),
        tuple(_whole_cue(c, state) for c in state.cues), path.ending, scorer_of(path), path.parent,
        _whole_departure(path.departure, state) if path.departure else None, setting.play.clock,
        tuple(sorted(setting.on_the_run)),
    )


def _phases(path: Path) -> tuple[BranchPhase, ...]:
    met = [p for p in path.phases if not p.skipped]
    return tuple(_phase(p, met[i + 1].entry if i + 1 < len(met) else path.state, i, path.state) for i, p in enumerate(met))


def _phase(met: PhaseRun, after: State, number: int, final: State) -> BranchPhase:
    entry, phase = met.entry, met.phase
    keys = tuple(a.key for a in final.actions if a.phase == number)
    return BranchPhase(
        phase.id, phase.name, dict(entry.place), dict(after.place), dict(entry.name), entry.holder, after.holder, keys,
        met.opening, met.lead_in, met.round, phase.optional,
    )


# -- references ------------------------------------------------------------------------------------------


def _whole(action: AnyAction, state: State) -> AnyAction:
    """The action without references to actions that this branch does not have."""
    known, changes = state.index, {}
    if action.triggers:
        triggers = tuple(t for t in (_whole_trigger(t, known) for t in action.triggers) if t)
        if triggers != action.triggers:
            changes["triggers"] = triggers
    if isinstance(action, Move):
        changes |= _of_move(action, known)
    elif isinstance(action, Screen):
        users = tuple(k for k in action.users if k in known)
        changes |= {"users": users} if users != action.users else {}
    elif isinstance(action, Pass) and action.meets is not None and action.meets not in known:
        changes |= {"meets": None, "lead": False}
    elif isinstance(action, HandOff) and action.receiver_move is not None and action.receiver_move not in known:
        changes["receiver_move"] = None
    return replace(action, **changes) if changes else action


def _of_move(action: Move, known: dict[str, int]) -> dict[str, object]:
    changes: dict[str, object] = {}
    if any(u.screen is not None and u.screen not in known for u in action.uses):
        changes["uses"] = tuple(_whole_use(u, known) for u in action.uses)
    if any(k not in known for k in action.waits_clear):
        changes["waits_clear"] = tuple(k for k in action.waits_clear if k in known)
    if action.waits_set is not None and action.waits_set not in known:
        changes["waits_set"] = None
    return changes


def _whole_use(use: Use, known: dict[str, int]) -> Use:
    return use if use.screen is None or use.screen in known else replace(use, screen=None, needs_set=False)


def _whole_trigger(trigger: Trigger, known: dict[str, int]) -> Trigger | None:
    marks = tuple(m for m in trigger.marks if m.action is None or m.action in known)
    if len(marks) == len(trigger.marks):
        return trigger
    return replace(trigger, marks=marks) if marks else None


def _whole_cue(cue: Cue, state: State) -> Cue:
    known = state.index
    return replace(cue, on=cue.on if cue.on in known else None, user=cue.user if cue.user in known else None)


def _whole_departure(departure: Departure, state: State) -> Departure:
    known = state.index
    return replace(departure, stopped=tuple(k for k in departure.stopped if k in known),
                   own=tuple(k for k in departure.own if k in known))
