"""The proved search against an oracle of its own: dense positions, exact overlay, measures written out anew."""

import math
from fractions import Fraction

import numpy as np
import pytest
import shapely
from tests.layout.rooms import herringbone, polygon_of, rectangle, rectilinear, region_of, star, tiles_over

from floorwright.geometry.region import Points, Region
from floorwright.layout import bounds, linear
from floorwright.layout import search as module
from floorwright.layout.search import Found, search
from floorwright.pattern.catalogue import brick_bond, grid
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import PROOF, TOUCH

STEPS = 4
AROUND = (-1.5, 0.3)
HERRINGBONE = (8, 22)


def narrowest(ring: Points, sawn: list[bool]) -> float:
    """The lesser of what is left behind each saw line and the hull's width, of a piece without holes."""
    depth = math.inf
    for (ax, ay), (bx, by), cut in zip(ring, np.roll(ring, -1, axis=0), sawn, strict=True):
        if cut:
            behind = (bx - ax) * (ring[:, 1] - ay) - (by - ay) * (ring[:, 0] - ax)
            depth = min(depth, behind.max() / math.hypot(bx - ax, by - ay))
    hull = shapely.get_coordinates(shapely.convex_hull(shapely.Polygon(ring)))
    run = np.diff(hull, axis=0)
    away = hull[None, :] - hull[:-1, None]
    across = (run[:, None, 0] * away[..., 1] - run[:, None, 1] * away[..., 0]) / np.hypot(*run.T)[:, None]
    return min(depth, float(np.ptp(across, axis=1).min()))


def oracle(region: Region, cell: UnitCell, placement: Placement) -> float:
    """The narrowest piece of a position, by overlay with tiles less `TOUCH` all round."""
    room = polygon_of(region)
    shapely.prepare(room)
    tiles = tiles_over(region, cell, placement)[1]
    tiles = shapely.buffer(tiles[shapely.intersects(room, tiles)], -TOUCH, join_style="mitre")
    worst = min(cell.size)
    for tile in tiles[~shapely.contains_properly(room, tiles)]:
        outline = tile.exterior
        for part in shapely.get_parts(tile.intersection(room)):
            if part.area < TOUCH**2:
                continue
            outer = np.array(shapely.orient_polygons(part).exterior.coords)[:-1]
            middles = shapely.points((outer + np.roll(outer, -1, axis=0)) / 2)
            worst = min(worst, narrowest(outer, (shapely.distance(outline, middles) > TOUCH / 10).tolist()))
            for hole in shapely.orient_polygons(part).interiors:
                for a, b in zip(hole.coords[:-1], hole.coords[1:], strict=True):
                    behind = (b[0] - a[0]) * (outer[:, 1] - a[1]) - (b[1] - a[1]) * (outer[:, 0] - a[0])
                    worst = min(worst, behind.max() / math.hypot(b[0] - a[0], b[1] - a[1]))
    return worst


def leaves_strip(region: Region, cell: UnitCell, placement: Placement) -> bool:
    """Whether an edge along the rows of a grid ends in a joint, or farther out at one end than a tile reaches."""
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    for ring in region.rings:
        local = (ring - placement.origin) @ np.array([[cos, -sin], [sin, cos]])
        for (ax, ay), (bx, by) in zip(local, np.roll(local, -1, axis=0), strict=True):
            length = math.hypot(bx - ax, by - ay)
            for outward, start, stop, size in (
                ((by - ay) / length, ax, bx, cell.size[0]),
                ((ax - bx) / length, ay, by, cell.size[1]),
            ):
                rise = abs(stop - start)
                if abs(outward) < math.cos(math.radians(5)) or rise > size / 2 or length < cell.joint + 0.1:
                    continue
                pitch = size + cell.joint
                # From a tile's inner side outwards; the tile starts half a joint from a joint's centre.
                sign = 1 if outward > 0 else -1
                thin = (min(sign * start, sign * stop) - cell.joint / 2) % pitch
                if not TOUCH < thin <= size + TOUCH - rise:
                    return True
    return False


def check(region: Region, cell: UnitCell, angle: float, found: Found) -> None:
    """No position of a dense grid, nor any close to the one found, beats the bound."""
    shift = np.arange(STEPS) / STEPS
    tried = [np.array([s, t]) @ cell.repeat for s in shift for t in shift]
    if found.placement is not None:
        cos, sin = math.cos(angle), math.sin(angle)
        at = np.array(found.placement.origin) @ np.array([[cos, -sin], [sin, cos]])
        tried += [at + np.array([dx, dy]) for dx in AROUND for dy in AROUND]
    for x, y in tried:
        cos, sin = math.cos(angle), math.sin(angle)
        placement = Placement(origin=(cos * x - sin * y, sin * x + cos * y), angle=angle)
        value = oracle(region, cell, placement)
        if value > found.proof.bound + TOUCH:
            assert leaves_strip(region, cell, placement), f"{placement} has {value}, over the bound {found.proof.bound}"


