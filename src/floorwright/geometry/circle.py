"""The circle that fits points best, by their distances square to it."""

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.tolerance import COINCIDENT

ROUNDS = 200
"""Steps of Gauss-Newton at most."""


def fit_circle(points: Points) -> tuple[tuple[float, float], float]:
    """Returns centre, (x, y) mm, and radius, mm, of the circle with the least sum of squared distances to points.

    Those are the distances square to the circle (the geometric fit of Gander, Golub and Strebel, "Least-squares fitting
    of circles and ellipses", BIT 34, 1994); fits that are linear in the coefficients of the circle's equation differ a
    good deal on a short arc. Found by Gauss-Newton from the linear fit, steps halved while they make it worse.

    Args:
        points: (n, 2) mm, three or more.

    Raises:
        FloorwrightValueError: fewer than three points, or all in line.
    """
    if len(points) < 3:
        raise FloorwrightValueError("a circle needs three points")
    middle = points.mean(axis=0)
    local = points - middle
    if float(np.linalg.svd(local, compute_uv=False)[-1]) <= COINCIDENT:
        raise FloorwrightValueError("the points lie in line")
    rows = np.column_stack([2.0 * local, np.ones(len(local))])
    x, y, rest = np.linalg.lstsq(rows, (local**2).sum(axis=1), rcond=None)[0]
    best = np.array([x, y, float(np.sqrt(rest + x * x + y * y))])
    worth = _left(local, best)
    for _ in range(ROUNDS):
        away = local - best[:2]
        out = np.maximum(np.hypot(away[:, 0], away[:, 1]), COINCIDENT)
        slopes = np.column_stack([-away / out[:, None], -np.ones(len(local))])
        step = np.linalg.lstsq(slopes, best[2] - out, rcond=None)[0]
        while _left(local, best + step) > worth and float(np.abs(step).max()) > COINCIDENT / 10:
            step = step / 2.0
        best = best + step
        worth = _left(local, best)
        if float(np.abs(step).max()) <= COINCIDENT / 10:
            break
    return (float(middle[0] + best[0]), float(middle[1] + best[1])), float(best[2])


def _left(points: Points, circle: Points) -> float:
    """The sum of squared distances of points to a circle given as x, y and radius."""
    away = points - circle[:2]
    return float(((np.hypot(away[:, 0], away[:, 1]) - circle[2]) ** 2).sum())
