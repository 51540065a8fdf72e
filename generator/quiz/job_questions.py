"""Job and place questions: your part of a phase, and where it leaves you."""

from __future__ import annotations

from collections.abc import Iterator

from generator.jobs.deeds import Deed, DeedKind, deeds_of, deeds_print
from generator.jobs.derive import phases_shown, written_phase
from generator.model.identity import fingerprint
from generator.model.settled import Branch, HandOff, Pass
from generator.quiz.candidates import Candidate, Ranked, choose_wrong
from generator.quiz.drafts import Draft, dropped
from generator.quiz.fair import PLACE_APART, part_of
from generator.quiz.question import Clip, Kind, Picture
from generator.quiz.reasons import why_job
from generator.quiz.scene import Version

_GOES = {DeedKind.MOVE, DeedKind.DRIBBLE, DeedKind.SCREEN, DeedKind.HAND_OFF, DeedKind.BOARD}
_RECEIVES = {DeedKind.CATCH, DeedKind.TAKE}
_SHORT = 0.5  # metres by which a run may end short of its written place
_APART = 3  # one time in three
_ASKS = ("What is your job?", "What do you do in this phase?", "What is your part?")


def job_drafts(version: Version) -> Iterator[Draft]:
    """One for every phase (first round) and position."""
    for branch, index in _phases(version):
        for player in branch.phases[index].plan:
            if version.asks(player) and not _left_to_reads(version, branch, index, player):
                yield _job(version, branch, index, player)


def place_drafts(version: Version) -> Iterator[Draft]:
    """One for every position that ends a phase somewhere else than it began."""
    for branch, index in _phases(version):
        phase = branch.phases[index]
        for player in phase.plan:
            ends = version.phase_stretch(branch, index).part(player).part.end
            moves = phase.plan[player].distance(ends) > PLACE_APART
            sure = not any(d.kind in _GOES for d in version.decided(phase.id, player))
            if version.asks(player) and moves and sure and not _either(version, branch, index, player):
                draft = _place(version, branch, index, player)
                if draft is not None:
                    yield draft


def _left_to_reads(version: Version, branch: Branch, index: int, player: int) -> bool:
    """Whether all he does in this phase is decided by a read (more than waiting for the ball and what he does with it): the
    read's questions ask for it."""
    acts = any(deeds and deeds[0].kind not in _RECEIVES for deeds in version.by_answer(branch.phases[index].id, player))
    return acts and not version.phase_stretch(branch, index).deeds(player)


def _phases(version: Version) -> Iterator[tuple[Branch, int]]:
    return ((b, i) for b, i in phases_shown(version.times) if b.phases[i].round == 0 and not b.phases[i].lead_in)


def _either(version: Version, branch: Branch, index: int, player: int) -> bool:
    """Whether an interchangeable teammate ends elsewhere, so that both places would be right."""
    end = branch.phases[index].end_plan
    return any(end[player].distance(end[o]) > 0.1 for o in version.interchangeable(player))


def _job(version: Version, branch: Branch, index: int, player: int) -> Draft:
    phase = branch.phases[index]
    stretch = version.phase_stretch(branch, index)
    right = stretch.part(player)
    also = tuple(c for other in version.interchangeable(player) for c in stretch.part(other).part.claims)
    seen_too = stretch.around(player, right.source.end) + deeds_of(branch, player, set(phase.actions) - set(stretch.keys))
    for more in (seen_too, *(version.decided(phase.id, n) for n in (player, *version.interchangeable(player)))):
        also += part_of(more, stretch.plan_point(player)).claims if more else ()
    id_ = version.question_id("job", phase.id, player, fingerprint(deeds_print(stretch.deeds(player)), right.part.end))
    stay = None if right.idle else stretch.stay(player)
    wrong = choose_wrong(right, _candidates(version, branch, index, player), player, id_, also, stay, apart=_APART)
    written = written_phase(version.times.play, phase.id)
    source = written.source if written else version.times.play.source
    if wrong is None:
        return dropped(source, f"{version.title}, {phase.name}: job of {player}")
    ask = _ASKS[int(phase.id, 36) % len(_ASKS)]
    return Draft(
        id=id_, kind=Kind.JOB, position=player, node=phase.id, prompt=f"{_head(version, branch, index, player)} {ask}",
        right=(right,), wrong=wrong, why=why_job(version, phase.id, stretch, player), source=source,
        answer_picture=Picture("job", branch.key, index), then=_whole(version, branch, index), moment=f"p-{phase.id}",
        themes=(version.part_theme(branch, index, player), *_balls(version, branch, index, stretch.deeds(player))),
    )


def _balls(version: Version, branch: Branch, index: int, deeds: tuple[Deed, ...]) -> Iterator[str]:
    """The themes of the passes and hand-offs he has a hand in."""
    for action in (d.action for d in deeds):
        if isinstance(action, Pass | HandOff):
            yield version.ball_theme(branch, index, action.player, action.receiver)


def _candidates(version: Version, branch: Branch, index: int, player: int) -> Iterator[Ranked]:
    """His own part on the other side; what the others do now; his part of the phases beside and of the series' plays. No
    picture is shown: it would tell who stands where and has the ball."""
    return (Ranked(far, c, pictured=False) for far, c in _ranked(version, branch, index, player))


def _ranked(version: Version, branch: Branch, index: int, player: int) -> Iterator[tuple[int, Candidate]]:
    stretch = version.phase_stretch(branch, index)
    mates = version.interchangeable(player)
    yield 1, stretch.part(player, turned=True)
    yield from ((1, c) for c in stretch.passes(player, branch.phases[index].id))
    for other in branch.phases[index].plan:
        if other != player and other not in mates:
            yield 1, stretch.part(other)
            yield 2, stretch.part(other, turned=True)
    for near in range(len(branch.phases)):
        if near != index:
            yield 1 if abs(near - index) == 1 else 2, version.phase_stretch(branch, near).part(player)
            yield 3, version.phase_stretch(branch, near).part(player, turned=True)
    yield from ((1, c) for c in version.of_series(player))


def _place(version: Version, branch: Branch, index: int, player: int) -> Draft | None:
    """None where the run stops short of the written place (a drive that ends in a pass): both would be right."""
    phase = branch.phases[index]
    stretch = version.phase_stretch(branch, index)
    deeds = stretch.deeds(player)
    goal = stretch.part(player).part.end
    at = stretch.timeline.position(player, stretch.end_of([d for d in deeds if d.action.player == player]))
    if at.distance(goal) > _SHORT:
        return None
    written = written_phase(version.times.play, phase.id)
    return Draft(
        id=version.question_id("place", phase.id, player, fingerprint(deeds_print(deeds), goal)),
        kind=Kind.PLACE, position=player, node=phase.id,
        prompt=f"{_head(version, branch, index, player)} Where do you end up? Tap the floor.",
        why=why_job(version, phase.id, stretch, player), source=written.source if written else version.times.play.source,
        at=at, within=PLACE_APART, picture=Picture("phase", branch.key, index),
        answer_picture=Picture("job", branch.key, index), then=_whole(version, branch, index), moment=f"p-{phase.id}",
        themes=(version.part_theme(branch, index, player),),
    )


def _head(version: Version, branch: Branch, index: int, player: int) -> str:
    return f"{version.title}, {branch.phases[index].name}: you are {player}."


def _whole(version: Version, branch: Branch, index: int) -> Clip:
    span = version.times.timelines[branch.key].phases[index]
    return Clip(branch.key, span.opens, span.closes)
