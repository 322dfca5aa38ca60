"""Arcs given back: a floor with arcs flattened, moved in and restored, held against circles worked out by hand."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorwright.geometry.arc import Arc, bulged_area, by_rise, flat
from floorwright.geometry.inset import inset
from floorwright.geometry.measure import region_area
from floorwright.geometry.region import Circle, Points, Region
from floorwright.geometry.restore import restored_region
from floorwright.tolerance import ARC


def bay(rise: float, width: float = 3600.0, depth: float = 3000.0, turned: float = 0.0) -> Region:
    """A rectangle whose far side is an arc, `width` along it."""
    cos, sin = math.cos(turned), math.sin(turned)

    def at(x: float, y: float) -> tuple[float, float]:
        return cos * x - sin * y, sin * x + cos * y

    corners = [at(0, 0), at(width, 0), at(width, depth), at(0, depth)]
    arc = by_rise(corners[2], corners[3], rise)
    edges = flat(arc, ARC)
    ring = np.vstack([corners[:2], edges, [corners[3]]])
    names = ("front", "right", *["bay"] * len(edges), "left")
    return Region(rings=(ring,), edges=(names,), circles={"bay": arc.circle})


def true_area(region: Region) -> float:
    return sum(bulged_area(ring.points, ring.bulges) for ring in restored_region(region))


RISES = st.floats(30, 1700) | st.floats(-1200, -30)


@given(RISES, st.floats(-3, 3))
def test_restored_ring_has_the_arc_and_its_area(rise: float, turned: float) -> None:
    region = bay(rise, turned=turned)
    (ring,) = restored_region(region)
    assert len(ring.points) == 4
    assert ring.names == ("front", "right", "bay", "left")
    assert ring.bulges == pytest.approx((0, 0, 2 * rise / 3600, 0), rel=1e-9)
    arc = by_rise((0.0, 0.0), (3600.0, 0.0), rise)
    assert true_area(region) == pytest.approx(3600 * 3000 + arc.segment, rel=1e-9)
    # The straight edges never have more floor than there is.
    assert 0 <= true_area(region) - region_area(region) <= arc.length * ARC


@given(RISES, st.floats(0.5, 60), st.floats(-3, 3))
def test_inset_of_an_arc_is_the_concentric_arc(rise: float, gap: float, turned: float) -> None:
    region = bay(rise, turned=turned)
    moved = inset(region, gap)
    circle = region.circles["bay"]
    radius = circle.radius - gap if rise > 0 else circle.radius + gap
    assert moved.circles["bay"] == Circle(centre=circle.centre, radius=radius, hollow=rise > 0)
    (ring,) = restored_region(moved)
    place = ring.names.index("bay")
    ends = ring.points[[place, (place + 1) % len(ring.points)]]
    made = Arc(start=tuple(ends[0]), end=tuple(ends[1]), bulge=ring.bulges[place])
    assert made.radius == pytest.approx(radius, abs=1e-6)
    assert made.centre == pytest.approx(circle.centre, abs=1e-6)
    # It ends on the walls beside it, moved in: x = gap and x = 3600 - gap before the room was turned.
    cos, sin = math.cos(turned), math.sin(turned)
    across = ends @ [cos, sin]
    assert across == pytest.approx([3600 - gap, gap], abs=1e-6)
    assert within(moved.rings[0], ring.points, made)


def within(edges: Points, corners: Points, arc: Arc) -> bool:
    """Whether every corner of the edges lies on the floor side of the true arc, or is one of the outline's corners."""
    radii = np.hypot(*(edges - arc.centre).T)
    inside = radii <= arc.radius + 1e-6 if arc.bulge > 0 else radii >= arc.radius - 1e-6
    corner = (np.abs(edges[:, None] - corners[None]).max(axis=2) < 1e-6).any(axis=1)
    return bool((inside | corner).all())


def test_each_wall_moves_by_its_own_gap() -> None:
    moved = inset(bay(600), {"front": 0, "right": 10, "bay": 25, "left": 0})
    (ring,) = restored_region(moved)
    assert moved.circles["bay"].radius == pytest.approx(bay(600).circles["bay"].radius - 25)
    place = ring.names.index("bay")
    assert ring.points[place][0] == pytest.approx(3590)
    assert ring.points[(place + 1) % len(ring.points)][0] == pytest.approx(0, abs=1e-9)


def test_a_round_hole_grows_and_comes_back_as_two_halves() -> None:
    turns = -2 * math.pi * np.arange(40) / 40
    hole = np.column_stack([1500 + 150 * np.cos(turns), 900 + 150 * np.sin(turns)]) / 1.0
    square = np.array([[0.0, 0], [3000, 0], [3000, 2000], [0, 2000]])
    region = Region(
        rings=(square, hole),
        edges=(("S", "E", "N", "W"), ("post",) * 40),
        circles={"post": Circle(centre=(1500.0, 900.0), radius=150.0, hollow=False)},
    )
    moved = inset(region, 5)
    _, round_hole = restored_region(moved)
    assert round_hole.bulges == (-1.0, -1.0)
    assert bulged_area(round_hole.points, round_hole.bulges) == pytest.approx(-math.pi * 155**2)
    radii = np.hypot(*(moved.rings[1] - [1500, 900]).T)
    assert radii.min() >= 155 - 1e-9


def test_an_arc_that_the_gap_uses_up_leaves_no_circle() -> None:
    turns = np.linspace(-math.pi / 2, math.pi / 2, 30)
    ring = np.vstack([[[-2000.0, -40], *np.column_stack([40 * np.cos(turns), 40 * np.sin(turns)]), [-2000, 40]]])
    names = ("low", *["nose"] * 29, "high", "end")
    region = Region(rings=(ring,), edges=(names,), circles={"nose": Circle(centre=(0.0, 0.0), radius=40, hollow=True)})
    assert inset(region, 39).circles["nose"].radius == pytest.approx(1)
    with pytest.raises(ValueError, match="nothing"):
        inset(region, 41)
