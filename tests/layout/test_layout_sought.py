"""Aims that say where the pattern lies: a position has them or has not, and those that cannot be had are said."""

import pytest
from tests.layout.jobs import lay, rectangle_room

from floorwright.layout.aims import (
    FIRM,
    FULL_TILE,
    JOINT_ON,
    NO_PIECE_UNDER,
    TILE_ON,
    WIDEST,
    Aim,
    Reached,
    completed,
)
from floorwright.layout.layout import Layout

HEIGHT = 10 + 9 * 303 - 3 + 100.0
"""Nine rows, gaps of 5 and a cut: with a full tile at one end there is none at the other."""

AIMS = (
    Aim(name=FULL_TILE, walls=("S",)),
    Aim(name=FULL_TILE, walls=("N",)),
    Aim(name=JOINT_ON, on="first line"),
    Aim(name=TILE_ON, on="first line"),
    Aim(name=JOINT_ON, on="square line"),
)


@pytest.fixture(scope="module")
def layout() -> Layout:
    return lay(rectangle_room(3000.0, HEIGHT), (1400.0, 1300.0), aims=AIMS)


def reached(layout: Layout, aim: Aim) -> Reached:
    return next(
        one for one in layout.aims if (one.aim.name, one.aim.on, one.aim.walls) == (aim.name, aim.on, aim.walls)
    )


def test_of_two_places_that_cannot_be_had_together_the_first_is_laid(layout: Layout) -> None:
    assert reached(layout, AIMS[0]).value == pytest.approx(0.0, abs=0.01)
    assert not reached(layout, AIMS[0]).ruled_out
    assert reached(layout, AIMS[1]).ruled_out
    # The cut at N: what nine rows leave.
    assert reached(layout, AIMS[1]).value == pytest.approx(300.0 - 97.0, abs=0.01)
    assert reached(layout, AIMS[3]).ruled_out


def test_a_place_on_the_other_axis_is_had_as_well(layout: Layout) -> None:
    # The first line runs along the rows, so a full tile at S has no joint on it; across, all is still free.
    assert reached(layout, AIMS[2]).ruled_out
    last = reached(layout, AIMS[4])
    assert not last.ruled_out
    assert last.value == pytest.approx(0.0, abs=0.01)


def test_each_place_that_was_searched_for_says_whether_it_is_possible(layout: Layout) -> None:
    told = {proof.number: proof.possible for proof in layout.proofs if proof.number >= 0}
    assert told == {0: True, 1: False, 2: False, 3: False, 4: True}
    assert all(proof.status == "proved" for proof in layout.proofs)


def test_places_and_limits_that_a_person_begins_with_come_before_what_is_firm() -> None:
    asked = (Aim(name=JOINT_ON, on="door"), Aim(name=NO_PIECE_UNDER, limit=100.0), Aim(name=WIDEST))
    assert [aim.name for aim in completed(asked)][:4] == [JOINT_ON, NO_PIECE_UNDER, FIRM, WIDEST]
