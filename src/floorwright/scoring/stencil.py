"""Stencil in strips: how many, where each starts, and what of it lies over the one before."""

import math
from dataclasses import dataclass

from floorwright.tolerance import COINCIDENT


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """Strips side by side over a field, each of sheets end to end, all in one direction.

    Attributes:
        starts: of each strip, mm from the edge of the field to its near side; the next lies over it by `overlap`.
        width: of a strip, mm.
        sheets: in a strip.
        overlap: mm; the last joint of a strip lies over the first of the next.
        last: mm of the last strip that are needed; the rest is cut off or masked.
    """

    starts: tuple[float, ...]
    width: float
    sheets: int
    overlap: float
    last: float


def strips(across: float, along: float, *, width: float, length: float, overlap: float) -> Strips:
    """Returns the strips that cover a field.

    n strips lapped by o cover n w - (n - 1) o.

    Args:
        across: of the field, square to the strips, mm.
        along: of the field, along them, mm.
        width, length: of a sheet, mm; over the overlap.
        overlap: mm.
    """
    count = _needed(across, width, overlap)
    starts = tuple(number * (width - overlap) for number in range(count))
    return Strips(
        starts=starts,
        width=width,
        sheets=_needed(along, length, overlap),
        overlap=overlap,
        last=across - starts[-1],
    )


def _needed(span: float, size: float, overlap: float) -> int:
    return max(1, math.ceil((span - overlap) / (size - overlap) - COINCIDENT))
