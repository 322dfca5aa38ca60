"""Patterns of rectangles and squares that turn by quarters: basketweave, windmill, pinwheel."""

import math

import numpy as np

from floorwright.geometry.region import Points
from floorwright.pattern.cell import Anchor, LineFamily, Size, Sized, UnitCell
from floorwright.pattern.shape import check_goods, rectangle

LARGE, SMALL = "large", "small"
"""What the two rectangles of a pinwheel are called."""


def basketweave(size: Size, joint: float, abreast: int = 2, long: int = 1) -> UnitCell:
    """Returns basketweave: square blocks of pieces side by side, turned by a quarter from each block to the next.

    A block is square only where so many lengths and their joints are as much as so many widths and theirs
    (L = k W + (k - 1) J for one length). Where they are not, it takes the greater of the two, and the joints of the
    other way are opened alike.

    Args:
        size: length and width of a piece, mm.
        joint: mm.
        abreast: pieces side by side in a block.
        long: pieces end to end in a block: 2 for double basketweave.
    """
    check_goods(size, joint)
    block = max(long * (size[0] + joint), abreast * (size[1] + joint))
    lying = [
        _centred(size, ((column + 0.5) * block / long, (row + 0.5) * block / abreast))
        for row in range(abreast)
        for column in range(long)
    ]
    standing = [np.roll(piece[:, ::-1][::-1], 1, axis=0) + np.array([block, 0.0]) for piece in lying]
    return UnitCell(
        name=("double " if long > 1 else "") + "basketweave" + (f", {abreast} abreast" if abreast != 2 * long else ""),
        a=np.array([block, block]),
        b=np.array([-block, block]),
        pieces=(*lying, *standing),
        joint=joint,
        size=size,
        lines=(
            LineFamily(name="rows", angle=0.0, offset=0.0, spacing=block),
            LineFamily(name="columns", angle=math.pi / 2, offset=0.0, spacing=block),
        ),
        anchors=(
            Anchor(name="corner of four blocks on centre", at=np.zeros(2)),
            Anchor(name="block on centre", at=np.array([block / 2, block / 2])),
            Anchor(name="joint between two blocks on centre", at=np.array([block, block / 2])),
        ),
    )


def _centred(size: Size, middle: tuple[float, float]) -> Points:
    return rectangle(size, (middle[0] - size[0] / 2, middle[1] - size[1] / 2))


def windmill(size: Size, dot: Size, joint: float) -> UnitCell:
    """Returns windmill: four rectangles round a square dot, a square block of them at every step.

    The dot is as long as a piece less a width and a joint; another one is laid in the middle of its place, with the
    joints round it what is left.

    Args:
        size: length and width of a piece, mm.
        dot: of the dot, mm.
        joint: mm.
    """
    check_goods(size, joint)
    check_goods(dot, joint)
    long, short = size[0] + joint, size[1] + joint
    block = long + short
    upright = (size[1], size[0])
    half = joint / 2
    return UnitCell(
        name="windmill",
        a=np.array([block, 0.0]),
        b=np.array([0.0, block]),
        pieces=(
            rectangle(size) + half,
            rectangle(upright, (long, 0.0)) + half,
            rectangle(size, (short, long)) + half,
            rectangle(upright, (0.0, short)) + half,
            _centred(dot, (block / 2, block / 2)),
        ),
        joint=joint,
        size=size,
        lines=(
            LineFamily(name="rows", angle=0.0, offset=0.0, spacing=block),
            LineFamily(name="columns", angle=math.pi / 2, offset=0.0, spacing=block),
        ),
        kinds=(*("sail",) * 4, "dot"),
        sizes=(Sized(name="sail", size=size), Sized(name="dot", size=dot)),
        anchors=(
            Anchor(name="dot on centre", at=np.array([block / 2, block / 2])),
            Anchor(name="corner of four blocks on centre", at=np.zeros(2)),
        ),
    )


def windmill_dot(size: Size, joint: float) -> float:
    """Returns the side of the dot that fits between four pieces, mm."""
    return size[0] - size[1] - joint


def two_rectangles(size: Size, other: Size, joint: float, *, name: str) -> UnitCell:
    """Returns the pattern of two rectangles in which each row of the one steps up by the other's width.

    With two squares it is pinwheel; it closes with any two sizes, and no joint runs farther than both together.

    Args:
        size: of the larger piece, mm.
        other: of the smaller one, at its lower right.
        joint: mm.
        name: of the pattern.
    """
    check_goods(size, joint)
    check_goods(other, joint)
    wide, high = size[0] + joint, size[1] + joint
    small_wide, small_high = other[0] + joint, other[1] + joint
    a, b = np.array([wide, small_high]), np.array([-small_wide, high])
    half = joint / 2
    return UnitCell(
        name=name,
        a=a,
        b=b,
        pieces=(rectangle(size) + half, rectangle(other, (wide, 0.0)) + half),
        joint=joint,
        size=size,
        lines=_through(a, b, LARGE),
        kinds=(LARGE, SMALL),
        sizes=(Sized(name=LARGE, size=size), Sized(name=SMALL, size=other)),
        anchors=(
            Anchor(name=f"corner of the {LARGE} on centre", at=np.zeros(2)),
            Anchor(name=f"{LARGE} on centre", at=np.array([wide / 2, high / 2])),
            Anchor(name=f"{SMALL} on centre", at=np.array([wide + small_wide / 2, small_high / 2])),
        ),
    )


def _through(a: Points, b: Points, kind: str) -> tuple[LineFamily, LineFamily]:
    """Returns the lines through the lower left corners of the larger pieces, both ways."""
    area = abs(float(a[0] * b[1] - a[1] * b[0]))
    return (
        LineFamily(
            name=f"{kind} rows",
            angle=math.atan2(a[1], a[0]) % math.pi,
            offset=0.0,
            spacing=area / math.hypot(*a),
            through=False,
            joint=False,
        ),
        LineFamily(
            name=f"{kind} columns",
            angle=math.atan2(b[1], b[0]) % math.pi,
            offset=0.0,
            spacing=area / math.hypot(*b),
            through=False,
            joint=False,
        ),
    )
