"""Which defender shows which coverage when: from the forks a branch has met and from the book's cues.

In: a timed branch; out: `Showing`s for the track of timeline.md section 5.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from generator.model.areas import chasers_of
from generator.model.court import Point
from generator.model.play import Sight, WatchKind
from generator.model.sentence import DefenderBody, DefenderOf, Player
from generator.model.settled import Fork, Instant, Move
from generator.model.zone_shifts import stands
from generator.timeline.coverages import (
    EARLY_SHOWN,
    SCREENER,
    SHOWN_BEFORE,
    SHOWN_LONG_BEFORE,
    USER,
    Screening,
)
from generator.timeline.shell import rounded
from generator.timeline.taut import unit

if TYPE_CHECKING:
    from generator.timeline.timeline import BranchTimeline

TWO = frozenset({"trap", "two on the ball"})
# Shown on a screen where no key of the fork covers it; one that looks like a key of the fork is passed over.
OTHERWISE = ("under", "switch", "trail", "drop", "hedge", "squeeze", "jump the screen")
LOOKS_LIKE = {"trail": frozenset({"over"})}


@dataclass(frozen=True, slots=True)
class Showing:
    """`bodies`: X of the user and of the screener on a screen, else the one. Shown around second `at`. `lasting`: a cue
    of the book, kept until `until`; `swaps`: the two change men for good."""

    coverage: str
    bodies: tuple[int, ...]
    at: float
    screening: Screening | None = None
    roles: str = "both"  # both | user | screener
    swaps: bool = False
    lasting: bool = False
    until: float = float("inf")
    keys: tuple[str, ...] = ()  # coverage "": the fork's keys, none of which is shown
    partner: int | None = None  # of a trap without a screen: the body that comes with him
    man: int | None = None  # whom an area's defender shows it to, where the read names him

    @property
    def begins(self) -> float:
        """When the first of it can be seen."""
        return self.at - self.early

    @property
    def early(self) -> float:
        """How long before its instant it is shown; without a screen the defender needs the time to get there."""
        long = self.screening is None or self.coverage in EARLY_SHOWN
        return SHOWN_LONG_BEFORE if long else SHOWN_BEFORE


def showings(timeline: BranchTimeline) -> tuple[Showing, ...]:
    """In order of time, forks before cues."""
    found: list[Showing] = []
    guards = {b: b for b in timeline.branch.start}  # body -> man
    for index, fork in enumerate(timeline.branch.forks):
        made = _of_fork(timeline, index, fork, guards)
        found.extend(made)
        for showing in made:
            if showing.swaps and len(showing.bodies) == 2:
                a, b = showing.bodies
                guards[a], guards[b] = guards[b], guards[a]
    found.extend(_of_cues(timeline, guards))
    return tuple(sorted(found, key=lambda s: (s.at, s.bodies)))


def met_in(timeline: BranchTimeline, index: int) -> BranchTimeline:
    """The branch in which the fork was met on the way: the one the taken answer leaves, or this one."""
    while timeline.parent is not None and index <= timeline.branch.departure.fork:
        timeline = timeline.parent
    return timeline


def screening_of(timeline: BranchTimeline, index: int) -> Screening | None:
    """The screen a fork watches, as the trunk uses it."""
    fork = timeline.branch.forks[index]
    return screening_on(timeline, met_in(timeline, index), fork.user, fork.screen)


def screening_on(timeline: BranchTimeline, trunk: BranchTimeline, user: str | None, screen: str | None) -> Screening | None:
    """Geometry of one use: the way and the instant are the trunk's, the user's place this branch's."""
    schedule = trunk.schedule
    action = schedule.chains.actions.get(user) if user else None
    if not isinstance(action, Move) or user in schedule.past_cut or user not in trunk.timed:
        return None
    course = schedule.courses.of(user)
    uses = course.uses[course.index(user)]
    use = next((u for u in uses if u.screen == screen), uses[0] if uses else None)
    if use is None:
        return None
    used = trunk.timed[user].instants[Instant.START] - course.times(course.index(user))[0] + course.map.time_at(use.s_use)
    rim = timeline.rim
    place, point, tangent = rounded(use.place), rounded(use.point), rounded(use.tangent)
    n = unit(point[0] - place[0], point[1] - place[1])
    i = unit(rim[0] - place[0], rim[1] - place[1])
    player = action.player

    def user_at(t: float) -> Point:
        return rounded(timeline.position(player, max(0.0, t)))

    return Screening(
        player, use.screener, place, point, n, tangent, i, course.curve, use.s_use, round(used, 6), user_at,
    )


def _of_fork(timeline: BranchTimeline, index: int, fork: Fork, guards: dict[int, int]) -> list[Showing]:
    kind = fork.read.watch.kind
    at = round(timeline.fork_times[index], 6)
    if kind is WatchKind.PLAYERS:
        return _of_players(timeline, fork, at, guards)
    if kind is not WatchKind.DEFENDERS:
        return []
    screening = screening_of(timeline, index)
    when = screening.used if screening else at
    answer = fork.answer
    if answer.is_otherwise:
        if screening is None:
            keys = tuple(s.coverage for a in fork.read.answers for group in a.sights for s in group)
            return [Showing("", (body,), when, keys=keys) for body in fork.watched]
        coverage = otherwise_coverage(fork)
        return [_on_screen(coverage, screening, when, guards, None, False)]
    group = answer.sights[0]
    single = [_of_sight(s, fork, screening, when, guards, len(group)) for s in group]
    found = [s for s in single if s is not None]
    paired = [s for s in found if s.screening is None and s.coverage in TWO]
    if len(paired) == 1:
        one = paired[0]
        other = next((b for b in fork.watched if b not in one.bodies), None) or _second(timeline, one, guards)
        two = replace(one, bodies=(other,), partner=one.bodies[0])
        return [replace(s, partner=other) if s is one else s for s in found] + [two]
    return found


