"""The tables of the job file for a slab that is scored or sawn."""

from fractions import Fraction
from typing import Literal

from pydantic import Field

from floorwright.job.model.table import Table, as_if_read
from floorwright.job.model.values import (
    Angle,
    Bond,
    Count,
    Fallback,
    Flag,
    FlatAngle,
    Length,
    Measure,
    Name,
    Point,
    Positive,
    Share,
    Sides,
)


class Slab(Table):
    """The concrete slab that is scored."""

    thickness: Measure | None = None
    """How thick it is, measured at an edge: depth and spacing of its joints are held against it."""
    mix: Literal["higher slump, small stone", "higher slump, large stone", "lower slump"] | None = None
    """Its concrete, where that is known: slump of 4 in (100 mm) or more with stone under or over 3/4 in (19 mm), or
    less slump. Wetter concrete shrinks more, and wants its joints closer."""
    scanned: Flag = False
    """Whether drawings and a scan have shown what is in it: post-tension cables, pipes, heating."""


class ScoredRing(Table):
    """A ring inside a scored circle, divided by spokes into cells that are all alike."""

    depth: Measure
    """From its outer circle to its inner one."""
    cells: Positive
    """So many cells go round it, with a spoke between each and the next."""
    broken: Share = 0.0
    """The part of a cell that its first spoke is turned on from that of the ring around it: 0.5 breaks the joints."""


class ScoredCircle(Table):
    """A circle cut with the saw on a pivot."""

    centre: Point | None = None
    """Its centre: [x, y] or a corner; without it the centre of the control lines."""
    diameter: Measure
    """To the middle of the cut."""
    plain: Flag = True
    """Whether the lines stop at it and leave it plain; joints that are in the slab run on through it."""
    rings: tuple[ScoredRing, ...] = Field(default=(), max_length=50)
    """Rings inside it, from the outside in; what they leave in the middle stays plain."""
    turn: Angle = 0.0
    """Degrees from the first line, anticlockwise, to the first spoke of the outermost ring."""
    colours: tuple[Name, ...] = Field(default=(), max_length=8)
    """Stains of its cells: neighbours never alike, if it can be done; without them the `circle_colour`."""


class Stencil(Table):
    """Stencil laid in strips along the first line."""

    width: Measure
    """Of a strip."""
    length: Measure
    """Of a sheet of it."""
    overlap: Length = as_if_read("0 mm")
    """How far the last joint of a strip, and of a sheet, lies over the first of the next."""


class Cells(Table):
    """What lines divide a part of the slab into."""

    pattern: Name = "grid"
    """The name of its pattern: `floorwright patterns` lists them; or one of your own, drawn under `[[patterns]]`."""
    length: Measure | None = None
    """Of a cell, from line to line; of a pattern of several sizes that of the main one. Only a drawn pattern needs
    none."""
    width: Measure | None = None
    """Of a cell, from line to line; without it a cell is square."""
    sizes: dict[Name, Sides] = Field(default={})
    """Patterns of several sizes: the side, or [length, width], of each size but the main one, by what the pattern calls
    it; without it the one that closes."""
    angle: Angle = 0.0
    """Degrees from the first line, anticlockwise."""
    stand: Literal["square to wall", "diagonal to wall"] | None = None
    """Herringbone and chevron: how it stands; it is not agreed until this is said."""
    fraction: Bond = Fraction(1, 2)
    """Brick bond: the part of a cell that each course is shifted by."""
    shift: Literal["right", "left", "to and fro"] = "right"
    """Brick bond: which way each course is shifted on the one below."""
    abreast: Positive | None = None
    """Herringbone and basketweave: cells side by side in an arm or a block."""
    courses: Positive | None = None
    """Soldier courses: courses of stretchers between two of them."""
    way: Literal["point up", "flat up"] | None = None
    """Hexagon: what stands up the pattern."""
    mitre: FlatAngle | None = None
    """Chevron: degrees between the long side of a cell and its mitred end."""
    corner: FlatAngle | None = None
    """Elongated hexagon: degrees of the angle at a point; rhombus: of its sharp angle."""
    lengths: tuple[Measure, ...] = Field(default=(), max_length=12)
    """Planks: their lengths, as many of each; without them all are of one length."""
    vary: Share | None = None
    """Setts in rows: the part of the length that setts differ by, either way."""
    stagger: Measure | None = None
    """Planks and setts: how far ends in neighbouring rows keep apart at least."""
    run_most: Length | None = None
    """Modular patterns and random ashlar: the longest straight line that is no fault."""
    seed: Count | None = None
    """Planks, setts and random ashlar: any whole number; the same one scores the same lines."""
    stain_by: Literal["neighbours", "size"] = "neighbours"
    """How `colours` go round: neighbours never alike, if it can be done; or of a pattern of several sizes one for each
    size, the first for the main one, the last for all that are left."""


