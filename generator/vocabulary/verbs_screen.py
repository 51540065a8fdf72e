"""Verbs of screeners, and of what they do after."""

from generator.vocabulary.entries import Ball, Kind, Takes, Verb


def _kind(id_: str, meaning: str, example: str, extra: tuple[str, ...] = ()) -> Kind:
    return Kind(id_, (f"{id_} screen+", f"set+ a {id_} screen", *extra), meaning, example)


_SCREEN_KINDS = (
    _kind("down", "toward the end line, for a player who comes up", "5 down screens for 3 at left block", extra=("screen+ down",)),
    Kind("pin-down", ("pin-down screen+", "pin-down+", "set+ a pin-down screen", "set+ a pin-down", "pin+ down",
                      "wide pin-down+", "wide pin-down screen+", "set+ a wide pin-down", "set+ a wide pin-down screen"),
         "a down screen on the wing's or corner's man", "5 pin-down screens for 3"),
    _kind("back", "behind the defender, for a cut to the rim", "4 back screens for 1 at nail", extra=("rip screen+", "set+ a rip screen", "blind screen+")),
    _kind("up", "from low to high, for a player above", "5 up screens for 2"),
    _kind("cross", "from one side of the lane to the other", "1 cross screens for 5 at right block", extra=("screen+ across",)),
    _kind("flex", "on the end line, for the corner player", "1 flex screens for 3 at right block"),
    _kind("flare", "away from the ball, for a player who goes out", "4 flare screens for 1 at right slot", extra=("set+ a flare",)),
    _kind("hammer", "weak side, for a player who goes to the corner during a drive", "5 hammer screens for 3 at left wing"),
    _kind("exit", "at the block, for a player who leaves to the corner", "5 exit screens for 2 at right block"),
    _kind("away", "away from the ball, after a pass", "1 away screens for 3", extra=("screen+ away",)),
    _kind("ram", "for a teammate who then sets a ball screen", "2 ram screens for 5", extra=("wedge screen+", "set+ a wedge screen")),
    Kind("ball", ("ball screen+", "set+ a ball screen", "on-ball screen+", "set+ an on-ball screen", "high ball screen+", "set+ a high ball screen", "set+ a high screen",
                 "set+ a high pick", "middle ball screen+", "set+ a middle ball screen"), "on the dribbler's defender",
         "5 ball screens for 1 at right slot"),
    _kind("step-up", "on the dribbler's defender, with the back to the end line", "5 step-up screens for 1"),
    _kind("side", "on the dribbler's defender at the wing", "5 side screens for 2", extra=("side ball screen+", "set+ a side ball screen", "wing ball screen+", "set+ a wing ball screen", "set+ a side pick")),
    _kind("flat", "on the dribbler's defender with the back to the rim", "5 flat screens for 1"),
    _kind("drag", "on the dribbler's defender in transition", "4 drag screens for 1", extra=("set+ a drag",)),
)
_FOR_ONE = {"object": Takes.MUST, "preposition": "for", "place": Takes.MAY}

VERBS = (
    Verb("screen", ("screen+", "set+ a screen", "pick+", "set+ a pick", "baseline screen+", "set+ a baseline screen"), "stands in a defender's way: arrives, sets, holds until the freed player clears",
         "5 screens for 3 at left block", "a step from the freed player on the side he goes", Ball.WITHOUT, Takes.MAY, Takes.MUST,
         "for", "both", side=True, effort="screen", kinds=_SCREEN_KINDS),
    Verb("double-screen", ("double screen+", "set+ a double screen"), "two stand shoulder to shoulder", "4 and 5 double screen for 2 at left block",
         "shoulder to shoulder", Ball.WITHOUT, side=True, effort="screen", who=2, **_FOR_ONE),
    Verb("elevator-screen", ("elevator screen+", "set+ an elevator screen"), "two stand one step apart and close as the cutter is through",
         "4 and 5 elevator screen for 2 at nail", "one step apart", Ball.WITHOUT, side=True, effort="screen", who=2, **_FOR_ONE),
    Verb("stagger", ("stagger+", "stagger screen+", "staggered screen+", "set+ a stagger screen", "set+ a staggered screen", "set+ a stagger",
                     "double ball screen+", "set+ a double ball screen", "set+ a double drag"),
         "two screens one after the other, met in the order written", "4 and 5 stagger for 3", "a step from the freed player's way",
         Ball.WITHOUT, side=True, effort="screen", who=2, **_FOR_ONE),
    Verb("close", ("close+",), "two screeners shut the gap behind the cutter", "4 and 5 close", "together", Ball.WITHOUT, effort="screen"),
    Verb("flip", ("flip+", "flip+ the screen"), "sets the same screen from the other side", "5 flips for 1", "the other side of the same screen",
         Ball.WITHOUT, Takes.MAY, Takes.MAY, "for", route=True, side=True, effort="screen"),
    Verb("re-screen", ("re-screen+",), "screens again at the same place", "5 re-screens for 1", "the same place again", Ball.WITHOUT,
         Takes.MAY, Takes.MAY, "for", route=True, side=True, effort="screen"),
    Verb("slip", ("slip+", "slip+ the screen"), "leaves before contact", "4 slips", "the rim", Ball.WITHOUT, Takes.MAY, route=True, effort="cut"),
    Verb("ghost", ("ghost+", "ghost screen+", "ghost+ the screen", "set+ a ghost screen", "fake+ a screen", "fake+ the screen"), "comes as if to screen and touches nobody", "4 ghosts for 1", "the next arc spot",
         Ball.WITHOUT, Takes.MAY, Takes.MAY, "for", route=True, effort="cut"),
    Verb("roll", ("roll+",), "turns to the rim after his screen", "5 rolls", "the rim", Ball.WITHOUT, Takes.MAY, route=True, effort="cut"),
    Verb("short-roll", ("short roll+",), "rolls to the free-throw line", "5 short rolls", "the nail", Ball.WITHOUT, Takes.MAY, route=True,
         effort="cut"),
    Verb("pop", ("pop+", "pop+ out", "pop+ behind the arc", "pop+ back behind the arc", "pop+ to the arc", "pop+ to the three-point line"), "goes out to the arc after his screen", "4 pops", "the nearest arc spot straight out", Ball.WITHOUT, Takes.MAY,
         route=True, effort="fill", own_side=True),
    Verb("step-out", ("step+ out", "step+ toward the ball", "step+ towards the ball", "step+ to the ball", "take+ a step toward the ball"), "a step toward the ball", "4 steps out", "a step toward the ball", Ball.WITHOUT, Takes.MAY, route=True,
         effort="fill"),
)
