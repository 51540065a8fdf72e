"""Walks the script through one choice of answers. In: the script; out: Path, from which a Branch is made.

A path keeps, for every phase met, the state at its opening and the sites of its reads, so that another path can leave
it there without settling what lies before.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from generator.model.book import Book, fold_name
from generator.model.identity import stable_id
from generator.model.play import Answer, GoTo, Phase, Read, Repeat, Watch, WatchKind
from generator.model.sentence import Player
from generator.model.settled import Departure, Ending, Fork, Mark
from generator.model.transform import mirror, rename
from generator.settling.circles import report_circle
from generator.settling.continuing import ending_of, exchange_roles, match_roles, next_index, target_of
from generator.settling.depart import take_answer, take_default
from generator.settling.events import bind_timings, find_event
from generator.settling.fits import report_joint
from generator.settling.looks import looks_in
from generator.settling.naming import say_answer
from generator.settling.problems import Mistake
from generator.settling.rule_reads import reads_of_rules
from generator.settling.runs import Carry, Run, items_of, run_items
from generator.settling.script import Script, ScriptPhase
from generator.settling.sites import Site, try_locate
from generator.settling.spots_taken import report_shared_spots
from generator.settling.state import Item, Setting, State
from generator.settling.who import find_player

IDENTITY = {n: n for n in (1, 2, 3, 4, 5)}


@dataclass(slots=True)
class PhaseRun:
    """One phase as met: `index` in the script, `round` of a repeat, the run and the sites met in order."""

    index: int
    phase: Phase
    lead_in: str
    round: int
    entry: State
    run: Run
    sites: list[Site] = field(default_factory=list)
    taken: list[Answer] = field(default_factory=list)
    changed: bool = False  # a default answer brought lines of its own
    opening: Mark | None = None
    open_from: int = 0  # sites before this one belong to the parent and are closed
    frozen: bool = False  # a round of a repeat, or met again: nobody departs here
    skipped: bool = False  # an optional phase left out: only its fork is met
    roles: dict[int, int] = field(default_factory=dict)
    turned: bool = False


@dataclass(slots=True)
class Path:
    """A way through the script. `roles`: number in the script -> player now; `turned`: mirrored now."""

    phases: list[PhaseRun] = field(default_factory=list)
    state: State | None = None
    choices: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    parent: str | None = None
    departure: Departure | None = None
    roles: dict[int, int] = field(default_factory=lambda: dict(IDENTITY))
    turned: bool = False
    round: int = 0
    ending: Ending = Ending.PHASES_DONE

    @property
    def key(self) -> str:
        """Short and stable: the answers taken."""
        return "+".join(self.choices) or "main"

    @property
    def met(self) -> int:
        """How many phases were run so far."""
        return sum(not p.skipped for p in self.phases)

    def forks(self) -> list[Fork]:
        """Every fork met, in order."""
        return [s.fork(a) for p in self.phases for s, a in zip(p.sites, p.taken)]


class Walker:
    """Settles paths of one script; transformed phases are made once."""

    def __init__(self, script: Script, setting: Setting, book: Book):
        self.script, self.setting, self.book = script, setting, book
        self._turned: dict[tuple, Phase] = {}
        self._of_rules = frozenset(r.read.id for s in script.phases for r in s.rules if r.read is not None)

    # -- main line and branches --------------------------------------------------------------------------

    def main(self, state: State) -> Path:
        """The main line."""
        path = Path(state=state)
        self.go_on(path, 0)
        return path

    def leave(self, parent: Path, at: int, number: int, answer: Answer) -> Path:
        """The path that leaves `parent` at site `number` of its phase `at` by another answer."""
        old = parent.phases[at]
        site = old.sites[number]
        fork_number = sum(len(p.sites) for p in parent.phases[:at]) + number
        path = Path(parent.phases[:at], None, (*parent.choices, answer.id), (*parent.names, _say_answer(site, answer)),
                    parent.key)
        path.roles, path.turned, path.round = dict(old.roles), old.turned, old.round
        met = replace(old, sites=old.sites[: number + 1], taken=[*old.taken[:number], answer], open_from=number + 1)
        if answer.id == site.skips:
            path.departure = Departure(fork_number, (), (), ())
            return self._skip(path, met)
        met.run, path.departure = take_answer(site, answer, self.setting, self._rules(old.index, path), fork_number)
        path.phases = [*parent.phases[:at], met]
        self._reads(met, path, answer.reads, site.depth + 1, met.run.first)
        self._close(met, path, answer)
        self._after_answer(path, met, answer)
        return path

    def go_on(self, path: Path, index: int | None) -> None:
        """Walks on from script phase `index` to the end."""
        while index is not None and not path.state.ended:
            step = self.script.phases[index]
            for joint in self.script.joints:
                if joint.at == index:
                    report_joint(joint, path.state, self.setting)
            if isinstance(step.phase, Repeat):
                index = self._repeat(path, step.phase, index)
                continue
            met = self._phase(path, step, index)
            index = self._follow(path, met)
        self._end(path)

    # -- one phase ---------------------------------------------------------------------------------------

    def _phase(self, path: Path, step: ScriptPhase, index: int) -> PhaseRun:
        phase = self._for_now(step.phase, index, path)
        entry = self._open(path, phase)
        seen = sum(p.index == index and p.round == path.round for p in path.phases)
        met = PhaseRun(index, phase, step.lead_in, path.round, entry, None, frozen=path.round > 0 or seen > 0,
                       roles=dict(path.roles), turned=path.turned)
        do = f"{entry.phase}d"
        state = entry.copy()
        met.run = run_items(items_of(phase.lines, do), state, self.setting, self._rules(index, path))
        met.opening = self._opening(phase, met.run)
        path.phases.append(met)
        self._check_plain(met)
        if phase.optional:
            self._add_optional(met)
        self._reads(met, path, (*self._rule_reads(path, step, met), *phase.reads), 0, 0)
        self._close(met, path, None)
        return met

    def _open(self, path: Path, phase: Phase) -> State:
        state = path.state.copy()
        state.phase, state.phase_start = path.met, len(state.actions)
        state.opening, state.sent, state.pending, state.cued = dict(state.place), [], [], []
        return state

    def _check_plain(self, met: PhaseRun) -> None:
        """What is said about the phase's own lines, apart from its reads: timings, circles, shared spots."""
        plain = met.run.final.copy()
        bind_timings(plain, self.setting, True)
        report_circle(plain, self.setting)
        report_shared_spots(plain, self.setting)

    def _close(self, met: PhaseRun, path: Path, answer: Answer | None) -> None:
        """Binds timings for good; the path goes on from here."""
        state = met.run.final
        departed = answer is not None or met.changed
        bind_timings(state, self.setting, False, _stopped(met.run))
        if departed:
            report_shared_spots(state, self.setting)
        path.state = state

    def _opening(self, phase: Phase, run: Run) -> Mark | None:
        if phase.when is None:
            return None
        state, item = run.before[0], Item(None, "")
        try:
            player = find_player(phase.when.one, state, self.setting, item, phase.source) if phase.when.one else None
            return find_event(phase.when, state, self.setting, item, phase.source, len(state.actions), player)
        except Mistake as found:
            self.setting.problems.add(found.diagnostic)
            return None

    # -- reads -------------------------------------------------------------------------------------------

    def _reads(self, met: PhaseRun, path: Path, reads: tuple[Read, ...], depth: int, since: int) -> None:
        """Places the reads in the run, in order, taking each one's default where it brings lines of its own."""
        remain = self._remain(met, path)
        found = [(read, None) for read in reads]
        found += [(r, n) for r, n in looks_in(met.run, self.setting, met.phase.id, remain, since)]
        first = met.run
        placed = []
        for read, line in found:
            site = try_locate(read, met.run, self.setting, depth, line, read.id in self._of_rules)
            placed += [site] if site is not None else []
        for site in sorted(placed, key=lambda s: s.cut):
            if met.run is not first:
                site = try_locate(site.read, met.run, self.setting, depth, None, site.read.id in self._of_rules) or site
            self._add(met, path, site)

    def _add(self, met: PhaseRun, path: Path, site: Site) -> None:
        default = site.default
        met.sites.append(site)
        met.taken.append(default)
        if not (default.lines or default.reads):
            return
        met.run = take_default(site, self.setting, self._rules(met.index, path))
        met.changed = True
        self._reads(met, path, default.reads, site.depth + 1, met.run.first)

    def _rule_reads(self, path: Path, step: ScriptPhase, met: PhaseRun) -> tuple[Read, ...]:
        done = {s.read.id for p in path.phases for s in p.sites}
        return reads_of_rules(step.rules, met.run, self.setting, done)

    def _add_optional(self, met: PhaseRun) -> None:
        """With the phase (the main line) or without it."""
        phase = met.phase
        read_id = stable_id(phase.id, "optional")
        run_it = Answer(stable_id(read_id, "with"), (), f"with {phase.name}", go_on=True, source=phase.source)
        without = Answer(stable_id(read_id, "without"), (), f"without {phase.name}", go_on=True, source=phase.source)
        reader = met.entry.holder or 1
        watch = Watch(WatchKind.OWN_CHOICE, (), text="own choice", source=phase.source)
        read = Read(read_id, Player(reader), watch, (run_it, without), source=phase.source)
        site = Site(read, reader, met.run, Mark(None, phase=met.entry.phase), 0, 0, met.entry.phase, skips=without.id)
        met.sites.append(site)
        met.taken.append(run_it)

    def _skip(self, path: Path, met: PhaseRun) -> Path:
        """Goes on without an optional phase; only its fork stays, where the phase would have opened."""
        met.run, met.skipped = Run([], [met.entry], met.entry.copy()), True
        path.phases = [*path.phases, met]
        path.state = met.entry.copy()
        self.go_on(path, next_index(self.script, met.index))
        return path

    # -- what follows ------------------------------------------------------------------------------------

    def _follow(self, path: Path, met: PhaseRun) -> int | None:
        """The script index after a phase in which every read kept its default."""
        for site, answer in zip(met.sites, met.taken):
            if answer.go_to is not None:
                return self._go_to(path, met, answer.go_to)
        self._roles_from_here(path, met)
        if path.state.ended:
            return None
        if met.phase.go_to is not None:
            return self._go_to(path, met, met.phase.go_to)
        return next_index(self.script, met.index)

    def _after_answer(self, path: Path, met: PhaseRun, answer: Answer) -> None:
        nested = met.taken[met.open_from:]
        go_to = next((a.go_to for a in (*nested, answer) if a.go_to is not None), None)
        if path.state.ended:
            self._end(path)
            return
        if go_to is not None:
            self.go_on(path, self._go_to(path, met, go_to))
            return
        following = self._follow(path, replace_taken(met))
        if following is not None and not answer.go_on and not answer.reads and answer.lines and path.round == 0:
            self.setting.problems.tell(answer.source, "go-on-assumed", f"after `{answer.key}` the play goes on with the next phase",
                                       "write `go to: next phase`, or end the answer with a shot")
        self.go_on(path, following)

    def _go_to(self, path: Path, met: PhaseRun, go_to: GoTo) -> int | None:
        return target_of(go_to, path, met, self.script, self.book, self.setting)

    def _repeat(self, path: Path, repeat: Repeat, index: int) -> int | None:
        if path.round >= max(1, repeat.times):
            return None
        start = next((i for i, s in enumerate(self.script.phases) if isinstance(s.phase, Phase) and not s.lead_in
                      and fold_name(s.phase.name) == fold_name(repeat.phase)), None)
        if start is None:
            known = ", ".join(s.phase.name for s in self.script.phases[:index] if isinstance(s.phase, Phase))
            self.setting.problems.error(repeat.source, "unknown-phase", f"there is no phase {repeat.phase} to repeat from",
                                        f"phases above: {known}")
            return None
        turned = path.turned != repeat.mirrored
        roles = match_roles(repeat, start, index, turned, path, self.script, self.setting)
        if roles is None:
            return None
        path.roles, path.turned, path.round = roles, turned, path.round + 1
        return start

    def _roles_from_here(self, path: Path, met: PhaseRun) -> None:
        if not (met.phase.roles or met.phase.roles_by_place):
            return
        path.roles = exchange_roles(met, path, self.setting)

    def _end(self, path: Path) -> None:
        if path.ending is not Ending.OTHER_PLAY:
            path.ending = ending_of(path)

    # -- helpers -----------------------------------------------------------------------------------------

    def _remain(self, met: PhaseRun, path: Path) -> bool:
        """True when something follows this phase."""
        if met.phase.go_to is not None:
            return fold_name(met.phase.go_to.target) != "end"
        following = next_index(self.script, met.index)
        if following is None:
            return False
        step = self.script.phases[following].phase
        return not isinstance(step, Repeat) or path.round < max(1, step.times)

    def _rules(self, index: int, path: Path) -> tuple:
        return self.script.phases[index].rules

    def _for_now(self, phase: Phase, index: int, path: Path) -> Phase:
        """The phase with the players and the side of now."""
        if path.roles == IDENTITY and not path.turned:
            return phase
        key = (index, tuple(sorted(path.roles.items())), path.turned)
        if key not in self._turned:
            turned = rename(phase, path.roles, self.setting.bodies_follow_men)
            self._turned[key] = mirror(turned, self.setting.play.against) if path.turned else turned
        return self._turned[key]


def replace_taken(met: PhaseRun) -> PhaseRun:
    """The phase as its answers end, for what follows it."""
    return replace(met, taken=[a for a in met.taken if a.go_to is None], sites=[s for s, a in zip(met.sites, met.taken) if a.go_to is None])


def _stopped(run: Run) -> frozenset[str]:
    return frozenset(i.action.key for i in run.items if isinstance(i, Carry))


def _say_answer(site: Site, answer: Answer) -> str:
    return say_answer(site.read, answer, site.reader)
