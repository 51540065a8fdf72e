"""One deed -> one clause in the imperative, as a coach says it to the player: `come off 5's screen to the left wing`.

A clause says who it is joined to: `and` (belongs to the deed before), `then` (a new step).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from generator.jobs.deeds import Deed, DeedKind
from generator.jobs.phrases import at_place, listed, place_words, to_place
from generator.model.sentence import AreaDefender, DefenderBody, DefenderOf, One, Player
from generator.model.settled import Branch, HandOff, LooseBall, Move, Pass, PassKind, Screen, Shot, Stand, Use


@dataclass(frozen=True, slots=True)
class Clause:
    """`text` without a full stop; `joins` is `and` or `then`."""

    text: str
    joins: str = "then"


def clause(deed: Deed, branch: Branch, before: Deed | None = None) -> Clause:
    """The clause of one deed. `before`: the deed said just before it; a catch at the end of that move needs no place."""
    if deed.kind in (DeedKind.CATCH, DeedKind.TAKE):
        return _receive(deed, before)
    return _BY_KIND[deed.kind](deed, branch)


# -- moves -----------------------------------------------------------------------------------------------

_CUT_KINDS = {
    "sprint": "sprint", "break": "break", "run": "run", "shuffle": "shuffle cut", "cross": "cross", "slide": "slide",
    "space": "space out", "step up": "step up", "step": "step", "go": "go", "come": "come", "move": "move",
}
_MOVE_VERBS = {
    "curl": "curl", "fade": "fade", "flare": "flare", "back cut": "back cut", "shallow cut": "cut shallow",
    "dive": "dive", "flash": "flash", "duck in": "duck in", "lift": "lift", "drift": "drift", "fill up": "fill up",
    "circle": "circle", "clear": "clear", "follow": "follow", "trail": "trail the ball", "roll": "roll",
    "short roll": "short roll", "pop": "pop", "step out": "step out", "slip": "slip",
    "step in": "step in", "set up": "take a false step", "dribble": "dribble", "drive": "drive",
    "retreat": "back your dribble out", "snake": "snake your dribble", "exchange": "trade places: go",
    "dribble at": "dribble", "post up": "post up", "seal": "seal", "rebound": "go get the rebound", "crash": "crash",
}


def _verb(deed: Deed) -> str:
    verb, kind = (w.replace("-", " ") for w in (deed.action.verb, deed.action.kind))
    if verb == "cut":
        word = _CUT_KINDS.get(kind, "cut")
    else:
        word = _MOVE_VERBS.get(verb) or _MOVE_VERBS.get(kind) or ("dribble" if deed.kind is DeedKind.DRIBBLE else "go")
    return f"{word} hard" if "hard" in deed.action.manners and word in ("cut", "dive", "drive", "dribble") else word


def _move(deed: Deed, branch: Branch) -> Clause:
    move = deed.action
    assert isinstance(move, Move)
    to = to_place(move.place)
    verb = move.verb.replace("-", " ")
    if move.ghost:
        return Clause(f"run up as if to screen, touch nobody, and go on {to}")
    if verb == "dribble at":
        return Clause(f"dribble at {_one(move.at)}, up {to}")
    if verb == "reject":
        off = f"{move.uses[0].screener}'s screen" if move.uses else "the screen"
        return Clause(f"refuse {off}, go {to}")
    if verb == "seal":
        return Clause(f"seal the defender on your back {at_place(move.place)}")
    if verb == "fill":
        return Clause(f"fill {place_words(move.place)}")
    if move.uses:
        return Clause(_off_screens(deed, move, to))
    return Clause(f"{_verb(deed)}{_way(move)} {to}")


def _one(one: One | None) -> str:
    """Whom he dribbles at: `2`, `X3`, `the top right defender`."""
    match one:
        case Player(number=number):
            return str(number)
        case DefenderBody(number=number) | DefenderOf(of=Player(number=number)):
            return f"X{number}"
        case AreaDefender(area=area):
            return f"the {area} defender"
    return "the defender"


def _off_screens(deed: Deed, move: Move, to: str) -> str:
    screens = [u for u in move.uses if u.screen is not None]
    if not screens:
        return f"{_verb(deed)} {to}, rubbing past {listed(u.screener for u in move.uses)}"
    first, *later = (f"{u.screener}'s" for u in screens)
    off = f"{first} screen" + "".join(f", then {s}" for s in later) + ("," if later else "")
    side = _side_words(screens[0])
    word = _verb(deed)
    if deed.kind is DeedKind.MOVE and word in ("cut", "go", "run", "come", "move", "break", "sprint", "clear"):
        word = {"break": "break", "sprint": "sprint"}.get(word, "come")
    return f"{word} off {off}{side} {to}"


def _side_words(use: Use) -> str:
    return {
        "baseline": " on the baseline side", "over": " over the top", "under": " underneath", "middle": " through the middle",
    }.get(use.words, "")


_WAYS = {
    "along-baseline": " along the baseline", "baseline": " along the baseline", "through-lane": " through the lane",
    "middle": " through the middle", "high": " on the high side", "low": " on the low side",
    "along-left-sideline": " along the left sideline", "along-right-sideline": " along the right sideline",
    "down-left-lane-line": " down the left lane line", "down-right-lane-line": " down the right lane line",
}


def _way(move: Move) -> str:
    return next((_WAYS[w] for w in move.ways if w in _WAYS), "")


# -- screens ---------------------------------------------------------------------------------------------

_SCREENS = {
    "": "screen", "pin down": "pin-down screen", "ball": "ball screen", "step up": "step-up screen", "away": "screen away",
    "side": "side ball screen", "flat": "flat ball screen", "drag": "drag screen", "ram": "ram screen",
}


def _screen(deed: Deed, branch: Branch) -> Clause:
    screen = deed.action
    assert isinstance(screen, Screen)
    kind = screen.kind.replace("-", " ")
    at = f" {at_place(screen.place)}" if screen.place_given else ""
    whom = f" for {listed(screen.freed)}" if screen.freed else ""
    verb = screen.verb.replace("-", " ")
    if verb in ("flip", "re screen"):
        how = "turn and screen again from the other side" if verb == "flip" else "screen again"
        return Clause(f"{how}{whom}{at}")
    if screen.group_kind in ("double", "elevator"):
        return Clause(_together(screen, branch, whom, at))
    if screen.group_kind == "stagger":
        return Clause(f"set the {_rank(screen, branch)} screen of the stagger{whom}{at}")
    if screen.on and not screen.freed:
        return Clause(f"screen {listed(f'X{n}' for n in screen.on)}{at}")
    name = _SCREENS.get(kind, f"{kind} screen")
    if screen.ball_screen and kind in ("", "ball"):
        name = "ball screen"
    on = f" on {listed(f'X{n}' for n in screen.on)}" if screen.on and screen.on != screen.freed else ""
    article = "an" if name[0] in "aeiou" else "a"
    return Clause(f"set {article} {name}{on}{whom}{at}")


def _partners(screen: Screen, branch: Branch) -> list[Screen]:
    return [a for a in branch.actions if isinstance(a, Screen) and screen.group and a.group == screen.group]


def _together(screen: Screen, branch: Branch, whom: str, at: str) -> str:
    others = listed(a.player for a in _partners(screen, branch) if a.player != screen.player)
    beside = f" with {others}" if others else ""
    if screen.group_kind == "elevator":
        return f"stand a step apart{beside}{at}, let {listed(screen.freed) or 'the cutter'} through and close the doors"
    return f"set a double screen{beside}{whom}{at}"


def _rank(screen: Screen, branch: Branch) -> str:
    places = [a.key for a in _partners(screen, branch)]
    return ("first", "second", "third")[min(places.index(screen.key), 2)] if screen.key in places else "first"


# -- the ball --------------------------------------------------------------------------------------------

_THERE = 1.5  # metres
_PASS_WORDS = {
    PassKind.CHEST: "pass to", PassKind.BOUNCE: "bounce pass to", PassKind.SKIP: "skip it to",
    PassKind.OVERHEAD: "throw it overhead to", PassKind.LOB: "lob it to", PassKind.POCKET: "pocket pass to",
    PassKind.DROP: "drop it to", PassKind.HIGH_LOW: "feed it high-low to", PassKind.BASEBALL: "throw it long to",
    PassKind.OUTLET: "outlet to",
}
_AT_THE_RIM = ("rim", "front of the rim", "under the basket", "block", "low block", "lane edge", "dunker spot", "middle of the lane")
_CAUGHT = {PassKind.LOB: "lob", PassKind.SKIP: "skip pass", PassKind.BOUNCE: "bounce pass", PassKind.POCKET: "pocket pass"}


def _pass(deed: Deed, branch: Branch) -> Clause:
    action = deed.action
    assert isinstance(action, Pass)
    words = "inbound to" if action.throw_in and action.pass_kind is PassKind.CHEST else _PASS_WORDS[action.pass_kind]
    return Clause(f"{words} {action.receiver} {at_place(deed.place)}", "and")


def _receive(deed: Deed, before: Deed | None) -> Clause:
    """`catch 4's pass`, `take the hand-off from 4`, with the place unless he has just been told to go there."""
    there = before is not None and before.kind in (DeedKind.MOVE, DeedKind.SCREEN) and before.point.distance(deed.point) < _THERE
    at, joins = ("", "and") if there else (f" {at_place(deed.place)}", "then")
    action = deed.action
    if isinstance(action, HandOff):
        return Clause(f"take the hand-off from {action.player}{at}", joins)
    if isinstance(action, LooseBall):
        return Clause(f"catch {action.player}'s tip", joins)
    assert isinstance(action, Pass)
    thing = "inbounds pass" if action.throw_in else _CAUGHT.get(action.pass_kind, "pass")
    return Clause(f"catch {action.player}'s {thing}{at}", joins)


def _hand_off(deed: Deed, branch: Branch) -> Clause:
    action = deed.action
    assert isinstance(action, HandOff)
    if action.origin.distance(action.end) > 0.5:
        return Clause(f"dribble {to_place(action.place)} and hand off to {action.receiver}")
    return Clause(f"hand off to {action.receiver} {at_place(action.place)}")


def _shoot(deed: Deed, branch: Branch) -> Clause:
    shot = deed.action
    assert isinstance(shot, Shot)
    if shot.on_purpose:
        return Clause("miss on purpose", "and")
    return Clause("finish" if shot.place.spot in _AT_THE_RIM else "shoot", "and")


# -- standing and loose balls ----------------------------------------------------------------------------


def _stand(deed: Deed, branch: Branch) -> Clause:
    action = deed.action
    if isinstance(action, HandOff):
        return Clause(f"fake the hand-off to {action.receiver} and keep the ball")
    assert isinstance(action, Stand)
    verb = action.verb.replace("-", " ")
    at = at_place(action.place)
    if action.seals is not None or verb == "seal":
        who = f"X{action.seals}" if action.seals else "your man"
        return Clause(f"seal {who} on your back {at}")
    if action.looks:
        return Clause(f"look for {listed_then(action.looks)}")
    table: dict[str, str] = {
        "post up": f"post up {at}", "hold": "hold the ball", "keep": "fake the hand-off and keep the ball",
        "face": f"turn and face up {at}", "fake pass": "fake a pass", "fake shot": "fake a shot",
    }
    return Clause(table.get(verb) or f"stay {at}")


def listed_then(players: tuple[int, ...]) -> str:
    """`5, then 3`."""
    return ", then ".join(map(str, players))


def _board(deed: Deed, branch: Branch) -> Clause:
    action = deed.action
    assert isinstance(action, LooseBall)
    verb = action.verb.replace("-", " ")
    table = {"box out": "box out", "crash": "crash the boards", "rebound": "get the rebound"}
    if verb == "tip":
        return Clause(f"tip it to {action.receiver}" if action.receiver else "tip it")
    return Clause(table.get(verb, "go for the ball"))


_BY_KIND: dict[DeedKind, Callable[[Deed, Branch], Clause]] = {
    DeedKind.MOVE: _move, DeedKind.DRIBBLE: _move, DeedKind.SCREEN: _screen, DeedKind.PASS: _pass,
    DeedKind.HAND_OFF: _hand_off, DeedKind.SHOOT: _shoot,
    DeedKind.STAND: _stand, DeedKind.BOARD: _board,
}
