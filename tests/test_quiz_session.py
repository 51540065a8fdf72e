"""The quiz on the phone without its looks: draws, session, drawing a quiz, storage. Runs our scripts in Chromium."""

from __future__ import annotations

import random

import pytest
from scipy.stats import chisquare

from generator.quiz import bank_json
from generator.quiz.draws import Draws, digest
from tests.quiz_bank import demo_bank
from tests.quiz_page import js_page

pytestmark = pytest.mark.browser
KINDS = ("read", "job", "place", "next", "call", "tell")


@pytest.fixture(scope="module")
def page(chromium):
    with js_page(chromium) as page:
        page.evaluate("""async () => {
          window.q = {};
          for (const name of ['quiz_random', 'quiz_session', 'quiz_draw', 'quiz_store', 'fsrs']) {
            Object.assign(window.q, await import(`/js/${name}.js`));
          }
        }""")
        yield page


def question(n: int, **changes) -> dict:
    made = {"id": f"q{n:03}", "kind": KINDS[n % 6], "play": f"play{n % 4}", "pos": n % 6, "prompt": "?",
            "options": ["a", "b", "c"], "right": [n % 3], "why": "", "twin": f"t{n // 2:03}"}
    if made["kind"] == "place":
        made |= {"options": [], "right": [], "at": [1.0, 2.0], "within": 1.5}
    return made | changes


def test_draws_agree_with_python(page):
    rng = random.Random(3)
    for _ in range(60):
        seed = "".join(chr(rng.choice([rng.randrange(32, 127), rng.randrange(160, 0x2000)])) for _ in range(rng.randrange(20)))
        ours = Draws(seed)
        expected = [digest(seed), [ours.next() for _ in range(5)], ours.shuffled(range(7)), ours.below(10)]
        got = page.evaluate("""(seed) => { const d = q.seeded(seed);
          return [q.digest(seed), [1,2,3,4,5].map(() => d()), q.shuffled(d, [0,1,2,3,4,5,6]), q.below(d, 10)]; }""", seed)
        assert got == expected


def test_place_of_the_right_option_is_even_over_100_000_draws(page):
    """Chi-square over the place at which the right one of three is shown, always the same in the bank: one seed per person and question."""
    counts = page.evaluate("""() => { const counts = [0, 0, 0];
      for (let i = 0; i < 100000; i += 1) {
        const order = q.optionOrder(`player${i % 400}`, {id: `id${i}`, options: ['a', 'b', 'c']});
        counts[order.indexOf(0)] += 1;
      } return counts; }""")
    assert sum(counts) == 100_000
    assert chisquare(counts).pvalue > 0.001


def test_all_orders_of_three_come_equally_often():
    counts: dict[tuple[int, ...], int] = {}
    for i in range(100_000):
        order = tuple(Draws(f"person{i % 90}/q{i}").shuffled((0, 1, 2)))
        counts[order] = counts.get(order, 0) + 1
    assert len(counts) == 6
    assert chisquare(list(counts.values())).pvalue > 0.001


RUN = """([mode, questions, steps]) => {
  let s = q.begin({mode, quiz: 'game', who: 'p', book: 'b1', attempt: 1, seed: 's'}, questions);
  for (const [verb, value] of steps) s = verb === 'answer' ? q.answer(s, value) : verb === 'next' ? q.next(s, value)
    : verb === 'reveal' ? q.reveal(s) : JSON.parse(JSON.stringify(s));
  const known = new Map(questions.map((x) => [x.id, x]));
  return {session: s, result: q.result(s, known), score: q.score(s, known), study: q.toStudy(s, known), done: q.isFinished(s)};
}"""


def test_tonight_may_change_until_next_and_hides_the_answer(page):
    questions = [question(0), question(1)]
    out = page.evaluate(RUN, ["tonight", questions, [
        ["next", 5], ["answer", [2]], ["answer", [0]], ["next", 5], ["answer", [0]], ["reveal", 0], ["save", 0], ["next", 9]]])
    assert out["done"] and out["session"]["ended"] == 9
    assert out["result"] == {
        "version": 1, "who": "p", "quiz": "game", "book": "b1", "attempt": 1, "ended": 9, "answers": {
            "q000": {"choice": [0], "right": True, "play": "play0"},
            "q001": {"choice": [0], "right": False, "play": "play1"}}}
    assert out["score"] == {"right": 1, "of": 2}
    assert [s["play"] for s in out["study"]] == ["play1"]


