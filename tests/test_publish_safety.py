"""What a stranger finds in a published folder, what stays when nothing changed, and what a failed or killed run leaves."""

from __future__ import annotations

import dataclasses
import json
import os
import random
import re
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from publish_fixture import Published, opened, seated_state, tree, write_site, write_small_site

from generator.publish import atomic_files, people
from generator.publish.built_site import BuiltSite, words_of
from generator.publish.git_target import GitFailed, GitTarget
from generator.publish.leak_scan import scan
from generator.publish.prepare import read_files
from generator.publish.private_state import decode_state, encode_state, load_state
from generator.publish.publish_site import NotOurs, StrangeFiles, publish_site
from generator.publish.results_in import ResultIn, read_result
from generator.publish.shell import shell_files, shell_hashes
from generator.publish.targets import BLOBS, BOOT, FolderTarget, NotAZip, ZipTarget
from generator.vault.blob import Blob, audience_key, open_blob
from generator.vault.boot import read_boot
from generator.vault.cipher import NotOpened, public_point
from generator.vault.manifest import open_manifest
from generator.vault.results import seal_result
from generator.vault.seats import unwrap


@pytest.fixture
def book(tmp_path):
    return Published(tmp_path)


@pytest.fixture
def small(tmp_path):
    return Published(tmp_path, write=write_small_site)


# ---- a stranger ----


def test_a_stranger_learns_nothing(book):
    book.publish()
    book.publish("Yesterday's addition")
    files = tree(book.web)
    shell = shell_hashes()
    words = book.site.words | words_of(book.site.names)
    assert len(words) > 20
    for path, content in files.items():
        if path in shell:
            assert content == shell_files()[path]
            assert not any(name.encode() in content for name in book.site.names if len(name) > 3)
            continue
        assert path == BOOT or re.fullmatch(r"_v/b/[0-9a-f]{32}", path), path
        assert not any(w.encode() in content or w.lower().encode() in content.lower() for w in words), path
    assert not any(str(book.source) in path for path in files)


def test_the_opened_players_tree_holds_nothing_of_the_staff(book):
    book.publish()
    files = tree(book.web)
    players, staff = opened(files, book.codes[0]), opened(files, book.coach)
    assert set(staff) - set(players) == {"zz81/index.html", "_people.json"}
    for path, content in players.items():
        for word in (b"Answerkey", b"Staffonly", b"hedgerow", b"zz81", b"_people", b"result_key"):
            assert word not in content, path
    ids = [row["id"] for row in json.loads(staff["_people.json"])["people"]]
    assert len(ids) > 1 and ids == sorted(ids)  # not in the order in which codes were given out
    assert b"Tidewater Over" in players["q7f2/index.html"]
    assert players["q7f2/index.html"].count(b"_v/client.js") == 1


def test_the_scan_stops_whatever_can_be_read(book):
    book.publish()
    keys = [audience_key(a.current) for a in (book.state.players, book.state.staff)]
    good = tree(book.web)
    assert scan(good, shell_hashes(), keys, book.site.words) == ()
    name = next(p for p in good if p.startswith(BLOBS))
    spoilt = {
        "a page left open": {"q7f2/index.html": b"anything"},
        "a changed plain file": {"sw.js": good["sw.js"] + b"\n"},
        "a changed blob": {name: good[name][:-1] + b"x"},
        "a blob under another name": {BLOBS + "ab" * 16: good[name]},
        "a boot file that is none": {BOOT: b"{}"},
    }
    for what, change in spoilt.items():
        assert scan({**good, **change}, shell_hashes(), keys, book.site.words), what
    for spelling in ("lanternfish", "LANTERNFISH", "Lanternfish"):
        told = scan({**good, BLOBS + "cd" * 16: b"\0\1" + spelling.encode() + b"\2"}, shell_hashes(), keys, ["lanternfish"])
        assert any("in the clear" in leak.why for leak in told)
    assert any("in the clear" in leak.why for leak in scan({"lanternfish.txt": b""}, {}, keys, ["Lanternfish"]))


