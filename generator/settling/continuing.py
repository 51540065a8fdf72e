"""What comes after a phase: the next one, `go to`, a repeat with its players matched by place, the end.

In: a path and the script; out: script indexes, renamings, the way a branch ends.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from itertools import permutations
from typing import TYPE_CHECKING

from generator.model.book import Book, fold_name
from generator.model.court import Point
from generator.model.play import GoTo, Phase, Repeat
from generator.model.sentence import Player
from generator.model.settled import Ending, HandOff, Pass, Shot, Variant
from generator.model.spots import name_place
from generator.model.transform import mirror
from generator.settling.fits import FIT, misfits
from generator.settling.problems import Problems
from generator.settling.script import Script, write_script
from generator.settling.state import PLAYERS, Setting

if TYPE_CHECKING:
    from generator.settling.paths import Path, PhaseRun

LOOPS = 2  # a phase is run so often at most by `go to`


def next_index(script: Script, index: int) -> int | None:
    """The phase below."""
    return index + 1 if index + 1 < len(script.phases) else None


def target_of(go_to: GoTo, path: Path, met: PhaseRun, script: Script, book: Book, setting: Setting) -> int | None:
    """The script index a `go to` leads to; None: the branch ends (at the end, or in another play)."""
    target = fold_name(go_to.target)
    if target == "end":
        return None
    if target == "next phase":
        return next_index(script, met.index)
    for index, step in enumerate(script.phases):
        if isinstance(step.phase, Phase) and step.lead_in == met.lead_in and fold_name(step.phase.name) == target:
            return index if sum(p.index == index for p in path.phases) < LOOPS else None
    other = book.play(go_to.target)
    if other is None:
        names = [s.phase.name for s in script.phases if isinstance(s.phase, Phase)]
        setting.problems.error(go_to.source, "unknown-phase", f"there is no phase and no play {go_to.target}",
                               f"phases of this play: {', '.join(names)}")
        return None
    path.ending = Ending.OTHER_PLAY
    _check_other_play(other, go_to, path, book, setting)
    return None


def _check_other_play(other, go_to: GoTo, path: Path, book: Book, setting: Setting) -> None:
    script = write_script(other, book, Variant(), Problems())
    if script is None:
        return
    start = mirror(script.start) if go_to.mirrored else script.start
    for message in misfits(start, path.state, setting, f"the start of {other.name}", "this answer"):
        setting.problems.warn(go_to.source, "go-to-unfit", message, f"bring the five to the start of {other.name} first")


# -- repeats ---------------------------------------------------------------------------------------------


def match_roles(repeat: Repeat, start: int, end: int, turned: bool, path: Path, script: Script,
                setting: Setting) -> dict[int, int] | None:
    """Who does whose lines in the next round: number in the script -> player, by place (language.md 6.4)."""
    first = next(p for p in path.phases if p.index == start and p.round == 0)
    picture = {_back(first.roles, p): at for p, at in first.entry.opening.items()}
    flip = turned != first.turned
    picture = {n: (at.mirrored() if flip else at) for n, at in picture.items()}
    named = _numbers_named(script, start, end)
    given = {role: path.roles[did] for did, role in repeat.roles.items()}  # who did 4's lines does 3's next
    roles = _assign(picture, path.state.place, named, given)
    if not _fits(roles, picture, named - set(given), path, repeat, setting):
        return None
    holder = _back(first.roles, first.entry.holder) if first.entry.holder else None
    if holder in named and roles.get(holder) != path.state.holder:
        whom = f"{path.state.holder} has it" if path.state.holder else "nobody has it"
        now = "" if roles.get(holder) == holder else f" (his lines are {roles.get(holder)}'s now)"
        setting.problems.error(repeat.source, "repeat-ball", f"the repeat begins with the ball in {holder}'s hands{now}, "
                               f"but here {whom}", "bring the ball there before the repeat")
        return None
    return roles


def _back(roles: dict[int, int], player: int) -> int:
    return next((n for n, p in roles.items() if p == player), player)


def _numbers_named(script: Script, start: int, end: int) -> set[int]:
    """Numbers that the repeated phases name in their lines."""
    found: set[int] = set()
    for step in script.phases[start:end]:
        if isinstance(step.phase, Phase):
            _collect(step.phase.lines, found)
            _collect(step.phase.reads, found)
    return found


def _collect(value: object, found: set[int]) -> None:
    if isinstance(value, Player):
        found.add(value.number)
    elif isinstance(value, tuple):
        for part in value:
            _collect(part, found)
    elif is_dataclass(value):
        for field in fields(value):
            if field.compare:
                _collect(getattr(value, field.name), found)


def _assign(picture: dict[int, Point], now: dict[int, Point], named: set[int], given: dict[int, int]) -> dict[int, int]:
    """One-to-one: the given ones, then those named by least total distance, then the others."""
    free = [p for p in PLAYERS if p in now and p not in given.values()]
    wanted = sorted(n for n in named if n not in given and n in picture)
    best = min(
        permutations(free, min(len(wanted), len(free))),
        key=lambda order: (round(sum(picture[n].distance(now[p]) for n, p in zip(wanted, order)), 6), order),
    )
    roles = dict(given) | dict(zip(wanted, best))
    rest = [p for p in PLAYERS if p not in roles.values()]
    for number in PLAYERS:
        if number not in roles:
            same = number if number in rest else rest[0]
            rest.remove(same)
            roles[number] = same
    return roles


def _fits(roles: dict[int, int], picture: dict[int, Point], named: set[int], path: Path, repeat: Repeat, setting: Setting) -> bool:
    worst = max((n for n in named if n in picture), key=lambda n: picture[n].distance(path.state.place[roles[n]]), default=None)
    if worst is None:
        return True
    spot, player = picture[worst], roles[worst]
    nearest = min(path.state.place, key=lambda p: (path.state.place[p].distance(spot), p))
    far = path.state.place[player].distance(spot)
    if far <= FIT:
        return True
    words = name_place(setting.court, spot).words
    setting.problems.error(
        repeat.source, "repeat-unfit", f"the repeat needs somebody at {words}, where {worst} began: nearest is {nearest}, "
        f"{path.state.place[nearest].distance(spot):.1f} m away" + (f", and {player} is left for it" if nearest != player else ""),
        "end the phase in the picture it began with, or say who does whose lines: `roles: {4: 3}`")
    return False


def exchange_roles(met: PhaseRun, path: Path, setting: Setting) -> dict[int, int]:
    """`roles` of a phase: from the next phase on 3 does 1's lines, given or by place."""
    if met.phase.roles:
        change = {n: n for n in PLAYERS}
        for player, role in met.phase.roles.items():
            change[role] = player
        left = [p for p in PLAYERS if p not in change.values()]
        doubled = [n for n in PLAYERS if n not in met.phase.roles.values() and list(change.values()).count(change[n]) > 1]
        for number, player in zip(doubled, left):
            change[number] = player
    else:
        named = set(PLAYERS) & set(path.state.place)
        change = _assign(met.entry.opening, path.state.place, named, {})
    return {n: change.get(p, p) for n, p in path.roles.items()}


def ending_of(path: Path) -> Ending:
    """A shot, a scorer (the last ball line is a catch), or just the end of the phases."""
    state = path.state
    last = state.get(state.last_ball)
    shot = next((a for a in reversed(state.actions) if isinstance(a, Shot)), None)
    if shot is not None and (last is None or state.index[shot.key] > state.index[last.key]):
        return Ending.SHOT
    in_last = last is not None and path.phases and last.phase == path.met - 1
    return Ending.SCORER if in_last and isinstance(last, (Pass, HandOff)) else Ending.PHASES_DONE


def scorer_of(path: Path) -> int | None:
    """Who shoots, or who caught last."""
    if path.ending is Ending.SHOT:
        shots = [a for a in path.state.actions if isinstance(a, Shot)]
        return shots[-1].player if shots else None
    if path.ending is Ending.SCORER:
        return path.state.receiver
    return None
