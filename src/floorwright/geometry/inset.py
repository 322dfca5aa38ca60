"""The part of a region that keeps its distance from every edge, each edge with a distance of its own."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.inset_arcs import moved_outline
from floorwright.geometry.measure import area, is_inside_ring, is_simple, ring_gap
from floorwright.geometry.mitre import mitre
from floorwright.geometry.region import Circle, Points, Region
from floorwright.geometry.restore import Outline, flattened, restored_region, with_even_edges
from floorwright.geometry.subtract import subtract
from floorwright.tolerance import COINCIDENT, SLIVER_AREA


def inset(region: Region, gaps: Mapping[str, float] | float) -> Region:
    """Returns the region with every edge moved in by its own gap and mitred with its neighbours.

    Edges keep their names; one that vanishes is dropped. Holes grow: the gap runs round an obstacle too. Two walls with
    different gaps meet in a step, square to the wider one, where they run on within 5 degrees (`tolerance.ALONG`) of
    straight (their mitre would be metres away) or turn in so gently that a mitre would reach into the wider gap.

    An edge that stands for an arc is moved to the concentric arc, and new edges stand for that.

    Edges are moved directly where each keeps its direction and nothing meets. Where an edge vanishes or a hole reaches
    a wall, the strips along the edges are cut off the region instead; both give the same shape.

    Args:
        region: what to move in from.
        gaps: mm by edge name, every name of the region; or one figure for all. Not negative.

    Raises:
        FloorwrightValueError: a gap is missing or negative, nothing is left, or the gaps cut the region in two (then
            `inset_parts` has both).

    >>> square = Region(rings=(np.array([[0.0, 0.0], [100, 0], [100, 80], [0, 80]]),), edges=(("S", "E", "N", "W"),))
    >>> inset(square, {"S": 5, "E": 10, "N": 5, "W": 0}).rings[0].tolist()
    [[0.0, 5.0], [90.0, 5.0], [90.0, 75.0], [0.0, 75.0]]
    """
    parts = inset_parts(region, gaps)
    if not parts:
        raise FloorwrightValueError("the gaps leave nothing of the floor")
    if len(parts) > 1:
        raise FloorwrightValueError(f"the gaps cut the region into {len(parts)} parts")
    return parts[0]


def inset_parts(region: Region, gaps: Mapping[str, float] | float) -> tuple[Region, ...]:
    """Returns what the gaps leave of a region, largest part first; none where nothing is left.

    Args and edge cases as for `inset`; parts under `tolerance.SLIVER_AREA` are dropped.
    """
    widths = [_widths(names, gaps) for names in region.edges]
    if not region.circles:
        moved = _moved(region, widths)
        return (moved,) if moved is not None else subtract(region, _strips(region, widths))
    circles = _concentric(region.circles, gaps)
    outlines = [
        moved_outline(ring, region.circles, circles, _widths([name or "" for name in ring.names], gaps))
        for ring in restored_region(region)
    ]
    whole = _as_region([ring for ring in outlines if ring is not None], circles)
    if None not in outlines and _is_sound(whole):
        return (whole,)
    parts = subtract(region, _strips(region, widths))
    return tuple(with_even_edges(replace(part, circles=circles)) for part in parts)


def _as_region(outlines: Sequence[Outline], circles: Mapping[str, Circle]) -> Region:
    flat = [flattened(outline) for outline in outlines]
    return Region(
        rings=tuple(points for points, _ in flat),
        edges=tuple(tuple(name or "" for name in names) for _, names in flat),
        circles=circles,
    )


def _is_sound(region: Region) -> bool:
    """Whether rings that were moved still make a region: each simple, the outer one with an area, the holes in it."""
    return all(map(is_simple, region.rings)) and area(region.rings[0]) > SLIVER_AREA and _are_apart(region.rings)


def _concentric(circles: Mapping[str, Circle], gaps: Mapping[str, float] | float) -> dict[str, Circle]:
    """The circles moved in: one that the region lies in shrinks, one that it lies about grows."""
    moved = {}
    for name, circle in circles.items():
        gap = gaps.get(name, 0.0) if isinstance(gaps, Mapping) else gaps
        radius = circle.radius - gap if circle.hollow else circle.radius + gap
        if radius > COINCIDENT:
            moved[name] = replace(circle, radius=radius)
    return moved


def _widths(names: Sequence[str], gaps: Mapping[str, float] | float) -> NDArray[np.float64]:
    if isinstance(gaps, Mapping):
        missing = sorted(set(names) - set(gaps))
        if missing:
            raise FloorwrightValueError(f"no gap for {', '.join(missing)}")
        widths = np.array([gaps[name] for name in names], dtype=np.float64)
    else:
        widths = np.full(len(names), gaps, dtype=np.float64)
    if not bool(np.all(np.isfinite(widths) & (widths >= 0.0))):
        raise FloorwrightValueError("a gap must be a length of zero or more")
    return widths


def _frame(ring: Points) -> tuple[Points, Points]:
    """Unit direction and unit normal to the left (into the region) of every edge."""
    along = np.roll(ring, -1, axis=0) - ring
    length = np.hypot(along[:, 0], along[:, 1])
    if bool(np.any(length <= COINCIDENT)):
        raise FloorwrightValueError("a region with an edge of no length")
    along = along / length[:, None]
    return along, np.column_stack([-along[:, 1], along[:, 0]])


def _corners(ring: Points, widths: NDArray[np.float64]) -> list[list[tuple[float, float]]]:
    """For every point of a ring, where the moved edges on both sides of it meet."""
    d, n = _frame(ring)
    pairs = [(i - 1, i) for i in range(len(ring))]
    return [mitre(ring[i], d[[h, i]], n[[h, i]], (float(widths[h]), float(widths[i]))) for h, i in pairs]


def _moved(region: Region, widths: Sequence[NDArray[np.float64]]) -> Region | None:
    """The region with its edges moved directly, or None where edges vanish or rings meet."""
    rings: list[Points] = []
    edges: list[tuple[str, ...]] = []
    for ring, names, width in zip(region.rings, region.edges, widths, strict=True):
        corners = _corners(ring, width)
        d, _ = _frame(ring)
        starts = np.array([corner[-1] for corner in corners])
        ends = np.roll(np.array([corner[0] for corner in corners]), -1, axis=0)
        if bool(np.any(np.einsum("ij,ij->i", ends - starts, d) <= COINCIDENT)):
            return None
        points = np.array([point for corner in corners for point in corner])
        if not is_simple(points):
            return None
        rings.append(points)
        edges.append(tuple(name for i in range(len(ring)) for name in _names_from(names, width, i, len(corners[i]))))
    if area(rings[0]) <= SLIVER_AREA or not _are_apart(rings):
        return None
    return Region(rings=tuple(rings), edges=tuple(edges))


def _names_from(names: Sequence[str], width: NDArray[np.float64], i: int, count: int) -> tuple[str, ...]:
    """Names of the edges that start at the `count` points of corner i; a step belongs to the wider gap."""
    return (names[i],) if count == 1 else (names[i if width[i] > width[i - 1] else i - 1], names[i])


def _are_apart(rings: Sequence[Points]) -> bool:
    """Whether every hole lies inside the outer ring and clear of the other rings."""
    for index, hole in enumerate(rings[1:], start=1):
        if not bool(np.all(is_inside_ring(hole, rings[0]))):
            return False
        for other in (rings[0], *rings[1:index]):
            if ring_gap(hole, other) <= COINCIDENT:
                return False
        others = rings[1:index]
        if any(is_inside_ring(hole[0], other)[0] or is_inside_ring(other[0], hole)[0] for other in others):
            return False
    return True


def _strips(region: Region, widths: Sequence[NDArray[np.float64]]) -> list[tuple[Points, tuple[str, ...]]]:
    """What the gaps take: a strip along every edge and, at every corner, what lies between its ends and the mitre."""
    pieces: list[tuple[Points, tuple[str, ...]]] = []
    for ring, names, width in zip(region.rings, region.edges, widths, strict=True):
        _, n = _frame(ring)
        ends = np.roll(ring, -1, axis=0)
        corners = _corners(ring, width)
        for i, name in enumerate(names):
            start, end, up = ring[i], ends[i], width[i] * n[i]
            to_mitre = np.array([start, corners[i][-1], start + up])
            from_mitre = np.array([end, end + up, corners[(i + 1) % len(ring)][0]])
            shapes = (np.array([start, end, end + up, start + up]), to_mitre, from_mitre)
            pieces += [(shape, (name,) * len(shape)) for shape in shapes if abs(area(shape)) > COINCIDENT]
    return pieces
