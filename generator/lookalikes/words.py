"""Look-alikes in words, as JSON and as text. Seconds for people stand in half seconds.

`alike_lines` are the sentences of a play's page; `tell_words` say what shows first.
"""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING

from generator.model.play import Play
from generator.model.settled import AnyAction, HandOff, Move, Pass, Screen, Shot, Variant

if TYPE_CHECKING:
    from generator.lookalikes.report import Pair, Report, Trunk
    from generator.lookalikes.split import Split

JSON_VERSION = 1


def half_seconds(seconds: float) -> str:
    """`7.5 s`, `8 s`."""
    return f"{round(seconds * 2) / 2:g} s"


def version_words(variant: Variant) -> str:
    """`mirrored`, `with 3 for 2`, both; "" as written."""
    parts = ["mirrored"] if variant.mirrored else []
    parts += [f"with {player} for {role}" for player, role in variant.run_for]
    return " and ".join(parts)


def tell_words(parted: Split) -> str:
    """What shows first, on a's side, against b's: `4 goes to left slot instead of left elbow`."""
    tell = parted.tell
    if tell is None:
        return ""
    if tell.player is None:
        return _ball_words(tell.holder_a, tell.holder_b)
    a, b = tell.action_a, tell.action_b
    if a is None or b is None:
        if a is None and b is None:
            return f"where {tell.player} stands"
        return f"{tell.player} stays instead of {_gerund(b)}" if a is None else f"{tell.player} {_does(a)} instead of staying"
    if _to(a) and _to(b) and a.place.words != b.place.words:
        return f"{tell.player} goes to {a.place.words} instead of {b.place.words}"
    if type(a) is not type(b) or a.verb != b.verb:
        return f"{tell.player} {_does(a)} instead of {_gerund(b)}"
    return f"the way of {tell.player} to {a.place.words}"


def _ball_words(mine: int | None, theirs: int | None) -> str:
    if mine and theirs:
        return f"{mine} has the ball instead of {theirs}"
    if mine:
        return f"{mine} keeps the ball"
    return f"the ball leaves {theirs}" if theirs else "the ball"


def _to(action: AnyAction) -> bool:
    return isinstance(action, (Move, Screen))


def _does(action: AnyAction) -> str:
    if isinstance(action, Screen):
        return f"screens at {action.place.words}"
    if isinstance(action, Move):
        return f"goes to {action.place.words}"
    if isinstance(action, (Pass, HandOff)):
        return f"{'passes' if isinstance(action, Pass) else 'hands off'} to {action.receiver}"
    return "shoots" if isinstance(action, Shot) else "stays"


def _gerund(action: AnyAction) -> str:
    if isinstance(action, Screen):
        return f"screening at {action.place.words}"
    if isinstance(action, Move):
        return f"going to {action.place.words}"
    return {Pass: "passing", HandOff: "handing off", Shot: "shooting"}.get(type(action), "staying")


def alike_lines(report: Report, play: Play, most: int = 3) -> tuple[str, ...]:
    """`Looks like Lantern for 7.5 of 11 s; tell: 4 goes to left slot instead of left elbow.`, longest first."""
    lines = [_line(pair, play) for pair in report.of(play) if not pair.at_once]
    return tuple(lines[:most])


def _line(pair: Pair, play: Play) -> str:
    other = pair.b if play.id == pair.a.id else pair.a
    parted = pair.split
    length = parted.a_length if play.id == pair.a.id else parted.b_length
    at = parted.a_s if play.id == pair.a.id else parted.b_s
    name = f"{other.name} {pair.version}".strip() if play.id == pair.a.id or not pair.version else f"{other.name} (this one {pair.version})"
    if at is None:
        return f"Looks like {name} to the end."
    tell = tell_words(parted if play.id == pair.a.id else turned(parted))
    return f"Looks like {name} for {half_seconds(at).removesuffix(' s')} of {half_seconds(length)}; tell: {tell}."


def turned(parted: Split) -> Split:
    """The same split seen from b."""
    tell = parted.tell and replace(parted.tell, action_a=parted.tell.action_b, action_b=parted.tell.action_a,
                                   holder_a=parted.tell.holder_b, holder_b=parted.tell.holder_a)
    return replace(
        parted, a_s=parted.b_s, b_s=parted.a_s, a_length=parted.b_length, b_length=parted.a_length, tell=tell,
    )


def as_text(report: Report) -> str:
    """Trees of the series, pairs that give themselves away at once, lead-ins that hide longest."""
    blocks = ["\n".join([f"{name}:", *_tree_lines(tree, 1)]) for name, tree in report.trees.items()]
    alike = [p for p in report.pairs if not p.at_once]
    if alike:
        alike.sort(key=lambda p: (-p.alike, p.a.name, p.b.name))
        blocks.append("\n".join(["Look alike:", *(f"  {_pair_line(p)}" for p in alike)]))
    give = [p for p in report.pairs if p.at_once and p.a.series and p.a.series == p.b.series]
    if give:
        blocks.append("\n".join(["Same series, but apart at once:", *(f"  {p.a.name} and {p.b.name}: {tell_words(p.split)}" for p in give)]))
    if report.led:
        blocks.append("\n".join(["Lead-in that hides longest:", *(f"  {_led_line(p)}" for p in report.led)]))
    return "\n\n".join(blocks)


def _pair_line(pair: Pair) -> str:
    name = f"{pair.b.name} {pair.version}".strip()
    if pair.split.a_s is None:
        return f"{pair.a.name} and {name}: to the end"
    tail = f"; tell: {tell_words(pair.split)}"
    return f"{pair.a.name} and {name}: {half_seconds(pair.split.a_s)} of {half_seconds(pair.split.a_length)}{tail}"


def _led_line(pair: Pair) -> str:
    names = " then ".join(pair.lead_ins)
    return f"{pair.a.name} and {pair.b.name} behind {names}: {half_seconds(pair.alike)} of {half_seconds(pair.split.a_length)}"


def _tree_lines(trunk: Trunk, depth: int) -> list[str]:
    pad = "  " * depth
    names = ", ".join(p.name for p in trunk.plays)
    if trunk.until is None:
        return [f"{pad}{names}" + (": alike to the end" if len(trunk.plays) > 1 else "")]
    head = f"{pad}{names}: alike for {half_seconds(trunk.until)}, then {tell_words(trunk.pair.split)}"
    return [head, *(line for branch in trunk.branches for line in _tree_lines(branch, depth + 1))]


def as_json(report: Report) -> str:
    """`{"version": 1, "pairs": [{"a", "b", "split_s", "a_s", "b_s", "tell"}]}`; `split_s` null: never apart."""
    rows = [
        {
            "a": p.a.name, "b": p.b.name, "split_s": None if p.split.a_s is None else round(p.split.a_s, 2),
            "a_s": round(p.split.a_length, 2), "b_s": round(p.split.b_length, 2), "tell": tell_words(p.split),
            "version": p.version, "departure_s": None if p.split.departure is None else round(p.split.departure, 2),
        }
        for p in report.pairs
    ]
    return json.dumps({"version": JSON_VERSION, "pairs": rows}, ensure_ascii=False, indent=1)
