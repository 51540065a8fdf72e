"""The clock report in words and as JSON.

In: PlayClock values; out: text for people (ranges in half seconds) or the JSON of the command's contract (numbers).
"""

from __future__ import annotations

import json
from collections.abc import Sequence

from generator.clock.ranges import range_words, seconds_range
from generator.clock.report import BranchLength, ChainLength, PhaseLength, PlayClock

JSON_VERSION = 1
TOLD_FROM = 1.0  # seconds: a shorter phase needs no reason
_COUNT = {1: "One lead-in", 2: "Two lead-ins", 3: "Three lead-ins", 4: "Four lead-ins"}


def as_text(report: Sequence[PlayClock]) -> str:
    """The report as text, one block for each play."""
    return "\n\n".join("\n".join(play_lines(p)) for p in report)


def play_lines(clock: PlayClock) -> list[str]:
    """Name, phases of the main line, the longest branch, every permitted chain of lead-ins."""
    main, *others = clock.branches
    lines = [f"{clock.play.name}: {range_words(main.seconds)}{_of(clock.clock)}"]
    lines += [f"  {p.name}: {range_words(p.seconds)}{_because(p)}" for p in main.phases]
    longest = max(others, key=lambda b: b.seconds, default=None)
    if longest is not None and longest.seconds > main.seconds:
        lines.append(f"  longest branch, {longest.name}: {range_words(longest.seconds)}")
        lines += [f"    {p.name}: {range_words(p.seconds)}{_because(p)}" for p in longest.phases if p not in main.phases]
    return lines + [f"  {line}" for line in chain_lines(clock)]


def chain_lines(clock: PlayClock) -> tuple[str, ...]:
    """One sentence for the play alone and one for each permitted chain of lead-ins."""
    return tuple(_chain_line(chain, clock.clock) for chain in clock.chains)


def _chain_line(chain: ChainLength, clock: float | None) -> str:
    low, high = seconds_range(chain.worst)
    if not chain.lead_ins:
        head = "The play alone needs"
    elif len(chain.lead_ins) == 1:
        head = f"{chain.lead_ins[0]} plus this play need"
    else:
        names = " then ".join(chain.lead_ins)
        head = f"{_COUNT.get(len(chain.lead_ins), 'These lead-ins')} ({names}) plus this play need"
    if clock is None:
        return f"{head} {range_words(chain.worst)}."
    span = f"{low:g}" if low == high else f"{low:g} to {high:g}"
    tail = {
        "yes": f"start by {high:g}.", "tight": "only a quick run fits.", "no": "that does not fit.",
    }[chain.fits or "yes"]
    return f"{head} {span} of {clock:g} s: {tail}"


def _because(phase: PhaseLength) -> str:
    """Why it takes so long, where it takes long."""
    if not phase.because or phase.seconds < TOLD_FROM:
        return ""
    return f", because {phase.because}"


def _of(clock: float | None) -> str:
    return "" if clock is None else f" of {clock:g} s"


def as_json(report: Sequence[PlayClock]) -> str:
    """`{"version": 1, "plays": [...], "chains": [...]}`: one row of `plays` a branch, one of `chains` a permitted chain."""
    rows = [_row(clock, branch) for clock in report for branch in clock.branches]
    chains = [_chain_row(clock, chain) for clock in report for chain in clock.chains]
    return json.dumps({"version": JSON_VERSION, "plays": rows, "chains": chains}, ensure_ascii=False, indent=1)


def _row(clock: PlayClock, branch: BranchLength) -> dict:
    return {
        "id": clock.play.id, "play": clock.play.name, "branch": branch.key, "seconds": round(branch.seconds, 2),
        "phases": [
            {"name": p.name, "seconds": round(p.seconds, 2), "critical": list(p.critical)} for p in branch.phases
        ],
        "latest_start": branch.latest_start,
    }


def _chain_row(clock: PlayClock, chain: ChainLength) -> dict:
    return {
        "id": clock.play.id, "play": clock.play.name, "lead_ins": list(chain.lead_ins), "seconds": round(chain.main, 2),
        "worst_seconds": round(chain.worst, 2), "fits": chain.fits, "latest_start": chain.latest_start,
    }
