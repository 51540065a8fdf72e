"""Trade words that are not taken because they could mean two things, or say no movement: what to write instead.

Messages show these in place of the word that merely looks alike.
"""

from __future__ import annotations

from generator.vocabulary.words import build, match, split_words

_GIVEN_BY_PASS = "catching follows from the pass: write `1 passes to 4` for the one who gives, and leave this out"
_FEINT = "write `2 sets up then cuts to right wing`: one false step, then where he comes out"
_SAID_ELSEWHERE = "a line says one movement; what he is to think of stands under `teach`, `why` or `reads`"
_USE = "write the way he goes: `2 cuts off 5 to right wing`, with the ball `1 dribbles off 5 to right elbow` or `1 drives off 5`"

# Where a verb should stand.
VERBS = (
    (("isolate+", "iso+", "go+ one on one"), "say who clears, as in `everyone else clears to left side`, then `1 drives`"),
    (("l-cut+", "fake+ a cut"), _FEINT),
    (("get+ open",), _FEINT),
    (("wait+ for the screen", "take+ the screen"), _USE),
    (("catch+", "receive+", "get+ it", "get+ it back", "get+ the ball", "get+ a pass"), _GIVEN_BY_PASS),
    (("turn+",), "write `faces rim`"),
    (("pick+ up", "pick+ up the dribble", "pick+ up the ball"), "write `holds`"),
    (("let+", "fire+", "launch+", "make+ the shot", "knock+ down", "go+ up", "put+ it up", "make+"), "write `shoots` or `finishes`, or name the movement, as in `2 cuts to rim`"),
    (("turn+ it up", "turn+ it"), "write `drives`, with the way: `drives middle`, `drives baseline`"),
    (("read+", "see+"), "what he reads stands under `reads`: `who`, `watch`, `answers`"),
    (("split+", "split the post"), "say each movement: `1 screens for 2 at right slot`, `2 cuts off 1 to right corner`, `1 dives`"),
    (("call+ for", "demand+", "think+", "be+", "is", "are", "talk+", "communicate+", "try", "tries", "want+"), _SAID_ELSEWHERE),
    (("jab+", "jab step+", "rip+ through"), "write `fakes a shot` or `holds`"),
    (("spread+", "spread+ the floor"), "say where each goes, as in `2 and 3 space to the corners`"),
    (("balance+", "get+ back"), "say where to, as in `1 runs to deep top`"),
    (("hesitate+",), "write `holds`, or give his next line a timing such as `after 5 sets`"),
    (("guard+", "defend+", "play+ defence", "play+ defense"), "defenders are X1 to X5, and stand in `watch` and `answers`"),
    (("do+",), "say which movement, as in `2 cuts to rim`"),
    (("start+", "begin+"), "where he stands at first goes under `start`; else name the movement"),
    (("take+ his man", "take+ his defender", "beat+ his man", "beat+"), "write `drives`, with the way: `drives middle`, `drives baseline`"),
    (("have+ the ball", "have+"), "who has the ball follows from `start` and the passes"),
    (("back+ up",), "with the ball write `retreats`, without it say where to: `4 goes to top`"),
    (("run+ a pick and roll", "play+ a pick and roll", "play+ two-man game", "play+ a two-man game", "run+ the pick and roll"),
     "say each movement: `5 ball screens for 1`, `1 drives off 5`, `5 rolls`"),
    (("wait+ for",), "give his next line a timing, as in `2 cuts to rim as 5 arrives`, or write `1 holds until 5 arrives`"),
    (("keep+ the dribble", "keep+ the dribble alive"), "write `holds`"),
    (("look+ to drive", "look+ to shoot", "look+ to score", "look+ to attack", "look+ to pass", "look+ inside", "look+ for the shot", "look+ for a shot"),
     "say whom he looks for, as in `1 looks for 5 then 3`; a drive or a shot is a line, or an answer of a read"),
    (("back+ down", "back+ his man down", "drop step+", "make+ a move", "go+ at his man"), "write `drives`, with the way: `drives middle`, `drives baseline`, or `finishes`"),
    (("work+", "go+ to work"), "say what he does: `5 finishes`, or give him a read"),
)

