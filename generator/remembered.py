"""What a build computes of a play, remembered: its settled form, what was said about it, its timelines.

In: a shelf and the keys of the plays; out: what `pipeline.compute` takes for timing and for checking. What was settled
and said lies on the shelf, from build to build; timelines are made when somebody asks for them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from generator.diagnostics import Diagnostic
from generator.model.book import Book
from generator.model.court import court_for
from generator.model.identity import canonical
from generator.model.play import Play
from generator.model.settled import SettledPlay, Variant
from generator.pages.kept import Kept
from generator.pages.keys import digest
from generator.pipeline import time_play
from generator.timeline.later import Desk, LaterTimelines
from generator.timeline.simulate import simulate_play
from generator.timeline.timed import PlayTimes

Said = tuple[Diagnostic, ...]
ROOM = 1100  # versions of plays whose timelines are in memory at once: all of a book of 500 plays, some 400 MB
LARGE, FEW = 500, 150  # above so many plays all else needs the memory; what was given back is made again


@dataclass(slots=True)
class Remembered:
    """`shelf` is kept from build to build, `round` from round to round of a preview; `keys` by play id."""

    shelf: Kept
    round: Kept
    keys: Mapping[str, str] = field(default_factory=dict)
    desk: Desk = field(default_factory=lambda: Desk(ROOM))

    def begin(self, keys: Mapping[str, str]) -> None:
        """A build of the plays and lead-ins with these keys."""
        self.keys = keys
        self.desk.room = ROOM if len(keys) <= LARGE + 50 else FEW

    def time(self, play: Play, book: Book, variant: Variant = Variant()) -> tuple[PlayTimes | None, Said]:
        """Used in place of `pipeline.time_play`: what was settled before is taken from the shelf."""
        key = self.keys.get(play.id)
        if key is None:
            return time_play(play, book, variant)
        name = digest(key, canonical(variant))
        return self.round.get(f"times-{name}", lambda: self._later(f"settled-{name}", play, book, variant))

    def check(self, times: PlayTimes, make: Callable[[], Said]) -> Said:
        """What `make()` returns, from the shelf while the play's key is the same."""
        key = self.keys.get(times.play.id)
        return self.shelf.get(f"checked-{key}", make) if key else make()

    def _later(self, name: str, play: Play, book: Book, variant: Variant) -> tuple[PlayTimes | None, Said]:
        made: list[PlayTimes] = []

        def settled_now() -> tuple[SettledPlay | None, dict[str, float], Said]:
            times, said = time_play(play, book, variant)
            if times is None:
                return None, {}, said
            made.append(times)
            return times.settled, {key: line.duration for key, line in times.timelines.items()}, said

        settled, durations, said = self.shelf.get(name, settled_now)
        if settled is None:
            return None, said
        court = court_for(book.team.rule_set)
        later = LaterTimelines(settled, durations, lambda: simulate_play(settled, book.team, court)[0].timelines, self.desk)
        if made:
            later.hold(made[0].timelines)
        return PlayTimes(settled, later), said
