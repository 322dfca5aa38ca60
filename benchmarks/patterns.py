"""5,000 pieces of every pattern of the catalogue placed and clipped: time for each cut piece against the plain grid's.

    .venv/bin/python -m benchmarks.patterns

The grid is of squares with as much area as a piece of the pattern has, in the same room: both cut about as many.
Room: 60 corners and two columns, turned 0.3 rad against the pattern. CPU time, least of the repeats. Target: 3x.
"""

from functools import partial

import numpy as np
from benchmarks.common import cpu_ms, processor
from tests.layout.rooms import star
from tests.pattern.samples import JOINT, SAMPLES

from floorwright.layout.clip import clip
from floorwright.pattern.catalogue import PATTERNS, grid
from floorwright.pattern.cell import Placement

PIECES = 5_000
REPEATS = 5


def main() -> None:
    print(f"{processor()}; CPU ms, least of {REPEATS} after one to warm")
    print(f"{'pattern':>22} {'in repeat':>9} {'pieces':>7} {'cut':>5} {'ms':>7} {'grid':>7} {'ratio a cut piece':>18}")
    placement = Placement(origin=(0.0, 0.0), angle=0.3)
    for name in PATTERNS:
        cell = next(sample for sample in SAMPLES if sample.pattern == name).cell()
        area = abs(float(np.linalg.det(cell.repeat))) / len(cell.pieces)
        region = star(np.random.default_rng(7), 60, PIECES * area / 1e6, 2)
        plain = grid((area**0.5 - JOINT,) * 2, JOINT)
        found, like = clip(region, cell, placement), clip(region, plain, placement)
        ours = cpu_ms(partial(clip, region, cell, placement), repeats=REPEATS)
        theirs = cpu_ms(partial(clip, region, plain, placement), repeats=REPEATS)
        cut, base = len(found.index), len(like.index)
        print(
            f"{name:>22} {len(cell.pieces):>9} {found.runs.count + cut:>7} {cut:>5} {ours:>7.2f} {theirs:>7.2f} "
            f"{(ours / cut) / (theirs / base):>17.1f}x"
        )


if __name__ == "__main__":
    main()
