"""Builds settled branches by hand, for tests of everything that stands behind settling.

    b = BranchBuilder({1: "top", 2: "right wing", 3: "left block", 4: "left elbow", 5: "right block"}, holder=1)
    b.screen(4, at=(-2.0, 3.9), frees=3)
    b.cut(3, "top", off=4)
    b.pass_(1, 3)
    branch = b.branch()

Places are names of spots with a side, or points. Each player's origin is where his last action left him. Where a
move's `off` names a screener who has a screen, it becomes a use of that screen.
"""

from __future__ import annotations

from dataclasses import replace

from generator.diagnostics import Location
from generator.model.court import Court, Point, RuleSet, court_for
from generator.model.play import Answer, Play, Read, Sight, Watch, WatchKind
from generator.model.sentence import DefenderBody, Player
from generator.model.settled import (
    AnyAction,
    Branch,
    BranchPhase,
    Cue,
    Departure,
    Ending,
    Fork,
    HandOff,
    Hold,
    Instant,
    Mark,
    Move,
    Pass,
    PassKind,
    PlaceName,
    Screen,
    SettledPlay,
    Shot,
    Stand,
    Trigger,
    Use,
    Variant,
)
from generator.model.spots import spot_point

PATH = "plays/test/hand.yml"


def spot(name: object, court: Court | None = None) -> Point:
    """A point from "left wing", "top" or a pair of numbers."""
    if not isinstance(name, str):
        return Point(*name)
    court = court or court_for(RuleSet.INTERNATIONAL)
    side = next((s for s in ("left", "right") if name.startswith(s + " ")), "")
    return spot_point(court, name.removeprefix(side).strip(), side)


def mark(action: str, instant: Instant, offset: float = 0.0) -> Mark:
    """An instant of an action by key."""
    return Mark(action, instant, offset)


def on(hold: Hold, action: str, instant: Instant = Instant.START) -> Trigger:
    """A trigger on one instant."""
    return Trigger(hold, (Mark(action, instant),))