def test_practice_keeps_the_first_answer(page):
    out = page.evaluate(RUN, ["practice", [question(0), question(1)], [["answer", [1]], ["answer", [0]], ["next", 1]]])
    assert out["session"]["answers"] == {"q000": [1]}
    assert out["session"]["at"] == 1 and not out["done"] and out["session"]["ended"] is None


def test_walk_through_goes_on_without_answers(page):
    out = page.evaluate(RUN, ["walk", [question(0)], [["next", 1], ["reveal", 0], ["next", 2]]])
    assert out["done"] and out["result"]["answers"] == {}


def test_several_right_must_all_be_tapped_and_a_place_within_its_distance(page):
    judge = "([question, choice]) => q.isRight(question, choice)"
    several = question(4, right=[0, 2])
    assert page.evaluate(judge, [several, [2, 0]])
    for wrong in ([0], [0, 1], [0, 1, 2], []):
        assert not page.evaluate(judge, [several, wrong])
    place = question(2)
    assert page.evaluate(judge, [place, [2.0, 3.0]]) and not page.evaluate(judge, [place, [2.2, 3.2]])


def test_restore_drops_what_the_new_book_no_longer_asks(page):
    restored = page.evaluate("""([questions]) => {
      let s = q.begin({mode: 'tonight', quiz: 'g', who: 'p', book: 'b', attempt: 1, seed: 's'}, questions);
      s = q.next(q.answer(s, [0]), 1); s = q.next(q.answer(s, [1]), 2); s = q.answer(s, [2]);
      const known = new Map(questions.filter((x) => x.id !== 'q000').map((x) => [x.id, x]));
      return [q.restore(JSON.parse(JSON.stringify(s)), known), q.restore(s, new Map()),
        ...[null, 3, {}, {...s, at: 99}, {...s, mode: 'x'}, {...s, ids: [1]}].map((v) => q.restore(v, known))];
    }""", [[question(n) for n in (0, 1, 3, 4)]])
    kept, *nothing = restored
    assert kept["ids"] == ["q001", "q003", "q004"] and kept["at"] == 1 and kept["answers"] == {"q001": [1], "q003": [2]}
    assert nothing == [None] * 7


def test_tonight_draws_by_expected_coverage_and_never_twins(page):
    pool = [question(n, kind="read", coverage=("trail", "switch", "drop")[n % 3], twin=f"t{n}", play="play0")
            for n in range(90)] + [question(n, play="play1") for n in range(200, 230)] + [question(300, play="other")]
    game = {"id": "g", "against": "x", "date": "", "plays": ["play0", "play1"], "coverages": {"trail": 3, "drop": 0}, "questions": 10}
    drawn = page.evaluate("""([pool, game]) => Array.from({length: 300}, (_, i) => q.drawTonight(pool, game, `s${i}`).map((x) => x.id))""",
                          [pool, game])
    by_id = {x["id"]: x for x in pool}
    counts = {"trail": 0, "switch": 0, "drop": 0}
    for ids in drawn:
        assert len(ids) == len(set(ids)) == len({by_id[i]["twin"] for i in ids}) == 10
        assert "q300" not in ids
        for i in ids:
            if by_id[i].get("coverage"):
                counts[by_id[i]["coverage"]] += 1
    assert 2.5 < counts["trail"] / counts["switch"] < 3.6  # weights 3 : 1 (unnamed)
    assert counts["drop"] < counts["switch"] / 20
    assert len({tuple(ids) for ids in drawn}) > 290
    assert page.evaluate("([p, g]) => q.drawTonight([...p].reverse(), g, 's1').map((x) => x.id)", [pool, game]) == drawn[1]


