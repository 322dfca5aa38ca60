"""The bound over a range of angles: no position of a dense sweep of angles beats it."""

import math
from fractions import Fraction

import numpy as np
import pytest
from tests.layout.oracle import Judge, leaves_strip, narrowest
from tests.layout.rooms import herringbone, irregular, rectangle, rectilinear, region_of, star

from floorwright.geometry.region import Region
from floorwright.layout.between import Between, between_angles, proof_between
from floorwright.layout.cover import not_ruled_out
from floorwright.layout.search import search
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import SPAN_PROOF

CELLS = (
    grid((450.0, 300.0), 2.0),
    brick_bond((600.0, 200.0), 3.0, Fraction(1, 3)),
    herringbone(450.0, 150.0, 3.0),
    grid((600.0, 600.0), 3.0),
)
TRUE = 1e-12
"""Radians: as good as not turned at all."""

FEW = range(6)
MANY = range(6, 40)


def case(seed: int) -> tuple[Region, UnitCell, tuple[float, float]]:
    rng = np.random.default_rng(500 + seed)
    room = (
        rectilinear(rng, 0.4) if seed % 2 else star(rng, int(rng.integers(3, 15)), float(rng.uniform(3, 8)), seed % 3)
    )
    middle = 0.0 if seed % 2 else float(rng.uniform(0, math.pi))
    return (
        room,
        CELLS[seed % len(CELLS)],
        (middle - float(rng.uniform(0.0, 0.03)), middle + float(rng.uniform(0.002, 0.03))),
    )


def worst_of(judge: Judge, placement: Placement) -> float:
    """The narrowest cut piece by overlay."""
    return min((narrowest(part, tile) for part, tile in judge.pieces(placement)), default=math.inf)


def beaten(region: Region, cell: UnitCell, span: tuple[float, float], bound: float) -> bool:
    """Whether a position at one of many angles has a wider narrowest piece than the bound."""
    judge = Judge(region, cell)
    rng = np.random.default_rng(3)
    for angle in np.linspace(*span, 6).tolist():
        cos, sin = math.cos(angle), math.sin(angle)
        best = search(region, cell, angle=angle, centre=(0.0, 0.0), spare=0.0, aim="")
        places = [] if best.placement is None else [best.placement]
        for s, t in rng.uniform(0, 1, (4, 2)):
            x, y = np.array([s, t]) @ cell.repeat
            places.append(Placement(origin=(cos * x - sin * y, sin * x + cos * y), angle=angle))
        if any(worst_of(judge, place) > bound + 0.01 and not leaves_strip(region, cell, place) for place in places):
            return True
    return False


def check(seed: int) -> None:
    region, cell, span = case(seed)
    found = between_angles(region, cell, span, known=0.0, spare=0.0, allowance=6)
    assert found.best <= found.bound
    assert not beaten(region, cell, span, found.bound)


@pytest.mark.parametrize("seed", FEW)
def test_no_angle_beats_the_bound(seed: int) -> None:
    check(seed)


@pytest.mark.slow
@pytest.mark.parametrize("seed", MANY)
def test_no_angle_of_many_rooms_beats_the_bound(seed: int) -> None:
    check(seed)


def test_a_bound_that_is_not_drawn_in_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    """Ruled out at the middle angles alone, the best angle of a rectangle would be missed: at its walls'."""
    monkeypatch.setattr(
        "floorwright.layout.between.not_ruled_out",
        lambda ground, left, width, _turn: not_ruled_out(ground, left, width, TRUE),
    )
    region, cell, span = rectangle(4000, 5000), CELLS[3], (-0.001, 0.019)
    found = between_angles(region, cell, span, known=0.0, spare=0.0, allowance=0)
    assert beaten(region, cell, (0.0, 0.001), found.bound)


def test_the_best_angle_of_a_house_room_is_proved() -> None:
    """A kitchen out of square: at the mean of its walls or near it, to a millimetre."""
    region = region_of([(0, 0), (4200, 0), (4237, 3612), (30, 3588)])
    cell = grid((447.0, 447.0), 3.0)
    found = between_angles(region, cell, (-0.02, 0.03), known=0.0, spare=0.0)
    proof = proof_between(found, (-0.02, 0.03), found.best, 3.0, "widest worst piece")
    assert (proof.status, proof.why) == ("proved", "")
    assert proof.shortfall <= SPAN_PROOF
    assert found.angle is not None
    there = search(region, cell, angle=found.angle, centre=(0.0, 0.0), spare=0.0, aim="")
    assert there.narrowest == pytest.approx(found.best, abs=0.1)


def test_what_is_known_already_is_not_found_again() -> None:
    region, cell, span = irregular(), CELLS[3], (-0.02, 0.03)
    first = between_angles(region, cell, span, known=0.0, spare=0.0)
    again = between_angles(region, cell, span, known=first.best, spare=0.0)
    assert again.angle is None
    assert again.best == first.best
    assert again.bound <= first.best + SPAN_PROOF


@pytest.mark.parametrize("at", [0.0, 0.1])
def test_ctrl_c_gives_a_bound_that_holds(at: float) -> None:
    region, cell, span = irregular(), CELLS[1], (-0.05, 0.05)

    def stop(share: float) -> None:
        if share >= at:
            raise KeyboardInterrupt

    found = between_angles(region, cell, span, known=10.0, spare=0.0, progress=stop)
    assert found.stopped
    assert found.best < found.bound <= 300.0
    proof = proof_between(found, span, found.best, 3.0, "")
    assert (proof.status, proof.stopped) == ("best found", True)
    assert "by hand" in proof.why
    assert isinstance(found, Between)
