"""Calls that sound alike from the far sideline."""

import pytest

from generator.checks import sound_alike


def test_manual(manual):
    manual(sound_alike)


@pytest.mark.parametrize("first, second", [("Tiger", "Digger"), ("Tango", "Tango"), ("Fist", "Vist"), ("Lantern", "Lontirn"), ("Lantern up", "Lantern ob")])
def test_alike(first, second):
    assert sound_alike.alike(first, second) and sound_alike.alike(second, first)


@pytest.mark.parametrize("first, second", [("Lantern", "Orchard"), ("Lantern", "Lantern over"), ("Ferry", "Loom"), ("Pier", "Jetty")])
def test_apart(first, second):
    assert not sound_alike.alike(first, second) and not sound_alike.alike(second, first)


@pytest.mark.parametrize("first, second, told", [("Garden", "Warden", True), ("Barge", "Badge", False), ("Corner", "Corder", True)])
def test_one_sound_apart_is_told_of_long_calls_only(first, second, told):
    """Six sounds and more are long: Garden and Warden have six, Barge and Badge five."""
    assert sound_alike.alike(first, second) is told
