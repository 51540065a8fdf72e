"""Random plays as text, made of whole trade phrases so that most of them run. Seeded."""

from __future__ import annotations

import random

SPOTS = [
    "top", "left slot", "right slot", "left wing", "right wing", "left corner", "right corner", "left elbow", "right elbow",
    "left block", "right block", "nail", "left dunker spot", "right short corner",
]
GOALS = [*SPOTS, "rim", "left mid-post", "right mid-post"]
COVERAGES = ["trail", "switch", "go under", "hedge", "shoot the gap", "top-lock", "drop"]


class _Floor:
    """Who stands where and who has the ball, as far as the text goes."""

    def __init__(self, rng: random.Random) -> None:
        self.rng = rng
        self.at = dict(zip(range(1, 6), rng.sample(SPOTS, 5), strict=True))
        self.holder = 1

    def free(self) -> list[int]:
        return [n for n in self.at if n != self.holder]

    def goal(self) -> str:
        return self.rng.choice([g for g in GOALS if g not in self.at.values()])

    def move(self, player: int) -> str:
        goal = self.goal()
        self.at[player] = goal
        verb = self.rng.choice(["cuts", "clears", "sprints", "moves"])
        return f"{player} {verb} to {goal}"

    def throw(self, receiver: int) -> str:
        line = f"{self.holder} passes to {receiver}"
        self.holder = receiver
        return line

    def screen(self) -> tuple[list[str], int, int]:
        screener, user = self.rng.sample(self.free(), 2)
        spot, goal = self.at[user], self.goal()
        self.at[screener] = f"beside {user}"
        self.at[user] = goal
        return [f"{screener} screens for {user} at {spot}", f"{user} cuts off {screener} to {goal}"], screener, user


def random_play(seed: int, name: str = "") -> str:
    """The text of one play file; valid YAML, possession kept, two or three phases, mostly with a read."""
    rng = random.Random(seed)
    floor = _Floor(rng)
    start = ", ".join(f"{n}: {spot}{' with the ball' if n == 1 else ''}" for n, spot in floor.at.items())
    text = [f"play: {name or f'Random {seed}'}", f"call: call {seed}", f"signal: sign {seed}", f"series: S{seed % 3}",
            f"both sides: {rng.choice(['yes', 'no'])}", f"start: {{{start}}}", "phases:"]
    for number in range(rng.choice([2, 2, 3])):
        text += _phase(floor, number, rng)
    shooter = floor.holder
    text += [f"  - {{name: Shot, do: [{shooter} shoots]}}"]
    return "\n".join(text) + "\n"


def _phase(floor: _Floor, number: int, rng: random.Random) -> list[str]:
    lines = [floor.move(n) for n in rng.sample(floor.free(), rng.choice([1, 2]))]
    screener = user = 0
    if rng.random() < 0.75:
        made, screener, user = floor.screen()
        lines += made
    passer = floor.holder
    others = [n for n in floor.free() if n != screener]
    receiver = user if user and rng.random() < 0.8 else rng.choice(others)  # to him who comes off the screen, mostly
    read = _read(floor, screener, user, passer, rng) if user else []
    lines.append(floor.throw(receiver))
    return [f"  - name: Phase {number + 1}", "    do:", *(f"      - {line}" for line in lines), *read]


def _read(floor: _Floor, screener: int, user: int, passer: int, rng: random.Random) -> list[str]:
    first, second = rng.sample(COVERAGES, 2)
    other = rng.choice([n for n in floor.at if n not in (user, passer)])
    return [
        "    reads:", f"      - who: {user}", f"        watch: X{user} on {screener}'s screen", "        answers:",
        f"          {first}: [{user} curls to front of the rim, {passer} passes to {user}, {user} finishes]",
        f"          {second}: [{user} fades to {rng.choice(['left corner', 'right corner', 'top'])}, "
        f"{passer} {rng.choice(['passes', 'skip passes'])} to {user}, {user} shoots]"
        if rng.random() < 0.7 else f"          {second}: [{other} cuts to {rng.choice(['rim', 'nail'])}, {passer} dribbles to deep top, go on]".replace(", go on", ""),
        "          otherwise: go on",
    ]
