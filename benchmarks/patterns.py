"""5,000 pieces of every pattern of the catalogue placed and clipped: time for each cut piece against the plain grid's.

    .venv/bin/python -m benchmarks.patterns

The grid is of squares with as much area as a piece of the pattern has, in the same room: both cut about as many.
Room: 60 corners and two columns, turned 0.3 rad against the pattern. CPU time, least of the repeats, the two measured
turn by turn. `listed` is the same ratio, for each piece, of all pieces written out one by one. Target: 3x.
"""

import time
from collections.abc import Callable
from functools import partial

import numpy as np
from benchmarks.common import processor
from tests.layout.rooms import star
from tests.pattern.samples import JOINT, SAMPLES

from floorwright.layout.clip import clip
from floorwright.layout.pieces import pieces_of
from floorwright.pattern.catalogue import PATTERNS, grid
from floorwright.pattern.cell import Placement

PIECES = 5_000
REPEATS = 15
MOST = 3.0
PLACEMENT = Placement(origin=(0.0, 0.0), angle=0.3)


def turn_by_turn(ours: Callable[[], object], theirs: Callable[[], object], repeats: int) -> tuple[float, float]:
    """Returns the least CPU ms of each over some repeats, one after the other so that both meet the same machine."""
    least = [float("inf")] * 2
    for _ in range(repeats + 1):
        for n, work in enumerate((ours, theirs)):
            start = time.process_time()
            work()
            least[n] = min(least[n], 1e3 * (time.process_time() - start))
    return least[0], least[1]


def row(name: str) -> tuple[str, float]:
    """Returns a pattern's line of the table, and its ratio."""
    cell = next(sample for sample in SAMPLES if sample.pattern == name).cell()
    area = abs(float(np.linalg.det(cell.repeat))) / len(cell.pieces)
    region = star(np.random.default_rng(7), 60, PIECES * area / 1e6, 2)
    plain = grid((area**0.5 - JOINT,) * 2, JOINT)
    found, like = clip(region, cell, PLACEMENT), clip(region, plain, PLACEMENT)
    cut, base = len(found.index), len(like.index)
    count, plain_count = found.runs.count + cut, like.runs.count + base
    ours, theirs = turn_by_turn(
        partial(clip, region, cell, PLACEMENT), partial(clip, region, plain, PLACEMENT), repeats=REPEATS
    )
    ratio = (ours / cut) / (theirs / base)
    listed, plainly = turn_by_turn(
        partial(pieces_of, "", region, cell, PLACEMENT), partial(pieces_of, "", region, plain, PLACEMENT), repeats=2
    )
    text = (
        f"{name:>22} {len(cell.pieces):>9} {count:>7} {cut:>5} {ours:>7.2f} {theirs:>7.2f} {ratio:>17.1f}x "
        f"{(listed / count) / (plainly / plain_count):>6.1f}x {'within' if ratio <= MOST else 'OVER'}"
    )
    return text, ratio


def main() -> None:
    print(f"{processor()}; CPU ms, least of {REPEATS} after one to warm")
    print(
        f"{'pattern':>22} {'in repeat':>9} {'pieces':>7} {'cut':>5} {'ms':>7} {'grid':>7} {'ratio a cut piece':>18} "
        f"{'listed':>7}"
    )
    ratios: dict[str, float] = {}
    for name in PATTERNS:
        text, ratios[name] = row(name)
        print(text)
    worst = max(ratios, key=lambda name: ratios[name])
    within = sum(ratio <= MOST for ratio in ratios.values())
    print(f"{within} of {len(ratios)} patterns within {MOST:g}x; the worst is {worst} at {ratios[worst]:.1f}x")


if __name__ == "__main__":
    main()