def test_words_that_stand_by_chance_in_what_is_locked_stop_nothing(book):
    """Short words do stand in half a megabyte of random characters, and six letters from a to f in the names of files."""
    book.publish()
    files = tree(book.web)
    keys = [audience_key(a.current) for a in (book.state.players, book.state.staff)]
    entry = next(iter(json.loads(json.loads(files[BOOT])["body"])["seats"].values()))
    blob = next(p for p in files if p.startswith(BLOBS))
    chance = [re.search("[A-Za-z]{2,}", entry).group(), blob[-32:], blob[-32:-26]]
    long = next(m.group() for m in re.finditer("[A-Za-z]{6,}", files[BOOT].decode()))
    assert long.encode() in files[BOOT]
    assert scan(files, shell_hashes(), keys, [*chance, long]) == ()
    report = publish_site(dataclasses.replace(book.site, words=frozenset({long, blob[-32:]})), FolderTarget(book.out), book.state, book.state_file)
    assert not report.changed


@pytest.mark.parametrize("where", ["beside the body", "in the body", "a blank", "behind the signature"])
def test_a_boot_file_with_anything_more_in_it_is_stopped(book, where):
    book.publish()
    files = tree(book.web)
    outer = json.loads(files[BOOT])
    body = json.loads(outer["body"])
    spoilt = {
        "beside the body": json.dumps({**outer, "note": "lanternfish"}, separators=(",", ":")),
        "in the body": json.dumps({**outer, "body": json.dumps({**body, "note": "lanternfish"}, separators=(",", ":"))}, separators=(",", ":")),
        "a blank": files[BOOT].decode() + "\n",
        "behind the signature": json.dumps({**outer, "sig": outer["sig"][:-2] + "lanternfish="}, separators=(",", ":")),
    }
    keys = [audience_key(a.current) for a in (book.state.players, book.state.staff)]
    assert scan({**files, BOOT: spoilt[where].encode()}, shell_hashes(), keys, ["lanternfish"])


def test_a_folder_with_other_files_is_refused_untouched(book):
    book.web.mkdir()
    (book.web / "plan.pdf").write_text("readable")
    (book.web / "CNAME").write_text("plays.example.org")
    with pytest.raises(StrangeFiles, match=r"plan\.pdf"):
        book.publish()
    assert set(tree(book.web)) == {"plan.pdf", "CNAME"}
    (book.web / "plan.pdf").unlink()
    (book.web / "index.html").write_text("a page of somebody's own")
    with pytest.raises(StrangeFiles, match=r"index\.html"):
        book.publish()
    assert (book.web / "index.html").read_text() == "a page of somebody's own"
    (book.web / "index.html").unlink()
    book.publish()
    assert (book.web / "CNAME").exists()


def test_plain_files_of_an_older_version_are_taken_away(book):
    book.publish()
    (book.web / "_v" / "older.js").write_text("console.log('of an earlier version')")
    (book.web / "_v" / "b" / ("ab" * 16 + ".part")).write_text("half a blob")
    book.publish()
    assert not (book.web / "_v" / "older.js").exists() and not list(book.web.rglob("*.part"))


def test_nonces_are_never_used_twice(book):
    nonces: dict[bytes, bytes] = {}
    for extra in ("", "one", "two", "", "three"):
        book.publish(extra)
        files = tree(book.web)
        for path, content in files.items():
            if path.startswith(BLOBS):
                assert nonces.setdefault(content[:12], content) == content
        for entry in read_boot(files[BOOT]).boot.seats.values():
            assert nonces.setdefault(entry[:12], entry) == entry
        book.state, _ = people.add_person(book.state, f"More {extra}{len(nonces)}", "more", (3,), False)
        if extra == "one":
            book.state = people.remove_person(book.state, book.state.people[1], relock=False)


# ---- again and again ----


