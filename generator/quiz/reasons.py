"""Why the right answer is right: the coach's own words, else what it leads to on the timeline, else what the play is for."""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.jobs.clauses import clause
from generator.jobs.deeds import Deed, DeedKind, deeds_of
from generator.jobs.derive import Texts, written_phase
from generator.jobs.phrases import third_person
from generator.jobs.situations import looked_for
from generator.model.play import Answer, WatchKind
from generator.model.settled import Fork
from generator.quiz.scene import Stretch, Version

_BALL = (DeedKind.PASS, DeedKind.HAND_OFF, DeedKind.SHOOT)
_YOURS = "It is made for you: the shot is yours."


def why_job(version: Version, phase_id: str, stretch: Stretch, player: int) -> str:
    """The teaching point for this player; else what his part leads to."""
    written = written_phase(version.times.play, phase_id)
    said = Texts(version.times.settled.variant).teach(written.teach, player) if written else ()
    return said[0] if said else _derived(version, stretch, player)


def why_read(version: Version, fork: Fork, answer: Answer, stretch: Stretch, player: int) -> str:
    """The reason the coach gives for the answer or the read; else the order of the looks, or that the play goes on, and
    what it leads to."""
    text = answer.why or fork.read.why
    if text:
        return Texts(version.times.settled.variant).to(text, fork.reader, player)
    if fork.read.watch.kind is WatchKind.PLAYERS:
        return f"The order is {', then '.join(looked_for(fork))}."
    if answer.go_on:
        return f"Nothing to answer: the play goes on. {_derived(version, stretch, player)}".strip()
    return _derived(version, stretch, player)


def _derived(version: Version, stretch: Stretch, player: int) -> str:
    play, texts = version.times.play, Texts(version.times.settled.variant)
    own = _YOURS if any(d.kind is DeedKind.SHOOT for d in stretch.deeds(player)) else ""
    return leads_to(stretch, player) or (texts.told(play.purpose) if play.purpose else own)


def leads_to(stretch: Stretch, player: int) -> str:
    """`What comes of it: 4 passes to 3 on the left wing and 3 shoots.`: the next pass or shot after his own part, with what
    follows at once; `Meanwhile` where he stands by; "" when there is none."""
    said: list[str] = []
    ball = list(_ball_deeds(stretch))
    own_part = [i for i, (d, _) in enumerate(ball) if d.action.key in stretch.keys and player in (d.action.player, *d.partner)]
    for deed, before in ball[own_part[-1] + 1 if own_part else 0:]:
        own = deed.action.player == player
        told = (before, deed) if before is not None and _drives_in(before, deed) and not (own and before.action.key in stretch.keys) and not said else (deed,)
        clauses = [clause(d, stretch.branch).text for d in told]
        said.append(" and ".join(f"you {c}" if own and not i else c if own else _to_you(_he(deed, c, i), player) for i, c in enumerate(clauses)))
        if deed.kind is DeedKind.SHOOT or len(said) == 2:
            break
    if not said:
        return ""
    waits = not stretch.deeds(player) and not any(words.startswith("you ") for words in said)
    return f"{'Meanwhile' if waits else 'What comes of it:'} {' and '.join(said)}."


def _to_you(words: str, player: int) -> str:
    """`pass to 1 in the left slot` -> `pass to you in the left slot`, `off 1's screen` -> `off your screen`, said to 1."""
    return re.sub(rf"\b{player}'s\b", "your", re.sub(rf"\b(to|for|at) {player}\b", r"\1 you", words))


def _drives_in(before: Deed, shot: Deed) -> bool:
    return before.kind is DeedKind.DRIBBLE and shot.kind is DeedKind.SHOOT


def _he(deed: Deed, words: str, index: int) -> str:
    return third_person(words) if index else f"{deed.action.player} {third_person(words)}"


def _ball_deeds(stretch: Stretch) -> Iterator[tuple[Deed, Deed | None]]:
    """Passes, hand-offs and shots from the beginning of a stretch on, in order of time, each with what the same player did
    just before."""
    timed = sorted((t for t in stretch.timeline.timed.values() if t.cut_at is None), key=lambda t: t.start)
    last: dict[int, Deed] = {}
    for t in timed:
        for deed in deeds_of(stretch.branch, t.action.player, (t.action.key,)):
            if deed.kind in _BALL and t.start >= stretch.start - 0.05 and t.action.phase >= stretch.phase:
                yield deed, last.get(t.action.player)
            last[t.action.player] = deed
