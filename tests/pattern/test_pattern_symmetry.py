"""Symmetries, shapes and meetings of the patterns, held against published facts.

Names of the regular and semiregular tilings and their vertex types: B. Grunbaum, G. C. Shephard, Tilings and Patterns
(1987), section 2.1. Orders of the plane groups' point groups: International Tables for Crystallography A. Coordination
sequences of 4.4.4.4, 6.6.6, 3.3.3.3.3.3 and 4.8.8: C. Goodman-Strauss, N. J. A. Sloane, "A coloring-book approach to
finding coordination sequences", Acta Cryst. A75 (2019). All are quoted from memory; each is also counted here.
"""

import math

import numpy as np
import pytest
from tests.pattern.samples import SAMPLES, Sample

from floorwright.geometry.region import Points
from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.cell import UnitCell

ORDERS = {
    "p1": 1, "p2": 2, "cm": 2, "pg": 2, "p2mm": 4, "p2mg": 4, "p2gg": 4, "c2mm": 4, "p4": 4, "p4mm": 8, "p4gm": 8,
    "p6mm": 12,
}  # fmt: skip
DEFAULT = [next(sample for sample in SAMPLES if sample.pattern == name) for name in PATTERNS]
ARCHIMEDEAN = {"grid": (4, 4, 4, 4), "hexagon": (6, 6, 6), "triangle": (3,) * 6, "octagon and dot": (4, 8, 8)}
SEQUENCES = {
    "grid": [4, 8, 12, 16],
    "hexagon": [3, 6, 9, 12],
    "triangle": [6, 12, 18, 24],
    "octagon and dot": [3, 5, 8, 11, 13],
}


def shape(outline: Points) -> tuple[tuple[int, int], ...]:
    """A piece by its sides and turns, told apart from its mirror image, from whichever corner it starts."""
    along = np.roll(outline, -1, axis=0) - outline
    sides = np.hypot(along[:, 0], along[:, 1])
    turns = np.arctan2(
        along[:, 0] * np.roll(along[:, 1], -1) - along[:, 1] * np.roll(along[:, 0], -1),
        (along * np.roll(along, -1, axis=0)).sum(axis=1),
    )
    told = [(round(side * 10), round(turn * 1000)) for side, turn in zip(sides, turns, strict=True)]
    return min(tuple(told[n:] + told[:n]) for n in range(len(told)))


def pieces_in_repeat(cell: UnitCell, turn: Points, shift: Points) -> set[tuple[int, int, tuple[tuple[int, int], ...]]]:
    """The pieces of one repeat, moved: the place of each in the repeat, with the directions of its corners."""
    inverse = np.linalg.inv(cell.repeat)
    found = set()
    for ring in cell.pieces:
        moved = ring @ turn.T + shift
        middle = (moved.max(axis=0) + moved.min(axis=0)) / 2
        s, t = (((middle @ inverse) + 1e-6) % 1.0).tolist()
        corners = sorted((round(x * 10) + 0, round(y * 10) + 0) for x, y in (moved - middle).tolist())
        found.add((round(s * 2000), round(t * 2000), tuple(corners)))
    return found


def point_group(cell: UnitCell) -> int:
    """How many turns and reflections bring the pattern on to itself, with some shift each."""
    own = pieces_in_repeat(cell, np.eye(2), np.zeros(2))
    first = cell.pieces[0]
    count = 0
    for step in range(24):
        cos, sin = math.cos(step * math.pi / 12), math.sin(step * math.pi / 12)
        for turn in (np.array([[cos, -sin], [sin, cos]]), np.array([[cos, sin], [sin, -cos]])):
            moved = first @ turn.T
            middle = (moved.max(axis=0) + moved.min(axis=0)) / 2
            targets = [(ring.max(axis=0) + ring.min(axis=0)) / 2 for ring in cell.pieces]
            count += any(pieces_in_repeat(cell, turn, target - middle) == own for target in targets)
    return count


@pytest.mark.parametrize("sample", DEFAULT, ids=str)
def test_shapes_are_as_many_as_the_entry_says(sample: Sample) -> None:
    assert len({shape(ring) for ring in sample.cell().pieces}) == PATTERNS[sample.pattern].pieces


@pytest.mark.parametrize("sample", [one for one in DEFAULT if one.pattern != "fish scale"], ids=str)
def test_symmetries_are_those_of_the_group(sample: Sample) -> None:
    square = sample
    if sample.pattern in ("grid", "mosaic sheets"):
        square = Sample(pattern=sample.pattern, sizes={"": (300.0, 300.0)})
    assert point_group(square.cell()) == ORDERS[PATTERNS[sample.pattern].group]


def meetings(cell: UnitCell, laps: int) -> dict[tuple[int, int], list[int]]:
    """The places where corners meet, with the number of sides of every piece that has a corner there."""
    found: dict[tuple[int, int], list[int]] = {}
    for i in range(-laps, laps + 1):
        for j in range(-laps, laps + 1):
            for ring in cell.pieces:
                for x, y in (ring + i * cell.a + j * cell.b).tolist():
                    found.setdefault((round(x * 100), round(y * 100)), []).append(len(ring))
    return found


def without_joint(name: str) -> UnitCell:
    sizes = {kind.name: (200.0, 200.0) for kind in PATTERNS[name].kinds}
    if "dot" in sizes:
        sizes["dot"] = (200.0 * (math.sqrt(2) - 1),) * 2
    return PATTERNS[name].cell(sizes, 0.0, {})


@pytest.mark.parametrize("name", ARCHIMEDEAN)
def test_meetings_are_of_the_published_type(name: str) -> None:
    cell = without_joint(name)
    met = meetings(cell, 3)
    inner = [sides for (x, y), sides in met.items() if math.hypot(x, y) < 25_000]
    assert inner
    assert {tuple(sorted(sides)) for sides in inner} == {ARCHIMEDEAN[name]}
    assert PATTERNS[name].vertices == ".".join(map(str, ARCHIMEDEAN[name]))


@pytest.mark.parametrize("name", SEQUENCES)
def test_coordination_is_the_published_one(name: str) -> None:
    cell = without_joint(name)
    beside: dict[tuple[int, int], set[tuple[int, int]]] = {}
    for i in range(-8, 9):
        for j in range(-8, 9):
            for ring in cell.pieces:
                places = [(round(x * 100), round(y * 100)) for x, y in (ring + i * cell.a + j * cell.b).tolist()]
                for one, other in zip(places, [*places[1:], places[0]], strict=True):
                    beside.setdefault(one, set()).add(other)
                    beside.setdefault(other, set()).add(one)
    start = min(beside, key=lambda place: math.hypot(*place))
    seen, shell, counted = {start}, {start}, []
    for _ in SEQUENCES[name]:
        shell = {other for one in shell for other in beside[one]} - seen
        seen |= shell
        counted.append(len(shell))
    assert counted == SEQUENCES[name]
