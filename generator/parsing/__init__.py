"""Located tree -> model. `parse_book(files) -> (Book, diagnostics)`, `parse_line(text, location) -> (Line or None, diagnostics)`."""

from generator.parsing.book import parse_book, soften
from generator.parsing.sentence import parse_line

__all__ = ["parse_book", "parse_line", "soften"]
