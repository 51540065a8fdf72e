"""A book -> a built folder, through the site engine: same bytes twice, nothing of the book but its pages, nobody else's host."""

from __future__ import annotations

import gzip
import json
import re
import socket
from pathlib import Path

import pytest
from hand_made_book import hand_made

from generator import mkdocs_plugin
from generator.diagnostics import Location, error, warning
from generator.mkdocs_plugin import BookErrors, Refused, build_site, preview_folder, preview_site
from generator.pages import compose_site
from generator.pages.addresses import fixed_page, own_page
from generator.pages.folder import theme_folder
from generator.pages.gather import Gathered
from generator.pages.inject import LostDiagram

PIXEL = bytes.fromhex("47494638396101000100800000000000ffffff21f90401000000002c000000000100010000020144003b")


@pytest.fixture
def book(tmp_path, monkeypatch) -> Path:
    """A folder with a coach's own files; the plays are the hand-made ones."""
    folder = tmp_path / "plays"
    (folder / "notes").mkdir(parents=True)
    (folder / "team.yml").write_text("team: Wharfside Herons\n")
    (folder / "index.md").write_text("# Our first page\n\nSee [how](notes/how-we-play.md).\n")
    (folder / "notes" / "how-we-play.md").write_text("# How we play\n\n![floor](floor.gif) Spread out.\n")
    (folder / "notes" / "scouting.md").write_text("---\nstaff: yes\n---\n# Scouting words\n\nTheir guard limps.\n")
    (folder / "notes" / "floor.gif").write_bytes(PIXEL)
    (folder / "notes" / "budget.csv").write_text("a,b\n")
    monkeypatch.setattr(mkdocs_plugin, "load_and_compute", lambda path, timer: hand_made())
    monkeypatch.setattr(mkdocs_plugin, "all_versions", lambda computed, timer: ())
    monkeypatch.setattr(mkdocs_plugin, "gather_parts", lambda *all: Gathered({}))
    return folder


