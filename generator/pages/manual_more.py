"""Manual entries of rules that have no module of their own: what the timeline and the quiz remark, and settling's second
line for what reading refuses first.
"""

from __future__ import annotations

from generator.parsing.rules import FormRule

MORE: dict[str, FormRule] = {
    "screen-has-left": FormRule(
        "A screener begins his next line before the screen is used.", "The user would run off nobody.",
        "5 screens for 3\n5 cuts to rim\n1 dribbles to right slot\n1 passes to 2\n3 cuts off 5 to left wing after 2 catches",
        "5 screens for 3\n1 dribbles to right slot\n1 passes to 2\n3 cuts off 5 to left wing after 2 catches\n5 cuts to rim", "warning"),
    "not-on-the-way": FormRule(
        "The way round a screener is more than twice as long as the straight one.", "The screen stands on the wrong side.",
        "5 screens for 3 at right corner\n3 cuts off 5 to left wing", "5 screens for 3\n3 cuts off 5 to left wing", "warning"),
    "question-dropped": FormRule(
        "No fair question can be made of a line or a read.", "Two options that look alike would only teach guessing.", severity="info"),
    "question-gap": FormRule(
        "No question asks about a line or a read.", "The walk-through still shows it, the quiz does not.", severity="info"),
    "missing-start": FormRule("Nothing says where the five stand.", "There is no picture to begin with."),
    "defender-here": FormRule("A defender stands where a player of the offence must.", "He does not run our play."),
    "defender-needed": FormRule("A player of the offence stands where a defender must.", "A coverage is played by a defender."),
    "defender-verb": FormRule("A defender does what only the offence does.", "His lines say how he covers."),
    "everyone-here": FormRule("Everyone is named where one player must be.", "One job has one player."),
    "no-such-defender": FormRule("A defender that is not on the floor.", "They are X1 to X5, and each guards his own number."),
    "place-needed": FormRule("A verb lacks its place.", "Nobody knows where he goes."),
    "player-not-there": FormRule("A player who does not stand on the floor.", "He has no place to begin from."),
    "receiver-missing": FormRule("A pass goes to nobody.", "The ball needs two hands."),
    "roles-not-one-to-one": FormRule("Two players would take one role of a lead-in.", "One job would be done twice, another by nobody."),
    "same-as-circle": FormRule("Plays continue each other.", "None of them has a beginning."),
    "side-missing": FormRule("A spot that lies on both sides stands without one.", "Half the team would go to the other."),
    "unknown-phase": FormRule("A phase that does not exist.", "Play could not go on from there."),
}
