"""One player, one verb: what every handler of a verb is given, and the parts that all actions share."""

from __future__ import annotations

from dataclasses import dataclass

from generator.diagnostics import Location
from generator.model.court import Point
from generator.model.sentence import Part
from generator.model.settled import AnyAction, Move, PlaceName
from generator.settling.places import Found, find_place
from generator.settling.state import Item, Setting, State
from generator.vocabulary import verbs_ball, verbs_move, verbs_screen
from generator.vocabulary.entries import EFFORTS, Verb

VERBS: dict[str, Verb] = {v.id: v for m in (verbs_ball, verbs_move, verbs_screen) for v in m.VERBS}
_SPEEDS = {(v.id, k.id): EFFORTS[k.effort] for v in VERBS.values() for k in v.kinds if k.effort}
HARD, SLOW = 0.15, 0.40  # added by `hard`; the jog of `slowly`


@dataclass(slots=True)
class Doing:
    """`player` does `part` of `item`; `key` is the key of the action he makes; `number` orders items in the phase.
    `others`: everybody who does this line with him, in order; `first`: the part opens the line."""

    player: int
    part: Part
    item: Item
    state: State
    setting: Setting
    key: str
    number: int
    others: tuple[int, ...]
    first: bool

    @property
    def origin(self) -> Point:
        """Where his last line leaves him."""
        return self.state.place[self.player]

    @property
    def where(self) -> Location:
        """The verb's place in the file."""
        return self.part.source

    @property
    def line_where(self) -> Location:
        """The line's place in the file."""
        return self.item.line.source

    def find(self, place, mover: int | None = -1) -> Found:
        """A place of this line; for this player unless told otherwise."""
        who = self.player if mover == -1 else mover
        return find_place(place, who, self.state, self.setting, self.item, self.where)

    def shared(self, end: Point, name: PlaceName) -> dict[str, object]:
        """The fields that every action of this line has."""
        item, part = self.item, self.part
        return {
            "key": self.key, "phase": self.state.phase, "player": self.player, "verb": part.verb, "kind": part.kind,
            "origin": self.origin, "end": end, "place": name, "line": f"{item.slot}.{self.player}", "answer": item.answer,
            "from_rule": item.from_rule, "manners": part.manners, "text": item.line.text, "source": item.line.source,
        }

    def add(self, action: AnyAction) -> None:
        """Makes the action his last one and puts him at its end."""
        self.state.add(action)
        self.state.move(self.player, action.end, action.place)

    def leaves_screen(self) -> str | None:
        """Ends the screen he stands in; its key."""
        return self.state.screens.pop(self.player, None)


def effort_of(verb: str, kind: str, manners: frozenset[str]) -> float:
    """Share of top speed: by kind, else by verb; `hard` adds, `slowly` is a jog."""
    row = VERBS.get(verb)
    effort = _SPEEDS.get((verb, kind)) or (EFFORTS[row.effort] if row and row.effort else EFFORTS["cut"])
    if "slowly" in manners:
        return min(effort, SLOW)
    return min(1.0, effort + HARD) if "hard" in manners else effort


def runs_on(doing: Doing, uses: tuple, waits: tuple) -> bool:
    """True when nothing but order parts this move from the player's last one (timeline.md 2.7)."""
    state = doing.state
    last = state.get(state.last.get(doing.player))
    if not isinstance(last, Move) or last.phase != state.phase or uses or waits or doing.item.cue:
        return False
    if last.answer != doing.item.answer or last.with_ball != (state.holder == doing.player):
        return False
    if doing.player in doing.item.looked and last.place.spot in ("rim", "front of the rim"):
        return False  # he shows his hands there before he goes on
    return not (doing.first and doing.item.line.timings)
