"""Where two edges meet that are moved in by gaps of their own."""

import math

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.tolerance import ALONG, PARALLEL


def mitre(corner: Points, d: Points, n: Points, widths: tuple[float, float]) -> list[tuple[float, float]]:
    """Returns where the moved edges before and after a corner meet: one point, or two where they meet in a step.

    Args:
        corner: (2,) mm.
        d, n: (2, 2), directions and normals of the edge before and the edge after.
        widths: their gaps, mm.
    """
    before, after = widths
    sine = float(d[0, 0] * d[1, 1] - d[0, 1] * d[1, 0])
    cosine = float(d[0] @ d[1])
    if before == after and (cosine > 0.0 or abs(sine) > PARALLEL):
        # Also exact where the edges run straight on.
        return _pairs(corner + before / (1.0 + cosine) * (n[0] + n[1]))
    # Round a corner that turns in, a mitre behind the foot of the wider gap would let the floor into that gap.
    eats_gap = sine < 0.0 and min(widths) < max(widths) * cosine
    if eats_gap or abs(math.atan2(sine, cosine)) < ALONG:
        wide = 0 if before > after else 1
        return _pairs(*(corner + widths[i] / float(n[i] @ n[wide]) * n[wide] for i in (0, 1)))
    if abs(sine) <= PARALLEL:
        raise FloorwrightValueError("a region that turns straight back on itself")
    return _pairs(corner + (before * d[1] - after * d[0]) / sine)


def _pairs(*points: Points) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in points]
