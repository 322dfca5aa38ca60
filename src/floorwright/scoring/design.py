"""What a person asks of a scored slab, and the frame that it is scored in."""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from floorwright.geometry.region import Points, Region
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import ONE_CUT

Point = tuple[float, float]

SlabJointKind = Literal["contraction", "isolation", "construction"]
"""Sawn or tooled to draw the crack; full depth, to let the slab move on its own; where two days' concrete meet."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Frame:
    """A frame along the first line: u runs along it, v to its left.

    Attributes:
        origin: floor mm.
        angle: of u, radians from the floor's x.
    """

    origin: Point
    angle: float

    def local(self, points: Points) -> Points:
        """Returns floor points, (..., 2) mm, in this frame."""
        return np.asarray((points - np.asarray(self.origin)) @ self._turn())

    def floor(self, points: Points) -> Points:
        """Returns points of this frame on the floor: the inverse of `local`."""
        return np.asarray(points @ self._turn().T + np.asarray(self.origin))

    def _turn(self) -> Points:
        cos, sin = math.cos(self.angle), math.sin(self.angle)
        return np.array([[cos, -sin], [sin, cos]])


@dataclass(frozen=True, slots=True, kw_only=True)
class OldJoint:
    """A straight joint that is in the slab already.

    Attributes:
        name: what it is called.
        ends: two points on the floor, mm; it runs from the one to the other.
        kind: see `SlabJointKind`.
        depth: mm; None where nobody measured it.
        early: whether it was sawn in the first hours, with a saw made for that.
    """

    name: str
    ends: tuple[Point, Point]
    kind: SlabJointKind = "contraction"
    depth: float | None = None
    early: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A ring inside a circle, divided by spokes.

    Attributes:
        depth: from its outer circle to its inner one, mm.
        cells: as many spokes divide it.
        broken: the part of a cell that its first spoke is turned on from that of the ring around it.
    """

    depth: float
    cells: int
    broken: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle to cut, by a pivot at its centre.

    Attributes:
        centre: floor mm.
        radius: to the middle of the cut, mm.
        plain: whether lines stop at it and leave it plain; else they run on through it.
        rings: inside it, from the outside in; only of one that lines stop at.
        turn: of the first spoke of the outermost, radians from the first line.
        colours: of its cells by turns.
    """

    centre: Point
    radius: float
    plain: bool = True
    rings: tuple[Ring, ...] = ()
    turn: float = 0.0
    colours: tuple[str, ...] = ()

    @property
    def radii(self) -> tuple[float, ...]:
        """mm, of every circle about its centre, the outermost first; where the last ring reaches the centre, not 0."""
        inner = self.radius - np.cumsum([ring.depth for ring in self.rings])
        return (self.radius, *(float(radius) for radius in inner if radius > ONE_CUT))

    @property
    def length(self) -> float:
        """mm, round it and the circles inside it."""
        return math.tau * math.fsum(self.radii)


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """What it is cut with.

    Attributes:
        name: trade word.
        blade: diameter, mm.
        depth: of the cut, mm.
        width: of the cut, mm.
    """

    name: str
    blade: float
    depth: float
    width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What borders and squares may be, for the search: whole multiples of `step`.

    Attributes:
        step: mm.
        border_least, border_most: mm.
        size_least: mm; the most is what the slab gives.
    """

    step: float
    border_least: float
    border_most: float
    size_least: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet of stencil. All mm; overlap: of a strip over the next, and of a sheet over the next in its strip."""

    width: float
    length: float
    overlap: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Area:
    """A part of the slab with lines of its own: a side of a border, or an inset.

    Attributes:
        zone: its name.
        name: its own: the zone's, with the wall for a side of a border.
        region: floor mm.
        cell: its pattern; None where it is left plain between its own lines.
        placement: of its pattern on the floor.
        colours: of neighbouring cells by turns.
        by_size: whether cells are stained by their size instead, the first colour for the main one.
    """

    zone: str
    name: str
    region: Region
    cell: UnitCell | None
    placement: Placement
    colours: tuple[str, ...] = ()
    by_size: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Design:
    """What is to be scored.

    Attributes:
        name: of the scoring.
        cell: its pattern, made with joints of no width.
        angle: of the pattern's rows from the first line, radians.
        ends: from the slab's edges at the ends of the first line to the middle of the border's line, mm; 0 for none.
        sides: the same at the edges along it.
        saw: see there.
        circles: in the order in which they are cut.
        limits: of the search; None where nothing is searched.
        colours: of neighbouring cells by turns; none where nothing is stained.
        by_size: whether cells are stained by their size instead, the first colour for the main one.
        border_colour: empty where nobody stains it.
        areas: further parts of the slab with lines of their own.
        stencil: laid in strips over the field; None where there is none.
    """

    name: str
    cell: UnitCell
    angle: float
    ends: float
    sides: float
    saw: Saw
    circles: tuple[Circle, ...] = ()
    limits: Limits | None = None
    colours: tuple[str, ...] = ()
    by_size: bool = False
    border_colour: str = ""
    stencil: Sheet | None = None
    areas: tuple[Area, ...] = ()