class ScoredZone(Cells):
    """A part of the slab with lines of its own: a border round the scored field, or an inset in it. Without a pattern
    and a length it is left plain between its own lines."""

    name: Name
    """What it is called on the sheets."""
    kind: Literal["border", "inset"] = "border"
    """Along the edges of the slab, each inside the one before; or an outline of its own."""
    band: Measure | None = None
    """Of a border: from its outside to the line inside it. Where `width` says nothing, a cell is as wide."""
    walls: tuple[Name, ...] = ()
    """Of a border: the edges that it runs along; without them all."""
    corners: Literal["mitred", "butted", "woven"] = "mitred"
    """Of a border: how its sides meet: on one slanted line, the longer side running through, or each at its end."""
    size: Sides | None = None
    """Of a rectangular inset: [length, width], or the side of a square."""
    centre: Point | None = None
    """Of an inset: its middle, [x, y] or a corner; without it the centre of the control lines."""
    turn: Angle = 0.0
    """Of an inset: degrees from the first line, anticlockwise."""
    outline: tuple[Point, ...] = Field(default=(), max_length=500)
    """Of an inset of another shape: its corners in order, each [x, y]."""
    colours: tuple[Name, ...] = Field(default=(), max_length=8)
    """Stains of its cells: neighbours never alike, if it can be done."""


class Scoring(Cells):
    """Lines scored or sawn into a slab, which they divide as tiles would."""

    name: Name = "slab"
    """What it is called on the sheets."""
    outline: tuple[Point, ...] = Field(default=(), max_length=500)
    """Where only a part of the floor is scored and the rest is tiled: its corners in order, each [x, y] or a corner;
    without it what the tiled zones leave."""
    zones: tuple[ScoredZone, ...] = Field(default=(), max_length=50)
    """Parts of the slab with lines of their own."""
    border_ends: Length = as_if_read("0 mm")
    """From the slab's edges at the ends of the first line to the middle of the border's line; 0 for no border."""
    border_sides: Length = as_if_read("0 mm")
    """The same at the edges along the first line."""
    circles: tuple[ScoredCircle, ...] = Field(default=(), max_length=50)
    """Circles cut with the saw on a pivot."""
    saw: Literal["grinder", "hand-held saw", "walk-behind saw"] = "grinder"
    """What straight lines are cut with."""
    blade: Measure = as_if_read(Fallback("115 mm", "4 1/2in"))
    """Diameter of its blade."""
    depth: Measure = as_if_read(Fallback("6 mm", "1/4in"))
    """Of the cut."""
    cut: Measure = as_if_read(Fallback("3 mm", "1/8in"))
    """Width of the cut."""
    step: Measure = as_if_read(Fallback("10 mm", "1in"))
    """Borders and squares that land on the joints are searched for in whole multiples of this."""
    border_least: Measure = as_if_read(Fallback("150 mm", "6in"))
    """The narrowest border that is searched for."""
    border_most: Measure = as_if_read(Fallback("900 mm", "36in"))
    """The widest border that is searched for."""
    size_least: Measure = as_if_read(Fallback("300 mm", "12in"))
    """The smallest square that is searched for."""
    colours: tuple[Name, ...] = Field(default=(), max_length=8)
    """Stains of the cells: neighbours never alike, if it can be done. One for all, or two or more."""
    border_colour: Name | None = None
    """Stain of the border."""
    circle_colour: Name | None = None
    """Stain of the circles."""
    stencil: Stencil | None = None
    """Stencil laid in strips over the field, where it is not cut but stencilled."""
