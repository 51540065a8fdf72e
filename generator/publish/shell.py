"""The few files that are published in the clear: the locked page, its scripts and icons. The same for every book.

Scripts are written as modules and joined here, because service workers of some browsers take no modules; every published
file stands alone, so that an old page and a new script of the same host never meet half-way.
"""

from __future__ import annotations

import hashlib
import re
from base64 import b64encode
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from jinja2 import Environment, FunctionLoader, StrictUndefined
from markupsafe import Markup

_IMPORT = re.compile(r"^import\b[^;]*;\n", re.MULTILINE)
_EXPORT = re.compile(r"^export (?=(async |function|class|const))", re.MULTILINE)
_WORKER = ("core.js", "store.js", "fetching.js", "cabinet.js", "outbox.js", "plain.js", "reply.js", "book.js", "saving.js", "sw.js")
_START = ("core.js", "book.js", "sentences.js", "fetching.js", "lite.js", "start.js")


@cache
def shell_files() -> Mapping[str, bytes]:
    """Every plain file of a published site, by its path."""
    version = _version()
    page = _page()
    scripts = {"_v/start.js": _joined(_START), "_v/client.js": _alone(_text("client.js"))}
    worker = _alone(_joined(_WORKER).replace("%SHELL_VERSION%", version))
    plain = {f"_v/{name}": _raw(name) for name in ("app.webmanifest", "icon.svg", "icon-180.png", "icon-512.png")}
    return {
        **{path: text.encode() for path, text in scripts.items()}, **plain, "sw.js": worker.encode(),
        "index.html": page.encode(), "404.html": page.encode(), "robots.txt": _raw("robots.txt"), ".nojekyll": b"",
    }


def shell_hashes() -> Mapping[str, str]:
    """What each plain file must be, byte for byte."""
    return {path: hashlib.sha256(content).hexdigest() for path, content in shell_files().items()}


def page_head(up: str) -> str:
    """What every finished page gets first in its head; `up` leads from the page to the site's root."""
    return _template("page_head.html").render(up=up).strip()


def module_text(name: str) -> str:
    """A script of the shell as written, for tests."""
    return _text(name)


def _page() -> str:
    first = _text("first.js").strip()
    digest = b64encode(hashlib.sha256(first.encode()).digest()).decode()
    icon = "data:image/svg+xml;base64," + b64encode(_raw("icon.svg")).decode()  # in the page: hosts are not asked for one
    return _template("page.html").render(
        icon=icon, first_script=Markup(first), first_hash=Markup(f"sha256-{digest}"), look=Markup(_text("page.css").strip())
    )


def _version() -> str:
    names = sorted(p.name for p in files("generator.publish").joinpath("shell").iterdir() if p.is_file())
    digest = hashlib.sha256()
    for name in names:
        digest.update(name.encode() + b"\0" + _raw(name))
    return digest.hexdigest()[:12]


def _joined(names: tuple[str, ...]) -> str:
    return "\n".join(_EXPORT.sub("", _IMPORT.sub("", _text(name))) for name in names)


def _alone(script: str) -> str:
    return f"(() => {{\n{script}\n}})();\n"


@cache
def _environment() -> Environment:
    return Environment(loader=FunctionLoader(_text), autoescape=True, undefined=StrictUndefined)


def _template(name: str):
    return _environment().get_template(name)


def _raw(name: str) -> bytes:
    return files("generator.publish").joinpath("shell", name).read_bytes()


def _text(name: str) -> str:
    return _raw(name).decode("utf-8")
