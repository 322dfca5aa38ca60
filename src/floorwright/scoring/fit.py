"""Cells made as much larger or smaller as it takes to come out whole: lines cost no goods, so any size is to be had."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from floorwright.geometry.region import Region
from floorwright.pattern.cell import Placement, Size, UnitCell
from floorwright.pattern.shape import rectangle
from floorwright.scoring.design import Frame
from floorwright.tolerance import ONE_CUT, RANK_STEP


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fitted:
    """A pattern in a part of the slab.

    Attributes:
        cell: its unit cell.
        placement: on the floor.
        size: of a cell as it came out, mm.
        asked: as it was asked for.
    """

    cell: UnitCell
    placement: Placement
    size: Size
    asked: Size

    @property
    def is_changed(self) -> bool:
        """Whether cells came out of another size."""
        return max(abs(one - other) for one, other in zip(self.size, self.asked, strict=True)) > RANK_STEP


def fit_in(
    region: Region, along: float, make: Callable[[Size], UnitCell], asked: Size, *, turn: float, band: bool, whole: bool
) -> Fitted:
    """Returns a pattern laid in a part of the slab.

    Along the inside edge of a band, and both ways in an inset, a grid's cells are as near their size as come out whole:
    W / round(W / L) of a width W. Other patterns, and turned ones, keep their size and stand on the middle.

    Args:
        region: the part, floor mm.
        along: direction that it is laid along, radians; a band's inside lies to the left of it.
        make: makes the pattern of a size.
        asked: size of a cell, mm.
        turn: of the rows from that direction, radians.
        band: whether it is a side of a border.
        whole: whether it is a grid, whose cells may come out whole.
    """
    frame = Frame(origin=(0.0, 0.0), angle=along)
    ring = frame.local(region.rings[0])
    low, high = ring.min(axis=0), ring.max(axis=0)
    fits = whole and abs(math.remainder(turn, math.pi / 2)) < ONE_CUT / math.dist(low, high)
    if band:
        inner = ring[ring[:, 1] >= high[1] - ONE_CUT]
        ends = np.array([inner[:, 0].min(), inner[:, 0].max()])
        # From its inside edge outward, so that its lines go on from the field's corner.
        start = np.array([ends[0] if fits else ends.mean(), high[1]])
        size = (_whole(float(np.ptp(ends)), asked[0]), asked[1]) if fits else asked
        cell = (
            _to_mitres(make(size), round(float(np.ptp(ends)) / size[0]), float(high[1] - low[1]))
            if fits
            else make(asked)
        )
    else:
        start = low if fits else (low + high) / 2
        size = (_whole(float(high[0] - low[0]), asked[0]), _whole(float(high[1] - low[1]), asked[1])) if fits else asked
        cell = make(size)
    x, y = frame.floor(start)
    return Fitted(
        cell=cell, placement=Placement(origin=(float(x), float(y)), angle=along + turn), size=size, asked=asked
    )


def _whole(span: float, asked: float) -> float:
    return span / max(1, round(span / asked))


def _to_mitres(cell: UnitCell, count: int, depth: float) -> UnitCell:
    """A row of so many cells of a grid, the first and the last as much longer as a mitre takes: no line runs from an
    inside corner across the border beside the mitre, and no sharp corner is left between the two."""
    length, width = cell.size
    past = 2 * depth
    ends = [-past, *(length * n for n in range(1, count)), count * length + past]
    pieces = tuple(rectangle((right - left, width), (left, 0.0)) for left, right in pairwise(ends))
    return replace(cell, a=np.array([ends[-1] - ends[0] + past, 0.0]), pieces=pieces, lines=())
