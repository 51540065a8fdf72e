"""Runs every row, or those named; prints the table, writes bench.json, and fails when a budget is broken."""

from __future__ import annotations

import importlib
import json
import pkgutil
import platform
import sys
import traceback
from pathlib import Path

from tests import bench
from tests.bench.budgets import BUDGETS

RESULT = Path(__file__).resolve().parents[2] / "bench.json"


def rows() -> dict[str, object]:
    """The row modules by the keys they measure."""
    found = {}
    for module in pkgutil.iter_modules(bench.__path__):
        if module.name.startswith("row_"):
            row = importlib.import_module(f"tests.bench.{module.name}")
            found.update(dict.fromkeys(row.KEYS, row))
    return found


def measure(wanted: set[str]) -> dict[str, float | None]:
    """Each wanted key's value; None when its row failed."""
    values: dict[str, float | None] = {}
    by_row = {row for key, row in rows().items() if not wanted or key in wanted}
    for row in sorted(by_row, key=lambda r: r.__name__):
        print(f"... {row.__name__.removeprefix('tests.bench.row_')}", file=sys.stderr, flush=True)
        try:
            values.update(row.measure(wanted))
        except Exception:  # noqa: BLE001 - one row that fails must not hide the numbers of the others
            traceback.print_exc()
            values.update(dict.fromkeys(row.KEYS))
    return values


def verdict(value: float | None, limit: float, measured: bool) -> str:
    """One word for the table."""
    if not measured:
        return "no row yet"
    if value is None:
        return "failed"
    return "kept" if value <= limit else "OVER"


def main() -> int:
    """Exit status 1 when a budget is broken or a row failed."""
    wanted = set(sys.argv[1:])
    unknown = wanted - {b.key for b in BUDGETS}
    if unknown:
        print(f"no such budget: {', '.join(sorted(unknown))}", file=sys.stderr)
        return 2
    values = measure(wanted)
    table = []
    for budget in BUDGETS:
        if wanted and budget.key not in wanted:
            continue
        value = values.get(budget.key)
        word = verdict(value, budget.limit, budget.key in values)
        shown = "-" if value is None else f"{value:.2f}"
        print(f"{budget.what:58} {shown:>9} <= {budget.limit:<6g} {budget.unit:3} {word}")
        table.append({"key": budget.key, "what": budget.what, "value": value, "limit": budget.limit, "unit": budget.unit, "verdict": word})
    machine = f"{platform.system()} {platform.machine()}, Python {platform.python_version()}"
    RESULT.write_text(json.dumps({"version": 1, "machine": machine, "rows": table}, indent=1) + "\n", encoding="utf-8")
    return int(any(row["verdict"] in ("OVER", "failed") for row in table))


if __name__ == "__main__":
    sys.exit(main())
