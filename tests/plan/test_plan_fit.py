"""Doors in the corner of a room, whose readings pass it by a little."""

import pytest

from floorwright.findings import Severity
from floorwright.plan.check import check_room
from floorwright.plan.fit import fit_openings
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Corner, Opening, Room, Wall
from floorwright.units import IMPERIAL, METRIC

LENGTH = 2199.8


def room(*, start: float, width: float = 900.0) -> Room:
    names, places = ("A", "B", "C", "D"), ((0.0, 0.0), (LENGTH, 0.0), (LENGTH, 3000.0), (0.0, 3000.0))
    return Room(
        name="hall",
        corners=tuple(Corner(name=name, x=x, y=y) for name, (x, y) in zip(names, places, strict=True)),
        walls=tuple(Wall(name=f"{a}-{b}", start=a, end=b) for a, b in zip(names, (*names[1:], "A"), strict=True)),
        openings=(Opening(name="door", wall="A-B", start=start, width=width, reveal=60.0),),
    )


@pytest.mark.parametrize(
    ("start", "width", "fitted"),
    [
        (1300.0, 900.0, (LENGTH - 900.0, 900.0)),
        (1304.5, 900.0, (LENGTH - 900.0, 900.0)),
        (-0.2, 900.0, (0.0, 900.0)),
        (0.0, 2200.0, (0.0, LENGTH)),
        (-0.1, 2200.0, (0.0, LENGTH)),
        (1200.0, 900.0, (1200.0, 900.0)),
    ],
)
def test_an_opening_a_little_past_its_corner_ends_there(
    start: float, width: float, fitted: tuple[float, float]
) -> None:
    whole, _ = fit_openings(room(start=start, width=width), METRIC)
    (opening,) = whole.openings
    assert (opening.start, opening.width) == pytest.approx(fitted)
    assert check_room(whole, METRIC) == ()
    assert len(floor_region(whole).rings) == 1


def test_what_prints_is_said_and_what_does_not_is_not() -> None:
    assert fit_openings(room(start=1300.0), METRIC)[1] == ()
    (finding,) = fit_openings(room(start=1302.3), METRIC)[1]
    assert (finding.code, finding.severity) == ("plan-opening-at-corner", Severity.NOTE)
    assert finding.found == "door runs 2.5 mm past corner B by its readings"
    (finding,) = fit_openings(room(start=-3.175), IMPERIAL)[1]
    assert finding.found == 'door runs 1/8" past corner A by its readings'


def test_an_opening_far_past_its_corner_is_left_as_it_is() -> None:
    whole, findings = fit_openings(room(start=1310.0), METRIC)
    assert findings == ()
    assert whole.openings == room(start=1310.0).openings
    assert [finding.code for finding in check_room(whole, METRIC)] == ["plan-opening-past-wall"]
