"""One version of a play as questions see it: its title, its stretches, who does what in each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from generator.jobs.deeds import Deed, deeds_of
from generator.jobs.derive import answers_shown, player_roles, written_phase
from generator.model.court import Point
from generator.model.identity import fingerprint, stable_id
from generator.model.settled import AnyAction, Branch, Fork, HandOff, LooseBall, Pass, PlaceName, Shot
from generator.quiz.candidates import Candidate, candidate, mirrored, pass_candidate, stay_text
from generator.quiz.draws import Draws
from generator.quiz.fair import PLACE_APART, part_of
from generator.quiz.question import Clip, Source
from generator.timeline.other_sight import sight_key
from generator.timeline.timed import PlayTimes, Timeline

_BEFORE_PASS = 0.1  # seconds
_LEAST = 0.3  # seconds, less is no motion
_SEEN_BEFORE = 2.0  # seconds of motion that a read needs at least to be seen coming


@dataclass(frozen=True, slots=True)
class Stretch:
    """Part of a branch: the keys of its actions, from which second it runs, in which phase."""

    timeline: Timeline
    phase: int
    keys: tuple[str, ...]
    start: float

    @property
    def branch(self) -> Branch:
        """The branch it belongs to."""
        return self.timeline.branch

    def deeds(self, player: int) -> tuple[Deed, ...]:
        """What the player does in it."""
        return deeds_of(self.branch, player, self.keys)

    def place_name(self, player: int) -> PlaceName:
        """In words, where his lines before it leave him."""
        before = [a for a in self._earlier() if a.player == player]
        return before[-1].place if before else self.branch.phases[0].plan_names[player]

    def plan_point(self, player: int) -> Point:
        """The same as a point."""
        before = [a for a in self._earlier() if a.player == player]
        return before[-1].end if before else self.branch.phases[0].plan[player]

    def _earlier(self) -> Iterator[AnyAction]:
        """Actions that stand above the stretch and leave a player somewhere else (a pass has the receiver's place)."""
        inside = set(self.keys)
        for action in self.branch.actions:
            if action.key in inside:
                return
            if action.origin.distance(action.end) > 0.05:
                yield action

    def end_of(self, deeds: Iterable[Deed]) -> float:
        """When the last of these deeds is over."""
        ends = [self.timeline.timed[d.action.key].end for d in deeds if d.action.key in self.timeline.timed]
        return max(ends, default=self.start)

    def at_rest(self, player: int) -> float:
        """When his moves before the stretch are over: he may still be on his way as it begins."""
        inside = set(self.keys)
        timed = (t for t in self.timeline.timed.values() if t.action.player == player and t.action.key not in inside)
        before = (t for t in timed if t.cut_at is None and (t.action.phase < self.phase or t.start < self.start))
        return max((t.end for t in before), default=self.start)

    def around(self, player: int, end: float) -> tuple[Deed, ...]:
        """Lines of other phases that he is seen doing between the beginning and `end`: earlier ones not over yet, later
        ones that have begun."""
        inside = set(self.keys)
        timed = (t for t in self.timeline.timed.values() if t.action.key not in inside and t.cut_at is None)
        keys = tuple(t.action.key for t in timed if t.end > self.start - 0.1 and t.start < end + 0.1)
        return deeds_of(self.branch, player, keys)

    def has_ball(self, player: int) -> bool:
        """Whether he has the ball when it begins, or it is on its way to him, or leaves him just then as the stretch tells."""
        ball = self.timeline.ball(self.start)
        return player in (ball.holder, ball.receiver) or (ball.holder is None and player == ball.passer and any(
            a.player == player and isinstance(a, Pass) for a in map(self.branch.action, self.keys)
        ))

    def passes(self, player: int, seed: str) -> Iterator[Candidate]:
        """Passes he might think of when he has the ball: to each teammate where that one stands."""
        if self.has_ball(player):
            mates = Draws(seed).shuffled([n for n in self.branch.start if n != player])
            for mate in mates:
                own = self.plan_point(player)
                out = "out of bounds" in self.place_name(player).words
                yield pass_candidate(mate, self.place_name(mate), self.plan_point(mate), own, out)

    def part(self, player: int, *, turned: bool = False) -> Candidate:
        """The player's part as an option, or its mirror image."""
        deeds = self.deeds(player)
        end = self.end_of(deeds) if deeds else max(self.start, self.at_rest(player))
        source = Source(self.branch.key, player, self.start, end)
        make = mirrored if turned else candidate
        part = part_of(deeds, self.plan_point(player), self.timeline.position(player, end))
        start = self.plan_point(player)
        return make(deeds, self.branch, part, start, self.place_name(player), source, self.has_ball(player))

    def stay(self, player: int) -> Candidate | None:
        """Standing still, for one who should do something; None with the ball (he has to do something anyway) and where he
        has left his place already."""
        rest = max(self.start, self.at_rest(player))
        if self.has_ball(player):
            return None
        at, here = self.plan_point(player), self.timeline.position(player, rest)
        if at.distance(here) > PLACE_APART:
            return None
        source = Source(self.branch.key, player, rest, rest)
        return Candidate(stay_text(self.place_name(player), False), part_of((), at, here), source, at, idle=True)


def asked_clip(timeline: Timeline, index: int, way: int = 0) -> Clip | None:
    """The motion before a read question, with coverage `way` of the answer's key: from the opening of its phase, or a
    little sooner where the read comes at once; None where nothing is seen before it."""
    until = _asked_until(timeline, index)
    start = max(0.0, min(timeline.phases[timeline.branch.forks[index].phase].opens, until - _SEEN_BEFORE))
    return Clip(sight_key(timeline.branch, index, way), start, until) if until - start > _LEAST else None


def _asked_until(timeline: Timeline, index: int) -> float:
    """When it stops: at the quiz instant, or just before a pass that answers the read."""
    now, read = timeline.quiz_instant(index), timeline.fork_times[index]
    gives = (t for t in timeline.timed.values() if isinstance(t.action, Pass | HandOff))
    thrown = (t.start for t in gives if read - 0.05 <= t.start < now + _BEFORE_PASS)
    return max(0.0, min([now, *(t - _BEFORE_PASS for t in thrown)]))


def one_ball(timeline: Timeline) -> bool:
    """Whether every pass of the branch leaves the hands of the man who has the ball. A read whose branch breaks this (its
    answer begins after the ball has gone elsewhere) cannot be asked about."""
    gives = [t for t in timeline.timed.values() if isinstance(t.action, Pass | HandOff) and not getattr(t.action, "fake", False)]
    made = sorted((t for t in gives if t.cut_at is None), key=lambda t: t.start)
    return all(a.action.receiver == b.action.player or _lost(timeline, a.end, b.start) for a, b in pairwise(made))


def _lost(timeline: Timeline, start: float, end: float) -> bool:
    """A shot or a tip in between: the ball has been anybody's."""
    return any(isinstance(t.action, Shot | LooseBall) and start <= t.end <= end + 0.01 for t in timeline.timed.values())


@dataclass(frozen=True, slots=True)
class Version:
    """A settled and timed version of a play with its name for players. `series`: the other plays of its series in the
    version with the same sides."""

    times: PlayTimes
    series: tuple[PlayTimes, ...] = ()

    @property
    def title(self) -> str:
        """`Lantern Over`, `Lantern Over, other side`, `Lantern Over run for 2`."""
        variant, play = self.times.settled.variant, self.times.play
        title = play.name
        if variant.run_for:
            title += " run for " + " and ".join(str(player) for player, _ in variant.run_for)
        if variant.mirrored:
            title += ", other side"
        return title

    @property
    def tag(self) -> str:
        """Distinguishes versions in ids."""
        variant = self.times.settled.variant
        return ("mirrored" if variant.mirrored else "") + "".join(f" {p}={r}" for p, r in variant.run_for)

    @property
    def is_plain(self) -> bool:
        """The play as written."""
        return not self.tag

    def role(self, player: int) -> int:
        """Whose lines a player does."""
        return player_roles(self.times.settled.variant).get(player, player)

    def question_id(self, kind: str, node: str, position: int, print_: str) -> str:
        """Stable under wording; changes with the actions (their digest is `print_`)."""
        return stable_id("question", self.times.play.id, kind, node, str(position), self.tag, print_)

    def twin_id(self, kind: str, node: str, position: int) -> str:
        """Equal for all versions of one question: it names the role, not the player."""
        return stable_id("twin", self.times.play.id, kind, node, str(self.role(position) if position else 0))

    def part_theme(self, branch: Branch, index: int, player: int) -> str:
        """Names his part of a phase, the same in all versions and in every play that shares the phase."""
        return stable_id("part", self._phase_print(branch, index), str(self.role(player)))

    def ball_theme(self, branch: Branch, index: int, giver: int, receiver: int, answer: str = "") -> str:
        """Names a pass or hand-off of a phase (under an answer's key)."""
        return stable_id("ball", self._phase_print(branch, index), str(self.role(giver)), str(self.role(receiver)), answer)

    def answer_theme(self, branch: Branch, fork: Fork, player: int, way: int) -> str:
        """Names his part of an answer."""
        return stable_id("answer", self._phase_print(branch, fork.phase), fork.answer.key, str(way), str(self.role(player)))

    def _phase_print(self, branch: Branch, index: int) -> str:
        """A digest of the phase as written and of where the five stand in it as first drawn."""
        phase = branch.phases[index]
        written = written_phase(self.times.play, phase.id)
        if written is None:
            return phase.id
        turn = Point.mirrored if self.times.settled.variant.mirrored else (lambda point: point)
        stand = sorted((self.role(n), f"{turn(p).x + 0.0:.1f} {turn(p).y:.1f}") for n, p in phase.plan.items())
        return fingerprint(written.lines, written.reads, tuple(stand))

    def interchangeable(self, player: int) -> tuple[int, ...]:
        """Teammates for whom the coach says that it is one job."""
        group = next((g for g in self.times.play.interchangeable if player in g), ())
        return tuple(n for n in group if n != player)

    def asks(self, position: int) -> bool:
        """In a version run for others only those who change places are asked."""
        changed = {n for pair in self.times.settled.variant.run_for for n in pair}
        return not changed or position in changed

    def of_series(self, player: int) -> Iterator[Candidate]:
        """What this player does in the phases of the other plays of the series."""
        for times in self.series:
            other = Version(times)
            main = times.settled.main
            for index, phase in enumerate(main.phases):
                if not phase.round and not phase.lead_in and player in phase.plan:
                    part = other.phase_stretch(main, index).part(player)
                    yield replace(part, source=replace(part.source, play=times.play.id))

    def phase_stretch(self, branch: Branch, index: int) -> Stretch:
        """A phase as met in a branch, without what a read decides."""
        timeline = self.times.timelines[branch.key]
        keys = tuple(k for k in branch.phases[index].actions if branch.action(k).answer is None)
        return Stretch(timeline, index, keys, timeline.phases[index].opens)

    def decided(self, phase_id: str, player: int) -> tuple[Deed, ...]:
        """What he does in a phase in any of the answers to its reads: asked without the coverage, none of it is wrong."""
        return tuple({d.print: d for deeds in self.by_answer(phase_id, player) for d in deeds}.values())

    def by_answer(self, phase_id: str, player: int) -> Iterator[tuple[Deed, ...]]:
        """The same for each answer."""
        for branch, index in answers_shown(self.times):
            fork = branch.forks[index]
            if branch.phases[fork.phase].id == phase_id:
                yield deeds_of(branch, player, (a.key for a in branch.actions if a.phase == fork.phase and a.answer is not None))
