"""Files -> located tree: every value as its raw text with file, line and column. Interprets no key.

`read_book_files(folder) -> (files, diagnostics)`, `unfit_files(folder) -> diagnostics` of pages and pictures, `compose(text, path) -> (node or None, diagnostics)`.
"""

from generator.source.composing import compose
from generator.source.files import BookFile, read_book_files
from generator.source.nodes import ListNode, MappingNode, Node, TextNode
from generator.source.own_files import PICTURES, unfit_files

__all__ = ["PICTURES", "BookFile", "ListNode", "MappingNode", "Node", "TextNode", "compose", "read_book_files", "unfit_files"]
