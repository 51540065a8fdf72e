"""Options in the making: a player's part of a stretch with its text, and the choice of two wrong ones.

The wrong ones are drawn so that the right one is as often the shortest as the middle or the longest text.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from generator.jobs.deeds import Deed, DeedKind
from generator.jobs.phrases import at_place, is_outside, sentence
from generator.jobs.wording import option_text
from generator.model.court import Point
from generator.model.settled import Branch, Move, PlaceName
from generator.model.transform import mirror
from generator.quiz.draws import digest
from generator.quiz.fair import PLACE_APART, Claim, Part, differ, is_wrong, mirrored_part
from generator.quiz.question import Option, Source

WRONG = 2  # three options in all: Rodriguez 2005, three are optimal
_MOST = 14  # candidates that are compared
_NEAR = 0.6  # what a step away from the question costs, measured in places by length
_RULED_OUT = 4  # steps for what anybody sees to be wrong without knowing the play


_BALL_FIRST = {DeedKind.PASS, DeedKind.HAND_OFF, DeedKind.DRIBBLE, DeedKind.SHOOT}


@dataclass(frozen=True, slots=True)
class Candidate:
    """`names`: players its text speaks of; one who is told to screen for himself would know at once. `with_ball`: it
    begins with the ball in his hands. `receiver`: it is no more than a pass to him, made up for the question. `idle`:
    it is no more than standing still. `start`: where it begins."""

    text: str
    part: Part
    source: Source | None
    start: Point
    names: frozenset[int] = frozenset()
    with_ball: bool = False
    receiver: int = 0
    idle: bool = False

    def option(self) -> Option:
        """As it stands in the question."""
        return Option(self.text, source=self.source, player=self.receiver)


@dataclass(frozen=True, slots=True)
class Ranked:
    """A candidate and how far it is from the question, 0 nearest. `pictured`: the question shows where he stands."""

    far: int
    candidate: Candidate
    pictured: bool = True


def candidate(
    deeds: Sequence[Deed], branch: Branch, part: Part, start: Point, at: PlaceName, source: Source, with_ball: bool = False
) -> Candidate:
    """A player's deeds as an option; without deeds he stays `at`."""
    text = option_text(deeds, branch) if deeds else stay_text(at, with_ball)
    return Candidate(text, part, source, start, _names(deeds), _begins_with_ball(deeds, with_ball), idle=not deeds)


def pass_candidate(receiver: int, at: PlaceName, point: Point, own: Point, throw_in: bool = False) -> Candidate:
    """A pass to somebody who does not get it: what a player with the ball may think of. `throw_in`: he stands out of
    bounds."""
    part = Part((Claim(DeedKind.PASS, (receiver,), point),), own, own)
    verb = "inbound" if throw_in else "pass"
    return Candidate(sentence(f"{verb} to {receiver} {at_place(at)}"), part, None, own, frozenset({receiver}), True, receiver)


def _names(deeds: Sequence[Deed]) -> frozenset[int]:
    return frozenset(n for d in deeds for n in d.partner)


def _begins_with_ball(deeds: Sequence[Deed], with_ball: bool) -> bool:
    said = [d for d in deeds if not (d.kind is DeedKind.STAND and len(deeds) > 1)]
    if not said or said[0].kind is DeedKind.STAND:
        return with_ball or bool(said and getattr(said[0].action, "looks", ()))  # who looks for others has it
    return said[0].kind in _BALL_FIRST


def stay_text(at: PlaceName, with_ball: bool) -> str:
    """The option of a player without a line. Spacing is held outside; at the rim, on the block or out of bounds he stays."""
    stands = "hold your spacing" if is_outside(at) else "stay"
    return sentence(f"{'keep the ball' if with_ball else stands} {at_place(at)}")


def mirrored(
    deeds: Sequence[Deed], branch: Branch, part: Part, start: Point, at: PlaceName, source: Source, with_ball: bool = False
) -> Candidate:
    """The same deeds on the other side of the floor."""
    turned = [replace(d, place=mirrored_place(d.place), action=_turned(d), point=d.point.mirrored()) for d in deeds]
    text = option_text(turned, branch) if deeds else stay_text(mirrored_place(at), with_ball)
    return Candidate(
        text, mirrored_part(part), replace(source, mirrored=True), start.mirrored(), _names(deeds),
        _begins_with_ball(deeds, with_ball), idle=not deeds,
    )


