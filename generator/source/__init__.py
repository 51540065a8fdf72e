"""Files -> located tree: every value as its raw text with file, line and column. Interprets no key.

`read_book_files(folder) -> (files, diagnostics)`, `compose(text, path) -> (node or None, diagnostics)`.
"""

from generator.source.composing import compose
from generator.source.files import BookFile, read_book_files
from generator.source.nodes import ListNode, MappingNode, Node, TextNode

__all__ = ["BookFile", "ListNode", "MappingNode", "Node", "TextNode", "compose", "read_book_files"]
