"""Endless straight lines by their normal: moved, and met with each other."""

from dataclasses import dataclass, replace

import numpy as np

from floorwright.geometry.region import Points
from floorwright.tolerance import PARALLEL


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Straight:
    """The points p with `normal @ p == reach`.

    Attributes:
        normal: (2,) unit.
        reach: mm.
    """

    normal: Points
    reach: float

    def moved(self, by: float) -> "Straight":
        """Returns the line moved along its normal, mm."""
        return replace(self, reach=self.reach + by)

    def off(self, points: Points) -> Points:
        """Returns how far points (n, 2) lie past the line along its normal, (n,) mm."""
        return np.asarray(points @ self.normal - self.reach)


def through(start: Points, end: Points) -> Straight:
    """Returns the line through two points, its normal to the left of the way from the one to the other."""
    run = end - start
    normal = np.array([-run[1], run[0]]) / np.hypot(*run)
    return Straight(normal=normal, reach=float(start @ normal))


def crossing(one: Straight, other: Straight) -> Points | None:
    """Returns where two lines cross, (2,) mm; None where they are parallel."""
    normals = np.array([one.normal, other.normal])
    if abs(np.linalg.det(normals)) <= PARALLEL:
        return None
    return np.asarray(np.linalg.solve(normals, np.array([one.reach, other.reach])))
