"""The templates of `site_theme/page_templates`, everything escaped: pages and charts take their markup from there."""

from __future__ import annotations

from functools import cache

from jinja2 import BytecodeCache, Environment, PackageLoader, StrictUndefined


@cache
def our_templates(compiled: BytecodeCache | None = None) -> Environment:
    """Our own environment: the site engine's does not escape. `compiled`: where compiled templates are kept."""
    return Environment(
        loader=PackageLoader("site_theme", "page_templates"), autoescape=True, undefined=StrictUndefined,
        trim_blocks=True, lstrip_blocks=True, bytecode_cache=compiled,
    )
