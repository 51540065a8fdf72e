"""Verbs of the player with the ball."""

from generator.vocabulary.entries import Ball, Kind, Takes, Verb


def _kind(id_: str, meaning: str, example: str, *more: str) -> Kind:
    return Kind(id_, (f"{id_} pass+", *more, f"throw+ a {id_} pass", f"make+ a {id_} pass"), meaning, example)


_PASS_KINDS = (
    Kind("lob", ("lob+", "lob pass+", "throw+ a lob", "throw+ a lob pass", "lob+ it over the top", "lob+ over the top"), "high over the defence, caught at the rim in the air",
         "2 lobs to 5"),
    _kind("bounce", "off the floor", "1 bounce passes to 5", "bounce+ it"),
    _kind("skip", "over the defence to the far side", "2 skip passes to 3", "skip+ it", "skip+"),
    _kind("overhead", "from over the head", "2 overhead passes to 4", "pass+ over the top", "pass+ it over the top", "throw+ it over the top"),
    _kind("pocket", "low past the defender to a rolling screener", "1 pocket passes to 5"),
    _kind("drop", "short, back to a player close behind", "1 drop passes to 5", "drop+ it off", "drop+ it", "drop+ off", "drop+ it down", "dump+ it off",
          "dump+ it down", "dump+ off", "dump+ down"),
    _kind("high-low", "from the high post down to the low post", "4 high-low passes to 5", "high-low+", "go+ high-low"),
    _kind("baseball", "one-handed over a long distance", "5 baseball passes to 2"),
    _kind("outlet", "from the rebounder to a guard", "5 outlet passes to 1", "outlet+"),
)

