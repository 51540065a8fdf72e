"""`1 looks for 5 then 3`: the read it stands for (language.md 7.6). In: the line; out: a Read with an answer a player.

Each `open` is a pass; who catches inside P + 1 shoots. Nobody open: play goes on; in the last phase, and always from
out of bounds, the last named gets the ball.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.diagnostics import error
from generator.model.court import Point
from generator.model.identity import stable_id
from generator.model.play import Answer, Read, Sight, Watch, WatchKind
from generator.model.sentence import Line, Part, Player
from generator.settling.moments import best_move, goes_on_from
from generator.settling.problems import Mistake
from generator.settling.runs import Run
from generator.settling.state import Item, Setting
from generator.settling.who import find_player, is_defender

FARTHEST = 12.0  # metres of a look; common practice, no source


def looks_in(run: Run, setting: Setting, phase_id: str, remain: bool, since: int = 0) -> Iterator[tuple[Read, int]]:
    """The reads that look lines of a run stand for, each with the number of its line. `remain`: phases follow."""
    for number, item in enumerate(run.items):
        if number < since or not isinstance(item, Item):
            continue
        for part in item.line.parts:
            if part.verb == "look-for" and part.objects and not is_defender(part.objects[0]):
                read = _read(item, part, number, run, setting, phase_id, remain)
                if read is not None:
                    yield read, number


def _read(item: Item, part: Part, number: int, run: Run, setting: Setting, phase_id: str, remain: bool) -> Read | None:
    state = run.before[number]
    where = part.source
    try:
        reader = find_player(item.line.who[0], state, setting, item, item.line.source)
        named = [n for n in (find_player(one, state, setting, item, where) for one in part.objects) if n != reader]
    except Mistake:
        return None  # the line itself has been refused
    if state.holder != reader or not named:
        return None
    for target in named:
        _must_reach(reader, target, part, run, setting)
    out = reader in state.out
    safe = named[-1] if (out or not remain) else None
    read_id = stable_id(phase_id, "looks", str(reader), *map(str, named))
    answers = [_open(read_id, reader, n, item, run, setting) for n in dict.fromkeys(named) if n != safe]
    answers.append(_otherwise(read_id, reader, safe, remain, item, run, setting))
    watch = Watch(WatchKind.PLAYERS, tuple(Player(n) for n in named), source=where)
    return Read(read_id, Player(reader), watch, tuple(answers), source=item.line.source, who_source=item.line.source)


def _must_reach(reader: int, target: int, part: Part, run: Run, setting: Setting) -> None:
    """Nobody throws a look over half a floor."""
    metres = _found(target, run).distance(run.final.place[reader])
    if metres > FARTHEST:
        setting.problems.add(error(
            part.source, "look-too-far", f"{reader} looks for {target}, who is {metres:.0f} m away by then",
            f"bring {target} nearer first, or write the throw: `{reader} baseball passes to {target}`"))


def _open(read_id: str, reader: int, target: int, item: Item, run: Run, setting: Setting) -> Answer:
    lines = _pass_lines(reader, target, item, _inside(target, run, setting))
    sight = Sight(Player(target), "open", "open")
    return Answer(stable_id(read_id, f"{target} open"), ((sight,),), f"{target} open", lines, go_on=len(lines) == 1,
                  source=item.line.source)


def _otherwise(read_id: str, reader: int, safe: int | None, remain: bool, item: Item, run: Run, setting: Setting) -> Answer:
    if safe is None:
        return Answer(stable_id(read_id, "otherwise"), (), "otherwise", (), go_on=True, source=item.line.source)
    shoots = not remain and _inside(safe, run, setting)
    lines = _pass_lines(reader, safe, item, shoots)
    return Answer(stable_id(read_id, "otherwise"), (), "otherwise", lines, go_on=remain, source=item.line.source)


def _found(target: int, run: Run) -> Point:
    """Where the ball finds him."""
    move = best_move(run, target)
    return run.final.place[target] if move is None or not goes_on_from(run, move.key) else move.end


def _inside(target: int, run: Run, setting: Setting) -> bool:
    """He catches inside P + 1, near enough to shoot."""
    court = setting.court
    return _found(target, run).distance(Point(0.0, court.rim)) <= court.behind_arc + 1.0 + 1e-6


def _pass_lines(reader: int, target: int, item: Item, shoots: bool) -> tuple[Line, ...]:
    source = item.line.source
    passes = Part("pass", objects=(Player(target),), text="passes", source=source)
    lines = [Line((Player(reader),), (passes,), text=f"{reader} passes to {target}", source=source)]
    if shoots:
        shot = Part("shoot", text="shoots", source=source)
        lines.append(Line((Player(target),), (shot,), text=f"{target} shoots", source=source))
    return tuple(lines)
