"""What a person chooses before anything is set out: the first line, the centre, the tools to hand."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

Place: TypeAlias = str | tuple[float, float]
"""A point of the floor: the name of a corner, or (x, y) in mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SlabJoint:
    """A straight joint that is in the slab already.

    Attributes:
        name: what it is called.
        ends: two points on it.
    """

    name: str
    ends: tuple[Place, Place]


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstLine:
    """How the first line is found.

    Attributes:
        by: `mid-points` (middle of one wall to middle of another), `opening` (square to its wall, through its middle:
            in line with the door), `parallel` (to a wall, through the centre), `points` (through two points), `mean`
            (half way between two walls, in their mean direction), `sight` (from the middle of an opening through the
            middle of what is seen from it) or `slab joint` (along one).
        walls: the two walls, for `mid-points` and `mean`.
        opening: its name, for `opening` and `sight`.
        wall: its name, for `parallel`. The first wall of the outline when none is named.
        points: the two points, for `points` and `slab joint`.
        slab_joint: its name, for `slab joint`.
    """

    by: Literal["mid-points", "opening", "parallel", "points", "mean", "sight", "slab joint"]
    walls: tuple[str, ...] = ()
    opening: str = ""
    wall: str = ""
    points: tuple[Place, ...] = ()
    slab_joint: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Centre:
    """How the centre is found.

    Attributes:
        by: `mid-point` (of the first line inside the room; with a wall, half way across from its middle), `opening` (on
            the line of a door), `visual` (middle of what is seen from the door) or `point` (as typed).
        wall: its name, for `mid-point`. A first line parallel to a wall takes that wall when none is named.
        opening: its name, for `opening` and `visual`. The first opening of the room when none is named.
        point: for `point`.
    """

    by: Literal["mid-point", "opening", "visual", "point"]
    wall: str = ""
    opening: str = ""
    point: Place | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tools:
    """The tools to hand, and how true a person is with them.

    Attributes:
        compass: reach of the big compass or trammel, mm; 0 for none.
        tape: length of the tape, mm.
        mark: standard deviation of a mark, in any direction, mm.
        set: standard deviation of a length that is set or read while setting out, mm.
        laser: how true a laser squares, one standard deviation, mm per m; 0 for none.
        straightedge: its length, mm; 0 for none.
        square: the way to raise the square line that is asked for, a `Construction.method`; empty for the truest.
    """

    compass: float
    tape: float
    mark: float
    set: float
    laser: float = 0.0
    straightedge: float = 0.0
    square: str = ""
