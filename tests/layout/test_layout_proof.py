"""The proof of the search: no position of a dense grid beats it, over hundreds of rooms and five patterns."""

import math
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
import pytest
from tests.layout.oracle import Judge, over_the_bound
from tests.layout.rooms import ells, herringbone, hexagons, rectilinear, star

from floorwright.geometry.region import Region
from floorwright.layout import cover, motion
from floorwright.layout.search import Found, search
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.pattern.cell import UnitCell
from floorwright.tolerance import PROOF, TOUCH

CELLS = (
    grid((450.0, 300.0), 2.0),
    brick_bond((600.0, 200.0), 3.0, Fraction(1, 3)),
    herringbone(450.0, 150.0, 3.0),
    hexagons(200.0, 3.0),
    ells(220.0, 3.0),
)
FEW = range(30)
MANY = range(30, 330)


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A room with a pattern, and what the search made of it."""

    region: Region
    cell: UnitCell
    angle: float
    found: Found

    def beaten(self, steps: int) -> int:
        """How many positions beat the bound."""
        placement = self.found.placement
        return len(over_the_bound(self.region, self.cell, self.angle, self.found.proof.bound, placement, steps))


def case(seed: int) -> Case:
    """A rectilinear room, or one with 3 to 60 corners and up to two columns; aligned, at 45 degrees or turned."""
    rng = np.random.default_rng(seed)
    cell = CELLS[seed % len(CELLS)]
    if seed // len(CELLS) % 2:
        region = rectilinear(rng, 0.4)
        angle = (0.0, math.pi / 4, math.pi / 2)[seed % 3]
    else:
        region = star(rng, int(rng.integers(3, 61)), float(rng.uniform(2, 5)), int(rng.integers(0, 3)))
        angle = (0.0, float(rng.uniform(0, math.pi)))[seed % 2]
    found = search(region, cell, angle=angle, centre=(0.0, 0.0), spare=0.0, aim="test")
    return Case(region=region, cell=cell, angle=angle, found=found)


def check(one: Case, steps: int) -> None:
    found = one.found
    if found.placement is not None:
        real = Judge(one.region, one.cell).value(found.placement)
        assert real == pytest.approx(found.narrowest, abs=2 * TOUCH)
    assert found.proof.status == "proved"
    assert found.proof.bound <= max(found.narrowest, 0.0) + PROOF
    assert one.beaten(steps) == 0


@pytest.mark.parametrize("seed", FEW)
def test_no_position_beats_the_bound(seed: int) -> None:
    check(case(seed), 6)


@pytest.mark.slow
@pytest.mark.parametrize("seed", MANY)
def test_no_position_of_many_rooms_beats_the_bound(seed: int) -> None:
    check(case(seed), 9)


def test_edges_that_rule_out_too_much_are_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    honest = cover.not_ruled_out
    monkeypatch.setattr("floorwright.layout.search.not_ruled_out", lambda g, left, width: honest(g, left, width + 60))
    assert sum(case(seed).beaten(12) > 0 for seed in range(10)) >= 4


def test_places_that_rule_out_too_much_are_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    honest = motion.narrow_moves

    def spoilt(*given: object) -> list[motion.HalfPlanes]:
        return [_let_out(planes) for planes in honest(*given)]  # type: ignore[arg-type]

    def _let_out(planes: motion.HalfPlanes) -> motion.HalfPlanes:
        return motion.HalfPlanes(normals=planes.normals, limits=planes.limits + 60.0)

    monkeypatch.setattr(cover, "narrow_moves", spoilt)
    assert sum(case(seed).beaten(12) > 0 for seed in range(10)) >= 4
