"""`settle`: a play in one version, placed on a floor, with all its branches. In: Play, Book, Variant; out: SettledPlay.

The main line is walked first; every other answer of every fork gives a branch that leaves its parent there. In one
phase one read departs, reads of different phases combine freely, nested reads combine with the answer they stand in.
"""

from __future__ import annotations

from collections import deque

from generator.diagnostics import Diagnostic
from generator.model.book import Book
from generator.model.court import court_for
from generator.model.play import Play, Start, StartPlace
from generator.model.settled import SettledPlay, Variant
from generator.model.transform import inverse, swaps
from generator.settling.branches import make_branch
from generator.settling.defence import prepare_defence
from generator.settling.moves import out_of_bounds
from generator.settling.paths import Path
from generator.settling.places import find_place
from generator.settling.problems import Mistake, Problems
from generator.settling.script import Script, write_script
from generator.settling.situations import check_situation
from generator.settling.state import Item, Setting, State
from generator.settling.walker import Walker

MOST_BRANCHES = 200
AS_WRITTEN = Variant()
_BALL_FREE = ("jump ball", "rebound")
_NOBODY = Item(None, "")


def settle(play: Play, book: Book, variant: Variant = AS_WRITTEN) -> tuple[SettledPlay | None, tuple[Diagnostic, ...]]:
    """The play as placed on the team's floor, None when a mistake keeps it from that; and what is wrong."""
    problems = Problems()
    settled = _settle(play, book, variant, problems)
    return (None if problems.has_errors else settled), problems.all()


def _settle(play: Play, book: Book, variant: Variant, problems: Problems) -> SettledPlay | None:
    script = write_script(play, book, variant, problems)
    if script is None:
        return None
    setting = Setting(court_for(book.team.rule_set), script.play, problems, jobs=inverse(swaps(variant.run_for)))
    state = _start(script, setting)
    if state is None:
        return None
    paths = _all_paths(Walker(script, setting, book), state, script, problems)
    return SettledPlay(script.play, variant, tuple(make_branch(p, setting) for p in paths))


def _all_paths(walker: Walker, state: State, script: Script, problems: Problems) -> list[Path]:
    paths = [walker.main(state)]
    queue = deque(paths)
    while queue:
        parent = queue.popleft()
        for at, number in _open_forks(parent):
            site = parent.phases[at].sites[number]
            for answer in site.read.answers:
                if answer.id == parent.phases[at].taken[number].id:
                    continue
                if len(paths) >= MOST_BRANCHES:
                    problems.error(script.play.source, "too-many-branches",
                                   f"{script.play.name} has more than {MOST_BRANCHES} branches",
                                   "take reads out, or let answers end in a shot")
                    return paths
                child = walker.leave(parent, at, number, answer)
                paths.append(child)
                queue.append(child)
    return paths


def _open_forks(path: Path) -> list[tuple[int, int]]:
    """Phase and number of the sites at which other paths leave this one."""
    left_at = len(path.choices) and next((i for i, p in reversed(list(enumerate(path.phases))) if p.open_from), 0)
    return [
        (at, number) for at, met in enumerate(path.phases) if at >= left_at and not met.frozen and not met.skipped
        for number in range(met.open_from, len(met.sites))
    ]


# -- the start -------------------------------------------------------------------------------------------


def _start(script: Script, setting: Setting) -> State | None:
    state = State()
    start = script.start
    holder = _holder(start, script.play)
    waiting = sorted(start.places, key=lambda p: _depends(p.place))
    while waiting:
        found, refused = _first_placed(waiting, state, setting)
        if found is None:
            setting.problems.add(refused.diagnostic)
            return None
        place, point, name = found
        waiting.remove(place)
        state.place[place.player], state.name[place.player] = point, name
        if out_of_bounds(name) and place.player == holder:
            state.out[place.player] = True
            state.inbounder = place.player
            state.opening = dict(state.place)
    state.opening = dict(state.place)
    if holder is not None and holder in state.place:
        state.holder = holder
        state.note_ball_side()
    setting.on_the_run = frozenset(p.player for p in start.places if p.on_the_run)
    prepare_defence(setting, state)
    check_situation(script, state, setting)
    return state


def _first_placed(waiting: list[StartPlace], state: State, setting: Setting) -> tuple[tuple | None, Mistake | None]:
    """The first of those who wait whose place can be told (`behind 2` waits for 2), with it; else why the first cannot be."""
    refused = None
    for place in waiting:
        try:
            return (place, *find_place(place.place, place.player, state, setting, _NOBODY, place.source)), None
        except Mistake as found:
            refused = refused or found
    return None, refused


def _depends(place: object) -> int:
    """Named spots first, then places that lean on somebody (`beside 5`)."""
    return 0 if type(place).__name__ in ("SpotPlace", "MeasuredPlace") else 1


def _holder(start: Start, play: Play) -> int | None:
    """Who has the ball: whoever the start says, else 1 (the parser tells so); nobody before a toss or a rebound."""
    with_ball = next((p.player for p in start.places if p.with_ball), None)
    if with_ball is not None or play.situation in _BALL_FREE:
        return with_ball
    return next((p.player for p in start.places if p.player == 1), None)

