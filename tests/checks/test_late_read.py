"""Nobody plays the answer before he has seen the question."""

from generator.checks import late_read


def test_manual(manual):
    manual(late_read)
