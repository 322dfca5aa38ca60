"""The nouns of the job file, key for key. Lengths are mm, angles degrees, whatever unit the file is in.

A job is read by `job.load`. Made in Python with `Job.model_validate(data, context={"unit": "in"})`, its bare numbers
are inches and its defaults those of a file in inches; without a context they are mm.
"""

from fractions import Fraction
from typing import Final, Literal

from pydantic import Field

from floorwright.findings import Finding
from floorwright.job.fields import (
    Angle,
    Area,
    Bond,
    Celsius,
    Coordinate,
    CornerName,
    CornersInLine,
    Count,
    Date,
    Degrees,
    Fallback,
    FileName,
    Flag,
    FlatAngle,
    InnerAngle,
    LaidLine,
    LaserError,
    LeastPiece,
    Length,
    Measure,
    Name,
    Note,
    Pair,
    Point,
    Positive,
    Readings,
    Rounding,
    Share,
    Times,
    Turn,
    TwoEnds,
    TwoOpenings,
    TwoPoints,
    TwoRooms,
    TwoWalls,
    WholeAngle,
    style_for,
)
from floorwright.job.scoring_model import Scoring, Slab
from floorwright.job.table import Table, as_if_read, by_system
from floorwright.survey.group import tile_from_row
from floorwright.units import METRIC, LengthStyle

SCHEMA: Final = 1
"""The number of this form of the job file."""


class Tape(Table):
    """The tape that the readings were taken with."""

    tape_class: Literal["EU I", "EU II", "EU III", "US metal"] = Field(default="EU II", alias="class")
    """Accuracy class, printed on the tape."""
    limit: Measure | None = None
    """Your own error limit for any reading, instead of the class."""
    reading: Length = as_if_read(Fallback("0.5 mm", "1/32in"))
    """How well a person reads it: one standard deviation."""
    hook: Flag = False
    """Whether readings start at the end hook."""
    reads: Measure | None = None
    """With `true`: what this tape reads over a length that is known; every distance is corrected by it."""
    true: Measure | None = None
    """With `reads`: what that length is."""
    celsius: Celsius = 20.0
    """Degrees C of a steel tape while it was read; every distance is corrected to 20."""


class Square(Table):
    """A corner taken as square."""

    corner: CornerName
    """The corner."""
    within: Measure = as_if_read(Fallback("2 mm", "1/16in"))
    """How far out it may be over the length `over`: one standard deviation."""
    over: Measure = as_if_read(Fallback("1 m", "3ft"))
    """The length that `within` is said for."""


class Straight(Table):
    """A point taken to lie on the line through two others."""

    points: CornersInLine
    """One end, the point, the other end."""
    within: Measure = as_if_read(Fallback("2 mm", "1/16in"))
    """How far off the line the point may lie: one standard deviation."""


class AngleReading(Table):
    """An angle read with a laser or a protractor."""

    corner: CornerName
    """Where it was read."""
    angle: InnerAngle
    """Degrees: between the corner's two walls on the side of the room, over 180 where it turns in."""
    between: TwoPoints | None = None
    """From the one point anticlockwise to the other, instead of between the walls: with your back to the corner, from
    right to left."""
    within_degrees: Degrees = 0.5
    """How true it was read, degrees: one standard deviation."""


class OffsetReading(Table):
    """A point measured square from a wall, or from a string between two points."""

    point: CornerName
    """The point."""
    wall: Name | None = None
    """The wall that it is measured from."""
    start: CornerName | None = Field(default=None, alias="from")
    """With `wall`: the corner that `along` is measured from."""
    line: TwoPoints | None = None
    """A string between two points, instead of a wall; `along` is measured from the first."""
    along: Coordinate | None = None
    """Along the wall or string, to where the point is square out from it."""
    held: Length | None = None
    """With `line` between two corners: how far off both of them, into the room, the string is held. `out` is then read
    from the string back to a corner between them."""
    out: Coordinate
    """Out from a wall into the room; from a string to the left, seen from its first point, and under 0 to the right."""
    within: Measure | None = None
    """How true both were read: one standard deviation; without it what the tape's class and your reading
    give, and along a hundredth of `out` more, for squaring it by eye."""


