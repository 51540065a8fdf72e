"""What can happen, and the words that tie a line to it."""

from generator.vocabulary.entries import EventWord, Word


def _one(id_: str, words: tuple[str, ...], meaning: str, event: str, takes: str = "") -> EventWord:
    return EventWord(id_, words, meaning, f"3 cuts to rim as {event}", "one", takes)


EVENTS = (
    _one("catch", ("catch+",), "he holds the ball", "2 catches"),
    _one("pass", ("pass+",), "the ball leaves his hand", "1 passes"),
    _one("dribble", ("dribble+",), "first step of his dribble", "1 dribbles"),
    _one("drive", ("drive+",), "first step of his drive", "1 drives"),
    _one("turn-corner", ("turn+ the corner",), "0.6 m past the screener, with the ball", "1 turns the corner"),
    _one("pick-up", ("pick+ up", "pick+ it up", "pick+ up the ball"), "his dribble ends", "1 picks up"),
    _one("set", ("set+",), "both feet of the screener are down", "5 sets"),
    _one("clear", ("clear+",), "he is 0.6 m past the screener", "2 clears 5", "one"),
    _one("arrive", ("arrive+",), "he is within 0.3 m of his place", "2 arrives"),
    _one("reach", ("reach+",), "he is within 0.3 m of that place", "2 reaches left wing", "place"),
    _one("leave", ("leave+",), "his first step", "2 leaves"),
    _one("cut", ("cut+",), "first step of his cut", "2 cuts"),
    _one("roll", ("roll+",), "first step of his roll", "5 rolls"),
    _one("pop", ("pop+",), "first step of his pop", "4 pops"),
    _one("slip", ("slip+",), "first step of his slip", "4 slips"),
    _one("seal", ("seal+",), "he has his defender behind him", "5 seals"),
    _one("hand-off", ("hand+ off",), "the ball changes hands", "4 hands off"),
    _one("shoot", ("shoot+",), "the shot leaves his hand", "2 shoots"),
    _one("halfway", ("is halfway",), "half of his way is done", "2 is halfway"),
    _one("denied", ("is denied",), "a defender stands between him and the ball", "2 is denied"),
    _one("trapped", ("is trapped",), "two defenders are on him", "1 is trapped"),
    _one("dribbled-at", ("is dribbled at",), "the dribbler comes at him", "2 is dribbled at"),
    EventWord("tossed", ("is tossed",), "the referee throws it up", "2 breaks to left hash as ball is tossed", "ball"),
    EventWord("tipped", ("is tipped",), "a player touches it in the air", "2 breaks to left hash as ball is tipped", "ball"),
    EventWord("rim", ("hits the rim", "hit the rim"), "a missed shot", "3 crashes as ball hits the rim", "ball"),
    EventWord("changes-sides", ("changes sides", "change sides"), "it goes from one half to the other", "5 cuts to left block as ball changes sides", "ball"),
    EventWord("clock", ("on the clock",), "so many seconds remain", "2 cuts to rim as 5 s on the clock", "clock"),
)

RELATIONS = (
    Word("as", ("as", "when"), "starts at the event, or as soon after as he can; a pass is caught then", "3 cuts to rim as 2 catches"),
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
    Word("pass", ("pass",), "the ball leaves the hand", "3 cuts to rim on the pass"),
    Word("catch", ("catch",), "the ball is held", "3 cuts to rim on the catch"),
    Word("drive", ("drive",), "first step of the drive", "3 drifts on the drive"),
    Word("reversal", ("reversal",), "the pass to the other side", "5 cuts to left block on the reversal"),
    Word("hand-off", ("hand-off",), "the ball changes hands", "3 cuts to rim on the hand-off"),
    Word("shot", ("shot",), "the shot leaves the hand", "3 crashes on the shot"),
    Word("rebound", ("rebound",), "somebody has the rebound", "2 sprints to left wing on the rebound"),
    Word("tip", ("tip",), "the tip of a jump ball", "2 sprints to left wing on the tip"),
)
