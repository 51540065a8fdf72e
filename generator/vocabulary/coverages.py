"""What the defence does, as keys of answers say it. The keys of the other kinds of read stand here too."""

from generator.vocabulary.entries import Word


def _coverage(id_: str, words: tuple[str, ...], meaning: str) -> Word:
    return Word(id_, words, meaning, words[0].replace("+", ""))


COVERAGES = (
    _coverage("trail", ("trail+", "chase+", "lock and trail"), "follows the cutter round the screen"),
    _coverage("under", ("go+ under", "under", "go+ under the screen", "play+ under"), "goes between screener and rim"),
    _coverage("over", ("go+ over", "over", "go+ over the screen"), "squeezes past on the ball's side of the screener"),
    _coverage("shoot the gap", ("shoot+ the gap",), "takes the short way and meets the cutter behind the screen"),
    _coverage("switch", ("switch+",), "the two defenders change men"),
    _coverage("hedge", ("hedge+", "show+", "step+ out", "show+ hard", "hard hedge+", "hard show+"), "the screener's man steps out at the user, then goes back"),
    _coverage("drop", ("drop+", "drop+ back"), "the screener's man waits near the rim"),
    _coverage("at the level", ("at the level", "at level"), "the screener's man stands level with the screen"),
    _coverage("trap", ("trap+", "blitz+", "double+", "double-team+"), "two go to the ball"),
    _coverage("ice", ("ice+", "down"), "the dribbler is kept away from the screen, on the sideline"),
    _coverage("squeeze", ("squeeze+", "jam+"), "the screener's man holds the screener so that the other gets through"),
    _coverage("top-lock", ("top-lock+",), "stands between the cutter and the screen"),
    _coverage("deny", ("deny+", "overplay+"), "stands between his man and the ball"),
    _coverage("front", ("front+",), "stands on the ball side of the post player"),
    _coverage("play behind", ("play+ behind", "behind"), "stands between the post player and the rim"),
    _coverage("sag", ("sag+", "sag+ off", "play+ off"), "leaves room toward the rim"),
    _coverage("cheat high", ("cheat+ high",), "leans to the high side before the cut"),
    _coverage("cheat low", ("cheat+ low",), "leans to the low side before the cut"),
    _coverage("jump to the ball", ("jump+ to the ball",), "moves toward the ball as the pass is made"),
    _coverage("jump the screen", ("jump+ the screen",), "is past the screen before it is set"),
    _coverage("help", ("help+", "rotate+"), "leaves his man for the ball"),
    _coverage("low help", ("low help", "low man", "low man helps", "low help comes"), "the lowest weak-side defender comes"),
    _coverage("high help", ("high help", "nail man", "nail help"), "the defender at the nail comes"),
    _coverage("tag", ("tag+",), "bumps the roller, then goes back to his man"),
    _coverage("stay", ("stay+", "stay+ home"), "stays with his man"),
    _coverage("ball watch", ("ball watch+", "watch+ the ball"), "looks at the ball and not at his man"),
    _coverage("late", ("late", "late close-out", "is late"), "comes out to his man too late"),
    _coverage("close out", ("close+ out", "close-out"), "comes out to his man under control"),
    _coverage("hard close-out", ("hard close-out", "close+ out hard"), "comes out running, to stop the shot"),
    _coverage("two on the ball", ("two on the ball", "two on ball"), "two defenders stay with the ball"),
    _coverage("stunt", ("stunt+",), "a false step at the ball"),
    _coverage("open", ("open", "is open"), "nobody is near"),
    _coverage("denied", ("denied", "is denied"), "he cannot get the ball"),
)

BALL_KEYS = (
    Word("made", ("made",), "the shot goes in", "made"),
    Word("missed", ("missed",), "the shot does not", "missed"),
    Word("tip won", ("tip won",), "we have the tip", "tip won"),
    Word("tip lost", ("tip lost",), "they have it", "tip lost"),
    Word("ball left", ("ball left",), "the ball goes left", "ball left"),
    Word("ball right", ("ball right",), "the ball goes right", "ball right"),
    Word("ball middle", ("ball middle",), "the ball goes through the middle", "ball middle"),
)
# Sets of ball keys that leave nothing over, so that no `otherwise` is needed.
BALL_WHOLES = (frozenset({"made", "missed"}), frozenset({"tip won", "tip lost"}), frozenset({"ball left", "ball right", "ball middle"}))

CLOCK_KEYS = (
    Word("under", ("under 3 s",), "fewer seconds remain", "under 3 s"),
    Word("between", ("3 to 7 s",), "so many seconds remain", "3 to 7 s"),
    Word("or more", ("7 s or more",), "at least so many seconds remain", "7 s or more"),
)

WATCHES = (
    Word("defenders", ("X3 on 5's screen",), "defenders, with `on 5's screen` or `at right block`; answers are coverages", "X3 on 5's screen"),
    Word("players", ("2 then 5",), "teammates in that order; answers are `2 open`, `5 open`", "2 then 5 then 4"),
    Word("own choice", ("own choice",), "what he likes; answers are short names, the first is the main line", "own choice"),
    Word("bench", ("bench",), "a call from the bench; answers are calls, the first is the main line", "bench"),
    Word("clock", ("clock",), "the clock; answers are spans of seconds", "clock"),
    Word("ball", ("ball",), "what becomes of the ball", "ball"),
)
