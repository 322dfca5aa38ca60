"""Where letters and names find room on a drawing: clear of each other, of points and of walls."""

import math
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Final

from floorwright.draw.lettering import text_width
from floorwright.draw.style import CAP_HEIGHT
from floorwright.draw.view import Cross, Point, Text
from floorwright.geometry.region import Region
from floorwright.sheets.frame import Frame

if TYPE_CHECKING:
    import shapely

ARM: Final = 1.6
"""mm on paper, half a cross."""

BESIDE: Final = 1.2
"""mm on paper from the arm of a cross to its letter."""

ROUND_ABOUT: Final = tuple((math.cos(math.tau * n / 16), math.sin(math.tau * n / 16)) for n in range(16))
"""Directions from a point that its letters may stand in."""

CLEAR: Final = 2.0
"""mm on paper about a text, beyond which nothing disturbs it."""


def text_box(text: Text, place: Frame) -> "shapely.Polygon":
    """Returns the rectangle that a text takes, floor mm; it must stand with its middle at its point."""
    wide, high = text_width(text.text, text.size) / 2, CAP_HEIGHT[text.size] / 2
    return _box(text.at, text.angle, text.shift, (wide, high), place)


def letter_box(cross: Cross, place: Frame) -> "shapely.Polygon":
    """Returns the rectangle that the letters of a cross take, floor mm, on paper that is not turned."""
    wide, high = text_width(cross.label, cross.size) / 2, CAP_HEIGHT[cross.size] / 2
    x, y = cross.away
    out = BESIDE + ARM * max(abs(x), abs(y)) + abs(x) * wide + abs(y) * high
    return _box(cross.at, 0.0, (x * out, y * out), (wide, high), place)


def point_box(at: Point, place: Frame) -> "shapely.Polygon":
    """Returns the square that a cross takes without its letters, floor mm."""
    return _box(at, 0.0, (0.0, 0.0), (ARM, ARM), place)


def floor_shape(region: Region) -> "shapely.Polygon":
    """Returns a floor with its obstacles cut out."""
    import shapely

    return shapely.Polygon(region.rings[0], list(region.rings[1:]))


def clearance(box: "shapely.Polygon", taken: Iterable["shapely.Geometry"], floor: "shapely.Polygon") -> float:
    """Returns mm of floor from a box to what is nearest, walls among it; below zero, by the side of the square that is
    as large as what they share, where it stands on something."""
    import shapely

    beyond = float(shapely.difference(box, floor).area)
    found = [-math.sqrt(beyond) if beyond > 0 else float(box.distance(floor.boundary))]
    for other in taken:
        shared = float(shapely.intersection(box, other).area)
        found.append(-math.sqrt(shared) if shared > 0 else float(box.distance(other)))
    return min(found)


def clearest(scores: Sequence[tuple[float, ...]]) -> int:
    """Returns the index of the best score, to whole mm of floor; of like ones the first."""
    whole = [tuple(round(value) for value in score) for score in scores]
    return whole.index(max(whole))


def _box(at: Point, angle: float, shift: Point, half: Point, place: Frame) -> "shapely.Polygon":
    import shapely

    cos, sin = math.cos(angle), math.sin(angle)
    corners = [(shift[0] + a * half[0], shift[1] + b * half[1]) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    return shapely.Polygon(
        [(at[0] + place.paper(cos * x - sin * y), at[1] + place.paper(sin * x + cos * y)) for x, y in corners]
    )
