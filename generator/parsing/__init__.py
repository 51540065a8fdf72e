"""Located tree -> model. `parse_book(files) -> (Book, diagnostics)`, `parse_line(text, location) -> (Line or None, diagnostics)`."""
