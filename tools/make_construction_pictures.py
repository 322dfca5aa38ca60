"""Remakes docs/pictures/constructions/: every construction as the sheets draw it, by the program itself.

    .venv/bin/python tools/make_construction_pictures.py

The ways to raise a square stand in one bay, each asked for by name; the others are the answers of the exercises.
"""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

from floorwright.draw.sheet import Beside, Block
from floorwright.draw.view import View
from floorwright.export.pens import LIGHT
from floorwright.export.svg import view_svg
from floorwright.practice.bay import rectangle, solved
from floorwright.practice.exercise import Kind
from floorwright.practice.make import exercises
from floorwright.sheets.control import control_sheet
from floorwright.sheets.practice import picture_view

PICTURES = Path(__file__).parent.parent / "docs" / "pictures" / "constructions"
SQUARES = ("compass", "3-4-5", "equal diagonals", "semicircle")
EXERCISES: tuple[Kind, ...] = ("bisect", "perpendicular", "parallel", "mitre", "arc")
NUMBER = 5
"""Of the variations shown."""

PAST = "past an obstacle"
COLUMN = {
    "name": "column", "kind": "column", "wall": "A-B", "from": "A", "along": 4100, "out": 1950, "length": 400,
    "width": 400,
}  # fmt: skip


def bay(square: str, **more: Any) -> View:
    """Returns the plan of the control lines of a bay whose square is raised in one way."""
    tools = {"compass": "1.6 m", "tape": "8 m", "mark": 0.5, "set": 1, "square": square}
    lines = {"first_line": {"by": "mid-points", "walls": ["D-A", "B-C"]}, "centre": {"by": "mid-point"}}
    solution = solved("mm", rectangle(6000, 4300), {"control": {**lines, **tools}, **more})
    return next(view for view in _views(control_sheet(solution).blocks))


def _views(blocks: tuple[Block, ...]) -> Iterator[View]:
    for block in blocks:
        if isinstance(block, View):
            yield block
        elif isinstance(block, Beside):
            yield from _views(block.left)
            yield from _views(block.right)


def main() -> None:
    """Writes a picture of every construction."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    views = {name: bay(name) for name in SQUARES}
    views[PAST] = bay("compass", obstacles=[COLUMN])
    for made in exercises(EXERCISES, first=NUMBER, count=1, units="mm"):
        views[made.kind] = picture_view(made.solved, made.kind, made.title)
    for name, view in views.items():
        drawn = view_svg(replace(view, name=name, check_bar=False), standalone=False)
        # A page may be dark: the picture brings its own paper.
        drawn = drawn.replace("<defs>", f'<rect width="100%" height="100%" fill="{LIGHT.paper}"/>\n<defs>', 1)
        (PICTURES / f"{name.replace(' ', '-')}.svg").write_text(drawn, encoding="utf-8")


if __name__ == "__main__":
    main()