class BranchBuilder:
    """Collects actions in written order; `branch()` gives the frozen branch."""

    def __init__(self, start: dict[int, object], holder: int = 1, court: Court | None = None, clock: float | None = None):
        self.court = court or court_for(RuleSet.INTERNATIONAL)
        self.place = {p: spot(s, self.court) for p, s in start.items()}
        self.holder, self.clock = holder, clock
        self.actions: list[AnyAction] = []
        self.phases: list[dict] = []
        self.forks: list[Fork] = []
        self.cues: list[Cue] = []
        self.count = 0
        self.answer: str | None = None
        self.phase("One")

    def phase(self, name: str, opening: Mark | None = None) -> None:
        """A new phase begins."""
        self.phases.append({"name": name, "plan": dict(self.place), "holder": self.holder, "opening": opening, "at": len(self.actions)})

    def _shared(self, player: int, verb: str, end: Point, when, kind: str = "", text: str = "") -> dict:
        self.count += 1
        key = f"a{self.count}"
        shared = dict(
            key=key, phase=len(self.phases) - 1, player=player, verb=verb, kind=kind, origin=self.place[player], end=end,
            place=PlaceName(f"({end.x:.1f}, {end.y:.1f})"), triggers=tuple(when), line=key, answer=self.answer,
            text=text or f"{player} {verb}", source=Location(PATH, self.count, 1),
        )
        self.place[player] = end
        return shared

    def _add(self, action: AnyAction) -> str:
        self.actions.append(action)
        return action.key

    def last(self, player: int, kinds=(Move, Screen, HandOff)) -> AnyAction | None:
        """The player's last action of those kinds."""
        return next((a for a in reversed(self.actions) if a.player == player and isinstance(a, kinds)), None)

    def cut(self, player: int, to, off=(), when=(), effort: float = 0.75, verb: str = "cut", words: str = "", **more) -> str:
        """A move; `off` is a screener or several, in order."""
        screeners = (off,) if isinstance(off, int) else tuple(off)
        uses = tuple(self._use(o, words) for o in screeners)
        end = spot(to, self.court)
        more.setdefault("via", ())
        more["via"] = tuple(spot(v, self.court) for v in more["via"])
        move = Move(**self._shared(player, verb, end, when), effort=effort, uses=uses, **more)
        for use in uses:
            if use.screen:
                self._change(use.screen, users=(*self._get(use.screen).users, move.key), aim=end)
        return self._add(move)

    def _use(self, screener: int, words: str) -> Use:
        screen = self.last(screener, (Screen,))
        at = screen.end if screen else self.place[screener]
        return Use(screener, screen.key if screen else None, at, words)

    def _get(self, key: str) -> AnyAction:
        return next(a for a in self.actions if a.key == key)

    def _change(self, key: str, **changes) -> None:
        self.actions = [replace(a, **changes) if a.key == key else a for a in self.actions]

    def dribble(self, player: int, to, when=(), effort: float = 0.5, off=(), **more) -> str:
        """A move with the ball."""
        return self.cut(player, to, off, when, effort, "dribble", with_ball=True, **more)

    def screen(self, player: int, frees: int, at=None, when=(), effort: float = 0.65, **more) -> str:
        """A screener's walk; without `at` the timeline finds the place."""
        end = spot(at, self.court) if at is not None else self.place[frees]
        return self._add(Screen(
            **self._shared(player, "screen", end, when, more.pop("kind", "")), effort=effort, freed=(frees,), on=(frees,),
            place_given=at is not None, **more,
        ))

    def pass_(self, player: int, receiver: int, when=(), kind: PassKind = PassKind.CHEST, lead: bool = False, meets="last") -> str:
        """A pass; it meets the receiver's last move of this phase."""
        if meets == "last":
            move = self.last(receiver, (Move,))
            meets = move.key if move and move.phase == len(self.phases) - 1 else None
        self.holder = receiver
        return self._add(Pass(
            **self._shared(player, "pass", self.place[player], when), receiver=receiver, pass_kind=kind,
            catch_at=self.place[receiver], meets=meets, lead=lead,
        ))

    def hand_off(self, player: int, receiver: int, at=None, when=(), fake: bool = False, move="last") -> str:
        """A hand-off; the receiver comes by his last move of this phase."""
        end = spot(at, self.court) if at is not None else self.place[player]
        if move == "last":
            found = self.last(receiver, (Move,))
            move = found.key if found and found.phase == len(self.phases) - 1 else None
        if not fake:
            self.holder = receiver
        return self._add(HandOff(
            **self._shared(player, "hand-off", end, when), receiver=receiver, receiver_move=move, fake=fake,
        ))

    def shoot(self, player: int, when=()) -> str:
        """A shot."""
        return self._add(Shot(**self._shared(player, "shoot", self.place[player], when)))

    def stand(self, player: int, seconds: float = 0.0, when=(), verb: str = "stay") -> str:
        """Time passes."""
        return self._add(Stand(**self._shared(player, verb, self.place[player], when), seconds=seconds))

    def read(
        self, reader: int, point: Mark, answers: tuple[tuple[str, str], ...], screen: str | None = None, user: str | None = None,
        watched: tuple[int, ...] = (), taken: str = "otherwise", below: str | None = None, kind: WatchKind = WatchKind.DEFENDERS,
    ) -> Fork:
        """A fork; `answers` pairs ids with a coverage ("" for otherwise)."""
        where = Location(PATH, 90, 1)
        made = tuple(
            Answer(id_, ((Sight(DefenderBody(watched[0]) if watched else None, coverage, coverage),),) if coverage else (),
                   coverage or "otherwise", source=where)
            for id_, coverage in answers
        )
        ones = tuple(DefenderBody(w) if kind is WatchKind.DEFENDERS else Player(w) for w in watched)
        read = Read("r1", Player(reader), Watch(kind, ones, source=where), made, source=where)
        fork = Fork(read, len(self.phases) - 1, reader, point, below, screen, user, watched, taken)
        self.forks.append(fork)
        return fork

    def cue(self, defender: int, coverage: str, begins: Mark, **more) -> None:
        """A coverage named by the book."""
        self.cues.append(Cue(defender, coverage, begins, **more))

    def branch(self, key: str = "main", parent: str | None = None, departure: Departure | None = None) -> Branch:
        """What has been built so far."""
        phases = []
        for i, made in enumerate(self.phases):
            following = self.phases[i + 1] if i + 1 < len(self.phases) else {"plan": dict(self.place), "holder": self.holder}
            phases.append(BranchPhase(
                f"p{i}", made["name"], made["plan"], following["plan"], {p: PlaceName("") for p in made["plan"]},
                made["holder"], following["holder"], tuple(a.key for a in self.actions if a.phase == i), made["opening"],
            ))
        shot = any(isinstance(a, Shot) for a in self.actions)
        return Branch(
            key, key, tuple(phases), tuple(self.actions), tuple(self.forks), tuple(self.cues),
            Ending.SHOT if shot else Ending.PHASES_DONE, None, parent, departure, self.clock,
        )


def settled_play(*branches: Branch, variant: Variant = Variant(), against: str = "man") -> SettledPlay:
    """Branches as one play."""
    play = Play("p", "Hand", None, (), against=against, source=Location(PATH, 1, 1))
    return SettledPlay(play, variant, branches)


def mirrored_branch(branch: Branch) -> Branch:
    """The same branch with left and right exchanged."""

    def turn_mark(m: Mark) -> Mark:
        return replace(m, at=m.at.mirrored()) if m.at is not None else m

    def turn(a: AnyAction) -> AnyAction:
        changes: dict = {"origin": a.origin.mirrored(), "end": a.end.mirrored()}
        if isinstance(a, (Move, Screen)):
            changes["via"] = tuple(v.mirrored() for v in a.via)
        if isinstance(a, Move):
            changes["uses"] = tuple(replace(u, at=u.at.mirrored()) for u in a.uses)
        if isinstance(a, Screen) and a.aim is not None:
            changes["aim"] = a.aim.mirrored()
        if isinstance(a, Pass):
            changes["catch_at"] = a.catch_at.mirrored()
        changes["triggers"] = tuple(replace(t, marks=tuple(map(turn_mark, t.marks))) for t in a.triggers)
        return replace(a, **changes)

    def turn_plan(plan):
        return {p: q.mirrored() for p, q in plan.items()}

    phases = tuple(replace(p, plan=turn_plan(p.plan), end_plan=turn_plan(p.end_plan)) for p in branch.phases)
    return replace(branch, phases=phases, actions=tuple(map(turn, branch.actions)))
