"""A built site becomes a published folder: locked by `vault`, scanned, written so that a failed run leaves the old one whole.

Knows no plays: who may see what arrives as paths, what must not leak arrives as plain strings.
"""
