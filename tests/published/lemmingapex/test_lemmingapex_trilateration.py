"""R-12. One point from three and from four distances.

README and tests of the MIT-licensed library `lemmingapex/trilateration`.
"""

import numpy as np
import pytest

from floorwright.survey.adjustment import Adjustment, Datum
from floorwright.survey.observation import Distance
from floorwright.survey.solve import adjust

CENTRES = [(5.0, -6.0), (13.0, -15.0), (21.0, -3.0), (12.4, -21.2)]
DISTANCES = [8.06, 13.97, 23.32, 15.31]


def point_from(count: int) -> Adjustment:
    names = tuple("ABCD"[:count])
    return adjust(
        (*names, "P"),
        np.array([*CENTRES[:count], (5.0, -12.0)]),
        [
            Distance(key=f"{name}-P", a=name, b="P", measured=distance, sd=0.01)
            for name, distance in zip(names, DISTANCES[:count], strict=True)
        ],
        Datum(kind="fixed points", points=names),
    )


def test_three_distances() -> None:
    """Printed: (-0.6, -11.8) within 0.01. Recomputed (-0.59767, -11.79820)."""
    found = point_from(3)
    assert found.xy[-1] == pytest.approx((-0.6, -11.8), abs=0.01)
    assert found.xy[-1] == pytest.approx((-0.59767, -11.79820), abs=5e-6)
    assert all(abs(residual.residual) < 0.001 for residual in found.residuals)


def test_a_fourth_that_contradicts_them() -> None:
    """Recomputed: the source prints no answer."""
    found = point_from(4)
    assert found.xy[-1] == pytest.approx((-0.36960, -12.22774), abs=5e-6)
    assert [r.residual for r in found.residuals] == pytest.approx([0.163, -0.316, -0.043, 0.297], abs=5e-4)
    assert [r.redundancy for r in found.residuals] == pytest.approx([0.384, 0.604, 0.605, 0.407], abs=5e-4)
    assert found.degrees_of_freedom == 2
