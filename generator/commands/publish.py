"""`secondside publish`: checks, builds, locks, scans, writes."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path

import click
from rich.console import Console
from rich.progress import Progress, SpinnerColumn, TextColumn, TimeElapsedColumn

from generator.commands._ending import ended_tidily
from generator.publish.built_site import BuiltSite, words_of, words_of_folder
from generator.publish.git_target import GitFailed, GitTarget
from generator.publish.one_at_a_time import SCRATCH, Busy, Held, alone
from generator.publish.people import follow_roster, new_state
from generator.publish.private_state import UnreadableState, load_state, state_path
from generator.publish.publish_site import Leaks, NotOurs, PublishReport, StrangeFiles, publish_site
from generator.publish.targets import FolderTarget, NotAZip, Target, ZipTarget

Said = Callable[[str, int, int], None]


@click.command()
@click.argument("book", type=click.Path(exists=True, file_okay=False, path_type=Path), default="plays")
@click.option("--to", type=click.Path(file_okay=False, path_type=Path), help="folder to publish into")
@click.option("--zip", "zip_file", type=click.Path(dir_okay=False, path_type=Path), help="zip file to upload by hand")
@click.option("--git-branch", help="branch of the book's repository that only ever holds the locked site")
@click.option("--forget-unknown", is_flag=True, help="shut out codes on the site that this computer does not know")
def command(book: Path, to: Path | None, zip_file: Path | None, git_branch: str | None, forget_unknown: bool) -> None:
    """Check, build and lock the BOOK folder, and write it where phones fetch it.

    Errors stop it, drafts stay at home. Unchanged pages keep their files. If anything fails the site there stays as it was.
    Exit status: 0 published, 1 the book has errors, 2 usage or a place that cannot be published to."""
    if sum(map(bool, (to, zip_file, git_branch))) != 1:
        raise click.UsageError("say where: --to DIR, --zip FILE or --git-branch NAME (one of them)")
    try:
        with alone(book) as held, ended_tidily():
            target = _target(book, to, zip_file, git_branch)
            report = _published(book, target, held, forget_unknown)
    except (StrangeFiles, NotOurs, NotAZip, GitFailed, UnreadableState, Busy) as stopped:
        raise click.UsageError(f"{stopped}.") from None
    except Leaks as stopped:
        raise click.ClickException(f"Nothing was written. This could be read by strangers: {stopped}") from None
    _tell(report, to, zip_file, git_branch)


def _target(book: Path, to: Path | None, zip_file: Path | None, git_branch: str | None) -> Target:
    place = (to or zip_file or book).resolve()
    if git_branch:
        return GitTarget(book.resolve(), git_branch)
    if place == book.resolve() or book.resolve() in place.parents:
        raise click.UsageError("publish outside the book's folder: what lies in there is private")
    return FolderTarget(place) if to else ZipTarget(place)


def _published(book: Path, target: Target, held: Held, forget_unknown: bool) -> PublishReport:
    state_file = state_path(book)
    state = follow_roster(load_state(state_file) or new_state(), _positions(book))
    if not state.people:
        click.echo("Nobody has a code yet, so nobody can open the site: secondside access add NAME", err=True)
    columns = (SpinnerColumn(), TextColumn("{task.description}"), TextColumn("{task.fields[count]}"), TimeElapsedColumn())
    with (
        tempfile.TemporaryDirectory(prefix=SCRATCH) as scratch,
        Progress(*columns, console=Console(stderr=True), transient=True) as shown,
    ):
        held.scratch(Path(scratch))
        task = shown.add_task("reading the book", total=None, count="")

        def said(step: str, done: int, total: int) -> None:
            shown.update(task, description=step, count=f"{done} of {total}" if done else "")

        site = _built(book, Path(scratch) / "site", said, shown.stop)
        try:
            return publish_site(site, target, state, state_file, forget_unknown, progress=said)
        except OSError as failed:
            where = f": {failed.filename}" if failed.filename else ""
            stopped = click.ClickException(f"Writing failed ({failed.strerror or failed}{where}). The site that was there still works.")
            stopped.exit_code = 2
            raise stopped from None


def _built(book: Path, folder: Path, said: Callable[[str, int, int], None], hide: Callable[[], None]) -> BuiltSite:
    """The open site in `folder`; with errors in the book they are told, below the progress line that `hide` takes away."""
    from generator.commands.check import as_text, located
    from generator.mkdocs_plugin import BookErrors, Refused, build_site

    try:
        made = build_site(book, folder, said)
    except BookErrors as stopped:
        hide()
        click.echo(as_text(located(stopped.problems, book)), err=True)
        click.echo("Nothing was published: mend the errors first.", err=True)
        raise SystemExit(1) from None
    except Refused as stopped:
        raise click.UsageError(str(stopped)) from None
    names = frozenset(made.names)
    return BuiltSite(made.root, frozenset(made.staff_paths), words_of_folder(book) | words_of(names), names)


def _positions(book: Path) -> dict[str, tuple[int, ...]]:
    from generator.pipeline import load_book

    return {entry.key: entry.positions for entry in load_book(book)[0].team.roster}


def _tell(report: PublishReport, to: Path | None, zip_file: Path | None, git_branch: str | None) -> None:
    if not report.changed and not report.new_blobs:
        click.echo("Nothing has changed since the last publish.")
        return
    size = f"{report.bytes_written / 1000:.0f} KB"
    click.echo(f"Published version {report.counter}: {report.files} locked files, {report.new_blobs} of them new or changed, {size} to upload.")
    if to:
        click.echo(f"Copy the folder {to} to your host as it is. If your program lets you choose, send _v/boot.json last.")
        if report.removed:
            click.echo(f"{report.removed} old files are gone from it: take them away there too, or let your program do so.")
        if (to / ".git").exists():
            told = "its history keeps old pages and old codes, so a code that you take away would still open them"
            click.echo(f"{to} lies under git: {told}. Use --git-branch instead, which has no history.", err=True)
    if zip_file:
        click.echo(f"Upload {zip_file} to your host and unpack it there.")
    if git_branch:
        click.echo(f"Send this branch alone, replacing what is there: git push --force YOUR-HOST {git_branch}")
        click.echo("The other branches hold the plays as plain text: keep them off the host.")