def test_what_the_game_plan_expects_is_asked_in_its_proportion(page):
    """Every game plan of the demo book over its own reads, one question a draw: shares follow the weights (chi-square)."""
    bank = demo_bank()
    for game in bank.computed.book.games:
        pool, plays = bank_json_of(bank), [bank.computed.book.play(n).id for n in game.quiz_plays or game.plays]
        pool = [q for q in pool if q["kind"] == "read" and q["play"] in plays and q["pos"] == 3]
        plan = {"id": game.id, "plays": plays, "coverages": dict(game.coverages), "questions": 1}
        drawn = page.evaluate("([p, g]) => Array.from({length: 2000}, (_, i) => q.drawTonight(p, g, `n${i}`)[0].coverage ?? '')", [pool, plan])
        weight = {}
        for q in pool:
            seen = q.get("coverage", "")
            weight[seen] = weight.get(seen, 0) + game.coverages.get(seen, 1)
        seen = sorted(weight)
        expected = [2000 * weight[c] / sum(weight.values()) for c in seen]
        assert len(seen) >= 3 and max(expected) > 2 * min(expected)
        assert chisquare([drawn.count(c) for c in seen], expected).pvalue > 0.001


def bank_json_of(bank):
    return [q for p in bank.computed.book.plays for q in bank_json(p, bank.questions)["questions"]]


def test_a_small_bank_gives_a_shorter_quiz(page):
    game = {"id": "g", "plays": ["play0"], "coverages": {}, "questions": 10}
    pool = [question(0), question(4, twin="t000"), question(8)]
    ids = page.evaluate("([p, g]) => q.drawTonight(p, g, 's').map((x) => x.id)", [pool, game])
    assert len(ids) == 2 and "q008" in ids


def test_what_asks_the_same_thing_stands_in_a_quiz_only_where_there_is_nothing_else(page):
    """A job and the place it ends at, in both ways a quiz is drawn; a small pool asks it after all, but no twin."""
    game = {"id": "g", "plays": ["play0"], "coverages": {}, "questions": 10}
    pool = [question(n, kind="job", play="play0", twin=f"t{n}", themes=[f"part{n // 2}"]) for n in range(30)]
    few = pool[:8] + [question(90, kind="job", play="play0", twin="t0", themes=["part0"])]
    drawn = page.evaluate("""([p, few, g]) => Array.from({length: 40}, (_, i) => [
      q.drawTonight(p, g, `s${i}`), q.drawPractice(p, new Map(), 0, 10, `s${i}`),
      q.drawTonight(few, g, `s${i}`), q.drawPractice(few, new Map(), 0, 10, `s${i}`)])""", [pool, few, game])
    for tonight, practice, *small in drawn:
        for quiz in (tonight, practice):
            assert len(quiz) == len({x["themes"][0] for x in quiz}) == 10
        for quiz in small:
            assert len(quiz) == len({x["twin"] for x in quiz}) == 8
            assert len({x["themes"][0] for x in quiz[:4]}) == 4


def test_practice_mixes_the_kinds_as_far_as_there_are_any(page):
    """Five fresh questions out of many: reads most, and never calls alone because a book has many calls."""
    pool = [question(n, kind="call" if n % 10 else "read", twin=f"t{n}") for n in range(200)]
    drawn = page.evaluate("(p) => Array.from({length: 60}, (_, i) => q.drawPractice(p, new Map(), 0, 10, `s${i}`).map((x) => x.kind))", pool)
    assert all(7 <= kinds.count("read") <= 9 for kinds in drawn)  # 45 : 8
    assert len({kinds[0] for kinds in drawn}) == 2
    lone = page.evaluate("(p) => q.drawPractice(p, new Map(), 0, 10, 's').length", [question(n, kind="call", twin=f"t{n}") for n in range(20)])
    assert lone == 10


