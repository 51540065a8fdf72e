"""By which way: `off 4`, `between 4 and 5`, `along the baseline`. In: a part's route words; out: uses and via points.

Whom a mover uses is settled by the text: the screen a player stands in by the lines above, else the player himself,
if he stands.
"""

from __future__ import annotations

import re
from dataclasses import replace

from generator.model.court import Point
from generator.model.sentence import Between, Off, One, Player, Relation, Role, Way
from generator.model.settled import Move, Screen, Use
from generator.model.spots import side_of
from generator.settling.doing import Doing
from generator.settling.places import ball_side
from generator.settling.problems import mistake
from generator.settling.state import State
from generator.settling.who import find_player
from generator.vocabulary.talk import HIS_SCREENER

_USE_WORDS = {
    "over": "over", "under": "under", "around": "around", "behind": "behind", "in-front-of": "in-front-of",
    "baseline": "baseline", "middle": "middle", "high": "over", "low": "under",
}
_TAKES_SCREEN = ("cut", "curl", "fade", "flare", "dribble", "drive", "dive", "clear")
GATE = 3.0  # metres between two who stand and are run through like a pair of screens
REACH = 2.0  # a move uses the screen set for him when its straight way passes so near to it


def find_uses(doing: Doing, end: Point) -> tuple[Use, ...]:
    """The screeners on his way, in the order of use."""
    ways = doing.part.ways
    words = next((_USE_WORDS[w.word] for w in ways if isinstance(w, Way) and w.one is None and w.word in _USE_WORDS), "")
    words = words or {"high": "over", "low": "under", "middle": "middle"}.get(doing.part.side, "")
    if doing.part.verb == "reject":
        words = "reject"
    named = [(w.one, words) for w in ways if isinstance(w, Off)]
    named += [(one, "between") for w in ways if isinstance(w, Between) and is_gate(doing, w) for one in (w.first, w.second)]
    named += [(w.one, _USE_WORDS[w.word]) for w in ways if isinstance(w, Way) and w.one is not None and w.word in _USE_WORDS]
    named = _with_partners(doing, _of_his_screens(doing, named))
    uses = tuple(_use(doing, find_player(one, doing.state, doing.setting, doing.item, doing.where), w) for one, w in named)
    if uses:
        return uses
    return _offered(doing, end, words)


def _of_his_screens(doing: Doing, named: list[tuple[One, str]]) -> list[tuple[One, str]]:
    """`off the pick`: those who screen for him in this phase, in the order written; a pair is one screen."""
    if not any(one == Role(HIS_SCREENER) for one, _ in named):
        return named
    state = doing.state
    own = [a for a in state.of_phase() if isinstance(a, Screen) and doing.player in a.freed and a.key not in state.spent]
    own = own or [a for a in (state.get(k) for k in state.screens.values()) if doing.player in a.freed]
    if not own:
        raise mistake(doing.where, "whose-screen", f"nobody screens for {doing.player} above this line",
                      f"say whose screen, as in `off 5`, and add `5 screens for {doing.player}` above")
    if len({a.group or a.key for a in own}) > 1 and not re.search(r"\b(screens|picks)\b", doing.part.text):
        both = " and ".join(str(a.player) for a in own)
        raise mistake(doing.where, "whose-screen", f"{both} screen for {doing.player}: off whose screen?",
                      f"write `off {own[0].player}`, or `off {own[0].player} then {own[1].player}`")
    return [pair for one, words in named
            for pair in ([(Player(a.player), words) for a in own] if one == Role(HIS_SCREENER) else [(one, words)])]


def _with_partners(doing: Doing, named: list[tuple[One, str]]) -> list[tuple[One, str]]:
    """Who goes off one of two who stand shoulder to shoulder goes off both."""
    state, numbers = doing.state, [find_player(one, doing.state, doing.setting, doing.item, doing.where) for one, _ in named]
    found = []
    for (one, words), number in zip(named, numbers):
        found.append((one, words))
        own = state.get(state.screens.get(number))
        if own is not None and own.group_kind == "double" and words != "reject":
            mates = (a.player for a in state.of_phase() if isinstance(a, Screen) and own.group and a.group == own.group)
            found += [(Player(m), words) for m in mates if m not in numbers]
    return found


