"""Clip at 500, 3,000 and 100,000 tiles against the best way with shapely alone.

    .venv/bin/python -m benchmarks.clip

Room: 60 corners and two columns, turned 0.3 rad against 300 x 300 tiles with joint 3. The shapely way: a prepared room
sorts the tiles into outside, full and cut, and only the cut ones are intersected. Both ways give the class of every
tile and the outline of every cut piece, ours with the full tiles as runs along columns; `listed` has them written out
one by one as well. The tile polygons of the shapely way are made outside its clock. CPU time, least of the repeats.
Targets: at least 2x at 3,000 tiles and 15x at 100,000, growth exponent at most 0.6.
"""

import math
from functools import partial

import numpy as np
import shapely
from benchmarks.common import cpu_ms, processor
from tests.layout.rooms import polygon_of, star, tiles_over

from floorwright.geometry.region import Region
from floorwright.layout.clip import clip
from floorwright.pattern.catalogue import grid
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import TOUCH

AREAS_M2 = (44.0, 270.0, 9_150.0)
REPEATS = 9


def shapely_way(room: shapely.Polygon, tiles: np.ndarray) -> tuple[int, int]:
    shapely.prepare(room)
    touched = tiles[shapely.intersects(room, tiles)]
    full = shapely.contains_properly(room, touched)
    pieces = shapely.intersection(touched[~full], room)
    return int(full.sum()), int((shapely.area(pieces) >= TOUCH**2).sum())


def _listed(region: Region, cell: UnitCell, placement: Placement) -> object:
    return clip(region, cell, placement).full


def main() -> None:
    cell = grid((300.0, 300.0), 3.0)
    placement = Placement(origin=(0.0, 0.0), angle=0.3)
    print(f"{processor()}; CPU ms, least of {REPEATS} after one to warm")
    print(f"{'tiles':>8} {'cut':>6} {'ours':>9} {'shapely':>9} {'ratio':>7} {'listed':>9}")
    times: list[tuple[int, float]] = []
    for area in AREAS_M2:
        region = star(np.random.default_rng(7), 60, area, 2)
        room, tiles = polygon_of(region), tiles_over(region, cell, placement)[1]
        clipped = clip(region, cell, placement)
        cut = len(np.unique(clipped.index, axis=0))
        assert (len(clipped.full), cut) == shapely_way(room, tiles), "the two ways differ"
        ours = cpu_ms(partial(clip, region, cell, placement), repeats=REPEATS)
        theirs = cpu_ms(partial(shapely_way, room, tiles), repeats=REPEATS)
        listed = cpu_ms(partial(_listed, region, cell, placement), repeats=REPEATS)
        count = clipped.runs.count + cut
        times.append((count, ours))
        print(f"{count:>8} {cut:>6} {ours:>9.2f} {theirs:>9.2f} {theirs / ours:>6.1f}x {listed:>9.2f}")
    (n0, t0), (n1, t1) = times[1:]
    print(f"growth exponent from {n0} to {n1} tiles: {math.log(t1 / t0) / math.log(n1 / n0):.2f}")


if __name__ == "__main__":
    main()
