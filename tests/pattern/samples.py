"""One good sample of every pattern in the catalogue: sizes that close with a joint of 3, and its parameters."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from floorwright.pattern.catalogue import PATTERNS
from floorwright.pattern.cell import Size, UnitCell
from floorwright.pattern.shown import DOT, JOINT, SHOWN

__all__ = ["DOT", "JOINT", "SAMPLES", "Sample"]


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
    *(Sample(pattern=shown.pattern, sizes=shown.sizes) for shown in SHOWN),
    one("brick bond", 600.0, 300.0, fraction=Fraction(1, 3)),
    one("brick bond", 600.0, 300.0, fraction=Fraction(1, 4), shift="left"),
    one("brick bond", 600.0, 100.0, fraction=Fraction(2, 7), shift="to and fro"),
    one("herringbone", 600.0, 90.0),
    Sample(pattern="chevron", sizes={"right-hand": (510.0, 70.0), "left-hand": (510.0, 70.0)}, values={"mitre": 60.0}),
    one("basketweave", 306.0, 100.0, abreast=3),
    one("soldier courses", 306.0, 100.0, courses=3),
    one("hexagon", 200.0, 200.0, way="flat up"),
    one("elongated hexagon", 300.0, 100.0, corner=120.0),
    one("rhombus", 200.0, 200.0, corner=45.0),
    one("planks", 1200.0, 180.0, lengths=(600.0, 900.0, 1200.0), seed=3),
)
