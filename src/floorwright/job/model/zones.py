"""The zones of the floor, each with its pattern."""

from fractions import Fraction
from typing import Literal

from pydantic import Field

from floorwright.job.model.table import Table, as_if_read
from floorwright.job.model.values import (
    Angle,
    Bond,
    Coordinate,
    Count,
    Fallback,
    FlatAngle,
    LeastPiece,
    Length,
    Measure,
    Name,
    Note,
    Point,
    Positive,
    Share,
    Times,
    Turn,
    TwoWalls,
    WholeAngle,
)


class ZoneRing(Table):
    """A ring of a zone of rings, or several alike one outside the other."""

    goods: Name | None = None
    """The name of its goods; without it those of the zone."""
    lay: Literal["along the ring", "out from the centre"] = "along the ring"
    """Which way the length of a piece lies."""
    times: Times = 1
    """So many rings alike."""
    pieces: Positive | None = None
    """Your own number of pieces; without it the one is worked out that suits the joints."""
    taper: Literal["where needed", "never", "always"] = "where needed"
    """When the pieces are sawn to a wedge: where whole ones do not keep to the joints allowed, never, or always."""
    broken: Share | None = None
    """The part of a piece that its joints are turned on from those of the ring inside it; without it half, with
    `spokes` nothing."""


