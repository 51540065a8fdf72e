"""Next questions: who gets the ball next, on the main line and after each answer."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from generator.jobs.deeds import DeedKind, catch_place
from generator.jobs.derive import answers_shown
from generator.jobs.phrases import at_place, sentence
from generator.jobs.situations import sees
from generator.model.identity import fingerprint
from generator.model.play import WatchKind
from generator.model.settled import Branch, HandOff, Pass
from generator.quiz.candidates import WRONG
from generator.quiz.drafts import Draft
from generator.quiz.draws import Draws
from generator.quiz.question import Clip, Kind, Option, Picture
from generator.quiz.scene import Version, asked_clip, one_ball

_BEFORE = 0.1  # seconds before he lets it go
_TIMES = ("", " for the second time", " for the third time", " once more")


def next_drafts(version: Version) -> Iterator[Draft]:
    """One for every pass of the main line that no read decides, one for the first pass of every answer."""
    main = version.times.settled.main
    for index, phase in enumerate(main.phases):
        if phase.round or phase.lead_in:
            continue
        given: dict[int, int] = {}
        for ball in _passes(main, phase.actions):
            count = given[ball.player] = given.get(ball.player, 0) + 1
            if ball.answer is None:
                draft = _on_the_line(version, index, ball, count)
                if draft is not None:
                    yield draft
    for branch, index in answers_shown(version.times):
        fork = branch.forks[index]
        first = next((a for a in branch.actions if a.answer == fork.taken and _gives(a)), None)
        sound = one_ball(version.times.timelines[branch.key])
        if first is not None and sound and fork.read.watch.kind is not WatchKind.PLAYERS:
            yield _after_read(version, branch, index, first)


def _passes(branch: Branch, keys: tuple[str, ...]) -> list[Pass | HandOff]:
    wanted = set(keys)
    return [a for a in branch.actions if a.key in wanted and _gives(a)]


def _gives(action: object) -> bool:
    return isinstance(action, Pass) or (isinstance(action, HandOff) and not action.fake)


def _on_the_line(version: Version, index: int, ball: Pass | HandOff, count: int) -> Draft | None:
    """None where the reads of the phase leave fewer than two to whom he never gives it."""
    main = version.times.settled.main
    phase = main.phases[index]
    timeline = version.times.main
    id_ = version.question_id("next", phase.id, 0, fingerprint(ball.player, ball.receiver, ball.verb, str(count)))
    times = _TIMES[min(count, len(_TIMES)) - 1]
    where = "" if ball.origin.distance(phase.plan[ball.player]) > 0.5 else f" {at_place(phase.plan_names[ball.player])}"
    by_reads = {n for d in version.decided(phase.id, ball.player) if d.kind in (DeedKind.PASS, DeedKind.HAND_OFF) for n in d.partner}
    opens = timeline.phases[index].opens
    opens_with_him = phase.holder == ball.player and count == 1  # else the opening picture would show another man's ball
    right, wrong = _options(version, ball, id_, by_reads)
    if len(wrong) < WRONG:
        return None
    return Draft(
        id=id_, kind=Kind.NEXT, node=phase.id, right=right, wrong=wrong, source=ball.source,
        prompt=f"{version.title}, {phase.name}: {ball.player} has the ball{where}{times}. Who gets it next?",
        why=sentence(_what_happens(ball, main)), picture=Picture("phase", main.key, index) if opens_with_him else None,
        clip=None if opens_with_him else Clip(main.key, opens, max(opens, timeline.timed[ball.key].start - _BEFORE)),
        answer_picture=Picture("job", main.key, index),
        then=Clip(main.key, opens, timeline.timed[ball.key].end), moment=f"p-{phase.id}",
        twin=version.twin_id("next", f"{phase.id}/{version.role(ball.player)}/{count}", 0),
        themes=(version.ball_theme(main, index, ball.player, ball.receiver),),
    )


def _after_read(version: Version, branch: Branch, index: int, ball: Pass | HandOff) -> Draft:
    fork = branch.forks[index]
    answer = fork.answer
    timeline = version.times.timelines[branch.key]
    id_ = version.question_id("next", answer.id, 0, fingerprint(ball.player, ball.receiver, ball.verb))
    said = sees(fork, answer, branch, 0)
    right, wrong = _options(version, ball, id_, named=re.findall(r"\d", said))
    seen, now = sentence(said), timeline.ball(timeline.fork_times[index])
    has = f"{'' if ball.player in (now.holder, now.receiver, now.passer) else 'Then '}{ball.player} has the ball"
    return Draft(
        id=id_, kind=Kind.NEXT, node=answer.id, right=right, wrong=wrong, source=answer.source, read=fork.read.id,
        prompt=f"{version.title}, {branch.phases[fork.phase].name}: {seen} {has}: who gets it next?",
        why=sentence(_what_happens(ball, branch)),
        coverage=answer.sights[0][0].coverage if answer.sights else "",
        picture=Picture("read", branch.key, index), answer_picture=Picture("answer", branch.key, index),
        clip=asked_clip(timeline, index),
        then=Clip(branch.key, timeline.fork_times[index], timeline.duration), moment=f"a-{answer.id}",
        themes=(version.ball_theme(branch, fork.phase, ball.player, ball.receiver, answer.key),),
    )


def _what_happens(ball: Pass | HandOff, branch: Branch) -> str:
    if isinstance(ball, HandOff):
        return f"{ball.player} hands off to {ball.receiver} {at_place(ball.place)}"
    return f"{ball.player} passes to {ball.receiver} {at_place(catch_place(ball, branch))}"


def _options(
    version: Version, ball: Pass | HandOff, id_: str, never: Iterable[int] = (), named: Sequence[str] = ()
) -> tuple[tuple[Option, ...], tuple[Option, ...]]:
    """Whom the question names comes first among the wrong ones: the right one is often named too."""
    others = [n for n in version.times.settled.main.start if n not in (ball.player, ball.receiver, *never, *version.interchangeable(ball.receiver))]
    drawn = sorted(sorted(Draws(f"next/{id_}").shuffled(others), key=lambda n: str(n) not in named)[:WRONG])
    return (Option(str(ball.receiver), player=ball.receiver),), tuple(Option(str(n), player=n) for n in drawn)
