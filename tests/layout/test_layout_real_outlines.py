"""Real room outlines, with curves and holes, read from the folder beside the repository; they are not part of it."""

import math

import numpy as np
import pytest
import shapely
from benchmarks import rooms
from tests.layout.oracle import over_the_bound

from floorwright.geometry.region import Region

ROOMS = list(rooms.outlines())
if not ROOMS:
    pytest.skip(f"no outlines in {rooms.FOLDER}", allow_module_level=True)

TURNS = (0.0, math.pi / 4)


def test_all_are_there() -> None:
    assert len(ROOMS) == 176
    assert any(len(region.rings) > 1 for _, region in ROOMS)


@pytest.mark.slow
@pytest.mark.parametrize("turned", TURNS, ids=["longest wall", "45"])
@pytest.mark.parametrize("room", ROOMS, ids=[name for name, _ in ROOMS])
def test_lays_out_and_is_proved(room: tuple[str, Region], turned: float) -> None:
    check(room, turned)


@pytest.mark.parametrize("turned", TURNS, ids=["longest wall", "45"])
@pytest.mark.parametrize("room", ROOMS[::16], ids=[name for name, _ in ROOMS[::16]])
def test_some_lay_out_and_are_proved(room: tuple[str, Region], turned: float) -> None:
    check(room, turned)


def check(room: tuple[str, Region], turned: float) -> None:
    """No exact overlay is needed, no floor is lost or laid twice, and every answer is proved."""
    name, outline = room
    laid = rooms.lay(name, outline, turned)
    assert laid.clipped.mended == 0
    assert laid.proved
    tile = rooms.CELL.size[0] * rooms.CELL.size[1]
    covered = laid.clipped.runs.count * tile + float(laid.clipped.area.sum())
    floor = rooms.area(laid.region)
    joints = 1 - tile / abs(float(np.linalg.det(rooms.CELL.repeat)))
    # A joint round every tile, and at most a joint's width along every wall.
    around = shapely.Polygon(laid.region.rings[0], laid.region.rings[1:]).length * rooms.CELL.joint
    assert covered <= floor + 1.0
    assert covered >= floor * (1 - joints) - around
    if turned and len(laid.region.rings[0]) < 40 and floor < 4e7:
        angle = rooms.longest_wall(outline) + turned
        bound = min(proof.bound for proof in laid.proofs)
        assert not over_the_bound(laid.region, rooms.CELL, angle, bound, laid.placement, 5)
