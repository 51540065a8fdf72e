"""When a player who is looked for is at his best: as he arrives, or as he passes the rim on his way somewhere else.

In: the run of a phase; out: the move that ends at that moment.
"""

from __future__ import annotations

from generator.model.play import Phase
from generator.model.sentence import Player
from generator.model.settled import Move
from generator.settling.runs import Run

AT_THE_RIM = frozenset({"rim", "front of the rim"})


def looked_for(phase: Phase) -> frozenset[int]:
    """Players named in the looks of a phase."""
    return frozenset(
        one.number for line in phase.lines for part in line.parts if part.verb == "look-for"
        for one in part.objects if isinstance(one, Player))


def best_move(run: Run, player: int) -> Move | None:
    """His last move of the phase, or the one to the rim from which he goes on to another place."""
    moves = [a for a in run.final.of_phase() if isinstance(a, Move) and a.player == player and a.key in run.made]
    if not moves:
        return None
    if moves[-1].place.spot in AT_THE_RIM or not any(player in getattr(i, "looked", ()) for i in run.items):
        return moves[-1]
    return next((m for m in reversed(moves) if m.place.spot in AT_THE_RIM and not m.with_ball), moves[-1])


def goes_on_from(run: Run, key: str | None) -> frozenset[int]:
    """Who would leave the rim again after the move `key`: a pass finds him there, so he does not."""
    move = run.final.get(key)
    if not isinstance(move, Move) or move.place.spot not in AT_THE_RIM:
        return frozenset()
    best = best_move(run, move.player)
    if best is None or best.key != move.key:
        return frozenset()
    later = (a for a in run.final.of_phase() if isinstance(a, Move) and a.player == move.player and run.made.get(a.key, -1) > run.made[key])
    return frozenset({move.player}) if any(later) else frozenset()
