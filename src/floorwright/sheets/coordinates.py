"""Coordinates for a total station: a list for other programs, on no sheet."""

from floorwright.draw.sheet import Column, Table
from floorwright.setout.set_out import SetOut
from floorwright.sheets.figures import Figures
from floorwright.units import FOOT

COORDINATES: dict[bool, tuple[str, float]] = {False: ("m", 1000.0), True: ("ft", float(FOOT))}
"""What a total station takes coordinates in, and how many mm that is."""


def coordinates_list(marked: SetOut, figures: Figures) -> Table:
    """Returns the points to set out as a total station takes them: metres or decimal feet, to a tenth of a mm.

    The first point says where the coordinates are counted from.
    """
    unit, size = COORDINATES[figures.imperial]
    whats = [f"{marked.points[0].what}; {marked.frame}", *(point.what for point in marked.points[1:])]
    return Table(
        columns=(
            Column(heading="Name"),
            Column(heading="East", unit=unit, align="right"),
            Column(heading="North", unit=unit, align="right"),
            Column(heading="What"),
        ),
        rows=tuple(
            (point.name, _decimals(point.x / size), _decimals(point.y / size), what)
            for point, what in zip(marked.points, whats, strict=True)
        ),
    )


def _decimals(value: float) -> str:
    return f"{round(value, 4) + 0.0:.4f}"
