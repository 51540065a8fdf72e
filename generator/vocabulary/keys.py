"""The keys of every mapping in a book file, in the order in which the handbook shows them."""

from generator.vocabulary.entries import Key

PACES = ("youth", "high school", "college", "professional")
RULE_SETS = ("international", "professional", "college", "high school")
SITUATIONS = ("live", "baseline out of bounds", "sideline out of bounds", "after a made basket", "rebound", "jump ball", "free throw")
ZONES = ("2-3", "3-2", "1-3-1", "1-2-2", "2-1-2")
PRESSES = ("1-2-1-1", "2-2-1", "1-3-1")
AGAINST = (
    "man", *(f"zone {z}" for z in ZONES), *(f"matchup zone {z}" for z in ZONES), *(f"{shape} and one on {n}" for shape in ("box", "diamond") for n in range(1, 6)),
    *(f"triangle and two on {a} and {b}" for a in range(1, 6) for b in range(a + 1, 6)), "man press", *(f"zone press {p}" for p in PRESSES), "nobody",
)

# Other ways to write a value of `choices`, by key. `#` is the shape of a zone.
ALSO = {
    "against": {
        "man to man": "man", "# zone": "zone #", "#": "zone #", "# press": "zone press #", "# zone press": "zone press #",
        "matchup": "matchup zone 2-3", "matchup zone": "matchup zone 2-3", "# matchup": "matchup zone #", "matchup #": "matchup zone #",
        "# matchup zone": "matchup zone #", "# half court trap": "zone press #", "half court # trap": "zone press #",
        "half court trap #": "zone press #", "diamond press": "zone press 1-2-1-1",
        "man to man press": "man press", "press # zone": "zone press #", "full court man": "man press",
    },
    "situation": {
        "baseline": "baseline out of bounds", "blob": "baseline out of bounds", "baseline inbounds": "baseline out of bounds",
        "sideline": "sideline out of bounds", "slob": "sideline out of bounds", "sideline inbounds": "sideline out of bounds",
        "made basket": "after a made basket", "made free throw": "after a made basket", "half court": "live",
    },
}



def spellings(key: Key) -> tuple[str, ...]:
    """Every way to write a value of a closed set: as it is kept, then the other ways; for `#` each shape that makes one."""
    found = dict.fromkeys(key.choices)
    for said, meant in ALSO.get(key.name, {}).items():
        shapes = (*ZONES, *PRESSES) if "#" in said else ("",)
        found.update(dict.fromkeys(said.replace("#", s) for s in shapes if meant.replace("#", s) in key.choices))
    return tuple(found)


_SILENCE = Key("allow", "allow", "silences a check in this part of the play; the reason is needed", "allow: {spacing: the crowd is the point}")
_TEACH = Key("teach", "teach", "what the coach says, by player", "teach: {3: Walk him into the screen., 2 and 4: Stay wide., everyone: Talk.}")
_WHY = Key("why", "text", "the reason, for players", "why: He is behind you; the lane is open.")
_BOTH = Key("both sides", "yes-no", "run on both sides; the tool adds the mirrored play", "both sides: yes")
_CALL = Key("call", "text", "what is called", "call: Lantern over")
_SIGNAL = Key("signal", "text", "what is shown", "signal: open hand, two turns")
_START = Key("start", "start", "an alignment's name, or who stands where, with whose ball",
             "start: {1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}", needed=True)
_PHASES = Key("phases", "phases", "what happens, phase by phase", "phases: [{name: Swing, do: [1 passes to 2]}]", needed=True)
_LINES = "a line, or a list of lines"
_GO_TO = Key("go to", "go-to", "what follows: a phase, `next phase`, `end`, or another play, with `mirrored` after it if so", "go to: Second side")
_PHASE_GO_TO = Key("go to", "go-to", "what follows it instead of the phase below; `end` ends the play", "go to: end")

