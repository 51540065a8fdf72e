"""Whether an option that is offered as wrong really is: it must claim something that does not happen.

A claim is one deed as a watcher can check it: going to a place, or something with the ball or a screen and with whom.
Two places within `PLACE_APART` count as one. An option is wrong when it makes a claim that the right stretch does not
fulfil *and* would end otherwise: elsewhere, or with other deeds of ball and screen.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.jobs.deeds import Deed, DeedKind
from generator.model.court import Point

PLACE_APART = 1.5  # metres; nearer places are one place to a player who taps or answers
_ON_THE_RUN = 1.2  # a pass on the run is caught so far before the end of the way (timeline.md section 3)
_SEEN_APART = 1.0  # and on the timeline, where a catch on the run comes up to 1.2 m before the end of the way
_GOING = {DeedKind.MOVE, DeedKind.DRIBBLE, DeedKind.STAND, DeedKind.BOARD}
_BALL = {DeedKind.CATCH, DeedKind.TAKE, DeedKind.PASS, DeedKind.HAND_OFF, DeedKind.SHOOT}
_SAME = {DeedKind.TAKE: DeedKind.CATCH}  # getting the ball is one thing, by hand or by pass


@dataclass(frozen=True, slots=True)
class Claim:
    """`deed` None: going to `point`; STAND: standing there, with nothing to do."""

    deed: DeedKind | None
    partner: tuple[int, ...]
    point: Point


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of one player as claims, with the place where it leaves him: by the lines (`end`), and when it is played
    on the timeline (`seen`)."""

    claims: tuple[Claim, ...]
    end: Point
    seen: Point


def part_of(deeds: Sequence[Deed], start: Point, seen: Point | None = None) -> Part:
    """The claims of a player's deeds; without deeds he claims to stand at `start` and that nothing comes to him."""
    end = _end(deeds, start)
    claims = tuple(_claim(d) for d in deeds) or (Claim(DeedKind.STAND, (), start),)
    return Part(claims, end, seen or end)


def mirrored_part(part: Part) -> Part:
    """The same with left and right exchanged."""
    turned = tuple(Claim(c.deed, c.partner, c.point.mirrored()) for c in part.claims)
    return Part(turned, part.end.mirrored(), part.seen.mirrored())


def is_wrong(option: Part, right: Part, also_true: Iterable[Claim] = ()) -> bool:
    """True when `option` is false for the one who does `right`. `also_true`: what he does before or after in the same
    branch; there a pass to the same man counts wherever he catches it. Who waits where the ball comes to him stands there,
    so standing there is never wrong."""
    also_true = tuple(also_true)
    judged = [c for c in option.claims if c.deed is not DeedKind.SHOOT] if _keeps_the_ball(right) else option.claims
    false = any(not _happens(claim, right, also_true) for claim in judged)
    return false and _ends_otherwise(option, right, (*right.claims, *also_true))


def _keeps_the_ball(right: Part) -> bool:
    """He gets the ball and nothing says what he does with it: a shot would not be wrong."""
    last = next((c.deed for c in reversed(right.claims) if c.deed in _BALL), None)
    return last is DeedKind.CATCH


def _happens(claim: Claim, right: Part, also_true: Iterable[Claim]) -> bool:
    if claim.deed is DeedKind.STAND:
        waits = any(t.deed is DeedKind.CATCH and t.point.distance(claim.point) <= PLACE_APART for t in right.claims)
        stands = any(t.deed is DeedKind.STAND and t.point.distance(claim.point) <= PLACE_APART for t in also_true)
        return waits or stands or (_idles(right) and right.end.distance(claim.point) <= PLACE_APART)
    return any(_fulfils(t, claim) for t in right.claims) or any(
        _fulfils(t, claim) or (claim.deed is not None and (t.deed, t.partner) == (claim.deed, claim.partner)) for t in also_true
    )


def _idles(part: Part) -> bool:
    """Nothing with ball or screen."""
    return all(c.deed in (None, DeedKind.STAND) for c in part.claims)


def differ(a: Part, b: Part) -> bool:
    """True when two parts can be told apart in either direction."""
    return is_wrong(a, b) or is_wrong(b, a)


def _ends_otherwise(option: Part, right: Part, truth: Sequence[Claim]) -> bool:
    if option.end.distance(right.end) > PLACE_APART and option.seen.distance(right.seen) > _SEEN_APART:
        return True
    acts = [c for c in option.claims if c.deed not in (None, DeedKind.STAND)]
    stands_by = any(c.deed is DeedKind.STAND for c in option.claims) and not _idles(right)
    return stands_by or any(not any(_fulfils(t, c) for t in truth) for c in acts)


def _claim(deed: Deed) -> Claim:
    if deed.kind in _GOING:
        return Claim(None, (), deed.point)
    partner = deed.partner if deed.kind is not DeedKind.SHOOT else ()
    return Claim(_SAME.get(deed.kind, deed.kind), tuple(sorted(partner)), deed.point)


def _end(deeds: Sequence[Deed], start: Point) -> Point:
    """Where the last deed that moves him (or fixes his place) leaves him; a pass leaves him where he was."""
    end = start
    for deed in deeds:
        end = deed.action.end if deed.kind is DeedKind.PASS else deed.point
    return end


def _fulfils(truth: Claim, claim: Claim) -> bool:
    if claim.deed is None:
        return truth.deed is not DeedKind.PASS and truth.point.distance(claim.point) <= PLACE_APART
    same = truth.deed is claim.deed and truth.partner == claim.partner
    return same and (truth.deed is DeedKind.SHOOT or truth.point.distance(claim.point) <= PLACE_APART + _ON_THE_RUN)