VERBS = (
    Verb("pass", ("pass+", "swing+", "reverse+", "pass+ ahead", "pass+ it ahead", "advance+", "advance+ it", "touch pass+", "one-touch pass+", "tap pass+", "quick pass+", "kick+ out", "throw+ back", "feed+", "pitch+ ahead",
                  "kick+", "kick+ it out", "throw+", "throw+ it in", "throw+ ahead", "throw+ it ahead", "return+", "pitch+", "pitch+ it ahead", "dish+", "dish+ off", "dump+", "enter+",
                  "give+", "hit+", "find+", "make+ the pass", "throw+ the pass", "make+ the entry pass",
                  "make+ the entry", "make+ the post entry", "throw+ the entry pass", "deliver+"),
         "gives the ball to a teammate; a place says where it is caught, else where the receiver ends; ball and receiver meet",
         "1 passes to 2", "stays", Ball.GIVES, Takes.MAY, Takes.MUST, "to", own_side=True, kinds=_PASS_KINDS, bare=("feed+", "hit+", "find+")),
    Verb("look-for", ("look+ for", "look+ to", "look+ at", "look+ inside to", "look+ inside for", "look+ in to", "look+ back to", "look+ ahead to", "look+ ahead for", "look+ up for", "look+ up the floor for",
                     "look+ up the middle for", "look+ long for", "look+ deep for"),
         "a short read: passes to the first of them who is open; a place says where they are by then", "1 looks for 5 then 3", "stays", Ball.NEEDS,
         Takes.MAY, Takes.MUST, objects=0, own_side=True),
    Verb("fake-pass", ("fake+ a pass", "pass fake+"), "shows a pass and keeps the ball, 0.5 s", "1 fakes a pass to 2", "stays",
         Ball.NEEDS, object=Takes.MAY, preposition="to"),
    Verb("fake-shot", ("fake+ a shot", "shot fake+", "pump fake+"), "shows a shot and keeps the ball, 0.5 s", "3 fakes a shot", "stays", Ball.NEEDS),
    Verb("hold", ("hold+",), "keeps the ball 0.5 s, or until an event", "1 holds until 2 arrives", "stays", Ball.NEEDS),
    Verb("dribble", ("dribble+", "bring+ it", "bring+", "push+", "take+ it", "bring+ it up", "walk+ it up"), "moves with the ball; a place is needed", "1 dribbles to right wing",
         "the place named", Ball.NEEDS, Takes.MUST, route=True, side=True, effort="dribble"),
    Verb("dribble-at", ("dribble+ at",), "dribbles toward a teammate, or a defender to draw him", "1 dribbles at 2",
         "a step short of that player", Ball.NEEDS, object=Takes.MUST, of="one", route=True, effort="dribble"),
    Verb("drive", ("drive+", "attack+", "penetrate+", "turn+ the corner", "get+ to the rim", "get+ to the basket", "get+ downhill", "get+ into the lane", "get+ into the paint", "go+ downhill", "attack+ downhill"), "attacks the rim off the dribble", "1 drives",
         "the rim, stopping for a pass or shot at the lane edge", Ball.NEEDS, Takes.MAY, route=True, side=True, effort="drive"),
    Verb("retreat", ("retreat+", "retreat dribble+", "back+ out", "back+ it out", "pull+ it out", "pull+ it back out", "pull+ it back", "bring+ it back out"), "backs the dribble out", "1 retreats", "two steps back", Ball.NEEDS, Takes.MAY,
         route=True, effort="dribble"),
    Verb("snake", ("snake+", "snake+ the screen", "snake+ the pick and roll"), "dribbles back across behind the screen to the other lane line", "1 snakes",
         "the other lane line", Ball.NEEDS, Takes.MAY, route=True, effort="dribble"),
    Verb("reject", ("reject+", "bump+", "reject+ the screen"), "goes away from the screen he was offered", "1 rejects",
         "with the ball the same-side elbow, without it the rim", Ball.EITHER, Takes.MAY, route=True, side=True, effort="drive"),
    Verb("hand-off", ("hand+ off", "hand+", "hand+ it off"), "gives the ball from hand to hand; the giver dribbles to the place if he may, the receiver comes",
         "4 hands off to 1", "at the place, else where the giver is", Ball.GIVES, Takes.MAY, Takes.MUST, "to", effort="hand-off",
         bare=("dribble hand-off+ with",), kinds=(
             Kind("dribble", ("dribble hand-off+", "dribble hand-off+ with"), "dribbles at him, and they meet half-way",
                  "1 dribble hand-offs to 2"),)),
    Verb("keep", ("keep+", "keep+ it", "fake+ a hand-off"), "fakes the hand-off and keeps the ball", "4 keeps", "stays", Ball.NEEDS),
    Verb("shoot", ("shoot+", "finish+", "score+", "pull+ up", "dunk+", "lay+ it up", "lay+ it in", "take+ the shot", "shoot+ the three",
                   "catch+ and shoot+", "catch+ and finish+", "turn+ and shoot+", "turn+ and score+", "turn+ and finish+", "go+ up and finish+", "knock+ it down", "knock+ down the shot",
                   "knock+ down the three", "let+ it fly", "let+ it go", "take+ the three", "take+ the jumper", "take+ the layup", "take+ the open shot",
                   "shoot+ the open three", "shoot+ the jumper", "shoot+ the layup", "get+ the layup", "get+ the shot", "lay+ it off the glass", "make+ the layup", "rise+ up and shoot+"), "shoots from where he is; a place says where that is, and `pulls up` dribbles there; ends the branch", "3 shoots", "where he is",
         Ball.NEEDS, Takes.MAY, own_side=True),
    Verb("miss", ("miss+ on purpose",), "misses a free throw or shot to get the rebound", "1 misses on purpose", "where he is", Ball.NEEDS),
    Verb("inbound", ("inbound+", "inbound pass+", "throw+ in"), "passes in from out of bounds", "3 inbounds to 1",
         "out of bounds until he steps in", Ball.GIVES, Takes.MAY, Takes.MUST, "to"),
    Verb("tip", ("tip+", "tip+ it", "tip+ out", "tip+ it out", "tip+ back", "tip+ it back", "tap+", "tap+ it", "tap+ out", "tap+ it out", "tap+ back",
                 "tap+ it back"), "touches a ball in the air on to a teammate", "5 tips to 1", "where he is", Ball.TAKES, object=Takes.MAY,
         preposition="to"),
    Verb("rebound", ("rebound+", "get+ the rebound"), "takes a missed shot", "5 rebounds", "where he is", Ball.TAKES, Takes.MAY, effort="cut"),
    Verb("box-out", ("box+ out",), "keeps his man away from the rebound", "4 boxes out", "where he is", Ball.TAKES, object=Takes.MAY,
         of="defender"),
    Verb("crash", ("crash+", "crash+ the glass", "crash+ the boards"), "runs to the rim for the rebound", "3 crashes", "the rim",
         Ball.TAKES, Takes.MAY, effort="cut"),
)
