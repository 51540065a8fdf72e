"""Read questions: this coverage, what do you do? One for every answer and every position whose part depends on it."""

from __future__ import annotations

from collections.abc import Iterator

from generator.jobs.deeds import DeedKind, deeds_of, deeds_print
from generator.jobs.derive import answers_shown
from generator.jobs.phrases import sentence
from generator.jobs.situations import not_open, sees, sees_one, who_is_open
from generator.model.identity import fingerprint
from generator.model.play import Answer, WatchKind
from generator.model.settled import Branch, Fork, HandOff, Pass
from generator.quiz.candidates import Ranked, choose_wrong
from generator.quiz.drafts import TWO_BALLS, Draft, dropped
from generator.quiz.draws import digest
from generator.quiz.fair import PLACE_APART, Claim, part_of
from generator.quiz.question import Clip, Kind, Picture
from generator.quiz.reasons import why_read
from generator.quiz.scene import Stretch, Version, asked_clip, one_ball
from generator.timeline.timed import Timed, Timeline

_ASKS = ("What do you do?", "What is your move?", "What now?")
_ASKS_LATER = "What do you do next?"  # his next deed stands in a later phase
_STAYS = 4  # out of six
_IDLE = 2
_KINDS = {WatchKind.OWN_CHOICE: Kind.JOB, WatchKind.BENCH: Kind.CALL}


def read_drafts(version: Version) -> Iterator[Draft]:
    """Drafts of all forks; a draft without options says why it is dropped."""
    shown = [(b, i) for b, i in answers_shown(version.times) if one_ball(version.times.timelines[b.key])]
    for branch, index in answers_shown(version.times):
        fork = branch.forks[index]
        if (branch, index) not in shown:
            yield dropped(fork.answer.source, _about(version, fork), TWO_BALLS)
            continue
        siblings = [(b, i) for b, i in shown if b.forks[i].read.id == fork.read.id]
        for player in branch.phases[fork.phase].plan:
            if version.asks(player) and _depends(version, siblings, player):
                for way in range(_ways(fork) if _worth_asking(version, branch, index, player) else 0):
                    yield _draft(version, branch, index, siblings, player, way)


def _ways(fork: Fork) -> int:
    """How many coverages an answer's key names that can be asked one by one."""
    single = fork.read.watch.kind is WatchKind.PLAYERS or fork.read.watch.kind in _KINDS
    return 1 if single else max(1, len(fork.answer.sights))


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
        keys = tuple(k for k in branch.phases[later].actions if k not in named and _is_open(timeline, k, at) and _settled(branch, k, fork, later))
        stretch = Stretch(timeline, fork.phase, keys, at)
        if stretch.deeds(player):
            return stretch
    return Stretch(timeline, fork.phase, (), at)


def _settled(branch: Branch, key: str, fork: Fork, phase: int) -> bool:
    """Not itself the outcome of a later read: what he does there depends on what he sees there."""
    return phase == fork.phase or branch.action(key).answer is None


def _is_open(timeline: Timeline, key: str, at: float) -> bool:
    """Still to be done after `at`, and not cut by the read itself."""
    timed = timeline.timed.get(key)
    return timed is not None and timed.end > at + 0.1 and (timed.cut_at is None or timed.cut_at > at + 0.1)


def _depends(version: Version, siblings: list[tuple[Branch, int]], player: int) -> bool:
    """Whether this player does different things in different answers. Where a reader looks for who is open only he has
    something to decide: the others are where they are and get the ball or do not."""
    fork = siblings[0][0].forks[siblings[0][1]]
    if fork.read.watch.kind is WatchKind.PLAYERS and player != fork.reader:
        return False
    return len({_part_print(version, b, i, player) for b, i in siblings}) > 1


def _worth_asking(version: Version, branch: Branch, index: int, player: int) -> bool:
    """Who does not read and has nothing to do is asked about it one time in `_IDLE`: more, and standing still would be a
    safe guess."""
    fork = branch.forks[index]
    idle = player != fork.reader and not response(version, branch, index, player).deeds(player)
    return not idle or digest(f"idle/{fork.taken}/{version.role(player)}") % _IDLE == 0


def _part_print(version: Version, branch: Branch, index: int, player: int) -> str:
    """A digest of his part in the phase of a read and, with nothing left there, of what comes next; not of how much of
    his line is over by then, for the read may come earlier in one branch than in another."""
    stretch = response(version, branch, index, player)
    fork = branch.forks[index]
    deeds = stretch.deeds(player)
    if deeds and (deeds[0].action.answer == fork.taken or deeds[0].action.phase > fork.phase):
        return deeds_print(deeds)
    timed = stretch.timeline.timed
    keys = (a.key for a in branch.actions if a.phase == fork.phase and a.answer != fork.taken and a.key in timed and timed[a.key].cut_at is None)
    return deeds_print(deeds_of(branch, player, keys))


