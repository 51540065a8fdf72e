"""Rounds of a repeat. In: the walker, a path at its repeat; out: the path turned for the next round, mistakes told.

A round begins where the phase named by `repeat` stands, with players matched by place and, if so written, mirrored.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from generator.model.book import fold_name
from generator.model.play import Phase, Repeat
from generator.settling.continuing import match_roles
from generator.settling.paths import IDENTITY, Path

if TYPE_CHECKING:
    from generator.settling.walker import Walker

MOST_ROUNDS = 10  # language.md 6.4


def next_round(walker: Walker, path: Path, repeat: Repeat, index: int) -> int | None:
    """Turns roles and side for the next round; the script index it begins at. `index` is the repeat's own."""
    wanted, above = fold_name(repeat.phase), walker.script.phases[:index]
    start = next((i for i, s in enumerate(above) if isinstance(s.phase, Phase) and not s.lead_in
                  and fold_name(s.phase.name) == wanted), None)
    if start is None or not any(p.index == start for p in path.phases):
        known = ", ".join(s.phase.name for s in above if isinstance(s.phase, Phase))
        walker.setting.problems.error(repeat.source, "unknown-phase", f"there is no phase {repeat.phase} to repeat from",
                                      f"phases above: {known}")
        return None
    turned = path.turned != repeat.mirrored
    roles = match_roles(repeat, start, index, turned, path, walker.script, walker.setting)
    if roles is None:
        return None
    path.roles, path.turned, path.round = roles, turned, path.round + 1
    return start


def prove_rounds(walker: Walker, path: Path, repeat: Repeat, index: int) -> None:
    """Walks on until roles and side are those of the first round, so that a later round's mistake is told too."""
    proof = replace(path, phases=list(path.phases), state=path.state.copy(), roles=dict(path.roles))
    while proof.round < MOST_ROUNDS and not proof.state.ended:
        at = next_round(walker, proof, repeat, index)
        if at is None or (proof.roles == IDENTITY and not proof.turned):
            return
        while at is not None and at < index and not proof.state.ended:
            at = walker.follow(proof, walker.run_phase(proof, at, bare=True))
