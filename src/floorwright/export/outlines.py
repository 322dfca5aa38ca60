"""Shapes on the floor as short paths: whole tenths of a mm, y down, each step from the point before."""

import math
from collections.abc import Iterable, Iterator, Sequence

import numpy as np

from floorwright.draw.site import Box
from floorwright.draw.view import Curve, Fill, Item, Line, Point
from floorwright.geometry.region import Points

TENTHS = 10.0
ORIGIN = (0.0, 0.0, 0.0, 0.0)


def placed(points: Points | Sequence[Point], box: Box) -> list[tuple[int, int]]:
    """Returns floor points from the upper left corner of a box, in tenths of a mm."""
    at = (np.asarray(points, dtype=np.float64).reshape(-1, 2) - (box[0], box[3])) * (TENTHS, -TENTHS)
    return [(x, y) for x, y in np.rint(at).astype(int).tolist()]


def ring_path(points: Points | Sequence[Point], box: Box) -> str:
    """Returns the path of a ring of straight sides."""
    return f"{_steps(placed(points, box))}z"


def tile_path(outline: Points) -> str:
    """Returns the path of a tile from its first corner on, which is to be put at its place."""
    return _steps(placed(outline, ORIGIN))[len("M0 0") :] + "z"


def line_path(line: Line, box: Box) -> str:
    """Returns the path of a line, its arcs true."""
    return "".join(_sides(placed(line.points, box), line.bulges, closed=line.closed))


def fill_path(fill: Fill, box: Box) -> str:
    """Returns the path of an area, its arcs true."""
    bulges = fill.bulges or ((),) * len(fill.rings)
    rings = zip(fill.rings, bulges, strict=True)
    return "".join(part for ring, of in rings for part in _sides(placed(ring, box), of, closed=True))


def by_kind(items: Iterable[Item], box: Box) -> list[list[str]]:
    """Returns [kind, path] of fills and lines in drawing order, those of one kind that follow each other together."""
    found: list[list[str]] = []
    for item in items:
        if isinstance(item, Curve):
            item = _as_line(item)
        assert isinstance(item, Fill | Line), f"a plan that goes to site has no {type(item).__name__}"
        kind = (item.tone if isinstance(item, Fill) else item.pen).replace(" ", "-")
        path = fill_path(item, box) if isinstance(item, Fill) else line_path(item, box)
        if found and found[-1][0] == kind:
            found[-1][1] += path
        else:
            found.append([kind, path])
    return found


def _as_line(curve: Curve) -> Line:
    x, y = curve.centre
    start, end = (
        (x + curve.radius * math.cos(angle), y + curve.radius * math.sin(angle)) for angle in (curve.start, curve.end)
    )
    return Line(points=(start, end), pen=curve.pen, bulges=(math.tan((curve.end - curve.start) / 4),))


def _steps(points: Sequence[tuple[int, int]]) -> str:
    (x, y), *rest = points
    path = [f"M{x} {y}l"]
    for to_x, to_y in rest:
        path.append(f"{to_x - x} {to_y - y} ")
        x, y = to_x, to_y
    return "".join(path).rstrip(" l")


def _sides(points: Sequence[tuple[int, int]], bulges: Sequence[float], *, closed: bool) -> Iterator[str]:
    if not any(bulges):
        yield _steps(points) + ("z" if closed else "")
        return
    yield f"M{points[0][0]} {points[0][1]}"
    ends = [*points[1:], points[0]] if closed else points[1:]
    # Of an open line the last point starts no side.
    for start, (x, y), bulge in zip(points, ends, bulges, strict=False):
        if not bulge:
            yield f"L{x} {y}"
            continue
        radius = round(math.dist(start, (x, y)) / 4 * (1 / abs(bulge) + abs(bulge)))
        # y runs down here, so what is anticlockwise on the floor is drawn with the sweep flag 0.
        yield f"A{radius} {radius} 0 {int(abs(bulge) > 1)} {int(bulge < 0)} {x} {y}"
    if closed:
        yield "z"
