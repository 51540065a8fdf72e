"""Nobody stands a second ready for the ball (common practice, no source)."""

from generator.checks import waiting


def test_manual(manual):
    manual(waiting)
