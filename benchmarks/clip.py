"""Clip at 500, 3,000 and 100,000 tiles against the best way with shapely alone.

Run: PYTHONPATH=. python benchmarks/clip.py

Room: 60 corners and two columns, turned 0.3 rad against 300 x 300 tiles with joint 3. The shapely way: a prepared
    room sorts
the tiles into outside, full and cut, and only the cut ones are intersected. Both ways give the class of every tile
and the outline of every cut piece; the tile polygons of the shapely way are made outside its clock. CPU time, best of
the repeats.
"""

import math
import platform
import time
from collections.abc import Callable
from functools import partial

import numpy as np
import shapely
from tests.layout.rooms import polygon_of, star, tiles_over

from floorwright.layout.clip import clip
from floorwright.pattern.catalogue import grid
from floorwright.pattern.cell import Placement
from floorwright.tolerance import TOUCH

AREAS_M2 = (44.0, 270.0, 9_150.0)
REPEATS = 5


def best_of(work: Callable[[], object]) -> float:
    times = []
    for _ in range(REPEATS):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return 1e3 * min(times)


def shapely_way(room: shapely.Polygon, tiles: np.ndarray) -> tuple[int, int]:
    shapely.prepare(room)
    touched = tiles[shapely.intersects(room, tiles)]
    full = shapely.contains_properly(room, touched)
    pieces = shapely.intersection(touched[~full], room)
    return int(full.sum()), int((shapely.area(pieces) >= TOUCH**2).sum())


def main() -> None:
    cell = grid((300.0, 300.0), 3.0)
    placement = Placement(origin=(0.0, 0.0), angle=0.3)
    print(
        f"{platform.processor() or platform.machine()}, python {platform.python_version()}, CPU ms, best of {REPEATS}"
    )
    print(f"{'tiles':>8} {'cut':>6} {'ours':>9} {'shapely':>9} {'ratio':>7}")
    times: list[tuple[int, float]] = []
    for area in AREAS_M2:
        region = star(np.random.default_rng(7), 60, area, 2)
        room, tiles = polygon_of(region), tiles_over(region, cell, placement)[1]
        clipped = clip(region, cell, placement)
        cut = len(np.unique(clipped.index, axis=0))
        assert (len(clipped.full), cut) == shapely_way(room, tiles), "the two ways differ"
        ours = best_of(partial(clip, region, cell, placement))
        theirs = best_of(partial(shapely_way, room, tiles))
        count = len(clipped.full) + cut
        times.append((count, ours))
        print(f"{count:>8} {cut:>6} {ours:>9.2f} {theirs:>9.2f} {theirs / ours:>6.1f}x")
    (n0, t0), (n1, t1) = times[1:]
    print(f"growth exponent from {n0} to {n1} tiles: {math.log(t1 / t0) / math.log(n1 / n0):.2f}")


if __name__ == "__main__":
    main()
