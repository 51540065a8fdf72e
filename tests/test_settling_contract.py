"""What settled branches promise to the stages behind: keys, order, references, possession, parents (model/settled.py)."""

from __future__ import annotations

from functools import cache, lru_cache
from pathlib import Path

import pytest

from generator.model.settled import Branch, HandOff, LooseBall, Move, Pass, Screen, SettledPlay, Shot, Variant
from generator.parsing import parse_book
from generator.pipeline import versions
from generator.settling import settle
from generator.source import read_book_files

ROOT = Path(__file__).resolve().parent


@lru_cache(maxsize=2)
def book(which: str):
    files, _ = read_book_files(ROOT / "books" / "sets" if which == "sets" else ROOT.parent / "plays")
    return parse_book(files)[0]


PLAYS = [(w, p.name) for w in ("sets", "demo") for p in book(w).plays]


@cache
def all_versions(which: str, name: str) -> tuple[SettledPlay, ...]:
    """As written, mirrored, run for others, after each lead-in and after all of them."""
    play, team = book(which).play(name), book(which)
    refs = tuple(r.name for r in play.lead_ins)
    wanted = [*versions(play), *(Variant(lead_ins=(r,)) for r in refs), *(Variant(mirrored=True, lead_ins=(r,)) for r in refs)]
    found = []
    for variant in wanted:
        settled, said = settle(play, team, variant)
        assert settled is not None or variant.lead_ins, said
        found += [settled] if settled else []
    return tuple(found)


def branches(which: str, name: str):
    return [(s, b) for s in all_versions(which, name) for b in s.branches]


each_play = pytest.mark.parametrize(("which", "name"), PLAYS, ids=[n for _, n in PLAYS])


@each_play
def test_keys_are_unique_and_every_reference_leads_to_an_action(which, name):
    for settled, branch in branches(which, name):
        keys = [a.key for a in branch.actions]
        assert len(set(keys)) == len(keys) and len({b.key for b in settled.branches}) == len(settled.branches)
        named = {m.action for a in branch.actions for t in a.triggers for m in t.marks}
        for action in branch.actions:
            named |= set(getattr(action, "waits_clear", ())) | {getattr(action, "waits_set", None), getattr(action, "meets", None),
                     getattr(action, "receiver_move", None)} | set(getattr(action, "users", ()))
            named |= {u.screen for u in getattr(action, "uses", ())}
        named |= {f.screen for f in branch.forks} | {f.user for f in branch.forks} | {f.below for f in branch.forks}
        assert named - {None} <= set(keys)


@each_play
def test_implied_dependencies_point_down_the_written_order(which, name):
    for _, branch in branches(which, name):
        at = {a.key: i for i, a in enumerate(branch.actions)}
        for action in branch.actions:
            earlier = {getattr(action, "meets", None), getattr(action, "receiver_move", None), getattr(action, "waits_set", None)}
            earlier |= set(getattr(action, "waits_clear", ())) | {u.screen for u in getattr(action, "uses", ())}
            assert all(at[k] < at[action.key] for k in earlier - {None})


@each_play
def test_one_ball_goes_from_hand_to_hand(which, name):
    for _, branch in branches(which, name):
        stopped = set(branch.departure.stopped) if branch.departure else set()
        parents_stopped = stopped | _stopped_above(all_versions(which, name), branch)
        holder = branch.phases[0].holder
        for action in branch.actions:
            if action.key in parents_stopped:
                continue
            if isinstance(action, (Pass, HandOff, Shot)) or (isinstance(action, Move) and action.with_ball):
                assert action.player == holder, (branch.key, action)
            if isinstance(action, (Pass, HandOff)) and not getattr(action, "fake", False):
                holder = action.receiver
            if isinstance(action, Shot):
                holder = None
            if isinstance(action, LooseBall) and action.verb in ("tip", "rebound"):
                holder = action.receiver or action.player
        assert holder == branch.phases[-1].end_holder


def _stopped_above(versions_: tuple[SettledPlay, ...], branch: Branch) -> set[str]:
    settled = next(s for s in versions_ if branch in s.branches)
    found: set[str] = set()
    while branch.parent is not None:
        found |= set(branch.departure.stopped)
        branch = settled.branch(branch.parent)
    return found


@each_play
def test_a_child_carries_its_parents_actions_up_to_its_departure(which, name):
    for settled, branch in branches(which, name):
        if branch.parent is None:
            continue
        parent = settled.branch(branch.parent)
        assert settled.branches.index(parent) < settled.branches.index(branch)
        fork = branch.forks[branch.departure.fork]
        assert fork.taken != parent.forks[branch.departure.fork].taken and fork.read is parent.forks[branch.departure.fork].read
        before = [a for a in parent.actions if a.phase < fork.phase]
        assert [a.key for a in branch.actions if a.phase < fork.phase] == [a.key for a in before]
        assert [f.taken for f in branch.forks[: branch.departure.fork]] == [f.taken for f in parent.forks[: branch.departure.fork]]
        keys = {a.key for a in branch.actions}
        assert set(branch.departure.own) <= keys and set(branch.departure.stopped) <= keys & {a.key for a in parent.actions}


@each_play
def test_phases_hang_together(which, name):
    for _, branch in branches(which, name):
        for first, second in zip(branch.phases, branch.phases[1:]):
            assert first.end_plan == second.plan and first.end_holder == second.holder
        assert [k for p in branch.phases for k in p.actions] == [a.key for a in sorted(branch.actions, key=lambda a: a.phase)]
        assert all(a.phase < len(branch.phases) for a in branch.actions)
        for action in branch.actions:
            assert isinstance(action, Screen) or action.place.words


@each_play
def test_settling_twice_gives_the_same(which, name):
    play, team = book(which).play(name), book(which)
    assert settle(play, team) == settle(play, team)
