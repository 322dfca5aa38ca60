"""A full tile in its own frame, and the way between that frame and the floor."""

import math
from dataclasses import dataclass

import numpy as np

from floorwright import tolerance
from floorwright.geometry.region import Points
from floorwright.geometry.restore import Outline
from floorwright.pattern.cell import Placement, UnitCell

FOUR_SIDES = ("bottom", "right", "top", "left")
FOUR_CORNERS = ("bottom left", "bottom right", "top right", "top left")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tile:
    """A full tile as it lies in a repeat of the pattern.

    Attributes:
        outline: (m, 2) mm in the tile's own frame, anticlockwise, from its lower left corner.
        origin: pattern mm of the tile's lower left corner in repeat (0, 0).
        turn: radians from the pattern's x to the tile's.
        sides: name of the side from each corner to the next; the edges that stand for an arc are one side.
        corners: names; empty where edges that stand for an arc meet.
    """

    outline: Points
    origin: Points
    turn: float
    sides: tuple[str, ...]
    corners: tuple[str, ...]

    @property
    def half_turns(self) -> bool:
        """Whether half a turn brings the names of sides and corners onto each other, two and two."""
        return len(self.sides) == len(FOUR_SIDES)

    def corner_from(self, at: int, step: int) -> int:
        """Returns the first corner with a name at or after a place on the outline, going round by steps of 1 or -1."""
        count = len(self.corners)
        return next((n % count for n in range(at, at + step * count, step) if self.corners[n % count]), at)

    def opposite(self, one: str, other: str) -> bool:
        """Returns whether two sides, by name, face each other across a tile of four sides."""
        apart = abs(self.sides.index(one) - self.sides.index(other))
        return self.half_turns and apart == 2


def tile_of(cell: UnitCell, k: int) -> Tile:
    """Returns piece k of a cell as a full tile in its own frame; its first side is its bottom.

    A tile with arcs lies as it does in the pattern, which has no bottom side.
    """
    outline = cell.pieces[k]
    true = cell.outlines[k] if cell.outlines else None
    if true is not None:
        return _rounded(outline, true)
    along = outline[1] - outline[0]
    turn = math.atan2(along[1], along[0])
    local = (outline - outline[0]) @ _rotation(turn)
    least = local.min(axis=0)
    count = len(outline)
    four = count == len(FOUR_SIDES)
    return Tile(
        outline=local - least,
        origin=outline[0] + _rotation(turn) @ least,
        turn=turn,
        sides=FOUR_SIDES if four else tuple(f"side {n + 1}" for n in range(count)),
        corners=FOUR_CORNERS if four else tuple(f"corner {n + 1}" for n in range(count)),
    )


def _rounded(outline: Points, true: Outline) -> Tile:
    """A tile with arcs: its corners and sides are those of its true outline."""
    apart = np.hypot(*(outline[:, None] - true.points[None]).transpose(2, 0, 1))
    number = [int(n) + 1 if off <= tolerance.STRIP else 0 for n, off in zip(apart.argmin(1), apart.min(1), strict=True)]
    side = next((n for n in reversed(number) if n), 1)
    sides = []
    for n in number:
        side = n or side
        sides.append(f"side {side}")
    least = outline.min(axis=0)
    return Tile(
        outline=outline - least,
        origin=least,
        turn=0.0,
        sides=tuple(sides),
        corners=tuple(f"corner {n}" if n else "" for n in number),
    )


def onto_tile(points: Points, tile: Tile, cell: UnitCell, placement: Placement, index: tuple[int, int, int]) -> Points:
    """Returns floor points in a tile's own frame.

    Args:
        points: (n, 2) mm, floor frame.
        tile: piece k of the cell, from `tile_of`.
        cell, placement: of the layout.
        index: (i, j, k) of the piece.
    """
    pattern = (points - np.array(placement.origin)) @ _rotation(placement.angle)
    return np.asarray((pattern - _repeat(cell, index) - tile.origin) @ _rotation(tile.turn))


def onto_floor(points: Points, tile: Tile, cell: UnitCell, placement: Placement, index: tuple[int, int, int]) -> Points:
    """Returns points of a tile's own frame on the floor; the way back from `onto_tile`."""
    pattern = points @ _rotation(tile.turn).T + tile.origin + _repeat(cell, index)
    return np.asarray(pattern @ _rotation(placement.angle).T + np.array(placement.origin))


def _repeat(cell: UnitCell, index: tuple[int, int, int]) -> Points:
    return np.asarray(index[0] * cell.a + index[1] * cell.b)


def _rotation(angle: float) -> Points:
    """(2, 2) that turns a column vector anticlockwise; rows of points are turned back by `points @ it`."""
    cosine, sine = math.cos(angle), math.sin(angle)
    return np.array([[cosine, -sine], [sine, cosine]], dtype=np.float64)
