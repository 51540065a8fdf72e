"""Practice talk that stands for plain words: what it is read as, with an example."""

from generator.vocabulary import verbs_screen
from generator.vocabulary.entries import Word
from generator.vocabulary.words import build

# A screen as a thing: `off the pick`, `off 5's pin-down`, `gets a ball screen from 5`.
_KINDS = tuple(w for v in verbs_screen.VERBS for row in (v, *v.kinds) for w in row.words
               if w.endswith(("screen+", "pin-down+", "stagger+")) and not w.startswith(("set+", "fake+")))
SCREEN_NOUNS = (*(w.replace("+", "") for w in _KINDS), "pick", "stagger", "double", "double stagger", "screens", "picks", "high-post screen",
                "baseline screen", "staggered screens", "double screens", "baseline screens")
NOUN_TRIE = build((w, w) for w in SCREEN_NOUNS)
HIS_SCREENER = "his screener"  # the role `off the screen` stands for

OFF = (
    Word("off", ("off the screen", "off the pick", "off the stagger", "off the double"),
         "off the screen that this phase sets for him; where two are set apart, say whose", "2 cuts off the pick to left wing"),
    Word("off 5", ("off 5's down screen", "off the screen from 5", "off a screen set by 5"), "off 5", "2 cuts off the screen from 5 to left wing"),
)

# Said before a screen, the walk to it: `comes up to set a ball screen`.
WALKS = (
    Word("", ("come+", "go+", "run+", "step+ up", "step+ out", "step+", "move+", "slide+", "head+", "follow+", "flow+", "veer+", "turn+", "twirl+", "continue+"),
         "the walk to a screen, when `to`, `into` or `and` with the screen follows at once: the screen alone is read",
         "5 comes up to set a ball screen for 1"),
    Word("hard", ("sprint+", "race+", "rush+", "burst+", "fly+"), "the same at full effort", "5 sprints into a ball screen for 1"),
)
WALK_WORDS = frozenset({"up", "out", "over", "across", "down", "back", "in", "around"})
WALK_JOINTS = frozenset({"to", "into", "and"})

# Said before a verb with the ball, says nothing more: `catches and drives`.
LEADS = (
    Word("lead", ("catch+", "rip+", "rip+ through", "spin+", "turn+"), "before `and` and a verb of the ball: that verb alone is read", "2 catches and drives"),
)

# After a pass: how the receiver is under way; the lines above must move him.
UNDER_WAY = (
    Word("on", ("on the roll", "on the cut", "on the move", "on the pop", "on the dive", "on the slip", "on the flash", "on the curl", "on the back cut", "on the backcut", "backdoor", "back door",
                "on the backdoor cut", "in stride", "on the way by", "on the way to the rim", "on the way to the basket"),
         "the ball meets him under way; a line above must move him", "1 passes to 5 on the roll"),
    Word("inside", ("in the post", "into the post", "down low", "inside", "underneath"), "the receiver stands near the lane", "2 feeds 5 in the post"),
    Word("doing", ("rolling", "cutting", "diving", "popping", "slipping", "flashing", "curling", "coming", "fading"),
         "the same; `off` somebody or a place may follow", "1 passes to 2 coming off 5"),
)

# With a shot: how; nothing more is drawn.
SHOT_HOW = (
    Word("how", ("behind the screen", "behind the pick", "off the catch", "off the dribble", "off the bounce", "off the glass", "on the move", "in rhythm",
                 "over the top", "right away", "off the screen"), "how he shoots", "2 shoots off the catch"),
)
# With a pass: the receiver shoots; with a shot it says nothing more.
FOR_SHOT = (
    Word("shoots", ("for the shot", "for three", "for the jumper", "for the jump shot", "for the open three", "for the open shot", "for the open jumper"),
         "after a pass: and the receiver shoots", "1 passes to 2 for three"),
    Word("finishes", ("for the layup", "for the open layup", "for the easy layup", "for the dunk", "for the finish", "for the score", "for the basket", "for the bucket",
                      "for two", "for the easy two"),
         "after a pass: and the receiver finishes", "1 passes to 2 for the layup"),
)

# What somebody is given: the line of the giver. A screen's name, or these.
GETS = ("get+", "take+", "receive+", "catch+")
GIVEN = (
    Word("hand-off", ("hand-off", "handoff", "dribble hand-off"), "`5 hands off to 2`, said of 2", "2 takes a hand-off from 5"),
    Word("pass", ("pass", "ball", "it", "it back", "ball back", "return pass"), "`1 passes to 2`, said of 2", "2 gets the ball from 1 at left wing"),
    Word("screen", ("screen",), "`5 screens for 2`, said of 2; any kind of screen", "2 gets a back screen from 5"),
)

# Places told another way; the id of a circle's side is its hour.
GAPS = (Word("between", ("gap between", "seam between"), "the same as `between`", "1 dribbles into the gap between X1 and X3"),)
CIRCLE_SIDES = (
    Word("9", ("left side of center circle", "left side of centre circle"), "the center circle at 9 o'clock", "4 flashes to the left side of the center circle"),
    Word("3", ("right side of center circle", "right side of centre circle"), "the center circle at 3 o'clock", "4 flashes to the right side of the center circle"),
)

_rows = lambda rows: build((w, row.id) for row in rows for w in row.words)
WALK_TRIE = _rows(WALKS)
LEAD_TRIE = _rows(LEADS)
UNDER_WAY_TRIE = _rows(UNDER_WAY)
SHOT_HOW_TRIE = _rows(SHOT_HOW)
FOR_SHOT_TRIE = _rows(FOR_SHOT)
GETS_TRIE = build((w, w) for w in GETS)
GIVEN_TRIE = _rows(GIVEN[:2])
GAP_TRIE = _rows(GAPS)
CIRCLE_SIDE_TRIE = _rows(CIRCLE_SIDES)
TALK = (*OFF, *WALKS, *LEADS, *UNDER_WAY, *SHOT_HOW, *FOR_SHOT, *GIVEN, *GAPS, *CIRCLE_SIDES)