class Zone(Table):
    """A part of the floor with one pattern."""

    name: Name = "floor"
    """What it is called on the sheets."""
    kind: Literal["field", "border", "inset", "rings"] = "field"
    """What it covers: along the walls, an outline of its own within the floor, rings about a centre, or all that other
    zones leave."""
    rooms: tuple[Name, ...] = Field(default=(), max_length=50)
    """Of a field: the rooms that it covers, where the floor breaks between rooms; without it all that others leave."""
    goods: Name
    """The name of its goods; of a pattern of several sizes those of the main one, of rings those of every ring that
    names none."""
    pattern: Name = "grid"
    """The name of its pattern: `floorwright patterns` lists them."""
    sizes: dict[Name, Name] = Field(default={})
    """Patterns of several sizes: the goods of each size but the main one, by what the pattern calls it, such as
    `{ dot = "Dot 80" }`."""
    stand: Literal["square to wall", "diagonal to wall"] | None = None
    """Herringbone and chevron: how it stands; there is no page for the client to sign until this is said."""
    fraction: Bond = Fraction(1, 2)
    """Brick bond: the part of a piece that each course is shifted by."""
    shift: Literal["right", "left", "to and fro"] = "right"
    """Brick bond: which way each course is shifted on the one below."""
    abreast: Positive | None = None
    """Herringbone and basketweave: pieces side by side in an arm or a block."""
    courses: Positive | None = None
    """Soldier courses: courses of stretchers between two of them."""
    way: Literal["point up", "flat up"] | None = None
    """Hexagon: what stands up the pattern."""
    mitre: FlatAngle | None = None
    """Chevron: degrees between the long side of a piece and its mitred end."""
    corner: FlatAngle | None = None
    """Elongated hexagon: degrees of the angle at a point; rhombus: of its sharp angle."""
    chips: Positive | None = None
    """Mosaic sheets: chips along a sheet."""
    chip: Measure | None = None
    """Mosaic sheets: length of a chip, to check that sheets close."""
    lengths: tuple[Measure, ...] = Field(default=(), max_length=12)
    """Planks: their lengths, as many of each; without them all are as long as the goods."""
    vary: Share | None = None
    """Setts in rows: the part of the length that setts differ by, either way."""
    stagger: Measure | None = None
    """Planks and setts: how far joints of neighbouring rows keep apart at least."""
    end_least: Length | None = None
    """Planks: the shortest piece at the end of a row that is no fault; without it as long as a plank is wide."""
    run_most: Length | None = None
    """Modular patterns and random ashlar: the longest straight joint that is no fault."""
    seed: Count | None = None
    """Planks, setts and random ashlar: any whole number; the same one lays the same floor."""
    joint: Length
    """Width of the joints."""
    joint_most: Length | None = None
    """Joints up to this may be offered."""
    joint_least: Length | None = None
    """Joints down to this may be offered; closer ones hide less of what tiles vary by. Of rings: the narrowest at the
    inside of pieces that are not tapered, whose joints open to `joint_most` at the outside."""
    joint_step: Measure = as_if_read(Fallback("1 mm", "1/16in"))
    """Steps that joints come in, counted from nought."""
    angle: Angle = 0.0
    """Degrees from the first line, anticlockwise."""
    angles: tuple[Turn, ...] = Field(default=(), max_length=24)
    """Several angles to try instead of `angle`: degrees, or `first line`, `long wall`, `mean of walls`."""
    angle_from: Angle | None = None
    """A range of angles to try instead of `angle`: from so many degrees from `angle_about`,"""
    angle_to: Angle | None = None
    """to so many."""
    angle_about: Literal["first line", "long wall", "mean of walls"] = "first line"
    """What `angle_from` and `angle_to` are counted from."""
    angle_walls: TwoWalls | None = None
    """The two walls of `mean of walls`."""
    gap: Length = as_if_read(Fallback("5 mm", "1/4in"))
    """The gap at the walls."""
    gap_most: Length | None = None
    """The widest gap that is no fault; without it the same as `gap`."""
    joint_beside: Length | None = None
    """The joint between this zone and the one inside or around it; without it the wider of their joints."""
    least_piece: LeastPiece | None = None
    """The least width of a piece of this zone: a share of a tile, or a length; without it that of `[aims]`."""
    option: Note = ""
    """Your own choice among this zone's options, by its name."""
    at: tuple[Coordinate, Coordinate] | None = None
    """Your own position of the pattern: x and y of a place where joints cross, at the joint asked for. It is laid
    unless an option is named, and what it costs is said."""
    walls: tuple[Name, ...] = ()
    """Of a border: the walls that it runs along; without them all."""
    rows: Positive = 1
    """Of a border: rows of pieces, where no `width` is given."""
    width: Measure | None = None
    """Of a border: how wide it is; without it so many full rows. Of a rectangular inset: its width, square to its
    length."""
    lay: Literal["stretchers", "soldiers"] = "stretchers"
    """Of a border: whether the length of a piece lies along the wall, or across the border, pieces side by side."""
    width_least: Measure | None = None
    """Of a border of free width: the least, on every side; with `width_most`."""
    width_most: Measure | None = None
    """Of a border of free width: the most; the width that lets the field finish on whole points or tiles is searched
    for."""
    corners: Literal["mitred", "butted", "woven"] = "mitred"
    """Of a border: how its sides meet: on one slanted joint, the longer wall running through, or each side running
    through at its end."""
    through: tuple[Name, ...] = ()
    """Of a butted border: walls whose side runs through, instead of the longer ones."""
    taper: Literal["border", "field"] = "border"
    """Where a wall is out of true, who takes the taper: the border, its inside line true to the first line, or the
    field, the border as wide all along."""
    centre: Point | None = None
    """Of an inset or of rings: its middle, [x, y] or a corner; without it the centre of the control lines."""
    shape: Literal["rectangle", "round", "octagon", "hexagon"] = "rectangle"
    """Of an inset: what it is, where it has no `outline`."""
    length: Measure | None = None
    """Of a rectangular inset: its length; of a round one or an octagon or hexagon: how wide it is across, from side to
    side."""
    turn: Angle = 0.0
    """Of an inset: degrees from the first line, anticlockwise, of its length and of its pattern's rows; of rings, of
    the first joint."""
    facing: Name | None = None
    """Of an inset or of rings: the opening that its length runs along, and that its pattern looks to, instead of the
    first line; or `north`, where `[control]` says where that is: its length then runs north."""
    outline: tuple[Point, ...] = Field(default=(), max_length=500)
    """Of an inset of another shape: its corners in order, each [x, y]."""
    outline_from: Literal["room", "centre"] = "room"
    """With `outline`: whether its corners are places in the room, or counted from its own `centre` and turned with
    it."""
    rings: tuple[ZoneRing, ...] = Field(default=(), max_length=100)
    """Of rings: each, from the inside out."""
    stone: Name | None = None
    """Of rings: the goods of a round stone in the middle, whose `length` is measured across it."""
    inside: Measure | None = None
    """Of rings: the radius of the first one's inside, where there is no stone."""
    sweep: WholeAngle = 360.0
    """Of rings: degrees that they go round, anticlockwise; under 360 they are the arcs of a fan."""
    spokes: Positive | None = None
    """Of rings: so many joints of every ring line up from the middle out."""
    along_wall: Name | None = None
    """Of rings: the round wall that they follow, the outermost against its gap (the innermost where the wall bows in):
    a coping. Then they have no centre, stone, inside or sweep of their own."""
