"""`secondside access`: who may open the published book, and with which card."""

from __future__ import annotations

import os
import unicodedata
from collections.abc import Callable
from dataclasses import replace
from functools import wraps
from itertools import count
from pathlib import Path

import click

from generator.publish.private_state import (
    Person,
    PrivateState,
    UnreadableState,
    load_state,
    save_state,
    state_path,
)

BOOK = click.option(
    "--book", type=click.Path(exists=True, file_okay=False, path_type=Path), default="plays", show_default=True, help="the book's folder"
)
RELOCK = "also lock what is published already anew: everybody's phone fetches everything once more"


def _one_at_a_time(act: Callable[..., None]) -> Callable[..., None]:
    """Nothing else changes the codes meanwhile, a publish neither: it would save over what this command has just given out."""

    @wraps(act)
    def done(book: Path, **given: object) -> None:
        from generator.publish.one_at_a_time import Busy, alone

        try:
            with alone(book):
                act(book=book, **given)
        except Busy as stopped:
            raise click.UsageError(f"{stopped}.") from None

    return done


@click.group()
def command() -> None:
    """Codes and cards: who may open the published book.

    The codes are kept in the book's folder, in .secondside/private.json, readable by you alone. It is never published; keep a
    backup of it. What you change here counts from the next `publish` on."""


@command.command()
@click.argument("name", required=False)
@BOOK
@click.option("--staff", is_flag=True, help="a coach: also opens the staff pages")
@click.option("--positions", default="", help="positions he plays, such as 2,3 (else as in team.yml)")
@click.option("--roster", is_flag=True, help="everybody in team.yml who has no code yet")
@_one_at_a_time
def add(name: str | None, book: Path, staff: bool, positions: str, roster: bool) -> None:
    """Give NAME a code, or everybody of the roster."""
    from generator.publish.people import add_person, new_state

    if (name is not None) == roster or (roster and (staff or positions)):
        raise click.UsageError("say one NAME, or --roster for everybody in team.yml")
    known = _roster(book)
    state = _state(book) or new_state()
    if name and state.person(name):
        raise click.UsageError(f"{name} has a code already: `access cards {name!r}` prints it again, `access replace` makes a new one")
    if name is not None:
        _refuse_unreadable(name)
    wanted = [(name, _positions(positions))] if name else [(n, ()) for n in known if not state.person(n)]
    made = []
    for one, given in wanted:
        spelt, who, usual = _in_roster(one, known, staff)
        state, person = add_person(state, spelt, who, given or usual, staff, by_hand=bool(given))
        made.append(f"{person.name}: {person.code}")
    save_state(state_path(book), state)
    for line in made:  # a code is shown once it is kept, else a full disk would hand out one that opens nothing
        click.echo(line)
    if not wanted:
        click.echo("Everybody in team.yml has a code.")
    else:
        click.echo("Counts from the next publish on. `secondside access cards` prints the cards.", err=True)


@command.command("list")
@BOOK
@click.option("--codes", is_flag=True, help="show the codes too")
def list_people(book: Path, codes: bool) -> None:
    """Who has a code."""
    state = _needed(book)
    for p in sorted(state.people, key=lambda p: (p.staff, p.name)):
        role = "staff" if p.staff else "player " + (",".join(map(str, p.positions)) or "-")
        told = "" if p.wrap else "  (from the next publish on)"
        click.echo(f"{p.name:<24} {role:<14}{'  ' + p.code if codes else ''}{told}".rstrip())
    count = sum(p.staff for p in state.people)
    click.echo(f"{len(state.people) - count} players, {count} staff", err=True)


@command.command()
@click.argument("name")
@BOOK
@click.option("--relock", is_flag=True, help=RELOCK)
@_one_at_a_time
def remove(name: str, book: Path, relock: bool) -> None:
    """Take NAME's code away. His phone is shut at its next contact; the others type nothing.

    What he has read he has read: without --relock, pages that do not change stay under the key his phone once had."""
    from generator.publish.people import remove_person

    state = _needed(book)
    person = _person(state, name)
    save_state(state_path(book), remove_person(state, person, relock))
    click.echo(f"{person.name} is out from the next publish on. Publish now.")


@command.command("replace")
@click.argument("name")
@BOOK
@click.option("--relock/--no-relock", default=True, show_default=True, help=RELOCK)
@_one_at_a_time
def replace_one(name: str, book: Path, relock: bool) -> None:
    """Give NAME a new code because the old one was lost or seen. The old one stops working."""
    from generator.publish.people import replace_code

    state = _needed(book)
    changed, person = replace_code(state, _person(state, name), relock)
    save_state(state_path(book), changed)
    click.echo(f"{person.name}: {person.code}")
    click.echo("The old code works until the next publish. Publish now.", err=True)


@command.command()
@click.argument("names", nargs=-1)
@BOOK
@click.option("--address", default="", help="where the site lies, such as https://plays.example.org/ (asked once, then remembered)")
@click.option("--out", type=click.Path(dir_okay=False, path_type=Path), help="file to write (else cards.html beside the codes)")
@_one_at_a_time
def cards(names: tuple[str, ...], book: Path, address: str, out: Path | None) -> None:
    """Print cards: one page per person (NAMES, or everybody) with code and a picture for the camera."""
    from generator.publish.atomic_files import write_atomically
    from generator.publish.cards import cards_page, usable_address

    state = _needed(book)
    if address:
        state = replace(state, address=_address(address, usable_address))
        save_state(state_path(book), state)
    if not state.address:
        raise click.UsageError("say once where the site lies: --address https://...")
    people = [_person(state, n) for n in names] or sorted(state.people, key=lambda p: (p.staff, p.name))
    target = out or state_path(book).with_name("cards.html")
    write_atomically(target, cards_page(people, state.address).encode(), mode=0o600)
    click.echo(f"{len(people)} card{'' if len(people) == 1 else 's'} in {target}: open it in a browser and print it, then delete it.")