def _draft(
    version: Version, branch: Branch, index: int, siblings: list[tuple[Branch, int]], player: int, way: int = 0
) -> Draft:
    """`way`: which of the coverages of a key with `or`; the picture and the motion show that one."""
    fork = branch.forks[index]
    answer = fork.answer
    stretch = response(version, branch, index, player)
    right = stretch.part(player)
    kind = _KINDS.get(fork.read.watch.kind, Kind.READ)
    node = f"{answer.id}/{way}" if way else answer.id
    id_ = version.question_id(kind.value, node, player, fingerprint(deeds_print(stretch.deeds(player)), right.part.end))
    mates = (response(version, branch, index, n).part(n) for n in version.interchangeable(player))
    also = _also_true(stretch, player) + tuple(c for mate in mates if not mate.idle for c in mate.part.claims)
    stay = stretch.stay(player) if not _is_later(stretch, player) and not right.idle else None
    wrong = choose_wrong(right, _candidates(version, branch, index, siblings, player), player, id_, also, stay, _STAYS)
    if wrong is None:
        return dropped(fork.read.source, f"{_about(version, fork)}, for {player}")
    return Draft(
        id=id_, kind=kind, position=player, node=answer.id,
        prompt=_prompt(version, branch, index, player, stretch, way), right=(right,), wrong=wrong,
        why=why_read(version, fork, answer, stretch, player), source=answer.source, read=fork.read.id, coverage=_coverage(answer, way),
        picture=Picture("read", branch.key, index, way), answer_picture=Picture("answer", branch.key, index),
        clip=asked_clip(version.times.timelines[branch.key], index, way),
        then=Clip(branch.key, stretch.start, stretch.timeline.duration), moment=f"a-{answer.id}",
        twin=version.twin_id(kind.value, node, player), themes=_themes(version, branch, fork, stretch, player, way),
    )


def _themes(version: Version, branch: Branch, fork: Fork, stretch: Stretch, player: int, way: int) -> tuple[str, ...]:
    """His part of the answer, and the passes of the answer he has a hand in."""
    balls = (d.action for d in stretch.deeds(player) if isinstance(d.action, Pass | HandOff) and d.action.answer == fork.taken)
    given = (version.ball_theme(branch, fork.phase, a.player, a.receiver, fork.answer.key) for a in balls)
    return (version.answer_theme(branch, fork, player, way), *given)


def _candidates(
    version: Version, branch: Branch, index: int, siblings: list[tuple[Branch, int]], player: int
) -> Iterator[Ranked]:
    """His part of the other answers; the other side, passes he might think of; what others do now, his part of other
    phases and of the series' other plays."""
    closed = {(int(n),) for n in not_open(branch.forks[index], branch)}
    passed = (DeedKind.PASS, DeedKind.HAND_OFF)
    for ranked in _all_candidates(version, branch, index, siblings, player):
        if not any(c.deed in passed and c.partner in closed for c in ranked.candidate.part.claims):
            yield ranked  # a pass to a man of whom the question says that he is not open rules itself out


def _all_candidates(
    version: Version, branch: Branch, index: int, siblings: list[tuple[Branch, int]], player: int
) -> Iterator[Ranked]:
    others = [(b, i) for b, i in siblings if b.forks[i].taken != branch.forks[index].taken]
    mine = response(version, branch, index, player)
    for b, i in others:
        yield Ranked(0, response(version, b, i, player).part(player))
        yield Ranked(1, response(version, b, i, player).part(player, turned=True))
    yield Ranked(1, mine.part(player, turned=True))
    yield from (Ranked(1, c) for c in mine.passes(player, branch.forks[index].taken))
    main = version.times.settled.main
    for phase in range(len(main.phases)):
        yield Ranked(2, version.phase_stretch(main, phase).part(player))
        yield Ranked(3, version.phase_stretch(main, phase).part(player, turned=True))
    for other in branch.phases[branch.forks[index].phase].plan:
        if other != player and other not in version.interchangeable(player):
            yield Ranked(2, response(version, branch, index, other).part(other))
    yield from (Ranked(2, c) for c in version.of_series(player))


def _also_true(stretch: Stretch, player: int) -> tuple[Claim, ...]:
    """All he does in this branch from the phase of the read on, short of what the read cuts off: what he did just before
    or does later is not offered as wrong."""
    timed = [t for t in stretch.timeline.timed.values() if t.action.key not in stretch.keys]
    keys = tuple(t.action.key for t in timed if t.action.phase >= stretch.phase and _as_good_as_done(stretch.timeline, t))
    claims = part_of(Stretch(stretch.timeline, stretch.phase, keys, stretch.start).deeds(player), stretch.plan_point(player)).claims
    held = (d.point for d in stretch.deeds(player) if d.kind is DeedKind.SCREEN)
    return claims + tuple(Claim(DeedKind.STAND, (), at) for at in held)  # he may stand in it already as it is read


def _as_good_as_done(timeline: Timeline, timed: Timed) -> bool:
    """Not cut off by the read, or so late that he is nearly there."""
    if timed.cut_at is None or timed.cut_at >= timed.end:
        return True
    return timeline.position(timed.action.player, timed.cut_at).distance(timed.action.end) <= PLACE_APART


def _prompt(version: Version, branch: Branch, index: int, player: int, stretch: Stretch, way: int = 0) -> str:
    fork = branch.forks[index]
    answer = fork.answer
    seen = _seen(fork, answer, branch, player, way)
    ask = _ASKS_LATER if _is_later(stretch, player) else _ASKS[int(answer.id, 36) % len(_ASKS)]
    phase = branch.phases[fork.phase].name
    return f"{version.title}, {phase}: you are {player}. {sentence(seen)} {ask}"


def _is_later(stretch: Stretch, player: int) -> bool:
    """His next deed stands in a later phase than the read."""
    return any(d.action.phase > stretch.phase for d in stretch.deeds(player)[:1])


def _seen(fork: Fork, answer: Answer, branch: Branch, player: int, way: int = 0) -> str:
    """One coverage only, that of the picture, where the key has several; of players who is open and who is not."""
    kind = fork.read.watch.kind
    if kind is WatchKind.PLAYERS:
        return who_is_open(fork, answer, branch, player)
    if answer.sights and kind not in _KINDS:
        return sees_one(fork, answer.sights[way], branch, player)
    return sees(fork, answer, branch, player)


def _coverage(answer: Answer, way: int = 0) -> str:
    return answer.sights[way][0].coverage if answer.sights else ""


def _about(version: Version, fork: Fork) -> str:
    return f"{version.title}: read of {fork.reader}, {fork.answer.key}"