def test_a_quiz_of_the_demo_book_asks_ten_different_things(page):
    """Every position, tonight and practice."""
    bank = demo_bank()
    pool = bank_json_of(bank)
    for game in bank.computed.book.games:
        plays = [bank.computed.book.play(n).id for n in game.quiz_plays or game.plays]
        plan = {"id": game.id, "plays": plays, "coverages": dict(game.coverages), "questions": 10}
        quizzes = page.evaluate("""([pool, g]) => [1, 2, 3, 4, 5].flatMap((n) => [0, 1, 2, 3].flatMap((i) => {
          const mine = q.forPositions(pool, [n]);
          return [q.drawTonight(mine, g, `s${i}`), q.drawPractice(mine, new Map(), 0, 10, `s${i}`)]; }))""", [pool, plan])
        for quiz in quizzes:
            themes = [t for x in quiz for t in x.get("themes", [])]
            assert len(quiz) == len({x["twin"] for x in quiz}) == 10
            assert len(themes) == len(set(themes)), [x["prompt"] for x in quiz]
            assert len({x["kind"] for x in quiz}) >= 3


def test_practice_asks_what_is_due_first(page):
    out = page.evaluate("""([pool]) => { const now = 1e12, card = (due) => ({...q.newCard(0), due});
      const cards = new Map([['q001', card(now - 5)], ['q002', card(now - 9)], ['q003', card(now + 9)], ['q000', card(now + 1)]]);
      return [q.drawPractice(pool, cards, now, 9, 's').map((x) => x.id), q.dueQuestions(pool, cards, now).map((x) => x.id),
        q.forPositions(pool, [3]).map((x) => x.id)]; }""", [[question(n, twin=f"t{n}") for n in range(6)]])
    drawn, due, mine = out
    assert drawn[:2] == ["q002", "q001"] == due
    assert set(drawn[2:4]) == {"q004", "q005"} and drawn[4:] == ["q000", "q003"]
    assert mine == ["q000", "q003"]  # position 3 and everybody's


def test_storage_survives_reload_full_disk_and_blocked_storage(page):
    out = page.evaluate("""() => {
      const make = (limit) => { const m = new Map(); return {m, getItem: (k) => m.get(k) ?? null, removeItem: (k) => m.delete(k),
        setItem: (k, v) => { if (v.length > limit) throw new DOMException('full', 'QuotaExceededError'); m.set(k, v); }}; };
      const card = q.review(q.newCard(5), 3, 10), shelf = make(1e6), out = {};
      const s = q.begin({mode: 'practice', quiz: 'practice', who: 'p', book: 'b', attempt: 1, seed: 's'}, [{id: 'q', play: 'x'}]);
      const first = {version: 1, who: 'p', quiz: 'g', book: 'b', attempt: 1, ended: 1, answers: {}};
      let store = q.openStore(shelf, 'p');
      store.saveSession(s); store.saveCards('x', [['q', card]]); store.addResult(first); store.addResult({...first, ended: 2});
      store = q.openStore(shelf, 'p');
      out.again = [store.session(), store.cards('x').get('q'), card, store.results(), store.attempts('g'), store.kept];
      out.other = [q.openStore(shelf, 'r').session(), q.openStore(shelf, 'r').cards('x').size];
      shelf.m.set('secondside:/:quiz1/p/session', '{broken'); shelf.m.set('secondside:/:quiz1/p/cards/x', '{"q":[9,0],"r":7}'); shelf.m.set('secondside:/:quiz1/p/results', '[null,{}]');
      out.broken = [store.session(), store.cards('x').size, store.results()];
      const full = q.openStore(make(10), 'p');
      out.full = [full.saveSession(s), full.kept, full.session().ids, full.saveSession(null), full.session()];
      const none = q.openStore(null, 'p');
      none.saveCards('x', [['q', card]]);
      out.none = [none.kept, none.cards('x').size];
      return out;
    }""")
    session, kept_card, card, results, attempts, kept = out["again"]
    assert session["ids"] == ["q"] and kept
    assert kept_card.pop("stage") == card.pop("stage") and kept_card == pytest.approx(card, rel=1e-8)
    assert attempts == 1 and results[0]["ended"] == 1  # the first attempt is never overwritten
    assert out["other"] == [None, 0]
    assert out["broken"] == [None, 0, []]
    assert out["full"] == [False, False, ["q"], True, None]
    assert out["none"] == [False, 1]
