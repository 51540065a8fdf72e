"""Every number the clock runs on, each with its mark and source. Metres, seconds, m/s, m/s^2.

Marks: measured, derived, `usual` (inside a band of published or usual figures, from memory unless a source is named),
assumed (judged by eye; no coach has seen it). Columns: youth, high school, college, professional.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from functools import lru_cache

from generator.model.book import Team
from generator.model.settled import PassKind

PACES = ("youth", "high school", "college", "professional")

# name: (youth, high school, college, professional), mark, source
BY_PACE: dict[str, tuple[tuple[float, float, float, float], str, str]] = {
    "top_speed": ((5.8, 7.2, 7.9, 8.3), "usual", "sprints: 5.2-6.3, 7.2-8.2, 7.8-8.5, 8.0-9.0, low end of each male band, memory"),
    "tau": ((1.00, 0.95, 0.90, 0.85), "usual", "time constant of a sprint start, 0.8-1.2 s across levels"),
    "braking": ((3.5, 4.0, 4.5, 5.0), "assumed", "comfortable stop"),
    "cornering": ((4.0, 5.0, 5.5, 6.0), "assumed", "sideways grip in a bend"),
    "dribble_ratio": ((0.82, 0.88, 0.92, 0.94), "usual", "speed with the ball over speed without, from memory"),
    "chest": ((7.5, 9.0, 10.0, 11.0), "usual", "chest pass 8-12 m/s, from memory"),
    "bounce": ((6.0, 7.0, 7.5, 8.0), "usual", "bounce pass 6-9 m/s along its path, from memory"),
    "overhead": ((8.0, 9.5, 10.5, 11.5), "usual", "overhead and skip 9-14 m/s, from memory"),
    "lob": ((6.0, 6.5, 7.0, 7.5), "assumed", "mean along the ground"),
    "baseball": ((11.0, 13.0, 14.0, 15.0), "usual", "baseball pass 14-20 m/s, from memory, low end"),
    "catch": ((0.45, 0.35, 0.28, 0.22), "assumed", "ball in hand to ready"),
    "pivot": ((0.40, 0.30, 0.25, 0.22), "assumed", "catch and swing, on top of the catch"),
    "screen_set": ((0.45, 0.35, 0.30, 0.25), "assumed", "arrival to both feet down"),
    "hand_off": ((0.40, 0.30, 0.25, 0.22), "assumed", "ball from hand to hand"),
    "shot": ((0.80, 0.65, 0.55, 0.50), "assumed", "ready to release"),
    "react": ((0.30, 0.25, 0.22, 0.20), "usual", "between simple and two-choice reaction, from memory"),
}

# name: value, mark, source; the same at every pace
FIXED: dict[str, tuple[float, str, str]] = {
    "plant": (0.12, "assumed", "foot on the floor in a cut of more than a right angle"),
    "passer_leaves": (0.1, "assumed", "release to the passer's own first step"),
    "after": (0.2, "assumed", "language.md 8.3: `after E` is E + 0.2 s"),
    "screen_hold": (0.30, "derived", "0.6 m past the screener at cut pace"),
    "shot_flight": (1.0, "assumed", "release to rim, for rebounds and tips"),
    "rebound": (0.3, "assumed", "hands on a loose ball"),
    "early_read": (0.4, "measured", "ice and top-lock are answered this long before the screen is used"),
    "fake": (0.3, "assumed", "a hand-off faked and kept"),
}
JOG_EFFORT = 0.40  # assumed; speed of a start `on the run`
WOMEN = 0.88  # usual: women's over men's sprint speed, low end of the bands, from memory

SHOULDER = 0.65  # r_s, assumed: between centres, shoulder to shoulder
SCREEN_TURN = 1.2  # R_t, measured: without it a cutter is at 1.8 m/s around every screen
LOOSE_TURN = 1.5  # derived: opens the gap by less than 4 cm for turns below 25 degrees
CORNER = 1.0  # assumed
TURN_RADII = (0.5, 0.8, 1.2, 1.8)  # assumed: turns that are tried against a plant
BODY = 0.95  # assumed: circle kept round a player who stands
BODY_TOUCH = 0.89  # assumed: nearer than this he is in the way
TIGHT_BODY = 0.7  # assumed: kept where there is no room for more
CURL_WORTH = 1.1  # assumed: a curl goes on round the screener unless that takes so many times longer
CURL_DETOUR = 1.3  # assumed: or leads so many times farther, as round another who stands behind him
DETOUR = 1.15  # assumed: whom a read sends back plants his foot rather than run so many times as far at speed
CLOSEST = 0.55  # assumed: a turn on the run may brush a standing player's shoulder, no more
BODY_IGNORE = 0.76  # assumed: so near to an end of the route he belongs to it
AT_END = 0.3  # assumed: so near to an end of the route he is left or reached, not run through
CLEAR_BY = 0.6  # language.md 8.5
ARRIVE_BY = 0.3  # language.md 8.5
DEFENDER_GAP = 1.0  # timeline.md 1.6c: defender from his man toward the rim
SIDE_SURE = 0.25  # timeline.md 1.6c
STEP_IN_VIEW, STEP_BEHIND = 0.6, 0.9  # timeline.md 1.7
SHOULDERS = 0.7  # assumed: between two screeners who stand shoulder to shoulder
GATE = 1.32  # derived: between the two of an elevator, a runner's shoulder radius on both sides
STAGGER = 1.8  # assumed: from the first to the second screen of a stagger
ON_HIM = 0.5  # assumed: a named place so near to the freed player is his own
NEAREST = 0.75  # assumed: no screener stands nearer than this to the man he frees
STEP_EFFORT = 0.4  # assumed: a step to the side, as when the doors of an elevator shut
NEAR_SCREEN = 1.6  # assumed: so near to a screen a cutter is at it
SLIP_TOUCHES, SLIP_ROOM, SLIP_LEAVES = 0.66, 0.8, 1.5  # assumed: contact between centres, room kept, from the screen's place
SPRING, TOP_ACCELERATION, TOP_SPEED = 6.0, 9.0, 6.0  # timeline.md 5.1: a defender's follower, 1/s, m/s^2, m/s
LOOK_AHEAD = 0.25  # measured: seconds; of 167 branches 45 had a defender within 0.25 m of an attacker without it, 3 with it
TRAP = (0.6, 0.75)  # assumed: who traps, from the man toward the rim and aside
INSIDE = 0.3  # assumed: who traps stays so far from the lines
PICKS_UP, FOLLOWS_UP = 0.5, 0.3  # assumed: half-court man-to-man waits so far past half court; share of the way beyond
BEHIND_CHASER = 3.0  # assumed: so far behind the chaser an area closes the way to the rim
LOOSE, MATCHED = (2.6, 0.5), (3.4, 0.85)  # assumed: how far an area minds a man, share of the way to him; a matchup zone's
FROM_OFFENCE, FROM_FELLOW = (3.0, 0.95), (1.5, 1.0)  # timeline.md 5.4: strength, distance kept
LEAD, LOB_LEAD = 1.2, 0.2  # timeline.md 3.3: catch so far before the end of the run
WAIT_CAP, WAIT_MIN = 0.8, 0.05  # timeline.md 3.6
LATE = 0.5  # language.md 8.3: later than this misses `as E`
OFF_THE_WAY = 2.0  # timeline.md 1.10: route over straight distance


@dataclass(frozen=True, slots=True)
class Pace:
    """The numbers of one team."""

    top_speed: float
    tau: float
    braking: float
    cornering: float
    dribble_ratio: float
    chest: float
    bounce: float
    overhead: float
    lob: float
    baseball: float
    catch: float
    pivot: float
    screen_set: float
    hand_off: float
    shot: float
    react: float
    plant: float
    passer_leaves: float
    after: float
    screen_hold: float
    shot_flight: float
    rebound: float
    early_read: float
    fake: float
    wait_until_set: bool = False

    def speed(self, effort: float, with_ball: bool) -> float:
        """V of a move in m/s."""
        return effort * self.top_speed * (self.dribble_ratio if with_ball else 1.0)

    def flight_speed(self, kind: PassKind) -> float:
        """Metres a second along the ground."""
        return getattr(self, _FLIGHT[kind])


_FLIGHT = {
    PassKind.CHEST: "chest", PassKind.BOUNCE: "bounce", PassKind.POCKET: "bounce", PassKind.DROP: "bounce",
    PassKind.SKIP: "overhead", PassKind.OVERHEAD: "overhead", PassKind.HIGH_LOW: "overhead",
    PassKind.OUTLET: "overhead", PassKind.LOB: "lob", PassKind.BASEBALL: "baseball",
}
_SPEEDS = frozenset({"top_speed", "chest", "bounce", "overhead", "lob", "baseball"})
_ACCELERATIONS = frozenset({"braking", "cornering"})
_PLAIN = frozenset({"dribble_ratio", "wait_until_set"})


@lru_cache(maxsize=64)
def _pace(name: str, women: bool, wait_until_set: bool, factor: float) -> Pace:
    column = PACES.index(name) if name in PACES else 1
    values = {key: row[0][column] for key, row in BY_PACE.items()} | {key: row[0] for key, row in FIXED.items()}
    pace = Pace(**values, wait_until_set=wait_until_set)
    if women:
        pace = replace(pace, top_speed=pace.top_speed * WOMEN)
    return pace if factor == 1.0 else _stretched(pace, factor)


def _stretched(pace: Pace, factor: float) -> Pace:
    """Every time of a play grows by `factor` exactly: speeds by 1/f, accelerations by 1/f^2."""
    values = {}
    for field in fields(Pace):
        value = getattr(pace, field.name)
        if field.name in _PLAIN:
            values[field.name] = value
        elif field.name in _SPEEDS:
            values[field.name] = value / factor
        elif field.name in _ACCELERATIONS:
            values[field.name] = value / factor**2
        else:
            values[field.name] = value * factor
    return Pace(**values)


def pace_of(team: Team, factor: float = 1.0) -> Pace:
    """The team's numbers; `factor` is the stopwatch's: measured over computed seconds."""
    return _pace(team.pace, team.women, team.screens == "wait until set", factor)


def stopwatch_factor(computed: float, measured: float) -> float:
    """What one measured play says about all: measured over computed seconds, kept within 0.5 and 2."""
    return min(max(measured / computed, 0.5), 2.0) if computed > 0 else 1.0
