"""Every rule has one module, one page and one test file."""

from pathlib import Path

from generator.checks import CHECKS

HERE = Path(__file__).parent
MODULES = HERE.parent.parent / "generator" / "checks"
PARTS = {"__init__", "finding", "stills", "screen_shapes", "screen_uses", "allowing", "ordinary", "counts"}


def test_every_module_is_in_the_registry_and_has_its_test():
    modules = {p.stem for p in MODULES.glob("*.py")} - PARTS
    assert len(CHECKS) == len(modules)
    assert {f"test_{m}.py" for m in modules} <= {p.name for p in HERE.glob("test_*.py")}


def test_rule_ids_are_unique_and_written_small_with_hyphens():
    rules = [c.rule for c in CHECKS]
    assert len(set(rules)) == len(rules)
    assert all(r == r.lower() and " " not in r and "_" not in r for r in rules)


def test_every_page_says_where_its_number_comes_from():
    for check in CHECKS:
        assert "Source:" in check.page and check.page.startswith(f"{check.rule}: ")
