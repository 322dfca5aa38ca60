"""Blank bookings: every wall, enough diagonals, a check, in the order of a walk."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.errors import FloorwrightValueError
from floorwright.survey.accuracy import EU_I, EU_III
from floorwright.survey.booking import CHECKED, DENT, booking, corner_names
from floorwright.survey.outline import Outline, fits, template


def test_four_corners() -> None:
    sheet = booking(["SW", "SE", "NE", "NW"])
    assert [(line.name, line.why) for line in sheet.readings] == [
        ("SW-SE", "wall"), ("SE-NE", "wall"), ("NE-NW", "wall"), ("NW-SW", "wall"),
        ("SW-NE", "fixes the shape"), ("SE-NW", "checks"),
    ]  # fmt: skip
    assert 0.3 < sheet.sd_corner < 1.0


def test_three_corners_read_one_wall_again() -> None:
    sheet = booking(3)
    assert [line.name for line in sheet.readings] == ["A-B", "B-C", "C-A", "B-A"]
    assert sheet.readings[-1].why == "checks"


@given(st.integers(4, 12))
def test_any_number_of_corners(count: int) -> None:
    sheet = booking(count)
    names = [line.name for line in sheet.readings]
    whys = [line.why for line in sheet.readings]
    assert names[:count] == [
        f"{a}-{b}" for a, b in zip(sheet.corners, sheet.corners[1:] + sheet.corners[:1], strict=True)
    ]
    assert whys.count("fixes the shape") == count - 3
    assert whys.count("checks") >= 1
    assert len({frozenset((line.start, line.end)) for line in sheet.readings}) == len(names)
    assert count == 4 or sheet.least_redundancy >= CHECKED
    across = [sheet.corners.index(line.start) for line in sheet.readings[count:]]
    assert across == sorted(across)


def test_diagonals_stay_out_of_what_turns_in() -> None:
    """In the L of six corners with D turning in, C-E would run outside the room."""
    sheet = booking(6, inward=["D"])
    assert "C-E" not in [line.name for line in sheet.readings]
    assert [line.why for line in sheet.readings].count("fixes the shape") == 3


def test_a_better_tape_gives_better_corners() -> None:
    assert booking(5, tape=EU_I).sd_corner < booking(5).sd_corner < booking(5, tape=EU_III).sd_corner
    assert booking(5).sd_corner < booking(5, hook=True).sd_corner
    assert booking(5).sd_corner < booking(5, side=8000).sd_corner


def test_names_run_on_past_z() -> None:
    assert corner_names(28)[-3:] == ("Z", "A2", "B2")


@pytest.mark.parametrize(("corners", "inward"), [(2, ()), (0, ()), (["A", "A", "B"], ()), (4, ("Z",))])
def test_what_is_no_room_is_refused(corners: int | list[str], inward: tuple[str, ...]) -> None:
    with pytest.raises(FloorwrightValueError):
        booking(corners, inward=inward)


@pytest.mark.parametrize(
    ("count", "places"),
    [*((n, (1,)) for n in range(4, 11)), *((n, (1, 3)) for n in range(6, 11)), *((n, (2, 3)) for n in range(8, 11))],
)
def test_the_made_up_room_has_the_turns_booked(count: int, places: tuple[int, ...]) -> None:
    names = corner_names(count)
    outline = Outline(corners=names, inward=frozenset(names[i] for i in places), straight=frozenset())
    assert fits(outline, outline.corners, template(outline, (), side=4000, stretch=1.2, dent=DENT))
