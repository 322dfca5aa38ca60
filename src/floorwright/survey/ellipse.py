"""The standard error ellipse of a point: which way it may be out, and how far."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, hypot, pi, sqrt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from floorwright.geometry.region import Points


@dataclass(frozen=True, slots=True, kw_only=True)
class Ellipse:
    """A standard error ellipse.

    Attributes:
        major: semi-axis the way that the point is least sure, mm, one standard deviation.
        minor: semi-axis square to it, mm.
        angle: of the major semi-axis from x, anticlockwise, radians, over -pi/2 up to pi/2; 0 for a circle.
    """

    major: float
    minor: float
    angle: float


def ellipse(covariance: Points) -> Ellipse:
    """Returns the standard error ellipse of a point.

    The semi-axes are the square roots of the covariance's eigenvalues, and the angle is half of the one whose tangent
    is 2 s_xy / (s_xx - s_yy) (any text on least squares, from memory). The point lies inside with a probability of
    39.3 %, 1 - exp(-1/2), where its errors are normal.

    Args:
        covariance: 2 by 2, mm2, of x and y.
    """
    xx, xy, yy = float(covariance[0, 0]), float(covariance[0, 1]), float(covariance[1, 1])
    middle, half = (xx + yy) / 2.0, hypot((xx - yy) / 2.0, xy)
    angle = atan2(2.0 * xy, xx - yy) / 2.0
    # What is fixed by the datum has no spread, and the last bit of it may lie under nought.
    return Ellipse(
        major=sqrt(max(middle + half, 0.0)),
        minor=sqrt(max(middle - half, 0.0)),
        angle=angle if angle > -pi / 2.0 else pi / 2.0,
    )
