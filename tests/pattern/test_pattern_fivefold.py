"""Five-fold rhombs held against published facts, and what goods close.

That the dual of five families of lines is made of two rhombs of 72 and 36 degrees, and that wide ones are to narrow
ones as the golden ratio: N. G. de Bruijn, "Algebraic theory of Penrose's non-periodic tilings of the plane",
Indagationes Mathematicae 84 (1981), 39-66, quoted from memory. The count in a repeat is geometry.
"""

import math
from collections import defaultdict

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorwright.findings import Severity
from floorwright.pattern.answer import answer
from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.cell import UnitCell
from floorwright.pattern.entry import Asked
from floorwright.pattern.fivefold import RATIO, five_fold, narrow_side
from floorwright.pattern.measured import beside, open_area
from floorwright.units import METRIC

GOLDEN = (1 + math.sqrt(5)) / 2


def without_joint() -> UnitCell:
    return five_fold({"wide": (1.0, 1.0), "narrow": (1.0, 1.0)}, 0.0)


def test_a_repeat_has_as_many_rhombs_as_lines_cross_in_it() -> None:
    p, q = RATIO
    cell = without_joint()
    assert len(cell.pieces) == 6 * p * p + 4 * p * q + 4 * q * q == 94
    assert (cell.kinds.count("wide"), cell.kinds.count("narrow")) == (58, 36)
    # The golden ratio itself is out of reach of whole numbers this small; its neighbours among them are not.
    assert pytest.approx(GOLDEN, rel=0.005) == 58 / 36


def test_every_piece_is_one_of_the_two_rhombs() -> None:
    cell = without_joint()
    for ring, kind in zip(cell.pieces, cell.kinds, strict=True):
        along = np.roll(ring, -1, axis=0) - ring
        assert np.hypot(*along.T) == pytest.approx([1.0] * 4)
        sharp = math.degrees(math.asin(abs(along[0, 0] * along[1, 1] - along[0, 1] * along[1, 0])))
        assert sharp == pytest.approx(72.0 if kind == "wide" else 36.0)


def test_corners_meet_all_round_and_never_on_a_side() -> None:
    cell = without_joint()
    met: dict[tuple[int, int], float] = defaultdict(float)
    for ring in cell.pieces:
        for n in range(4):
            one, other = ring[n - 1] - ring[n], ring[(n + 1) % 4] - ring[n]
            place = (ring[n] @ np.linalg.inv(cell.repeat) + 1e-7) % 1.0
            met[round(place[0] * 1e5), round(place[1] * 1e5)] += math.degrees(math.acos(float(one @ other)))
    assert set(np.round(list(met.values()), 6)) == {360.0}
    # In a tiling of a torus with four corners a piece there are as many meetings as pieces.
    assert len(met) == len(cell.pieces)


def test_a_star_of_five_stands_at_the_origin() -> None:
    cell = without_joint()
    around = [
        kind
        for ring, kind in zip(cell.pieces, cell.kinds, strict=True)
        for i in (-1, 0, 1)
        for j in (-1, 0, 1)
        if np.hypot(*(ring + i * cell.a + j * cell.b).T).min() < 1e-9
    ]
    assert around == ["wide"] * 5


@settings(max_examples=5)
@given(wide=st.floats(60.0, 600.0), joint=st.floats(0.5, 8.0))
def test_goods_that_close_leave_every_joint_at_width(wide: float, joint: float) -> None:
    narrow = narrow_side(wide, joint)
    cell = five_fold({"wide": (wide, wide), "narrow": (narrow, narrow)}, joint)
    pairs = beside(cell, 2 * joint)
    assert min(pair.least for pair in pairs) == pytest.approx(joint)
    assert max(pair.most for pair in pairs) == pytest.approx(joint)
    assert open_area(cell, joint) < 1e-3 * wide * wide
    for ring, kind in zip(cell.pieces, cell.kinds, strict=True):
        side = wide if kind == "wide" else narrow
        assert np.hypot(*(ring[1] - ring[0])) == pytest.approx(side)


@pytest.mark.parametrize(
    ("narrow", "code", "severity"),
    [
        (148.05, None, None),
        (150.0, "pattern-closure", Severity.WARNING),
        (146.0, "pattern-closure", Severity.WARNING),
        (152.0, "pattern-impossible", Severity.ERROR),
    ],
)
def test_goods_that_do_not_close_are_told_the_side_that_does(
    narrow: float, code: str | None, severity: Severity | None
) -> None:
    asked = Asked(
        place="zone floor",
        sizes={"wide": (150.0, 150.0), "narrow": (narrow, narrow)},
        joint=3.0,
        values={},
        style=METRIC,
    )
    told = answer(PATTERNS["five-fold rhombs"], asked, None)
    if code is None:
        assert told == ()
        return
    (one,) = told
    assert (one.code, one.severity) == (code, severity)
    assert one.remedy == "narrow must be 148.1 mm along a side"
