"""The proved search: the widest worst piece, the counts and ranges of angles on named rooms, the exact answer of square
rooms, rooms of every shape from a seed, real outlines, and whole layouts of a kitchen and of a hall.

    .venv/bin/python -m benchmarks.search [FOLDER]

CPU time. `dense` is how many times longer a 1 mm grid of positions would take with the same kernel, from the time of a
few; it would prove nothing. Targets: 1 ms for the exact answer, 1 s for 90 % of rooms of every shape proved to 0.1 mm,
2 s for the whole layout of a hall of 1,000 m2. Real outlines are read from `shared/rooms` beside the repository or from
the folder given (`benchmarks.rooms` lays them alone).
"""

import math
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import TypeVar

import numpy as np
from benchmarks import rooms
from benchmarks.common import cpu_ms, processor
from tests.layout.jobs import larch_row, lay, room_of
from tests.layout.rooms import hall, herringbone, hexagons, irregular, patio, rectangle, region_of, star
from tests.layout.test_layout_fewest import floor_of

from floorwright.geometry.region import Region
from floorwright.layout.aims import FEWEST_CUTS, FEWEST_SMALL, FEWEST_TILES, WIDEST, Aim
from floorwright.layout.axis import axes_of
from floorwright.layout.between import between_angles
from floorwright.layout.rectilinear import best_on_axis, is_rectilinear
from floorwright.layout.score import narrowest_of
from floorwright.layout.search import Found, search
from floorwright.layout.sought import begin, seek
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.plan.room import Obstacle

REPEATS = 3
SHARES = (0.05, 0.3, 0.55, 0.8)
SEEDS = range(40)
MOST_EXACT_MS = 1.0
MOST_ROOM_MS = 1000.0
MOST_HALL_MS = 2000.0
Result = TypeVar("Result")

