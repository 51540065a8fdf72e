"""Where everybody is and who has the ball, by the text, while lines are settled in written order.

`State` changes line by line; `copy()` is cheap (dictionaries of five, one list), so that branches start from copies.
`Setting` holds what stays the same for a whole play. `Item` is one line in the order in which it is settled.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from generator.model.court import Court, Point
from generator.model.play import Play
from generator.model.sentence import Line, Timing
from generator.model.settled import AnyAction, Mark, PlaceName
from generator.model.spots import side_of
from generator.settling.problems import Problems

PLAYERS = (1, 2, 3, 4, 5)
_SCALARS = (
    "phase", "holder", "since", "ball_side", "in_air", "passer", "receiver", "cutter", "screener", "inbounder",
    "last_ball", "ended", "after_shot", "phase_start",
)
_DICTS = ("place", "name", "opening", "last", "last_move", "screens", "guards", "index", "out", "spent", "halted")
_LISTS = ("actions", "pending", "cues", "sent", "cued")


class State:
    """One moment of the text.

    place, name: where each player's last line leaves him; opening: the same at the phase's opening.
    holder: who has the ball (None: in the air); since: the line that gave it to him; ball_side: the side it last had.
    last: key of each player's last action (passes count for both); last_move: of his last move or screen walk.
    screens: screener -> key of the screen he still stands in. guards: X body -> player it guards.
    out: players out of bounds -> True. pending: timings still to be bound, as (key, Timing, item number).
    sent: (player, point, line, key) of this phase. spent: screen key -> True once its user has used it.
    halted: keys of screens that a read has stopped: their screeners merely stand.
    cued: (key, mark, words) of actions that a rule's event starts.
    """

    __slots__ = (*_SCALARS, *_DICTS, *_LISTS)

    def __init__(self) -> None:
        for name in _SCALARS:
            setattr(self, name, None)
        for name in _DICTS:
            setattr(self, name, {})
        for name in _LISTS:
            setattr(self, name, [])
        self.phase = 0
        self.phase_start = 0

    def copy(self) -> State:
        """An independent state; the actions themselves are shared (they are frozen)."""
        new = object.__new__(State)
        for name in _SCALARS:
            setattr(new, name, getattr(self, name))
        for name in _DICTS:
            setattr(new, name, dict(getattr(self, name)))
        for name in _LISTS:
            setattr(new, name, list(getattr(self, name)))
        return new

    def add(self, action: AnyAction) -> None:
        """Appends an action and makes it its player's last."""
        self.index[action.key] = len(self.actions)
        self.actions.append(action)
        self.last[action.player] = action.key

    def get(self, key: str | None) -> AnyAction | None:
        """The action of that key, None when there is none."""
        at = self.index.get(key)
        return None if at is None else self.actions[at]

    def change(self, key: str, **changes: object) -> None:
        """Replaces fields of an action that stands already."""
        at = self.index[key]
        self.actions[at] = replace(self.actions[at], **changes)

    def of_phase(self) -> list[AnyAction]:
        """The actions of the running phase, written order."""
        return self.actions[self.phase_start:]

    def move(self, player: int, point: Point, name: PlaceName) -> None:
        """Puts a player at the end of his line."""
        self.place[player], self.name[player] = point, name
        if player == self.holder:
            self.note_ball_side()

    def note_ball_side(self) -> None:
        """Keeps the side the ball last had (language.md 6.2: within 0.6 m of the axis the side before)."""
        side = side_of(self.place[self.holder]) if self.holder else ""
        if side:
            self.ball_side = side

    def give(self, player: int | None, line: Line | None) -> None:
        """The ball goes to `player` by `line`."""
        self.holder, self.since, self.in_air = player, line, None
        if player:
            self.note_ball_side()

    @property
    def ball(self) -> Point | None:
        """Where the ball is by the text."""
        return self.place[self.holder] if self.holder else None


@dataclass(frozen=True, slots=True)
class Item:
    """A line with what settles it: `slot` begins the keys of its actions. `only`: the players it is still kept for.
    `bound`: role words bound by a rule or a read (`he` -> 3). `cue`: an instant its first part starts with (rules).
    `if_ball`: dropped in silence when its player has no ball. `group`: numbers named anywhere in its `do`;
    `looked`: those of them who are looked for."""

    line: Line
    slot: str
    answer: str | None = None
    from_rule: bool = False
    only: frozenset[int] | None = None
    bound: tuple[tuple[str, int], ...] = ()
    cue: tuple[Mark, str] | None = None
    if_ball: bool = False
    group: frozenset[int] = frozenset()
    looked: frozenset[int] = frozenset()

    def role(self, name: str) -> int | None:
        """The player bound to a role word."""
        return next((p for n, p in self.bound if n == name), None)


@dataclass(slots=True)
class Setting:
    """What holds for the whole play: the floor, the play as it is run, the areas of a zone, what went wrong.

    `areas`: area words -> X number in a zone, empty against man. `bodies_follow_men`: X3 guards 3.
    `taken`: points where somebody stands once all lines are done, for `open` spots; `skip_open` while that is being
    found out. `on_the_run`: who starts at jogging speed. `broken`: slots of lines that were refused. `jobs`: in a play run
    for others, whose job each of those has who change places.
    """

    court: Court
    play: Play
    problems: Problems
    areas: dict[str, int] = field(default_factory=dict)
    bodies_follow_men: bool = True
    taken: dict[int, Point] | None = None
    on_the_run: frozenset[int] = frozenset()
    skip_open: bool = False
    broken: set[str] = field(default_factory=set)
    jobs: dict[int, int] = field(default_factory=dict)

    def job(self, player: int) -> int:
        """Whose job he has as the play is written: what is equal otherwise goes by it, so that a play run for others is the
        same play with other numbers."""
        return self.jobs.get(player, player)


@dataclass(frozen=True, slots=True)
class Pending:
    """A timing phrase that waits for its event; `number` is the place of its line in the phase's order."""

    key: str
    timing: Timing
    number: int
    item: Item
    player: int | None = None  # whom the phrase names, found when the line was read
