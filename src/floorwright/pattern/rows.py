"""Patterns in courses that run through: the grid, the bonds, and soldier courses among stretchers."""

import math
from fractions import Fraction
from typing import Final

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.pattern.cell import Anchor, LineFamily, Size, UnitCell
from floorwright.pattern.shape import check_goods, rectangle

FRACTION_WORDS: Final = {Fraction(1, 2): "half", Fraction(1, 3): "third", Fraction(1, 4): "quarter"}

SHIFTS: Final = ("right", "left", "to and fro")
"""Which way each course of a bond is shifted on the one below."""


def grid(size: Size, joint: float) -> UnitCell:
    """Returns a straight grid: rows and columns of joints, both running through.

    Args:
        size: length and width of a tile, mm.
        joint: mm, 0 for tiles that touch.
    """
    check_goods(size, joint)
    length, width = size[0] + joint, size[1] + joint
    return UnitCell(
        name="grid",
        a=np.array([length, 0.0]),
        b=np.array([0.0, width]),
        pieces=(rectangle(size) + joint / 2,),
        joint=joint,
        size=size,
        lines=(
            LineFamily(name="rows", angle=0.0, offset=0.0, spacing=width),
            LineFamily(name="columns", angle=math.pi / 2, offset=0.0, spacing=length),
        ),
    )


def brick_bond(size: Size, joint: float, fraction: Fraction, shift: str = "right") -> UnitCell:
    """Returns a brick bond: courses that run through, each shifted on the one below by a fraction of length + joint.

    Shifted the same way every time, the perps climb like a stair; at a half that is the plain half bond. Shifted to and
    fro, every second course lies alike. Each perp line of the family is met by one course in `fraction.denominator`, or
    by two in three or more where the shift goes to and fro.

    Args:
        size: length and width of a piece, mm; the length lies along the courses.
        joint: mm, 0 for pieces that touch.
        fraction: of length + joint, between 0 and 1.
        shift: `right` or `left`, seen up the courses, or `to and fro`.

    Raises:
        FloorwrightValueError: if the fraction is not between 0 and 1 (at 0 it would be a grid), or the shift is no word
            for one.
    """
    check_goods(size, joint)
    if not 0 < fraction < 1:
        raise FloorwrightValueError(f"a bond shifts by a fraction between 0 and 1, not by {fraction}")
    if shift not in SHIFTS:
        raise FloorwrightValueError(f"a bond is shifted {', '.join(SHIFTS)}, not {shift!r}")
    length, width = size[0] + joint, size[1] + joint
    step = length * fraction.numerator / fraction.denominator
    to_fro = shift == "to and fro" and fraction != Fraction(1, 2)
    to_left = shift == "left" and fraction != Fraction(1, 2)
    name = f"brick bond, {FRACTION_WORDS.get(fraction, str(fraction))}"
    b, pieces = np.array([-step if to_left else step, width]), [rectangle(size) + joint / 2]
    if to_fro:
        b = np.array([0.0, 2 * width])
        pieces.append(rectangle(size, (step, width)) + joint / 2)
    return UnitCell(
        name=name + (", to and fro" if to_fro else ", to the left" if to_left else ""),
        a=np.array([length, 0.0]),
        b=b,
        pieces=tuple(pieces),
        joint=joint,
        size=size,
        lines=(
            LineFamily(name="courses", angle=0.0, offset=0.0, spacing=width),
            LineFamily(
                name="perps", angle=math.pi / 2, offset=0.0, spacing=length / fraction.denominator, through=False
            ),
        ),
    )


def soldier_courses(size: Size, joint: float, courses: int = 2) -> UnitCell:
    """Returns courses of stretchers in half bond with a soldier course, pieces on end, after every so many.

    Where a stretcher is not as long as some soldiers side by side with their joints, the joints of the one that comes
    out shorter are opened alike, so that the perps meet again at every stretcher.

    Args:
        size: length and width of a piece, mm.
        joint: mm.
        courses: of stretchers between two soldier courses.
    """
    check_goods(size, joint)
    long, short = size[0] + joint, size[1] + joint
    abreast = soldiers(size, joint)
    wide = max(long, abreast * short)
    height = courses * short + long
    pieces = [
        rectangle(size, ((n % 2) * wide / 2 + (wide - size[0]) / 2, n * short + joint / 2)) for n in range(courses)
    ]
    pitch = wide / abreast
    pieces += [
        rectangle((size[1], size[0]), (n * pitch + (pitch - size[1]) / 2, courses * short + joint / 2))
        for n in range(abreast)
    ]
    return UnitCell(
        name=f"soldier course after {courses} of stretchers" if courses > 1 else "soldier and stretcher courses",
        a=np.array([wide, 0.0]),
        b=np.array([0.0, height]),
        pieces=tuple(pieces),
        joint=joint,
        size=size,
        lines=(
            LineFamily(name="soldier courses", angle=0.0, offset=0.0, spacing=height),
            *(
                LineFamily(name=f"stretcher courses {n}", angle=0.0, offset=n * short, spacing=height)
                for n in range(1, courses + 1)
            ),
            LineFamily(name="perps", angle=math.pi / 2, offset=0.0, spacing=wide / 2, through=False),
        ),
        anchors=(
            Anchor(name="joint on centre", at=np.zeros(2)),
            Anchor(name="tile on centre", at=np.array([wide / 2, short / 2])),
            Anchor(name="soldier course on centre", at=np.array([wide / 2, courses * short + long / 2])),
        ),
    )


def soldiers(size: Size, joint: float) -> int:
    """Returns how many pieces on end, side by side, come nearest to the length of one."""
    return max(1, round((size[0] + joint) / (size[1] + joint)))