def test_what_opens_is_written_after_what_it_opens(book):
    """Locked files, then the reader's files, its worker and its page last of them; whoever comes half-way finds the old page."""
    written = []

    class Recording(FolderTarget):
        def commit(self, files, boot, gone, progress):
            written.extend(files)
            super().commit(files, boot, gone, progress)

    publish_site(book.site, Recording(book.out), book.state, book.state_file)
    locked = [path.startswith(BLOBS) for path in written]
    assert any(locked) and locked == sorted(locked, reverse=True)
    plain = [path for path in written if not path.startswith(BLOBS)]
    pages = [path for path in plain if path.endswith(".html")]
    assert len(pages) > 1 and plain[-len(pages):] == pages and plain[-len(pages) - 1] == "sw.js"


def test_an_unchanged_book_writes_nothing(book):
    book.publish()
    before = {p: p.stat().st_mtime_ns for p in book.web.rglob("*")}
    report = book.publish()
    assert (report.changed, report.new_blobs, report.bytes_written) == (False, 0, 0)
    assert {p: p.stat().st_mtime_ns for p in book.web.rglob("*")} == before


def test_one_changed_page_sends_its_blob_and_the_list(book):
    book.publish()
    before = tree(book.web)
    report = book.publish("a new cut")
    after = tree(book.web)
    assert report.new_blobs == 2 and report.changed and report.counter == 2
    assert {p for p in after if before.get(p) != after[p]} - {BOOT} == set(after) - set(before)
    assert read_boot(after[BOOT]).boot.seats == read_boot(before[BOOT]).boot.seats  # dummies and wraps stay
    assert opened(after, book.codes[0])["q7f2/index.html"].count(b"a new cut") == 1


def test_three_generations_stay_for_open_pages(book):
    heads = []
    for extra in ("", "one", "two", "three"):
        book.publish(extra)
        heads.append(read_boot(tree(book.web)[BOOT]).boot.heads[book.state.players.id])
    files = tree(book.web)
    assert [BLOBS + h in files for h in heads] == [False, True, True, True]
    key = audience_key(book.state.players.current)
    for head in heads[1:]:
        manifest = open_manifest(key, Blob(head, files[BLOBS + head]))
        assert all(BLOBS + e.blob in files for e in manifest.files.values())


def test_the_counter_continues_above_what_the_target_shows(book, tmp_path):
    for extra in ("", "one", "two"):
        book.publish(extra)
    old = book.state
    first = tmp_path / "old.json"
    book.publish("three")
    from dataclasses import replace

    rolled_back = replace(old, counter=1)  # as a backup of the first week has it
    report = publish_site(write_site(book.source, "four"), FolderTarget(book.out), rolled_back, first)
    assert report.counter == 5 and load_state(first).counter == 5


def test_seats_given_out_elsewhere_are_not_dropped_in_silence(book, tmp_path):
    book.publish()
    backup = book.state
    book.state, newcomer = people.add_person(book.state, "Late Comer", "late", (4,), False)
    book.publish()
    other = tmp_path / "other.json"
    with pytest.raises(NotOurs, match="restore the newest backup"):
        publish_site(book.site, FolderTarget(book.out), backup, other)
    assert opened(tree(book.web), newcomer.code)
    publish_site(book.site, FolderTarget(book.out), backup, other, forget_unknown=True)
    with pytest.raises(KeyError):
        opened(tree(book.web), newcomer.code)


def test_another_books_site_is_not_overwritten(book, tmp_path):
    book.publish()
    before = tree(book.web)
    stranger, _, _ = seated_state()
    with pytest.raises(NotOurs, match="another private state"):
        publish_site(book.site, FolderTarget(book.out), stranger, tmp_path / "s.json")
    assert tree(book.web) == before


# ---- people come and go ----


