"""The outlines of insets: a rectangle, a medallion of equal sides, a round one, or any other, on the floor."""

import math

import numpy as np
import shapely

from floorwright.geometry.measure import area
from floorwright.geometry.region import Points
from floorwright.geometry.sector import around_disc, disc
from floorwright.layout.zones import Outline, Rounded


def rectangle(centre: tuple[float, float], length: float, width: float, along: float) -> Outline:
    """Returns the outline of a rectangle: `length` along a direction, `width` square to it.

    Args:
        centre: (x, y) mm.
        length, width: mm.
        along: radians.
    """
    half = np.array([[-length, -width], [length, -width], [length, width], [-length, width]]) / 2
    cos, sin = math.cos(along), math.sin(along)
    ring = half @ np.array([[cos, sin], [-sin, cos]]) + centre
    return Outline(ring=ring, names=("near side", "right side", "far side", "left side"), along=along, centre=centre)


def outline_of(points: Points, along: float, centre: tuple[float, float] | None = None) -> Outline:
    """Returns the outline through points in order, of either direction, numbered by its sides.

    Args:
        points: (n, 2) mm.
        along: radians, the direction of its pattern.
        centre: (x, y) mm, that its pattern is counted from; without one the middle of its area.
    """
    ring = points if area(points) > 0 else points[::-1].copy()
    middle = shapely.Polygon(ring).centroid
    names = tuple(f"side {number}" for number in range(1, len(ring) + 1))
    return Outline(ring=ring, names=names, along=along, centre=centre or (middle.x, middle.y))


def regular(centre: tuple[float, float], across: float, sides: int, along: float) -> Outline:
    """Returns the outline of a medallion of equal sides, numbered from the one that faces backward along a direction.

    Args:
        centre: (x, y) mm.
        across: mm between the sides that face each other, or twice from the middle to a side.
        sides: how many.
        along: radians; a side lies square to it.
    """
    out = along + math.pi + (np.arange(sides) + 0.5) * math.tau / sides
    corners = across / 2 / math.cos(math.pi / sides) * np.column_stack([np.cos(out), np.sin(out)])
    names = tuple(f"side {(number + 1) % sides + 1}" for number in range(sides))
    return Outline(ring=corners + centre, names=names, along=along, centre=centre)


def round_inset(zone: str, centre: tuple[float, float], across: float, along: float, joint: float) -> Outline:
    """Returns the outline of a round inset, its edge a true circle.

    Args:
        zone: its name, for the edge of what lies around it.
        centre: (x, y) mm.
        across: mm, its diameter.
        along: radians, the direction of its pattern.
        joint: mm, to what lies around it.
    """
    region = disc(centre, across / 2)
    return Outline(
        ring=region.rings[0],
        names=region.edges[0],
        along=along,
        centre=centre,
        rounded=Rounded(rings=None, region=region, around=around_disc(centre, across / 2 + joint, zone)),
    )


def placed(outline: Points, centre: tuple[float, float], along: float) -> Points:
    """Returns corners that are given about a centre on the floor, their x turned to a direction, (n, 2) mm."""
    cos, sin = math.cos(along), math.sin(along)
    return np.asarray(outline @ np.array([[cos, sin], [-sin, cos]]) + centre)
