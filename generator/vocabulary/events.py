"""What can happen, and the words that tie a line to it."""

from generator.vocabulary import verbs_ball, verbs_move, verbs_screen
from generator.vocabulary.entries import EventWord, Word
from generator.vocabulary.words import third_form


def _one(id_: str, words: tuple[str, ...], meaning: str, event: str, takes: str = "") -> EventWord:
    return EventWord(id_, words, meaning, f"3 cuts to rim as {event}", "one", takes)


_OWN = (
    _one("catch", ("catch+", "catch+ it", "catch+ ball", "get+ it", "get+ ball", "get+ it back", "get+ ball back", "receive+", "receive+ it"), "he holds the ball", "2 catches"),
    _one("pass", ("pass+", "throw+", "swing+ it", "feed+", "inbound+"), "the ball leaves his hand", "1 passes"),
    _one("dribble", ("dribble+",), "first step of his dribble", "1 dribbles"),
    _one("drive", ("drive+",), "first step of his drive", "1 drives"),
    _one("turn-corner", ("turn+ the corner",), "0.6 m past the screener, with the ball", "1 turns the corner"),
    _one("pick-up", ("pick+ up", "pick+ it up", "pick+ up the ball"), "his dribble ends", "1 picks up"),
    _one("set", ("set+", "screen+", "set+ screen", "set+ a screen"), "both feet of the screener are down", "5 sets"),
    _one("clear", ("clear+", "clear+ out"), "he is 0.6 m past the screener", "2 clears 5", "one"),
    _one("arrive", ("arrive+",), "he is within 0.3 m of his place", "2 arrives"),
    _one("reach", ("reach+",), "he is within 0.3 m of that place", "2 reaches left wing", "place"),
    _one("leave", ("leave+", "take+ off"), "his first step", "2 leaves"),
    _one("cut", ("cut+",), "first step of his cut", "2 cuts"),
    _one("roll", ("roll+",), "first step of his roll", "5 rolls"),
    _one("pop", ("pop+",), "first step of his pop", "4 pops"),
    _one("slip", ("slip+", "slip+ the screen"), "first step of his slip", "4 slips"),
    _one("seal", ("seal+",), "he has his defender behind him", "5 seals"),
    _one("hand-off", ("hand+ off", "hand+ it off"), "the ball changes hands", "4 hands off"),
    _one("shoot", ("shoot+", "finish+", "score+", "pull+ up"), "the shot leaves his hand", "2 shoots"),
    _one("halfway", ("is halfway",), "half of his way is done", "2 is halfway"),
    _one("denied", ("is denied",), "a defender stands between him and the ball", "2 is denied"),
    _one("trapped", ("is trapped",), "two defenders are on him", "1 is trapped"),
    _one("dribbled-at", ("is dribbled at",), "the dribbler comes at him", "2 is dribbled at"),
    _one("use", ("use+", "come+ off"), "he is shoulder to shoulder with the screener", "2 uses 5's screen", "one"),
    _one("rebound", ("rebound+", "get+ the rebound"), "he has the rebound", "5 rebounds"),
    _one("tip", ("tip+", "tip+ it"), "he touches the ball in the air", "5 tips"),
    EventWord("tossed", ("is tossed",), "the referee throws it up", "2 breaks to left hash as ball is tossed", "ball"),
    EventWord("tipped", ("is tipped",), "a player touches it in the air", "2 breaks to left hash as ball is tipped", "ball"),
    EventWord("rim", ("hits the rim", "hit the rim"), "a missed shot", "3 crashes as ball hits the rim", "ball"),
    EventWord("changes-sides", ("changes sides", "change sides"), "it goes from one half to the other", "5 cuts to left block as ball changes sides", "ball"),
    EventWord("clock", ("on the clock",), "so many seconds remain", "2 cuts to rim as 5 s on the clock", "clock"),
)

_NO_STEP = frozenset({"stay", "face", "clear", "dribble-at"})  # no first step, or said by another event above


def _first_steps() -> tuple[EventWord, ...]:
    """Every other verb or kind of movement: his first step of such a line; of any run of his when he has no such line."""
    taken = {wording for row in _OWN for wording in row.words}
    found: dict[str, EventWord] = {}
    verbs = [v for v in (*verbs_move.VERBS, *verbs_ball.VERBS, *verbs_screen.VERBS) if v.effort and v.effort != "screen"]
    for row in (r for verb in verbs for r in (verb, *(verb.kinds if verb.id in ("cut", "set-up", "flash") else ()))):
        words = tuple(w for w in row.words if w not in taken and "+" in w)
        if words and row.id not in _NO_STEP and not any(row.id == own.id for own in _OWN):
            takes = "one" if row.id in ("exchange", "follow", "dribble-at") else ""
            said = third_form(words[0])
            found[row.id] = _one(row.id, words, "his first step of such a line", f"2 {said}", takes)
            taken |= {*words}
    return tuple(found.values())


FIRST_STEPS = frozenset(row.id for row in _first_steps())
EVENTS = (*_OWN, *_first_steps())

RELATIONS = (
    Word("as", ("as", "when", "once", "as soon as"), "starts at the event, or as soon after as he can; a pass is caught then", "3 cuts to rim as 2 catches"),
    Word("after", ("after",), "0.2 s after the event", "3 cuts to rim after 2 catches"),
    Word("before", ("before",), "done before the event", "3 clears to left corner before 2 catches"),
    Word("until", ("until",), "lasts to the event", "1 holds until 2 arrives"),
    Word("with", ("with",), "starts together with that player", "3 cuts to rim with 2"),
    Word("then", ("then",), "waits for all lines above in this `do`", "then 3 cuts to rim"),
    Word("at once", ("at once",), "at the phase's opening, waiting for no screen", "3 cuts to rim at once"),
    Word("at", ("at 6 s",), "waits for the clock; needs `clock`", "3 cuts to rim at 6 s"),
    Word("on the", ("on the",), "as the last such ball line above happens", "3 cuts to rim on the pass"),
)

ON_THE = (
    Word("pass", ("pass", "skip", "skip pass", "swing", "kick-out", "entry", "entry pass", "throw-in", "inbounds pass", "outlet", "outlet pass", "throwback"), "the ball leaves the hand", "3 cuts to rim on the pass"),
    Word("catch", ("catch",), "the ball is held", "3 cuts to rim on the catch"),
    Word("drive", ("drive",), "first step of the drive", "3 drifts on the drive"),
    Word("reversal", ("reversal",), "the pass to the other side", "5 cuts to left block on the reversal"),
    Word("hand-off", ("hand-off",), "the ball changes hands", "3 cuts to rim on the hand-off"),
    Word("shot", ("shot",), "the shot leaves the hand", "3 crashes on the shot"),
    Word("rebound", ("rebound",), "somebody has the rebound", "2 sprints to left wing on the rebound"),
    Word("tip", ("tip",), "the tip of a jump ball", "2 sprints to left wing on the tip"),
)
