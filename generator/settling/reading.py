"""Puts the reads of a phase into its run: in order, each with the answer that the main line takes.

In: the walker, the phase as met, its reads; out: sites and answers in the phase, lines of `otherwise` in its run.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.model.identity import stable_id
from generator.model.play import Answer, Read, Watch, WatchKind
from generator.model.sentence import Player
from generator.model.settled import Mark
from generator.settling.depart import take_default
from generator.settling.looks import looks_in
from generator.settling.paths import Path, PhaseRun
from generator.settling.sites import Site, try_locate

if TYPE_CHECKING:
    from generator.settling.walker import Walker


def place_reads(walker: Walker, met: PhaseRun, path: Path, reads: tuple[Read, ...], depth: int, since: int) -> None:
    """Places the reads in the run, taking each one's default where it brings lines of its own. `since`: the item from
    which on looks count."""
    setting, of_rules = walker.setting, walker.of_rules
    found = [(read, None) for read in reads]
    found += [(r, n) for r, n in looks_in(met.run, setting, met.phase.id, walker.remain(met, path), since)]
    first = met.run
    placed = []
    for read, line in found:
        site = try_locate(read, met.run, setting, depth, line, read.id in of_rules)
        placed += [site] if site is not None else []
    for site in sorted(placed, key=lambda s: s.cut):
        if met.run is not first:
            site = try_locate(site.read, met.run, setting, depth, None, site.read.id in of_rules) or site
        _add(walker, met, path, site)


def _add(walker: Walker, met: PhaseRun, path: Path, site: Site) -> None:
    default = site.default
    met.sites.append(site)
    met.taken.append(default)
    if not (default.lines or default.reads):
        if site.read.watch.kind is WatchKind.BALL:
            met.run.final.ended = None  # the read decides what comes of the shot
        return
    met.run = take_default(site, walker.setting, walker.rules(met.index))
    met.changed = True
    place_reads(walker, met, path, default.reads, site.depth + 1, met.run.first)


def add_optional(met: PhaseRun) -> None:
    """The fork of an optional phase: with it (the main line) or without."""
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
