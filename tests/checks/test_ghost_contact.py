"""A ghost screen and a slip touch nobody: neither the player they come for nor his defender."""

from pathlib import Path

import pytest

from generator.checks import ghost_contact
from generator.model.settled import Move
from generator.pipeline import load_and_compute

ROOT = Path(__file__).resolve().parent.parent.parent
GHOST = """
play: Ghost
start: {1: top with the ball, 2: left corner, 3: right wing, 4: right corner, 5: left dunker spot}
phases:
  - {name: Ghost, do: [3 ghosts for 1 PLACE, 1 drives after 3 arrives, 1 finishes]}
"""


def test_manual(manual):
    manual(ghost_contact)


def test_a_ghost_passes_with_room_for_two(rules):
    assert rules(GHOST.replace(" PLACE", "")) == set()


@pytest.mark.parametrize("place, whom", [("to 1 ft left of top", "touches 1 "), ("to 3 ft below top", "touches 1's defender ")])
def test_who_is_touched_is_named_and_nothing_else_is_told(said, rules, place, whom):
    bad = GHOST.replace("PLACE", place)
    assert rules(bad) == {"ghost-contact"}
    (found,) = [d for d in said(bad) if d.rule == "ghost-contact"]
    assert whom in found.message and found.severity.value == "warning"


def test_a_slip_is_measured_against_the_player_he_was_to_screen_for(rules):
    text = """
play: Slip
start: {1: right wing with the ball, 2: left wing, 3: right corner, 4: top, 5: left block}
phases:
  - {name: Slip, do: [4 down screens for 2 at left elbow, 4 slips to rim, 1 lobs to 4, 4 finishes]}
"""
    assert "ghost-contact" not in rules(text)


def test_every_ghost_of_the_demo_book_and_the_test_sets_keeps_a_shoulder_from_the_defender():
    """Measured against the simulated defender all along, wider than the check asks for."""
    nearest = []
    for book in (ROOT / "plays", ROOT / "tests/books/sets"):
        for times in load_and_compute(book).plays:
            for branch in times.settled.branches:
                timeline = times.timelines[branch.key]
                for timed in timeline.timed.values():
                    if isinstance(timed.action, Move) and timed.action.ghost and timed.cut_at is None:
                        holder = branch.phases[timed.action.phase].holder
                        instants = [timed.start + i * 0.05 for i in range(int((timed.end - timed.start) / 0.05))]
                        nearest.append(min(
                            timeline.position(timed.action.player, t).distance(timeline.defender(holder, t)) for t in instants
                        ))
    assert len(nearest) >= 3 and min(nearest) > 0.7
