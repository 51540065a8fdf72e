"""Pages for the browser of the machine: the templates of `page_templates/print`, filled in."""

from __future__ import annotations

from importlib.resources import files

from markupsafe import Markup

from generator.commands._paper import Sheet
from generator.pages.render import environment

_STYLES = ("tokens.css", "court.css", "paper.css")
_SCRIPT = "paper_fit.js"


def picture_page(svg: str) -> str:
    """One picture that fills the window."""
    return environment().get_template("print/picture.html").render(svg=Markup(svg))


def paper_page(template: str, paper: str, sheet: Sheet, **values: object) -> str:
    """A print document that needs nothing but itself. `paper`: a CSS page size."""
    assets = files("site_theme") / "assets"
    css = "".join((assets / "css" / name).read_text(encoding="utf-8") for name in _STYLES)
    return environment().get_template(f"print/{template}.html").render(
        css=Markup(css),
        script=Markup((assets / "js" / _SCRIPT).read_text(encoding="utf-8")),
        paper=paper,
        floors=[Markup(floor) for floor in sheet.floors.values()],
        pictures={key: Markup(svg) for key, svg in sheet.figures.pictures.items()},
        **values,
    )
