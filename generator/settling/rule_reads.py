"""Read-shaped rules: a read added at the first place it can occur. In: rules, the run of a phase; out: bound reads.

`anyone one pass away` binds `he` to the player nearest to the ball among those within 25 ft of it with no teammate
nearer on that side (language.md 7.7); `anyone` to any player without the ball.
"""

from __future__ import annotations

from dataclasses import replace

from generator.model.court import FOOT
from generator.model.play import Read, Rule
from generator.model.sentence import Player, Role
from generator.model.settled import Move
from generator.model.spots import side_of
from generator.settling.moves import CUTS
from generator.settling.runs import Run
from generator.settling.state import PLAYERS, Setting, State

ONE_PASS = 25 * FOOT


def reads_of_rules(rules: tuple[Rule, ...], run: Run, setting: Setting, done: set[str]) -> tuple[Read, ...]:
    """The reads of rules that can occur in this phase and have not occurred before in the branch."""
    state = run.before[0]
    found = []
    for rule in rules:
        if rule.read is None or rule.read.id in done:
            continue
        bound = _bind_to_screen(rule.read, run) if _at_a_screen(rule.read) else _bind(rule.read, state, setting)
        if bound is not None:
            found.append(bound)
    return tuple(found)


def _at_a_screen(read: Read) -> bool:
    """True where a rule is about whoever uses a screen: `cutter`, or `anyone` with `on 5's screen`."""
    name = read.who.name if isinstance(read.who, Role) else ""
    return name == "cutter" or name.startswith("anyone") and read.watch.on_screen_of is not None


def _bind_to_screen(read: Read, run: Run) -> Read | None:
    """`he` is the first of the phase who goes off that screen; for `cutter` the first who cuts, with or without one."""
    of = read.watch.on_screen_of
    moves = [a for a in run.final.of_phase() if isinstance(a, Move) and not a.with_ball]
    users = [m for m in moves if any(of is None or not isinstance(of, Player) or u.screener == of.number for u in m.uses)]
    if not users and of is None:
        users = [m for m in moves if m.verb in CUTS]
    return replace(read, who=Player(users[0].player)) if users else None


def _bind(read: Read, state: State, setting: Setting) -> Read | None:
    if not isinstance(read.who, Role) or not read.who.name.startswith("anyone"):
        return read
    if state.holder is None:
        return None
    near = one_pass_away(state, setting) if "one pass" in read.who.name else _others(state, setting)
    if not near:
        return None
    return replace(read, who=Player(near[0]))


def _others(state: State, setting: Setting) -> list[int]:
    return sorted((p for p in PLAYERS if p in state.place and p != state.holder), key=setting.job)


def one_pass_away(state: State, setting: Setting) -> list[int]:
    """Players one pass away from the ball, the nearest first."""
    ball = state.place[state.holder]
    others = sorted(_others(state, setting), key=lambda p: round(state.place[p].distance(ball), 2))
    found, sides = [], set()
    for player in others:
        side = side_of(state.place[player]._replace(x=state.place[player].x - ball.x), 0.0)
        if state.place[player].distance(ball) <= ONE_PASS and side not in sides:
            found.append(player)
        sides.add(side)
    return found

