"""Plays built by hand for the tests of the timeline: a pin-down with answers, a ball screen, hand-offs, random ones."""

from __future__ import annotations

import random
from dataclasses import replace

from branch_builder import BranchBuilder, mark, settled_play, spot

from generator.model.settled import Branch, Departure, Instant, PassKind, SettledPlay

ANSWERS = (("keep", ""), ("curl", "trail"), ("fade", "shoot the gap"), ("back", "top-lock"), ("pop", "switch"))


def pin_down_to_shot(b: BranchBuilder | None = None) -> BranchBuilder:
    """1 dribbles off the top, 4 screens down for 3, 3 comes to the top and shoots."""
    b = b or BranchBuilder({1: "top", 2: "right corner", 3: "left block", 4: "left elbow", 5: "right block"})
    b.screen(4, 3, at=(-2.0, 3.9))
    b.cut(3, "top", off=4)
    b.dribble(1, "right wing")
    b.pass_(1, 3)
    b.shoot(3)
    return b


def read_play() -> SettledPlay:
    """The pin-down with a read of X3 by 3 and four answers."""
    main = pin_down_to_shot()
    fork = main.read(3, mark("a2", Instant.USE), ANSWERS, screen="a1", user="a2", watched=(3, 4), taken="keep", below="a2")
    trunk = main.branch()
    branches = [trunk]
    for taken, _ in ANSWERS[1:]:
        branches.append(_answer(trunk, fork, taken))
    return settled_play(*branches)


def _answer(trunk: Branch, fork, taken: str) -> Branch:
    b = BranchBuilder(dict(trunk.start))
    pin_down_to_shot(b)
    b.actions = b.actions[:3]
    b.count, b.answer, b.holder = 10, taken, 1
    b.place[3] = spot("top")
    b.forks = [replace(fork, taken=taken)]
    own = {
        "curl": lambda: (b.cut(3, (0.0, 2.975), verb="curl", curl=True), b.pass_(1, 3, lead=True), b.shoot(3)),
        "fade": lambda: (b.cut(3, "left corner", verb="fade", effort=0.65), b.pass_(1, 3, kind=PassKind.SKIP), b.shoot(3)),
        "back": lambda: (b.cut(3, (-0.5, 1.9), verb="back-cut", effort=0.85), b.pass_(1, 3, lead=True), b.shoot(3)),
        "pop": lambda: (b.cut(4, "left wing", verb="pop", effort=0.55), b.pass_(1, 4), b.shoot(4)),
    }[taken]()
    named = (3, 1) if taken != "pop" else (4, 1)
    stopped = ("a2", "a4", "a5") if taken != "pop" else ("a1", "a3", "a4", "a5")
    stopped = tuple(k for k in stopped if any(a.key == k for a in trunk.actions))
    kept = tuple(a for a in trunk.actions if a.key not in ("a4", "a5"))
    b.actions = [*kept, *b.actions[3:]]
    branch = b.branch(f"{taken}", "main", Departure(0, named, stopped, own))
    return replace(branch, phases=(replace(trunk.phases[0], actions=tuple(a.key for a in branch.actions)),))


_SPOTS = (
    "top", "left slot", "right slot", "left wing", "right wing", "left corner", "right corner", "left elbow", "right elbow",
    "left block", "right block", "nail",
)


def random_branch(seed: int, passes_on_the_run: bool = True, phases: int = 2) -> Branch:
    """A play that makes sense to the clock, if not to a coach: moves, screens, passes, hand-offs, a shot."""
    r = random.Random(seed)
    places = r.sample(_SPOTS, 5)
    b = BranchBuilder({i + 1: places[i] for i in range(5)}, holder=r.randint(1, 5))
    taken = dict(zip(range(1, 6), places))

    def free_spot():
        return r.choice([s for s in _SPOTS if s not in taken.values()])

    def without_ball():
        return r.choice([p for p in range(1, 6) if p != b.holder])

    for phase in range(phases):
        if phase:
            b.phase(f"P{phase}")
        for _ in range(r.randint(2, 5)):
            kind = r.random()
            if kind < 0.35:
                p = without_ball()
                taken[p] = free_spot()
                b.cut(p, taken[p], effort=r.choice((0.55, 0.75, 1.0)))
            elif kind < 0.5:
                taken[b.holder] = free_spot()
                b.dribble(b.holder, taken[b.holder])
            elif kind < 0.7:
                screener, user = r.sample([p for p in range(1, 6) if p != b.holder], 2)
                b.screen(screener, user)
                taken[screener] = f"screen {screener}"
                taken[user] = free_spot()
                b.cut(user, taken[user], off=screener)
            elif kind < 0.9:
                receiver = without_ball()
                b.pass_(b.holder, receiver, lead=passes_on_the_run and r.random() < 0.3 and b.last(receiver) is not None)
                last = b.actions[-1]
                if last.lead and last.meets is None:
                    b.actions[-1] = replace(last, lead=False)
            else:
                giver, receiver = b.holder, without_ball()
                place = b.place[giver]
                b.cut(receiver, (place.x * 0.9, place.y - 0.6), effort=0.75)
                taken[receiver] = f"by {giver}"
                b.hand_off(giver, receiver)
    b.shoot(b.holder)
    return b.branch()
