"""The budgets, measured in one run: `python -m tests.bench [KEY ...]`.

A row is a module `row_<something>.py` here with a function `measure()` that returns `{key: value}` for keys of
`budgets.py`. Add a row by adding a module; nothing else changes.
"""
