"""Options in the making: a player's part of a stretch with its text, and the choice of two wrong ones.

The wrong ones are drawn so that the right one is as often the shortest as the middle or the longest text.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from generator.jobs.deeds import Deed
from generator.jobs.phrases import at_place, sentence
from generator.jobs.wording import option_text
from generator.model.court import Point
from generator.model.settled import Branch, PlaceName
from generator.quiz.draws import digest
from generator.quiz.fair import Claim, Part, differ, is_wrong, mirrored_part, part_of
from generator.quiz.question import Option, Source

WRONG = 2  # three options in all: Rodriguez 2005, three are optimal
_MOST = 12  # candidates that are compared


@dataclass(frozen=True, slots=True)
class Candidate:
    """`names`: players its text speaks of; one who is told to screen for himself would know at once."""

    text: str
    part: Part
    source: Source
    names: frozenset[int] = frozenset()

    def option(self) -> Option:
        """As it stands in the question."""
        return Option(self.text, source=self.source)


def candidate(
    deeds: Sequence[Deed], branch: Branch, start: Point, at: PlaceName, source: Source, with_ball: bool = False
) -> Candidate:
    """A player's deeds as an option; without deeds he stays `at`."""
    text = option_text(deeds, branch) if deeds else stay_text(at, with_ball)
    return Candidate(text, part_of(deeds, start), source, frozenset(n for d in deeds for n in d.partner))


def stay_text(at: PlaceName, with_ball: bool) -> str:
    """The option of a player without a line."""
    return sentence(f"keep the ball {at_place(at)}" if with_ball else f"stay {at_place(at)} and hold your spacing")


def mirrored(
    deeds: Sequence[Deed], branch: Branch, start: Point, at: PlaceName, source: Source, with_ball: bool = False
) -> Candidate:
    """The same deeds on the other side of the floor."""
    turned = [replace(d, place=mirrored_place(d.place), action=_turned(d), point=d.point.mirrored()) for d in deeds]
    text = option_text(turned, branch) if deeds else stay_text(mirrored_place(at), with_ball)
    part = mirrored_part(part_of(deeds, start))
    return Candidate(text, part, replace(source, mirrored=True), frozenset(n for d in deeds for n in d.partner))


def _turned(deed: Deed):
    action = deed.action
    return replace(action, place=mirrored_place(action.place), end=action.end.mirrored(), origin=action.origin.mirrored())


def mirrored_place(place: PlaceName) -> PlaceName:
    """Left and right exchanged in the words."""
    words = " ".join(_SWAP.get(w, w) for w in place.words.split(" "))
    return PlaceName(words, place.spot, _SWAP.get(place.side, place.side))


_SWAP = {"left": "right", "right": "left"}


def choose_wrong(
    right: Candidate, candidates: Iterable[Candidate], player: int, seed: str, also_true: Sequence[Claim] = ()
) -> tuple[Candidate, ...] | None:
    """Two candidates that are wrong, differ from each other and name the player as nobody's partner; None: too few.

    Earlier candidates are nearer to the question and preferred.
    """
    fit: list[Candidate] = []
    for c in candidates:
        if player in c.names or c.text == right.text or not is_wrong(c.part, right.part, also_true):
            continue
        if all(c.text != f.text and differ(c.part, f.part) for f in fit):
            fit.append(c)
        if len(fit) == _MOST:
            break
    if len(fit) < WRONG:
        return None
    rank = digest(f"rank/{seed}") % (WRONG + 1)
    return min(combinations(fit, WRONG), key=lambda pair: _cost(right, pair, rank, fit))


def _cost(right: Candidate, pair: tuple[Candidate, ...], rank: int, fit: list[Candidate]) -> tuple:
    """First the wanted place of the right one by length, then nearness to the question, then like length."""
    lengths = [len(c.text) for c in pair]
    mine = len(right.text)
    shorter = sum(n < mine for n in lengths)
    spread = max(*lengths, mine) / max(1, min(*lengths, mine))
    return (abs(shorter - rank), spread > 2.5, sum(fit.index(c) for c in pair), spread)