def _use(doing: Doing, screener: int, words: str) -> Use:
    state = doing.state
    if screener == doing.player:
        raise mistake(doing.where, "off-himself", f"{screener} cannot go off himself", "name the screener")
    key = state.screens.get(screener)
    if words == "reject" and key is None:
        offered = next((a for a in reversed(state.of_phase()) if isinstance(a, Screen) and a.player == screener and doing.player in a.freed), None)
        if offered is not None:
            return Use(screener, None, offered.end, words, needs_set=False)
    if key in state.halted:
        return Use(screener, None, state.place[screener], words, needs_set=False)
    at_once = any(t.relation is Relation.AT_ONCE for t in doing.item.line.timings)
    if key is None:
        gone = _left_behind(doing, screener)
        if gone is not None:
            return Use(screener, gone.key, gone.end, words)
        _must_stand(doing, screener)
        return Use(screener, None, state.place[screener], words, needs_set=False)
    screen = state.get(key)
    return Use(screener, key, screen.end, words or _passed_on(screen), needs_set=not at_once and words != "reject")


def _passed_on(screen: Screen) -> str:
    """A screen set `on the right` is passed on the right."""
    return {"high": "over", "low": "under"}.get(screen.side, screen.side)


def _left_behind(doing: Doing, screener: int) -> Screen | None:
    """The screen he set for this player in this phase and has left by the lines above: the timeline says so."""
    return next((a for a in reversed(doing.state.of_phase()) if isinstance(a, Screen) and a.player == screener
                 and doing.player in a.freed and a.answer == doing.item.answer), None)


def tie_screens_below(state: State) -> None:
    """`off 4` whose screen stands further down in the phase: he uses that screen all the same (timeline.md 3.4)."""
    phase = state.of_phase()
    for index, move in enumerate(phase):
        if not isinstance(move, Move) or all(u.screen is not None for u in move.uses):
            continue
        below = {a.player: a for a in reversed(phase[index + 1:]) if isinstance(a, Screen) and move.player in a.freed}
        tied = {u.screener: below[u.screener] for u in move.uses if u.screen is None and u.screener in below}
        for screen in tied.values():
            state.change(screen.key, users=(*screen.users, move.key), aim=screen.aim or move.end)
        if tied:
            uses = tuple(replace(u, screen=tied[u.screener].key, at=tied[u.screener].end, needs_set=True)
                         if u.screener in tied and u.screen is None else u for u in move.uses)
            state.change(move.key, uses=uses)


def _must_stand(doing: Doing, screener: int) -> None:
    """`off 4` without a screen for 4: he stands; moving at that time is an error."""
    last = doing.state.get(doing.state.last.get(screener))
    tied = doing.first and any(t.relation not in (Relation.AT_ONCE, Relation.UNTIL) for t in doing.item.line.timings)
    if isinstance(last, Move) and last.phase == doing.state.phase and not tied and last.answer == doing.item.answer:
        raise mistake(doing.line_where, "off-a-mover", f"{doing.player} goes off {screener}, but {screener} is moving: "
                      f"`{last.text}` (line {last.source.line}) and no screen", f"add `{screener} screens for {doing.player}`, "
                      f"or say when: `after {screener} arrives`")