def _turned(deed: Deed):
    action = deed.action
    turned = replace(action, place=mirrored_place(action.place), end=action.end.mirrored(), origin=action.origin.mirrored())
    if not isinstance(action, Move):
        return turned
    return replace(turned, ways=tuple(_other_side(way) for way in action.ways), at=mirror(action.at))


def _other_side(way: str) -> str:
    """`along-left-sideline` -> `along-right-sideline`."""
    return "-".join(_SWAP.get(word, word) for word in way.split("-"))


def mirrored_place(place: PlaceName) -> PlaceName:
    """Left and right exchanged in the words."""
    words = " ".join(_SWAP.get(w, w) for w in place.words.split(" "))
    return PlaceName(words, place.spot, _SWAP.get(place.side, place.side))


_SWAP = {"left": "right", "right": "left"}


def choose_wrong(
    right: Candidate, candidates: Iterable[Ranked], player: int, seed: str, also_true: Sequence[Claim] = (),
    stay: Candidate | None = None, stays: int = 4, apart: int = 0,
) -> tuple[Candidate, ...] | None:
    """Two candidates that are wrong, differ from each other and name the player as nobody's partner; None: too few.

    Near ones are preferred, among them those that need the ball exactly when the right one does. `stay`: standing still,
    for one who should move; it is among the wrong ones `stays` times out of six, so that standing still is as often right
    as any other option. One time in `apart` the two wrong ones are each other's mirror images: else the right one would
    always be one of two that differ by their side alone.
    """
    ranked = sorted([*candidates, *([Ranked(0, stay)] if stay else [])], key=lambda r: _distance(r, right))
    fit = _fitting(right, ranked, player, also_true)
    pairs = list(combinations(fit, WRONG))
    if stay is not None and digest(f"stay/{seed}") % 6 < stays:
        pairs = [p for p in pairs if any(r.candidate is stay for r in p)] or pairs
    elif apart and digest(f"apart/{seed}") % apart == 0:
        pairs = [p for p in pairs if _is_odd(right, p)] or pairs
    if not pairs:
        return None
    rank = digest(f"rank/{seed}") % (WRONG + 1)
    return tuple(r.candidate for r in min(pairs, key=lambda pair: _cost(right, pair, rank)))


def _fitting(right: Candidate, ranked: Iterable[Ranked], player: int, also_true: Sequence[Claim]) -> list[Ranked]:
    fit: list[Ranked] = []
    for r in ranked:
        c = r.candidate
        if player in c.names or c.text == right.text or not is_wrong(c.part, right.part, also_true) or _made_true(c, right, also_true):
            continue
        if all(c.text != f.candidate.text and differ(c.part, f.candidate.part) for f in fit):
            fit.append(Ranked(_distance(r, right), c))
        if len(fit) == _MOST:
            break
    return fit


def _distance(ranked: Ranked, right: Candidate) -> int:
    """Farther for what the picture alone rules out: another man's hands on the ball, standing where he does not stand."""
    c = ranked.candidate
    elsewhere = c.idle and ranked.pictured and c.start.distance(right.start) > PLACE_APART
    return ranked.far + (0 if c.with_ball == right.with_ball else _RULED_OUT) + (_RULED_OUT if elsewhere else 0)


def _is_odd(right: Candidate, pair: tuple[Ranked, ...]) -> bool:
    """Whether the wrong ones differ by their side alone and the right one does not; none of them easily ruled out."""
    if any(r.far >= _RULED_OUT for r in pair):
        return False
    first, *others = (sideless(r.candidate.text) for r in pair)
    return all(text == first for text in others) and sideless(right.text) != first


def sideless(text: str) -> str:
    """The text with left and right made one."""
    return " ".join("side" if word.rstrip(".,") in _SWAP else word for word in text.split(" "))


def _made_true(c: Candidate, right: Candidate, also_true: Sequence[Claim]) -> bool:
    """A made-up pass to somebody who does get it, wherever that is."""
    return c.receiver > 0 and any(
        t.deed in (DeedKind.PASS, DeedKind.HAND_OFF) and t.partner == (c.receiver,) for t in (*right.part.claims, *also_true)
    )


def _cost(right: Candidate, pair: tuple[Ranked, ...], rank: int) -> tuple[float, float]:
    """The wanted place of the right one by length against nearness to the question; then like lengths."""
    lengths = [len(r.candidate.text) for r in pair]
    mine = len(right.text)
    shorter = sum(n < mine for n in lengths)
    spread = max(*lengths, mine) / max(1, min(*lengths, mine))
    return (abs(shorter - rank) + _NEAR * sum(r.far for r in pair) + (spread > 2.5), spread)