class ArcWall(Table):
    """A wall that is an arc from one of its corners to the other; the distance between them is its chord."""

    wall: Name
    """The wall."""
    bows: Literal["out", "in"] | None = None
    """Out of the room or into it. Without it out, or as its points say."""
    rise: Readings | None = None
    """The greatest offset from a string between the corners; a list where it was read more than once."""
    radius: Readings | None = None
    """The radius, where it is known or could be read from the centre."""
    over_half: Flag = False
    """With `radius`: whether it is more than half a circle."""
    points: tuple[CornerName, ...] = Field(default=(), max_length=100)
    """Points on the arc, each fixed by readings of its own; with several the best circle is taken."""
    within: Measure | None = None
    """How true the rise and the radius were read, and how near the points lie to the arc: one standard deviation.
    Without it what the tape's class and your reading give."""


class Survey(Table):
    """What was measured of the room, and of all `[[rooms]]` with it: one network of readings."""

    name: Name = "room"
    """What the room of `outline` is called, where there are others."""
    outline: tuple[CornerName, ...] = Field(default=(), max_length=200)
    """The corners in order round the room."""
    direction: Literal["anticlockwise", "clockwise"] = "anticlockwise"
    """Which way round `outline` goes, seen from above."""
    inward: tuple[CornerName, ...] = ()
    """Corners that turn into the room."""
    datum: Literal["first wall", "inner constraints"] = "first wall"
    """What the coordinates and their accuracy are said against."""
    tape: Tape = as_if_read({})
    """The tape."""
    walls: dict[Name, Pair] = Field(default={})
    """Names of walls: the wall from one corner to the next."""
    distances: dict[Pair, Readings] = Field(default={}, max_length=5000)
    """Distances from point to point: walls, diagonals and ties; a list for a distance read more than once."""
    square: tuple[Square, ...] = ()
    """Corners taken as square."""
    straight: tuple[Straight, ...] = ()
    """Points taken as straight."""
    angles: tuple[AngleReading, ...] = Field(default=(), max_length=1000)
    """Angles read."""
    offsets: tuple[OffsetReading, ...] = Field(default=(), max_length=1000)
    """Points measured square from a wall or a string."""
    arcs: tuple[ArcWall, ...] = Field(default=(), max_length=200)
    """Walls that are arcs."""
    coordinates: FileName | None = None
    """A CSV file beside this one, with name, east and north of each point; without an `outline` its points are the
    corners, in their order."""
    traced: FileName | None = None
    """A DXF or GeoJSON file beside this one that holds the outline."""
    layer: Note | None = None
    """With `traced`: the layer that the outline is drawn on; in GeoJSON the name of its feature."""
    drawn_in: Literal["mm", "cm", "m", "in", "ft"] | None = None
    """With `traced`: the unit that the drawing is in, whatever it says of itself."""
    coordinates_within: Measure = as_if_read(Fallback("2 mm", "1/16in"))
    """How true each coordinate is, of a file or of `points`: one standard deviation."""
    points: dict[CornerName, tuple[Coordinate, Coordinate]] = Field(default={}, max_length=1000)
    """Coordinates of points, east and north; what a file holds that `coordinates` or `traced` names goes here."""


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


class Group(Table):
    """The size of tiles measured by a row of them."""

    tiles: Positive
    """Tiles in the row."""
    joints: Count
    """Joints in the row."""
    joint: Length
    """The spacer in each joint."""
    reads: Measure
    """The whole row, by the tape."""


class Goods(Table):
    """Tiles or other pieces as they are bought."""

    name: Name
    """What they are called."""
    length: Measure | None = None
    """Real length of a piece; needed unless there is a `group`."""
    width: Measure | None = None
    """Real width of a piece; without it a piece is square."""
    thickness: Measure | None = None
    """Of a piece."""
    box: Positive | None = None
    """Pieces in a box."""
    group: Group | None = None
    """The length as measured by a row of tiles; it is used before `length`."""

    @property
    def size(self) -> tuple[float, float]:
        """Length and width of a piece at its real size, mm."""
        length = self.length if self.group is None else self.row(METRIC)[0]
        assert length is not None, "job.check lets no goods without a length through"
        return length, self.width if self.width is not None else length

    def row(self, style: LengthStyle) -> tuple[float | None, Finding]:
        """Returns the length that the `group` gives, mm, and the finding that says so; only for goods with a group."""
        assert self.group is not None, "asked of goods without a group"
        return tile_from_row(**dict(self.group), place=f"goods {self.name}", style=style)


