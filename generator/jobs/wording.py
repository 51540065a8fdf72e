"""Deeds -> one or two plain sentences. Pure words: the same deeds always give the same text."""

from __future__ import annotations

from collections.abc import Sequence

from generator.jobs.clauses import Clause, clause
from generator.jobs.cues import later_cue
from generator.jobs.deeds import Deed, DeedKind
from generator.jobs.phrases import at_place, is_outside, listed, sentence, to_place
from generator.model.settled import Branch, PlaceName, Stand

_LONG = 5  # from so many clauses on two sentences read better than one
_WIDE = 105  # and from so many letters on
_IDLE = ("Hold your spacing {at}.", "Stay {at} and keep your spacing.", "Hold your place {at}; keep your man honest.")
_IDLE_INSIDE = ("Stay {at}.", "Hold your place {at}.", "Hold your place {at}; keep your man honest.")


def job_sentences(deeds: Sequence[Deed], branch: Branch) -> tuple[str, ...]:
    """One or two sentences for what a player does, in order; () without deeds."""
    said = _worth_saying(deeds)
    clauses = [_timed(deed, branch, said[i - 1] if i else None) for i, deed in enumerate(said)]
    if not clauses:
        return ()
    if len(clauses) < 3 or (len(clauses) < _LONG and len(_joined(clauses)) < _WIDE):
        return (sentence(_joined(clauses)),)
    cut = _break_at(clauses)
    return sentence(_joined(clauses[:cut])), sentence(f"then {_joined(clauses[cut:])}")


def option_text(deeds: Sequence[Deed], branch: Branch) -> str:
    """The same in one piece, for an option of a question: no timing, so that length and detail tell nothing."""
    said = _worth_saying(deeds)
    clauses = [clause(deed, branch, said[i - 1] if i else None) for i, deed in enumerate(said)]
    return sentence(_joined(clauses))


def idle_sentence(place: PlaceName, with_ball: bool, choice: int = 0) -> str:
    """What a player without a line does. `choice` picks one of equal wordings."""
    if with_ball:
        return f"Keep the ball {at_place(place)}."
    said = _IDLE if is_outside(place) else _IDLE_INSIDE
    return said[choice % len(said)].format(at=at_place(place))


def finish_sentence(deed: Deed) -> str:
    """For a player whose last line still runs when others read."""
    if deed.kind is DeedKind.SCREEN:
        whom = f" for {listed(deed.partner)}" if deed.partner else ""
        return f"Finish your screen{whom} {at_place(deed.place)}."
    thing = "dribble" if deed.kind is DeedKind.DRIBBLE else "move"
    return f"Finish your {thing} {to_place(deed.place)}."


def _worth_saying(deeds: Sequence[Deed]) -> list[Deed]:
    """Leaves out standing still and second mentions: `stays` beside other deeds, a look before the pass itself."""
    said = []
    for i, deed in enumerate(deeds):
        rest = deeds[i + 1 :]
        idle = isinstance(deed.action, Stand) and deed.kind is DeedKind.STAND and deed.action.verb in ("stay", "spot up")
        look = isinstance(deed.action, Stand) and deed.action.looks and any(d.kind is DeedKind.PASS for d in rest)
        there = deed.kind is DeedKind.MOVE and bool(rest) and rest[0].kind is DeedKind.BOARD and rest[0].action.line == deed.action.line
        if (idle and len(deeds) > 1) or look or there:
            continue
        said.append(deed)
    return said or list(deeds)


def _timed(deed: Deed, branch: Branch, before: Deed | None) -> Clause:
    """The clause with its timing inside, except for the first deed, whose timing is the job's cue."""
    made = clause(deed, branch, before)
    timing = "" if before is None or deed.kind in (DeedKind.CATCH, DeedKind.TAKE) else later_cue(deed)
    return Clause(f"{made.text} {timing}", made.joins) if timing else made


def _joined(clauses: Sequence[Clause]) -> str:
    """`a, b and c`, with `then` where a new step begins."""
    texts = [clauses[0].text]
    for i, made in enumerate(clauses[1:], start=1):
        last = i == len(clauses) - 1
        if made.joins == "and" and not clauses[i - 1].text.startswith("fake"):
            texts.append(f" and {made.text}" if last or clauses[i + 1].joins != "and" else f", {made.text}")
        else:
            texts.append(f", {made.text}" if any(c.joins == "then" for c in clauses[i + 1 :]) else f", then {made.text}")
    return "".join(texts)


def _break_at(clauses: Sequence[Clause]) -> int:
    """Where the second sentence begins: at a new step, as near to the middle as there is one."""
    middle = len(clauses) / 2
    steps = [i for i in range(1, len(clauses)) if clauses[i].joins == "then"]
    return min(steps, key=lambda i: (abs(i - middle), i)) if steps else round(middle)
