"""The proved search over 240 random rooms: CPU time, how many are proved to 0.1 mm, and positions tried.

    .venv/bin/python -m benchmarks.stress          all
    .venv/bin/python -m benchmarks.stress 40       the first 40

In turn a rectilinear room true to the pattern, one at 45 degrees to it, a room with 8 to 60 corners and up to two
columns true to the pattern's x, and one at any angle; each with one of five patterns by chance. The exact search on
each axis, which `layout.lay` prefers where walls and tiles are square to each other, is not used here.
"""

import math
import sys
import time
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from benchmarks.common import processor
from tests.layout.rooms import herringbone, hexagons, rectilinear, star

from floorwright.geometry.region import Region
from floorwright.layout.search import Found, search
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.pattern.cell import UnitCell

ROOMS = 240
KINDS = ("square", "at 45", "star, true", "star, any")
PATTERNS: dict[str, UnitCell] = {
    "grid 600": grid((600.0, 600.0), 3.0),
    "grid 300": grid((300.0, 300.0), 2.0),
    "bond": brick_bond((600.0, 300.0), 3.0, Fraction(1, 2)),
    "herringbone": herringbone(600.0, 100.0, 3.0),
    "hexagons": hexagons(150.0, 4.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One room with its pattern."""

    seed: int
    kind: str
    pattern: str
    region: Region
    angle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """What the search made of a case, and the CPU seconds it took."""

    case: Case
    found: Found
    seconds: float


def case(seed: int) -> Case:
    rng = np.random.default_rng(1000 + seed)
    kind = seed % len(KINDS)
    if kind < 2:
        region = rectilinear(rng)
    else:
        region = star(rng, int(rng.integers(8, 60)), float(rng.uniform(10, 60)), int(rng.integers(0, 3)))
    angle = (0.0, math.pi / 4, 0.0, float(rng.uniform(0, 1.5)))[kind]
    pattern = list(PATTERNS)[int(rng.integers(len(PATTERNS)))]
    return Case(seed=seed, kind=KINDS[kind], pattern=pattern, region=region, angle=angle)


def run(one: Case) -> Run:
    start = time.process_time()
    found = search(one.region, PATTERNS[one.pattern], angle=one.angle, centre=(0.0, 0.0), spare=0.0, aim="stress")
    return Run(case=one, found=found, seconds=time.process_time() - start)


def row(name: str, runs: list[Run]) -> str:
    """Returns the line of the table for some of the runs."""
    seconds = np.array([one.seconds for one in runs])
    tried = np.array([one.found.tried for one in runs])
    proved = sum(one.found.proof.status == "proved" for one in runs)
    short = max(one.found.proof.shortfall for one in runs)
    return (
        f"{name:12} {len(runs):5} {np.median(seconds):8.3f} {np.percentile(seconds, 90):8.3f} {seconds.max():8.3f} "
        f"{proved:5} of {len(runs):3} {short:7.2f} {np.median(tried):7.0f} {tried.max():7}"
    )


def main() -> None:
    rooms = int(sys.argv[1]) if len(sys.argv) > 1 else ROOMS
    run(case(0))
    runs = [run(case(seed)) for seed in range(rooms)]
    print(f"{processor()}; CPU s, one search each")
    print(f"{'rooms':12} {'n':>5} {'median':>8} {'90 %':>8} {'most':>8} {'proved':>12} {'short':>7} {'tried':>15}")
    for kind in KINDS:
        print(row(kind, [one for one in runs if one.case.kind == kind]))
    for pattern in PATTERNS:
        print(row(pattern, [one for one in runs if one.case.pattern == pattern]))
    print(row("all", runs))
    print("slowest: " + ", ".join(f"{one.case.seed} ({one.seconds:.2f} s)" for one in slowest(runs)))


def slowest(runs: list[Run]) -> list[Run]:
    return sorted(runs, key=lambda one: -one.seconds)[:8]


if __name__ == "__main__":
    main()