PLAY = (
    Key("play", "name", "the play's name; its identity", "play: Lantern Over", needed=True),
    Key("series", "text", "plays that share a look", "series: Lantern"), _CALL, _SIGNAL,
    Key("purpose", "text", "what the play is for", "purpose: A three for 3 on the second side."),
    Key("situation", "choice", "when it is run", "situation: baseline out of bounds", choices=SITUATIONS),
    Key("against", "choice", "the defence it is made for", "against: zone 2-3", choices=AGAINST),
    Key("clock", "seconds", "seconds on the clock at the start", "clock: 4 s"), _START,
    Key("lead-in", "lead-ins", "motion run before it: each may come before the play, alone or chained as written", "lead-in: [Ferry]"),
    Key("same as", "same-as", "takes over start, lead-in and all phases before the one named", "same as: Lantern Over until Second side"),
    Key("also for", "pairs", "the same play with two players' jobs exchanged", "also for: {3: 2}"),
    Key("interchangeable", "groups", "players with the same job text and quiz key", "interchangeable: [2 and 3]"), _BOTH,
    Key("rules", "rules", "what holds in every phase", "rules: [{when: anyone passes, do: [passer cuts to rim]}]"), _PHASES, _TEACH,
    Key("film", "film", "links to film", "film: [{title: Friday, link: 'https://example.org/friday'}]"),
    Key("staff-note", "text", "for staff pages only", "staff-note: Not before the cup game."),
    Key("draft", "yes-no", "checked, its mistakes are warnings, not published", "draft: yes"),
    Key("retired", "yes-no", "kept and checked, not on phones, not in quizzes", "retired: yes"), _SILENCE,
)
LEAD_IN = (
    Key("lead-in", "name", "the lead-in's name", "lead-in: Ferry", needed=True), _CALL, _SIGNAL, _START, _PHASES, _BOTH, _SILENCE,
)
PHASE = (
    Key("name", "name", "the phase's name", "name: Swing", needed=True),
    Key("do", "lines", _LINES, "do: [1 passes to 2, 2 shoots]"),
    Key("when", "when", "the event that opens it, instead of the end of the phase above", "when: as 2 catches"),
    Key("reads", "reads", "forks of this phase", "reads: [{who: 3, watch: X3, answers: {sag: [3 shoots], otherwise: go on}}]"), _PHASE_GO_TO,
    Key("roles", "roles", "from the next phase on 3 does 1's lines; or `by place`", "roles: {3: 1}"), _TEACH,
    Key("optional", "yes-no", "two branches: with it (main line) and without", "optional: yes"), _SILENCE,
)
REPEAT = (
    Key("repeat", "repeat", "`from PHASE`, or `mirrored from PHASE`: ends the main line", "repeat: mirrored from Swing", needed=True),
    Key("times", "count", "how many more rounds, at most 10; 1 if not said", "times: 3"),
    Key("until", "text", "for the reader", "until: a defender turns his head"),
    Key("roles", "role-pairs", "in the next round 4 does 3's lines", "roles: {4: 3}"),
)
READ = (
    Key("who", "who", "who reads: a player or a role", "who: 3", needed=True),
    Key("watch", "watch", "what he watches", "watch: X3 on 5's screen", needed=True),
    Key("when", "when", "the event at which he reads", "when: as 3 catches"),
    Key("answers", "answers", "what the five do, by what he sees", "answers: {trail: [3 curls, 4 passes to 3, 3 finishes], otherwise: go on}", needed=True),
    _WHY, _TEACH, _SILENCE,
)
ANSWER = (
    Key("do", "answer-lines", _LINES + ", or `go on`", "do: [3 curls, 4 passes to 3, 3 finishes]"), _WHY, _TEACH,
    Key("reads", "reads", "forks inside this answer", "reads: [{who: 2, watch: 4 then 3, answers: {4 open: [2 passes to 4], otherwise: go on}}]"), _GO_TO,
)
RULE = (
    Key("when", "event", "the event", "when: anyone passes"),
    Key("do", "lines", _LINES, "do: [passer cuts to rim]"),
    Key("who", "who", "who reads: a player or a role", "who: anyone one pass away"),
    Key("watch", "watch", "what he watches", "watch: his defender"),
    Key("answers", "answers", "what happens, by what he sees", "answers: {deny: [he back cuts], otherwise: go on}"), _WHY, _TEACH, _SILENCE,
)
START = (
    Key("alignment", "alignment", "an alignment; the other entries override it", "alignment: box"),
    *(Key(str(n), "place", f"where {n} stands, `with the ball`, `on the run`", f"{n}: left wing") for n in range(1, 6)),
)
FILM = (Key("title", "text", "what it shows", "title: Friday", needed=True), Key("link", "link", "where it is", "link: 'https://example.org/friday'", needed=True))
TEAM = (
    Key("team", "text", "the team's name", "team: Harbor Lights", needed=True),
    Key("rule set", "choice", "whose lines and clocks you play under", "rule set: international", needed=True, choices=RULE_SETS),
    Key("women", "yes-no", "top speed times 0.88, and the women's rule where it differs", "women: yes"),
    Key("pace", "choice", "how fast the team is", "pace: high school", choices=PACES),
    Key("shot clock", "shot-clock", "seconds, or `none`", "shot clock: 35 s"),
    Key("stopwatch", "stopwatch", "seconds you measured for a play", "stopwatch: {Lantern Over: 13}"),
    Key("screens", "choice", "whether the cutter waits for the screen", "screens: wait until set", choices=("on time", "wait until set")),
    Key("basket", "choice", "where the basket is drawn", "basket: up", choices=("up", "down")),
    Key("roster", "roster", "your people", "roster: [{name: Robin Vale, number: 4, positions: [1, 2]}]"),
    Key("full names", "yes-no", "publishes full names; otherwise first name or number only", "full names: no"),
    Key("calls", "calls", "calls beyond the plays' own, and what they mean", "calls: {fist: press after a made basket}"),
    Key("coverages", "team-coverages", "your own words for coverages", "coverages: {spy: trail}"),
    Key("send results to", "text", "number or address that gets the quiz results", "send results to: coach@example.org"),
)
ROSTER = (
    Key("name", "text", "his name", "name: Robin Vale", needed=True), Key("number", "text", "the number on the shirt", "number: 4"),
    Key("positions", "positions", "which of 1 to 5 he plays", "positions: [1, 2]"),
)
GAME = (
    Key("against", "text", "the opponent, any name", "against: Quarry Town", needed=True), Key("date", "date", "year-month-day", "date: 2026-12-04", needed=True),
    Key("plays", "names", "tonight's plays in the bench's order", "plays: [Lantern Over, Tidewall]", needed=True),
    Key("coverages", "weights", "what you expect, with weights", "coverages: {hedge: 3, switch: 1}"),
    Key("quiz", "quiz", "how many questions, and on which plays", "quiz: {questions: 10, plays: [Lantern Over]}"),
    Key("absent", "names", "roster names of those who are out", "absent: [Robin Vale]"), Key("note", "text", "for everybody", "note: Bus at five."),
    Key("staff-note", "text", "for staff pages only", "staff-note: Their 4 is hurt."),
)
QUIZ = (
    Key("questions", "count", "how many; 10 if not said", "questions: 10"), Key("plays", "names", "only on these plays", "plays: [Lantern Over]"),
)

KEYS = {
    "play": PLAY, "lead-in": LEAD_IN, "phase": PHASE, "repeat": REPEAT, "read": READ, "answer": ANSWER, "rule": RULE, "start": START, "film": FILM,
    "team": TEAM, "roster": ROSTER, "game": GAME, "quiz": QUIZ,
}
