"""The control lines: how they are chosen, with which tools, and what was read once they were down."""

from typing import Literal

from pydantic import Field

from floorwright.job.model.table import Table, as_if_read
from floorwright.job.model.values import (
    Angle,
    Coordinate,
    Fallback,
    LaserError,
    Length,
    Measure,
    Name,
    Point,
    TwoEnds,
    TwoWalls,
)


class FirstLine(Table):
    """How the first line is chosen."""

    by: Literal["mid-points", "opening", "parallel", "points", "mean", "sight", "slab joint"]
    """Through the middles of two walls, square through an opening, parallel to a wall, through two points, half way
    between two walls, from an opening through the middle of what is seen from it, or along a slab joint."""
    walls: TwoWalls | None = None
    """With `mid-points` and `mean`: the two walls."""
    opening: Name | None = None
    """With `opening` and `sight`: the opening."""
    slab_joint: Name | None = None
    """With `slab joint`: its name."""
    wall: Name | None = None
    """With `parallel`: the wall; without one the first wall of the outline."""
    start: Point | None = Field(default=None, alias="from")
    """With `points`: a corner, or [x, y]."""
    to: Point | None = None
    """With `points`: a corner, or [x, y]."""


class Centre(Table):
    """How the centre is chosen."""

    by: Literal["mid-point", "opening", "visual", "point"]
    """The middle of the first line or of a wall, the axis of an opening, the middle of what is seen, or a point."""
    wall: Name | None = None
    """With `mid-point`: square from the middle of this wall; without one the middle of the first line."""
    opening: Name | None = None
    """With `opening`: the opening."""
    x: Coordinate | None = None
    """With `point`."""
    y: Coordinate | None = None
    """With `point`."""


class CheckReading(Table):
    """A reading taken once the control lines are down."""

    between: TwoEnds
    """Its two ends as the sheet of the steps names them: `["E1", "E2"]`, `["N 1500", "E 2000"]`, `["SW", "centre"]`."""
    reads: Measure
    """What the tape reads."""


class Control(Table):
    """The control lines and the tools to hand."""

    first_line: FirstLine = as_if_read({"by": "parallel"})
    """How the first line is chosen."""
    centre: Centre = as_if_read({"by": "visual"})
    """How the centre is chosen."""
    north: Angle | None = None
    """Degrees from the first line, anticlockwise, to north, as a compass or a plan has it: for a medallion that faces
    north."""
    compass: Length = as_if_read(Fallback("2 m", "6ft"))
    """The reach of the compass; 0 for none."""
    tape: Measure = as_if_read(Fallback("8 m", "25ft"))
    """The length of the tape."""
    mark: Length = as_if_read(Fallback("0.5 mm", "1/64in"))
    """How true a mark is made: one standard deviation."""
    setting: Length = as_if_read(Fallback("1 mm", "1/32in"), alias="set")
    """How true a length is set or read while setting out: one standard deviation."""
    laser: LaserError = 0.0
    """How true a laser squares, mm per m, one standard deviation; 0 for no laser."""
    straightedge: Length = 0.0
    """The length of the straightedge that lines are carried on with; 0 where a chalk line is stretched instead."""
    square: Literal["compass", "3-4-5", "equal diagonals", "semicircle", "laser"] | None = None
    """How the square line is raised; without it in the truest way that the tools and the floor allow."""
    readings: tuple[CheckReading, ...] = Field(default=(), max_length=100)
    """Readings taken once the lines are down, to be judged."""
