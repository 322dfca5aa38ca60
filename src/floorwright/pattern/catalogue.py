"""The patterns that people ask for by name, each made at the real size and joint of the goods.

A new pattern is one function that returns a `UnitCell`, and its name in `BUILT_IN`.
"""

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Final, TypeAlias

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.pattern.cell import LineFamily, UnitCell

Size: TypeAlias = tuple[float, float]
"""Length (along the pattern's x) and width of one piece at work size, mm."""

Maker: TypeAlias = Callable[..., UnitCell]
"""Takes `size` and `joint`, then what the pattern itself needs, by name."""

PATTERNS: Final[dict[str, Maker]] = {}
"""Every pattern by the name that a job file calls it."""

FRACTION_WORDS: Final = {Fraction(1, 2): "half", Fraction(1, 3): "third", Fraction(1, 4): "quarter"}


def register(name: str, make: Maker) -> None:
    """Adds a pattern to the catalogue.

    Raises:
        FloorwrightValueError: if the name is taken.
    """
    if name in PATTERNS:
        raise FloorwrightValueError(f"there is a pattern called {name!r} already")
    PATTERNS[name] = make


def grid(size: Size, joint: float) -> UnitCell:
    """Returns a straight grid: rows and columns of joints, both running through.

    Args:
        size: length and width of a tile, mm.
        joint: mm, 0 for tiles that touch.
    """
    _check(size, joint)
    length, width = size[0] + joint, size[1] + joint
    return UnitCell(
        name="grid",
        a=np.array([length, 0.0]),
        b=np.array([0.0, width]),
        pieces=(_rectangle(size, joint),),
        joint=joint,
        size=size,
        lines=(
            LineFamily(name="rows", angle=0.0, offset=0.0, spacing=width),
            LineFamily(name="columns", angle=math.pi / 2, offset=0.0, spacing=length),
        ),
    )


def brick_bond(size: Size, joint: float, fraction: Fraction) -> UnitCell:
    """Returns a brick bond: courses that run through, each shifted on the one below by a fraction of length + joint.

    Every course shifts the same way, so the perps climb like a stair; at a half that is the plain half bond. Each perp
    line of the family is met by one course in `fraction.denominator`.

    Args:
        size: length and width of a piece, mm; the length lies along the courses.
        joint: mm, 0 for pieces that touch.
        fraction: of length + joint, between 0 and 1.

    Raises:
        FloorwrightValueError: if the fraction is not between 0 and 1; at 0 it would be a grid.
    """
    _check(size, joint)
    if not 0 < fraction < 1:
        raise FloorwrightValueError(f"a bond shifts by a fraction between 0 and 1, not by {fraction}")
    length, width = size[0] + joint, size[1] + joint
    return UnitCell(
        name=f"brick bond, {FRACTION_WORDS.get(fraction, str(fraction))}",
        a=np.array([length, 0.0]),
        b=np.array([length * fraction.numerator / fraction.denominator, width]),
        pieces=(_rectangle(size, joint),),
        joint=joint,
        size=size,
        lines=(
            LineFamily(name="courses", angle=0.0, offset=0.0, spacing=width),
            LineFamily(
                name="perps", angle=math.pi / 2, offset=0.0, spacing=length / fraction.denominator, through=False
            ),
        ),
    )


def _rectangle(size: Size, joint: float) -> Points:
    length, width = size
    return np.array([[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]]) + joint / 2


def _check(size: Size, joint: float) -> None:
    if not (min(size) > 0 and math.isfinite(max(size))):
        raise FloorwrightValueError(f"a piece needs a length and a width, not {size[0]:g} x {size[1]:g}")
    if not (joint >= 0 and math.isfinite(joint)):
        raise FloorwrightValueError(f"a joint cannot be {joint:g} wide")


BUILT_IN: Final[tuple[tuple[str, Maker], ...]] = (("grid", grid), ("brick bond", brick_bond))

for _name, _make in BUILT_IN:
    register(_name, _make)
