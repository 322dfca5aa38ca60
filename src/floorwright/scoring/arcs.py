"""Arcs of a pattern, each cut with the saw on a pivot: laid out, and cut to a part of the slab.

The sides of a cell and of the one beside it that share an arc are one arc.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
import shapely

from floorwright.geometry.region import Points
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.scoring.design import Circle
from floorwright.scoring.runs import repeats
from floorwright.scoring.swings import Swing, rounded_sides
from floorwright.tolerance import ONE_CUT, TOUCH


def cell_arcs(cell: UnitCell) -> tuple[Swing, ...]:
    """Returns the arcs of one repeat, in the pattern's frame: each once, however many cells it bounds."""
    found: list[Swing] = []
    inverse = np.linalg.inv(cell.repeat)
    for piece in cell.pieces:
        for _, swing in rounded_sides(piece):
            # Its pivot in the first repeat: arcs about pivots a repeat apart are one and the same.
            steps = np.asarray(swing.pivot) @ inverse
            home = (steps - np.floor(steps + TOUCH / np.abs(cell.repeat).max())) @ cell.repeat
            found.append(replace(swing, pivot=(float(home[0]), float(home[1]))))
    arcs: list[Swing] = []
    while found:
        first = found.pop(0)
        same = [one for one in found if math.dist(one.pivot, first.pivot) <= TOUCH and _alike(one, first)]
        found = [one for one in found if one not in same]
        arcs += _joined([first, *same])
    return tuple(arcs)


def _alike(one: Swing, other: Swing) -> bool:
    return abs(one.radius - other.radius) <= TOUCH


def _joined(swings: Sequence[Swing]) -> Iterator[Swing]:
    """Yields arcs of one circle with those that overlap or touch joined."""
    slack = TOUCH / swings[0].radius
    spans = sorted(((one.start + slack) % math.tau - slack, one.sweep) for one in swings)
    joined: list[tuple[float, float]] = []
    for start, sweep in spans:
        if joined and start <= sum(joined[-1]) + slack:
            first, before = joined[-1]
            joined[-1] = first, max(before, start + sweep - first)
        else:
            joined.append((start, sweep))
    if len(joined) > 1 and sum(joined[-1]) >= joined[0][0] + math.tau - slack:
        # The last one runs on into the first.
        (start, sweep), last = joined[0], joined.pop()
        joined[0] = last[0], max(last[1], start + math.tau + sweep - last[0])
    for start, sweep in joined:
        yield replace(swings[0], start=start, sweep=min(sweep, math.tau))


def placed_arcs(arcs: Sequence[Swing], cell: UnitCell, placement: Placement, box: Points) -> tuple[Swing, ...]:
    """Returns the arcs of every repeat that may reach into a box, in the frame that the pattern is placed in.

    Args:
        arcs: of a repeat.
        cell: that they are of.
        placement: of the pattern.
        box: (2, 2) mm, least and most corner.
    """
    if not arcs:
        return ()
    # Its pivot may lie a repeat away from the piece that it bounds.
    far = max(arc.radius for arc in arcs) + float(np.hypot(*cell.repeat.T).sum())
    shifts = repeats(cell, placement, box + np.array([[-far], [far]])) @ cell.repeat
    cos, sin = math.cos(placement.angle), math.sin(placement.angle)
    turn = np.array([[cos, sin], [-sin, cos]])
    return tuple(
        replace(arc, pivot=(float(x), float(y)), start=arc.start + placement.angle)
        for arc in arcs
        for x, y in (np.asarray(arc.pivot) + shifts) @ turn + np.asarray(placement.origin)
    )


def arcs_inside(swings: Sequence[Swing], area: shapely.Polygon, circles: Sequence[Circle]) -> tuple[Swing, ...]:
    """Returns the arcs as far as they lie in an area and outside circles that are left plain; floor mm.

    What is left of one that is shorter than `tolerance.ONE_CUT` is dropped.
    """
    rings = [np.asarray(ring.coords) for ring in (area.exterior, *area.interiors)]
    sides = np.concatenate([np.stack([ring[:-1], ring[1:]], axis=1) for ring in rings])
    parts = [part for swing in swings for part in _parts(swing, sides, circles)]
    if not parts:
        return ()
    middles = np.array([part.at(0.5) for part in parts])
    inside = np.asarray(shapely.contains_xy(area, middles))
    for circle in circles:
        inside &= np.hypot(*(middles - circle.centre).T) > circle.radius
    return tuple(part for part, is_in in zip(parts, inside.tolist(), strict=True) if is_in)


def _parts(swing: Swing, sides: Points, circles: Sequence[Circle]) -> Iterator[Swing]:
    """Yields an arc divided wherever it meets a side or a circle."""
    angles = np.concatenate([_met_by_sides(swing, sides), *(_met_by_circle(swing, circle) for circle in circles)])
    along = np.sort((angles - swing.start) % math.tau)
    breaks = [0.0, *along[along < swing.sweep].tolist(), swing.sweep]
    for low, high in pairwise(breaks):
        if (high - low) * swing.radius > ONE_CUT:
            yield replace(swing, start=swing.start + low, sweep=high - low)


def _met_by_sides(swing: Swing, sides: Points) -> Points:
    """Angles at which the whole circle of an arc meets sides, (n, 2, 2) mm."""
    start = sides[:, 0] - np.asarray(swing.pivot)
    along = sides[:, 1] - sides[:, 0]
    a, b, c = (along**2).sum(1), (start * along).sum(1), (start**2).sum(1) - swing.radius**2
    root = b**2 - a * c
    met = root > 0
    found = []
    for sign in (-1.0, 1.0):
        share = (-b[met] + sign * np.sqrt(root[met])) / a[met]
        points = (start[met] + share[:, None] * along[met])[(share >= 0) & (share <= 1)]
        found.append(np.arctan2(points[:, 1], points[:, 0]))
    return np.concatenate(found)


def _met_by_circle(swing: Swing, circle: Circle) -> Points:
    """Angles at which the whole circle of an arc meets another circle."""
    dx, dy = circle.centre[0] - swing.pivot[0], circle.centre[1] - swing.pivot[1]
    apart = math.hypot(dx, dy)
    if not abs(swing.radius - circle.radius) < apart < swing.radius + circle.radius:
        return np.empty(0)
    half = math.acos((apart**2 + swing.radius**2 - circle.radius**2) / (2 * apart * swing.radius))
    way = math.atan2(dy, dx)
    return np.array([way - half, way + half])