def _offered(doing: Doing, end: Point, words: str) -> tuple[Use, ...]:
    """Without `off`: the screen that stands ready for him, unless his way is far from it."""
    state, player = doing.state, doing.player
    ready = [k for k in state.screens.values() if player in state.get(k).freed and k not in state.spent and k not in state.halted]
    if not ready or any(isinstance(w, Between) for w in doing.part.ways):
        return ()
    screen = state.get(ready[-1])
    if doing.part.verb == "reject":
        return (Use(screen.player, screen.key, screen.end, "reject", needs_set=False),)
    wraps = doing.part.verb in ("curl", "fade", "flare")
    if doing.part.verb not in _TAKES_SCREEN or not (wraps or passes_near(doing.origin, end, screen.end)):
        return ()
    return (Use(screen.player, screen.key, screen.end, words or _passed_on(screen)),)


def passes_near(start: Point, end: Point, at: Point, reach: float = REACH) -> bool:
    """True when the straight way from start to end comes within `reach` metres of `at`."""
    dx, dy = end.x - start.x, end.y - start.y
    length2 = dx * dx + dy * dy
    share = 0.0 if length2 < 1e-9 else max(0.0, min(1.0, ((at.x - start.x) * dx + (at.y - start.y) * dy) / length2))
    return Point(start.x + share * dx, start.y + share * dy).distance(at) <= reach


def note_uses(doing: Doing, move_key: str, uses: tuple[Use, ...], end: Point) -> None:
    """Tells the screens who uses them and where he goes on to; places those that named no place."""
    state = doing.state
    for i, use in enumerate(uses):
        if use.screen is None:
            continue
        screen: Screen = state.get(use.screen)
        aim = uses[i + 1].at if i + 1 < len(uses) else end
        state.change(use.screen, users=(*screen.users, move_key), aim=screen.aim or aim)
        state.spent[use.screen] = True


def settle_offered(doing: Doing, uses: tuple[Use, ...], end: Point) -> tuple[Use, ...]:
    """A screen without a named place gets its first guess now that its user's way is known."""
    from generator.settling.screens import guess_place, stand_on_the_way

    stand_on_the_way(doing, uses, end)
    found = []
    for use in uses:
        screen = doing.state.get(use.screen) if use.screen else None
        if screen is not None and not screen.place_given and not screen.users:
            use = replace(use, at=guess_place(doing, screen, end, uses))
        elif screen is not None and screen.group_kind == "stagger":
            use = replace(use, at=screen.end)
        found.append(use)
    return tuple(found)


# -- via points ------------------------------------------------------------------------------------------


def find_via(doing: Doing, end: Point, used: bool) -> tuple[Point, ...]:
    """Places on the way that the route words stand for. `used`: they already told how a screen is used."""
    points: list[Point] = []
    for way in doing.part.ways:
        if isinstance(way, Between):
            points += [] if is_gate(doing, way) else [_gap(doing, way)]
        elif isinstance(way, Way) and way.word == "away-from":
            points.append(_away(doing, end, way))
        elif isinstance(way, Way) and way.one is None and not (used and way.word in _USE_WORDS):
            points.extend(_by_word(doing, way.word, end))
    if doing.part.verb == "shallow-cut" and not used and not points:
        points.extend(_past_the_dribbler(doing, end))
    if not used and doing.part.side and not points:
        points.extend(_by_side(doing, doing.part.side, end))
    return tuple(points)


def is_gate(doing: Doing, way: Between) -> bool:
    """True when both stand in a screen, or stand close together: then he uses the two, and needs no place on the way."""
    state, pair = doing.state, [_between(doing, one) for one in (way.first, way.second)]
    if all(p in state.screens for p in pair):
        return True
    moving = {a.player for a in state.of_phase() if isinstance(a, (Move, Screen))}
    return not moving & {*pair} and doing.player not in pair and state.place[pair[0]].distance(state.place[pair[1]]) <= GATE


def _between(doing: Doing, one: One) -> int:
    return find_player(one, doing.state, doing.setting, doing.item, doing.where)


def _gap(doing: Doing, way: Between) -> Point:
    pair = [_between(doing, one) for one in (way.first, way.second)]
    first, second = (doing.state.place[p] for p in pair)
    return Point((first.x + second.x) / 2, (first.y + second.y) / 2)