def test_who_is_removed_is_out_and_the_others_stay(book):
    book.publish()
    before = tree(book.web)
    leaver = book.state.people[0]
    book.state = people.remove_person(book.state, leaver, relock=False)
    book.publish("after he left")
    after = tree(book.web)
    with pytest.raises(KeyError):
        opened(after, leaver.code)
    for code in (book.codes[1], book.coach):
        assert b"after he left" in opened(after, code)["q7f2/index.html"]
    old = audience_key(unwrap(leaver.key, leaver.seat, read_boot(before[BOOT]).boot.seats[leaver.seat]).keys[0][1])
    fresh = [p for p in after if p.startswith(BLOBS) and p not in before]
    assert fresh
    for path in fresh:
        for kind in (False, True):
            with pytest.raises(NotOpened):
                open_blob(old, Blob(path[-32:], after[path]), kind)
    unchanged = [p for p in after if p.startswith(BLOBS) and p in before]
    assert len(unchanged) > 10  # lazily: what did not change was not sent again
    assert len(read_boot(after[BOOT]).boot.seats) == len(read_boot(before[BOOT]).boot.seats) == 16


def test_a_key_change_renews_every_entry_so_that_dummies_cannot_be_told(book):
    book.publish()
    before = read_boot(tree(book.web)[BOOT]).boot.seats
    book.state = people.remove_person(book.state, book.state.people[0], relock=False)
    book.publish()
    after = read_boot(tree(book.web)[BOOT]).boot.seats
    stayed = set(before) & set(after)
    assert len(stayed) == 15 and all(before[s] != after[s] for s in stayed)


def test_who_changes_his_position_or_joins_cannot_be_told_from_the_others(book):
    """An entry that changed alone would be that of a real person; a stranger keeps every boot file he saw."""
    book.publish()
    for change in ("position", "joins"):
        before = read_boot(tree(book.web)[BOOT]).boot.seats
        if change == "position":
            book.state = people.follow_roster(book.state, {"player-0": (3, 4, 5)})
        else:
            book.state, _ = people.add_person(book.state, "Newcomer", "new", (2,), False)
        book.publish()
        after = read_boot(tree(book.web)[BOOT]).boot.seats
        assert len(after) == 16 and all(before[s] != after[s] for s in set(before) & set(after)), change
        assert len(set(before) & set(after)) == (16 if change == "position" else 15)
        assert opened(tree(book.web), book.codes[0]) and opened(tree(book.web), book.coach)


def test_relocking_leaves_nothing_that_the_old_key_opens(book):
    book.publish("")
    book.publish("one")
    old = audience_key(book.state.players.current)
    book.state, again = people.replace_code(book.state, book.state.people[0], relock=True)
    assert again.who == "player-0" and again.result_key != book.state.people[1].result_key
    book.publish("one")
    files = tree(book.web)
    with pytest.raises(KeyError):
        opened(files, book.codes[0])
    assert opened(files, again.code)
    for path, content in files.items():
        if path.startswith(BLOBS):
            for kind in (False, True):
                with pytest.raises(NotOpened):
                    open_blob(old, Blob(path[-32:], content), kind)


def test_result_keys_change_with_whoever_knew_them_and_late_results_still_open(book):
    """A coach's phone knows everybody's result key; a player's only his own."""
    book.publish()
    first = book.state
    leaver = first.people[0]
    book.state = people.remove_person(first, leaver, relock=False)
    assert book.state.people[0].result_key == first.people[1].result_key
    coach = book.state.people[-1]
    book.state, again = people.replace_code(book.state, coach, relock=False)
    now = {p.result_id: p.result_key for p in book.state.people}
    assert not set(now) & {p.result_id for p in first.people} and not set(now.values()) & {p.result_key for p in first.people}
    book.publish()
    listed = {row["id"]: row for row in json.loads(opened(tree(book.web), again.code)["_people.json"])["people"]}
    assert len(listed) == len(book.state.people) + len(book.state.past_results)
    for person in first.people:
        assert listed[person.result_id]["old"] and listed[person.result_id]["who"] == person.who
    assert all("old" not in listed[i] for i in now)
    for person, old in ((first.people[1], True), (book.state.people[0], False)):
        line = seal_result(person.result_id, person.result_key, b"q1:3", bytes(12))
        assert read_result(book.state, line) == ResultIn("player-1", old, b"q1:3")
    with pytest.raises(NotOpened):
        read_result(book.state, seal_result("00000000", leaver.result_key, b"q1:3", bytes(12)))


