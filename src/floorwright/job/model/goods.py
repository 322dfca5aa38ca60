"""What is laid: goods as they are bought, and patterns of your own."""

from typing import Literal

from pydantic import Field

from floorwright.findings import Finding
from floorwright.job.model.table import Table
from floorwright.job.model.values import Coordinate, Count, FileName, Length, Measure, Name, Note, Positive
from floorwright.survey.group import tile_from_row
from floorwright.units import METRIC, LengthStyle


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
    traced: FileName | None = None
    """A DXF or SVG file beside this one that holds its pieces, each a closed outline of straight sides, and its repeat:
    two lines on a layer (in SVG a group) called `repeat`."""
    layers: tuple[Note, ...] = Field(default=(), max_length=20)
    """With `traced`: the layers that its pieces are drawn on, each a kind of piece; without it all but `repeat`."""
    drawn_in: Literal["mm", "cm", "m", "in", "ft"] | None = None
    """With `traced`: the unit that the drawing is in, whatever it says of itself."""
    across: tuple[Coordinate, Coordinate] | None = None
    """The first repeat vector, as [x, y]; needed unless the drawing has it."""
    along: tuple[Coordinate, Coordinate] | None = None
    """The second one."""
    drawn: Literal["with joints", "without joints"] = "with joints"
    """Whether the pieces are drawn at work size, a joint apart, or touching, to be set in by half a joint."""
    pieces: tuple[DrawnPiece, ...] = Field(default=(), max_length=200)
    """Its pieces; those of a drawing that is `traced` go here."""


class Ordering(Table):
    """What to order beside what is laid."""

    spares: Count = 0
    """Tiles kept for later repairs."""
