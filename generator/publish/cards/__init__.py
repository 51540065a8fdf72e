"""Access cards: one page per person with his code, and the same code as a picture for the camera."""

from __future__ import annotations

import io
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from urllib.parse import urlsplit

import segno
from jinja2 import Environment, FunctionLoader, StrictUndefined
from markupsafe import Markup

from generator.publish.private_state import Person

LOCAL = {"localhost", "127.0.0.1", "::1"}


@dataclass(frozen=True, slots=True)
class _Card:
    name: str
    role: str
    address: str
    groups: tuple[str, ...]
    picture: Markup


def cards_page(people: Iterable[Person], address: str) -> str:
    """A page to print, one sheet a person, the code's link drawn in vectors."""
    look = Markup(_text("card.css").strip())
    cards = [_card(person, address) for person in people]
    return _environment().get_template("card.html").render(cards=cards, look=look)


def card_link(code: str, address: str) -> str:
    """The address with the code behind `#`: browsers never send that part to the host."""
    return f"{address}#c={code}"


def usable_address(address: str) -> str | None:
    """The address as printed, with a closing slash; None when phones could not open a locked site there."""
    try:
        parts = urlsplit(address.strip())
        port = parts.port  # a number that is no port raises
    except ValueError:
        return None
    safe = parts.scheme == "https" or (parts.scheme == "http" and parts.hostname in LOCAL)
    broken = any(c.isspace() or not c.isprintable() for c in address.strip()) or "@" in parts.netloc or port == 0
    if not safe or not parts.hostname or broken or parts.query or parts.fragment:
        return None
    path = parts.path if parts.path.endswith("/") else f"{parts.path}/"
    return f"{parts.scheme}://{parts.netloc}{path}"


def _card(person: Person, address: str) -> _Card:
    if person.staff:
        role = "Coach"
    else:
        role = " and ".join(f"position {n}" for n in person.positions)
    return _Card(person.name, role, address, tuple(person.code.split("-")), _picture(card_link(person.code, address)))


def _picture(link: str) -> Markup:
    drawn = io.BytesIO()
    segno.make(link, error="m", micro=False).save(
        drawn, kind="svg", border=4, xmldecl=False, svgns=True, omitsize=True, nl=False, unit=None
    )
    return Markup(drawn.getvalue().decode())


@cache
def _environment() -> Environment:
    return Environment(loader=FunctionLoader(_text), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)


def _text(name: str) -> str:
    return files("generator.publish").joinpath("cards", name).read_text(encoding="utf-8")
