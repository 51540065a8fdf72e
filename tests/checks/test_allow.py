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
    assert any(d.severity.value == "error" for d in said(text(play="allow: {spot-held: }")))
