"""Pages for the browser of the machine: the templates of `page_templates/print`, filled in."""

from __future__ import annotations

from markupsafe import Markup

from generator.pages.render import environment


def picture_page(svg: str) -> str:
    """One picture that fills the window."""
    return environment().get_template("print/picture.html").render(svg=Markup(svg))
