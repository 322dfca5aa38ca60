"""The six points of a textbook circle fit.

W. Gander, G. Golub, R. Strebel, "Least-squares fitting of circles and ellipses", BIT 34 (1994): points as quoted in a
public test script, answers to the four decimals that the paper prints.
"""

import numpy as np
import pytest

from floorwright.geometry.circle import fit_circle

POINTS = np.array([[1, 7], [2, 6], [5, 8], [7, 7], [9, 5], [3, 7]], dtype=float)


def test_geometric_fit_to_the_digits_printed() -> None:
    (x, y), radius = fit_circle(1000.0 * POINTS)
    assert (round(x / 1000, 4), round(y / 1000, 4), round(radius / 1000, 4)) == (4.7398, 2.9835, 4.7142)


def test_it_is_not_the_algebraic_fit() -> None:
    (x, _y), radius = fit_circle(1000.0 * POINTS)
    assert abs(x / 1000 - 5.3794) > 0.5
    assert radius / 1000 != pytest.approx(3.0370, abs=0.5)
