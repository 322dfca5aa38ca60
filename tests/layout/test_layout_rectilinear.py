"""The exact search on each axis: published examples first, then a dense scan."""

import math

import numpy as np
import pytest
from tests.layout.rooms import rectangle, rectilinear, region_of, star

from floorwright.geometry.region import Region
from floorwright.layout.axis import axes_of
from floorwright.layout.rectilinear import best_on_axis, is_rectilinear
from floorwright.layout.score import narrowest_of
from floorwright.layout.search import search
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.pattern.cell import Placement
from floorwright.tolerance import PROOF, TOUCH

INCH = 25.4


def cut_of(width: float, tile: float, joint: float, gap: float) -> tuple[float, int]:
    """The widest narrowest cut, both ends alike, and how many full tiles lie between, on a floor `width` wide."""
    region = rectangle(width - 2 * gap, 1000.0)
    axis = axes_of(grid((tile, tile), joint), 0.0)[0]
    best = best_on_axis(region, axis, (width - 2 * gap) / 2, 0.0, "test")
    assert best is not None
    assert best.proof.status == "proved"
    assert best.proof.tolerance == 0
    assert best.proof.axis == "across"
    full = (width - 2 * gap - 2 * best.worst - joint) / (tile + joint)
    assert full == pytest.approx(round(full), abs=1e-6)
    return best.worst, round(full)


@pytest.mark.parametrize(
    ("width", "tile", "joint", "gap", "cut", "full"),
    [
        # V-07 = T-66 (NAVEDTRA 14044, p. 7-23) and T-67.
        (100 * INCH, 12 * INCH, 0.0, 0.0, 8 * INCH, 7),
        # V-08: reject 9 full and 130, accept 8 full.
        (3000.0, 300.0, 3.0, 5.0, 281.5, 8),
        # V-09: reject 6 full and 187.
        (4000.0, 600.0, 2.0, 6.0, 488.0, 5),
        # V-10, long way and short way.
        (190 * INCH, 12 * INCH, INCH / 8, INCH / 4, (9 + 13 / 16) * INCH, 14),
        (168 * INCH, 12 * INCH, INCH / 8, INCH / 4, (10 + 15 / 16) * INCH, 12),
        # S1, width and length.
        (87.5 * INCH, 11.75 * INCH, INCH / 4, INCH / 8, 7.5 * INCH, 6),
        (122.625 * INCH, 11.75 * INCH, INCH / 4, INCH / 8, (7 + 1 / 16) * INCH, 9),
    ],
    ids=["V-07", "V-08", "V-09", "V-10 long", "V-10 short", "S1 width", "S1 length"],
)
def test_published_cuts(width: float, tile: float, joint: float, gap: float, cut: float, full: int) -> None:
    found, between = cut_of(width, tile, joint, gap)
    assert found == pytest.approx(cut, abs=1e-6)
    assert between == full


@pytest.mark.parametrize(
    ("tile", "joint", "over", "cut"),
    [
        # V-11 and T-69: cuts 1-3/4 and 1-1/4 with tile 11-3/4 become 7-3/8 each; a joint of 1/8 adds half of itself.
        (11.75, 0.0, 3.0, 7 + 3 / 8),
        (11.75, 0.125, 3.0, 7 + 7 / 16),
        # V-11 and T-68: a sliver of 1-1/2 with tile 24 becomes 12-3/4 each. Before: full tile at the other wall.
        (24.0, 0.0, 1.5, 12.75),
    ],
    ids=["T-69", "T-69 with joint", "T-68"],
)
def test_a_sliver_shared_with_a_tile(tile: float, joint: float, over: float, cut: float) -> None:
    # Five full tiles, the joints, and what is over: two cuts, or the sliver with a full tile at the other wall.
    width = 5 * tile + 6 * joint + over
    assert cut_of(width * INCH, tile * INCH, joint * INCH, 0.0)[0] == pytest.approx(cut * INCH, abs=1e-6)


def test_s5_hall_and_lounge() -> None:
    # S5: 282.5 is the best across and 242.5 along, gaps of 6 taken off, no gap across the mouth.
    region = region_of(
        [(6, 6), (6094, 6), (6094, 4294), (1874, 4294), (1874, 9494), (706, 9494), (706, 4294), (6, 4294)]
    )
    across, along = axes_of(grid((597.0, 597.0), 3.0), 0.0)
    best = [best_on_axis(region, axis, 1290.0, 0.0, "test") for axis in (across, along)]
    assert [found and found.worst for found in best] == pytest.approx([282.5, 242.5], abs=1e-6)


