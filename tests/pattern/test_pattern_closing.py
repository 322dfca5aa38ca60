"""Drawn patterns that do not close: the size, or the repeat, that would close them, and corners that miss."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from floorwright.findings import Finding, Severity
from floorwright.geometry.region import Points
from floorwright.pattern.cell import UnitCell
from floorwright.pattern.closing import closing, facings, missed_corner
from floorwright.pattern.custom import WITH_JOINTS, WITHOUT_JOINTS, custom_pattern
from floorwright.pattern.entry import Asked
from floorwright.pattern.shape import rectangle, turned
from floorwright.units import METRIC

REACH = 40.0


def cell(pieces: list[Points], repeat: Points, joint: float, kinds: tuple[str, ...] = ()) -> UnitCell:
    return UnitCell(
        name="ours",
        a=repeat[0],
        b=repeat[1],
        pieces=tuple(pieces),
        joint=joint,
        size=(200.0, 100.0),
        lines=(),
        kinds=kinds,
    )


def weave(length: float, width: float, joint: float, block: float) -> UnitCell:
    """Two along, two across, in blocks of a pitch that need not be theirs."""
    half = joint / 2
    pieces = [
        rectangle((length, width), (half, half)),
        rectangle((length, width), (half, half + width + joint)),
        rectangle((width, length), (half + block, half)),
        rectangle((width, length), (half + block + width + joint, half)),
    ]
    return cell(pieces, np.array([[block, block], [-block, block]]), joint)


def answers(
    drawn: list[tuple[str, Points]], repeat: Points, joint: float, how: str, goods: tuple[float, float]
) -> list[Finding]:
    pattern = custom_pattern("ours", tuple(drawn), repeat, how)
    asked = Asked(
        place="zone floor", sizes={kind.name: goods for kind in pattern.kinds}, joint=joint, values={}, style=METRIC
    )
    return list(pattern.check(asked))


def test_piece_must_be_203_x_100() -> None:
    # T-76: L = 2 W + J.
    found = closing(weave(200.0, 100.0, 3.0, 206.0), REACH)
    (sizes,) = found.sizes
    assert sizes[""] == pytest.approx((203.0, 100.0))
    assert found.repeat is None


@settings(max_examples=20, deadline=None)
@given(width=st.floats(40.0, 200.0), joint=st.floats(2.0, 8.0), short=st.floats(0.5, 15.0), turn=st.floats(0.0, 6.0))
def test_a_weave_closes_where_its_formula_says(width: float, joint: float, short: float, turn: float) -> None:
    length = 2 * width + joint
    assume(short < length / 8)
    drawn = weave(length - short, width, joint, 2 * (width + joint))
    drawn = replace(
        drawn,
        a=turned(drawn.a[None], turn)[0],
        b=turned(drawn.b[None], turn)[0],
        pieces=tuple(turned(piece, turn) for piece in drawn.pieces),
    )
    assert closing(drawn, REACH).sizes[0][""] == pytest.approx((length, width), abs=0.01)


def test_sizes_and_repeat_of_a_grid_are_two_ways_to_close_it() -> None:
    drawn = cell([rectangle((200.0, 100.0))], np.array([[203.0, 0.0], [0.0, 103.0]]), 5.0)
    found = closing(drawn, REACH)
    (sizes,) = found.sizes
    assert sizes[""] == pytest.approx((198.0, 98.0))
    assert np.array(found.repeat) == pytest.approx(np.array([[205.0, 0.0], [0.0, 105.0]]))


def test_each_kind_gets_its_own_size() -> None:
    # A pinwheel drawn from 300 and 145 that its repeat has no room for by 2 (large) and 1 (small).
    pieces = [rectangle((300.0, 300.0), (1.5, 1.5)), rectangle((145.0, 145.0), (304.5, 1.5))]
    repeat = np.array([[301.0 + 0.0, 147.0], [-147.0, 301.0]])
    found = closing(cell(pieces, repeat, 3.0, ("large", "small")), REACH)
    (sizes,) = found.sizes
    assert sizes["large"] == pytest.approx((298.0, 298.0), abs=0.01)
    assert sizes["small"] == pytest.approx((144.0, 144.0), abs=0.01)


def test_sides_face_once_from_either_piece() -> None:
    drawn = cell([rectangle((200.0, 100.0))], np.array([[203.0, 0.0], [0.0, 103.0]]), 3.0)
    met = facings(drawn, REACH)
    assert len(met) == 4
    assert {facing.joint for facing in met} == {3.0}
    assert closing(drawn, 2.0) == closing(replace(drawn, pieces=(rectangle((9.0, 9.0)),)), 2.0)


def test_corners_that_miss_are_told_of_and_corners_that_stand_clear_are_not() -> None:
    grid = cell([rectangle((200.0, 100.0))], np.array([[203.0, 0.0], [0.0, 103.0]]), 3.0)
    assert missed_corner(grid, 3.0) is None
    missed = missed_corner(replace(grid, b=np.array([1.5, 103.0])), 3.0)
    assert missed is not None
    assert missed.by == pytest.approx(1.5)
    # Brick bond of a half, and of a seventh: clear of each other.
    assert missed_corner(replace(grid, b=np.array([101.5, 103.0])), 3.0) is None
    assert missed_corner(replace(grid, b=np.array([29.0, 103.0])), 3.0) is None


def test_a_drawing_with_overlap_says_what_would_close() -> None:
    drawn = weave(200.0, 100.0, 3.0, 201.0)
    (told,) = answers([("piece", one) for one in drawn.pieces], drawn.repeat, 3.0, WITH_JOINTS, (200.0, 100.0))
    assert (told.code, told.severity) == ("pattern-overlap", Severity.ERROR)
    assert told.remedy == "piece must be 198 mm x 97.5 mm"


def test_pieces_drawn_touching_that_are_moved_along_each_other() -> None:
    square = [("piece", rectangle((100.0, 100.0)))]
    (told,) = answers(square, np.array([[100.0, 0.0], [2.0, 100.0]]), 3.0, WITHOUT_JOINTS, (97.0, 97.0))
    assert told.code == "pattern-corners"
    assert "miss each other by 2 mm" in told.found
    (told,) = answers(square, np.array([[100.0, 0.0], [0.0, 102.0]]), 3.0, WITHOUT_JOINTS, (97.0, 97.0))
    assert told.remedy == (
        "piece must be 99 mm x 97 mm, or the repeat must be [100 mm, 0 mm] across and [0 mm, 100 mm] along"
    )


def test_what_no_size_closes_gets_the_joint_to_mend() -> None:
    # Two triangles to a square, one of them too small: no rectangles, and no repeat mends it.
    pieces = [
        ("piece", np.array([[0.0, 0.0], [200.0, 0.0], [0.0, 200.0]])),
        ("piece", np.array([[196.0, 14.0], [196.0, 196.0], [14.0, 196.0]])),
    ]
    told = answers(pieces, np.array([[204.0, 0.0], [0.0, 204.0]]), 4.0, WITH_JOINTS, (200.0, 200.0))
    (first,) = [one for one in told if one.found.startswith("between")]
    assert first.remedy.startswith("make one of the two")
