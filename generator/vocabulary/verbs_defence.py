"""Verbs of defenders: each sets that coverage from the phase's opening until the next line or read about him."""

from generator.vocabulary.entries import Ball, Takes, Verb


def _verb(id_: str, words: tuple[str, ...], meaning: str, example: str) -> Verb:
    return Verb(id_, words, meaning, example, "by the coverage", Ball.EITHER, object=Takes.MAY, of="one", defence=True)


# `id` is the id of a coverage (coverages.py).
VERBS = (
    _verb("deny", ("deny+", "overplay+"), "stands between his man and the ball", "X3 denies 3"),
    _verb("trap", ("trap+", "blitz+"), "two go to the ball", "X5 traps 1"),
    _verb("switch", ("switch+",), "changes men with the other defender", "X5 switches"),
    _verb("hedge", ("hedge+", "show+"), "steps out at the dribbler, then goes back", "X5 hedges"),
    _verb("drop", ("drop+",), "waits near the rim", "X5 drops"),
    _verb("front", ("front+",), "stands on the ball side of a post player", "X5 fronts 5"),
    _verb("help", ("help+", "rotate+"), "leaves his man for the ball", "X4 helps"),
    _verb("stay", ("stay+",), "stays with his man", "X3 stays"),
    _verb("tag", ("tag+",), "bumps the roller, then goes back to his man", "X3 tags 5"),
    _verb("stunt", ("stunt+",), "a false step at the ball", "X2 stunts"),
)
