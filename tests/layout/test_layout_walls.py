"""Cuts along walls, at both ends."""

from fractions import Fraction

import numpy as np
import pytest
from tests.layout.jobs import rectangle_room, room_of

from floorwright.layout.axis import axes_of, wall_faces
from floorwright.layout.option import WallCut
from floorwright.layout.sides import sides_of_room
from floorwright.layout.walls import strip_at, wall_cut
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.pattern.cell import UnitCell
from floorwright.plan.room import Room


def cuts(
    room: Room, cell: UnitCell, origin: tuple[float, float], gap: float = 0.0, spare: float = 0.0
) -> dict[str, WallCut]:
    axes = axes_of(cell, 0.0)
    return {
        face.name: wall_cut(face, axis, other, np.array(origin), spare, wall_faces(sides_of_room(room, gap), axis))
        for axis, other in zip(axes, reversed(axes), strict=True)
        for face in wall_faces(sides_of_room(room, gap), axis)
    }


def test_cuts_of_a_true_rectangle() -> None:
    # From the crossing at (0, 0): tiles from 1.5 to 301.5, 304.5 to 604.5, ...; walls at 0 and 1000, gap 5.
    found = cuts(rectangle_room(1000.0, 700.0), grid((300.0, 300.0), 3.0), (100.0, 50.0), gap=5.0)
    assert {name: cut.start for name, cut in found.items()} == pytest.approx(
        {"S": 50 - 1.5 - 5, "E": (1000 - 5 - 100 - 1.5) - 2 * 303, "N": (700 - 5 - 51.5) - 2 * 303, "W": 100 - 1.5 - 5}
    )
    assert all(cut.start == cut.end and cut.taper == 0 and cut.fits for cut in found.values())


def test_taper_is_a_tile_and_joint_along_the_wall() -> None:
    room = room_of({"A": (0, 0), "B": (3030, 0), "C": (3030, 900), "D": (0, 930)}, ("S", "E", "N", "W"))
    north = cuts(room, grid((300.0, 300.0), 3.0), (0.0, 0.0))["N"]
    assert north.taper == pytest.approx(30 * 303 / np.hypot(3030, 30))
    assert (north.start, north.end) == pytest.approx((900 - 1.5 - 2 * 303, 930 - 1.5 - 2 * 303))


def test_row_is_followed_from_the_thin_end() -> None:
    # The thin end is 290; 20 farther out at the fat end a tile and its joint leave 7 over, not a new row of 7.
    room = room_of({"A": (0, 0), "B": (3000, 0), "C": (3000, 291.5), "D": (0, 311.5)}, ("S", "E", "N", "W"))
    north = cuts(room, grid((300.0, 300.0), 3.0), (0.0, 0.0))["N"]
    assert (north.start, north.end) == pytest.approx((290, 310))
    assert not north.fits
    assert north.over == pytest.approx(7)


def test_fat_end_in_the_joint_leaves_nothing_over_but_does_not_fit() -> None:
    room = room_of({"A": (0, 0), "B": (3000, 0), "C": (3000, 291.5), "D": (0, 303.5)}, ("S", "E", "N", "W"))
    north = cuts(room, grid((300.0, 300.0), 3.0), (0.0, 0.0))["N"]
    assert not north.fits
    assert north.over == 0
    spared = cuts(room, grid((300.0, 300.0), 3.0), (0.0, 0.0), spare=2.0)["N"]
    assert spared.fits
    assert (spared.start, spared.end) == pytest.approx((290, 300))


def test_a_lane_narrower_than_a_tile_has_what_both_walls_leave() -> None:
    # A tile of 597 on the middle of a lane that is 590 between the gaps at its foot and 580 at its head.
    corners = {"A": (0.0, 0.0), "B": (600.0, 0.0), "C": (595.0, 4000.0), "D": (5.0, 4000.0)}
    found = cuts(room_of(corners, ("S", "E", "N", "W")), grid((597.0, 597.0), 3.0), (0.0, 100.0), gap=5.0)
    assert (found["E"].start, found["E"].end) == pytest.approx((590.0, 580.0), abs=0.02)
    assert (found["W"].start, found["W"].end) == pytest.approx((580.0, 590.0), abs=0.02)
    # Up the lane every wall cuts tiles of its own.
    assert found["S"].start == pytest.approx(100 - 1.5 - 5)
    assert found["N"].start == pytest.approx(4000 - 5 - 101.5 - 6 * 600)


def test_walls_that_run_across_the_rows_say_nothing() -> None:
    room = room_of({"A": (0, 0), "B": (3000, 0), "C": (3000, 1000), "D": (0, 1200)}, ("S", "E", "N", "W"))
    assert set(cuts(room, grid((300.0, 300.0), 3.0), (0.0, 0.0))) == {"S", "E", "W"}
    assert set(cuts(room, grid((600.0, 600.0), 3.0), (0.0, 0.0))) == {"S", "N", "E", "W"}


def test_courses_of_a_bond_leave_cuts_by_turns() -> None:
    cell = brick_bond((600.0, 300.0), 3.0, Fraction(1, 2))
    found = cuts(rectangle_room(2000.0, 2000.0), cell, (0.0, 0.0))
    # Across, 2000 - 1.5 leaves 189.5 of the fourth tile; the next course, half a pitch on, leaves 491.
    assert found["E"].start == pytest.approx(2000 - 1.5 - 3 * 603)
    # At W every second course starts with a joint half inside the wall: nothing fills that.
    assert not found["W"].fits
    shifted = cuts(rectangle_room(2000.0, 2000.0), cell, (100.0, 0.0))
    assert shifted["W"].start == pytest.approx(98.5)


def test_strip_of_a_short_wall_counts_only_the_courses_it_meets() -> None:
    cell = brick_bond((600.0, 300.0), 3.0, Fraction(1, 2))
    across, along = axes_of(cell, 0.0)
    room = rectangle_room(2000.0, 250.0)
    (west,) = [face for face in wall_faces(sides_of_room(room, 0.0), across) if face.name == "W"]
    # The course from y 0 to 303 has a perp at x 0; the one above would have it at 301.5.
    assert strip_at(west, across, along, np.array([0.0, 0.0]), 0.0) is not None
    assert strip_at(west, across, along, np.array([0.0, -303.0]), 0.0) is None
