"""Positions by hand and the joints that make them fit."""

import pytest
from tests.layout.jobs import larch_row, rectangle_room

from floorwright.layout.axis import axes_of, wall_faces
from floorwright.layout.positions import (
    BALANCED,
    JOINT_ON_CENTRE,
    Position,
    least_joint,
    place,
    positions_of,
    whole_steps,
)
from floorwright.layout.sides import sides_of_room
from floorwright.pattern.catalogue import grid

INCH = 25.4


def test_balance_of_a_tapered_room_is_on_its_thin_ends() -> None:
    _, along = axes_of(grid((447.0, 447.0), 3.0), 0.0)
    faces = wall_faces(sides_of_room(larch_row(), 5.0), along)
    (balanced,) = [position for position in positions_of(faces) if position.name == BALANCED]
    placed = place(balanced, faces, along, 1796.0, 0.0)
    assert placed.fits
    # Of the two ways, 437.5 each would need 461.5 at the fat end.
    assert placed.thin == pytest.approx(212.46, abs=0.01)


def test_least_joint_of_a_full_tile_at_the_door() -> None:
    # S2: 4.98 over at the far wall, shared by the seven joints on the way: 3 + 4.98 / 7.
    _, along = axes_of(grid((447.0, 447.0), 3.0), 0.0)
    faces = wall_faces(sides_of_room(larch_row(), 5.0), along)
    (full,) = [position for position in positions_of(faces) if position.name == "full tile at S"]
    least = least_joint(full, faces, along, 1796.0, 0.0, most=5.0, thinnest=223.5)
    assert least == pytest.approx(3.711, abs=5e-4)
    assert least_joint(full, faces, along, 1796.0, 0.0, most=3.6, thinnest=223.5) is None


def test_joints_opened_take_up_a_sliver() -> None:
    # T-70: 6 joints each 1/32 wider take up 3/16: a row of 7 tiles that is 3/16 short of the wall fits it.
    tile, joint = 12 * INCH, INCH / 8
    width = 7 * tile + 6 * (joint + INCH / 32)
    across, _ = axes_of(grid((tile, tile), joint), 0.0)
    faces = wall_faces(sides_of_room(rectangle_room(width, 1000.0), 0.0), across)
    (full,) = [position for position in positions_of(faces) if position.name == "full tile at W"]
    least = least_joint(full, faces, across, width / 2, 0.0, most=INCH / 4, thinnest=tile / 2)
    assert least == pytest.approx(joint + INCH / 32, abs=2e-3)


def test_a_position_that_fits_keeps_its_joint() -> None:
    across, _ = axes_of(grid((300.0, 300.0), 3.0), 0.0)
    faces = wall_faces(sides_of_room(rectangle_room(3000.0, 1000.0), 5.0), across)
    centred = Position(name=JOINT_ON_CENTRE, rank=0)
    assert least_joint(centred, faces, across, 1500.0, 0.0, most=5.0, thinnest=100.0) == 3.0


@pytest.mark.parametrize(
    ("joint", "most", "step", "steps"),
    [
        (3.711, 5.0, 1.0, [4.0, 5.0]),
        (4.0, 5.0, 1.0, [4.0, 5.0]),
        (4.2, 4.9, 1.0, []),
        (2.1, 3.0, 0.5, [2.5, 3.0]),
        (INCH / 7, INCH / 4, INCH / 16, [INCH * 3 / 16, INCH / 4]),
    ],
)
def test_whole_steps_count_from_zero(joint: float, most: float, step: float, steps: list[float]) -> None:
    assert whole_steps(joint, most, step) == pytest.approx(steps)