class DrawnPiece(Table):
    """A piece of a pattern of your own."""

    name: Name = "piece"
    """Its kind: pieces of one name are the same goods."""
    corners: tuple[tuple[Coordinate, Coordinate], ...] = Field(min_length=3, max_length=100)
    """Its corners in order, either way round, as [x, y]."""


class DrawnPattern(Table):
    """A pattern of your own: pieces drawn as polygons, with two repeat vectors."""

    name: Name
    """What a zone calls it."""
    across: tuple[Coordinate, Coordinate]
    """The first repeat vector, as [x, y]."""
    along: tuple[Coordinate, Coordinate]
    """The second one."""
    drawn: Literal["with joints", "without joints"] = "with joints"
    """Whether the pieces are drawn at work size, a joint apart, or touching, to be set in by half a joint."""
    pieces: tuple[DrawnPiece, ...] = Field(default=(), max_length=200)
    """Its pieces."""


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
    """Of a border: how wide it is; without it so many full rows. Of an inset: its width, square to its length."""
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
    length: Measure | None = None
    """Of a rectangular inset: its length."""
    turn: Angle = 0.0
    """Of an inset: degrees from the first line, anticlockwise, of its length and of its pattern's rows; of rings, of
    the first joint."""
    facing: Name | None = None
    """Of an inset or of rings: the opening that its length runs along, and that its pattern looks to, instead of the
    first line."""
    outline: tuple[Point, ...] = Field(default=(), max_length=500)
    """Of an inset of another shape: its corners in order, each [x, y]."""
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


class Aim(Table):
    """One aim. Each in turn leaves only the positions that are as good as the best by it, within its tolerance."""

    aim: Literal[
        "no piece under",
        "widest worst piece",
        "fewest small pieces",
        "least small edge",
        "fewest cuts",
        "fewest tiles",
        "balanced cuts",
        "full tile",
        "joint on line",
        "tile on line",
        "least taper",
        "no thin trim",
        "firm",
        "joint as asked",
        "lined up",
    ]
    """What is wanted. `least small edge` is the length of saw cut on small pieces; `firm`, that the worst piece stays
    good when the floor is set out a little wrong; `lined up`, that a joint or a tile lies on the control lines."""
    under: LeastPiece | None = None
    """The width under which a piece is small; without it `least_piece`."""
    at_most: Count | None = None
    """Of a number: so many are good enough."""
    within: Length | None = None
    """Of a length: so far from the best is as good as the best."""
    within_count: Count | None = None
    """Of a number: so many more than the fewest are as good as the fewest."""
    walls: tuple[Name, ...] = ()
    """Only the pieces or cuts at these walls count; with `balanced cuts` two walls that face each other, with `full
    tile` the wall that the full tiles stand at."""
    visible: Flag = False
    """Pieces and cuts at hidden walls do not count."""
    on: Name | None = None
    """With `joint on line` and `tile on line`: `first line`, `square line`, an opening (its axis) or a wall."""


class Aims(Table):
    """What the layout is to aim for."""

    least_piece: LeastPiece = "half"
    """The least width of a piece: a share of a tile, or a length."""
    hidden: tuple[Name, ...] = ()
    """Walls where a taper or a small cut is seen by nobody."""
    option: Note = ""
    """Your own choice among the options, by its name."""
    order: tuple[Aim, ...] = Field(default=(), max_length=20)
    """Your own aims, the weightiest first; without them ours are taken, in our order."""


class FreeEdge(Table):
    """A wall that is not built yet, or an edge that may as well be elsewhere: how far it may move to save cuts."""

    wall: Name
    """The wall or edge."""
    out: Length = as_if_read("0 mm")
    """How far it may move out."""
    inward: Length = as_if_read("0 mm", alias="in")
    """How far it may move in."""


class Laid(Table):
    """What is laid already: it stays as it is, and only the rest is worked out anew."""

    earlier: FileName = Field(alias="from")
    """The job file that it was laid by, beside this one."""
    pieces: tuple[Note, ...] = Field(default=(), max_length=20_000)
    """Ids of the pieces that are laid, as `floorwright layout --json` of the earlier job gives them."""
    line: LaidLine | None = None
    """Or a line that all is laid up to: `first line` or `square line` of the earlier job, or two points on its
    floor."""
    side: Literal["left", "right"] | None = None
    """With `line`: the side that is laid, as one looks along it."""
    hold: TwoPoints | None = None
    """Two corners that have not moved, by which the new readings are tied to the old; without it the ends of the first
    wall."""


