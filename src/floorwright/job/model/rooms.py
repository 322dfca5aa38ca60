"""The rooms, and what is in them: links, openings, obstacles, joints in the slab."""

from typing import Literal

from pydantic import Field

from floorwright.job.model.table import Table, as_if_read
from floorwright.job.model.values import CornerName, Length, Measure, Name, Point, TwoOpenings, TwoRooms


class Room(Table):
    """A further room that the floor runs through to; its readings stand with the others in `[survey]`."""

    name: Name
    """What it is called on the sheets."""
    outline: tuple[CornerName, ...] = Field(max_length=200)
    """Its corners in order round it. A corner that two rooms share has one name."""
    direction: Literal["anticlockwise", "clockwise"] = "anticlockwise"
    """Which way round `outline` goes, seen from above."""
    inward: tuple[CornerName, ...] = ()
    """Corners that turn into the room."""


class Link(Table):
    """Where the floor of one room runs through to the next: an open mouth, or a doorway."""

    rooms: TwoRooms
    """The two rooms. Without `openings` they are open to each other wherever their walls lie face to face on one line:
    no wall there, and no gap."""
    openings: TwoOpenings | None = None
    """A doorway: an opening of the first room and the opening of the second across from it, at the other face of the
    wall. The floor runs through between them."""
    name: Name | None = None
    """What the doorway is called on the sheets; without it the name of its first opening."""
    floor: Literal["runs through", "breaks"] = "runs through"
    """Whether one pattern runs through, or two zones meet here: a change of pattern, or a new start."""
    at: Length | None = None
    """Where it breaks: how far from the face of the first room's wall towards the second room; without it the middle of
    a doorway, under the closed door, and the face of the wall in an open mouth."""
    strip: Measure | None = None
    """Where it breaks: the width kept free between the two zones, from tile to tile, for a threshold strip; without it
    the joint between them."""


class Opening(Table):
    """A door or another opening in a wall."""

    name: Name
    """What it is called on the sheets."""
    wall: Name
    """The wall it is in."""
    start: CornerName = Field(alias="from")
    """The corner that `offset` is measured from."""
    offset: Length
    """From that corner to the near side of the opening."""
    width: Measure
    """Clear width."""
    reveal: Length = as_if_read("0 mm")
    """How far the floor runs into the opening, to under the closed door."""


class Obstacle(Table):
    """A column or a pipe that the floor runs round."""

    name: Name
    """What it is called on the sheets."""
    kind: Literal["column", "round column", "pipe"]
    """What it is."""
    wall: Name
    """The wall it is measured from."""
    start: CornerName = Field(alias="from")
    """The corner that `along` is measured from."""
    along: Length
    """Along the wall: to the near side of a column, to the centre of a round one or a pipe."""
    out: Length
    """Out from the wall: to the near side of a column, to the centre of a round one or a pipe."""
    length: Measure | None = None
    """Of a column, along the wall."""
    width: Measure | None = None
    """Of a column, out from the wall."""
    diameter: Measure | None = None
    """Of a round column or a pipe."""


class SlabJoint(Table):
    """A straight joint that is in the slab already."""

    name: Name
    """What it is called on the sheets."""
    start: Point = Field(alias="from")
    """A point on it: a corner, or [x, y]."""
    to: Point
    """Another point on it: a corner, or [x, y]. Where a slab is scored it is the joint's other end."""
    kind: Literal["contraction", "isolation", "construction"] = "contraction"
    """Sawn or tooled part of the way down so that the slab cracks there; of full depth, so that it moves on its own; or
    where two days' concrete meet."""
    depth: Measure | None = None
    """Of a contraction joint, as measured."""
    sawn: Literal["conventional", "early entry"] | None = None
    """Of a contraction joint: how, where that is known. Joints sawn in the first hours with an early-entry saw are
    shallower."""
