"""The nouns of a plan. All in the floor frame: mm, x right, y up."""

import math
from dataclasses import dataclass

import numpy as np

from floorwright.geometry.arc import Arc, bulged_area, bulged_length, flat
from floorwright.geometry.region import Points
from floorwright.tolerance import ARC

Side = tuple[int, float]
"""Index of a wall, and mm along it at which an edge of the flattened outline starts."""


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
    """A wall from one corner to the next, the room on its left.

    Attributes:
        name: as the person calls it (`S`), or `start-end` when they gave no name.
        start, end: names of its corners, in the anticlockwise order of the outline.
        hidden: furnished or behind units, so that a taper or a small cut there is seen by nobody.
        bulge: of a wall that is an arc (see `geometry.arc`): over 0 where it bows out of the room, under 0 where it
            bows in; 0 for a straight one.
        room: name of the room that it belongs to.
    """

    name: str
    start: str
    end: str
    hidden: bool = False
    bulge: float = 0.0
    room: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """A door or other opening in a wall.

    Attributes:
        name: as the person calls it.
        wall: name of its wall.
        start: mm along the face of the wall from its start corner to the near side of the opening.
        width: mm, of a wall that is an arc along its face as well.
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
        kind: `column`, `round column`, `pipe`, or `walls` for what stands inside a ring of rooms.
        outline: (n, 2) mm, anticlockwise. A round one is flattened about the circle (see `plan.obstacles`).
        centre: mm.
        radius: of a round one, else None.
        edges: names of its edges, from each point to the next; none where all go by its own name.
    """

    name: str
    kind: str
    outline: Points
    centre: tuple[float, float]
    radius: float | None = None
    edges: tuple[str, ...] = ()

    @property
    def edge_names(self) -> tuple[str, ...]:
        """A name for every edge."""
        return self.edges or (self.name,) * len(self.outline)


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """Where the floor of one room runs through to the next.

    Attributes:
        name: of the doorway; of an open mouth what its two rooms are called.
        rooms: the two.
        openings: of the first room and of the second, face to face through the wall between; none for an open mouth.
        at: mm from the face of the first room's wall to the line where the floor may break; None for the middle of a
            doorway, and the face in an open mouth.
    """

    name: str
    rooms: tuple[str, str]
    openings: tuple[str, str] | None = None
    at: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Threshold:
    """The line across a doorway or a mouth between two rooms, where the floor may break.

    Attributes:
        name: its own; several mouths of one link are counted.
        link: name of the link.
        rooms: on its left and on its right, seen from `start`.
        start, end: (2,) mm, at the jambs.
    """

    name: str
    link: str
    rooms: tuple[str, str]
    start: Points
    end: Points


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Room:
    """A room as adjusted from its readings, or several that run through, made one (`plan.run`).

    Attributes:
        name: of the room.
        corners: anticlockwise.
        walls: wall i runs from corner i to corner i + 1.
        openings, obstacles: see there.
        rooms: those that were made one, each with all its own walls and openings, also where they are open to each
            other; none for a room by itself.
        thresholds: between those.
    """

    name: str
    corners: tuple[Corner, ...]
    walls: tuple[Wall, ...]
    openings: tuple[Opening, ...] = ()
    obstacles: tuple[Obstacle, ...] = ()
    rooms: tuple["Room", ...] = ()
    thresholds: tuple[Threshold, ...] = ()

    @property
    def outline(self) -> Points:
        """(n, 2) mm, anticlockwise, wall to wall, without reveals.

        Straight edges stand for walls that are arcs, within `tolerance.ARC` and never past the wall; `sides` says which
        edge is of which wall.
        """
        if not self.has_arcs:
            return self.corner_ring
        return np.vstack([self._flat(wall) for wall in self.walls])

    @property
    def corner_ring(self) -> Points:
        """(n, 2) mm, the corners alone."""
        return np.array([(corner.x, corner.y) for corner in self.corners], dtype=np.float64)

    @property
    def area(self) -> float:
        """Wall to wall, mm2, arcs as they are."""
        return bulged_area(self.corner_ring, tuple(wall.bulge for wall in self.walls))

    @property
    def perimeter(self) -> float:
        """Round the walls, mm, along arcs."""
        return bulged_length(self.corner_ring, tuple(wall.bulge for wall in self.walls))

    @property
    def has_arcs(self) -> bool:
        """Whether any wall is an arc."""
        return any(wall.bulge for wall in self.walls)

    @property
    def sides(self) -> tuple[Side, ...]:
        """Of each edge of the outline its wall, and how far along that it starts."""
        found: list[Side] = []
        for n, wall in enumerate(self.walls):
            count, length = len(self._flat(wall)), self.length(wall.name)
            # Edges of one arc are even, but for halves at both ends of one that bows in.
            shares = np.arange(count) / count if wall.bulge >= 0.0 else (np.arange(count) - 0.5) / (count - 1)
            found += [(n, float(share) * length) for share in np.maximum(shares, 0.0)]
        return tuple(found)

    def _flat(self, wall: Wall) -> Points:
        arc = self.arc(wall.name)
        return self.ends(wall.name)[0][None] if arc is None else flat(arc, ARC)

    @property
    def known_walls(self) -> tuple[Wall, ...]:
        """Its walls, then those of its rooms that are no longer whole: a person may still mean the whole of them."""
        own = {wall.name for wall in self.walls}
        return (*self.walls, *(wall for room in self.rooms for wall in room.walls if wall.name not in own))

    @property
    def known_openings(self) -> tuple[Opening, ...]:
        """Its openings, then those of its rooms that the floor runs through."""
        own = {opening.name for opening in self.openings}
        linked = (opening for room in self.rooms for opening in room.openings if opening.name not in own)
        return (*self.openings, *linked)

    def corner(self, name: str) -> Corner:
        """Returns the corner of that name, its own first; KeyError if there is none."""
        every = (*(corner for room in self.rooms for corner in room.corners), *self.corners)
        return {corner.name: corner for corner in every}[name]

    def wall(self, name: str) -> Wall:
        """Returns the wall of that name, its own or a whole one of its rooms; KeyError if there is none."""
        return {wall.name: wall for wall in self.known_walls}[name]

    def ends(self, wall: str) -> tuple[Points, Points]:
        """Returns the start and end of a wall, each (2,) mm."""
        found = self.wall(wall)
        start, end = self.corner(found.start), self.corner(found.end)
        return np.array([start.x, start.y]), np.array([end.x, end.y])

    def arc(self, wall: str) -> Arc | None:
        """Returns the arc that a wall is, from its start to its end; None for a straight one."""
        found = self.wall(wall)
        if not found.bulge:
            return None
        start, end = self.corner(found.start), self.corner(found.end)
        return Arc(start=(start.x, start.y), end=(end.x, end.y), bulge=found.bulge)

    def length(self, wall: str) -> float:
        """Returns the length of a wall, mm, along its face."""
        arc = self.arc(wall)
        return math.dist(*self.ends(wall)) if arc is None else arc.length

    def place(self, wall: str, along: float) -> Points:
        """Returns the point so many mm along the face of a wall from its start, (2,) mm."""
        arc = self.arc(wall)
        if arc is not None:
            return np.array(arc.at(along))
        start, end = self.ends(wall)
        return np.asarray(start + along / math.dist(start, end) * (end - start))
