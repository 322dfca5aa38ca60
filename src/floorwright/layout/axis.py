"""The two directions of a pattern of rectangles, and what runs along them.

An *axis* is a direction in which tiles and joints alternate: the pattern's x and its y. A person knows them as
`across` the floor (the one nearer to the floor's x, from side to side on the sheets) and `along` it (up the sheets).
A *face* is a wall, or any edge of the covered region, that lies square to an axis within `tolerance.ALONG`. All there
is to know about the cut at a face follows from one coordinate, so most questions about a position need no polygon.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np

from floorwright.geometry.region import Points, Region
from floorwright.geometry.restore import on_circle
from floorwright.layout.flat import Floats
from floorwright.layout.sides import Side
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import ALONG, COINCIDENT, STRIP, TOUCH

Number: TypeAlias = float | Floats

ACROSS: Final = "across"
ALONG_FLOOR: Final = "along"

CROSSES: Final = 0.5
"""A wall that rises by more than this part of a tile over its length runs across the rows: a row of wedges is natural
there, and nothing is said of its two ends."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Axis:
    """One direction of the pattern on the floor.

    Attributes:
        name: `across` or `along`.
        direction: (2,) unit, floor frame.
        size: of a tile in this direction, mm.
        joint: mm.
        phases: mm by which the tiles of one row after another are shifted, `(0,)` where joints run through.
    """

    name: str
    direction: Points
    size: float
    joint: float
    phases: tuple[float, ...] = (0.0,)

    @property
    def through(self) -> bool:
        """Whether the joints run through the floor."""
        return len(self.phases) == 1

    @property
    def pitch(self) -> float:
        """A tile and a joint, mm."""
        return self.size + self.joint


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Face:
    """An edge of the floor square to an axis. Reaches are mm along the axis's direction, outward counted positive.

    Attributes:
        name: of the wall or edge.
        sign: 1 where the floor ends in the axis's direction, -1 where it begins.
        start, end: reach of its two ends, perimeter gap taken off.
        low, high: mm along the other axis between which it lies.
        length: mm.
        slack: mm by which the fat end may seem over at a corner that the other wall's gap keeps the tiles out of.
        is_joint: whether another zone lies beyond it, a joint away: there is no gap there to be wider.
    """

    name: str
    sign: int
    start: float
    end: float
    low: float
    high: float
    length: float
    slack: float
    is_joint: bool = False

    def spare(self, spare: float) -> float:
        """Returns by how much the gap may be wider here, mm, given by how much it may be at the walls."""
        return 0.0 if self.is_joint else spare

    @property
    def near(self) -> float:
        """Reach of the end that leaves the thin end of the cut."""
        return min(self.start, self.end)

    @property
    def rise(self) -> float:
        """How much farther its other end reaches, mm."""
        return abs(self.end - self.start)

    def reach_at(self, at: float) -> float:
        """Returns the reach of its line at a place along the other axis, mm."""
        # The floor lies left of its edges: one that faces the axis's way starts at its low end.
        low, high = (self.start, self.end) if self.sign > 0 else (self.end, self.start)
        return low + (high - low) * (at - self.low) / max(self.high - self.low, COINCIDENT)


def axes_of(cell: UnitCell, angle: float) -> tuple[Axis, ...]:
    """Returns the pattern's x and y axis, for a pattern of equal rectangles in rows; nothing for any other pattern.

    Args:
        cell: the pattern.
        angle: from the floor's x to the pattern's x, radians.
    """
    if not _in_rows(cell):
        return ()
    length, width = cell.size
    pitch = length + cell.joint
    rows = {family.angle: family for family in cell.lines}
    if len(cell.pieces) == 1:
        turns = round(pitch / rows[math.pi / 2].spacing)
        phases = tuple(float(row * cell.b[0]) % pitch for row in range(turns))
    else:
        phases = tuple(float(piece[0, 0] - cell.joint / 2) % pitch for piece in cell.pieces)
    cos, sin = math.cos(angle), math.sin(angle)
    names = (ACROSS, ALONG_FLOOR) if abs(cos) > abs(sin) - COINCIDENT else (ALONG_FLOOR, ACROSS)
    return (
        Axis(name=names[0], direction=np.array([cos, sin]), size=length, joint=cell.joint, phases=phases),
        Axis(name=names[1], direction=np.array([-sin, cos]), size=width, joint=cell.joint),
    )


