"""A region: one outer ring, any holes, and a name on every edge."""

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Points: TypeAlias = NDArray[np.float64]
"""(n, 2) mm, floor frame unless said."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Region:
    """An area with named edges.

    Attributes:
        rings: the outer ring (anticlockwise) first, then holes (clockwise); each (n, 2) mm, not closed.
        edges: for each ring, the name of the edge that starts at each of its points (`S`, `door reveal`, `column 1`).
            Several edges may carry one name.
    """

    rings: tuple[Points, ...]
    edges: tuple[tuple[str, ...], ...]
