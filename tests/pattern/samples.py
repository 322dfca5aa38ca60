"""One good sample of every pattern in the catalogue: sizes that close with a joint of 3, and its parameters."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from math import sqrt
from typing import Any

from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.cell import Size, UnitCell

JOINT = 3.0
DOT = 203 * (sqrt(2) - 1) - 3


@dataclass(frozen=True, kw_only=True)
class Sample:
    """A pattern with goods that close."""

    pattern: str
    sizes: Mapping[str, Size]
    values: Mapping[str, Any] = field(default_factory=dict)

    def cell(self, joint: float = JOINT) -> UnitCell:
        return PATTERNS[self.pattern].cell(self.sizes, joint, self.values)

    def __str__(self) -> str:
        return " ".join([self.pattern, *(f"{key} {value}" for key, value in self.values.items())])


def one(pattern: str, length: float, width: float, **values: Any) -> Sample:
    return Sample(pattern=pattern, sizes={"": (length, width)}, values=values)


SAMPLES = (
    one("grid", 600.0, 300.0),
    one("brick bond", 600.0, 300.0),
    one("brick bond", 600.0, 300.0, fraction=Fraction(1, 3)),
    one("brick bond", 600.0, 300.0, fraction=Fraction(1, 4), shift="left"),
    one("brick bond", 600.0, 100.0, fraction=Fraction(2, 7), shift="to and fro"),
    one("herringbone", 450.0, 150.0),
    one("herringbone", 600.0, 90.0),
    one("double herringbone", 450.0, 75.0),
    Sample(pattern="chevron", sizes={"right-hand": (600.0, 90.0), "left-hand": (600.0, 90.0)}),
    Sample(pattern="chevron", sizes={"right-hand": (510.0, 70.0), "left-hand": (510.0, 70.0)}, values={"mitre": 60.0}),
    one("basketweave", 203.0, 100.0),
    one("basketweave", 306.0, 100.0, abreast=3),
    one("double basketweave", 203.0, 100.0),
    one("soldier courses", 203.0, 100.0),
    one("soldier courses", 306.0, 100.0, courses=3),
    one("hexagon", 200.0, 200.0),
    one("hexagon", 200.0, 200.0, way="flat up"),
    one("elongated hexagon", 300.0, 100.0),
    one("elongated hexagon", 300.0, 100.0, corner=120.0),
    one("triangle", 250.0, 250.0),
    one("rhombus", 200.0, 200.0),
    one("rhombus", 200.0, 200.0, corner=45.0),
    Sample(pattern="tumbling cubes", sizes=dict.fromkeys(("right", "top", "left"), (150.0, 150.0))),
    one("fish scale", 150.0, 150.0),
    one("mosaic sheets", 298.0, 298.0),
    Sample(pattern="octagon and dot", sizes={"octagon": (200.0, 200.0), "dot": (DOT, DOT)}),
    Sample(pattern="square and dot", sizes={"square": (300.0, 300.0), "dot": (60.0, 60.0)}),
    Sample(pattern="pinwheel", sizes={"large": (300.0, 300.0), "small": (150.0, 150.0)}),
    Sample(pattern="windmill", sizes={"sail": (300.0, 100.0), "dot": (197.0, 197.0)}),
    Sample(pattern="modular, two sizes", sizes={"large": (400.0, 300.0), "small": (150.0, 150.0)}),
    Sample(
        pattern="modular, three sizes", sizes={"large": (403.0, 403.0), "long": (403.0, 200.0), "small": (200.0, 200.0)}
    ),
    Sample(
        pattern="modular, four sizes",
        sizes={"largest": (606.0, 403.0), "large": (403.0, 403.0), "long": (403.0, 200.0), "small": (200.0, 200.0)},
    ),
    one("planks", 1200.0, 180.0),
    one("planks", 1200.0, 180.0, lengths=(600.0, 900.0, 1200.0), seed=3),
    one("setts in rows", 150.0, 100.0),
    Sample(pattern="random ashlar", sizes={"large": (403.0, 403.0), "long": (403.0, 200.0), "small": (200.0, 200.0)}),
)
