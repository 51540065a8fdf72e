"""What settling refuses or remarks, rule by rule: what, why, an example of each, for the manual.

`bad` and `good` are lines of one phase on the start `STANDING`; with `phases:` in them they are the rest of a play
file. Tests run them: the bad one must be reported, the good one must not.
"""

from __future__ import annotations

from dataclasses import dataclass

STANDING = "{1: top with the ball, 2: right wing, 3: left corner, 4: right elbow, 5: left block}"


@dataclass(frozen=True, slots=True)
class SettlingRule:
    """One rule; `severity` is error, warning or info."""

    what: str
    why: str
    bad: str
    good: str
    severity: str = "error"


def _from_out_of_bounds(*lines: str) -> str:
    do = "\n".join(f"      - {line}" for line in lines)
    return f"start: {STANDING.replace('1: top', '1: right baseline out of bounds')}\nphases:\n  - name: In\n    do:\n{do}\n"


def _with_read(lines: str, read: str, before: str = "") -> str:
    return f"{before}start: {STANDING}\nphases:\n  - name: Only\n    do: [{lines}]\n    reads:\n      - {read}\n"


def _repeat(lines: str, repeat: str = "repeat: from Only") -> str:
    return f"start: {STANDING}\nphases:\n  - {{name: Only, do: [{lines}]}}\n  - {{{repeat}}}\n"


def _choices(count: int) -> str:
    phases = "".join(
        f"  - {{name: P{i}, do: [1 holds], reads: [{{who: 1, watch: own choice, answers: {{a{i}: go on, b{i}: [1 holds]}}}}]}}\n"
        for i in range(count))
    return f"start: {STANDING}\nphases:\n{phases}"


_SCREEN = "5 screens for 3 at left block, 3 cuts off 5 to left wing"
_TRAIL = "{trail: [3 curls to rim, 1 passes to 3, 3 finishes], otherwise: go on}"

