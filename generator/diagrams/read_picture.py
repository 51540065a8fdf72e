"""The picture of a read question: everybody at the quiz instant, with the last steps of those who matter.

The watched defenders show the coverage by where they stand and by the trace of their last steps; the reader has a ring.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from generator.diagrams.path import Path, Spot, Straight, apart
from generator.diagrams.placement import compose
from generator.diagrams.scene import DefenderMark, Scene, Tail, Token, View
from generator.diagrams.sketch import Sketch
from generator.model.court import Point
from generator.model.play import WatchKind
from generator.model.settled import Fork
from generator.timeline.timed import PlayTimes, Timeline

LAST_STEPS = 0.7  # seconds of trace
_ROOM = 5.6  # picture units between a trace and the middle of a number
_X_WIDE, _X_HIGH, _UNDERLINED = 5.2, 4.0, 5.6  # and of a defender's mark: to either side, up and down, down to his line
_STEP = 0.1
_SHORTEST = 5.0  # picture units of trace; less looks like a stray tick


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
    holder = _holder(timeline, index, now)
    players = sorted(timeline.branch.start)
    scene = compose(
        Sketch(
            view,
            {p: view.place(timeline.position(p, now)) for p in players},
            holder,
            f"What {fork.reader} sees",
            _words(fork, holder),
            defenders={b: view.place(timeline.defender(b, now)) for b in players},
            watched=frozenset(watched),
            reader=fork.reader,
        )
    )
    return _with_tails(scene, timeline, fork, now, watched)


_JUST = 0.05  # seconds before the read in which a pass belongs to what is read


def _holder(timeline: Timeline, index: int, now: float) -> int | None:
    """Who has the ball: still the passer where it leaves him between the read and the picture, for that pass is the answer
    to what is seen."""
    ball = timeline.ball(now)
    before = timeline.ball(max(0.0, timeline.fork_times[index] - _JUST)).holder
    return before if ball.holder is None and ball.receiver is not None and before == ball.passer else ball.holder


def _words(fork: Fork, holder: int | None) -> str:
    looks = " and ".join(f"X{b}" for b in fork.watched) or "the play"
    has = f"{holder} has the ball." if holder else "The ball is in the air."
    return f"{fork.reader} watches {looks}. {has}"


def _with_tails(scene: Scene, timeline: Timeline, fork: Fork, now: float, watched: tuple[int, ...]) -> Scene:
    movers = {fork.reader} | {a.player for a in timeline.branch.actions if a.key in (fork.screen, fork.user)}
    return with_last_steps(scene, timeline, now, sorted(movers), watched)


def with_last_steps(
    scene: Scene, timeline: Timeline, now: float, movers: Iterable[int], watched: Iterable[int], room: Iterable[Spot] = ()
) -> Scene:
    """The scene with traces of the last steps of players and of defenders, as far as they are clear of all numbers and
    of the other spots `room`."""
    shown = {("O", t.player): _Round(t.at) for t in scene.of(Token)}
    shown |= {("X", d.body): _Box(d.at, _UNDERLINED if d.watched else _X_HIGH) for d in scene.of(DefenderMark)}
    marks = [_Round(at) for at in room]
    tails = []
    for key in [*(("O", p) for p in movers), *(("X", b) for b in watched)]:
        where = timeline.position if key[0] == "O" else timeline.defender
        spots = _steps(scene.view, lambda t, w=where, n=key[1]: w(n, t), now, shown[key].at)
        path = _clear_part(spots, shown[key], [*(d for other, d in shown.items() if other != key), *marks])
        if path is not None:
            tails.append(Tail(path, key[0] == "X"))
    return Scene(scene.view, (*tails, *scene.items), scene.title, scene.words, scene.strain)


def _steps(view: View, where: Callable[[float], Point], now: float, shown: Spot) -> list[Spot]:
    """The last steps, moved so that they end where the mark is shown."""
    count = round(LAST_STEPS / _STEP)
    spots = [view.place(where(max(0.0, now - _STEP * (count - i)))) for i in range(count + 1)]
    dx, dy = shown[0] - spots[-1][0], shown[1] - spots[-1][1]
    return [(x + dx * i / count, y + dy * i / count) for i, (x, y) in enumerate(spots)]


@dataclass(frozen=True, slots=True)
class _Round:
    """Where a trace may not lie: round a number or another mark."""

    at: Spot

    def has(self, spot: Spot) -> bool:
        """True inside."""
        return apart(spot, self.at) < _ROOM


@dataclass(frozen=True, slots=True)
class _Box:
    """The same for a defender's mark, which is wide and low; `down`: picture units below its middle."""

    at: Spot
    down: float

    def has(self, spot: Spot) -> bool:
        """True inside."""
        return abs(spot[0] - self.at[0]) < _X_WIDE and -_X_HIGH < spot[1] - self.at[1] < self.down


def _clear_part(spots: list[Spot], own: _Round | _Box, others: list[_Round | _Box]) -> Path | None:
    """The trace up to its own mark, as far back as it touches no other; None when too little is left."""
    pieces = tuple(Straight(a, b) for a, b in itertools.pairwise(spots) if apart(a, b) > 1e-3)
    if not pieces:
        return None
    path = Path(pieces)
    fine = path.samples(0.5)
    end = next((i for i in range(len(fine) - 1, -1, -1) if not own.has(fine[i])), 0)
    begin = next((i + 1 for i in range(end, -1, -1) if any(o.has(fine[i]) for o in others)), 0)
    stride = path.length / (len(fine) - 1)
    return path.part(begin * stride, end * stride) if (end - begin) * stride >= _SHORTEST else None
