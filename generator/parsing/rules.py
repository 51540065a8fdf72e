"""What reading a book refuses or remarks, rule by rule: what, why, an example of each, for the manual.

`bad` and `good` are lines of one phase, or whole files; a line `--- path` names the file that follows it. Where no text
can show the mistake both are empty. Tests run them: the bad one must be reported, about the good one nothing may be said.
"""

from __future__ import annotations

from dataclasses import dataclass

STANDING = "{1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}"
_HEAD = f"play: Ours\nstart: {STANDING}\n"


@dataclass(frozen=True, slots=True)
class FormRule:
    """One rule; `severity` is error, warning or info."""

    what: str
    why: str
    bad: str = ""
    good: str = ""
    severity: str = "error"


def files_of(example: str) -> dict[str, str]:
    """An example as files: path -> text. Lines alone become one phase of a play."""
    if not example.startswith(("play:", "---", "%", "- ", "series ", "why:", "\t")):
        lines = "".join(f"      - {line}\n" for line in example.split("\n"))
        return {"ours.yml": f"{_HEAD}phases:\n  - name: Only\n    do:\n{lines}"}
    found, path = {}, "ours.yml"
    for line in example.split("\n"):
        if line.startswith("--- "):
            path = line.removeprefix("--- ")
        else:
            found[path] = found.get(path, "") + line + "\n"
    return found


def _phases(text: str, head: str = "") -> str:
    return f"{_HEAD}{head}phases:\n{text}"


def _read(read: str) -> str:
    return _phases(f"  - name: Only\n    do: [1 passes to 2]\n    reads:\n      - {read}")


def _start(start: str, head: str = "") -> str:
    return f"play: Ours\n{head}start: {start}\nphases:\n  - {{name: Only, do: [1 holds]}}"


_ONLY = "  - {name: Only, do: [1 passes to 2]}"
_TWO = "  - {name: One, do: [1 passes to 2]}\n  - {name: Two, do: [2 passes to 1]}"
_PLAY = _phases(_ONLY)
_BOX = "{1: top with the ball, 2: left elbow, 3: right elbow, 4: left block, 5: right block}"
_GAME = "--- games/2026-12-04-weirgate.yml\nagainst: Weirgate\ndate: "

