"""The one table of words. `table` is its public face; parser, suggestions, handbook page and schema read it."""
