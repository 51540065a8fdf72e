"""Small parts of pages: what leads on, what is told to all, which phases are shown, by which words a play is found, prints."""

from __future__ import annotations

import json
from dataclasses import replace

from hand_made_book import AT, play, times

from generator.jobs.job import Job
from generator.model.play import Answer, GoTo, Teach
from generator.pages import gather, play_page, staff
from generator.pages.lists import found_by, play_line, series_of


def test_what_follows_an_answer_is_said_with_its_side():
    answer = Answer("a", (), "trail", go_to=GoTo("Loop", source=AT), source=AT)
    assert play_page._leads_to(answer) == "then Loop"
    assert play_page._leads_to(replace(answer, go_to=GoTo("Loop", mirrored=True, source=AT))) == "then Loop, mirrored"
    assert play_page._leads_to(replace(answer, go_to=None)) == "play on"


def test_a_players_own_point_is_told_to_him_alone():
    everyone, own = Teach((), "Talk.", AT), Teach((2,), "Wide.", AT)
    assert play_page._for_everyone((own, everyone)) == (everyone,)


def test_a_phase_that_comes_again_is_shown_once():
    made = times(play("Gantry"))
    main = made.settled.main
    again = replace(main, phases=(*main.phases, main.phases[0]))
    other = replace(main, key="b", parent="main", phases=(*main.phases, replace(main.phases[0], id="new")))
    settled = replace(made.settled, branches=(again, other))
    assert [(b.key, i) for b, i in play_page.shown_phases(replace(made, settled=settled))] == [("main", 0), ("main", 1), ("b", 2)]


def test_a_call_equal_to_the_name_is_not_said_twice():
    assert play_line(play("Gantry", call="GANTRY")).call == "" and play_line(play("Gantry", call="Low")).call == "Low"


def test_search_finds_a_play_by_what_is_read_but_not_by_otherwise():
    words = found_by(play("Gantry", series="Wharf", signal="flat hand", purpose="A three."))
    assert {"Wharf", "flat hand", "A three", "Swing", "Screen", "trail"} <= set(words.split(". "))
    assert "otherwise" not in words


def test_a_play_without_a_series_stands_under_its_folder():
    assert series_of(play("P", folder="out-of-bounds")) == "Out of bounds"
    assert series_of(play("P", folder="foundry")) == "Foundry" and series_of(play("P")) == "Plays"


def test_a_print_changes_for_the_position_whose_job_has_changed():
    def prints(**of_2: str) -> list[str]:
        jobs = tuple(Job(f"j{n}", "p", n, "ph", "Swing", ("Go.",), fingerprint=f"f{n}") for n in range(1, 6))
        jobs = tuple(replace(j, **of_2) if j.position == 2 else j for j in jobs)
        return json.loads(gather._prints({"p": jobs}).content)["plays"]["p"]

    before, after = prints(), prints(fingerprint="another")
    assert [i + 1 for i in range(5) if before[i] != after[i]] == [2]
    assert before == prints(sentences=("Run.",))


def test_a_sentence_of_the_handbook_ends_at_its_first_full_stop():
    assert staff._sentence("Stands by. It may move.") == "Stands by"
