"""The zones of a floor as sheets speak of them: the sides of a border together."""

from collections.abc import Sequence
from itertools import groupby

from floorwright.cuts.schedule import CutList
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import listed


def zone_name(layout: Layout) -> str:
    """Returns the name of the zone that a layout belongs to."""
    return layout.part.zone if layout.part else layout.zone


def zones_of(layouts: Sequence[Layout]) -> tuple[tuple[Layout, ...], ...]:
    """Returns the layouts of each zone together, in their order."""
    return tuple(tuple(group) for _, group in groupby(layouts, key=zone_name))


def cut_zones(solution: Solution) -> tuple[tuple[tuple[Layout, CutList], ...], ...]:
    """Returns the layouts of each zone with their cut lists."""
    laid = zip(solution.layouts, solution.cuts, strict=True)
    return tuple(tuple(group) for _, group in groupby(laid, key=lambda pair: zone_name(pair[0])))


def border_widths(zone: Sequence[Layout], figures: Figures) -> str:
    """Returns how wide a border is: `244`, or by wall where that differs: `222.5 at W and E, 265 at S and N`."""
    walls: dict[str, list[str]] = {}
    for layout in zone:
        assert layout.part is not None
        strip = layout.part.strip
        assert strip is not None
        thin, fat = figures.cut(strip.thin), figures.cut(strip.fat)
        walls.setdefault(thin if thin == fat else f"{thin} to {fat}", []).append(strip.wall)
    unit = f" {figures.column}" if figures.column else ""
    if len(walls) == 1:
        return f"{next(iter(walls))}{unit}"
    return ", ".join(f"{width}{unit} at {listed(names)}" for width, names in walls.items())