# Where a place should stand, or another word after a verb.
WORDS = (
    (("left",), "left what? Write `to left wing`, `left slot`, `left corner`, `left elbow`, `left block`, or `to left side` for the nearest free spot"),
    (("right",), "right what? Write `to right wing`, `right slot`, `right corner`, `right elbow`, `right block`, or `to right side` for the nearest free spot"),
    (("middle", "middle of the floor"), "name a spot such as `nail`, `top`, `center circle` or `middle of the lane`; for the way write `drives middle`"),
    (("weak", "strong"), "write `weak-side corner` with the spot, or `to weak side` for the nearest free one"),
    (("inside",), "name a spot such as `left block` or `front of the rim`"),
    (("outside", "perimeter", "three-point line", "three point line", "arc"), "name the spot on the arc: `top`, `left slot`, `left wing`, `left corner`"),
    (("post",), "write `left block`, `left mid-post` or `nail`"),
    (("backcourt",), "name the spot: `backcourt left wing`"),
    (("open spot", "open area", "gap", "seam"), "name the spot; `open corner`, `open wing` and `open slot` are the free one of two"),
    (("screen", "screens", "pick"), "say whose screen: `off 5`, or `over 5`"),
    (("up", "down", "out", "over", "back", "across", "away"), "say where to, as in `to left elbow`; before a screen leave it out, the walk there belongs to the screen"),
    (("while",), "lines without a timing run at the same time: give the other a line of its own, or write `as 2 catches`"),
    (("right away", "immediately", "instantly"), "write `at once` for the phase's opening; else leave it out: every line begins as early as it can"),
    (("it",), "leave it out; where it means a screen, say whose: `off 5`"),
    (("pass", "ball"), "say whom: `follows 2`"),
    (("coming", "looking", "going", "trying", "ready", "calling", "running", "using"), "a line says one movement; give what follows a line of its own, or `why` or `teach`"),
    (("to get", "to set", "to come", "to receive", "to screen", "to catch", "to shoot", "to fill", "to replace", "to space", "to clear", "in order"), "give it a line of its own, with who does it"),
    (("for shot", "for three", "for 3 points", "for layup", "for jumper", "for dunk", "for score", "for open shot", "for jump shot", "for lob", "for finish", "for basket", "for bucket",
      "for open three", "for open layup", "for easy layup", "for easy two", "for two"),
     "it stands after a pass (`1 passes to 2 for three`) or a shot; else give the shot its own line: `2 shoots`"),
    (("hand-off", "handoff"), "name the spot, and give the hand-off its own line: `5 hands off to 2`"),
    (("for hand-off", "for handoff"), "give the hand-off its own line: `4 hands off to 2`"),
    (("for pass", "for ball"), "give the pass its own line: `1 passes to 2`"),
)

# Where the player should stand.
OPENINGS = (
    (("meanwhile", "at the same time", "now", "first"), "leave it out: lines without a timing run at the same time, each as early as it can"),
    (("next", "finally", "afterwards", "after that"), "write `then 3 cuts to rim`, which waits for all lines above, or leave it out"),
)

# Where a coverage should stand.
COVERAGES = (
    (("cheat+",), "write `cheat high` or `cheat low`"),
    (("both defenders", "both", "both stay", "both go", "two"), "write `two on the ball` or `trap`"),
    (("tight", "close"), "write `deny`, `trail` or `play behind`"),
    (("loose", "back off", "backs off", "gap"), "write `sag`"),
    (("fight+ through", "fight+ over"), "write `go over` or `trail`"),
    (("beat", "is beaten", "overhelp", "loses him", "sleep+"), "write `ball watch`, `late` or `help`"),
    (("pressure+",), "write `deny`, or `trap` when two come"),
    (("collapse+", "sink+"), "write `sag` or `help`"),
)


def _trie(rows: tuple) -> dict:
    return build((wording, hint) for wordings, hint in rows for wording in wordings)


ADVICE = _trie(VERBS)
_TRIES = {"verb": ADVICE, "word": _trie(WORDS), "coverage": _trie(COVERAGES), "opening": _trie(OPENINGS)}


def advice(where: str, words: list[str], i: int = 0) -> str:
    """What to write instead of the trade word that stands at `words[i]`; "" if none. `where`: verb, word, coverage or opening."""
    found = match(_TRIES[where], words, i)
    return found[0] if found else ""


def wordings(where: str) -> tuple[list[str], ...]:
    """Every wording there is advice for, as word lists."""
    rows = {"verb": VERBS, "word": WORDS, "coverage": COVERAGES, "opening": OPENINGS}[where]
    return tuple(split_words(w.replace("+", "")) for words, _ in rows for w in words)