def tree(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_the_same_book_gives_the_same_bytes(book, tmp_path):
    build_site(book, tmp_path / "one")
    build_site(book, tmp_path / "two")
    assert tree(tmp_path / "one") == tree(tmp_path / "two")


def test_only_pages_and_pictures_of_the_book_reach_the_site(book, tmp_path):
    built = tree(build_site(book, tmp_path / "site").root)
    assert not [name for name in built if name.endswith((".yml", ".csv", ".md", ".map", ".gz"))]
    picture = own_page("notes/floor.gif")
    assert built[f"{picture}.gif"] == PIXEL
    assert f"../{picture}.gif" in built[f"{own_page('notes/how-we-play.md')}/index.html"].decode()


def test_no_name_of_a_file_or_title_stands_in_an_address(book, tmp_path):
    for name in tree(build_site(book, tmp_path / "site").root):
        assert not re.search(r"gantry|wharf|how-we-play|notes|scouting|bollard|cooper", name.lower()), name


def test_a_coachs_own_first_page_is_a_page_and_not_home(book, tmp_path):
    built = tree(build_site(book, tmp_path / "site").root)
    assert "Next game</span>: Cooper Hill" in built["index.html"].decode()
    own = next(page.decode() for name, page in built.items() if name.endswith(".html") and b"Our first page</h1>" in page)
    assert f"../{own_page('notes/how-we-play.md')}/" in own
    assert "Our first page" in built["index.html"].decode()


def test_staff_pages_stay_out_of_the_way(book, tmp_path):
    made = build_site(book, tmp_path / "site")
    staff = set(made.staff_paths)
    assert f"{own_page('notes/scouting.md')}/index.html" in staff and f"{fixed_page('staff')}/index.html" in staff
    built = tree(made.root)
    assert staff <= set(built)
    site_map, search = built["sitemap.xml"].decode(), built["search/search_index.json"].decode()
    for path in staff:
        address = path.removesuffix("index.html")
        assert address not in site_map and address not in search
        assert b'content="noindex"' in built[path]
    for name, content in built.items():
        if name not in staff and name.endswith((".html", ".json", ".xml")):
            assert not re.search(rb"Hide the second look|Ask about the horn|guard limps|Scouting words", content), name


def test_search_has_one_entry_a_page_and_no_positions(book, tmp_path):
    built = tree(build_site(book, tmp_path / "site").root)
    docs = json.loads(built["search/search_index.json"])["docs"]
    ours = [d for d in docs if d["title"] in ("Gantry", "Gantry Low")]
    assert len(ours) == 2 and "flat hand" in ours[0]["text"]
    assert not any(d["title"].startswith("Position") or d["title"] == "Quiz" for d in docs)


def test_nothing_is_loaded_from_another_host(book, tmp_path):
    loads = re.compile(r"""<(?:script|link|img|iframe|source|video)[^>]*(?:src|href)=["']?(https?:)?//""")
    for name, content in tree(build_site(book, tmp_path / "site").root).items():
        if name.endswith(".html"):
            page = content.decode()
            assert not loads.search(page), name
            assert "fonts.g" not in page and "analytics" not in page
        if name.startswith("assets/css/"):
            assert b"url(http" not in content and b"@import" not in content


def test_the_folder_of_somebody_else_is_left_alone(book, tmp_path):
    theirs = tmp_path / "photos"
    theirs.mkdir()
    (theirs / "a.jpg").write_bytes(b"a")
    with pytest.raises(Refused, match="not a site of ours"):
        build_site(book, theirs)
    assert tree(theirs) == {"a.jpg": b"a"}


@pytest.mark.parametrize("out", ["plays", "plays/site", "."])
def test_book_and_site_never_lie_inside_each_other(book, tmp_path, out):
    with pytest.raises(Refused, match="inside each other"):
        build_site(book, tmp_path / out)
    assert (book / "team.yml").exists()


def test_errors_write_nothing_and_keep_the_old_site(book, tmp_path, monkeypatch):
    out = tmp_path / "site"
    build_site(book, out)
    before = tree(out)
    bad = hand_made()
    object.__setattr__(bad, "diagnostics", (error(Location("wharf/gantry.yml", 3, 1), "sentence", "no verb"),))
    monkeypatch.setattr(mkdocs_plugin, "load_and_compute", lambda path, timer: bad)
    with pytest.raises(BookErrors, match=r"gantry\.yml:3:1"):
        build_site(book, out)
    assert tree(out) == before
    assert sorted(p.name for p in tmp_path.iterdir()) == ["plays", "site"]


def test_warnings_do_not_stop_it(book, tmp_path, monkeypatch):
    found = (warning(Location("wharf/gantry.yml", 3, 1), "spacing", "crowded"),)
    made = hand_made()
    object.__setattr__(made, "diagnostics", found)
    monkeypatch.setattr(mkdocs_plugin, "load_and_compute", lambda path, timer: made)
    assert build_site(book, tmp_path / "site").found == found


def test_a_rebuild_replaces_the_whole_folder(book, tmp_path):
    out = tmp_path / "site"
    build_site(book, out)
    (out / "left-over.html").write_text("old")
    build_site(book, out)
    assert not (out / "left-over.html").exists()


def test_a_lost_picture_stops_the_build(book, tmp_path, monkeypatch):
    def lossy(*given):
        from dataclasses import replace

        site = compose_site(*given)
        pages = tuple(replace(p, diagrams={"d1": "PICTURE"}) if p.title == "Gantry" else p for p in site.pages)
        return replace(site, pages=pages)

    monkeypatch.setattr(mkdocs_plugin, "compose_site", lossy)
    with pytest.raises(LostDiagram):
        build_site(book, tmp_path / "site")
    assert not (tmp_path / "site").exists()


def test_the_theme_is_found_without_the_repository(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert (theme_folder() / "main.html").is_file()
    assert (theme_folder() / "page_templates" / "play.html").is_file()


def test_preview_shows_errors_in_the_page(book, monkeypatch):
    bad = hand_made()
    object.__setattr__(bad, "diagnostics", (error(Location("wharf/gantry.yml", 3, 1), "sentence", "no verb"),))
    monkeypatch.setattr(mkdocs_plugin, "load_and_compute", lambda path, timer: bad)
    seen = {}

    class Stand:
        def __init__(self, builder, host, port, root):
            seen["root"], seen["again"] = Path(root), builder

        def watch(self, path):
            seen["watched"] = path

        def serve(self):
            seen["again"]()
            seen["home"] = (seen["root"] / "index.html").read_text()

        def shutdown(self):
            seen["over"] = True

    monkeypatch.setattr(mkdocs_plugin, "LiveReloadServer", Stand)
    told = []
    preview_site(book, "127.0.0.1", 8123, lambda found, pages: told.append((len(found), pages)))
    assert "gantry.yml:3:1" in seen["home"] and "no verb" in seen["home"] and "Cooper Hill" in seen["home"]
    assert seen["watched"] == str(book) and seen["over"] and len(told) == 2 and not seen["root"].exists()


def test_a_preview_that_was_killed_leaves_nothing_for_the_next(monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    left = preview_folder(8123)
    (left / "open.html").write_text("an open page")
    assert preview_folder(8124) != left and (left / "open.html").exists()  # another port may be another preview
    assert preview_folder(8123) == left and not any(left.iterdir())
    assert left.stat().st_mode & 0o077 == 0


def test_a_preview_on_a_port_in_use_touches_nothing(book, monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        (preview_folder(port) / "open.html").write_text("served by the other")
        with pytest.raises(OSError):
            preview_site(book, "127.0.0.1", port, lambda found, pages: None)
        assert (tmp_path / "secondside" / f"preview-{port}" / "open.html").exists()


def test_the_packed_weight_of_a_page_without_pictures(book, tmp_path):
    built = tree(build_site(book, tmp_path / "site").root)
    assert len(gzip.compress(built["index.html"], 9)) < 4000


def test_mkdocs_with_our_settings_gives_the_same_bytes(tmp_path, monkeypatch):
    """The demo book by `mkdocs build` with mkdocs.yml, and by `secondside build`, which knows no mkdocs.yml: two processes,
    each with its own order of sets, that compute everything for themselves."""
    import subprocess
    import sys

    root = Path(__file__).resolve().parent.parent
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "-q", "-f", str(root / "mkdocs.yml"), "-d", str(tmp_path / "theirs")],
        cwd=tmp_path, check=True, capture_output=True,
    )
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "another cache"))  # nothing of theirs is taken over
    mkdocs_plugin._remembered.cache_clear()
    assert tree(tmp_path / "theirs") == tree(build_site(root / "plays", tmp_path / "ours").root)