def dense(region: Region, tile: float, joint: float, spare: float, steps: int) -> float:
    """The best across of a scan, from the walls' places alone."""
    pitch = tile + joint
    best = -math.inf
    for n in range(steps):
        low = n / steps * pitch
        worst = tile
        for ring in region.rings:
            for (ax, ay), (bx, by) in zip(ring, np.roll(ring, -1, axis=0), strict=True):
                if ax != bx or abs(by - ay) <= joint + 0.1:
                    continue
                left = (ax - low) % pitch if by > ay else (low + tile - ax) % pitch
                if left > tile + spare or left == 0:
                    worst = -math.inf
                worst = min(worst, left)
        best = max(best, worst)
    return best


@pytest.mark.parametrize("seed", range(30))
def test_no_position_of_a_scan_is_better(seed: int) -> None:
    rng = np.random.default_rng(seed)
    region = rectilinear(rng)
    tile, joint, spare = float(rng.choice([300, 447, 600])), float(rng.choice([0, 2, 3])), float(rng.choice([0, 1]))
    axis = axes_of(grid((tile, tile), joint), 0.0)[0]
    best = best_on_axis(region, axis, 0.0, spare, "test")
    steps = round((tile + joint) * 4)
    scanned = dense(region, tile, joint, spare, steps)
    if best is None:
        assert scanned == -math.inf
        return
    assert scanned <= best.worst + 2 * TOUCH
    # The scan comes within its step of the answer, unless that stands alone on a break.
    assert best.worst == best.proof.bound


@pytest.mark.parametrize("seed", range(12))
def test_agrees_with_the_search_over_boxes(seed: int) -> None:
    rng = np.random.default_rng(100 + seed)
    region = rectilinear(rng)
    cell = grid((600.0, 450.0), 3.0)
    axes = axes_of(cell, 0.0)
    best = [best_on_axis(region, axis, 0.0, 0.0, "test") for axis in axes]
    found = search(region, cell, angle=0.0, centre=(0.0, 0.0), spare=0.0, aim="test")
    across, along = best
    if across is None or along is None:
        assert found.placement is None
        return
    placement = Placement(origin=(across.low - 1.5, along.low - 1.5), angle=0.0)
    exact = narrowest_of(region, cell, placement)
    assert exact <= min(across.worst, along.worst) + TOUCH
    assert exact <= found.proof.bound + TOUCH
    assert found.narrowest <= min(across.worst, along.worst) + 2 * TOUCH
    if found.proof.status == "proved" and exact == pytest.approx(min(across.worst, along.worst), abs=TOUCH):
        assert found.narrowest >= exact - PROOF


def test_turned_room_and_bond_are_left_to_the_search() -> None:
    rng = np.random.default_rng(1)
    cell = grid((300.0, 300.0), 3.0)
    assert is_rectilinear(rectangle(3000, 2000), cell, 0.0)
    assert is_rectilinear(rectangle(3000, 2000), cell, math.pi / 2)
    assert not is_rectilinear(rectangle(3000, 2000), cell, 0.1)
    assert not is_rectilinear(star(rng, 9, 10.0, 0), cell, 0.0)
    from fractions import Fraction

    assert not is_rectilinear(rectangle(3000, 2000), brick_bond((300.0, 300.0), 3.0, Fraction(1, 2)), 0.0)


def test_a_wall_inside_a_joint_is_a_fault_and_only_what_the_gap_spares_is_allowed() -> None:
    # 608 between the walls: two tiles and a joint leave 5 over. With a spare of 5 both may be full.
    axis = axes_of(grid((300.0, 300.0), 3.0), 0.0)[0]
    region = rectangle(608.0, 900.0)
    without = best_on_axis(region, axis, 304.0, 0.0, "test")
    assert without is not None
    assert without.worst == pytest.approx((608 - 300 - 6) / 2)
    spared = best_on_axis(region, axis, 304.0, 5.0, "test")
    assert spared is not None
    assert spared.worst == 300.0
