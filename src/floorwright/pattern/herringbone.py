"""Herringbone and chevron: patterns with a direction that must be agreed before anything is ordered."""

import math

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.pattern.cell import Anchor, LineFamily, Size, UnitCell
from floorwright.pattern.shape import check_goods, rectangle, ring, set_in

DIAGONAL = math.pi / 4


def herringbone(size: Size, joint: float, abreast: int = 1) -> UnitCell:
    """Returns herringbone, pieces along the pattern's x and y: square to a wall that runs along x.

    The end of every piece lies against the side of another, so the joints are at width whatever the proportion of
    length to width. The zigzag runs at 45 degrees; its axes and, either side of each, the lines that the leading
    corners of the pieces touch (a quarter of the zigzag's step off) are the working lines.

    Args:
        size: length and width of a piece, mm.
        joint: mm.
        abreast: pieces side by side in each arm: 1 single, 2 double herringbone.

    Raises:
        FloorwrightValueError: if the pieces side by side are wider than a piece is long.
    """
    check_goods(size, joint)
    long, short = size[0] + joint, size[1] + joint
    wide = abreast * short
    if wide > long:
        raise FloorwrightValueError(f"{abreast} pieces abreast are {wide - joint:g} wide, and one {size[0]:g} long")
    lying = [rectangle(size, (0.0, n * short)) + joint / 2 for n in range(abreast)]
    standing = [rectangle((size[1], size[0]), (long + n * short, wide - long)) + joint / 2 for n in range(abreast)]
    # Across the zigzag: square to its axes, which climb at 45 degrees, and towards the upper left.
    axis = -(long - wide / 2) * math.sqrt(0.5)
    lead, step = wide * math.sqrt(0.125), long * math.sqrt(2.0)
    point, side = np.array([long, wide]), np.array([long - wide / 2, 0.0])
    return UnitCell(
        name={1: "herringbone", 2: "double herringbone"}.get(abreast, f"herringbone, {abreast} abreast"),
        a=np.array([wide, wide]),
        b=np.array([-long, long]),
        pieces=(*lying, *standing),
        joint=joint,
        size=size,
        lines=(
            LineFamily(name="axes", angle=DIAGONAL, offset=axis, spacing=step, through=False, joint=False),
            LineFamily(
                name="left corners", angle=DIAGONAL, offset=axis + lead, spacing=step, through=False, joint=False
            ),
            LineFamily(
                name="right corners", angle=DIAGONAL, offset=axis - lead, spacing=step, through=False, joint=False
            ),
        ),
        anchors=(
            Anchor(name="zigzag axis on centre, at a corner", at=_on_axis(point, side)),
            Anchor(name="zigzag axis on centre, between corners", at=_on_axis(point + wide / 2, side)),
            Anchor(name="other zigzag axis on centre", at=_on_axis(point, side - np.array([0.0, long]))),
        ),
    )


def _on_axis(point: Points, axis: Points) -> Points:
    """Returns the foot of a point on the 45 degree line through another, both (2,) mm."""
    along = np.array([1.0, 1.0]) / math.sqrt(2.0)
    return np.asarray(axis + ((point - axis) @ along) * along)


def chevron(size: Size, joint: float, mitre: float = 45.0) -> UnitCell:
    """Returns chevron: columns of mitred pieces that climb to the right and to the left by turns.

    Args:
        size: mm: length of a piece along its long side, and its width square to that.
        joint: mm, at the sides and square across the mitres.
        mitre: degrees between a piece's long side and its mitred end, which lies along the columns.

    Raises:
        FloorwrightValueError: if the mitre is not between 0 and 90 degrees.
    """
    check_goods(size, joint)
    if not 0 < mitre < 90:
        raise FloorwrightValueError(f"a mitre is between 0 and 90 degrees, not {mitre:g}")
    cut = math.radians(mitre)
    column, rise = size[0] * math.sin(cut) + joint, (size[1] + joint) / math.sin(cut)
    climb = column / math.tan(cut)
    right = ring([(0.0, 0.0), (column, climb), (column, climb + rise), (0.0, rise)])
    left = ring([(column, climb), (2 * column, 0.0), (2 * column, rise), (column, climb + rise)])
    return UnitCell(
        name=f"chevron, mitred at {mitre:g}°",
        a=np.array([2 * column, 0.0]),
        b=np.array([0.0, rise]),
        pieces=(set_in(right, joint / 2), set_in(left, joint / 2)),
        joint=joint,
        size=size,
        lines=(
            LineFamily(name="columns", angle=math.pi / 2, offset=0.0, spacing=column),
            LineFamily(name="points", angle=0.0, offset=0.0, spacing=rise, through=False, joint=False),
        ),
        kinds=("right-hand", "left-hand"),
        anchors=(
            Anchor(name="points up on centre", at=np.array([column, climb])),
            Anchor(name="points down on centre", at=np.array([0.0, 0.0])),
            Anchor(name="middle of a column on centre", at=np.array([column / 2, climb / 2])),
        ),
    )
