"""What is marked on the floor beside the control lines."""

from floorwright.job.model.table import Table, as_if_read
from floorwright.job.model.values import Area, CornerName, Fallback, Flag, Length, Measure


class Grid(Table):
    """The working grid: boxes within reach, each set before the mortar skins."""

    wanted: Flag | None = None
    """Whether there is to be one; without it where the floor takes three boxes or more."""
    reach: Measure = as_if_read(Fallback("1.3 m", "4ft"))
    """How wide a box may be at the most, to be set from one place (common practice, no source)."""
    skins: Area | None = None
    """What you set before the mortar skins, in m2 (in a file in feet or inches, sq ft): your own figure."""
    first_pass: Length = as_if_read(Fallback("150 mm", "6in"))
    """The first pass of the trowel along a wall: no line of the grid lies under it (common practice, no source)."""


class SetOut(Table):
    """What is marked on the floor beside the control lines."""

    nail: CornerName | None = None
    """The corner with the nail that all running figures are measured from; without it the one that most are positive
    from."""
    ties: Flag | None = None
    """Whether to tie the nodes of the pattern to two corners each, with two tapes; without it only where a zone runs
    neither along the first line nor square to it, or ends off the walls."""
    gauge_rod: Flag = False
    """Whether to print gauge rods at true size, to be taped to a lath."""
    grid: Grid = as_if_read({})
    """The working grid."""
