"""Timelines -> jobs: for every phase, answer and position one or two sentences, the cue, why and what to watch."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from generator.jobs.cues import cue_sentence
from generator.jobs.deeds import Deed, DeedKind, deeds_of, deeds_print
from generator.jobs.job import Job
from generator.jobs.phrases import listed
from generator.jobs.situations import ready_sentence, sees, watch_sentence
from generator.jobs.wording import finish_sentence, idle_sentence, job_sentences
from generator.model.book import Book
from generator.model.identity import stable_id
from generator.model.play import Answer, Phase, Play, Teach, Text, WatchKind
from generator.model.settled import Branch, Fork, Stand, Variant
from generator.timeline.timed import PlayTimes, Timeline

POSITIONS = (1, 2, 3, 4, 5)


def derive_jobs(times: PlayTimes, book: Book) -> tuple[Job, ...]:
    """Jobs of one version of a play: phases in order of first appearance, then answers, positions 1 to 5 in each.

    Interchangeable positions get the same text; `alike` names them.
    """
    jobs = [*_phase_jobs(times), *_answer_jobs(times)]
    return tuple(_shared(job, jobs, times.play) for job in jobs)


# -- phases ----------------------------------------------------------------------------------------------


def _phase_jobs(times: PlayTimes) -> Iterator[Job]:
    for branch, index in phases_shown(times):
        timeline = times.timelines[branch.key]
        for player in branch.phases[index].plan:
            yield _phase_job(times, timeline, index, player)


def phases_shown(times: PlayTimes) -> Iterator[tuple[Branch, int]]:
    """(branch, index of the phase in it): each phase and round once, the main line's first."""
    seen: set[tuple[str, int]] = set()
    for branch in times.settled.branches:
        for index, phase in enumerate(branch.phases):
            if (phase.id, phase.round) not in seen:
                seen.add((phase.id, phase.round))
                yield branch, index


def _phase_job(times: PlayTimes, timeline: Timeline, index: int, player: int) -> Job:
    branch = timeline.branch
    phase = branch.phases[index]
    deeds = deeds_of(branch, player, unconditional(branch, phase.actions))
    written = written_phase(times.play, phase.id)
    forks = [f for f in branch.forks if f.phase == index and f.depth == 0]
    looks = any(isinstance(d.action, Stand) and d.action.looks for d in deeds)
    ready = "" if looks else ready_sentence(forks, player)
    idle = not deeds and not ready
    choice = int(stable_id("idle", phase.id, str(player)), 36)
    at = phase.plan_names[player]
    sentences = (idle_sentence(at, phase.holder == player, choice),) if idle else job_sentences(deeds, branch)
    if ready:
        sentences = (" ".join(sentences), ready) if sentences else (ready,)
    texts = Texts(times.settled.variant)
    return Job(
        id=stable_id("job", times.play.id, phase.id, str(phase.round), str(player)),
        play=times.play.id,
        position=player,
        phase=phase.id,
        phase_name=phase.name,
        sentences=sentences,
        cue=cue_sentence(deeds[0], timeline, player) if deeds else "",
        why=" ".join(texts.of(f.read.why) for f in forks if f.reader == player and f.read.why),
        watch=" ".join(watch_sentence(f, player) for f in forks if f.reader == player) or _others_watch(forks, player),
        teach=texts.teach((written.teach if written else ()) + tuple(t for f in forks for t in f.read.teach), player),
        idle=idle,
        round=phase.round,
        variant=times.settled.variant,
        fingerprint=deeds_print(deeds) if deeds else stable_id(at.spot, at.side),
    )


def unconditional(branch: Branch, keys: tuple[str, ...]) -> tuple[str, ...]:
    """The keys without what follows only when a reader finds nobody better open."""
    looks = {f.taken for f in branch.forks if f.read.watch.kind is WatchKind.PLAYERS}
    return tuple(k for k in keys if branch.action(k).answer not in looks)


def _others_watch(forks: list[Fork], player: int) -> str:
    """One reader is enough for those who only follow."""
    return watch_sentence(forks[0], player) if forks else ""


def written_phase(play: Play, phase_id: str) -> Phase | None:
    """The phase as the coach wrote it; None for one of a lead-in or of a repeat."""
    return next((p for p in play.phases if isinstance(p, Phase) and p.id == phase_id), None)


# -- answers ---------------------------------------------------------------------------------------------


def answers_shown(times: PlayTimes) -> Iterator[tuple[Branch, int]]:
    """(branch, index of the fork in it) for every answer of every read, each once, in order of branches."""
    seen: set[tuple[str, str]] = set()
    for branch in times.settled.branches:
        for index, fork in enumerate(branch.forks):
            if (fork.read.id, fork.taken) not in seen:
                seen.add((fork.read.id, fork.taken))
                yield branch, index


def _answer_jobs(times: PlayTimes) -> Iterator[Job]:
    for branch, index in answers_shown(times):
        for player in branch.phases[branch.forks[index].phase].plan:
            yield _answer_job(times, times.timelines[branch.key], index, player)


def answer_deeds(branch: Branch, index: int, player: int) -> tuple[Deed, ...]:
    """What the lines of the answer taken at a fork ask of a player."""
    answer = branch.forks[index].answer.id
    return deeds_of(branch, player, (a.key for a in branch.actions if a.answer == answer))