def test_positions_follow_the_roster_unless_given_by_hand(book):
    state, _ = people.add_person(book.state, "By Hand", "by-hand", (5,), False, by_hand=True)
    changed = people.follow_roster(state, {"player-0": (4, 5), "by-hand": (1,), "coach": (1,)})
    assert [p.positions for p in changed.people] == [(4, 5), (2,), (), (5,)]


def test_the_private_state_is_for_its_owner_and_outside_the_tree(book):
    book.publish()
    assert book.state_file.stat().st_mode & 0o777 == 0o600
    everything = b"".join(tree(book.web).values())
    for person in book.state.people:
        for secret in (person.code, person.code.replace("-", ""), person.name):
            assert secret.encode() not in everything
        assert person.key not in everything and person.result_key not in everything
    assert book.codes[0] not in repr(book.state.players) and "signer" not in repr(book.state)
    assert decode_state(encode_state(book.state)) == book.state


def test_a_file_laid_in_the_way_is_not_written_through(tmp_path):
    """In a folder that others may write to, somebody can lay a link where the next file will be made."""
    theirs = tmp_path / "theirs.txt"
    theirs.write_text("as it was")
    (tmp_path / "cards.html.part").symlink_to(theirs)
    atomic_files.write_atomically(tmp_path / "cards.html", b"codes", mode=0o600)
    assert theirs.read_text() == "as it was" and (tmp_path / "cards.html").stat().st_mode & 0o777 == 0o600


