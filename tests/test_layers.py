"""A part imports only parts on an earlier row: the architecture, kept by a test (design section 2)."""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "src" / "floorwright"
LAYERS = (
    "errors tolerance",
    "units findings",
    "geometry",
    "plan pattern",
    "survey",
    "control",
    "layout",
    "cuts setout scoring",
    "takeoff",
    "rules",
    "verify",
    "draw",
    "job",
    "practice",
    "sheets",
    "export",
    "web",
    "cli",
    "__main__",
)
RANK = {part: row for row, parts in enumerate(LAYERS) for part in parts.split()}
FREE = {"_version"}
MODULES = sorted(path for path in PACKAGE.rglob("*.py"))
CORE = {part for row in LAYERS[: LAYERS.index("draw")] for part in row.split()}
CORE_MAY_IMPORT = {"numpy", "shapely"}
STANDARD_CORE = {
    "bisect", "collections", "dataclasses", "enum", "fractions", "functools", "heapq", "itertools", "math", "re",
    "typing", "unicodedata", "__future__", "operator", "decimal",
}  # fmt: skip


def part_of(path: Path) -> str:
    first = path.relative_to(PACKAGE).parts[0]
    return first.removesuffix(".py")


def imported(path: Path) -> set[str]:
    """Every dotted module name that a file imports, inside functions too."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            assert node.module is not None
            names.add(node.module)
            if node.module == "floorwright":
                names.update(f"floorwright.{alias.name}" for alias in node.names)
    return names


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_run_upward_only(path: Path) -> None:
    part = part_of(path)
    for name in imported(path):
        if not name.startswith("floorwright.") or part == "__init__":
            continue
        other = name.split(".")[1]
        if other in FREE or name == "floorwright.__version__":
            continue
        assert other == part or RANK[other] < RANK[part], f"{part} must not import {other} ({name})"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_core_opens_prints_and_serves_nothing(path: Path) -> None:
    part = part_of(path)
    if part not in CORE:
        return
    tops = {name.split(".")[0] for name in imported(path)} - {"floorwright"}
    assert tops <= CORE_MAY_IMPORT | STANDARD_CORE, f"{part} imports {tops - CORE_MAY_IMPORT - STANDARD_CORE}"


def test_every_part_has_a_row() -> None:
    parts = {part_of(path) for path in MODULES} - FREE - {"__init__"}
    assert parts <= set(RANK), parts - set(RANK)
