"""Goods that each pattern of the catalogue is shown with: sizes that close with a joint of 3."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt
from typing import Final

from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.cell import Size, UnitCell
from floorwright.pattern.fivefold import narrow_side

JOINT: Final = 3.0
"""Mm."""

DOT: Final = 203 * (sqrt(2) - 1) - JOINT
"""Side of the dot that closes with octagons of 200, mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A pattern with goods that close.

    Attributes:
        pattern: its name.
        sizes: of every kind of piece, mm, by its name.
    """

    pattern: str
    sizes: Mapping[str, Size]

    def cell(self) -> UnitCell:
        """Returns its unit cell, every parameter as it is without a value."""
        return PATTERNS[self.pattern].cell(self.sizes, JOINT, {})


def _one(pattern: str, length: float, width: float) -> Shown:
    return Shown(pattern=pattern, sizes={"": (length, width)})


SHOWN: Final[tuple[Shown, ...]] = (
    _one("grid", 600.0, 300.0),
    _one("brick bond", 600.0, 300.0),
    _one("herringbone", 450.0, 150.0),
    _one("double herringbone", 450.0, 75.0),
    Shown(pattern="chevron", sizes={"right-hand": (600.0, 90.0), "left-hand": (600.0, 90.0)}),
    _one("basketweave", 203.0, 100.0),
    _one("double basketweave", 203.0, 100.0),
    _one("soldier courses", 203.0, 100.0),
    _one("hexagon", 200.0, 200.0),
    _one("elongated hexagon", 300.0, 100.0),
    _one("triangle", 250.0, 250.0),
    _one("rhombus", 200.0, 200.0),
    Shown(pattern="tumbling cubes", sizes=dict.fromkeys(("right", "top", "left"), (150.0, 150.0))),
    _one("fish scale", 150.0, 150.0),
    _one("mosaic sheets", 298.0, 298.0),
    Shown(pattern="octagon and dot", sizes={"octagon": (200.0, 200.0), "dot": (DOT, DOT)}),
    Shown(pattern="square and dot", sizes={"square": (300.0, 300.0), "dot": (60.0, 60.0)}),
    Shown(
        pattern="five-fold rhombs",
        sizes={"wide": (150.0, 150.0), "narrow": (narrow_side(150.0, JOINT), narrow_side(150.0, JOINT))},
    ),
    Shown(pattern="pinwheel", sizes={"large": (300.0, 300.0), "small": (150.0, 150.0)}),
    Shown(pattern="windmill", sizes={"sail": (300.0, 100.0), "dot": (197.0, 197.0)}),
    Shown(pattern="modular, two sizes", sizes={"large": (400.0, 300.0), "small": (150.0, 150.0)}),
    Shown(
        pattern="modular, three sizes", sizes={"large": (403.0, 403.0), "long": (403.0, 200.0), "small": (200.0, 200.0)}
    ),
    Shown(
        pattern="modular, four sizes",
        sizes={"largest": (606.0, 403.0), "large": (403.0, 403.0), "long": (403.0, 200.0), "small": (200.0, 200.0)},
    ),
    _one("planks", 1200.0, 180.0),
    _one("setts in rows", 150.0, 100.0),
    Shown(pattern="random ashlar", sizes={"large": (403.0, 403.0), "long": (403.0, 200.0), "small": (200.0, 200.0)}),
)
