"""Who starts later than he could, so that nobody stands and waits (timeline.md 3.6): cutters and hand-offs."""

from __future__ import annotations

from generator.model.settled import HandOff, Hold, Instant, Move, Pass
from generator.timeline.chains import is_walk
from generator.timeline.parameters import WAIT_CAP, WAIT_MIN
from generator.timeline.schedule import Schedule

PATIENT = frozenset({"curl", "flash", "flare"})


def hold_back(s: Schedule, reads: tuple[float, ...]) -> None:
    """Delay starts within their free float: then no other instant gets later, so one look at each is enough."""
    for action in s.actions:
        if isinstance(action, Pass):
            _hold_cutter(s, action, reads)
        elif isinstance(action, HandOff) and action.key not in s.past_cut:
            _hold_receiver(s, action, reads)
            _hold_giver(s, action, reads)


def _hold_cutter(s: Schedule, action: Pass, reads: tuple[float, ...]) -> None:
    move = s.chains.actions.get(action.meets) if action.meets else None
    if not isinstance(move, Move) or action.lead or not _may_wait(s, move) or move.phase != action.phase:
        return
    due = s.time(action.key, Instant.CATCH)
    _delay(s, move, s.time(move.key, Instant.END), due, WAIT_CAP, reads)


def _may_wait(s: Schedule, move: Move) -> bool:
    if move.key not in s.at or move.key in s.past_cut:
        return False
    if any(t.hold is Hold.AT_ONCE for t in move.triggers):
        return False
    return bool(move.uses) or move.curl or move.verb in PATIENT or move.kind in PATIENT


def _hold_receiver(s: Schedule, action: HandOff, reads: tuple[float, ...]) -> None:
    """The receiver of a hand-off arrives with the giver, however long that takes."""
    move = s.chains.actions.get(action.receiver_move) if action.receiver_move else None
    if not isinstance(move, Move) or move.key not in s.at or move.key in s.past_cut or move.phase != action.phase:
        return
    if any(t.hold is Hold.AT_ONCE for t in move.triggers):
        return
    course = s.courses.of(move.key)
    arrival = s.net.times[s.start[move.key]] + course.times(course.index(move.key))[1]
    _delay(s, move, arrival, s.time(action.key, Instant.MEET), float("inf"), reads)


def _hold_giver(s: Schedule, action: HandOff, reads: tuple[float, ...]) -> None:
    """The giver starts his dribble so that nobody stands with the ball."""
    if is_walk(action, action.player):
        stop = s.stop(action.key)
        due = s.time(action.key, Instant.MEET)
        _delay(s, action, s.net.times[stop[0]] + stop[1], due, float("inf"), reads)


def _delay(s: Schedule, walk: Move | HandOff, arrival: float, due: float, cap: float, reads: tuple[float, ...]) -> None:
    wait = due - arrival
    node = s.start[walk.key]
    if wait <= WAIT_MIN or s.net.fixed[node] is not None:
        return
    start = s.net.times[node]
    if any(start < read < due for read in reads):
        return  # what comes after a read must not reach back before it
    run = s.chains.runs[walk.key]
    if run.members[-1] is not walk and run.through[run.members.index(walk)] is None:
        return
    room = min(wait, cap, s.net.free_float(node))
    if room > 1e-6:
        s.net.delay[node] = s.net.delay.get(node, 0.0) + room
        s.net.sweep()
