"""Areas by coordinates, from J. Mahun's open-access surveying notes (jerrymahun.com)."""

import numpy as np
import pytest

from floorwright.geometry.measure import area, perimeter

FIVE = {
    "C": (406.31, 1259.97),
    "D": (235.12, 1489.47),
    "E": (65.81, 1126.40),
    "A": (317.89, 942.04),
    "B": (675.32, 1282.54),
}
"""R-07. COGO, chapter H, Area: north, east, ft."""

BALANCED = (
    np.array([-176.386, 203.382, 192.340, -219.336]),
    np.array([-438.574, -73.105, 198.636, 313.044]),
)
"""R-05. Traverse Computations, chapter I, Coordinates, loop example: latitudes and departures as balanced, ft."""


def test_five_points() -> None:
    """Printed: (2 190 612 - 1 909 624) / 2 = 140 494, each product rounded to a foot; unrounded 140 493.107."""
    ring = np.array([(east, north) for north, east in FIVE.values()])
    assert abs(area(ring)) == pytest.approx(140_493.107, abs=5e-4)
    assert abs(area(ring)) == pytest.approx(140_494, abs=5 / 2)


def test_balanced_loop() -> None:
    """The balanced columns close; the corners start at N 500.000, E 2000.000. Recomputed area 102 935.7 sq ft."""
    north, east = (np.cumsum([start, *column])[:-1] for start, column in zip((500.0, 2000.0), BALANCED, strict=True))
    assert [float(column.sum()) for column in BALANCED] == pytest.approx([0.0, 0.001], abs=1.1e-3)
    assert abs(area(np.column_stack([east, north]))) == pytest.approx(102_935.7, abs=0.5)
    assert perimeter(np.column_stack([east, north])) == pytest.approx(1347.57, abs=0.2)
