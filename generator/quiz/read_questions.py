"""Read questions: this coverage, what do you do? One for every answer and every position whose part depends on it."""

from __future__ import annotations

from collections.abc import Iterator

from generator.jobs.deeds import deeds_print
from generator.jobs.derive import answers_shown
from generator.jobs.phrases import sentence
from generator.jobs.situations import sees, sees_one
from generator.model.identity import fingerprint
from generator.model.play import Answer, Read, WatchKind
from generator.model.settled import Branch, Fork
from generator.quiz.candidates import Candidate, choose_wrong
from generator.quiz.drafts import Draft, dropped
from generator.quiz.fair import Claim, part_of
from generator.quiz.question import Clip, Kind, Picture
from generator.quiz.scene import Stretch, Version
from generator.timeline.timed import Timeline

_ASKS = ("What do you do?", "What is your move?", "What now?")
_KINDS = {WatchKind.OWN_CHOICE: Kind.JOB, WatchKind.BENCH: Kind.CALL}


def read_drafts(version: Version) -> Iterator[Draft]:
    """Drafts of all forks; a draft without options says why it is dropped."""
    shown = list(answers_shown(version.times))
    for branch, index in shown:
        fork = branch.forks[index]
        siblings = [(b, i) for b, i in shown if b.forks[i].read.id == fork.read.id]
        for player in branch.phases[fork.phase].plan:
            if version.asks(player) and _depends(version, siblings, player):
                yield _draft(version, branch, index, siblings, player)


def response(version: Version, branch: Branch, index: int, player: int) -> Stretch:
    """What a player does from the read point on: the answer's lines where it names him, else the rest of his own; with
    nothing left in this phase, his part of the next one."""
    timeline = version.times.timelines[branch.key]
    fork = branch.forks[index]
    at = timeline.fork_times[index]
    named = tuple(a.key for a in branch.actions if a.answer == fork.taken)
    stretch = Stretch(timeline, fork.phase, named, at)
    if stretch.deeds(player):
        return stretch
    for later in range(fork.phase, len(branch.phases)):
        keys = tuple(k for k in branch.phases[later].actions if k not in named and _is_open(timeline, k, at))
        stretch = Stretch(timeline, fork.phase, keys, at)
        if stretch.deeds(player):
            return stretch
    return Stretch(timeline, fork.phase, (), at)


def _is_open(timeline: Timeline, key: str, at: float) -> bool:
    """Still to be done after `at`, and not cut by the read itself."""
    timed = timeline.timed.get(key)
    return timed is not None and timed.end > at + 0.1 and (timed.cut_at is None or timed.cut_at > at + 0.1)


def _depends(version: Version, siblings: list[tuple[Branch, int]], player: int) -> bool:
    """Whether this player does different things in different answers."""
    prints = {deeds_print(response(version, b, i, player).deeds(player)) for b, i in siblings}
    return len(prints) > 1


def _draft(version: Version, branch: Branch, index: int, siblings: list[tuple[Branch, int]], player: int) -> Draft:
    fork = branch.forks[index]
    answer = fork.answer
    stretch = response(version, branch, index, player)
    right = stretch.part(player)
    kind = _KINDS.get(fork.read.watch.kind, Kind.READ)
    id_ = version.question_id(kind.value, answer.id, player, fingerprint(deeds_print(stretch.deeds(player)), right.part.end))
    wrong = choose_wrong(right, _candidates(version, branch, index, siblings, player), player, id_, _later(stretch, player))
    if wrong is None:
        return dropped(fork.read.source, _about(version, fork, answer, player))
    return Draft(
        id=id_, kind=kind, position=player, node=answer.id,
        prompt=_prompt(version, branch, index, player), right=(right,), wrong=wrong,
        why=_why(fork.read, answer), source=answer.source, read=fork.read.id, coverage=_coverage(answer),
        picture=Picture("read", branch.key, index), answer_picture=Picture("answer", branch.key, index),
        clip=Clip(branch.key, stretch.timeline.phases[fork.phase].opens, stretch.timeline.quiz_instant(index)),
        then=Clip(branch.key, stretch.start, stretch.timeline.duration), moment=f"a-{answer.id}",
    )


def _candidates(
    version: Version, branch: Branch, index: int, siblings: list[tuple[Branch, int]], player: int
) -> Iterator[Candidate]:
    """Nearest first: his part of the other answers, the other side, what others do now, his part of other phases."""
    others = [(b, i) for b, i in siblings if b.forks[i].taken != branch.forks[index].taken]
    for b, i in others:
        yield response(version, b, i, player).part(player)
    yield response(version, branch, index, player).part(player, turned=True)
    for b, i in others:
        yield response(version, b, i, player).part(player, turned=True)
    for other in branch.phases[branch.forks[index].phase].plan:
        if other != player:
            yield response(version, branch, index, other).part(other)
    main = version.times.settled.main
    for phase in range(len(main.phases)):
        yield version.phase_stretch(main, phase).part(player)
        yield version.phase_stretch(main, phase).part(player, turned=True)


def _later(stretch: Stretch, player: int) -> tuple[Claim, ...]:
    """What he goes on to do in the same branch: true as well, so never offered as wrong."""
    keys = [k for k, t in stretch.timeline.timed.items() if t.end > stretch.start + 0.1]
    deeds = Stretch(stretch.timeline, stretch.phase, tuple(keys), stretch.start).deeds(player)
    return part_of(deeds, stretch.plan_point(player)).claims


def _prompt(version: Version, branch: Branch, index: int, player: int) -> str:
    fork = branch.forks[index]
    answer = fork.answer
    seen = sees_one(fork, answer.sights[0], branch, player) if answer.sights and _says_sights(fork) else sees(fork, answer, branch, player)
    ask = _ASKS[int(answer.id, 36) % len(_ASKS)]
    phase = branch.phases[fork.phase].name
    return f"{version.title}, {phase}: you are {player}. {sentence(seen)} {ask}"


def _says_sights(fork: Fork) -> bool:
    return fork.read.watch.kind not in (WatchKind.OWN_CHOICE, WatchKind.BENCH)


def _why(read: Read, answer: Answer) -> str:
    return answer.why.text if answer.why else read.why.text if read.why else ""


def _coverage(answer: Answer) -> str:
    return answer.sights[0][0].coverage if answer.sights else ""


def _about(version: Version, fork: Fork, answer: Answer, player: int) -> str:
    return f"{version.title}: read of {fork.reader}, {answer.key}, for {player}"