ELL = region_of([(0, 0), (5230, 0), (5230, 2410), (3380, 2410), (3380, 3170), (2940, 3170), (2940, 4650), (0, 4650)])
CASES: tuple[tuple[str, Region, UnitCell, float], ...] = (
    ("rectangle 4 x 5 m, 600", rectangle(4000, 5000), grid((600.0, 600.0), 3.0), 0.0),
    ("L with a step, 600", ELL, grid((600.0, 600.0), 3.0), 0.0),
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


def verdict(ms: float, most: float) -> str:
    """Returns a time with its target and whether it is met."""
    return f"{ms:,.2f} ms (target {most:,.0f} ms: {'met' if ms <= most else 'NOT MET'})"


def dense_time(region: Region, cell: UnitCell, angle: float) -> float:
    """Returns the CPU ms that a 1 mm grid of positions would take, from the time of 16 of them."""
    tried = [np.array([s, t]) @ cell.repeat for s in SHARES for t in SHARES]
    cos, sin = math.cos(angle), math.sin(angle)
    start = time.process_time()
    for shift in tried:
        x, y = np.array([[cos, -sin], [sin, cos]]) @ shift
        narrowest_of(region, cell, Placement(origin=(float(x), float(y)), angle=angle))
    return 1e3 * (time.process_time() - start) / len(tried) * abs(float(np.linalg.det(cell.repeat)))


def widest(region: Region, cell: UnitCell, angle: float) -> Found:
    return search(region, cell, angle=angle, centre=(0.0, 0.0), spare=0.0, aim="")


def exact_ms(region: Region, cell: UnitCell, angle: float) -> float:
    """Returns the CPU ms of the exact answer of both axes."""
    axes = axes_of(cell, angle)
    return cpu_ms(lambda: [best_on_axis(region, axis, 0.0, 0.0, "") for axis in axes], loops=20)


def of_named_rooms() -> None:
    """Prints the search for the widest worst piece, and the time of the exact answer where there is one."""
    print(f"{'room':36} {'worst':>7} {'proof':>11} {'short':>6} {'tried':>6} {'search':>8} {'exact':>7} {'dense':>13}")
    most = 0.0
    for name, region, cell, angle in CASES:
        taken, found = best_of(lambda case=(region, cell, angle): widest(*case))  # type: ignore[misc]
        exact = exact_ms(region, cell, angle) if is_rectilinear(region, cell, angle) else None
        most = max(most, exact or 0.0)
        print(
            f"{name:36} {found.narrowest:7.2f} {found.proof.status:>11} {found.proof.shortfall:6.3f} {found.tried:6} "
            f"{taken:8.1f} {'-' if exact is None else f'{exact:.2f}':>7} "
            f"{dense_time(region, cell, angle) / taken:12,.0f}x"
        )
    print(f"exact answer of a room square to the pattern, the slowest: {verdict(most, MOST_EXACT_MS)}")


def of_counts() -> None:
    """Prints the search for each aim that counts, and for the widest piece at two walls of the room."""
    print(f"\n{'room':36} {'aim':29} {'best':>8} {'bound':>8} {'proof':>11} {'ms':>8}")
    for name, region, cell, angle in CASES:
        limit = round(min(cell.size) / 3)
        walls = tuple(dict.fromkeys(region.edges[0]))[:2]
        for aim in (
            Aim(name=FEWEST_CUTS, own=True),
            Aim(name=FEWEST_TILES, own=True),
            Aim(name=FEWEST_SMALL, limit=limit, own=True),
            Aim(name=WIDEST, walls=walls, own=True),
        ):
            floor = floor_of(region, (aim,))
            start = time.process_time()
            (stage,) = seek(begin(floor, cell, angle, ()))
            taken = 1e3 * (time.process_time() - start)
            proof = stage.proof
            words = (
                f"{aim.name}, {limit}" if aim.limit else f"{aim.name} at 2 walls" if walls == aim.walls else aim.name
            )
            print(f"{name:36} {words:29} {proof.best:8.2f} {proof.bound:8.2f} {proof.status:>11} {taken:8.1f}")
            if proof.why:
                print(f"{'':36} {proof.why}")


def of_ranges() -> None:
    """Prints the search over every angle of a range: 5 degrees either side of each room's own."""
    reach = math.radians(5.0)
    print(f"\n{'room, 5 degrees either side':36} {'best':>8} {'bound':>8} {'parts':>6} {'ms':>8}")
    for name, region, cell, angle in CASES[:-2]:
        known = widest(region, cell, angle).narrowest
        start = time.process_time()
        found = between_angles(region, cell, (angle - reach, angle + reach), known=known, spare=0.0)
        taken = 1e3 * (time.process_time() - start)
        print(f"{name:36} {found.best:8.2f} {found.bound:8.2f} {found.parts:6} {taken:8.0f}")


def of_every_shape() -> None:
    """Prints how fast rooms of every shape are proved to 0.1 mm."""
    patterns = (grid((450.0, 300.0), 2.0), brick_bond((600.0, 200.0), 3.0, Fraction(1, 3)), hexagons(200.0, 3.0))
    times, proved = [], 0
    for seed in SEEDS:
        rng = np.random.default_rng(9000 + seed)
        region = star(rng, int(rng.integers(3, 61)), float(rng.uniform(4, 60)), seed % 3)
        start = time.process_time()
        found = widest(region, patterns[seed % len(patterns)], float(rng.uniform(0, math.pi)) * (seed % 2))
        times.append(1e3 * (time.process_time() - start))
        proved += found.proof.status == "proved"
    print(
        f"\nrooms of 3 to 60 corners, up to two columns: {proved} of {len(times)} proved; "
        f"median {np.median(times):,.0f} ms,"
    )
    print(f"90 % within {verdict(float(np.percentile(times, 90)), MOST_ROOM_MS)}, most {max(times):,.0f} ms")


def of_real_outlines(folder: Path) -> None:
    """Prints the table of real outlines, or that there are none."""
    real = list(rooms.outlines(folder))
    if not real:
        print(f"\nreal outlines: not run, there are none in {folder}")
        return
    print(f"\n{len(real)} real outlines, 600 x 600, CPU s of search and cut")
    rooms.report(real)


def of_whole_layouts() -> None:
    """Prints how long whole layouts take: options, scores, search and pieces."""
    centre = (2100.0, 1796.0)
    whole, layout = best_of(lambda: lay(larch_row(), centre, size=(447.0, 447.0), joint_most=5.0, turn_sd=3e-4))
    counts = f"{len(layout.options)} options, {len(layout.pieces)} pieces"
    print(f"\nwhole layout of a kitchen out of square, joints to 5, shaken ({counts}): {whole:.0f} ms")
    outline, *columns = hall().rings
    room = room_of(
        {f"C{n}": (float(x), float(y)) for n, (x, y) in enumerate(outline)},
        tuple(f"W{n}" for n in range(len(outline))),
        obstacles=tuple(_column(n, ring) for n, ring in enumerate(columns)),
    )
    whole, layout = best_of(lambda: lay(replace(room, name="hall"), (20060.0, 12555.0)))
    counts = f"{len(layout.options)} options, {len(layout.pieces)} pieces"
    print(f"whole layout of a hall of 1,000 m2 with 300 x 300 ({counts}): {verdict(whole, MOST_HALL_MS)}")


def _column(number: int, ring: np.ndarray) -> Obstacle:
    x, y = ring.mean(axis=0).tolist()
    return Obstacle(name=f"column {number}", kind="column", outline=ring[::-1], centre=(x, y))


def main() -> None:
    print(f"{processor()}; CPU ms, least of {REPEATS}")
    of_named_rooms()
    of_counts()
    of_ranges()
    of_every_shape()
    of_real_outlines(Path(sys.argv[1]) if len(sys.argv) > 1 else rooms.FOLDER)
    of_whole_layouts()


if __name__ == "__main__":
    main()