def _away(doing: Doing, end: Point, way: Way) -> Point:
    other = doing.state.place[find_player(way.one, doing.state, doing.setting, doing.item, doing.where)]
    middle = Point((doing.origin.x + end.x) / 2, (doing.origin.y + end.y) / 2)
    far = middle.distance(other) or 1.0
    return Point(middle.x + 1.2 * (middle.x - other.x) / far, middle.y + 1.2 * (middle.y - other.y) / far)


def _by_word(doing: Doing, word: str, end: Point) -> tuple[Point, ...]:
    court, start = doing.setting.court, doing.origin
    k, f, w = court.half_lane, court.free_throw_line, court.half_width - 0.7
    sign = _sign(doing, start, end) if word == "baseline" else 1.0
    middle = Point((start.x + end.x) / 2, (start.y + end.y) / 2)
    if word in ("along-left-sideline", "along-right-sideline"):
        x = -w if "left" in word else w
        return (Point(x, start.y + (end.y - start.y) * 0.2), Point(x, end.y + (start.y - end.y) * 0.2))
    if word in ("down-left-lane-line", "down-right-lane-line"):
        x = -k if "left" in word else k
        return (Point(x, f), Point(x, court.block_middle))
    points = {
        "baseline": (Point(sign * (k + 0.6), 0.9),), "middle": (_through_the_middle(doing, start, end),),
        "high": (Point(middle.x, middle.y + 1.5),), "low": (Point(middle.x, max(0.8, middle.y - 1.5)),),
        "along-baseline": (Point(start.x * 0.7, 0.7), Point(end.x * 0.7, 0.7)),
        "through-lane": (Point(0.0, (court.rim + f) / 2),),
    }
    return points.get(word, ())


def _through_the_middle(doing: Doing, start: Point, end: Point) -> Point:
    """In front of the free-throw line, on his own side of the axis; between two places above it, on the axis."""
    court = doing.setting.court
    if min(start.y, end.y) > court.free_throw_line:
        return Point(0.0, (start.y + end.y) / 2)
    side = side_of(start, 0.05) or side_of(end, 0.05)
    return Point({"left": -0.3, "right": 0.3, "": 0.0}[side] * court.half_lane, court.free_throw_line - 0.6)


def _past_the_dribbler(doing: Doing, end: Point) -> tuple[Point, ...]:
    """A shallow cut goes by the dribbler who comes: on the rim's side of him, `over` on the other."""
    court, state = doing.setting.court, doing.state
    dribble = next((a for a in reversed(state.of_phase()) if isinstance(a, Move) and a.with_ball), None)
    if dribble is None:
        return ()
    middle = Point((doing.origin.x + end.x) / 2, (doing.origin.y + end.y) / 2)
    if not passes_near(dribble.origin, dribble.end, middle, 1.5):
        return ()
    over = any(isinstance(w, Way) and w.word in ("over", "high") for w in doing.part.ways)
    far = middle.distance(Point(0.0, court.rim)) or 1.0
    share = (1.4 if over else -1.4) / far
    return (Point(middle.x + middle.x * share, middle.y + (middle.y - court.rim) * share),)


def _sign(doing: Doing, start: Point, end: Point) -> float:
    """The half in which he goes by: his own, else where he ends, else the ball's."""
    side = side_of(start, 0.05) or side_of(end, 0.05) or ball_side(doing.state, doing.where)
    return -1.0 if side == "left" else 1.0


def _by_side(doing: Doing, side: str, end: Point) -> tuple[Point, ...]:
    court = doing.setting.court
    if side in ("left", "right"):
        x = court.half_lane * (-1 if side == "left" else 1)
        return (Point(x, min(max(doing.origin.y, end.y), court.free_throw_line) - 0.6),)
    return _by_word(doing, {"high": "high", "low": "low", "middle": "middle"}.get(side, ""), end)

