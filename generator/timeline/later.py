"""Timelines made when somebody asks for them, and given back when many others are in use.

A book of hundreds of plays does not fit into memory with all its timelines, and a build after one change needs hardly
any of them. What stands here looks like any other mapping of timelines; only branches and durations are there from the
start.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from generator.model.settled import Branch, SettledPlay
from generator.timeline.timed import Timeline

Make = Callable[[], Mapping[str, Timeline]]


class Desk:
    """Room for the timelines of `room` plays; who was laid down first goes first."""

    def __init__(self, room: int) -> None:
        self.room = room
        self._on: dict[int, LaterTimelines] = {}

    def lay(self, one: LaterTimelines) -> None:
        """Puts the timelines of `one` on the desk, and takes the oldest away when it is full."""
        self._on[id(one)] = one
        while len(self._on) > self.room:
            self._on.pop(next(iter(self._on))).give_back()


class LaterTimelines(Mapping[str, Timeline]):
    """The timelines of a settled play by branch key, as `make` yields them; the same again after being given back.
    `durations` in seconds, by branch key."""

    def __init__(self, settled: SettledPlay, durations: Mapping[str, float], make: Make, desk: Desk) -> None:
        self._make, self._desk = make, desk
        self._lines = {b.key: LaterTimeline(b, durations[b.key], self) for b in settled.branches}
        self._real: Mapping[str, Timeline] | None = None

    def __getitem__(self, key: str) -> Timeline:
        return self._lines[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._lines)

    def __len__(self) -> int:
        return len(self._lines)

    def real(self) -> Mapping[str, Timeline]:
        """The timelines themselves."""
        if self._real is None:
            self.hold(self._make())
        return self._real

    def hold(self, real: Mapping[str, Timeline]) -> None:
        """Takes timelines that are there already."""
        self._real = real
        self._desk.lay(self)

    def give_back(self) -> None:
        """Forgets them."""
        self._real = None
        for line in self._lines.values():
            line.give_back()


class LaterTimeline:
    """One of them. What was asked for once stays in the instance, so that asking again costs nothing."""

    def __init__(self, branch: Branch, duration: float, among: LaterTimelines) -> None:
        self.branch, self.duration, self._among = branch, duration, among

    def __getattr__(self, name: str) -> object:
        if name.startswith("__"):
            raise AttributeError(name)
        value = getattr(self._among.real()[self.branch.key], name)
        self.__dict__[name] = value
        return value

    def give_back(self) -> None:
        """Forgets all but branch and duration."""
        self.__dict__ = {name: self.__dict__[name] for name in ("branch", "duration", "_among")}
