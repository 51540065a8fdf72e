"""Checked values of the field: court, sentences, plays, the book, settled branches. No files, no clock, no YAML."""

from collections.abc import Mapping
from types import MappingProxyType


def nothing() -> Mapping:
    """The empty mapping, for defaults of frozen values."""
    return MappingProxyType({})
