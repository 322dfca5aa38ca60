"""The pieces of a repeat laid flat, against shapely, for every pattern of the catalogue."""

import numpy as np
import pytest
import shapely
from tests.layout.rooms import ells, herringbone, hexagons, star
from tests.layout.test_layout_clip import compare
from tests.pattern.samples import SAMPLES

from floorwright.layout.convex import is_convex
from floorwright.layout.repeat import outline_of, repeat_of
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import TOUCH

CELLS = {
    **{str(sample): sample.cell() for sample in SAMPLES},
    "ells": ells(200.0, 3.0),
    "hexagons": hexagons(200.0, 3.0),
    "herringbone of the tests": herringbone(600.0, 100.0, 3.0),
}
UNLIKE = ("octagon and dot", "pinwheel", "fish scale", "modular, three sizes", "setts in rows")


@pytest.mark.parametrize("cell", CELLS.values(), ids=CELLS)
def test_every_piece_is_as_it_is_by_itself(cell: UnitCell) -> None:
    repeat = repeat_of(cell)
    within, inside = repeat.shrunk(), repeat.inside
    assert len(repeat) == len(cell.pieces)
    for k, piece in enumerate(cell.pieces):
        alone, shape = outline_of(piece), shapely.Polygon(piece)
        for ours, theirs in ((repeat.of(k).corners, piece), (repeat.of(k).normals, alone.normals)):
            assert np.array_equal(ours, theirs)
        assert np.array_equal(repeat.of(k).offsets, alone.offsets)
        assert repeat.areas[k] == pytest.approx(shape.area)
        assert repeat.convex[k] == is_convex(piece)
        assert shape.contains_properly(shapely.Point(inside[k]))
        less = shapely.buffer(shape, -TOUCH, join_style="mitre", mitre_limit=20.0)
        assert shapely.Polygon(within.of(k).corners).hausdorff_distance(less) < TOUCH / 100


@pytest.mark.parametrize("name", UNLIKE)
def test_pieces_of_many_shapes_are_cut_as_overlay_cuts_them(name: str) -> None:
    rng = np.random.default_rng(5)
    compare(star(rng, 23, 3.0, 1), CELLS[name], Placement(origin=(37.0, -81.0), angle=0.4))


def test_several_pieces_with_as_many_sides_are_taken_row_by_row() -> None:
    repeat = repeat_of(CELLS["ells"])
    both = repeat.of(np.array([1, 0]))
    assert both.corners.shape == (2, 6, 2)
    assert np.array_equal(both.taken(np.array([1])).offsets[0], repeat.of(0).offsets)
