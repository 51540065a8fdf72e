"""The thin adapter to the site engine: hands it pages and files, takes the built folder back.

The only module that knows MkDocs. `build_site(book, out)` needs no mkdocs.yml; `mkdocs build` with ours gives the
same bytes. A coach's own *.md become pages; nothing else of the book but pictures reaches the site.
"""

from __future__ import annotations

import os
import shutil
import socket
import tempfile
from collections.abc import Callable, Mapping, Set
from functools import cache
from html import escape
from pathlib import Path, PurePosixPath
from types import MappingProxyType

from jinja2 import Environment
from mkdocs.commands.build import build
from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.config_options import ExtraScriptValue
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.utils import get_markdown_title
from mkdocs.utils.meta import get_data

from generator.checks import Once
from generator.diagnostics import Diagnostic, Severity, format_diagnostic
from generator.model.book import Book
from generator.pages import Audience, Site, SitePage, compose_site, gather_parts
from generator.pages.addresses import own_page
from generator.pages.folder import Refused, SiteFolder, guard, swap, theme_folder, theme_has
from generator.pages.inject import inject_diagrams
from generator.pages.kept import Kept, cache_folder, person_folder
from generator.pages.keys import book_texts, play_keys
from generator.pages.lists import ways
from generator.pages.render import compiled_templates, found_by_body, with_problems
from generator.pages.views import Link
from generator.pipeline import Timer, all_versions, load_and_compute
from generator.remembered import Remembered
from generator.source import PICTURES, unfit_files

__all__ = ["BookErrors", "Refused", "SecondSidePlugin", "build_site", "preview_folder", "preview_site", "rebuild"]

os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")

UNUSED_OF_THEME = ("assets/javascripts/lunr/", "assets/stylesheets/palette", "assets/images/favicon.png")
STYLES = ("tokens", "site", "court", "quiz", "print")
LOCAL_URL = "http://127.0.0.1:8000/"  # instant navigation needs some address; the vault replaces it

Progress = Callable[[str, int, int], None]  # (what is being done, how many are done, of how many)


def silent(step: str, done: int, total: int) -> None:
    """A `Progress` that reports nothing."""


class BookErrors(Exception):
    """The book has errors and nothing was written; `problems` lists them."""

    def __init__(self, problems: tuple[Diagnostic, ...]) -> None:
        super().__init__("\n".join(map(format_diagnostic, problems)))
        self.problems = problems


class SecondSideOptions(Config):
    """What mkdocs.yml may say under `secondside`."""

    errors = config_options.Choice(("stop", "show", "raise"), default="stop")


