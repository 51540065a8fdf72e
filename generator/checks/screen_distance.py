"""screen-distance: a screen set from behind leaves the defender no step.

What: a defender who cannot see the screener (he comes from behind) needs room for one normal step when he stands and
one to two when he moves. The defender is taken where he guards: a metre from his man toward the rim.
Why: without that step the contact is the screener's foul, wherever he stands.
Passes:
    play: Good
    start: {1: left slot with the ball, 2: right slot, 3: left corner, 4: right wing, 5: right block}
    phases:
      - {name: Back, do: [1 passes to 2, 4 back screens for 1 at nail, 1 cuts off 4 to rim, 2 lobs to 1, 1 finishes]}
Fails:
    play: Bad
    start: {1: left slot with the ball, 2: right slot, 3: left corner, 4: right wing, 5: right block}
    phases:
      - {name: Back, do: [1 passes to 2, 4 back screens for 1 at 4 ft below left slot, 1 cuts off 4 to rim, 2 lobs to 1, 1 finishes]}
Source: FIBA Official Basketball Rules Art. 33.7 (2010 text, 2022 in part); NBA Rule 12-B-III (older text); NCAA App. III
sec. 2, 2021-22; NFHS 4-40. No book gives the length of a step: 0.75 m, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.finding import Case, Finding
from generator.checks.screen_uses import uses
from generator.diagnostics import Severity
from generator.model.court import Court, Point, RuleSet
from generator.model.settled import Move, Screen

RULE = "screen-distance"
STEP = 0.75
GUARDS_FROM = 1.0  # metres between a player and his defender
BLIND = frozenset({"back", "up", "flare", "hammer", "ram"})
BOOKS = {
    RuleSet.INTERNATIONAL: "FIBA Art. 33.7", RuleSet.PROFESSIONAL: "NBA Rule 12-B-III",
    RuleSet.COLLEGE: "NCAA App. III", RuleSet.HIGH_SCHOOL: "NFHS 4-40",
}


def check(case: Case) -> Iterator[Finding]:
    """One finding a blind screen."""
    for branch, _ in case.timelines():
        for used in uses(case, branch):
            screen, move = used.screen.action, used.move.action
            assert isinstance(screen, Screen) and isinstance(move, Move)
            if screen.kind not in BLIND or move.with_ball:
                continue
            gap = screen.end.distance(guard_of(move.origin, case.court))
            if gap < STEP:
                book = BOOKS[case.book.team.rule_set]
                yield case.found(
                    Severity.WARNING, RULE, branch, screen,
                    f"{screen.player} stands {gap:.1f} m behind {move.player}'s defender, who cannot see him "
                    f"and needs one step ({book})",
                    "leave the place out (he will stand a step away), or name one farther off", topic=screen.key,
                )


def guard_of(man: Point, court: Court) -> Point:
    """Where a defender stands: between his man and the rim."""
    rim = Point(0.0, court.rim)
    length = man.distance(rim)
    share = min(1.0, GUARDS_FROM / length) if length else 0.0
    return Point(man.x + share * (rim.x - man.x), man.y + share * (rim.y - man.y))


