"""The order: counts, boxes, spares."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.cuts.schedule import CutList
from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Region
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option
from floorwright.layout.piece import Piece
from floorwright.pattern.catalogue import grid
from floorwright.pattern.cell import Placement
from floorwright.takeoff.count import boxes_for, order
from floorwright.takeoff.order import Order
from floorwright.units import parse_length

INCH = 25.4


def laid(full: int, cut: int, tile: float) -> Layout:
    """A layout that holds so many pieces, each as large as a tile; where they lie is nobody's business here."""
    option = Option(
        name="by hand", placement=Placement(origin=(0.0, 0.0), angle=0.0), joint=0.0, full=full, cut=cut, worst=0.0,
        worst_piece="", worst_thin=0.0, walls=(), shaken=0.0, fragile=False, refused="", under=0,
    )  # fmt: skip
    pieces = tuple(
        Piece(
            id=f"floor:{n},0,0", index=(n, 0, 0), full=n < full, rings=(), edges=(), area=tile * tile, narrowest=tile,
            depth=tile,
        )
        for n in range(full + cut)
    )  # fmt: skip
    return Layout(
        zone="floor", cell=grid((tile, tile), 3.0), region=Region(rings=(np.zeros((0, 2)),), edges=((),)),
        gap=(0.0, 0.0), limit=0.0, chosen=option, options=(option,), pieces=pieces, proofs=(), findings=(),
    )  # fmt: skip


def ordered(full: int, cut: int, *, box: int, spares: int, tile: float = 300.0) -> Order:
    cuts = CutList(zone="floor", pieces=(), sawn=1000.0, tiles=cut)
    return order(goods_name="tile", layouts=[laid(full, cut, tile)], cuts=[cuts], room_area=1e7, box=box, spares=spares)


def test_boxes_are_rounded_up() -> None:
    # Scenario check V-23, our calculation: 51.148 m2 in tiles of 400 x 400, 12 to a box
    tiles = -(-51_148_000 // (400 * 400))
    assert tiles == 320
    assert boxes_for(tiles, 12) == (27, 4)


def test_plot_7_bath() -> None:
    # Scenario S1: 54 full and 34 cut
    found = ordered(54, 34, box=10, spares=4, tile=11.75 * INCH)
    assert (found.tiles, found.boxes, found.left) == (88, 10, 8)
    lines = {line.code: line for line in found.lines}
    assert lines["tiles"].basis == "54 full + 34 cut, one cut piece from each tile"
    assert lines["order"].quantity == 92
    assert found.laid_area == pytest.approx(88 * (11.75 * INCH) ** 2)
    assert found.floor_area == 1e7
    assert parse_length("11 3/4in") ** 2 * 88 == pytest.approx(found.laid_area)


def test_without_a_box_size_no_boxes_are_made_up() -> None:
    found = ordered(54, 34, box=0, spares=2)
    assert (found.boxes, found.left) == (0, 0)
    assert {"boxes", "left"}.isdisjoint(line.code for line in found.lines)


def test_zones_in_the_same_goods_go_into_one_order() -> None:
    cuts = CutList(zone="floor", pieces=(), sawn=1000.0, tiles=3)
    both = order(
        goods_name="tile", layouts=[laid(2, 3, 300), laid(5, 3, 300)], cuts=[cuts, cuts], room_area=1e7, box=0, spares=0
    )
    assert (both.full, both.cut, both.tiles) == (7, 6, 13)


@given(tiles=st.integers(0, 10**6), box=st.integers(1, 500))
def test_boxes_hold_the_tiles_and_no_box_is_idle(tiles: int, box: int) -> None:
    boxes, left = boxes_for(tiles, box)
    assert boxes * box == tiles + left
    assert 0 <= left < box


@pytest.mark.parametrize(("tiles", "box"), [(-1, 5), (5, -1)])
def test_counts_under_zero_are_misuse(tiles: int, box: int) -> None:
    with pytest.raises(FloorwrightValueError):
        boxes_for(tiles, box)