class SecondSidePlugin(BasePlugin[SecondSideOptions]):
    """Adds the computed pages of the book in `docs_dir` to the site."""

    site: Site
    found: tuple[Diagnostic, ...] = ()
    problems: tuple[Diagnostic, ...] = ()
    said: Progress = staticmethod(silent)
    own_staff: tuple[str, ...] = ()
    remembered: Remembered
    _written: int = 0
    _ours: Mapping[str, SitePage] = MappingProxyType({})
    unfit: frozenset[str] = frozenset()  # what of the book must not be published

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """House settings that a coach never touches. Linked folders stop here: the engine would follow them, in circles too."""
        unfit = unfit_files(Path(config.docs_dir))  # told by the checks
        linked = tuple(d for d in unfit if Path(config.docs_dir, d.location.path).is_dir())
        if linked:
            raise PluginError(str(BookErrors(linked))) if self.config.errors == "stop" else BookErrors(linked)
        self.unfit = frozenset(d.location.path for d in unfit)
        self.remembered = _remembered(Path(config.docs_dir))
        config.theme["font"] = False
        config.theme["favicon"] = "assets/images/mark.svg"
        config.theme["features"] = ["navigation.instant", "navigation.prune"]
        config.theme.static_templates.add("404.html")
        config.site_url = config.site_url or LOCAL_URL
        config.extra_css = [f"assets/css/{name}.css" for name in STYLES if theme_has(f"assets/css/{name}.css")]
        config.extra_javascript = [_module("assets/js/main.js")]
        config.extra["ways"] = [{"text": w.text, "href": w.href or ".", "url": w.href or "./"} for w in ways()]
        config.nav = ["index.md"]
        return config

    def on_files(self, files: Files, config: MkDocsConfig) -> Files:
        """Keeps what may be published, gives every page an opaque address, adds ours."""
        for file in [f for f in files if not _wanted(f, config.docs_dir, self.unfit)]:
            files.remove(file)
        own = [f for f in files if f.src_dir == config.docs_dir]
        links = tuple(_readdress(f, files) for f in own if f.is_documentation_page())
        for file in own:
            if not file.is_documentation_page():
                file.dest_uri = own_page(file.src_uri) + PurePosixPath(file.src_uri).suffix.lower()
        self.own_staff = tuple(f.dest_uri for f, _, staff in links if staff)
        visible = tuple(Link(title, file.url) for file, title, staff in links if not staff)
        self.said("checking plays", 0, 1)
        computed = load_and_compute(Path(config.docs_dir), lambda book: self._helpers(book, Path(config.docs_dir)))
        self.found = computed.diagnostics
        self.problems = tuple(d for d in self.found if d.severity is Severity.ERROR)
        if self.problems and self.config.errors != "show":
            raise BookErrors(self.problems) if self.config.errors == "raise" else PluginError(str(BookErrors(self.problems)))
        self.said("making pages", 0, 1)
        everything = all_versions(computed, self.remembered.time)
        keys, shelf = self.remembered.keys, self.remembered.shelf
        self.site = compose_site(computed, gather_parts(computed, everything, keys, shelf), visible, shelf)
        shelf.sweep()
        self.remembered.round.sweep()
        config.site_name = self.site.name
        self._ours = {f"{p.url}index.html": p for p in self.site.pages}
        for page in self.site.pages:
            files.append(_page_file(page, config))
        for data in self.site.files:
            files.append(File.generated(config, data.path, content=data.content))
        return files

    def on_env(self, env: Environment, config: MkDocsConfig, files: Files) -> Environment:
        """Templates are compiled once for all builds of a person."""
        env.bytecode_cache = compiled_templates()
        return env

    def on_page_markdown(self, markdown: str, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Hands the body over beside Markdown, not through it. Titles are made text: the engine and its search write them as they are."""
        kept = self._kept(page)
        if kept is None:
            staff = page.file.dest_uri in self.own_staff
            page.meta["kept"] = {"id": page.url.strip("/"), "staff": staff, "body": ""}
            if "title" in page.meta:
                page.meta["title"] = escape(str(page.meta["title"]), quote=False)
            if staff:
                page.meta["search"] = {"exclude": True}
            return markdown
        body = with_problems(kept.body, self.problems)
        page.meta["title"] = escape(kept.title, quote=False)
        page.meta["kept"] = {"id": kept.id, "staff": kept.audience is Audience.STAFF, "body": body}
        if not kept.found_by:
            page.meta["search"] = {"exclude": True}
        return ""

    def on_page_content(self, html: str, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Search reads a few words of our pages, never their whole body."""
        kept = self._kept(page)
        return found_by_body(kept.found_by) if kept else html

    def on_post_page(self, output: str, page: Page, config: MkDocsConfig) -> str:
        """Pictures come last."""
        kept = self._kept(page)
        self._written += 1
        self.said("writing pages", self._written, len(self._ours))
        return inject_diagrams(output, kept.diagrams, kept.id) if kept else output

    def on_post_build(self, config: MkDocsConfig) -> None:
        """The packed site map carries a clock."""
        Path(config.site_dir, "sitemap.xml.gz").unlink(missing_ok=True)

    def _helpers(self, book: Book, folder: Path) -> tuple[Timer, Once]:
        """Timing and checking, remembered while nothing that a play depends on changes."""
        self.remembered.begin(play_keys(book, book_texts(folder)))
        return self.remembered.time, self.remembered.check

    def _kept(self, page: Page) -> SitePage | None:
        return self._ours.get(page.file.dest_uri)



def build_site(book: Path, out: Path, said: Progress = silent) -> SiteFolder:
    """Builds the open site of the book in folder `book` into `out`, which is replaced as a whole when all is done.

    Raises BookErrors when the book has errors, Refused when `out` holds something that is not ours; then nothing changed.
    """
    book, out = book.resolve(), out.resolve()
    guard(book, out)
    part = out.with_name(f".{out.name}.part")
    shutil.rmtree(part, ignore_errors=True)
    try:
        plugin = rebuild(book, part, "raise", said)
        swap(part, out)
    finally:
        shutil.rmtree(part, ignore_errors=True)
    staff = (*plugin.site.paths(Audience.STAFF), *plugin.own_staff)
    return SiteFolder(out, tuple(sorted(staff)), plugin.site.names, plugin.found, len(plugin.site.pages))


def site_config(book: Path, out: Path, errors: str = "stop") -> MkDocsConfig:
    """The same settings as our mkdocs.yml, for a book anywhere."""
    config = MkDocsConfig()
    config.load_dict(
        {
            "site_name": "Second Side",
            "docs_dir": str(book),
            "site_dir": str(out),
            "theme": {"name": "material", "custom_dir": str(theme_folder())},
            "plugins": ["search", {"secondside": {"errors": errors}}],
        }
    )
    failed, _ = config.validate()
    if failed:
        raise RuntimeError(f"our own site settings are wrong: {failed}")
    return config


def preview_site(book: Path, host: str, port: int, told: Callable[[tuple[Diagnostic, ...], int], None]) -> None:
    """Serves the book and builds it anew after each change, errors shown in the page, until interrupted.

    `told(found, pages)` is called after every build. Raises OSError where the port is taken, before anything is built.
    """
    _free(host, port)
    root = preview_folder(port)

    def again() -> None:
        try:
            plugin = rebuild(book.resolve(), root)
        except BookErrors as stopped:
            return told(stopped.problems, 0)
        return told(plugin.found, len(plugin.site.pages))

    server = LiveReloadServer(again, host=host, port=port, root=str(root))
    try:
        again()
        server.watch(str(book))
        server.serve()
    except KeyboardInterrupt:
        pass
    finally:
        server.shutdown()
        shutil.rmtree(root, ignore_errors=True)


def preview_folder(port: int) -> Path:
    """An empty folder for the open pages that a port serves, where what an earlier run left by force is swept. Where
    nothing can be kept, a new one of the system's."""
    root = person_folder() / f"preview-{port}"
    try:
        person_folder().mkdir(parents=True, exist_ok=True, mode=0o700)
        shutil.rmtree(root, ignore_errors=True)
        root.mkdir(mode=0o700)
    except OSError:
        return Path(tempfile.mkdtemp(prefix="secondside-"))
    return root


def _free(host: str, port: int) -> None:
    """OSError where somebody serves that port: its folder is in use and must not be swept."""
    with socket.socket() as probe:
        if os.name == "posix":  # elsewhere this option would take the port away from its owner
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        probe.bind((host, port))


def rebuild(book: Path, folder: Path, errors: str = "show", said: Progress = silent) -> SecondSidePlugin:
    """One run of the site engine into `folder`, in place; the plugin knows what it made."""
    config = site_config(book, folder, errors)
    plugin = config.plugins["secondside"]
    plugin.said = said
    build(config)
    return plugin


@cache
def _remembered(book: Path) -> Remembered:
    """One for each book of a process, so that a preview remembers from round to round."""
    return Remembered(Kept(cache_folder(book)), Kept())


def _module(path: str) -> ExtraScriptValue:
    script = ExtraScriptValue(path)
    script.type = "module"
    return script


def _wanted(file: File, book: str, unfit: Set[str]) -> bool:
    """Of the book: pages and pictures. Of the theme: what our pages use, neither source maps nor foreign languages."""
    if file.src_dir == book:
        return file.src_uri not in unfit and (file.is_documentation_page() or PurePosixPath(file.src_uri).suffix.lower() in PICTURES)
    return not file.src_uri.endswith(".map") and not file.src_uri.startswith(UNUSED_OF_THEME)


def _readdress(file: File, files: Files) -> tuple[File, str, bool]:
    """(file, title, for staff) of a coach's own page, moved to an opaque address."""
    markdown, meta = get_data(file.content_string)
    title = str(meta.get("title") or get_markdown_title(markdown) or "Note")
    file.dest_uri = f"{own_page(file.src_uri)}/index.html"
    file.inclusion = InclusionLevel.NOT_IN_NAV
    if file.src_uri == "index.md":  # the engine's home is ours; links to his own index.md lead there
        files.remove(file)
        file.src_uri = f"{own_page(file.src_uri)}.md"
        files.append(file)
    return file, title, str(meta.get("staff", "")).lower() in ("yes", "true")


def _page_file(page: SitePage, config: MkDocsConfig) -> File:
    """Home is `index.md` to the engine; a coach's own index.md has moved away before."""
    level = InclusionLevel.INCLUDED if page.id == "" else InclusionLevel.NOT_IN_NAV
    file = File.generated(config, f"{page.id or 'index'}.md", content="", inclusion=level)
    file.dest_uri = f"{page.url}index.html"
    return file
