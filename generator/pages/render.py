"""Views -> HTML bodies, by the templates of `site_theme/page_templates`, everything escaped."""

from __future__ import annotations

from functools import cache
from sys import version_info

from jinja2 import Environment, FileSystemBytecodeCache

from generator.diagnostics import Diagnostic
from generator.pages.addresses import root_from
from generator.pages.kept import ours, person_folder
from generator.templates import our_templates


@cache
def environment() -> Environment:
    """Our templates, compiled ones kept for the next build."""
    return our_templates(compiled_templates())


def compiled_templates() -> FileSystemBytecodeCache | None:
    """Where compiled templates lie; a changed template is compiled anew. None where nothing can be kept."""
    folder = person_folder() / f"templates-{version_info.major}{version_info.minor}"
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError:
        return None
    return FileSystemBytecodeCache(str(folder)) if ours(folder) else None


def render(template: str, view: object, page_id: str, **more: object) -> str:
    """The body of one page. `template` without `.html`; `page_id` tells how far the site's root is."""
    made = environment().get_template(f"{template}.html")
    return made.render(view=view, root=root_from(page_id), page_id=page_id, **more)


def template_text(name: str) -> str:
    """A text of the handbook as written, from the same folder as the templates."""
    found = environment().loader
    assert found is not None
    return found.get_source(environment(), name)[0]


def found_by_body(found_by: str) -> str:
    """What search reads of a page."""
    return environment().get_template("found_by.html").render(found_by=found_by)


def with_problems(body: str, problems: tuple[Diagnostic, ...]) -> str:
    """`body` below the errors of the book, for the preview; unchanged without any."""
    if not problems:
        return body
    return environment().get_template("problems.html").render(problems=problems) + body
