"""Tile and joint from a row laid dry."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.findings import Severity
from floorwright.survey.group import joint_from_row, tile_from_row
from floorwright.units import IMPERIAL, METRIC


def test_ten_tiles_and_nine_joints() -> None:
    tile, found = tile_from_row(reads=3027, tiles=10, joints=9, joint=3, place="goods", style=METRIC)
    assert tile == pytest.approx(300.0)
    assert found.found == "tile taken as 300: 10 tiles and 9 joints of 3 read 3027"
    assert found.severity is Severity.NOTE


def test_the_joint_from_the_tile() -> None:
    joint, found = joint_from_row(reads=3027, tiles=10, joints=9, tile=300, place="goods", style=METRIC)
    assert joint == pytest.approx(3.0)
    assert found.found == "joint taken as 3: 10 tiles of 300 and 9 joints read 3027"


def test_in_inches() -> None:
    tile, found = tile_from_row(
        reads=48 * 25.4, tiles=4, joints=4, joint=0.25 * 25.4, place="goods", style=IMPERIAL
    )  # fmt: skip
    assert tile == pytest.approx(11.75 * 25.4)
    assert found.found == 'tile taken as 11 3/4": 4 tiles and 4 joints of 1/4" read 48"'


@given(st.floats(20, 1200), st.integers(1, 30), st.floats(0, 20), st.integers(-1, 1))
def test_the_row_adds_up_again(tile: float, tiles: int, joint: float, more: int) -> None:
    joints = tiles + more
    reads = tiles * tile + joints * joint
    found, note = tile_from_row(reads=reads, tiles=tiles, joints=joints, joint=joint, place="goods", style=METRIC)
    assert found == pytest.approx(tile)
    assert note.severity is Severity.NOTE
    if joints:
        back, _ = joint_from_row(reads=reads, tiles=tiles, joints=joints, tile=tile, place="goods", style=METRIC)
        assert back == pytest.approx(joint, abs=1e-9) or back is None


def test_an_odd_count_of_joints_is_questioned() -> None:
    _, found = tile_from_row(reads=3027, tiles=10, joints=5, joint=3, place="goods", style=METRIC)
    assert found.severity is Severity.WARNING
    assert found.expected == "9, 10 or 11 joints to 10 tiles in one row"


def test_rows_that_cannot_be() -> None:
    for tile, found in (
        tile_from_row(reads=20, tiles=10, joints=9, joint=3, place="goods", style=METRIC),
        tile_from_row(reads=20, tiles=0, joints=0, joint=3, place="goods", style=METRIC),
        joint_from_row(reads=2900, tiles=10, joints=9, tile=300, place="goods", style=METRIC),
        joint_from_row(reads=300, tiles=1, joints=0, tile=300, place="goods", style=METRIC),
    ):
        assert tile is None
        assert found.severity is Severity.ERROR
