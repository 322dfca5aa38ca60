"""Two more ways to raise the square line: in a semicircle, and off a laser."""

import math
from collections.abc import Iterator
from typing import Final

from floorwright.control.choices import Tools
from floorwright.control.control import Construction, Step
from floorwright.control.predicted import laser_square, semicircle_square
from floorwright.control.sight import Point
from floorwright.control.square import CENTRE, arc, join, mark, numbered
from floorwright.control.station import QUARTERS, Station

LEANS: Final = (45.0, 52.5, 60.0, 37.5)
"""Degrees from the first line at which the pin of the semicircle is tried."""


def semicircle(station: Station, tools: Tools) -> Construction | None:
    """Returns the square raised in a semicircle by compass, the truest that fits; None where none does.

    A pin off the first line, an arc about it through the centre; where it cuts the first line again, straight over the
    pin to the arc's far side: that point lies square over the centre.
    """
    for radius in station.sizes(tools.compass):
        tries = []
        for lean in LEANS:
            along, up = radius * math.cos(math.radians(lean)), radius * math.sin(math.radians(lean))
            tries += [(semicircle_square(along, up, tools), n, along, up) for n in range(len(QUARTERS))]
        for sd, quarter, along, up in sorted(tries):
            ahead, side = QUARTERS[quarter]
            pin = station.place(ahead * along, side * up)
            cut, end = station.place(2 * ahead * along, 0.0), station.place(0.0, 2 * side * up)
            if station.fits([pin, cut, end], [(station.centre, pin), (cut, end), (station.centre, end)]):
                return _semicircle(pin, cut, end, station.centre, radius, sd)
    return None


def _semicircle(pin: Point, cut: Point, end: Point, centre: Point, radius: float, sd: float) -> Construction:
    def steps() -> Iterator[Step]:
        yield arc("compass", CENTRE, "S1", radius, centre, pin)
        yield arc("compass", "S1", "S2", radius, pin, cut)
        yield Step(
            number=0,
            action="extend",
            tool="chalk line",
            start="S2",
            end="S3",
            length=radius,
            points=(("S2", *cut), ("S1", *pin), ("S3", *end)),
        )
        yield join(CENTRE, "S3", centre, end)

    return Construction(
        makes="square line",
        method="semicircle",
        size=radius,
        steps=numbered(steps()),
        sd_angle=sd,
        why=(
            "S1 is anywhere on its arc; S2 lies on the first line, and S3 on the line from S2 over S1: an angle in a "
            "semicircle is square. A slip at S1 counts double at S3."
        ),
    )


def off_laser(station: Station, tools: Tools) -> Construction | None:
    """Returns the square taken off a laser on the centre, over the longest clear arms; None where there is no laser."""
    if tools.laser <= 0:
        return None
    along, ahead = max((station.run(side, 0), side) for side in (1, -1))
    out, up = max((station.run(0, side), side) for side in (1, -1))
    if min(along, out) < station.handy:
        return None
    aim, far = station.place(ahead * along, 0.0), station.place(0.0, up * out)

    def steps() -> Iterator[Step]:
        yield mark("tape", CENTRE, "L1", along, aim)
        yield mark("laser", CENTRE, "L2", out, far)
        yield join(CENTRE, "L2", station.centre, far)

    return Construction(
        makes="square line",
        method="laser",
        size=out,
        steps=numbered(steps()),
        sd_angle=laser_square(along, out, tools),
        why="Prove the laser itself by a 3-4-5 first: turned end for end, it must strike the same line.",
    )
