"""A ghost screen touches nobody."""

from generator.checks import ghost_contact

def test_manual(manual):
    manual(ghost_contact)
