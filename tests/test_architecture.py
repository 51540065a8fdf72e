"""Who may import whom, how large a module may grow, where markup may stand: the rules of DEVELOPERS.md."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
GENERATOR = ROOT / "generator"

MAY_IMPORT = {
    "diagnostics": set(),
    "templates": set(),
    "model": {"diagnostics"},
    "vocabulary": {"diagnostics", "model"},
    "source": {"diagnostics"},
    "parsing": {"source", "vocabulary", "model", "diagnostics"},
    "settling": {"vocabulary", "model", "diagnostics"},
    "timeline": {"model", "diagnostics"},
    "lookalikes": {"timeline", "model", "vocabulary", "diagnostics", "templates"},
    "clock": {"timeline", "model", "vocabulary", "diagnostics", "templates"},
    "checks": {"timeline", "model", "vocabulary", "diagnostics", "clock", "lookalikes"},
    "diagrams": {"timeline", "model"},
    "jobs": {"timeline", "model", "vocabulary", "diagnostics"},
    "quiz": {"timeline", "model", "vocabulary", "diagnostics", "lookalikes", "jobs"},
    "pages": {
        "jobs", "quiz", "diagrams", "checks", "clock", "lookalikes", "timeline", "model", "vocabulary", "diagnostics",
        "parsing", "settling", "templates",
    },
    "vault": set(),
    "publish": {"vault", "diagnostics"},
}
EVERYWHERE = {"pipeline", "cli", "__main__", "commands", "mkdocs_plugin", "remembered", "__init__", "starter"}

ONLY_IN = {
    "yaml": {"source"},
    "mkdocs": {"mkdocs_plugin"},
    "svgwrite": {"diagrams/svg_writer"},
    "cryptography": {"vault/cipher"},
    "jinja2": {"templates", "pages/render", "publish", "mkdocs_plugin"},
}


def _modules():
    for path in sorted(GENERATOR.rglob("*.py")):
        yield path.relative_to(GENERATOR).with_suffix("").as_posix(), path


def _imports(path: Path) -> set[str]:
    """Every imported dotted name that runs, `if TYPE_CHECKING:` blocks left out."""
    names: set[str] = set()

    def visit(node: ast.AST) -> None:
        if isinstance(node, ast.If) and getattr(node.test, "id", "") == "TYPE_CHECKING":
            return
        if isinstance(node, ast.Import):
            names.update(alias.name for alias in node.names)
        if isinstance(node, ast.ImportFrom):
            assert not node.level, f"{path}: relative import"
            names.add(node.module or "")
            names.update(f"{node.module}.{alias.name}" for alias in node.names)
        for child in ast.iter_child_nodes(node):
            visit(child)

    visit(ast.parse(path.read_text(encoding="utf-8")))
    return names


MODULES = dict(_modules())


def _offences(package: str, imports: set[str]) -> set[str]:
    """Packages of ours among `imports` that `package` may not know."""
    ours = {i.split(".")[1] for i in imports if i.startswith("generator.")}
    return set() if package in EVERYWHERE else ours - {package} - MAY_IMPORT[package]


@pytest.mark.parametrize("name", sorted(MODULES))
def test_a_module_imports_only_what_its_package_may(name):
    package = name.split("/")[0]
    assert package in MAY_IMPORT or package in EVERYWHERE, f"{package} is not in the import table"
    assert not _offences(package, _imports(MODULES[name]))


def test_the_table_in_developers_md_is_this_one():
    """Every row: who, and which packages of ours. `quiz also` and the tables of rules are told in words."""
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("## Who may import whom")[1].split("##")[0]
    told: dict[str, set[str]] = {}
    for who, may in re.findall(r"^\| (`.*?) \| (.*?) \|.*\|$", page, re.MULTILINE):
        for package in re.findall(r"`(\w+)`", who):
            told[package] = {n for n in re.findall(r"`([\w.]+)`", may) if n in MAY_IMPORT} if may != "everything" else set(EVERYWHERE)
    assert {p: names - {p} for p, names in told.items() if p in MAY_IMPORT} == MAY_IMPORT
    assert set(told) - set(MAY_IMPORT) == EVERYWHERE - {"__init__", "__main__"}


@pytest.mark.parametrize("name", sorted(n for n in MODULES if n.startswith("pages/")))
def test_pages_know_of_the_early_stages_only_their_tables_of_rules(name):
    early = {i for i in _imports(MODULES[name]) if i.startswith(("generator.parsing", "generator.settling"))}
    assert all(i.startswith(("generator.parsing.rules", "generator.settling.rules")) for i in early)


@pytest.mark.parametrize("name", sorted(MODULES))
def test_outside_libraries_stay_behind_their_module(name):
    outside = {i.split(".")[0] for i in _imports(MODULES[name])}
    for library, homes in ONLY_IN.items():
        if library in outside:
            assert any(name == home or name.startswith(home + "/") for home in homes), f"{library} in {name}"


@pytest.mark.parametrize("name", sorted(MODULES))
def test_a_module_is_one_room(name):
    text = MODULES[name].read_text(encoding="utf-8")
    assert len(text.splitlines()) <= 500
    assert ast.get_docstring(ast.parse(text)) or not text.strip(), "a module says what goes in and out"


@pytest.mark.parametrize("name", sorted(MODULES))
def test_markup_stands_in_templates(name):
    text = MODULES[name].read_text(encoding="utf-8")
    assert not re.search(r"""["']\s*<(div|script|svg|p|ul|table|span|a)[ >]""", text)


def test_the_table_discriminates(tmp_path):
    """A made-up offender is caught, so the tests above can fail."""
    offender = tmp_path / "offender.py"
    offender.write_text("def f():\n    from generator.quiz.bank import x\n    import generator.model.court\n", encoding="utf-8")
    assert _offences("timeline", _imports(offender)) == {"quiz"}
    assert _offences("vault", _imports(offender)) == {"quiz", "model"}


PAGES = {"timeline.md": GENERATOR / "timeline" / "timeline.md", "language.md": GENERATOR / "vocabulary" / "language.md"}
CITED = re.compile(r"(timeline\.md|language\.md),? ?((?:sections? )?\d[\d.]*(?:(?:, | to | and |-)\d[\d.]*)*)?")


def _sections(page: str) -> set[str]:
    """`3` and `3.4` of a page whose sections are numbered headings with numbered rules below."""
    found, section = set(), ""
    for line in PAGES[page].read_text(encoding="utf-8").splitlines():
        if heading := re.match(r"## (\d+)\. ", line):
            section = heading[1]
            found.add(section)
        elif rule := re.match(r"(\d+)\. ", line):
            found.add(f"{section}.{rule[1]}")
    return found


def test_every_section_that_is_cited_stands_in_its_page():
    known = {page: _sections(page) for page in PAGES}
    cited = [
        (path.name, page, number.rstrip("."))
        for root in ("generator", "tests") for path in sorted((ROOT / root).rglob("*.py"))
        for page, said in CITED.findall(path.read_text(encoding="utf-8"))
        for number in re.findall(r"\d+(?:\.\d+)?", said)
    ]
    assert len(cited) > 90
    assert not [c for c in cited if c[2] not in known[c[1]]]


def test_the_top_level_holds_what_it_should():
    allowed = {
        "README.md", "DEVELOPERS.md", "mkdocs.yml", "plays", "generator", "site_theme", "tests", "pyproject.toml",
        "LICENSE", "Makefile", ".ci", ".gitignore",
    }
    import subprocess

    tracked = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if tracked.returncode:
        pytest.skip("not a git checkout")
    assert {line.split("/")[0] for line in tracked.stdout.split()} <= allowed
