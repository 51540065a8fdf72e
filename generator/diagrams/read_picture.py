"""The picture of a read question: everybody at the quiz instant, with the last steps of those who matter.

The watched defenders show the coverage by where they stand and by the trace of their last steps; the reader has a ring.
"""

from __future__ import annotations

from generator.diagrams.path import Path, Straight
from generator.diagrams.placement import compose
from generator.diagrams.scene import Scene, Tail, View
from generator.diagrams.sketch import Sketch
from generator.model.play import WatchKind
from generator.model.settled import Fork
from generator.timeline.timed import PlayTimes, Timeline

LAST_STEPS = 0.7  # seconds of trace
_STEP = 0.1
_SHORTEST = 4.0  # picture units of trace worth drawing


def read_picture(times: PlayTimes, fork: Fork, coverage: str, view: View) -> Scene:
    """The scene in which `fork.reader` must recognise `coverage` (vocabulary id; '' for otherwise)."""
    timeline, index = branch_showing(times, fork, coverage)
    return moment_picture(timeline, index, view)


def branch_showing(times: PlayTimes, fork: Fork, coverage: str) -> tuple[Timeline, int]:
    """The timeline whose defence plays that coverage at this fork, and the fork's index in it."""
    found = []
    for key, timeline in times.timelines.items():
        for i, other in enumerate(timeline.branch.forks):
            if other.read.id == fork.read.id and other.phase == fork.phase and _shows(other, coverage):
                found.append((len(timeline.branch.forks), i, key))
    if not found:
        raise ValueError(f"no branch shows {coverage or 'otherwise'} at read {fork.read.id}")
    _, index, key = min(found)
    return times.timelines[key], index


def _shows(fork: Fork, coverage: str) -> bool:
    seen = {sight.coverage for group in fork.answer.sights for sight in group}
    return coverage in seen if coverage else fork.answer.is_otherwise


def moment_picture(timeline: Timeline, index: int, view: View) -> Scene:
    """Everybody at the quiz instant of the branch's fork `index`."""
    fork = timeline.branch.forks[index]
    now = timeline.quiz_instant(index)
    watched = fork.watched if fork.read.watch.kind is WatchKind.DEFENDERS else ()
    ball = timeline.ball(now)
    players = sorted(timeline.branch.start)
    scene = compose(
        Sketch(
            view,
            {p: view.place(timeline.position(p, now)) for p in players},
            ball.holder,
            f"What {fork.reader} sees",
            _words(fork, ball.holder),
            defenders={b: view.place(timeline.defender(b, now)) for b in players},
            watched=frozenset(watched),
            reader=fork.reader,
        )
    )
    return _with_tails(scene, timeline, fork, now, watched)


def _words(fork: Fork, holder: int | None) -> str:
    looks = " and ".join(f"X{b}" for b in fork.watched) or "the play"
    has = f"{holder} has the ball." if holder else "The ball is in the air."
    return f"{fork.reader} watches {looks}. {has}"


def _with_tails(scene: Scene, timeline: Timeline, fork: Fork, now: float, watched: tuple[int, ...]) -> Scene:
    tails = []
    movers = {fork.reader} | {a.player for a in timeline.branch.actions if a.key in (fork.screen, fork.user)}
    for player in sorted(movers):
        tails.append(_tail(scene.view, lambda t, p=player: timeline.position(p, t), now, False))
    for body in watched:
        tails.append(_tail(scene.view, lambda t, b=body: timeline.defender(b, t), now, True))
    kept = tuple(t for t in tails if t is not None)
    return Scene(scene.view, kept + scene.items, scene.title, scene.words, scene.strain)


def _tail(view: View, where, now: float, defence: bool) -> Tail | None:
    steps = round(LAST_STEPS / _STEP)
    spots = [view.place(where(max(0.0, now - _STEP * (steps - i)))) for i in range(steps + 1)]
    path = Path(tuple(Straight(a, b) for a, b in zip(spots, spots[1:], strict=False) if a != b) or (Straight(spots[0], spots[0]),))
    cut = path.part(0.0, path.length - 5.6)
    return Tail(cut, defence) if cut.length >= _SHORTEST else None
