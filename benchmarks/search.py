"""The proved search on named rooms, and the whole of a house room's layout.

    .venv/bin/python -m benchmarks.search

`dense` is how many times longer a 1 mm grid of positions would take with the same kernel, from the time of a few;
it would prove nothing.
"""

import math
import time
from collections.abc import Callable
from fractions import Fraction
from typing import TypeVar

import numpy as np
from benchmarks.common import processor
from tests.layout.jobs import larch_row, lay
from tests.layout.rooms import hall, herringbone, irregular, patio, rectangle, region_of

from floorwright.geometry.region import Region
from floorwright.layout.axis import axes_of
from floorwright.layout.rectilinear import best_on_axis, is_rectilinear
from floorwright.layout.score import narrowest_of
from floorwright.layout.search import Found, search
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.pattern.cell import Placement, UnitCell

REPEATS = 3
SHARES = (0.05, 0.3, 0.55, 0.8)
Result = TypeVar("Result")

CASES: tuple[tuple[str, Region, UnitCell, float], ...] = (
    ("rectangle 4 x 5 m, 600", rectangle(4000, 5000), grid((600.0, 600.0), 3.0), 0.0),
    (
        "L with a step, 600",
        region_of([(0, 0), (5230, 0), (5230, 2410), (3380, 2410), (3380, 3170), (2940, 3170), (2940, 4650), (0, 4650)]),
        grid((600.0, 600.0), 3.0),
        0.0,
    ),
    ("rectangle 3 x 4 m, 300 diagonal", rectangle(2990, 3990), grid((300.0, 300.0), 3.0), math.pi / 4),
    ("patio of 23 corners, 600 diagonal", patio(), grid((600.0, 600.0), 5.0), math.pi / 4),
    ("8 corners out of square, 600", irregular(), grid((600.0, 600.0), 3.0), 0.0),
    ("same, third bond 600 x 300", irregular(), brick_bond((600.0, 300.0), 3.0, Fraction(1, 3)), 0.0),
    ("same, herringbone 600 x 100", irregular(), herringbone(600.0, 100.0, 3.0), 0.0),
    ("hall of 1000 m2, 8 columns, 300", hall(), grid((300.0, 300.0), 3.0), 0.0),
    ("hall, 300 diagonal", hall(), grid((300.0, 300.0), 3.0), math.pi / 4),
)


def best_of(work: Callable[[], Result]) -> tuple[float, Result]:
    times = []
    for _ in range(REPEATS):
        start = time.process_time()
        result = work()
        times.append(time.process_time() - start)
    return 1e3 * min(times), result


def dense_time(region: Region, cell: UnitCell, angle: float) -> float:
    """Returns the CPU ms that a 1 mm grid of positions would take, from the time of 16 of them."""
    tried = [np.array([s, t]) @ cell.repeat for s in SHARES for t in SHARES]
    cos, sin = math.cos(angle), math.sin(angle)
    start = time.process_time()
    for shift in tried:
        x, y = np.array([[cos, -sin], [sin, cos]]) @ shift
        narrowest_of(region, cell, Placement(origin=(float(x), float(y)), angle=angle))
    return 1e3 * (time.process_time() - start) / len(tried) * abs(float(np.linalg.det(cell.repeat)))


def row(name: str, region: Region, cell: UnitCell, angle: float) -> str:
    """Returns the line of the table for one room."""

    def look() -> Found:
        return search(region, cell, angle=angle, centre=(0.0, 0.0), spare=0.0, aim="")

    taken, found = best_of(look)
    exact = "-"
    if is_rectilinear(region, cell, angle):
        axes = axes_of(cell, angle)
        exact = f"{best_of(lambda: [best_on_axis(region, axis, 0.0, 0.0, '') for axis in axes])[0]:.2f}"
    proof = found.proof
    return (
        f"{name:36} {found.narrowest:7.2f} {proof.status:>11} {proof.shortfall:6.3f} {found.tried:6} {taken:8.1f} "
        f"{exact:>7} {dense_time(region, cell, angle) / taken:12,.0f}x"
    )


def main() -> None:
    print(f"{processor()}; CPU ms, least of {REPEATS}")
    print(f"{'room':36} {'worst':>7} {'proof':>11} {'short':>6} {'tried':>6} {'search':>8} {'exact':>7} {'dense':>13}")
    for case in CASES:
        print(row(*case))
    whole, layout = best_of(
        lambda: lay(larch_row(), (2100.0, 1796.0), size=(447.0, 447.0), joint_most=5.0, turn_sd=3e-4)
    )
    counts = f"{len(layout.options)} options, {len(layout.pieces)} pieces"
    print(f"\nwhole layout of a kitchen out of square, joints to 5, shaken ({counts}): {whole:.0f} ms")


if __name__ == "__main__":
    main()