RULES: dict[str, SettlingRule] = {
    # -- the ball ---------------------------------------------------------------------------------------
    "no-ball": SettlingRule(
        "A player passes, dribbles, drives, looks, hands off or shoots who does not have the ball by the lines above.",
        "There is one ball. The message says who has it and since which line.",
        "1 passes to 2\n3 passes to 4", "1 passes to 2\n2 passes to 4"),
    "moves-with-ball": SettlingRule(
        "The ball handler cuts, clears, screens or does anything else that is done without the ball.",
        "With the ball he dribbles or drives, so the time and the picture would be wrong.",
        "1 cuts to rim", "1 drives"),
    "pass-to-himself": SettlingRule(
        "Passer and receiver are the same player.", "Usually a wrong number.", "1 passes to 1", "1 passes to 2"),
    "not-placed": SettlingRule(
        "A place is told by a player who has none: two of a start lean on each other, or he is not in the play.",
        "A stack may be written man behind man, but one of them needs a spot.",
        "start: {1: top with the ball, 2: behind 3, 3: behind 2, 4: left block, 5: nail}\nphases: [{name: A, do: [1 passes to 4]}]\n",
        "start: {1: top with the ball, 2: left elbow, 3: behind 2, 4: behind 3, 5: nail}\nphases: [{name: A, do: [1 passes to 4]}]\n"),
    "whose-screen": SettlingRule(
        "`off the screen` where nobody screens for him by the lines above, or where two do apart.",
        "Whose screen it is must be plain. A double or a stagger is one screen.",
        "3 cuts off the pick to left wing", f"{_SCREEN.split(',', maxsplit=1)[0]}\n3 cuts off the pick to left wing"),
    "not-under-way": SettlingRule(
        "A pass says how the receiver comes (`on the roll`, `coming off 5`), and no line above moves him so.",
        "The words would claim what nobody does.",
        "1 passes to 5 on the roll", "5 cuts to rim\n1 passes to 5 on the cut"),
    "not-inside": SettlingRule(
        "A pass says that the receiver is in the post, and he stands elsewhere.", "The words would claim what is not so.",
        "1 feeds 2 in the post", "1 feeds 5 in the post"),
    "not-there-yet": SettlingRule(
        "A look says where the player looked for is, and by the lines above he is elsewhere.", "The words would claim what is not so.",
        "1 looks for 2 at the left block", "1 looks for 5 at the left block"),
    "shot-elsewhere": SettlingRule(
        "A shot names a place where the shooter is not.",
        "He shoots from where he is; only `pulls up` dribbles to the place, and `finishes at the rim` drives.",
        "1 shoots at left wing", "1 pulls up at left elbow"),
    "ball-not-loose": SettlingRule(
        "A rebound or a tip while somebody holds the ball.", "Only a ball in the air can be rebounded or tipped.",
        "5 rebounds", "1 shoots\n5 rebounds"),
    "ball-nowhere": SettlingRule(
        "A line leans on the place of the ball while it is in the air.", "The ball has no place then.",
        "1 shoots\n4 trails", "4 trails\n1 shoots"),
    "look-too-far": SettlingRule(
        "A look at somebody who is over 12 m away by then.", "Nobody throws that on a look; a long throw is written out.",
        "2 runs to backcourt left corner\n1 looks for 2", "2 runs to left wing\n1 looks for 2"),
    "steps-in-with-ball": SettlingRule(
        "The inbounder steps in with the ball in his hands.", "That is a violation: he passes it in first.",
        _from_out_of_bounds("1 steps in"), _from_out_of_bounds("1 passes to 2", "1 steps in")),
    "out-of-bounds-dribble": SettlingRule(
        "An inbounder dribbles, drives or shoots.", "From out of bounds he may only pass.",
        _from_out_of_bounds("1 dribbles to right corner"), _from_out_of_bounds("1 passes to 2")),
    "not-out": SettlingRule(
        "A player who stands on the floor inbounds or steps in.", "Only the one who starts out of bounds does.",
        "1 inbounds to 2", "1 passes to 2"),
    # -- who --------------------------------------------------------------------------------------------
    "role-empty": SettlingRule(
        "A role that nobody fills here: a passer before the first pass, a player at a spot where nobody stands.",
        "Roles are settled by the lines above.", "passer cuts to rim", "1 passes to 2\npasser cuts to rim"),
    "role-unbound": SettlingRule(
        "`he` or `his defender` where no rule or read says who he is.", "It could mean anybody.",
        "he cuts to rim", "3 cuts to rim"),
    "nearest-tie": SettlingRule(
        "Two players are equally near to the place of `nearest to`: the lower number is taken.",
        "The coach may mean the other one.", "start: {1: top with the ball, 2: right wing, 3: left wing, 4: right block, 5: left block}\n"
        "phases:\n  - {name: Only, do: [1 passes to nearest to top]}\n",
        "1 passes to nearest to right wing", "info"),
    "screen-for-himself": SettlingRule(
        "A player screens for himself.", "Usually a wrong number.", "5 screens for 5", "5 screens for 3"),
    "screen-for-nobody": SettlingRule(
        "A screen or ghost that frees nobody.", "Without a user there is no screen to time.",
        f"situation: jump ball\nstart: {STANDING.replace(' with the ball', '')}\nphases:\n  - {{name: Up, do: [3 ghosts]}}\n",
        "3 ghosts for 1"),
    "no-screen-before": SettlingRule(
        "A player flips or re-screens who has set no screen.", "Both repeat his last screen.",
        "5 re-screens for 1", "5 ball screens for 1\n1 dribbles off 5 to right slot\n5 re-screens for 1"),
    "off-himself": SettlingRule(
        "A player goes off himself.", "Usually a wrong number.", "3 cuts off 3 to top", "5 screens for 3\n3 cuts off 5 to top"),
    "off-a-mover": SettlingRule(
        "A player goes off somebody who moves at that time and sets no screen.",
        "Nobody can be rubbed past who is not there yet.", "4 cuts to left wing\n3 cuts off 4 to deep top",
        "4 cuts to left wing\n3 cuts off 4 to deep top after 4 arrives"),
    "not-there": SettlingRule(
        "`from` names a place where the player is not.", "Then his way would begin in the air.",
        "3 cuts from right wing to rim", "3 cuts from left corner to rim"),
    # -- defenders --------------------------------------------------------------------------------------
    "x-after-switch": SettlingRule(
        "X5 after a switch, where X5 no longer guards 5 and the line is not about that body.",
        "It could mean either: X5 is the one who began on 5.",
        "5 ball screens for 1\nX1 and X5 switch\nX2 denies X5", "5 ball screens for 1\nX1 and X5 switch\nX2 denies 5"),
    "no-such-area": SettlingRule(
        "An area of a zone that this defence does not have.", "Areas follow from `against`.",
        "1 dribbles at the top right defender", "1 dribbles at 2's defender"),
    "switch-with-whom": SettlingRule(
        "One defender switches, and nothing says with whom.", "A switch has two.", "X3 switches", "X3 and X2 switch"),
    "idle-reader": SettlingRule(
        "The reader neither does nor gets anything in the phase, nor in his answers.", "Then the read is somebody else's.",
        _with_read("1 passes to 2", "{who: 4, watch: X4, answers: {deny: [1 passes to 3], otherwise: go on}}"),
        _with_read("1 passes to 2", "{who: 2, watch: X4, answers: {deny: [2 passes to 3], otherwise: go on}}")),
    "read-without-screen": SettlingRule(
        "A read watches a screen that nobody sets in this phase.", "Its read point is the use of that screen.",
        _with_read("3 cuts to left wing", f"{{who: 3, watch: X3 on 5's screen, answers: {_TRAIL}}}"),
        _with_read(_SCREEN, f"{{who: 3, watch: X3 on 5's screen, answers: {_TRAIL}}}")),
    # -- where ------------------------------------------------------------------------------------------
    "ball-in-the-middle": SettlingRule(
        "Ball side or weak side while the ball has never left the middle.", "Neither half is the ball's yet.",
        "3 cuts to ball-side corner", "1 dribbles to left slot\n4 cuts to ball-side elbow"),
    "side-in-the-middle": SettlingRule(
        "Same side, opposite, inside, outside or beside from the middle of the floor.", "The middle has no side.",
        "1 passes to 2\n1 cuts to same-side corner", "1 passes to 2\n1 cuts to left wing"),
    "nothing-open": SettlingRule(
        "An open spot where both sides are taken, or a half of the floor that is full.", "Nobody is moved aside in silence.",
        "4 cuts to right corner\n2 clears to open corner", "2 clears to open corner"),
    "two-to-one-spot": SettlingRule(
        "Two lines of a phase send two players to one spot, and the first does not leave it.", "One of them is wrong.",
        "3 cuts to right corner\n4 cuts to right corner", "3 cuts to right corner\n4 cuts to left corner"),
    "spot-held": SettlingRule(
        "A player is sent to a spot where another stands all through the phase.", "The two would stand in each other.",
        "3 cuts to right wing", "2 clears to right corner\n3 cuts to right wing", "warning"),
    "situation-disagrees": SettlingRule(
        "The stated situation is not what the start shows.", "One of the two is wrong.",
        f"situation: baseline out of bounds\nstart: {STANDING}\nphases:\n  - {{name: In, do: [1 passes to 2]}}\n",
        f"situation: baseline out of bounds\nstart: {STANDING.replace('1: top', '1: right baseline out of bounds')}\n"
        "phases:\n  - {name: In, do: [1 passes to 2]}\n"),
    # -- when -------------------------------------------------------------------------------------------
    "unknown-event": SettlingRule(
        "A line waits for something that no line does.", "It would never start.",
        "3 cuts to rim as 2 catches", "1 passes to 2\n3 cuts to rim as 2 catches"),
    "two-events": SettlingRule(
        "The event does not stand above, and two lines below could be meant.", "Above counts first; below only if it is one.",
        "3 cuts to rim as 2 catches\n1 passes to 2\n2 passes to 1\n1 passes to 2",
        "1 passes to 2\n3 cuts to rim as 2 catches\n2 passes to 1"),
    "timing-circle": SettlingRule(
        "Lines that wait for each other.", "None of them could begin. The shortest circle is named.",
        "2 cuts to left wing as 3 arrives\n3 cuts to right wing as 2 arrives",
        "2 cuts to left wing\n3 cuts to right wing as 2 arrives"),
    "no-clock": SettlingRule(
        "Seconds on the clock in a play that names no clock.", "Nobody knows what the clock shows at the start.",
        "1 holds until 5 s on the clock",
        f"clock: 8 s\nstart: {STANDING}\nphases:\n  - {{name: Wait, do: [1 holds until 5 s on the clock]}}\n"),
    # -- what follows -----------------------------------------------------------------------------------
    "lead-in-fit": SettlingRule(
        "A lead-in leaves somebody more than 1.5 m from where the next part wants him, or the ball elsewhere.",
        "The play would begin with a jump.",
        "lead-in: Drift\n" + f"start: {STANDING}\nphases:\n  - {{name: Only, do: [2 cuts to right corner]}}\n",
        "lead-in: Drift\n" + f"start: {STANDING}\nphases:\n  - {{name: Only, do: [1 passes to 2, 2 passes to 1]}}\n"),
    "repeat-unfit": SettlingRule(
        "At a repeat nobody stands within 1.5 m of a spot that the repeated lines begin from.", "The round cannot begin.",
        _repeat("1 passes to 2, 3 cuts to left wing, 2 passes to 1"), _repeat("1 passes to 2, 2 passes to 1")),
    "repeat-ball": SettlingRule(
        "At a repeat the ball is not with the player who does the first one's lines.", "His first line would be without the ball.",
        _repeat("1 passes to 2"), _repeat("1 passes to 2, 2 passes to 1")),
    "go-on-assumed": SettlingRule(
        "An answer ends without a shot, and phases follow: play goes on with them.", "The coach may have meant the end.",
        _with_read(_SCREEN, "{who: 3, watch: X3 on 5's screen, answers: {trail: [3 curls to rim], otherwise: go on}}")
        + "  - {name: Next, do: [1 passes to 2, 2 shoots]}\n",
        _with_read(_SCREEN, f"{{who: 3, watch: X3 on 5's screen, answers: {_TRAIL}}}")
        + "  - {name: Next, do: [1 passes to 2, 2 shoots]}\n", "info"),
    "go-to-unfit": SettlingRule(
        "An answer goes to another play whose start is more than 1.5 m away for somebody.", "They must walk there first.",
        _with_read(_SCREEN, "{who: 3, watch: X3, answers: {trail: {do: [3 curls to rim], go to: Other}, otherwise: go on}}"),
        _with_read("1 passes to 2, 2 passes to 1", "{who: 1, watch: X1, answers: {sag: {do: [1 holds], go to: Other}, otherwise: go on}}"),
        "warning"),
    "too-many-branches": SettlingRule(
        "More than 200 ways through the forks.", "Nobody can learn them, and computing them takes long.", _choices(8), _choices(4)),
    "not-yet": SettlingRule(
        "A word that the language knows and the tool cannot place yet.", "It is named and never passed over in silence.", "", ""),
}
