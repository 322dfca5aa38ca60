"""Mosaic sheets, laid as units."""

from dataclasses import replace

from floorwright.pattern.cell import Size, UnitCell
from floorwright.pattern.rows import grid


def mosaic_sheets(size: Size, joint: float, chips: int) -> UnitCell:
    """Returns sheets in a grid.

    Args:
        size: of a sheet from the outside of its first chip to that of its last, mm.
        joint: between sheets and in them, mm.
        chips: along a sheet.
    """
    return replace(grid(size, joint), name=f"mosaic sheets, {chips} chips along")


def chip_length(sheet: float, chips: int, joint: float) -> float:
    """Returns how long a chip is, mm, in a sheet of so many with their joints.

    >>> chip_length(298, 12, 2)
    23.0
    """
    return (sheet - (chips - 1) * joint) / chips
