"""Rings against published radii, against plain counting, and as they truly lie on the floor."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from floorwright.pattern.ring import (
    ALWAYS,
    FULL,
    NEVER,
    Joints,
    Ring,
    RingMisfitError,
    fewest_tapered,
    inside_of,
    least_radius,
    merged,
    next_radius,
    ring,
    whole_numbers,
)
from floorwright.pattern.rings import STONE, Rings, Wanted, cell_of, rings_of
from floorwright.units import IMPERIAL

# 3 mm inside to 12 mm outside, pieces 115 x 230: "Uncut units in a ring", check values anyone can use (Table 3B,
# recomputed from d (w + least) / (most - least); joints along the arc; a lower bound).
OPEN = Joints(asked=7.5, least=3.0, most=12.0)
EVEN = Joints(asked=5.0, least=5.0, most=5.0)

UNITS = st.tuples(st.floats(40, 300), st.floats(40, 300))
RADII = st.floats(100, 6000)


def placed(one: Ring) -> list[shapely.Polygon]:
    """Every piece of a ring, drawn here by turning its outline about the centre."""
    found = []
    for n in range(one.pieces):
        angle = one.first + (n + 0.5) * one.step - math.pi / 2
        cos, sin = math.cos(angle), math.sin(angle)
        found.append(shapely.Polygon(one.outline() @ np.array([[cos, sin], [-sin, cos]])))
    return found


@pytest.mark.parametrize(("unit", "radius"), [((115.0, 230.0), 3015.6), ((230.0, 115.0), 2977.2)])
def test_radius_under_which_uncut_units_stop_working(unit: tuple[float, float], radius: float) -> None:
    assert least_radius(unit, OPEN) == pytest.approx(radius, abs=0.05)
    # The number is a whole one, so that radius is a lower bound: no number of pieces goes round under it, and the
    # next radius at which one does is somewhat farther out.
    for under in np.arange(500.0, radius, 7.0):
        assert not whole_numbers(unit, float(under), OPEN)
    real = next_radius(unit, 0.0, OPEN)
    assert real > radius
    assert len(whole_numbers(unit, real, OPEN)) == 1
    assert not whole_numbers(unit, real - 0.01, OPEN)


def test_a_ring_on_the_published_side_of_the_radius() -> None:
    real = next_radius((115.0, 230.0), 0.0, OPEN)
    one = ring((115.0, 230.0), real, OPEN)
    assert (one.pieces, one.tapered) == (161, False)
    assert one.joints == pytest.approx((3.0, 11.976), abs=0.001)
    assert ring((115.0, 230.0), 2900.0, OPEN).tapered


def test_chord_of_twelve_divisions() -> None:
    # S-15, chord for N divisions 2 R sin(pi / N): R = 1500, N = 12 gives 776.5 mm (geometry).
    one = Ring(pieces=12, inside=1500.0, depth=100.0, widths=(700.0, 700.0), unit=700.0)
    assert one.chord(1) == pytest.approx(776.5, abs=0.05)
    # S-13, hexagon: the radius steps round the circle six times (old text).
    assert Ring(pieces=6, inside=1500.0, depth=1.0, widths=(9.0, 9.0), unit=9.0).chord(1) == pytest.approx(1500.0)
    # Chords run from one start: across the circle is its diameter.
    assert one.chord(6) == pytest.approx(3000.0)


@given(unit=UNITS, inside=RADII, joint=st.floats(2, 8), spread=st.floats(0, 12), of=st.sampled_from([1, 1, 4, 6]))
def test_the_whole_numbers_are_those_that_counting_finds(
    unit: tuple[float, float], inside: float, joint: float, spread: float, of: int
) -> None:
    joints = Joints(asked=joint + spread / 3, least=joint, most=joint + spread)
    width, depth = unit
    fits = []
    for n in range(of, int(FULL * inside / width) + 2 * of, of):
        inner = FULL * inside / n - width
        outer = FULL * (inside + depth) / n - width
        # Numbers that are within a rounding of a limit either way are not asked about.
        assume(min(abs(inner - joint), abs(outer - joint - spread)) > 1e-4)
        if inner > joint and outer < joint + spread:
            fits.append(n)
    assert list(whole_numbers(unit, inside, joints, of=of)) == fits
    if fits:
        one = ring(unit, inside, joints, of=of)
        assert not one.tapered
        off = [abs(FULL * (inside + depth / 2) / n - width - joints.asked) for n in fits]
        assert abs(FULL * (inside + depth / 2) / one.pieces - width - joints.asked) <= min(off) + 1e-5


@given(unit=UNITS, inside=RADII, joint=st.floats(2, 10))
def test_pieces_and_joints_fill_the_ring(unit: tuple[float, float], inside: float, joint: float) -> None:
    joints = Joints(asked=joint, least=joint, most=joint + 9)
    try:
        one = ring(unit, inside, joints)
    except RingMisfitError:
        assume(False)
    pieces = placed(one)
    half = one.step / 2
    # The modules are the wedges of a regular polygon round the inside circle and one round the outside.
    whole = one.pieces * math.tan(half) * (one.outside**2 - one.inside**2)
    # A joint lies to both sides of a line half way between two pieces; along it the ring is depth / cos h long.
    between = one.pieces * sum(one.across) / 2 * one.depth / math.cos(half)
    assert sum(piece.area for piece in pieces) + between == pytest.approx(whole, rel=1e-9)
    # Nothing lies over anything, inside the circle, or past the reach.
    first, second = pieces[0], pieces[1]
    assert first.distance(second) == pytest.approx(min(one.across), abs=1e-6)
    assert first.distance(pieces[-1]) == pytest.approx(min(one.across), abs=1e-6)
    corners = np.vstack([np.asarray(piece.exterior.coords) for piece in pieces])
    assert np.hypot(*corners.T).max() == pytest.approx(one.reach)
    assert min(piece.distance(shapely.Point(0, 0)) for piece in pieces) == pytest.approx(one.inside)


@given(unit=UNITS, inside=RADII, joint=st.floats(2, 10))
def test_tapered_pieces_are_cut_from_the_goods_and_their_joints_are_even(
    unit: tuple[float, float], inside: float, joint: float
) -> None:
    try:
        one = ring(unit, inside, Joints(asked=joint, least=joint, most=joint), taper=ALWAYS)
    except RingMisfitError as fault:
        assert "narrow" in str(fault)  # noqa: PT017
        return
    assert one.across == pytest.approx((joint, joint))
    assert one.widths[0] < one.widths[1] <= unit[0] + 1e-6
    assert one.pieces == fewest_tapered(unit, inside, joint)
    # One fewer would be too wide for the goods, or no piece at all.
    step = FULL / (one.pieces - 1)
    if step < math.pi:
        assert 2 * one.outside * math.tan(step / 2) - joint / math.cos(step / 2) > unit[0]


def test_a_ring_never_tapered_says_how_far_it_opens() -> None:
    one = ring((100.0, 200.0), 1000.0, Joints(asked=5.0, least=3.0, most=8.0), taper=NEVER)
    assert (one.pieces, one.tapered) == (61, False)
    assert one.joints[0] >= 3.0
    # By hand: 2 pi 1200 / 61 - 100.
    assert one.joints[1] == pytest.approx(23.60, abs=0.01)


def test_two_narrow_pieces_become_one() -> None:
    one = ring((100.0, 200.0), 150.0, EVEN)
    assert one.narrow
    two = merged(one)
    assert two is not None
    assert two.pieces == math.ceil(one.pieces / 2)
    assert not two.narrow
    assert two.ratio < one.ratio
    assert two.across == pytest.approx((5.0, 5.0))
    assert merged(Ring(pieces=3, inside=50, depth=90, widths=(30, 60), unit=60), of=3) is None


def test_what_cannot_go_round_is_told_in_the_units_of_the_job() -> None:
    with pytest.raises(RingMisfitError, match="too narrow to saw") as fault:
        ring((100.0, 200.0), 10.0, EVEN)
    assert "mm" not in fault.value.said(IMPERIAL)
    with pytest.raises(RingMisfitError, match="the goods are 100"):
        ring((100.0, 200.0), 1000.0, EVEN, pieces=30)
    with pytest.raises(RingMisfitError, match="do not go round"):
        ring((100.0, 200.0), 1000.0, EVEN, pieces=80, taper=NEVER)
    with pytest.raises(RingMisfitError, match="half a turn"):
        ring((100.0, 200.0), 1000.0, EVEN, pieces=2)


@given(reach=st.floats(800, 5000), joint=st.floats(3, 8))
def test_a_ring_that_ends_at_a_wall(reach: float, joint: float) -> None:
    unit, joints = (150.0, 120.0), Joints(asked=joint, least=joint, most=joint + 6)
    inside = inside_of(reach, unit, joints)
    assert ring(unit, inside, joints).reach <= reach
    assert reach - ring(unit, inside, joints).reach < 3.0


def circle_kit(**changed: object) -> Rings:
    wanted = [Wanted(name=f"ring {n}", unit=(120.0, 100.0), broken=0.5) for n in range(1, 5)]
    arguments = {"stone": 300.0, **changed}
    return rings_of(wanted, EVEN, **arguments)  # type: ignore[arg-type]


def test_rings_lie_a_joint_apart_and_nothing_on_anything() -> None:
    cell = cell_of(circle_kit())
    pieces = [shapely.Polygon(piece) for piece in cell.pieces]
    tree = shapely.STRtree(pieces)
    for n, piece in enumerate(pieces):
        near = [pieces[other] for other in tree.query(piece, predicate="dwithin", distance=9.0) if other != n]
        assert min(piece.distance(other) for other in near) >= 5.0 - 1e-6
    stone, inner = pieces[0], [piece for piece, kind in zip(pieces, cell.kinds, strict=True) if kind == "ring 1"]
    assert min(stone.distance(piece) for piece in inner) == pytest.approx(5.0, abs=0.1)
    assert cell.kinds[0] == STONE
    assert stone.area == pytest.approx(math.pi * 150**2, rel=2e-3)


def test_joints_are_broken_by_a_fraction_or_stand_on_spokes() -> None:
    wanted = [Wanted(name=f"ring {n}", unit=(400.0, 100.0), pieces=24, broken=0.5) for n in range(1, 5)]
    broken = rings_of(wanted, EVEN, inside=400.0)
    assert [one.first / one.step for one in broken.rings] == pytest.approx([0.5, 0.0, 0.5, 0.0])
    spoked = circle_kit(spokes=6)
    plain = rings_of([Wanted(name=one.name, unit=one.unit) for one in spoked.wanted], EVEN, stone=300.0, spokes=6)
    for one in plain.rings:
        assert one.pieces % 6 == 0
        turns = np.array(one.angles) / (FULL / 6)
        assert (np.abs(turns - np.round(turns)) < 1e-9).sum() == 6


def test_a_fan_fills_its_part_of_a_turn() -> None:
    quarter = math.pi / 2
    fan = rings_of([Wanted(name=f"ring {n}", unit=(120.0, 100.0)) for n in (1, 2)], EVEN, inside=500.0, sweep=quarter)
    for one in fan.rings:
        assert one.angles[-1] == pytest.approx(quarter)
        sector = shapely.Polygon([(0, 0), (4000, 0), (0, 4000)])
        assert all(sector.contains(piece) for piece in placed(one))
        # Half a joint is left at either side, for the other half to come from what lies beside.
        assert placed(one)[0].distance(shapely.LineString([(0, 0), (4000, 0)])) == pytest.approx(2.5)
