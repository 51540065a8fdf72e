"""The sprint model against published tables and against scipy's Lambert W.

Sources: `shorts` R package 3.3.0 README (fit, printed prediction, kinematics); the exact table is its formula; combine
table 2000-2026, 1611 players; game speed zones: Rojas-Valverde et al. 2022, MHSalud 19(2).
"""

from __future__ import annotations

from itertools import pairwise
from math import exp

import pytest
from scipy.special import lambertw

from generator.timeline.parameters import PACES, _pace
from generator.timeline.time_map import Leg, Segment, TimeMap, _reach, run_legs

FAR = 200.0


def sprint(strive, tau):
    """Pure acceleration: a run that never has to brake within the distances asked for."""
    return TimeMap([Segment("exp", 30.0, 0.0, strive)], tau, FAR)


@pytest.mark.parametrize(("x", "printed"), [(5, 1.21), (10, 1.90), (15, 2.52), (20, 3.12), (30, 4.30), (40, 5.47)])
def test_printed_prediction(x, printed):
    """V 8.591, tau 0.8113: the package prints two decimals."""
    assert sprint(8.591, 0.8113).time_at(x) == pytest.approx(printed, abs=0.0055)


@pytest.mark.parametrize(
    ("t", "d", "v"), [(0.01, 0.001, 0.105), (0.02, 0.002, 0.209), (0.03, 0.005, 0.312), (0.04, 0.008, 0.413), (0.05, 0.013, 0.513)],
)
def test_printed_kinematics(t, d, v):
    place, speed = sprint(8.591, 0.811).at(t)
    assert place == pytest.approx(d, abs=0.0006)
    assert speed == pytest.approx(v, abs=0.001)  # the sheet cuts the third decimal off


TABLE = {
    (8.0, 1.0): ((0.8522, 2.9430, 5.7850, 9.0827, 16.3983, 24.1465), (3.1478, 5.0570, 6.2150, 6.9173, 7.6017, 7.8535),
                 (0.5454, 0.8012, 1.3712, 2.1313, 2.8151, 3.4688, 3.8359, 4.5709)),
    (7.5, 0.8): ((0.9616, 3.2190, 6.1701, 9.4925, 16.6411, 24.0404), (3.4855, 5.3512, 6.3498, 6.8844, 7.3236, 7.4495),
                 (0.5109, 0.7555, 1.3114, 2.0734, 2.7751, 3.4560, 3.8414, 4.6175)),
    (6.0, 0.8): ((0.7693, 2.5752, 4.9361, 7.5940, 13.3129, 19.2323), (2.7884, 4.2810, 5.0799, 5.5075, 5.8589, 5.9596),
                 (0.5785, 0.8604, 1.5126, 2.4282, 3.2869, 4.1287, 4.6075, 5.5742)),
}


@pytest.mark.parametrize(("strive", "tau"), TABLE)
def test_exact_table(strive, tau):
    places, speeds, times = TABLE[strive, tau]
    made = sprint(strive, tau)
    for t, d, v in zip((0.5, 1, 1.5, 2, 3, 4), places, speeds):
        assert made.at(t) == pytest.approx((d, v), abs=6e-5)
    for x, t in zip((1, 2, 5, 10, 15, 20, 22.86, 28.65), times):
        assert made.time_at(x) == pytest.approx(t, abs=6e-5)


@pytest.mark.parametrize("x", [0.05, 0.4, 1.0, 3.3, 7.0, 12.0, 28.65])
@pytest.mark.parametrize(("strive", "tau"), [(8.591, 0.8113), (5.4, 0.95), (3.0, 1.2)])
def test_inverse_is_lambert_w(x, strive, tau):
    """t(x) = tau W0(-e^(-x/(V tau) - 1)) + x/V + tau."""
    exact = tau * lambertw(-exp(-x / (strive * tau) - 1)).real + x / strive + tau
    assert _reach(x, strive, 0.0, tau) == pytest.approx(exact, abs=1e-8)


def test_first_acceleration_and_ninety_five_percent():
    made = sprint(8.591, 0.811)
    assert made.at(1e-6)[1] / 1e-6 == pytest.approx(10.589, abs=0.01)  # MAC of the package: 10.589
    t95 = 3.00 * 0.811
    assert made.at(t95)[1] / 8.591 == pytest.approx(0.95, abs=0.001)
    assert made.at(t95)[0] == pytest.approx(14.3, abs=0.05)


@pytest.mark.parametrize(("offset", "needed"), [(0.0, 9.20), (0.3, 8.22), (0.5, 7.67)])
def test_combine_sprint_needs_a_start_offset(offset, needed):
    """75 ft in 3.272 s (mean of 1611) with tau 0.8: the top speed that fits, by how late the gates start."""
    low, high = 5.0, 12.0
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (low, middle) if sprint(middle, 0.8).time_at(22.86) - offset < 3.272 else (middle, high)
    assert low == pytest.approx(needed, abs=0.01)


def test_college_and_professional_top_speeds_lie_in_the_offset_band():
    for name in ("college", "professional"):
        assert 7.67 <= _pace(name, False, False, 1.0).top_speed <= 9.20


def test_a_hard_cut_is_a_run_in_the_zones_of_games():
    """Peak of a 4.5-8 m high-school cut: 3.83-4.89 m/s is `run`, 2.78-3.83 `jog` (game zones)."""
    pace = _pace("high school", False, False, 1.0)
    strive = pace.speed(0.75, False)
    for length in (4.5, 6.0, 8.0):
        made = run_legs([Leg(length, strive, strive)], pace.tau, pace.braking)
        peak = max(made.at(made.total * i / 200)[1] for i in range(201))
        assert 3.8 <= peak <= 4.89


def test_levels_grow_and_women_are_slower():
    paces = [_pace(name, False, False, 1.0) for name in PACES]
    for slow, fast in pairwise(paces):
        assert slow.top_speed < fast.top_speed and slow.tau > fast.tau and slow.catch > fast.catch
    assert _pace("college", True, False, 1.0).top_speed == pytest.approx(7.9 * 0.88)