def _second(timeline: BranchTimeline, showing: Showing, guards: dict[int, int]) -> int:
    """Who comes as the second man of a trap without a screen: the nearest defender whose man has no ball; in a zone the
    one whose area is nearest to it."""
    ball = timeline.ball(showing.at)
    stand = stands(timeline.court, timeline.against, ball.point)
    men = {
        b: stand[b].place if b in stand else timeline.position(m, showing.at)
        for b, m in guards.items() if (b in stand or m != ball.holder) and b not in showing.bodies
    }
    return min(men, key=lambda b: (round(men[b].distance(ball.point), 3), b))


def otherwise_coverage(fork: Fork) -> str:
    """The first of the usual coverages that no key of the fork covers; "" when all are taken."""
    taken = {s.coverage for a in fork.read.answers for group in a.sights for s in group}
    return next((c for c in OTHERWISE if c not in taken and not LOOKS_LIKE.get(c, frozenset()) & taken), "")


def _of_sight(
    sight: Sight, fork: Fork, screening: Screening | None, when: float, guards: dict[int, int], together: int,
) -> Showing | None:
    body = _body(sight, fork, guards)
    if screening is not None and sight.coverage in USER:
        man = guards.get(body) if body is not None else None
        if man in (None, screening.user, screening.screener):
            role = "both" if together == 1 or man is None else ("user" if man == screening.user else "screener")
            return _on_screen(sight.coverage, screening, when, guards, role, sight.coverage == "switch")
    body = body if body is not None else (fork.watched[0] if fork.watched else None)
    if body is None:
        return None
    return Showing(sight.coverage, (body,), when)


def _on_screen(
    coverage: str, screening: Screening, when: float, guards: dict[int, int], role: str | None, swaps: bool,
) -> Showing:
    on = {man: body for body, man in guards.items()}
    bodies = (on.get(screening.user, screening.user), on.get(screening.screener, screening.screener))
    return Showing(coverage, bodies, when, screening, role or "both", swaps)


def _body(sight: Sight, fork: Fork, guards: dict[int, int]) -> int | None:
    one = sight.one
    if isinstance(one, DefenderBody):
        return one.number
    if isinstance(one, Player):
        return next((b for b, m in guards.items() if m == one.number), one.number)
    if isinstance(one, DefenderOf) and isinstance(one.of, Player):
        return next((b for b, m in guards.items() if m == one.of.number), one.of.number)
    if len(fork.watched) == 1:
        return fork.watched[0]
    return None


def _of_players(timeline: BranchTimeline, fork: Fork, at: float, guards: dict[int, int]) -> list[Showing]:
    """`5 open`: those looked at before him are denied, he is free; nobody open: all are denied. In a zone by the one whose
    area is nearest to each, the one on the ball left out."""
    open_ones = {
        s.one.number for group in fork.answer.sights[:1] for s in group if isinstance(s.one, Player) and s.coverage == "open"
    }
    on = {man: body for body, man in guards.items()}
    free = {b: s.place for b, s in stands(timeline.court, timeline.against, timeline.ball(at).point).items() if s.out < 0.5}
    found = []
    for player in fork.watched:
        coverage = "open" if player in open_ones else "denied"
        there, body = timeline.position(player, at), on.get(player, player)
        if free and player not in chasers_of(timeline.against):
            body = min(free, key=lambda b: (round(free[b].distance(there), 3), b))
            del free[body]
        found.append(Showing(coverage, (body,), at, man=player))
        if player in open_ones:
            break
    return found


def _of_cues(timeline: BranchTimeline, guards: dict[int, int]) -> list[Showing]:
    """Coverages named by lines of defenders hold from their beginning to the next cue of the same body."""
    schedule = timeline.schedule
    timed: list[tuple[float, int]] = []
    for i, cue in enumerate(timeline.branch.cues):
        at = schedule.mark(cue.begins)
        if at is not None:
            timed.append((round(schedule.net.times[at[0]] + at[1], 6), i))
    timed.sort()
    found = []
    for place, (at, i) in enumerate(timed):
        cue = timeline.branch.cues[i]
        until = next((t for t, j in timed[place + 1:] if timeline.branch.cues[j].defender == cue.defender), float("inf"))
        screening = screening_on(timeline, timeline, cue.user, cue.on) if cue.user else None
        if screening is not None and cue.coverage in USER:
            man = guards.get(cue.defender, cue.defender)
            role = "user" if man == screening.user else "screener"
            if cue.coverage in SCREENER and man in (screening.user, screening.screener):
                found.append(_on_screen(cue.coverage, screening, screening.used, guards, role, cue.coverage == "switch"))
                continue
        found.append(Showing(cue.coverage, (cue.defender,), at, lasting=True, until=until))
    return [replace(s, partner=_partner(s, found)) if s.coverage in TWO and s.screening is None else s for s in found]


def _partner(one: Showing, cues: list[Showing]) -> int | None:
    """Whom another line sends to the same trap, within a second."""
    near = (s.bodies[0] for s in cues if s.coverage in TWO and s.bodies != one.bodies and abs(s.at - one.at) < 1.0)
    return next(near, None)
