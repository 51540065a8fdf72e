"""A step for a man who cannot see: FIBA Art. 33.7, NCAA App. III, NFHS 4-40; step from memory."""

from generator.checks import screen_distance


def test_manual(manual):
    manual(screen_distance)


def test_the_message_names_the_book_of_the_rule_set(said):
    bad = """
play: Bad
start: {1: left slot with the ball, 2: right slot, 3: left corner, 4: right wing, 5: right block}
phases:
  - {name: Back, do: [1 passes to 2, 4 back screens for 1 at 4 ft below left slot, 1 cuts off 4 to rim, 2 lobs to 1, 1 finishes]}
"""
    for rule_set, book in (("international", "FIBA"), ("professional", "NBA"), ("college", "NCAA"), ("high school", "NFHS")):
        found = [d for d in said(bad, f"team: Fernhill\nrule set: {rule_set}\n") if d.rule == "screen-distance"]
        assert found and book in found[0].message
