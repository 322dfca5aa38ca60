"""A region: one outer ring, any holes, and a name on every edge."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Points: TypeAlias = NDArray[np.float64]
"""(n, 2) mm, floor frame unless said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle that edges stand for.

    Attributes:
        centre: (x, y) mm.
        radius: mm.
        hollow: whether the region lies inside it (a wall that bows out), not outside (one that bows in, a pipe).
    """

    centre: tuple[float, float]
    radius: float
    hollow: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Region:
    """An area with named edges.

    Attributes:
        rings: the outer ring (anticlockwise) first, then holes (clockwise); each (n, 2) mm, not closed.
        edges: for each ring, the name of the edge that starts at each of its points (`S`, `door reveal`, `column 1`).
            Several edges may carry one name.
        circles: by name, the circle that edges of that name stand for where both their ends lie on it. Such edges
            never leave the true region (see `geometry.arc`), and `geometry.restore` gives the arcs back.
        joints: names of edges where it meets another region with a joint between, and not a wall with a gap.
    """

    rings: tuple[Points, ...]
    edges: tuple[tuple[str, ...], ...]
    circles: Mapping[str, Circle] = field(default_factory=dict)
    joints: frozenset[str] = frozenset()