@command.command()
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
@BOOK
def backup(file: Path, book: Path) -> None:
    """Copy codes and keys to FILE: for safe keeping, or to hand the book over to a second laptop.

    FILE is not locked: it opens everything, players' and staff pages, and holds every code. Keep it as you keep a key."""
    from generator.publish.atomic_files import write_atomically
    from generator.publish.private_state import encode_state

    if file.exists():
        raise click.UsageError(f"{file} is there already: name a new file")
    if book.resolve() in file.resolve().parents:
        raise click.UsageError("keep the backup outside the book's folder: it would be lost with it, and go wherever the book is copied")
    write_atomically(file, encode_state(_needed(book)), mode=0o600)
    click.echo(f"Copied to {file}.")
    click.echo(
        "This file is not locked and opens everything: whoever has it reads every page, has every code, and can publish in your name.\n"
        "Keep it at home, on a stick in a drawer; never in a mail, a chat or a shared folder."
    )


@command.command()
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@BOOK
@click.option("--force", is_flag=True, help="also over newer codes; those are kept beside")
@_one_at_a_time
def restore(file: Path, book: Path, force: bool) -> None:
    """Take codes and keys from a backup FILE."""
    from generator.publish.atomic_files import write_atomically
    from generator.publish.private_state import encode_state

    try:
        given = load_state(file)
    except UnreadableState as problem:
        raise click.UsageError(str(problem)) from None
    assert given is not None
    path = state_path(book)
    if path.exists() and not force:
        _refuse_loss(path, given)
    if path.exists() and path.read_bytes() != encode_state(given):
        write_atomically(_unused(path), path.read_bytes(), mode=0o600)
    save_state(path, given)
    click.echo(f"{len(given.people)} people restored.")


def _refuse_loss(path: Path, given: PrivateState) -> None:
    """A backup does not go over other codes, nor over a file that cannot be read, unless that is wished."""
    try:
        here = load_state(path)
    except UnreadableState as problem:
        raise click.UsageError(f"{problem}. --force takes the backup; the damaged file is kept beside") from None
    if here and here != given:
        lost = sorted({p.name for p in here.people if p.seat not in {q.seat for q in given.people}})
        told = f" It lacks the codes of {', '.join(lost)}." if lost else ""
        raise click.UsageError(f"this book has other codes and keys already.{told} --force takes the backup; the present ones are kept beside")


def _unused(path: Path) -> Path:
    """A name beside `path` that nothing has yet: what was put aside before is never written over."""
    names = (path.with_name(f"private.before{f'-{n}' if n > 1 else ''}.json") for n in count(1))
    return next(name for name in names if not os.path.lexists(name))


def _state(book: Path) -> PrivateState | None:
    try:
        return load_state(state_path(book))
    except UnreadableState as problem:
        raise click.ClickException(f"{problem}. Restore a backup: secondside access restore FILE --force") from None


def _needed(book: Path) -> PrivateState:
    state = _state(book)
    if state is None:
        raise click.UsageError("nobody has a code yet: secondside access add NAME")
    return state


def _person(state: PrivateState, name: str) -> Person:
    person = state.person(name)
    if person is None:
        raise click.UsageError(f"{name} has no code. People with a code: {', '.join(sorted(p.name for p in state.people)) or 'nobody'}")
    return person


def _roster(book: Path) -> dict[str, tuple[str, tuple[int, ...]]]:
    """Roster names with their key and positions, as far as the book can be read."""
    from generator.pipeline import load_book

    loaded, _ = load_book(book)
    return {entry.name: (entry.key, entry.positions) for entry in loaded.team.roster}


def _in_roster(name: str, known: dict[str, tuple[str, tuple[int, ...]]], staff: bool) -> tuple[str, str, tuple[int, ...]]:
    from generator.model.book import fold_name
    from generator.model.identity import stable_id

    wanted = fold_name(name)
    for spelt, (key, positions) in known.items():
        if fold_name(spelt) == wanted:
            return spelt, key, () if staff else positions
    if not staff:
        click.echo(f"{name} is not in the roster of team.yml: he gets a code, but no page of his own.", err=True)
    return name, stable_id("person", wanted), ()


def _refuse_unreadable(name: str) -> None:
    """Names are printed on cards and typed again: one line that can be seen."""
    if not name.strip() or any(unicodedata.category(c) in {"Cc", "Zl", "Zp"} for c in name):
        raise click.UsageError(f"a name is one line with letters or digits in it: {name!r}")


def _positions(text: str) -> tuple[int, ...]:
    parts = [p for p in text.replace(",", " ").split() if p]
    if any(p not in {"1", "2", "3", "4", "5"} for p in parts):
        raise click.UsageError(f"positions are numbers from 1 to 5, such as 2,3: {text!r}")
    return tuple(sorted({int(p) for p in parts}))


def _address(text: str, usable: Callable[[str], str | None]) -> str:
    found = usable(text)
    if found is None:
        raise click.UsageError(f"phones open a locked book only at an address that begins with https: {text!r}")
    return found
