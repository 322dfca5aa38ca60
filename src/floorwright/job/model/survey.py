"""What was measured of the room: the `[survey]` table and what it holds."""

from typing import Literal

from pydantic import Field

from floorwright.job.model.forces import Force, Section, WeightALength
from floorwright.job.model.table import Table, as_if_read
from floorwright.job.model.values import (
    Celsius,
    Coordinate,
    CornerName,
    CornersInLine,
    Degrees,
    Fallback,
    FileName,
    Flag,
    InnerAngle,
    Length,
    Measure,
    Name,
    Note,
    Pair,
    Readings,
    TwoPoints,
)


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
    pull: Force | None = None
    """How hard it was pulled while it was read: a text with its unit, `"60 N"`, `"6 kg"` or `"14 lb"`."""
    made_for: Force = "50 N"
    """The pull at which it is true, as printed on it."""
    section: Section | None = None
    """With `pull`: width by thickness of its steel, `"2.5 mm2"` or `"0.004 sq in"`; every distance is corrected for
    its stretch."""
    weight: WeightALength | None = None
    """What it weighs for its length, `"16 g/m"` or `"0.17 oz/ft"`."""
    hung: tuple[Pair, ...] = ()
    """With `pull` and `weight`: distances over which it hung free, and did not lie on the floor; they are corrected
    for its sag."""
    held_every: Measure | None = None
    """With `hung`: how far apart it was held up; without it at its ends alone."""


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
