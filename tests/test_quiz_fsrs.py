"""Spaced practice: our JavaScript FSRS-6 against published histories and the `fsrs` package without fuzz.

Sources: the package `fsrs` 6.3 (PyPI), which these tests run; history A and the first ratings stand in its own test suite too.
"""

from __future__ import annotations

import random
from datetime import UTC, datetime, timedelta

import pytest
from fsrs import Card, Rating, Scheduler

from tests.quiz_page import js_page

pytestmark = pytest.mark.browser
START = datetime(2022, 11, 29, 12, 30, tzinfo=UTC)
RUN = """async ([ratings, start, noSteps, gaps]) => {
  const f = await import('/js/fsrs.js');
  const settings = noSteps ? {...f.PUBLISHED, learning: [], relearning: []} : f.PUBLISHED;
  let card = f.newCard(start), now = start; const out = [];
  ratings.forEach((rating, i) => {
    now = gaps ? now + gaps[i] : card.due;
    const known = f.recall(card, now, settings);
    card = f.review(card, rating, now, settings);
    out.push({...card, known, days: Math.floor((card.due - card.last) / 86400000)});
  });
  return out;
}"""


@pytest.fixture(scope="module")
def page(chromium):
    with js_page(chromium) as page:
        yield page


def run(page, ratings, *, no_steps=False, gaps=None):
    return page.evaluate(RUN, [ratings, START.timestamp() * 1000, no_steps, gaps])


def due(cards):
    return [datetime.fromtimestamp(c["due"] / 1000, UTC) for c in cards]


def test_history_a(page):
    """Good x6, Again x2, Good x5; stabilities, difficulties and dates as the reference package gives them."""
    cards = run(page, [3] * 6 + [1] * 2 + [3] * 5)
    assert [c["days"] for c in cards] == [0, 2, 11, 46, 163, 498, 0, 0, 2, 4, 7, 12, 21]
    stability = [2.3065, 2.3065, 10.971048, 46.316858, 162.999816, 497.876555, 6.890413, 2.154598, 2.154598,
                 3.983123, 7.236254, 12.483044, 20.770357]
    difficulty = [2.118104, 2.111214, 2.104331, 2.097455, 2.090586, 2.083724, 7.383202, 9.125105, 9.111208,
                  9.097325, 9.083456, 9.069601, 9.055760]
    assert [c["stability"] for c in cards] == pytest.approx(stability, abs=1e-6)
    assert [c["difficulty"] for c in cards] == pytest.approx(difficulty, abs=1e-6)
    assert due(cards)[-1] == datetime(2025, 1, 3, 13, 0, tzinfo=UTC)
    assert [c["stage"] for c in cards[5:9]] == ["review", "relearning", "relearning", "review"]


def test_history_b(page):
    """Good Good Hard Good Easy Again Good."""
    cards = run(page, [3, 3, 2, 3, 4, 1, 3])
    assert [c["days"] for c in cards] == [0, 2, 8, 26, 122, 0, 4]
    assert due(cards)[-1] == datetime(2023, 5, 10, 12, 50, tzinfo=UTC)
    assert cards[-1]["stability"] == pytest.approx(4.162734, abs=1e-6)
    assert cards[-1]["difficulty"] == pytest.approx(7.660734, abs=1e-6)


def test_history_c_without_steps(page):
    """Good Good Hard Again Good Easy, no learning or relearning steps."""
    cards = run(page, [3, 3, 2, 1, 3, 4], no_steps=True)
    assert [c["days"] for c in cards] == [2, 11, 32, 2, 5, 16]
    assert due(cards)[-1] == datetime(2023, 2, 5, 12, 30, tzinfo=UTC)
    assert cards[-1]["stability"] == pytest.approx(15.730063, abs=1e-6)
    assert cards[-1]["difficulty"] == pytest.approx(7.645116, abs=1e-6)


def test_memory_state_of_both_upstream_suites(page):
    """Again, Good x5 with gaps 0 0 1 3 8 21 days: S 53.62691, D 6.3574867 within 1e-4."""
    day = 86_400_000
    card = run(page, [1, 3, 3, 3, 3, 3], gaps=[0, 0, day, 3 * day, 8 * day, 21 * day])[-1]
    assert card["stability"] == pytest.approx(53.62691, abs=1e-4)
    assert card["difficulty"] == pytest.approx(6.3574867, abs=1e-4)


@pytest.mark.parametrize(("rating", "stability", "difficulty", "seconds"), [
    (1, 0.212, 6.4133, 60), (2, 1.2931, 5.112171, 330), (3, 2.3065, 2.118104, 600), (4, 8.2956, 1.0, 8 * 86400)])
def test_first_rating(page, rating, stability, difficulty, seconds):
    card = run(page, [rating])[0]
    assert (card["stability"], card["difficulty"]) == pytest.approx((stability, difficulty), abs=1e-6)
    assert card["due"] - card["last"] == seconds * 1000


def test_recall_curve(page):
    """R at t/S = 0, .5, 1, 2, 5, 10."""
    values = page.evaluate("""async () => {
      const f = await import('/js/fsrs.js');
      return [0, 5, 10, 20, 50, 100].map((d) => f.recall({stage: 'review', step: 0, stability: 10, difficulty: 5,
        due: 0, last: 0}, d * 86400000));
    }""")
    assert values == pytest.approx([1, 0.940344, 0.9, 0.845885, 0.760528, 0.692827], abs=1e-6)


@pytest.mark.parametrize("seed", range(40))
def test_random_histories_agree_with_the_package(page, seed):
    """Ratings at uneven gaps, minutes to months; a third of the runs without steps."""
    rng = random.Random(seed)
    ratings = [rng.choice([1, 2, 3, 3, 3, 4]) for _ in range(25)]
    gaps = [int(rng.choice([60, 700, 86400, 86400 * 5, 86400 * 90]) * rng.uniform(0.4, 1.6)) * 1000 for _ in ratings]
    no_steps = seed % 3 == 0
    steps = {"learning_steps": (), "relearning_steps": ()} if no_steps else {}
    scheduler = Scheduler(enable_fuzzing=False, **steps)
    card, now = Card(), START
    for ours, rating, gap in zip(run(page, ratings, no_steps=no_steps, gaps=gaps), ratings, gaps):
        now += timedelta(milliseconds=gap)
        known = scheduler.get_card_retrievability(card, now)
        card, _ = scheduler.review_card(card, Rating(rating), now)
        assert ours["stage"] == card.state.name.lower()
        assert (ours["stability"], ours["difficulty"]) == pytest.approx((card.stability, card.difficulty), rel=1e-9)
        assert ours["known"] == pytest.approx(known, rel=1e-9)
        assert ours["due"] == pytest.approx(card.due.timestamp() * 1000, abs=2)
