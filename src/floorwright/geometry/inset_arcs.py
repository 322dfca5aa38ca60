"""A ring of straight sides and arcs, each moved in by a gap of its own: an arc to the concentric one."""

import math
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from floorwright.geometry.mitre import mitre
from floorwright.geometry.region import Circle, Points
from floorwright.geometry.restore import Outline, Side, crossings
from floorwright.tolerance import CHORD, COINCIDENT


def moved_outline(
    outline: Outline, circles: Mapping[str, Circle], moved: Mapping[str, Circle], widths: NDArray[np.float64]
) -> Outline | None:
    """Returns the ring with every side moved in and carried on to its neighbours; None where a side vanishes.

    Args:
        outline: as restored, the region on its left.
        circles: that its arcs lie on, by name.
        moved: the same, each moved in by its gap; one that the gap uses up is missing.
        widths: mm, of each side.
    """
    count = len(outline.points)
    if any(bulge and name not in moved for bulge, name in zip(outline.bulges, outline.names, strict=True)):
        return None
    sides = [_moved_side(outline, n, moved, float(widths[n])) for n in range(count)]
    corners = [_corner(outline, n, sides[n - 1], sides[n], (float(widths[n - 1]), float(widths[n])), circles)
               for n in range(count)]  # fmt: skip
    points: list[tuple[float, float]] = []
    bulges: list[float] = []
    names = []
    for n, corner in enumerate(corners):
        start, end = np.array(corner[-1]), np.array(corners[(n + 1) % count][0])
        bulge = _kept(outline, n, start, end, sides[n])
        if bulge is None:
            return None
        if len(corner) > 1:
            # A step belongs to the wider gap.
            points.append(corner[0])
            bulges.append(0.0)
            names.append(outline.names[n if widths[n] > widths[n - 1] else n - 1])
        points.append(corner[-1])
        bulges.append(bulge)
        names.append(outline.names[n])
    return Outline(points=np.array(points), bulges=tuple(bulges), names=tuple(names))


def _ends(outline: Outline, n: int) -> tuple[Points, Points]:
    return outline.points[n], outline.points[(n + 1) % len(outline.points)]


def _moved_side(outline: Outline, n: int, moved: Mapping[str, Circle], width: float) -> Side:
    """What a side lies on once it is moved: a circle, or the line through two points."""
    name = outline.names[n]
    if outline.bulges[n] and name is not None:
        return moved[name]
    start, end = _ends(outline, n)
    along = (end - start) / float(np.hypot(*(end - start)))
    up = width * np.array([-along[1], along[0]])
    return start + up, end + up


def _heading(outline: Outline, n: int, at_end: bool) -> Points:
    """Unit direction in which a side leaves its start, or comes to its end, (2,)."""
    start, end = _ends(outline, n)
    chord = end - start
    turn = 2.0 * math.atan(outline.bulges[n]) * (1.0 if at_end else -1.0)
    angle = math.atan2(chord[1], chord[0]) + turn
    return np.array([math.cos(angle), math.sin(angle)])


def _corner(
    outline: Outline, n: int, before: Side, after: Side, widths: tuple[float, float], circles: Mapping[str, Circle]
) -> list[tuple[float, float]]:
    """Where the moved sides on both sides of a corner meet: one point, or two where they meet in a step."""
    at, name = outline.points[n], outline.names[n]
    if outline.bulges[n] and outline.bulges[n - 1] and name == outline.names[n - 1] and name is not None:
        # In the middle of one circle.
        circle = circles[name]
        out = (at - circle.centre) / circle.radius
        x, y = at + (-widths[1] if circle.hollow else widths[1]) * out
        return [(float(x), float(y))]
    d = np.array([_heading(outline, n - 1, True), _heading(outline, n, False)])
    found = mitre(at, d, np.column_stack([-d[:, 1], d[:, 0]]), widths)
    if len(found) > 1 or not (isinstance(before, Circle) or isinstance(after, Circle)):
        return found
    # The sides run off from the corner much as the lines that they touch there do.
    reach = math.dist(found[0], at) / 2.0 + CHORD
    near = [point for point in crossings(before, after) if math.dist(point, found[0]) <= reach]
    best = min(near, key=lambda point: math.dist(point, found[0]), default=np.array(found[0]))
    return [(float(best[0]), float(best[1]))]


def _kept(outline: Outline, n: int, start: Points, end: Points, side: Side) -> float | None:
    """The bulge of a moved side between its new ends, 0 for a straight one; None where nothing of it is left."""
    if not isinstance(side, Circle):
        first, last = _ends(outline, n)
        return 0.0 if float((end - start) @ (last - first)) > COINCIDENT * math.dist(first, last) else None
    swept = 4.0 * math.atan(outline.bulges[n])
    (ax, ay), (bx, by) = start - np.array(side.centre), end - np.array(side.centre)
    turned = swept + math.remainder(math.atan2(by, bx) - math.atan2(ay, ax) - swept, math.tau)
    return math.tan(turned / 4.0) if turned * swept > 0.0 and abs(turned) * side.radius > COINCIDENT else None
