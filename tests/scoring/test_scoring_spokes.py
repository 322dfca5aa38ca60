"""Rings of a scored circle: spokes shared out evenly, cells of one size, nothing lost of the circle's area."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.scoring.slabs import INCH, JOINTS, PATIO, design, joint, region

from floorwright.scoring.design import Circle, Frame, Ring
from floorwright.scoring.scored import Scored, score
from floorwright.scoring.spokes import chord_of

SQUARE_FOOT = (12 * INCH) ** 2


def rose(*rings: Ring, turn: float = 0.0, colours: tuple[str, ...] = (), joints: bool = False) -> Scored:
    """A patio of one pattern with a circle of 9 ft across and rings in it, in its middle."""
    at = (144 * INCH, 108 * INCH)
    return score(
        design=design(circles=(Circle(centre=at, radius=54 * INCH, rings=rings, turn=turn, colours=colours),)),
        floor=region(PATIO),
        frame=Frame(origin=at, angle=0.0),
        joints=[joint(str(n), ends) for n, ends in enumerate(JOINTS)] if joints else (),
        nail=("A", (0.0, 0.0)),
    )


def test_a_chord_steps_round() -> None:
    """S-15: 2 R sin(pi / N), R 1500 and N 12: 776.5 (geometry)."""
    assert chord_of(1500.0, 12) == pytest.approx(776.457, abs=1e-3)


@settings(deadline=None, max_examples=12)
@given(st.integers(1, 40), st.integers(1, 40), st.floats(0, 0.99), st.floats(-3, 3))
def test_spokes_stand_evenly_and_make_cells_of_one_area(outer: int, inner: int, broken: float, turn: float) -> None:
    done = rose(Ring(depth=18 * INCH, cells=outer), Ring(depth=18 * INCH, cells=inner, broken=broken), turn=turn)
    first, second = done.spokes
    assert (len(first.lines), len(second.lines)) == (outer, inner)
    for ring in done.spokes:
        ends = [end for end, _ in ring.lines]
        steps = [math.dist(ends[k - 1], end) for k, end in enumerate(ends)]
        assert steps == pytest.approx([ring.chord if len(ends) > 1 else 0.0] * len(steps))
    assert (second.first - first.first) % math.tau == pytest.approx(broken * math.tau / inner % math.tau, abs=1e-9)
    areas = sorted(cell.area / SQUARE_FOOT for cell in done.cells if cell.what == "circle")
    wanted = (
        [math.pi * (4.5**2 - 3**2) / outer] * outer + [math.pi * (3**2 - 1.5**2) / inner] * inner + [math.pi * 1.5**2]
    )
    assert areas == pytest.approx(sorted(wanted), rel=2e-3)


def test_a_ring_to_the_middle_has_its_spokes_meet_there() -> None:
    done = rose(Ring(depth=54 * INCH, cells=8), colours=("a", "b"))
    (spokes,) = done.spokes
    assert spokes.inner == 0.0
    assert all(math.dist(end, (144 * INCH, 108 * INCH)) < 1e-6 for _, end in spokes.lines)
    assert done.round == pytest.approx(math.tau * 54 * INCH)
    cells = [cell for cell in done.cells if cell.what == "circle"]
    assert sorted(cell.colour for cell in cells) == ["a"] * 4 + ["b"] * 4
    assert done.straight == pytest.approx(sum(line.to_cut for line in done.lines) + 8 * 54 * INCH)


def test_what_is_round_counts_every_circle_of_the_rings() -> None:
    done = rose(Ring(depth=18 * INCH, cells=12), Ring(depth=18 * INCH, cells=6))
    assert done.round == pytest.approx(math.tau * (54 + 36 + 18) * INCH)


def test_a_spoke_on_a_joint_is_not_cut_again() -> None:
    """The 9 ft joint runs through the pivot along the first line: two of eight spokes lie on it."""
    (spokes,) = rose(Ring(depth=18 * INCH, cells=8), joints=True).spokes
    assert (len(spokes.lines), spokes.there) == (6, ("2", "2"))
    turned = rose(Ring(depth=18 * INCH, cells=8, broken=0.5), joints=True)
    assert len(turned.spokes[0].lines) == 8
