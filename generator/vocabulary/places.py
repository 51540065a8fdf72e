"""Spots, sides and directions. Formulas are computed in `model/spots.py`; here they are shown in words.

Letters: B rim from the end line, R arc radius, P = R + 0.3, C corner line from the axis, W half width, L length,
K half lane, F free-throw line, M middle of the block mark, H throw-in or hash line, Q centre-circle radius.
"""

from generator.vocabulary.entries import Spot, Word

SPOTS = (
    Spot("top", ("top", "point", "top of the key", "top of the arc", "up top"), "no", "ray(90, P)", "behind the arc in the middle", "2 cuts to top"),
    Spot("slot", ("slot", "guard spot"), "yes", "ray(70, P)", "behind the arc beside the top", "2 cuts to left slot"),
    Spot("wing", ("wing",), "yes", "ray(45, P)", "behind the arc at 45 degrees", "3 cuts to wing right"),
    Spot("free-throw line extended", ("free-throw line extended",), "yes", "on P, y = F", "behind the arc, level with the free-throw line",
         "3 cuts to left free-throw line extended"),
    Spot("corner", ("corner",), "yes", "(C + min(0.35, (W-C)/2), 1.2)", "behind the corner line", "3 clears to left corner"),
    Spot("deep corner", ("deep corner",), "yes", "(x of the corner, 0.7)", "nearer to the end line", "3 clears to left deep corner"),
    Spot("deep top", ("deep top",), "no", "ray(90, P + 1.2)", "well behind the arc", "1 cuts to deep top"),
    Spot("deep slot", ("deep slot",), "yes", "ray(70, P + 1.2)", "well behind the arc", "1 cuts to deep left slot"),
    Spot("deep wing", ("deep wing",), "yes", "ray(45, P + 1.2)", "well behind the arc", "1 cuts to deep right wing"),
    Spot("inside wing", ("inside wing",), "yes", "ray(45, R - 1.0)", "a metre inside the arc", "4 cuts to inside right wing"),
    Spot("inside slot", ("inside slot",), "yes", "ray(70, R - 1.0)", "a metre inside the arc", "4 cuts to inside right slot"),
    Spot("elbow", ("elbow", "pinch post"), "yes", "(K, F)", "corner of the lane at the free-throw line", "4 flashes to left elbow"),
    Spot("nail", ("nail", "high post", "middle of the free-throw line"), "no", "(0, F)", "middle of the free-throw line", "4 cuts to nail"),
    Spot("free-throw line", ("free-throw line", "foul line"), "no", "(0, F + 0.15)", "behind the line, to shoot free throws", "1 cuts to free-throw line"),
    Spot("middle of the lane", ("middle of the lane", "dots", "middle of the key", "middle of the paint", "lane", "paint", "key"), "no", "(0, (B+F)/2)", "between rim and free-throw line",
         "5 slips to middle of the lane"),
    Spot("block", ("block", "low post"), "yes", "(K + 0.3, M)", "beside the lane at the block mark", "5 cuts to right block"),
    Spot("mid-post", ("mid-post",), "yes", "(K + 0.3, (M+F)/2)", "beside the lane, between block and elbow", "5 posts up at right mid-post"),
    Spot("low block", ("low block",), "yes", "(K + 0.3, M - 0.9)", "below the block mark", "5 cuts to low block right"),
    Spot("lane edge", ("lane edge",), "yes", "(K, on his own line to the rim)", "where he enters the lane", "1 drives to right lane edge"),
    Spot("dunker spot", ("dunker spot",), "yes", "(K + 0.6, B)", "beside the lane, level with the rim", "5 clears to left dunker spot"),
    Spot("short corner", ("short corner",), "yes", "(K + 0.45 (C-K), 1.0)", "between lane and corner", "5 cuts to right short corner"),
    Spot("rim", ("rim", "basket", "hoop"), "no", "0.6 m from the rim's centre on his line", "at the basket", "2 cuts to rim"),
    Spot("front of the rim", ("front of the rim", "front of the basket"), "no", "(0, B + 1.4)", "in front of the basket",
         "3 curls to front of the rim"),
    Spot("under the basket", ("under the basket", "under the rim"), "no", "(0, 0.7)", "behind the basket, on the end line side",
         "2 cuts to under the basket"),
    Spot("baseline", ("baseline", "end line"), "no", "(his x, 0.6)", "straight to the end line", "1 dribbles to baseline"),
    Spot("sideline", ("sideline",), "may", "(W - 0.6, his y)", "straight to the sideline", "1 dribbles to right sideline"),
    Spot("hash", ("hash", "hash mark"), "yes", "(W - 0.9, H)", "at the throw-in or 28-foot line", "1 dribbles to left hash"),
    Spot("half court", ("half court", "middle half court", "half court middle"), "may", "(0, L/2 - 1) or (0.6 W, L/2 - 1)",
         "a metre before the half-way line, in the middle or on a side", "2 breaks to half court"),
    Spot("center circle", ("center circle", "centre circle"), "no", "(0, L/2)", "middle of the court", "5 cuts to center circle"),
    Spot("circle", ("circle at # o'clock", "# o'clock"), "no", "center + (Q + 0.35) (sin, -cos) of 30 N degrees",
         "round the centre circle: 12 toward our basket, 3 to our right", "2 cuts to circle at 10 o'clock"),
    Spot("lane space", ("lane space #",), "yes", "(K + 0.3, middle of space N from the end line)", "where players stand at a free throw",
         "4 cuts to left lane space 2"),
    Spot("baseline out of bounds", ("baseline out of bounds", "end line out of bounds"), "yes", "(K + 0.9, -0.6)",
         "where the ball comes in from the end line", "3 cuts to right baseline out of bounds"),
    Spot("sideline out of bounds", ("sideline out of bounds",), "yes", "(W + 0.6, H)", "where the ball comes in from the side",
         "3 cuts to right sideline out of bounds"),
    Spot("backcourt baseline out of bounds", ("backcourt baseline out of bounds", "backcourt end line out of bounds"), "yes",
         "(K + 0.9, L + 0.6)", "under the other basket, against a press", "3 cuts to right backcourt baseline out of bounds"),
)