class Ordering(Table):
    """What to order beside what is laid."""

    spares: Count = 0
    """Tiles kept for later repairs."""


class Grid(Table):
    """The working grid: boxes within reach, each set before the mortar skins."""

    wanted: Flag | None = None
    """Whether there is to be one; without it where the floor takes three boxes or more."""
    reach: Measure = as_if_read(Fallback("1.3 m", "4ft"))
    """How wide a box may be at the most, to be set from one place (common practice, no source)."""
    skins: Area | None = None
    """What you set before the mortar skins, in m2 (in a file in feet or inches, sq ft): your own figure."""
    first_pass: Length = as_if_read(Fallback("150 mm", "6in"))
    """The first pass of the trowel along a wall: no line of the grid lies under it (common practice, no source)."""


class SetOut(Table):
    """What is marked on the floor beside the control lines."""

    nail: CornerName | None = None
    """The corner with the nail that all running figures are measured from; without it the one that most are positive
    from."""
    ties: Flag | None = None
    """Whether to tie the nodes of the pattern to two corners each, with two tapes; without it only where a zone runs
    neither along the first line nor square to it, or ends off the walls."""
    gauge_rod: Flag = False
    """Whether to print gauge rods at true size, to be taped to a lath."""
    grid: Grid = as_if_read({})
    """The working grid."""


class Job(Table):
    """A job."""

    schema_number: Literal[1] = Field(default=SCHEMA, alias="schema")
    """The number of this form of the job file."""
    title: Note = ""
    """What the job is called on the sheets."""
    client: Note = ""
    """For whom."""
    by: Note = ""
    """By whom."""
    date: Date = None
    """Printed on the sheets; the clock is never read."""
    revision: Note = ""
    """Printed on the sheets."""
    units: Literal["mm", "cm", "m", "in", "ft"] = "mm"
    """What a bare number means, and whether lengths print in mm or in feet and inches."""
    words: Literal["UK", "US"] = by_system("UK", "US")
    """The trade words on the sheets."""
    paper: Literal["A4", "Letter"] = by_system("A4", "Letter")
    """The paper of the pack."""
    rounding: Rounding = by_system("0.5 mm", "1/16in")
    """What printed lengths are rounded to: 1 or 0.5 mm, 1/16in or 1/32in."""
    survey: Survey = as_if_read({})
    """What was measured of the room."""
    rooms: tuple[Room, ...] = Field(default=(), max_length=50)
    """Further rooms that the floor runs through to."""
    links: tuple[Link, ...] = Field(default=(), max_length=200)
    """Where the rooms run into each other."""
    openings: tuple[Opening, ...] = ()
    """Doors and other openings."""
    obstacles: tuple[Obstacle, ...] = ()
    """Columns and pipes."""
    slab_joints: tuple[SlabJoint, ...] = Field(default=(), max_length=100)
    """Straight joints that are in the slab already."""
    slab: Slab = as_if_read({})
    """The concrete slab that is scored."""
    scoring: Scoring | None = None
    """Lines to score or saw into the slab: the pattern's lines, not pieces."""
    control: Control = as_if_read({})
    """The control lines and the tools to hand."""
    goods: tuple[Goods, ...] = ()
    """Tiles or other pieces as they are bought."""
    patterns: tuple[DrawnPattern, ...] = ()
    """Patterns of your own, drawn."""
    zones: tuple[Zone, ...] = ()
    """Parts of the floor, each with one pattern."""
    aims: Aims = as_if_read({})
    """What the layout is to aim for."""
    setout: SetOut = as_if_read({})
    """What is marked on the floor beside the control lines."""
    free: tuple[FreeEdge, ...] = ()
    """Walls and edges that may move: a patio's edge, a kerb not built yet."""
    laid: Laid | None = None
    """What is laid already, by an earlier job file."""
    order: Ordering = as_if_read({})
    """What to order beside what is laid."""

    @property
    def style(self) -> LengthStyle:
        """How its lengths print."""
        return style_for(self.units, self.rounding)