def _in_rows(cell: UnitCell) -> bool:
    """Returns whether a pattern is rows of equal rectangles, each row one piece long in the repeat, lines both ways."""
    length, width = cell.size
    pitch, rise = length + cell.joint, width + cell.joint
    count = len(cell.pieces)
    if {family.angle for family in cell.lines} != {0.0, math.pi / 2}:
        return False
    if abs(cell.a[0] - pitch) > COINCIDENT or abs(cell.a[1]) > COINCIDENT or abs(cell.b[1] - count * rise) > COINCIDENT:
        return False
    if count > 1 and abs(cell.b[0]) > COINCIDENT:
        return False
    tile = np.array([[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]])
    return all(
        piece.shape == tile.shape
        and bool(np.abs(piece - piece[0] - tile).max() < COINCIDENT)
        and abs(piece[0, 1] - row * rise - cell.joint / 2) < COINCIDENT
        for row, piece in enumerate(cell.pieces)
    )


def wall_faces(sides: Sequence[Side], axis: Axis) -> tuple[Face, ...]:
    """Returns the sides of a zone that run square to the axis, reaching to their own corners less the gap.

    A side that reaches more than half a tile farther at one end than at the other runs across the rows, and of an arc
    no two ends tell the cut.
    """
    faces = [
        _face(side.name, side.start, side.end, axis, side.gap, is_joint=side.is_joint) for side in sides if not side.arc
    ]
    return tuple(face for face in faces if face is not None)


def region_faces(region: Region, axis: Axis) -> tuple[Face, ...]:
    """Returns the edges of a region that run square to the axis and are longer than a joint, none that stand for an
    arc: a tile's row leaves it as soon as it meets it."""
    faces = []
    for ring, names in zip(region.rings, region.edges, strict=True):
        for start, end, name in zip(ring, np.roll(ring, -1, axis=0), names, strict=True):
            circle = region.circles.get(name)
            if circle is not None and on_circle(start, end, circle):
                continue
            face = _face(name, start, end, axis, 0.0, is_joint=name in region.joints)
            if face is not None and face.length > axis.joint + STRIP:
                faces.append(face)
    return tuple(faces)


def _face(name: str, start: Points, end: Points, axis: Axis, gap: float, *, is_joint: bool) -> Face | None:
    # In plain numbers: arrays of two would take most of the time of an exact search.
    (ax, ay), (bx, by), (dx, dy) = start.tolist(), end.tolist(), axis.direction.tolist()
    length = math.hypot(bx - ax, by - ay)
    if length < COINCIDENT:
        return None
    square = ((by - ay) * dx - (bx - ax) * dy) / length
    if abs(square) < math.cos(ALONG):
        return None
    sign = 1 if square > 0 else -1
    reach = sign * (ax * dx + ay * dy) - gap, sign * (bx * dx + by * dy) - gap
    rise = abs(reach[1] - reach[0])
    if rise > CROSSES * axis.size:
        return None
    low, high = sorted((ay * dx - ax * dy, by * dx - bx * dy))
    return Face(
        name=name,
        sign=sign,
        start=reach[0],
        end=reach[1],
        low=low,
        high=high,
        length=length,
        slack=gap * rise / length,
        is_joint=is_joint,
    )


def base_of(sign: int, low: Number, size: float) -> Number:
    """Returns where, counted outward, a tile begins that lies from `low` to `low + size` along the axis."""
    return low if sign > 0 else -(low + size)


def most_left(size: float, joint: Number, spare: float) -> Number:
    """Returns the most that a face may leave of a row, mm: a tile and as much of its joint as the gap may take over.

    Args:
        size: the tile's, mm.
        joint: mm. Beyond it the next row's tile begins, however wide the gap may be.
        spare: mm by which the gap may be wider than it is.
    """
    return size + np.minimum(spare, joint)


def thin_end(face: Face, low: Number, size: float, pitch: Number) -> Number:
    """Returns what the face leaves of the row of tiles in which its near end lies, mm, over 0 and up to the pitch.

    More than the tile's size means that the face lies in a joint: what is over the size is a strip between the tile and
    the gap. The same row is followed to the face's far end, so the fat end is this plus the face's rise.

    Args:
        face: what cuts the row.
        low: where any tile of the row of tiles begins along the axis, mm.
        size: the tile's, mm.
        pitch: a tile and a joint, mm.
    """
    left = np.mod(face.near - base_of(face.sign, low, size), pitch)
    return np.where(left < TOUCH, left + pitch, left)