def test_a_write_that_fails_leaves_nothing_beside(tmp_path, monkeypatch):
    (tmp_path / "site.zip").write_bytes(b"as it was")

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(atomic_files.os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        atomic_files.write_atomically(tmp_path / "site.zip", b"new")
    assert tree(tmp_path) == {"site.zip": b"as it was"}


def test_no_code_or_key_in_what_a_crash_prints(book):
    told = repr(book.state) + repr(book.state.people[0]) + repr(Published) + repr(book.site)
    assert not [p.name for p in book.state.people if p.code in told or p.code[:9] in told]


def test_equal_entropy_gives_equal_bytes_but_for_the_signature(tmp_path):
    made = []
    for name in ("a", "b"):
        entropy = random.Random(4).randbytes
        state, _, _ = seated_state(entropy=entropy)
        publish_site(write_site(tmp_path / name), FolderTarget(tmp_path / f"{name}-web"), state, tmp_path / f"{name}.json", entropy=entropy)
        files = tree(tmp_path / f"{name}-web")
        made.append({p: c for p, c in files.items() if p != BOOT})
    assert made[0] == made[1]


# ---- zip and branch ----


def test_a_zip_holds_the_same_site_and_continues(book, tmp_path):
    file = tmp_path / "site.zip"
    first = publish_site(book.site, ZipTarget(file), book.state, book.state_file)
    before = file.read_bytes()
    again = publish_site(book.site, ZipTarget(file), load_state(book.state_file), book.state_file)
    assert first.changed and not again.changed and again.new_blobs == 0 and file.read_bytes() == before
    publish_site(write_site(book.source, "zipped"), ZipTarget(file), load_state(book.state_file), book.state_file)
    with zipfile.ZipFile(file) as packed:
        files = {i.filename: packed.read(i) for i in packed.infolist()}
        told = {(i.create_system, i.external_attr >> 16, i.date_time[0], i.extra, i.comment) for i in packed.infolist()}
    assert b"zipped" in opened(files, book.codes[0])["q7f2/index.html"]
    assert told == {(3, 0o100644, 1980, b"", b"")}
    assert not list(tmp_path.glob("*.part"))
    file.write_text("not a zip file at all")
    with pytest.raises(NotAZip, match="no whole zip file"):
        ZipTarget(file)


def _git(where, *words):
    return subprocess.run(["git", *words], cwd=where, check=True, capture_output=True, text=True).stdout


def test_a_branch_never_has_a_history(book, tmp_path):
    repo = tmp_path / "repo"
    repo.mkdir()
    _git(repo, "init", "-q", "-b", "main")
    _git(repo, "-c", "user.name=Hollis", "-c", "user.email=h@example.org", "commit", "-q", "--allow-empty", "-m", "book")
    for extra in ("", "", "pushed"):
        publish_site(write_site(book.source, extra), GitTarget(repo, "site"), book.state, book.state_file)
        book.state = load_state(book.state_file)
    assert _git(repo, "rev-list", "--count", "site").strip() == "1"
    assert _git(repo, "log", "-g", "--format=%h", "site").strip() == "" and "refs/heads/site" in _git(repo, "show-ref")
    assert _git(repo, "for-each-ref", "--format=%(refname)").split() == ["refs/heads/main", "refs/heads/site"]
    assert "Hollis" not in _git(repo, "log", "--format=fuller", "site")
    out = tmp_path / "clone"
    _git(tmp_path, "clone", "-q", "--branch", "site", str(repo), str(out))
    shutil.rmtree(out / ".git")
    assert b"pushed" in opened(tree(out), book.codes[0])["q7f2/index.html"]
    assert book.state.counter == 2
    with pytest.raises(GitFailed, match="working on"):
        GitTarget(repo, "main")
    for name in ("-x", "a b", "a..b"):
        with pytest.raises(GitFailed, match="no name for a branch"):
            GitTarget(repo, name)


# ---- failing and being killed ----


def _steps(monkeypatch, fail_at: int):
    """Every write to the disk goes through five doors; the chosen one fails as a full disk does."""
    passed = []

    def door(name, real):
        def step(*args, **kwargs):
            passed.append(name)
            if len(passed) == fail_at:
                raise OSError(28, "No space left on device")
            return real(*args, **kwargs)

        return step

    real_unlink = Path.unlink
    for name in ("open", "fdopen", "fsync", "replace"):
        monkeypatch.setattr(atomic_files.os, name, door(name, getattr(os, name)))
    monkeypatch.setattr(Path, "unlink", door("unlink", real_unlink))
    return passed


def test_a_failure_at_any_write_leaves_the_old_site_whole(small, monkeypatch, tmp_path):
    """Every write, flush, rename and deletion of a publish with a key change is made to fail once."""
    for extra in ("", "one", "two"):
        small.publish(extra)
    leaver = small.state.people[0]
    state = people.remove_person(small.state, leaver, relock=True)
    site = write_small_site(small.source, "three")
    public = public_point(state.signer)
    at, seen = 0, set()
    while True:
        at += 1
        out, private = tmp_path / f"try{at}", tmp_path / f"state{at}" / "s.json"
        shutil.copytree(small.web, out)
        private.parent.mkdir()
        shutil.copy(small.state_file, private)
        with monkeypatch.context() as patch:
            passed = _steps(patch, at)
            try:
                publish_site(site, FolderTarget(out), state, private)
                done = True
            except OSError:
                done = False
        files = {p: c for p, c in tree(out).items() if not p.endswith(".part")}
        page = opened(files, small.codes[1], public)["q7f2/index.html"]
        assert load_state(private) is not None
        new = b"three" in page
        seen.add(new)
        assert new or opened(files, leaver.code, public)
        if done and len(passed) < at:
            break
        publish_site(site, FolderTarget(out), load_state(private) if new else state, private)  # the next run mends it
        assert not [p for p in tree(out) if p.endswith(".part")]
        assert b"three" in opened(tree(out), small.codes[1], public)["q7f2/index.html"]
        shutil.rmtree(out)
    assert seen == {True, False} and min(map(passed.count, ("open", "fdopen", "fsync", "replace", "unlink"))) >= 6


KILLED = """
import os, sys
sys.path[:0] = [{tests!r}, {root!r}]
from pathlib import Path
from generator.publish import atomic_files
from generator.publish.built_site import BuiltSite
from generator.publish.private_state import load_state
from generator.publish.publish_site import publish_site
from generator.publish.shell import shell_files
from generator.publish.targets import FolderTarget
count = 0
def door(real, at):
    def step(*a, **k):
        global count
        count += 1
        if count == at:
            os._exit(9)
        return real(*a, **k)
    return step
site, home = Path(sys.argv[1]), Path(sys.argv[2])
shell_files()
for at in map(int, sys.argv[3:]):
    child = os.fork()
    if child:
        print(at, os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]))
        continue
    if at > 0:
        for name in ("fsync", "replace", "open"):
            setattr(atomic_files.os, name, door(getattr(os, name), at))
    state = home / f"private{{abs(at)}}.json"
    publish_site(BuiltSite(site, frozenset({{"zz81/"}})), FolderTarget(home / f"out{{abs(at)}}"), load_state(state), state)
    os._exit(0)
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="every run is a process of its own, made by forking")
def test_a_run_killed_at_any_of_thirty_points_leaves_the_old_site_whole(small, tmp_path):
    """Each run is a process that is ended without any chance to tidy up; points are spread over the whole run."""
    small.publish()
    write_small_site(small.source, "after the kill")
    root = Path(__file__).resolve().parent.parent
    script = tmp_path / "publish.py"
    script.write_text(KILLED.format(tests=str(root / "tests"), root=str(root)))
    for at in range(1, 31):
        shutil.copytree(small.web, tmp_path / f"out{at}")
        shutil.copy(small.state_file, tmp_path / f"private{at}.json")

    def runs(*points):
        words = [sys.executable, str(script), str(small.source), str(tmp_path), *map(str, points)]
        told = subprocess.run(words, check=True, capture_output=True, text=True).stdout
        return {int(at): int(ended) for at, ended in (line.split() for line in told.splitlines())}

    public, kept = public_point(small.state.signer), {True: 0, False: 0}
    for at, ended in runs(*range(1, 31)).items():
        files = {p: c for p, c in tree(tmp_path / f"out{at}").items() if not p.endswith(".part")}
        new = b"after the kill" in opened(files, small.codes[0], public)["q7f2/index.html"]
        kept[new] += 1
        assert ended in (0, 9) and (new or ended == 9), at
        for path in shell_files():
            assert files[path] == shell_files()[path]
        assert load_state(tmp_path / f"private{at}.json") is not None
    assert kept[False] >= 5 and kept[True] >= 5
    assert runs(-4) == {-4: 0}  # the next run, left alone, mends it
    assert b"after the kill" in opened(tree(tmp_path / "out4"), small.codes[0], public)["q7f2/index.html"]


def test_staff_folders_and_files_are_told_apart():
    site = BuiltSite(Path("x"), frozenset({"zz81/", "a/key.json"}))
    told = {p: site.is_staff(p) for p in ("zz81/index.html", "zz81/deep/x.png", "a/key.json", "a/other.json", "zz812/index.html", "index.html")}
    assert told == {"zz81/index.html": True, "zz81/deep/x.png": True, "a/key.json": True, "a/other.json": False, "zz812/index.html": False, "index.html": False}


def test_nothing_that_changes_by_the_calendar_and_no_source_map_goes_under_lock(tmp_path):
    """Else a publish a day later would send files although no page has changed."""
    (tmp_path / "assets").mkdir()
    (tmp_path / "assets" / "main.js.map").write_text("{}")
    (tmp_path / "sitemap.xml.gz").write_bytes(b"packed, with a clock")
    (tmp_path / "sitemap.xml").write_text("<url>\n  <loc>a/</loc>\n  <lastmod>2026-11-25</lastmod>\n</url>")
    (tmp_path / "notes.xml").write_text("<lastmod>2026-11-25</lastmod>")
    files = read_files(BuiltSite(tmp_path))
    assert set(files) == {"sitemap.xml", "notes.xml"}
    assert files["sitemap.xml"] == b"<url>\n  <loc>a/</loc>\n</url>" and b"2026" in files["notes.xml"]