RULES: dict[str, FormRule] = {
    # -- the file ---------------------------------------------------------------------------------------
    "book-folder": FormRule("There is no folder of that name.", "Nothing can be read."),
    "unreadable": FormRule("A file cannot be read, or not as keys and values.", "It would be left out in silence."),
    "not-text": FormRule(
        "A file is not plain UTF-8 text, or holds an invisible control character.",
        "Letters would come out wrong, or a word would never be found."),
    "too-big": FormRule("A file is over 200 KB, or holds more than 20,000 values.", "A play needs about 3 KB: it is the wrong file."),
    "too-deep": FormRule(
        "More than 20 levels stand inside each other.", "A bracket was opened too often.",
        "play: " + "[" * 30 + "]" * 30, _PLAY),
    "too-long": FormRule("A line has more than 60 words.", "It holds several sentences; each job needs its own line."),
    "too-many": FormRule("A file has so many mistakes that the rest are not told.", "The first ones usually make the others."),
    "empty-file": FormRule("There is nothing in the file.", "It is forgotten, or saved too early.", "--- ours.yml\n", _PLAY),
    "two-documents": FormRule("A second document begins in the file.", "One play stands in one file.", "play: A\nphases: []\n---\nplay: B", _PLAY),
    "tab": FormRule("A tab stands before a line.", "Its width differs from editor to editor.", _PLAY.replace("  - {", "\t- {"), _PLAY),
    "indentation": FormRule(
        "A line stands deeper or less deep than its neighbours.", "Nobody can tell to what it belongs.",
        "play: Ours\n  call: Ours", _PLAY),
    "no-colon": FormRule("A line is no key: the colon is missing.", "It would be read as text.", _PLAY.replace("start", "series Harbor\nstart", 1), _PLAY.replace("start", "series: Harbor\nstart", 1)),
    "colon": FormRule(
        "A colon followed by a space stands inside a text.", "It begins a key there.",
        _PLAY.replace("start", "purpose: Swing it: fast\nstart", 1), _PLAY.replace("start", 'purpose: "Swing it: fast"\nstart', 1)),
    "quotes": FormRule(
        "A quote is not closed, or a line begins with a sign that needs quotes.", "The rest of the file would be swallowed.",
        _PLAY.replace("start", 'purpose: "Swing\nstart', 1), _PLAY.replace("start", 'purpose: "Swing"\nstart', 1)),
    "brackets": FormRule("A bracket is not closed, or closed twice.", "The list would have no end.", _PLAY.replace("2]}", "2}"), _PLAY),
    "comma": FormRule(
        "A comma cut a sentence in two inside a list in brackets.", "Each half is read as a line.",
        _PLAY.replace("1 passes to 2", "3 cuts, to left wing"), _PLAY.replace("1 passes to 2", "3 cuts to left wing")),
    "hash": FormRule(
        "A text holds ` #`, which begins a comment.", "What follows is not read.",
        _PLAY.replace("start", "purpose: For our #4\nstart", 1), _PLAY.replace("start", 'purpose: "For our #4"\nstart', 1), "warning"),
    "alias": FormRule("An alias `*name` stands in a play.", "Plays take over phases by `same as`.", "play: Ours\ncall: *words", _PLAY),
    "anchor": FormRule("An anchor `&name` stands in a play.", "Plays take over phases by `same as`.", _PLAY.replace("start", "call: &words Ours\nstart", 1), _PLAY),
    "merge": FormRule("A merge key `<<` stands in a play.", "Plays take over phases by `same as`.", _PLAY.replace("start", "<<: {call: Ours}\nstart", 1), _PLAY),
    "tag": FormRule("A tag `!name` stands in a play.", "Plays use none.", _PLAY.replace("start", "call: !important Ours\nstart", 1), _PLAY),
    # -- keys and values --------------------------------------------------------------------------------
    "key": FormRule("A list or a mapping stands as a key.", "A key is a word or a number.", _PLAY.replace("start", "[call]: Ours\nstart", 1), _PLAY),
    "unknown-key": FormRule(
        "A key that is none here.", "A misspelt key would be passed over.",
        _PLAY.replace("start", "sgnal: fist\nstart", 1), _PLAY.replace("start", "signal: fist\nstart", 1)),
    "missing-key": FormRule("A key that must stand is missing.", "Without it the part means nothing.", _phases("  - {do: [1 passes to 2]}"), _PLAY),
    "duplicate-key": FormRule(
        "A key stands twice.", "One of the two would be lost.",
        _PLAY.replace("start", "call: A\ncall: B\nstart", 1), _PLAY.replace("start", "call: A\nstart", 1)),
    "empty": FormRule("A key has no value, or an answer does nothing.", "It was meant to say something.", _phases("  - {name: Only, do: }"), _PLAY),
    "shape": FormRule(
        "A list stands where a text belongs, or the other way round.", "It cannot be read as what it is.",
        _PLAY.replace("start", "call: [A, B]\nstart", 1), _PLAY.replace("start", "call: A\nstart", 1)),
    "choice": FormRule(
        "A value that is none of those allowed.", "It would be taken for nothing.",
        _PLAY.replace("start", "against: zone 2-4\nstart", 1), _PLAY.replace("start", "against: zone 2-3\nstart", 1)),
    "number": FormRule(
        "A number is no number, or out of its range.", "Seconds and weights are counted with.",
        _PLAY.replace("start", "clock: four seconds\nstart", 1), _PLAY.replace("start", "clock: 4 s\nstart", 1)),
    "date": FormRule("A date is none.", "Games are ordered by it.", f"{_GAME}4 December\nplays: [Ours]\n--- ours.yml\n{_PLAY}", f"{_GAME}2026-12-04\nplays: [Ours]\n--- ours.yml\n{_PLAY}"),
    "link": FormRule(
        "A link does not begin with https://.", "A file on one machine opens on no other.",
        _PLAY.replace("start", "film: {title: Friday, link: friday.mp4}\nstart", 1), _PLAY.replace("start", "film: {title: Friday, link: 'https://films.example/friday'}\nstart", 1)),
    "allow": FormRule(
        "`allow` gives no reason.", "In a month nobody will know why the rule was silenced.",
        _PLAY.replace("start", "allow: {spacing: }\nstart", 1), _PLAY.replace("start", "allow: {spacing: they talk}\nstart", 1)),
    "pairs": FormRule(
        "Players or roles do not go together in pairs.", "Two would do one job.",
        _PLAY.replace("start", "also for: {2: 3, 3: 4}\nstart", 1), _PLAY.replace("start", "also for: {2: 3}\nstart", 1)),
    "roster": FormRule(
        "A name is not in the roster.", "It is misspelt, or the roster is old.",
        f"{_GAME}2026-12-04\nplays: [Ours]\nabsent: [Robin Vail]\n--- ours.yml\n{_PLAY}",
        f"{_GAME}2026-12-04\nplays: [Ours]\n--- ours.yml\n{_PLAY}"),
    "teach": FormRule(
        "`teach` names nobody.", "Nobody would read it.",
        _phases("  - {name: Only, do: [1 passes to 2], teach: {guards: Talk.}}"), _phases("  - {name: Only, do: [1 passes to 2], teach: {1: Talk.}}")),
    # -- names ------------------------------------------------------------------------------------------
    "same-name": FormRule(
        "Two plays, lead-ins or phases have one name, or a name means something else.", "`go to` and `same as` could mean either.",
        _phases(_TWO.replace("Two", "One")), _phases(_TWO)),
    "unknown-play": FormRule(
        "A name of a play that the book does not have, or of a draft in a game plan.", "The link leads nowhere.",
        f"{_GAME}2026-12-04\nplays: [Theirs]\n--- ours.yml\n{_PLAY}", f"{_GAME}2026-12-04\nplays: [Ours]\n--- ours.yml\n{_PLAY}"),
    "unknown-lead-in": FormRule("A lead-in that the book does not have.", "It cannot be run.", _PLAY.replace("start", "lead-in: [Fery]\nstart", 1), _PLAY),
    "unknown-alignment": FormRule(
        "An alignment that alignments.yml does not have.", "Nobody knows where to stand.",
        f"--- alignments.yml\nbox: {_BOX}\n--- ours.yml\n{_start('bx')}", f"--- alignments.yml\nbox: {_BOX}\n--- ours.yml\n{_start('box')}"),
    "go-to": FormRule(
        "`go to` names no phase and no play.", "Play would stop there.",
        _read("{who: 2, watch: X2, answers: {sag: {go to: Swong}, otherwise: go on}}"), _read("{who: 2, watch: X2, answers: {sag: {go to: end}, otherwise: go on}}")),
    "repeat": FormRule(
        "`repeat` does not say from which phase, or names none.", "Nobody knows what comes again.",
        _phases(_TWO + "\n  - {repeat: from Thre}"), _phases(_TWO + "\n  - {repeat: from One}")),
    "same-as": FormRule(
        "`same as` cannot be followed: no such play or phase, a circle, a play with errors, or a start of its own.",
        "The play has no beginning.", "play: Ours\nsame as: Theirs\nphases:\n" + _ONLY,
        f"{_PLAY}\n--- theirs.yml\nplay: Theirs\nsame as: Ours until Only\nphases:\n  - {{name: Then, do: [2 shoots]}}"),
    "rule": FormRule(
        "A rule has both `do` and answers, or neither.", "It is one or the other.",
        _PLAY.replace("phases", "rules:\n  - {who: 1, watch: X1, do: [1 holds], answers: {sag: [1 shoots], otherwise: go on}}\nphases"), _PLAY),
    # -- the start --------------------------------------------------------------------------------------
    "alignment": FormRule(
        "An alignment is told by another alignment.", "Its five places stand in alignments.yml, not one in the other.",
        f"--- alignments.yml\nbox: {_BOX}\nstack: {{alignment: box, 5: right corner}}", f"--- alignments.yml\nbox: {_BOX}"),
    "players": FormRule("An alignment or a group lacks a player.", "Five stand on the floor.", f"--- alignments.yml\nbox: {_BOX.replace(', 5: right block', '')}", f"--- alignments.yml\nbox: {_BOX}"),
    "start-ball": FormRule(
        "Nobody has the ball at the start: 1 gets it.", "Said once, in case another was meant.",
        _start(STANDING.replace(" with the ball", "")), _start(STANDING), "info"),
    "two-balls": FormRule("Two players start with the ball.", "There is one.", _start(STANDING.replace("wing", "wing with the ball")), _start(STANDING)),
    # -- sentences --------------------------------------------------------------------------------------
    "who": FormRule("A line does not begin with somebody who can do it, or a word needs somebody after it.", "A job belongs to a player.", "the guard cuts to rim", "3 cuts to rim"),
    "player": FormRule("A player or defender that does not exist.", "Players are 1 to 5, defenders X1 to X5.", "6 cuts to rim", "3 cuts to rim"),
    "verb": FormRule("A word that is no verb of the language.", "It cannot be drawn, timed or asked.", "1 pases to 2", "1 passes to 2"),
    "word": FormRule("A word that means nothing where it stands.", "It would be passed over.", "1 passes to 2 nicely", "1 passes to 2"),
    "object": FormRule("A verb lacks the player it needs, or has one it cannot take.", "A screen frees somebody, a pass goes to somebody.", "1 passes", "1 passes to 2"),
    "preposition": FormRule("The small word between verb and player is missing or another one.", "`1 passes 2` reads like two numbers.", "1 passes 2", "1 passes to 2"),
    "place": FormRule("A verb lacks its place.", "Nobody knows where he goes.", "3 cuts", "3 cuts to rim"),
    "no-place": FormRule("A verb that takes no place has one.", "A fake happens where he is.", "1 fakes a shot at right elbow", "1 dribbles to right elbow then fakes a shot"),
    "no-way": FormRule("A verb that takes no way has one.", "Only who moves goes off, over or behind somebody.", "1 passes off 4 to 2", "1 passes to 2"),
    "no-side": FormRule("A verb that takes no side has one.", "Only a screen is set on a side.", "1 passes to 2 on the left", "1 passes to 2"),
    "way": FormRule("A way is not whole: `between` needs two.", "He cannot be drawn between one.", "3 cuts between 4 to top", "3 cuts between 4 and 5 to top"),
    "spot": FormRule("A word that is no spot.", "The nearest spots are named.", "3 cuts to wimg", "3 cuts to left wing"),
    "side": FormRule("A spot that lies on both sides stands without one.", "Half the team would go to the other.", "3 cuts to wing", "3 cuts to left wing"),
    "measure": FormRule("A measured place is off the court, or half of it is missing.", "Two numbers make a place.", "3 cuts to 3 m left", "3 cuts to 3 m left 4 m up"),
    "ambiguous": FormRule("A line can be read in two ways; both are shown.", "We do not guess.", "1 drives behind 5", "1 drives behind 5 to rim"),
    "ball-words": FormRule("`with the ball` stands in a line.", "Who has the ball follows from the passes.", "1 cuts to rim with the ball", "1 drives"),
    "twice": FormRule("Something stands twice that can stand once.", "One of the two would be lost.", "1 looks for 5 and 3", "1 looks for 5 then 3"),
    "or": FormRule("`or` stands in a line.", "A line says one thing; a choice is a read.", "1 passes to 2 or 3", "1 looks for 2 then 3"),
    "two-receivers": FormRule("One pass goes to two players.", "There is one ball.", "1 passes to 2 and 3", "1 passes to 2"),
    "two-sentences": FormRule("A second sentence begins in a line with a timing.", "The timing could belong to either; `and`, `then` or a comma parts plain sentences.",
                                 "1 passes to 2 and 3 cuts to rim as 2 catches", "1 passes to 2\n3 cuts to rim as 2 catches"),
    "timing-first": FormRule("A line opens with its timing.", "Timing stands last, so that who comes first.", "as 2 catches 3 cuts to rim", "1 passes to 2\n3 cuts to rim as 2 catches"),
    "timing-last": FormRule("Words follow the timing.", "Timing stands last.", "1 passes to 2\n3 cuts to rim as 2 catches then posts up", "1 passes to 2\n3 cuts to rim as 2 catches"),
    "event": FormRule("A timing names no event.", "Nothing could start it.", "1 passes to 2\n3 cuts to rim as 2", "1 passes to 2\n3 cuts to rim as 2 catches"),
    # -- reads ------------------------------------------------------------------------------------------
    "otherwise": FormRule(
        "A read does not say what happens otherwise.", "The player who sees nothing he knows must still know what to do.",
        _read("{who: 2, watch: X2, answers: {sag: [2 shoots]}}"), _read("{who: 2, watch: X2, answers: {sag: [2 shoots], otherwise: go on}}")),
    "same-coverage": FormRule(
        "Two answers are for the same coverage, or two spans of the clock overlap.", "Nobody knows which to take.",
        _read("{who: 2, watch: X2, answers: {trail: [2 shoots], chase: [2 drives, 2 finishes], otherwise: go on}}"),
        _read("{who: 2, watch: X2, answers: {trail: [2 shoots], under: [2 drives, 2 finishes], otherwise: go on}}")),
    "coverage": FormRule(
        "A word that is no coverage, or one that the watched player cannot play.", "Reads are about what a defender does.",
        _read("{who: 2, watch: X2, answers: {trial: [2 shoots], otherwise: go on}}"), _read("{who: 2, watch: X2, answers: {trail: [2 shoots], otherwise: go on}}")),
    "answer-key": FormRule(
        "A key of the answers does not fit what is watched.", "It could never be met.",
        _read("{who: 2, watch: ball, answers: {scored: [2 holds], otherwise: go on}}"), _read("{who: 2, watch: ball, answers: {made: [2 holds], otherwise: go on}}")),
    "watch": FormRule(
        "`watch` names nothing that can be watched.", "A read looks at defenders, players, the ball, the clock or the bench.",
        _read("{who: 2, watch: the crowd, answers: {sag: [2 shoots], otherwise: go on}}"), _read("{who: 2, watch: X2, answers: {sag: [2 shoots], otherwise: go on}}")),
    "when": FormRule(
        "`when` holds more than one event.", "A read happens once.",
        _read("{who: 2, watch: X2, when: as 2 catches hard, answers: {sag: [2 shoots], otherwise: go on}}"),
        _read("{who: 2, watch: X2, when: as 2 catches, answers: {sag: [2 shoots], otherwise: go on}}")),
    "same-read": FormRule(
        "One player reads one thing twice in a phase.", "The first has decided already.",
        _read("{who: 2, watch: X2, answers: {sag: [2 shoots], otherwise: go on}}\n      - {who: 2, watch: X2, answers: {trail: [2 shoots], otherwise: go on}}"),
        _read("{who: 2, watch: X2, answers: {sag: [2 shoots], trail: [2 shoots], otherwise: go on}}")),
}
