"""The pieces of a repeat as the kernel takes them: the sides of all of them in one array, so that a pattern of eighty
pieces costs no more loops than one of a single tile."""

from dataclasses import dataclass, replace

import numpy as np

from floorwright.geometry.region import Points
from floorwright.layout.flat import Bools, Floats, Ints, areas, following
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import COINCIDENT, TOUCH


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Outline:
    """A tile, as its corners and its sides; if it is convex, it is the overlap of the half planes inside its sides.

    Attributes:
        corners: (..., m, 2) mm, anticlockwise; side q runs from corner q to the next.
        normals: (..., m, 2) unit, inward.
        offsets: (..., m) mm: a point x is inside side q where `normals[q] @ x > offsets[q]`.
    """

    corners: Points
    normals: Points
    offsets: Floats

    def taken(self, rows: Ints) -> "Outline":
        """Returns some of several outlines, in this order."""
        return Outline(corners=self.corners[rows], normals=self.normals[rows], offsets=self.offsets[rows])


def outline_of(piece: Points) -> Outline:
    """Returns the outline of an anticlockwise ring of corners."""
    normals = _inward(np.roll(piece, -1, axis=0) - piece)
    return Outline(corners=piece, normals=normals, offsets=(normals * piece).sum(axis=1))


def _inward(runs: Points) -> Points:
    """Returns the unit normals, to the left, of sides that run so."""
    return np.stack([-runs[:, 1], runs[:, 0]], axis=1) / np.hypot(runs[:, 0], runs[:, 1])[:, None]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Repeat:
    """The pieces of a repeat with the vectors it repeats by.

    Attributes:
        vectors: (2, 2) mm, the repeat vectors as rows.
        first: (pieces + 1,) where each piece begins: side q of piece k is row `first[k] + q` of what follows.
        corners, normals, offsets: of all pieces one after another, as in `Outline`.
    """

    vectors: Points
    first: Ints
    corners: Points
    normals: Points
    offsets: Floats

    def __len__(self) -> int:
        return len(self.first) - 1

    @property
    def sides(self) -> Ints:
        """(pieces,) how many sides each piece has."""
        return np.diff(self.first)

    @property
    def runs(self) -> Points:
        """(n, 2) mm, from each corner to the next of its piece."""
        return self.corners[following(self.first)] - self.corners

    @property
    def areas(self) -> Floats:
        """(pieces,) mm2."""
        return areas(self.corners, self.first)

    @property
    def convex(self) -> Bools:
        """(pieces,) whether a piece turns left, or goes straight on, at every corner."""
        runs = self.runs
        onward = runs[following(self.first)]
        turns = runs[:, 0] * onward[:, 1] - runs[:, 1] * onward[:, 0]
        return np.asarray(np.minimum.reduceat(turns, self.first[:-1]) >= -COINCIDENT)

    @property
    def inside(self) -> Points:
        """(pieces, 2) mm, a point inside each piece: the middle of the widest span of a level line through it."""
        found = np.empty((len(self), 2))
        for m in np.unique(self.sides):
            pieces = np.flatnonzero(self.sides == m)
            found[pieces] = _mid_span(self.corners[self.first[pieces, None] + np.arange(m)])
        return found

    def of(self, pieces: Ints | int) -> Outline:
        """Returns the outline of a piece; of several with as many sides as each other their outlines, one a row."""
        rows = self.first[pieces][..., None] + np.arange(int(np.max(self.sides[pieces])))
        return Outline(corners=self.corners[rows], normals=self.normals[rows], offsets=self.offsets[rows])

    def shrunk(self) -> "Repeat":
        """Returns the pieces less `tolerance.TOUCH` all round, for the predicates, mitred at the corners."""
        offsets = self.offsets + TOUCH
        before = np.empty(len(offsets), dtype=np.intp)
        before[following(self.first)] = np.arange(len(offsets))
        earlier, normal = self.normals[before], self.normals
        cross = earlier[:, 0] * normal[:, 1] - earlier[:, 1] * normal[:, 0]
        c0, c1 = offsets[before], offsets
        x = (c0 * normal[:, 1] - c1 * earlier[:, 1]) / cross
        y = (earlier[:, 0] * c1 - normal[:, 0] * c0) / cross
        return replace(self, corners=np.stack([x, y], axis=1), offsets=offsets)


def repeat_of(cell: UnitCell) -> Repeat:
    """Returns the pieces of a pattern's repeat."""
    first = np.cumsum([0, *map(len, cell.pieces)], dtype=np.intp)
    corners = np.concatenate(cell.pieces)
    normals = _inward(corners[following(first)] - corners)
    return Repeat(
        vectors=cell.repeat,
        first=first,
        corners=corners,
        normals=normals,
        offsets=(normals * corners).sum(axis=1),
    )


def _mid_span(corners: Points) -> Points:
    """Returns of each of (p, m, 2) rings the middle of the widest span that it cuts from a level line.

    The line lies midway between two corners, the farthest apart in height that follow one another.
    """
    heights = np.sort(corners[..., 1], axis=1)
    rows, gap = np.arange(len(corners)), np.diff(heights, axis=1).argmax(axis=1)
    level = ((heights[rows, gap] + heights[rows, gap + 1]) / 2)[:, None]
    (x0, y0), (x1, y1) = np.moveaxis(corners, 2, 0), np.moveaxis(np.roll(corners, -1, axis=1), 2, 0)
    crossed = (y0 > level) != (y1 > level)
    rise = np.where(crossed, y1 - y0, 1.0)
    places = np.sort(np.where(crossed, x0 + (level - y0) / rise * (x1 - x0), np.inf), axis=1)
    low, high = places[:, :-1:2], places[:, 1::2]
    span = np.subtract(high, low, out=np.zeros_like(low), where=np.isfinite(high)).argmax(axis=1)
    return np.stack([(low[rows, span] + high[rows, span]) / 2, level[:, 0]], axis=1)
