"""Who, by which way, on which side, how: the small closed sets of the sentence."""

from generator.vocabulary.entries import Word

ROLES = (
    Word("ball handler", ("ball handler",), "who has the ball after the lines above", "ball handler passes to 2"),
    Word("passer", ("passer",), "who passed last", "passer cuts to rim"),
    Word("receiver", ("receiver",), "who caught last", "receiver shoots"),
    Word("cutter", ("cutter",), "who cut last", "cutter posts up"),
    Word("screener", ("screener", "picker"), "who screened last", "screener rolls"),
    Word("inbounder", ("inbounder",), "who stands out of bounds with the ball", "inbounder passes to 2"),
    Word("he", ("he", "him"), "the player of this read or rule", "he cuts to rim"),
    Word("anyone", ("anyone",), "whoever does it; in rules", "anyone cuts to rim"),
    Word("anyone one pass away", ("anyone one pass away",), "within 25 ft of the ball with no teammate nearer on that side; in rules",
         "anyone one pass away cuts to rim"),
)

OTHER_WHO = (
    Word("1", ("1",), "an offensive position, 1 to 5", "1 passes to 2"),
    Word("X1", ("X1",), "the defender who began on 1; in a zone an area", "X1 denies 1"),
    Word("1's defender", ("1's defender", "1's man"), "whoever guards 1 at that moment", "5 seals 5's defender"),
    Word("his defender", ("his defender", "his man"), "whoever guards the player of the line or read", "5 seals his defender"),
    Word("area", ("low right defender",), "the defender of that area of a zone", "5 screens the low right defender for 3"),
    Word("everyone", ("everyone", "everybody"), "all five", "everyone stays"),
    Word("everyone else", ("everyone else", "everybody else", "the others", "the rest"), "all who are not named in this `do`", "everyone else fills up"),
    Word("nearest to", ("nearest to",), "the closest free player without the ball", "ball handler passes to nearest to top"),
    Word("player at", ("player at",), "who stands there after the lines above", "1 passes to player at left wing"),
)

AREAS = (
    "nearest", "top", "top left", "top right", "left wing", "right wing", "low left", "low right", "middle", "baseline", "front", "front left",
    "front right", "deep",
)

ROUTES = (
    Word("off", ("off",), "uses that player's screen, or rubs past him", "2 cuts off 4 to rim"),
    Word("between", ("between",), "through the gap of two players", "2 cuts between 4 and 5 to top"),
    Word("over", ("over", "over the top of"), "on the ball's side of him", "2 cuts over 4 to left wing"),
    Word("under", ("under", "underneath"), "on the rim's side of him", "2 cuts under 4 to left wing"),
    Word("around", ("around", "past"), "round him", "2 cuts around 4 to left wing"),
    Word("behind", ("behind",), "past his back", "2 cuts behind 4 to left wing"),
    Word("in-front-of", ("in front of",), "past his face", "2 cuts in front of 4 to left wing"),
    Word("high", ("high", "over the top"), "the higher way", "2 cuts high to left wing"),
    Word("low", ("low",), "the lower way", "2 cuts low to left wing"),
    Word("baseline", ("baseline", "baseline side"), "past the end-line side", "1 drives baseline"),
    Word("middle", ("middle", "through the middle", "up the middle", "down the middle", "up the gut", "down the gut", "middle lane", "up the middle lane", "down the middle lane"), "through the middle", "1 drives middle"),
    Word("along-baseline", ("along the baseline", "along the end line"), "close to the end line", "3 cuts along the baseline to right corner"),
    Word("along-sideline", ("along the sideline", "up the sideline", "down the sideline", "wide"), "close to the sideline of his own half, or of the side named with the place", "1 dribbles up the sideline to right corner"),
    Word("along-left-sideline", ("along the left sideline", "up the left sideline", "down the left sideline"), "close to the left sideline", "3 cuts along the left sideline to left corner"),
    Word("along-right-sideline", ("along the right sideline", "up the right sideline", "down the right sideline"), "close to the right sideline", "3 cuts along the right sideline to right corner"),
    Word("left-lane", ("left lane", "up the left lane", "down the left lane", "up the left side", "down the left side", "wide left", "wide on the left"),
         "the outside lane of a fast break, close to the left sideline; to the left corner where no place is named", "2 runs the left lane"),
    Word("right-lane", ("right lane", "up the right lane", "down the right lane", "up the right side", "down the right side", "wide right", "wide on the right"),
         "the outside lane of a fast break, close to the right sideline; to the right corner where no place is named", "3 fills the right lane"),
    Word("through-lane", ("through the lane", "across the lane", "through the key", "across the key", "down the lane", "up the lane", "through"), "through the lane", "3 cuts through the lane to right corner"),
    Word("down-left-lane-line", ("down the left lane line",), "along the left lane line", "1 drives down the left lane line"),
    Word("down-right-lane-line", ("down the right lane line",), "along the right lane line", "1 drives down the right lane line"),
    Word("away-from", ("away from",), "with distance to him", "2 cuts away from 4 to left wing"),
)
MAY_ONE = frozenset({"over", "under", "around", "behind", "in-front-of"})  # somebody may follow

LINE_SIDES = (
    Word("left", ("on left", "on left side"), "on the offence's left", "5 ball screens for 1 on the left"),
    Word("right", ("on right", "on right side"), "on the offence's right", "5 ball screens for 1 on the right side"),
    Word("middle", ("on middle", "on middle side"), "on the side of the lane", "5 ball screens for 1 on the middle side"),
    Word("sideline", ("on sideline", "on sideline side"), "on the side of the sideline", "5 ball screens for 1 on the sideline side"),
    Word("high", ("on high", "on high side"), "on the side of half court", "2 cuts off 4 to rim on the high side"),
    Word("low", ("on low", "on low side"), "on the side of the end line", "2 cuts off 4 to rim on the low side"),
)

MANNERS = (
    Word("hard", ("hard", "quickly", "fast"), "at full effort", "2 cuts to rim hard"),
    Word("slowly", ("slowly",), "with less effort", "2 cuts to left wing slowly"),
    Word("on the run", ("on the run",), "without stopping", "2 cuts to left wing on the run"),
    Word("in place", ("in place",), "without leaving his place", "1 holds in place"),
    Word("long", ("long", "deep"), "a long way", "1 passes to 2 long"),
    Word("short", ("short",), "a short way", "5 rolls short"),
    Word("tight", ("tight", "tightly"), "close to the screener", "3 curls tight off 5"),
    Word("facing", ("facing",), "turned toward a place", "4 screens for 2 at left elbow facing sideline"),
)
