"""Walks the script: the main line first, then from any fork another way. In: the script; out: paths."""

from __future__ import annotations

from dataclasses import replace

from generator.model.book import Book, fold_name
from generator.model.play import Answer, GoTo, Phase, Read, Repeat, Rule
from generator.model.settled import Departure, Ending, Mark
from generator.model.transform import mirror, rename
from generator.settling.circles import report_circle
from generator.settling.continuing import ending_of, exchange_roles, next_index, target_of
from generator.settling.depart import take_answer
from generator.settling.events import bind_timings, find_event
from generator.settling.fits import report_joint
from generator.settling.moments import looked_for
from generator.settling.naming import say_answer
from generator.settling.paths import IDENTITY, Path, PhaseRun
from generator.settling.problems import Mistake
from generator.settling.reading import add_optional, place_reads
from generator.settling.rounds import next_round, prove_rounds
from generator.settling.routes import tie_screens_below
from generator.settling.rule_reads import reads_of_rules
from generator.settling.runs import Carry, Run, items_of, run_items
from generator.settling.script import Script, ScriptPhase
from generator.settling.spots_taken import report_shared_spots
from generator.settling.state import Item, Setting, State
from generator.settling.who import find_player


class Walker:
    """Settles paths of one script; transformed phases are made once."""

    def __init__(self, script: Script, setting: Setting, book: Book):
        self.script, self.setting, self.book = script, setting, book
        self._turned: dict[tuple, Phase] = {}
        self.of_rules = frozenset(r.read.id for s in script.phases for r in s.rules if r.read is not None)

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
        path = Path(
            parent.phases[:at], None, (*parent.choices, answer.id),
            (*parent.names, say_answer(site.read, answer, site.reader)), parent.key,
            roles=dict(old.roles), turned=old.turned, round=old.round,
        )
        met = replace(old, sites=old.sites[: number + 1], taken=[*old.taken[:number], answer], open_from=number + 1)
        if answer.id == site.skips:
            path.departure = Departure(fork_number, (), (), ())
            return self._skip(path, met)
        met.run, path.departure = take_answer(site, answer, self.setting, self.rules(old.index), fork_number,
                                               parent.state.index)
        path.phases = [*parent.phases[:at], met]
        place_reads(self, met, path, answer.reads, site.depth + 1, met.run.first)
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
            met = self.run_phase(path, index)
            index = self.follow(path, met)
        self._end(path)

    # -- one phase ---------------------------------------------------------------------------------------

    def run_phase(self, path: Path, index: int, bare: bool = False) -> PhaseRun:
        """Settles one script phase at the end of a path; `bare`: without its reads."""
        step = self.script.phases[index]
        phase = self._for_now(step.phase, index, path)
        entry = self._open(path, phase)
        seen = sum(p.index == index and p.round == path.round for p in path.phases)
        met = PhaseRun(index, phase, step.lead_in, path.round, entry, None, frozen=path.round > 0 or seen > 0,
                       roles=dict(path.roles), turned=path.turned)
        met.run = run_items(items_of(phase.lines, f"{entry.phase}d", read=bool(phase.reads), looked=looked_for(phase)), entry.copy(), self.setting, self.rules(index))
        met.opening = self._opening(phase, met.run)
        path.phases.append(met)
        self._check_plain(met)
        if not bare:
            if phase.optional:
                add_optional(met)
            place_reads(self, met, path, (*self._rule_reads(path, step, met), *phase.reads), 0, 0)
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
        tie_screens_below(plain)
        bind_timings(plain, self.setting, True)
        report_circle(plain, self.setting)
        report_shared_spots(plain, self.setting)

    def _close(self, met: PhaseRun, path: Path, answer: Answer | None) -> None:
        """Binds timings for good; the path goes on from here."""
        state = met.run.final
        tie_screens_below(state)
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

    def _rule_reads(self, path: Path, step: ScriptPhase, met: PhaseRun) -> tuple[Read, ...]:
        done = {s.read.id for p in path.phases for s in p.sites}
        return reads_of_rules(step.rules, met.run, self.setting, done)

    def _skip(self, path: Path, met: PhaseRun) -> Path:
        """Goes on without an optional phase; only its fork stays, where the phase would have opened."""
        met.run, met.skipped = Run([], [met.entry], met.entry.copy()), True
        path.phases = [*path.phases, met]
        path.state = met.entry.copy()
        self.go_on(path, next_index(self.script, met.index))
        return path

    # -- what follows ------------------------------------------------------------------------------------

    def follow(self, path: Path, met: PhaseRun) -> int | None:
        """The script index after a phase in which every read kept its default."""
        for answer in met.taken:
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
        following = self.follow(path, _without_go_to(met))
        if following is not None and not answer.go_on and not answer.reads and answer.lines and path.round == 0:
            self.setting.problems.tell(
                answer.source, "go-on-assumed", f"after `{answer.key}` the play goes on with the next phase",
                "write `go to: next phase`, or end the answer with a shot")
        self.go_on(path, following)

    def _go_to(self, path: Path, met: PhaseRun, go_to: GoTo) -> int | None:
        return target_of(go_to, path, met, self.script, self.book, self.setting)

    def _repeat(self, path: Path, repeat: Repeat, index: int) -> int | None:
        if path.round < max(1, repeat.times):
            return next_round(self, path, repeat, index)
        if not path.choices:
            prove_rounds(self, path, repeat, index)
        return None

    def _roles_from_here(self, path: Path, met: PhaseRun) -> None:
        if not (met.phase.roles or met.phase.roles_by_place):
            return
        path.roles = exchange_roles(met, path, self.setting)

    def _end(self, path: Path) -> None:
        if path.ending is not Ending.OTHER_PLAY:
            path.ending = ending_of(path)

    # -- helpers -----------------------------------------------------------------------------------------

    def remain(self, met: PhaseRun, path: Path) -> bool:
        """True when something follows this phase."""
        if met.phase.go_to is not None:
            return fold_name(met.phase.go_to.target) != "end"
        following = next_index(self.script, met.index)
        if following is None:
            return False
        step = self.script.phases[following].phase
        return not isinstance(step, Repeat) or path.round < max(1, step.times)

    def rules(self, index: int) -> tuple[Rule, ...]:
        """The rules that hold in a script phase."""
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


def _without_go_to(met: PhaseRun) -> PhaseRun:
    """The phase for what follows it, once no answer of it leads elsewhere."""
    pairs = [(s, a) for s, a in zip(met.sites, met.taken) if a.go_to is None]
    return replace(met, sites=[s for s, _ in pairs], taken=[a for _, a in pairs])


def _stopped(run: Run) -> frozenset[str]:
    return frozenset(i.action.key for i in run.items if isinstance(i, Carry))
