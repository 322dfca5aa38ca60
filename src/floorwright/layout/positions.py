"""Positions that a setter would try by hand, on one axis at a time: on the centre, full at a wall, balanced."""

import math
from dataclasses import dataclass

import numpy as np

from floorwright.layout.axis import Axis, Face, base_of, most_left, thin_end
from floorwright.layout.flat import Bools, Floats
from floorwright.tolerance import COINCIDENT, TOUCH

JOINT_ON_CENTRE = "joint on centre"
TILE_ON_CENTRE = "tile on centre"
BALANCED = "balanced"
FULL_AT = "full tile at"
WIDEST = "widest worst piece"
YOUR_OWN = "your own position"

UNALIGNED = 6
"""Rank of a position that lines up with nothing, after every pair of positions by hand."""

FINE = 0.01
"""Joints are first tried in steps of this, mm, then the least one that works is closed in on."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Position:
    """What lines up with what on one axis.

    Attributes:
        name: trade words: `joint on centre`, `tile on centre of hall`, `full tile at S`, `balanced`.
        rank: 0 where a line of the pattern lies on a control line or a full tile at a wall, 1 where it is marked from
            the walls' cuts; what a setter reaches for first.
        faces: the wall for a full tile; the far and the near wall for a balance.
        centre: mm along the axis, of a room of several; None for the centre of the control lines.
    """

    name: str
    rank: int
    faces: tuple[Face, ...] = ()
    centre: float | None = None

    def lows(self, axis: Axis, centre: float, joint: Floats) -> list[Floats]:
        """Returns where a tile may begin along the axis, mm, for each of some joints; a balance has two ways."""
        nothing = np.zeros_like(joint)
        at = centre if self.centre is None else self.centre
        if self.name.startswith(JOINT_ON_CENTRE):
            return [at + joint / 2]
        if self.name.startswith(TILE_ON_CENTRE):
            return [nothing + at - axis.size / 2]
        if self.name == BALANCED:
            far, near = self.faces
            middle = nothing + (far.near - near.near - axis.size) / 2
            return [middle, middle + (axis.size + joint) / 2]
        (wall,) = self.faces
        return [nothing + float(base_of(wall.sign, wall.near + wall.rise - axis.size, axis.size))]


def positions_of(faces: tuple[Face, ...], centres: tuple[tuple[str, float], ...] = ()) -> tuple[Position, ...]:
    """Returns the positions to try on the axis that these walls are square to.

    Args:
        faces: the walls.
        centres: of rooms that run through, the middle of each, mm along the axis.
    """
    found = [Position(name=JOINT_ON_CENTRE, rank=0), Position(name=TILE_ON_CENTRE, rank=0)]
    found += [
        Position(name=f"{name} of {room}", rank=1, centre=at)
        for room, at in centres
        for name in (JOINT_ON_CENTRE, TILE_ON_CENTRE)
    ]
    far = [face for face in faces if face.sign > 0]
    near = [face for face in faces if face.sign < 0]
    if far and near:
        # Of several walls on one side the longest shows most; of equals the farther out.
        pair = tuple(max(side, key=lambda face: (round(face.length), face.near)) for side in (far, near))
        found.append(Position(name=BALANCED, rank=1, faces=pair))
    found += [Position(name=f"{FULL_AT} {face.name}", rank=2, faces=(face,)) for face in faces]
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A position with a joint chosen.

    Attributes:
        position: see there.
        low: where a tile begins along the axis, mm.
        fits: whether no wall leaves a strip.
        thin: mm, the thinnest end at any wall.
    """

    position: Position
    low: float
    fits: bool
    thin: float


def place(position: Position, faces: tuple[Face, ...], axis: Axis, centre: float, spare: float) -> Placed:
    """Returns the position at the axis's own joint; of two ways the one that fits, then the one with the wider thin
    end."""
    joint = np.array([axis.joint])
    ways = []
    for low in position.lows(axis, centre, joint):
        fits, thin = ends(faces, axis, low, joint, spare)
        ways.append(Placed(position=position, low=float(low[0]), fits=bool(fits[0]), thin=float(thin[0])))
    return max(ways, key=lambda way: (way.fits, way.thin))


def ends(faces: tuple[Face, ...], axis: Axis, low: Floats, joint: Floats, spare: float) -> tuple[Bools, Floats]:
    """Returns for each (low, joint) whether every wall's cut fits, and the thinnest end at any wall, mm."""
    pitch = axis.size + joint
    fits = np.ones(len(joint), dtype=bool)
    thinnest = np.full(len(joint), axis.size)
    for face in faces:
        for phase in axis.phases:
            thin = np.asarray(thin_end(face, low + phase / axis.pitch * pitch, axis.size, pitch))
            if axis.through or face.rise <= axis.joint:
                fits &= thin + face.rise <= most_left(axis.size, joint, face.spare(spare)) + TOUCH
            thinnest = np.minimum(thinnest, thin)
    return fits, thinnest


def least_joint(
    position: Position,
    faces: tuple[Face, ...],
    axis: Axis,
    centre: float,
    spare: float,
    *,
    most: float,
    thinnest: float,
) -> float | None:
    """Returns the least joint from the axis's own up to `most` at which every wall fits and no thin end is under a
    limit.

    Args:
        position, faces, axis, centre, spare: as for `place`.
        most: mm.
        thinnest: mm, the limit.

    Returns:
        mm, to a millionth; None where no such joint is found.
    """

    def works(joint: Floats) -> Bools:
        good = np.zeros(len(joint), dtype=bool)
        for low in position.lows(axis, centre, joint):
            fits, thin = ends(faces, axis, low, joint, spare)
            good |= fits & (thin >= thinnest - TOUCH)
        return good

    tried = np.linspace(axis.joint, most, max(2, math.ceil((most - axis.joint) / FINE) + 1))
    good = np.flatnonzero(works(tried))
    if len(good) == 0:
        return None
    first = int(good[0])
    if first == 0:
        return float(tried[0])
    low, high = float(tried[first - 1]), float(tried[first])
    while high - low > COINCIDENT:
        middle = (low + high) / 2
        if works(np.array([middle]))[0]:
            high = middle
        else:
            low = middle
    return high


def whole_steps(joint: float, most: float, step: float) -> list[float]:
    """Returns the joints, in whole spacer steps counted from zero, from `joint` up to `most`."""
    first, last = math.ceil(joint / step - COINCIDENT), math.floor(most / step + COINCIDENT)
    return [number * step for number in range(first, last + 1)]
