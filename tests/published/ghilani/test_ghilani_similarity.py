"""R-09. A four-parameter similarity fit: C. D. Ghilani, Adjustment Computations, Ex. 18.1.

Inputs and parameters as quoted in several public code files; residuals recomputed. X = a x - b y + Tx, Y = b x + a y +
Ty is linear in its parameters, and each coordinate is one reading.
"""

from math import atan2, degrees, hypot

import numpy as np
import pytest

from floorwright.survey.solve import least_squares

FROM = np.array([(121.622, -128.066), (141.228, 187.718), (175.802, 135.728)])
TO = np.array([(1049422.40, 51089.20), (1049413.95, 49659.30), (1049244.95, 49884.95)])
OTHERS = {
    (174.148, -120.262): (1049187.361, 51040.629),
    (513.520, -192.130): (1047637.713, 51278.829),
    (754.444, -67.706): (1046582.113, 50656.241),
    (972.788, 120.994): (1045644.713, 49749.336),
}


def design(points: np.ndarray) -> np.ndarray:
    rows = []
    for x, y in points:
        rows += [(x, -y, 1.0, 0.0), (y, x, 0.0, 1.0)]
    return np.array(rows)


FOUND = least_squares(design(FROM), TO.ravel())


def test_parameters() -> None:
    a, b, tx, ty = FOUND
    assert (a, b) == pytest.approx((-4.51249, -0.25371), abs=6e-6)
    assert (tx, ty) == pytest.approx((1050003.715, 50542.131), abs=6e-4)
    assert hypot(a, b) == pytest.approx(4.51962, abs=6e-6)
    # From memory: 183 13' 05.0".
    assert degrees(atan2(b, a)) % 360 == pytest.approx(183 + 13 / 60 + 5.02 / 3600, abs=1e-5)


def test_residuals() -> None:
    out = (design(FROM) @ FOUND - TO.ravel()).tolist()
    assert out == pytest.approx([0.004, -0.029, 0.101, -0.077, -0.105, 0.106], abs=6e-4)
    assert float(np.sqrt(np.sum(np.square(out)) / 2)) == pytest.approx(0.140, abs=6e-4)


@pytest.mark.parametrize(("point", "wanted"), OTHERS.items())
def test_points_carried_over(point: tuple[float, float], wanted: tuple[float, float]) -> None:
    assert (design(np.array([point])) @ FOUND).tolist() == pytest.approx(wanted, abs=1.1e-3)