SIDES = (
    Word("left", ("left", "left-side", "on left", "on left side"), "the offence's left, facing the basket it attacks", "2 cuts to left wing"),
    Word("right", ("right", "right-side", "on right", "on right side"), "the offence's right, facing the basket it attacks", "2 cuts to right wing"),
    Word("ball-side", ("ball-side", "strong-side"), "the half where the ball is after the last ball line above", "2 cuts to ball-side corner"),
    Word("weak-side", ("weak-side",), "the other half", "2 cuts to weak-side corner"),
    Word("same-side", ("same-side",), "the half of the player's own last place", "2 cuts to same-side corner"),
    Word("opposite", ("opposite", "other"), "the other half; with a player, the half where that player is not", "2 cuts to wing opposite 3"),
    Word("short-side", ("short-side",), "the inbounder's half", "2 cuts to short-side corner"),
    Word("long-side", ("long-side",), "the half where the inbounder is not", "2 cuts to long-side corner"),
    Word("open", ("open",), "the one where nobody stands or is sent by this `do`", "2 clears to open corner"),
)

HALVES = (
    Word("left", ("left side", "left side of the floor", "left side of the court"), "the nearest free spot of the left half among slot, wing, corner, dunker spot", "2 clears to left side"),
    Word("right", ("right side", "right side of the floor", "right side of the court"), "the nearest free spot of the right half", "2 clears to right side"),
    Word("weak-side", ("weak side",), "the nearest free spot of the half without the ball", "2 clears to weak side"),
    Word("ball-side", ("ball side", "strong side"), "the nearest free spot of the half with the ball", "2 clears to ball side"),
)

DIRECTIONS = (
    Word("above", ("above",), "away from the end line", "4 cuts to a step above right elbow"),
    Word("below", ("below",), "toward the end line", "4 cuts to 2 ft below right elbow"),
    Word("inside", ("inside",), "toward the lane's axis", "4 cuts to 1 m inside right wing"),
    Word("outside", ("outside",), "away from the lane's axis", "4 cuts to a step outside right block"),
    Word("behind", ("behind",), "outward on the line from the rim", "4 cuts to 2 steps behind right elbow"),
    Word("in-front-of", ("in front of",), "inward on the line from the rim", "4 cuts to a step in front of 5"),
    Word("beside", ("beside", "next to"), "square to that line, on the sideline side", "2 cuts to beside 5"),
    Word("left-of", ("left of",), "to the offence's left", "2 cuts to a step left of top"),
    Word("right-of", ("right of",), "to the offence's right", "2 cuts to a step right of top"),
)

MEASURES = (
    Word("ft", ("ft", "foot", "feet"), "feet", "2 cuts to 3 ft outside right block"),
    Word("m", ("m", "metre", "metres", "meter", "meters"), "metres", "2 cuts to 1 m outside right block"),
    Word("steps", ("steps", "step"), "0.8 m each", "2 cuts to 2 steps outside right block"),
)

OTHER_PLACES = (
    Word("where was", ("where 3 was",), "his place at the phase's opening", "2 cuts to where 3 was"),
    Word("where is", ("where 3 is",), "where his last line above leaves him", "2 cuts to where 3 is"),
    Word("the ball", ("the ball",), "where the ball is after the lines above", "5 cuts to the ball"),
    Word("behind the ball", ("behind the ball",), "3 m from the ball toward our own end line", "4 goes behind the ball"),
    Word("between", ("between",), "middle of two places", "4 cuts to between top and left wing"),
    Word("xy", ("3 m left 4 m up",), "a last resort: from the middle of the end line", "4 cuts to 3 m left 4 m up"),
)