def _answer_job(times: PlayTimes, timeline: Timeline, index: int, player: int) -> Job:
    branch = timeline.branch
    fork = branch.forks[index]
    answer = fork.answer
    phase = branch.phases[fork.phase]
    deeds = answer_deeds(branch, index, player)
    sentences = job_sentences(deeds, branch) or (_goes_on(times, timeline, index, player),)
    texts = Texts(times.settled.variant)
    return Job(
        id=stable_id("job", times.play.id, answer.id, str(phase.round), str(player)),
        play=times.play.id,
        position=player,
        phase=phase.id,
        phase_name=phase.name,
        sentences=sentences,
        cue=cue_sentence(deeds[0], timeline, player) if deeds else "",
        why=texts.to(answer.why, fork.reader, player) if answer.why else "",
        teach=texts.teach(answer.teach, player),
        sees=sees(fork, answer, branch, player),
        idle=not deeds,
        read=fork.read.id,
        answer=answer.id,
        round=phase.round,
        variant=times.settled.variant,
        fingerprint=deeds_print(deeds),
    )


def _goes_on(times: PlayTimes, timeline: Timeline, index: int, player: int) -> str:
    """For a player whom the answer does not name: the rest of his own line, or his place."""
    branch, fork = timeline.branch, timeline.branch.forks[index]
    phase = branch.phases[fork.phase]
    read_at = timeline.fork_times[index]
    deeds = deeds_of(branch, player, phase.actions)
    open_now = [d for d in deeds if d.action.answer is None and _open_at(timeline, d, read_at)]
    if _plays_on(fork.answer) and open_now and player == fork.reader:
        return f"Play on: {_lower(' '.join(job_sentences(open_now, branch)))}"
    if open_now and open_now[0].action.player == player:
        return finish_sentence(open_now[0])
    last = deeds[-1] if deeds else None  # of a pass the deed's place is the receiver's
    place = phase.plan_names[player] if last is None else last.action.place if last.kind is DeedKind.PASS else last.place
    return idle_sentence(place, timeline.ball(read_at).holder == player, int(stable_id(fork.answer.id, str(player)), 36))


def _open_at(timeline: Timeline, deed: Deed, second: float) -> bool:
    """Still to be done then; lines that the answer leaves out of the run are not."""
    timed = timeline.timed.get(deed.action.key)
    return timed is not None and timed.end > second + 0.1


def _plays_on(answer: Answer) -> bool:
    return answer.go_on or (answer.is_otherwise and not answer.lines)


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


# -- texts of the coach ----------------------------------------------------------------------------------

_SIDE = re.compile(r"\b(left|right)\b", re.IGNORECASE)
_NUMBER = re.compile(r"(?<![\d.-])X?([1-5])(?![\d.-]*\d)\b")


class Texts:
    """The coach's own words for one version of the play: whose they are, and a mark where a side may be turned."""

    def __init__(self, variant: Variant) -> None:
        self._mirrored = variant.mirrored
        self._changed = {str(n) for pair in variant.run_for for n in pair}

    def of(self, text: Text) -> str:
        """A text; in another version a side or a number that has changed is marked."""
        return self.told(text.text)

    def to(self, text: Text, reader: int, player: int) -> str:
        """A reason the coach gives the reader; told to another player it says so."""
        return self.of(text) if reader == player else f"{reader} is told: {self.of(text)}"

    def teach(self, points: tuple[Teach, ...], player: int) -> tuple[str, ...]:
        """The teaching points for this player (a version run for another has them renamed)."""
        return tuple(dict.fromkeys(self.told(t.text) for t in points if player in t.players))

    def told(self, text: str) -> str:
        """The same for bare words."""
        sides = self._mirrored and _SIDE.search(text)
        numbers = self._changed & set(_NUMBER.findall(text))
        what = " and ".join(filter(None, ("left and right" if sides else "", "numbers" if numbers else "")))
        return f"{text} ({what[:1].upper()}{what[1:]} as first drawn.)" if what else text


def player_roles(variant: Variant) -> dict[int, int]:
    """Player -> the number whose lines he does in this version; `also for` swaps the two."""
    roles = dict(variant.run_for)
    for player, role in variant.run_for:
        roles.setdefault(role, player)
    return roles


def _shared(job: Job, jobs: list[Job], play: Play) -> Job:
    """Interchangeable positions get one text: what the one does, then what the other does."""
    group = next((g for g in play.interchangeable if job.position in g), ())
    mates = [j for j in jobs if j.position in group and (j.phase, j.answer, j.round) == (job.phase, job.answer, job.round)]
    texts = list(dict.fromkeys(j.text for j in mates))
    alike = tuple(j.position for j in mates)
    if len(texts) < 2:
        return replace(job, alike=alike) if len(alike) > 1 else job
    one = f"One of you ({listed(alike, 'or')}): {_lower(texts[0])}"
    rest = tuple(f"The other: {_lower(t)}" for t in texts[1:])
    return replace(job, sentences=(one, *rest), cue="", alike=alike, idle=all(j.idle for j in mates))
