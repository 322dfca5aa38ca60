"""R-11. A straight line by least squares, certified: NIST Statistical Reference Datasets, Linear Regression, Norris.

J. Norris, NIST, calibration of ozone monitors; 36 pairs, intercept and slope certified to 15 digits. The figures were
read in public test suites that quote the data set.
"""

from math import log10, sqrt

import numpy as np
import pytest

from floorwright.survey.solve import least_squares

Y = (
    0.1, 338.8, 118.1, 888, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8,
    557.7, 228.3, 998, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
)  # fmt: skip
X = (
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777, 558.2, 0.4, 0.6, 775.5, 666.9, 338, 447.5, 11.6,
    556, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999, 779, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
)  # fmt: skip
INTERCEPT, SLOPE = -0.262323073774029, 1.00211681802045
SD_INTERCEPT, SD_SLOPE = 0.232818234301152, 0.000429796848199937


def digits(found: float, certified: float) -> float:
    """How many digits agree: the log relative error, as NIST counts."""
    return 15.0 if found == certified else -log10(abs(found - certified) / abs(certified))


@pytest.mark.parametrize("scale", [1.0, 1e-3], ids=["well conditioned", "by singular values"])
def test_norris(scale: float) -> None:
    """Both ways of solving: with the intercept's column shrunk the normal equations no longer do."""
    design = np.column_stack([np.full(len(X), scale), X])
    intercept, slope = least_squares(design, np.array(Y))
    assert digits(float(intercept) * scale, INTERCEPT) > 9
    assert digits(float(slope), SLOPE) > 12


def test_norris_accuracy() -> None:
    """The standard deviations: s^2 = sum of squares over 34, times the inverse of the normal matrix."""
    design = np.column_stack([np.ones(len(X)), X])
    left_over = design @ least_squares(design, np.array(Y)) - np.array(Y)
    unit = np.eye(2)
    inverse = np.column_stack([least_squares(design.T @ design, column) for column in unit])
    variance = float(left_over @ left_over) / 34
    found = [sqrt(variance * inverse[i, i]) for i in range(2)]
    assert digits(found[0], SD_INTERCEPT) > 9
    assert digits(found[1], SD_SLOPE) > 9
