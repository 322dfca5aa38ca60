"""A pattern brought on to where it catches lines up as it says, by what the layout itself says of it."""

from importlib.resources import files

import numpy as np
import pytest

from floorwright.job.load import load_text
from floorwright.job.solve import solve
from floorwright.layout.axis import axes_of
from floorwright.layout.catches import Catch, catches
from floorwright.layout.elsewhere import placed
from floorwright.layout.floor_lines import lines_up
from floorwright.layout.layout import Layout
from floorwright.layout.score import Floor
from floorwright.pattern.cell import Placement
from floorwright.tolerance import STRIP

KITCHEN = (files("floorwright") / "examples" / "larch-row-kitchen.toml").read_text(encoding="utf-8")
HERRINGBONE = KITCHEN.replace('pattern = "grid"', 'pattern = "herringbone"\nstand = "square to wall"').replace(
    "width = 447", "width = 147"
)


def laid(text: str) -> tuple[Layout, Floor]:
    job = load_text(text).job
    assert job is not None
    layout = solve(job).layouts[0]
    assert layout.floor is not None
    return layout, layout.floor


@pytest.fixture(scope="module")
def kitchen() -> tuple[Layout, Floor]:
    return laid(KITCHEN)


def brought_on(catch: Catch, layout: Layout, repeats: int) -> Placement:
    """The laid position moved along the catch's direction until it catches, so many pitches on."""
    origin = np.array(layout.chosen.placement.origin)
    x, y = origin + (catch.at + repeats * catch.pitch - float(origin @ catch.direction)) * catch.direction
    return Placement(origin=(float(x), float(y)), angle=layout.chosen.placement.angle)


@pytest.mark.parametrize("repeats", [0, -3])
def test_what_it_catches_on_lines_up(kitchen: tuple[Layout, Floor], repeats: int) -> None:
    layout, floor = kitchen
    axes = axes_of(layout.cell, layout.chosen.placement.angle)
    found = catches(floor, layout.cell, layout.chosen.placement.angle)
    said = {catch.words for catch in found}
    assert {"a joint on the first line", "the middle of a tile at the middle of door", "balanced along"} <= said
    for catch in found:
        placement = brought_on(catch, layout, repeats)
        walls = placed(floor, layout.cell, placement).walls
        if catch.words.startswith("full tile at "):
            wall = next(one for one in walls if one.wall == catch.words.removeprefix("full tile at "))
            assert wall.tile - wall.thin <= STRIP + wall.fat - wall.thin
        elif catch.words.startswith("balanced"):
            ends = {one.wall: one.thin for one in walls}
            pair = ("S", "N") if catch.words.endswith("along") else ("W", "E")
            assert ends[pair[0]] == pytest.approx(ends[pair[1]], abs=1e-6)
        else:
            # `lines_up` counts what a line gains to its ends too: a wall's middle line is not quite along the pattern.
            assert catch.words in lines_up(floor.lines, axes, np.array(placement.origin), walls)


def test_a_pattern_without_rows_catches_with_its_working_lines() -> None:
    layout, floor = laid(HERRINGBONE)
    angle = layout.chosen.placement.angle
    found = catches(floor, layout.cell, angle)
    assert found
    for catch in found:
        family = next(one for one in layout.cell.lines if catch.words.startswith(f"{one.name} "))
        line = next(one for one in floor.lines if one.words and catch.words.endswith(one.words))
        origin = np.array(brought_on(catch, layout, 2).origin)
        off = (float((line.point - origin) @ catch.direction) - family.offset) / family.spacing
        assert off == pytest.approx(round(off), abs=1e-6)
