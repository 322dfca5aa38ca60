"""The nouns of a plan. All in the floor frame: mm, x right, y up."""

from dataclasses import dataclass

import numpy as np

from floorwright.geometry.region import Points


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A named corner of a room.

    Attributes:
        name: as booked, such as `SW` or `A`.
        x, y: mm.
        sd_x, sd_y: a-priori standard deviations, mm.
        angle: interior angle of the room there, radians (over pi where the corner turns in).
    """

    name: str
    x: float
    y: float
    sd_x: float = 0.0
    sd_y: float = 0.0
    angle: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """A straight wall from one corner to the next, the room on its left.

    Attributes:
        name: as the person calls it (`S`), or `start-end` when they gave no name.
        start, end: names of its corners, in the anticlockwise order of the outline.
        hidden: furnished or behind units, so that a taper or a small cut there is seen by nobody.
    """

    name: str
    start: str
    end: str
    hidden: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """A door or other opening in a wall.

    Attributes:
        name: as the person calls it.
        wall: name of its wall.
        start: mm along the wall from the wall's start corner to the near side of the opening.
        width: mm.
        reveal: mm by which the floor runs into the opening, to under the closed door; 0 stops at the wall's face.
    """

    name: str
    wall: str
    start: float
    width: float
    reveal: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Obstacle:
    """A column, a pipe or anything else that the floor runs round.

    Attributes:
        name: as the person calls it.
        kind: `column` or `pipe`.
        outline: (n, 2) mm, anticlockwise. A round one is flattened inside a chord tolerance (see `plan.obstacles`).
        centre: mm.
        radius: of a round one, else None.
    """

    name: str
    kind: str
    outline: Points
    centre: tuple[float, float]
    radius: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Room:
    """A room as adjusted from its readings.

    Attributes:
        name: of the room.
        corners: anticlockwise.
        walls: wall i runs from corner i to corner i + 1.
        openings, obstacles: see there.
    """

    name: str
    corners: tuple[Corner, ...]
    walls: tuple[Wall, ...]
    openings: tuple[Opening, ...] = ()
    obstacles: tuple[Obstacle, ...] = ()

    @property
    def outline(self) -> Points:
        """(n, 2) mm, anticlockwise, wall to wall, without reveals."""
        return np.array([(corner.x, corner.y) for corner in self.corners], dtype=np.float64)

    def corner(self, name: str) -> Corner:
        """Returns the corner of that name; KeyError if there is none."""
        return {corner.name: corner for corner in self.corners}[name]

    def wall(self, name: str) -> Wall:
        """Returns the wall of that name; KeyError if there is none."""
        return {wall.name: wall for wall in self.walls}[name]

    def ends(self, wall: str) -> tuple[Points, Points]:
        """Returns the start and end of a wall, each (2,) mm."""
        found = self.wall(wall)
        start, end = self.corner(found.start), self.corner(found.end)
        return np.array([start.x, start.y]), np.array([end.x, end.y])
