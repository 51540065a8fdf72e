"""A play for the motion in the page: every branch's samples, with the words and the floor the page shows.

Out: JSON-ready values, version 1. `tracks` has one entry a branch, main line first: `timeline.motion_data` plus
    key, name
    names: of the phases; lines: what the coach wrote, by phase
    reads: for each fork {name, taken (index of its answer), answers: [[words, branch key], ...]}
After them one for each further coverage of a key with `or` (key: `timeline.other_sight.sight_key`).
Beside them: play (id), floor (id of the floor's symbol), box (view box), casts [[words, numbers shown by role 1-5]].
"""

from __future__ import annotations

from collections.abc import Iterable

from generator.diagrams.scene import View
from generator.diagrams.svg_writer import court_id
from generator.diagrams.words import written_lines
from generator.model.play import Answer, WatchKind
from generator.model.settled import Branch, Fork
from generator.timeline.motion import motion_data
from generator.timeline.other_sight import other_sight, sight_key
from generator.timeline.timed import PlayTimes, Timeline

VERSION = 1
_THEN = ", then "  # between the parts of a branch's name


def motion_file(times: PlayTimes, view: View) -> dict:
    """Everything the motion of a play needs. `view`: from `play_view`."""
    branches = times.settled.branches
    return {
        "version": VERSION,
        "play": times.play.id,
        "floor": court_id(view),
        "box": " ".join(f"{v:g}" for v in view.box),
        "casts": list(_casts(times)),
        "tracks": [_track(times.timelines[b.key], branches) for b in branches if b.key in times.timelines] + _others(times),
    }


def _others(times: PlayTimes) -> list[dict]:
    """A track for each further coverage of a key with `or`, once an answer: questions run them, nothing leads there."""
    seen: set[tuple[str, str]] = set()
    tracks = []
    for branch in times.settled.branches:
        for index, fork in enumerate(branch.forks):
            if fork.read.watch.kind is WatchKind.DEFENDERS and branch.key in times.timelines and (fork.read.id, fork.taken) not in seen:
                seen.add((fork.read.id, fork.taken))
                for way in range(1, len(fork.answer.sights)):
                    timeline = other_sight(times.timelines[branch.key], index, way)
                    tracks.append({**_track(timeline, times.settled.branches), "key": sight_key(branch, index, way)})
    return tracks


def _track(timeline: Timeline, branches: tuple[Branch, ...]) -> dict:
    branch = timeline.branch
    return {
        "key": branch.key,
        "name": branch.name,
        "names": [p.name for p in branch.phases],
        "lines": [list(written_lines(map(branch.action, p.actions))) for p in branch.phases],
        "reads": [_read(branch, i, branches) for i in range(len(branch.forks))],
        **motion_data(timeline),
    }


def _read(branch: Branch, index: int, branches: tuple[Branch, ...]) -> dict:
    fork = branch.forks[index]
    answers = fork.read.answers
    leads = [_branch_taking(branch, index, a, branches) for a in answers]
    by_key = {b.key: b for b in branches}
    return {
        "name": _asks(fork),
        "taken": next((i for i, a in enumerate(answers) if a.id == fork.taken), 0),
        "answers": [[_words(a, fork, index, by_key.get(key)), key] for a, key in zip(answers, leads, strict=True)],
    }


_ASKS = {
    WatchKind.DEFENDERS: "{reader} watches {text}",
    WatchKind.PLAYERS: "{reader} looks for the open man",
    WatchKind.OWN_CHOICE: "{reader} chooses",
    WatchKind.BENCH: "the bench calls",
    WatchKind.CLOCK: "{reader} looks at the clock",
    WatchKind.BALL: "where the ball goes",
}


def _asks(fork: Fork) -> str:
    watch = fork.read.watch
    kind = watch.kind if watch.text or watch.kind is not WatchKind.DEFENDERS else WatchKind.OWN_CHOICE
    return _ASKS[kind].format(reader=fork.reader, text=watch.text)


def _words(answer: Answer, fork: Fork, index: int, led: Branch | None) -> str:
    """What is seen, as the branch it leads to is called by people; else as the coach wrote it."""
    if answer.is_otherwise:
        return "nobody open" if fork.read.watch.kind is WatchKind.PLAYERS else "none of these"
    if led is not None and led.departure is not None and led.departure.fork == index:
        return led.name.rsplit(_THEN, 1)[-1]
    return answer.key


def _branch_taking(branch: Branch, index: int, answer: Answer, branches: tuple[Branch, ...]) -> str:
    """Key of the first branch that is like this one before the fork and takes `answer` there; '' when there is none."""
    before = [_choice(f) for f in branch.forks[:index]]
    wanted = [*before, (*_place(branch.forks[index]), answer.id)]
    if [_choice(f) for f in branch.forks[: index + 1]] == wanted:
        return branch.key
    same = (b for b in branches if [_choice(f) for f in b.forks[: index + 1]] == wanted)
    return next((b.key for b in same), "")


def _place(fork: Fork) -> tuple[str, int]:
    return (fork.read.id, fork.phase)


def _choice(fork: Fork) -> tuple[str, int, str]:
    return (*_place(fork), fork.taken)


def _casts(times: PlayTimes) -> Iterable[list]:
    """The play as written, then with each player who may also run it in another's place (`also for` is a swap)."""
    yield ["as written", [1, 2, 3, 4, 5]]
    for player, role in sorted(times.play.also_for.items()):
        shown = {player: role, role: player}
        yield [f"{player} in {role}'s place", [shown.get(n, n) for n in range(1, 6)]]
