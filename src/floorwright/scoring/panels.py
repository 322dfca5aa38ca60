"""The panels that the joints in a slab make of it, and where those joints end."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely

from floorwright.geometry.region import Region
from floorwright.scoring.design import OldJoint
from floorwright.tolerance import ONE_CUT, SLIVER_AREA

HOLLOW: Final = 0.98
"""A panel that fills less of its hull is L-shaped or T-shaped, or has a notch."""

LEAST_ROUND: Final = 16
"""A ring of more corners stands for something round: it has none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """A part of the slab between joints and edges.

    Attributes:
        long, short: sides of the least rectangle about it, mm.
        area: mm2.
        hollow: whether it is no more or less convex: an L or a T.
        centre: a point inside it, floor mm.
    """

    long: float
    short: float
    area: float
    hollow: bool
    centre: tuple[float, float]

    @property
    def ratio(self) -> float:
        """The long side over the short one."""
        return self.long / self.short


@dataclass(frozen=True, slots=True, kw_only=True)
class LooseEnd:
    """An end of a joint inside the slab. on: the joint that it ends at, empty where it just stops."""

    joint: str
    on: str


def panels(floor: Region, joints: Sequence[OldJoint]) -> tuple[Panel, ...]:
    """Returns the panels, the largest first; of a slab without joints the slab itself."""
    slab = shapely.Polygon(floor.rings[0], floor.rings[1:])
    lines = [slab.boundary, *(_longer(joint) for joint in joints)]
    made = shapely.get_parts(shapely.polygonize([shapely.node(shapely.union_all(lines))]))
    inside = [part for part in made if part.area > SLIVER_AREA and slab.contains(part.representative_point())]
    return tuple(sorted(map(_panel, inside), key=lambda panel: (-round(panel.area), panel.centre)))


def _longer(joint: OldJoint) -> shapely.LineString:
    """A joint so much longer at both ends that it meets the edge or the joint that it ends at."""
    start, end = np.asarray(joint.ends)
    more = (end - start) / math.dist(start, end) * ONE_CUT
    return shapely.LineString([start - more, end + more])


def _panel(shape: shapely.Polygon) -> Panel:
    corners = shapely.get_coordinates(shapely.minimum_rotated_rectangle(shape))
    sides = sorted(math.dist(corners[i], corners[i + 1]) for i in (0, 1))
    middle = shape.representative_point()
    return Panel(
        long=sides[1],
        short=sides[0],
        area=float(shape.area),
        hollow=bool(shape.area < HOLLOW * shape.convex_hull.area),
        centre=(float(middle.x), float(middle.y)),
    )


def loose_ends(floor: Region, joints: Sequence[OldJoint]) -> tuple[LooseEnd, ...]:
    """Returns the ends of joints that lie neither at the slab's edge nor at a joint of full depth."""
    edge = shapely.MultiLineString([shapely.LinearRing(ring) for ring in floor.rings])
    found = []
    for joint in joints:
        for end in joint.ends:
            point = shapely.Point(end)
            if shapely.distance(point, edge) <= ONE_CUT:
                continue
            on = [one for one in joints if one is not joint and _is_on(point, one)]
            if not any(one.kind != "contraction" for one in on):
                found.append(LooseEnd(joint=joint.name, on=on[0].name if on else ""))
    return tuple(found)


def bare_corners(floor: Region, joints: Sequence[OldJoint]) -> int:
    """Returns how many corners turn into the slab, columns' among them, with no joint running from them."""
    count = 0
    for ring in floor.rings:
        before, after = ring - np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0) - ring
        turn = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
        for corner in ring[turn < 0] if len(ring) <= LEAST_ROUND else ():
            point = shapely.Point(corner)
            count += not any(_is_on(point, joint) for joint in joints)
    return count


def _is_on(point: shapely.Point, joint: OldJoint) -> bool:
    return bool(shapely.distance(point, shapely.LineString(joint.ends)) <= ONE_CUT)