def room_and_cell(seed: int) -> tuple[Region, UnitCell, float]:
    rng = np.random.default_rng(seed)
    cells = (grid((600.0, 600.0), 3.0), grid((450.0, 300.0), 2.0), brick_bond((600.0, 300.0), 3.0, Fraction(1, 3)))
    kind = seed % 3
    if kind == 0:
        return rectilinear(rng, 0.4), cells[seed % 2], (0.0, math.pi / 4)[seed % 2]
    region = star(rng, int(rng.integers(4, 14)), float(rng.uniform(2, 4)), int(rng.integers(0, 2)))
    if seed in HERRINGBONE:
        return region, herringbone(450.0, 150.0, 3.0), _clear_of(region, 0.3)
    return region, cells[kind], _clear_of(region, float(rng.uniform(0.1, 1.4))) if kind == 2 else 0.0


def _clear_of(region: Region, angle: float) -> float:
    """A direction near `angle` that no edge lies within 5 degrees of, so that no row of a bond runs along an edge."""
    run = np.concatenate([np.roll(ring, -1, axis=0) - ring for ring in region.rings])
    edges = np.arctan2(run[:, 1], run[:, 0]) % (math.pi / 2)
    tries = angle + np.linspace(0, math.pi / 2, 200)
    apart = np.abs((tries[:, None] - edges + math.pi / 4) % (math.pi / 2) - math.pi / 4).min(axis=1)
    return float(tries[apart.argmax()])


def found_in(seed: int, allowance: int = module.ALLOWANCE) -> tuple[Region, UnitCell, float, Found]:
    region, cell, angle = room_and_cell(seed)
    found = search(region, cell, angle=angle, centre=(0.0, 0.0), spare=0.0, aim="test", allowance=allowance)
    return region, cell, angle, found


@pytest.mark.parametrize("seed", range(25))
def test_no_position_beats_the_bound(seed: int) -> None:
    region, cell, angle, found = found_in(seed)
    assert found.placement is not None
    assert oracle(region, cell, found.placement) == pytest.approx(found.narrowest, abs=2 * TOUCH)
    assert found.narrowest <= found.proof.bound
    if found.proof.status == "proved":
        assert found.proof.bound <= found.narrowest + PROOF
    check(region, cell, angle, found)


def test_a_spoilt_bound_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    honest = linear.highest_low

    def spoilt(value: np.ndarray, slope: np.ndarray, half: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        top, place = honest(value, slope, half)
        return top * 0.7, place

    monkeypatch.setattr(bounds, "highest_low", spoilt)
    caught = 0
    for seed in (2, 7, 14):
        region, cell, angle, found = found_in(seed)
        try:
            check(region, cell, angle, found)
        except AssertionError:
            caught += 1
    assert caught == 3


def test_a_used_up_allowance_says_so() -> None:
    *_, found = found_in(2, allowance=30)
    assert found.boxes < 60
    assert found.proof.status == "best found"
    assert found.proof.shortfall > PROOF
    assert "boxes of positions" in found.proof.why


def test_column_in_the_middle_of_a_tile_keeps_the_bound() -> None:
    # What a hole leaves must be held against the whole piece round it, or growing the tile lowers the measure.
    hole = [(260, 260), (340, 260), (340, 340), (260, 340)]
    region = region_of([(0, 0), (603, 0), (603, 603), (0, 603)], hole)
    cell = grid((600.0, 600.0), 3.0)
    found = search(region, cell, angle=0.3, centre=(0.0, 0.0), spare=0.0, aim="test")
    check(region, cell, 0.3, found)


def test_rectangle_in_named_cases() -> None:
    # 4000 x 5000 with 600 + 3: across 491, along 388, by hand: (4000 - 5 * 603 - 3) / 2 and (5000 - 7 * 603 - 3) / 2.
    found = search(
        rectangle(4000, 5000), grid((600.0, 600.0), 3.0), angle=0.0, centre=(0.0, 0.0), spare=0.0, aim="test"
    )
    assert found.proof.status == "proved"
    assert found.narrowest == pytest.approx(388.0, abs=PROOF)


def test_same_room_same_answer() -> None:
    one, other = found_in(4)[3], found_in(4)[3]
    assert one == other


def test_a_floor_just_larger_than_a_tile_has_no_full_one() -> None:
    # 100.5 between walls square to a 100 tile with joint 3: a full tile never fits with nothing left over.
    region = region_of([(0, 0), (100.5, 0), (100.5, 102), (0, 102)])
    found = search(region, grid((100.0, 100.0), 3.0), angle=0.0, centre=(0.0, 0.0), spare=0.0, aim="test")
    assert found.narrowest < 100
