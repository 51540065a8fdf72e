"""`allow` with a reason silences a rule where it stands, and nowhere else; without a reason it is an error."""

PLAY = """
play: Late
PLAY_ALLOW
start: {1: top with the ball, 2: right wing, 3: left corner, 4: left wing, 5: right block}
phases:
  - name: One
    PHASE_ALLOW
    do: [1 passes to 2, 2 passes to 1, 2 cuts to top]
  - name: Two
    do: [1 passes to 3, 3 shoots]
"""


def text(play="", phase=""):
    return PLAY.replace("PLAY_ALLOW\n", f"{play}\n" if play else "").replace("    PHASE_ALLOW\n", f"    {phase}\n" if phase else "")


def test_a_remark_of_an_earlier_stage_is_silenced_too(rules):
    """`spot-held` comes from settling, not from a check."""
    assert "spot-held" in rules(text())
    assert "spot-held" not in rules(text(play="allow: {spot-held: they talk}"))
    assert "spot-held" not in rules(text(phase="allow: {spot-held: they talk}"))
    assert "spot-held" in rules(text(phase="allow: {spacing: they talk}"))


def test_an_error_is_not_silenced(rules):
    wrong = text(play="allow: {no-ball: we pretend}").replace("1 passes to 3", "4 passes to 3")
    assert "no-ball" in rules(wrong)


def test_without_a_reason_it_is_an_error(said):
    (found,) = [d for d in said(text(play="allow: {spot-held: }")) if d.severity.value == "error"]
    assert (found.rule, found.location.line) == ("allow", 2)


TWICE = """
play: Twice
start: {1: top with the ball, 2: right wing, 3: left corner, 4: right slot, 5: left block}
phases:
  - name: A
    do: [3 cuts to right wing, 1 passes to 2]
  - name: B
    do: [5 cuts to right slot, 2 shoots]
"""


def lines(found) -> list[int]:
    return [d.location.line for d in found if d.rule == "spot-held"]


def test_each_phase_speaks_for_itself(said):
    allow = "    allow: {spot-held: they trade places later}\n"
    assert lines(said(TWICE)) == [5, 7]
    assert lines(said(TWICE.replace("  - name: B", allow + "  - name: B"))) == [8]
    assert lines(said(TWICE + allow)) == [5]


READS = """
play: Nested
start: {1: top with the ball, 2: right wing, 3: left corner, 4: left wing, 5: right block}
phases:
  - name: One
    do: [1 passes to 2]
    reads:
      - who: 2
        watch: X2
        answers:
          sag:
            do: [2 dribbles to right elbow]
            reads:
              - {who: 2, watch: X5, ALLOW answers: {help: [4 cuts to right block, 2 passes to 5, 5 shoots], otherwise: [2 shoots]}}
          otherwise: [2 shoots]
"""


def test_a_read_inside_an_answer_speaks_for_its_lines(said):
    assert lines(said(READS.replace("ALLOW ", ""))) == [13]
    silent = READS.replace("ALLOW ", "\n                 allow: {spot-held: he comes for the rebound},\n                 ")
    assert lines(said(silent)) == []


RULE = """
play: Kite
start: {1: top with the ball, 2: right wing, 3: left corner, 4: left wing, 5: right block}
rules:
  - who: anyone one pass away
    watch: his defender
    answers: {deny: [he cuts to right block], otherwise: go on}
phases:
  - {name: Pass, do: [1 passes to 2, 2 shoots]}
"""


def test_a_rule_that_is_a_read_speaks_for_what_comes_of_it(rules):
    assert {"open-answer", "spot-held"} <= rules(RULE)
    for rule in ("open-answer", "spot-held"):
        assert rule not in rules(RULE.replace("    answers", f"    allow: {{{rule}: the five know}}\n    answers"))
