"""How long every play is, branch by branch, and until which second of the clock it can still start.

In: timelines of plays and lead-ins, the book; out: PlayClock values. Lead-ins that a play permits are tried in every
permitted order: each may come before the play, alone or chained in written order (`permitted_chains`). Where a chain
was simulated as one (a PlayTimes whose variant names the lead-ins) its own length counts, else the sum of the parts:
a lead-in counts until its last ball line is done, when the next phase opens (language.md 8.2).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from generator.clock.ranges import seconds_range
from generator.clock.reasons import critical_of, reason_of
from generator.model.book import Book, fold_name
from generator.model.play import Play
from generator.model.settled import AnyAction, HandOff, Instant, Move, Pass, Shot
from generator.timeline.timed import PlayTimes, Timeline


@dataclass(frozen=True, slots=True)
class PhaseLength:
    """`seconds` from this phase's opening to the next one's (the last: to the end). `critical`: the lines, as written,
    that nothing can be shorter without; `because`: the longest of them in words."""

    name: str
    seconds: float
    critical: tuple[str, ...]
    because: str = ""


@dataclass(frozen=True, slots=True)
class BranchLength:
    """One branch: its key and name, its length, its phases."""

    key: str
    name: str
    seconds: float
    phases: tuple[PhaseLength, ...]
    latest_start: float | None


@dataclass(frozen=True, slots=True)
class ChainLength:
    """The play behind some of its lead-ins (none: the play alone). `worst` is the longest branch with them; `phases` are that branch's. `fits` is
    None without a clock, else "yes", "tight" (only in the fastest run) or "no". `latest_start` is the clock's reading
    at which it must begin."""

    lead_ins: tuple[str, ...]
    main: float
    worst: float
    fits: str | None
    latest_start: float | None
    phases: tuple[PhaseLength, ...] = ()
    running: float = 0.0  # seconds the clock runs at most: of a throw-in from its first touch on


@dataclass(frozen=True, slots=True)
class PlayClock:
    """One play. `clock` is what the clock shows at its start, None without one."""

    play: Play
    clock: float | None
    branches: tuple[BranchLength, ...]
    chains: tuple[ChainLength, ...]

    @property
    def alone(self) -> ChainLength:
        """The play without a lead-in."""
        return self.chains[0]


def permitted_chains(play: Play) -> tuple[tuple[str, ...], ...]:
    """The play alone, then every choice of its lead-ins in written order, short ones first."""
    names = [ref.name for ref in play.lead_ins]
    return tuple(chain for count in range(len(names) + 1) for chain in combinations(names, count))


def clock_report(all_times: Sequence[PlayTimes], book: Book) -> tuple[PlayClock, ...]:
    """A PlayClock for every play in `all_times` that stands there as written (no mirror, no roles changed, no lead-in
    before it). Lead-ins in `all_times` lend their lengths."""
    lead_ins = {fold_name(t.play.name): t for t in all_times if t.play.is_lead_in and not t.settled.variant.lead_ins}
    chained = {
        (t.play.id, tuple(map(fold_name, t.settled.variant.lead_ins))): t
        for t in all_times if t.settled.variant.lead_ins
    }
    plain = [t for t in all_times if not t.play.is_lead_in and _as_written(t)]
    return tuple(_play_clock(times, lead_ins, chained, book) for times in plain)


def _as_written(times: PlayTimes) -> bool:
    variant = times.settled.variant
    return not (variant.mirrored or variant.run_for or variant.lead_ins)


def clock_at_start(play: Play, book: Book) -> float | None:
    """Seconds on the clock when the play begins: its own, else the shot clock, else none."""
    return play.clock if play.clock is not None else book.team.shot_clock


def _play_clock(times: PlayTimes, lead_ins: dict, chained: dict, book: Book) -> PlayClock:
    clock = clock_at_start(times.play, book)
    branches = tuple(
        BranchLength(
            b.key, b.name, times.timelines[b.key].duration, phase_lengths(times.timelines[b.key]),
            _latest(times.timelines[b.key].duration - first_touch(times.timelines[b.key]), clock),
        )
        for b in times.settled.branches
    )
    chains = []
    for chain in permitted_chains(times.play):
        lengths = _chain_lengths(times, chain, lead_ins, chained)
        if lengths is not None:
            chains.append(_chain(chain, *lengths, clock))
    return PlayClock(times.play, clock, branches, tuple(chains))


def phase_lengths(timeline: Timeline) -> tuple[PhaseLength, ...]:
    """The phases of a branch; their lengths add up to the branch's."""
    openings = [span.opens for span in timeline.phases] + [timeline.duration]
    lengths = []
    for index, phase in enumerate(timeline.branch.phases):
        critical = tuple(dict.fromkeys(t.action.text for t in critical_of(timeline, index)))
        seconds = max(0.0, openings[index + 1] - openings[index])
        lengths.append(PhaseLength(phase.name, seconds, critical, reason_of(timeline, index)))
    return tuple(lengths)


def _chain_lengths(
    times: PlayTimes, chain: tuple[str, ...], lead_ins: dict, chained: dict,
) -> tuple[float, float, tuple[PhaseLength, ...], float] | None:
    """(main line, longest branch, its phases, how long the clock runs at most) with the lead-ins before it; None when one
    of them is not there."""
    whole = chained.get((times.play.id, tuple(map(fold_name, chain))))
    if whole is None:
        parts = [lead_ins.get(fold_name(name)) for name in chain]
        if None in parts:
            return None
        before = sum(hand_over(part.main) for part in parts)
        whole = times
    else:
        before = 0.0
    longest = max(whole.timelines.values(), key=lambda t: t.duration)
    running = before + max(t.duration - first_touch(t) for t in whole.timelines.values())
    return before + whole.main.duration, before + longest.duration, phase_lengths(longest), running


def first_touch(timeline: Timeline) -> float:
    """Second at which the clock starts: the catch of a throw-in that opens the play, else the play's beginning."""
    first = next((t for t in timeline.timed.values() if isinstance(t.action, Pass)), None)
    return first.end if first is not None and first.action.throw_in and first.action.phase == 0 else 0.0


def hand_over(timeline: Timeline) -> float:
    """When what follows a lead-in opens: its last phase's ball lines done and screens used, else all its moves."""
    last = len(timeline.branch.phases) - 1
    ends = [
        t.instants.get(Instant.CLEAR, t.end) if isinstance(t.action, Move) and t.action.uses else t.end
        for t in timeline.timed.values()
        if t.action.phase == last and _counts(t.action)
    ]
    return max(ends, default=timeline.duration)


def _counts(action: AnyAction) -> bool:
    return isinstance(action, (Pass, HandOff, Shot)) or (isinstance(action, Move) and (action.with_ball or bool(action.uses)))


def _chain(
    chain: tuple[str, ...], main: float, worst: float, phases: tuple[PhaseLength, ...], running: float, clock: float | None,
) -> ChainLength:
    if clock is None:
        return ChainLength(chain, main, worst, None, None, phases, running)
    low, high = seconds_range(running)
    fits = "no" if low > clock else "tight" if high > clock else "yes"
    return ChainLength(chain, main, worst, fits, high, phases, running)


def _latest(seconds: float, clock: float | None) -> float | None:
    return None if clock is None else seconds_range(seconds)[1]
