"""Tell questions: two plays begin alike; what shows first that it is this one? The split says when and by whom."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.jobs.clauses import clause
from generator.jobs.deeds import Deed, DeedKind, deeds_of
from generator.jobs.phrases import sentence, third_person
from generator.lookalikes.split import opening_difference, split
from generator.model.identity import fingerprint, stable_id
from generator.model.settled import Branch
from generator.quiz.drafts import Draft
from generator.quiz.fair import differ, part_of
from generator.quiz.question import Clip, Kind, Option, Picture, Source
from generator.quiz.scene import Version
from generator.timeline.timed import PlayTimes, Timeline

_MOVES = (DeedKind.MOVE, DeedKind.DRIBBLE, DeedKind.SCREEN)
_FRESH = 2.0  # seconds for which a pass counts as what is seen
MOST = 6  # plays a play is told from
ALIKE = 1.5  # seconds two plays must look alike before a tell is worth asking for


def tell_drafts(version: Version, others: Sequence[PlayTimes]) -> Iterator[Draft]:
    """One for each of `others` (see `rivals`) that looks like this play for a while."""
    for other in others:
        draft = _tell(version, other)
        if draft is not None:
            yield draft


def rivals(mine: PlayTimes, plain: Sequence[PlayTimes]) -> tuple[PlayTimes, ...]:
    """Of the plays as written the others that begin with the same picture, those of the same series first, else in book
    order; no more than `MOST`, for nobody learns a hundred tells of one play, and pairs grow with the square of the book."""
    own = mine.main
    alike = [t for t in plain if t.play.id != mine.play.id and opening_difference(own, t.main) is None]
    return tuple(sorted(alike, key=lambda t: not mine.play.series or t.play.series != mine.play.series)[:MOST])


def _tell(version: Version, other: PlayTimes) -> Draft | None:
    mine, a, b = version.times, version.times.main, other.main
    parted = split(a, b)
    if parted.a_s is None or parted.b_s is None or parted.a_s < ALIKE:
        return None
    at, player = parted.a_s, (parted.tell.player if parted.tell else None) or 0
    shown, foil = _sign(a, b, player, at), _sign(b, a, player, parted.b_s)
    shared = _shared(a, b, at, player)
    if shown is None or foil is None or shared is None:
        return None
    options = [shown[0], foil[0], _said(shared, a.branch)]
    if len(set(options)) < 3 or not _differ(shown[1], foil[1], a, b):
        return None
    id_ = version.question_id("tell", other.play.id, 0, fingerprint(*(d.print if d else "" for d in (shown[1], foil[1], shared)), player))
    begin = a.timed[shown[1].action.key].start if shown[1] else at
    return Draft(
        id=id_, kind=Kind.TELL, node=mine.play.id, source=mine.play.source,
        prompt=f"{mine.play.name} and {other.play.name} begin alike. What shows first that it is {mine.play.name}?",
        right=(_option(options[0], a, shown[1]),), wrong=(_option(options[1], b, foil[1], other), _option(options[2], a, shared)),
        why=f"Until then they look the same. In {other.play.name} {_small(foil[0])}", picture=Picture("phase", a.branch.key, 0),
        clip=Clip(a.branch.key, 0.0, max(0.0, min(at, begin))), then=Clip(a.branch.key, 0.0, min(a.duration, at + 2.0)),
        twin=stable_id("twin tell", *sorted((mine.play.id, other.play.id))),  # the one answers the other
    )


def _sign(mine: Timeline, other: Timeline, player: int, at: float) -> tuple[str, Deed | None] | None:
    """What is seen in this play at the split, if it is not seen in the other as well: a deed, or that nothing happens."""
    deed = _deed_at(mine, player, at)
    if deed is not None and deed.print not in _prints(other):
        return _said(deed, mine.branch), deed
    later = _later(mine, other, player, at) if deed is None or player == 0 else None
    if later is not None:
        return _said(later, mine.branch), later
    if player == 0:
        holder = mine.ball(at).holder
        return (f"{holder} keeps the ball.", None) if holder else None
    if deed is not None:
        return None
    with_ball = mine.ball(at).holder == player
    return f"{player} {'keeps the ball' if with_ball else 'stays'} where he is.", None


def _later(mine: Timeline, other: Timeline, player: int, at: float) -> Deed | None:
    """Who waits at the split is known by what he does next, if the other play never shows it."""
    givers = (player,) if player else mine.branch.start
    kinds = _MOVES if player else (DeedKind.PASS, DeedKind.HAND_OFF)
    coming = [
        d for n in givers for d in _deeds(mine, n)
        if d.kind in kinds and mine.timed[d.action.key].start > at and mine.timed[d.action.key].cut_at is None
    ]
    first = min(coming, key=lambda d: mine.timed[d.action.key].start, default=None)
    return first if first is not None and first.print not in _prints(other) else None


def _prints(timeline: Timeline) -> set[str]:
    return {d.print for n in timeline.branch.start for d in _deeds(timeline, n)}


def _deeds(timeline: Timeline, player: int) -> tuple[Deed, ...]:
    """What the player does himself (no catches), as far as it is run."""
    return deeds_of(timeline.branch, player, (k for k, t in timeline.timed.items() if t.action.player == player))


def _small(text: str) -> str:
    return text[:1].lower() + text[1:]


def _option(text: str, timeline: Timeline, deed: Deed | None, other: PlayTimes | None = None) -> Option:
    play = other.play.id if other else ""
    if deed is None:
        return Option(text, play=play)
    timed = timeline.timed[deed.action.key]
    player = deed.action.player
    return Option(text, Source(timeline.branch.key, player, timed.start, timed.end, play=play), player=player)


def _said(deed: Deed, branch: Branch) -> str:
    return sentence(f"{deed.action.player} {third_person(clause(deed, branch).text)}")


def _deed_at(timeline: Timeline, player: int, at: float) -> Deed | None:
    """What the player (0: whoever has or throws the ball) is doing at that second."""
    if player == 0:
        return _ball_deed(timeline, at)
    deeds = _deeds(timeline, player)
    under_way = [d for d in deeds if timeline.timed[d.action.key].start <= at + 0.05 < timeline.timed[d.action.key].end + 0.3]
    moving = [d for d in under_way if d.kind in _MOVES]
    return next(iter(moving or under_way), None)


def _ball_deed(timeline: Timeline, at: float) -> Deed | None:
    """The pass or hand-off that brought the ball to where it is."""
    gives = [
        d for n in timeline.branch.start for d in _deeds(timeline, n)
        if d.kind in (DeedKind.PASS, DeedKind.HAND_OFF) and at - _FRESH <= timeline.timed[d.action.key].start <= at + 0.05
    ]
    return max(gives, key=lambda d: timeline.timed[d.action.key].start, default=None)


def _shared(a: Timeline, b: Timeline, at: float, player: int) -> Deed | None:
    """Something both plays show before they part, by somebody else: it tells nothing."""
    both = _prints(b)
    for n in a.branch.start:
        for deed in _deeds(a, n):
            over = a.timed[deed.action.key].end
            if n != player and over <= at and deed.print in both and deed.kind is not DeedKind.STAND:
                return deed
    return None


def _differ(one: Deed | None, two: Deed | None, a: Timeline, b: Timeline) -> bool:
    if one is None or two is None or one.action.player != two.action.player:
        return one is not two
    n = one.action.player
    return differ(part_of([one], a.position(n, 0.0)), part_of([two], b.position(n, 0.0)))
