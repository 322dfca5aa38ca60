"""Patterns of hexagons, octagons, triangles and rhombuses, and fish scale."""

import math
from dataclasses import replace
from typing import Final

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.region import Points
from floorwright.geometry.restore import Outline
from floorwright.pattern.cell import Anchor, LineFamily, Size, Sized, UnitCell
from floorwright.pattern.shape import check_goods, rectangle, regular, ring, set_in, turned

FLATS: Final = "across the flats"
SIDE: Final = "along its side"
SQUARE: Final = math.pi / 2
WAYS: Final = ("point up", "flat up")

SCALE: Final = 0.2
"""mm that the straight sides of a scale may stray from its curve."""


def hexagon(across: float, joint: float, way: str = "point up") -> UnitCell:
    """Returns hexagons, each row moved by half a hexagon.

    Args:
        across: the flats of a piece, mm.
        joint: mm.
        way: `point up` (flats to the sides) or `flat up`.
    """
    check_goods((across, across), joint)
    pitch = across + joint
    side = pitch / math.sqrt(3.0)
    row = side * 1.5
    turn = 0.0 if way == "point up" else -SQUARE
    # The lower end of the flat on its left is the origin: a meeting of three joints.
    middle = np.array([pitch / 2, side / 2])
    piece = set_in(regular(6, side, SQUARE) + middle, joint / 2)
    lines = (
        _across(LineFamily(name="rows", angle=0.0, offset=side / 2, spacing=row, through=False, joint=False), turn),
        _across(LineFamily(name="flats", angle=SQUARE, offset=0.0, spacing=pitch / 2, through=False), turn),
    )
    return UnitCell(
        name=f"hexagon, {way}",
        a=turned(np.array([pitch, 0.0]), turn),
        b=turned(np.array([pitch / 2, row]), turn),
        pieces=(turned(piece, turn),),
        joint=joint,
        size=(across, across),
        lines=lines,
        sizes=(Sized(name="", size=(across, across), measured=FLATS),),
        anchors=(
            Anchor(name="tile on centre", at=turned(middle, turn)),
            Anchor(name="meeting of three on centre", at=np.zeros(2)),
            Anchor(name="joint on centre", at=turned(np.array([0.0, side / 2]), turn)),
        ),
    )


def _across(lines: LineFamily, turn: float) -> LineFamily:
    """Returns a family turned by nothing, or by a quarter to the right, with its angle in [0, pi)."""
    angle = lines.angle + turn
    if angle < 0:
        return replace(lines, angle=angle + math.pi, offset=-lines.offset)
    return replace(lines, angle=angle)


def long_hexagon(size: Size, joint: float, corner: float = 90.0) -> UnitCell:
    """Returns elongated hexagons, lying along x, their points between those of the next two.

    Args:
        size: mm: length from point to point, and width between the long sides.
        joint: mm.
        corner: degrees of the angle at a point.

    Raises:
        FloorwrightValueError: if the two points are longer than the piece.
    """
    check_goods(size, joint)
    half = math.radians(corner) / 2
    wide = size[1] + joint
    tip = wide / 2 / math.tan(half)
    body = size[0] + joint / math.sin(half) - 2 * tip
    if body <= 0:
        raise FloorwrightValueError(f"points of {corner:g} degrees leave nothing between them of a {size[0]:g} length")
    outline = ring(
        [(tip, 0.0), (tip + body, 0.0), (2 * tip + body, wide / 2), (tip + body, wide), (tip, wide), (0.0, wide / 2)]
    )
    outline -= (tip, 0.0)
    step = body + tip
    return UnitCell(
        name="elongated hexagon",
        a=np.array([step, wide / 2]),
        b=np.array([0.0, wide]),
        pieces=(set_in(outline, joint / 2),),
        joint=joint,
        size=size,
        lines=(
            LineFamily(name="rows", angle=0.0, offset=0.0, spacing=wide / 2, through=False),
            LineFamily(name="shoulders", angle=SQUARE, offset=0.0, spacing=step, through=False, joint=False),
        ),
        anchors=(
            Anchor(name="tile on centre", at=np.array([body / 2, wide / 2])),
            Anchor(name="long joint on centre", at=np.array([body / 2, 0.0])),
            Anchor(name="meeting of three on centre", at=np.zeros(2)),
        ),
    )


def octagon_and_dot(size: Size, dot: Size, joint: float) -> UnitCell:
    """Returns regular octagons with a square dot between every four.

    The dot that fits is 0.4142 of the octagon and its joint, less a joint; another one is laid in the middle of its
    place, with the joints round it what is left.

    Args:
        size: of an octagon, mm: its length is that across the flats.
        dot: its side, mm.
        joint: mm.
    """
    across = size[0]
    check_goods((across, across), joint)
    check_goods(dot, joint)
    pitch = across + joint
    cut = pitch * (1 - math.sqrt(0.5))
    return _clipped_squares("octagon and dot", across, dot, joint, cut, ("octagon", FLATS))


def octagon_dot(across: float, joint: float) -> float:
    """Returns the side of the dot that fits between four regular octagons, mm."""
    return (across + joint) * (math.sqrt(2.0) - 1) - joint


def square_and_dot(size: Size, dot: Size, joint: float) -> UnitCell:
    """Returns square tiles with their corners clipped for a small square dot that stands on its point between them.

    Args:
        size: of a tile, mm: its length is taken both ways.
        dot: its side, mm.
        joint: mm.

    Raises:
        FloorwrightValueError: if the dot is so large that the clipped corners meet.
    """
    check_goods(size, joint)
    check_goods(dot, joint)
    cut = (dot[0] + joint) * math.sqrt(0.5)
    if 2 * cut >= size[0] + joint:
        raise FloorwrightValueError(f"a dot of {dot[0]:g} leaves no side of a square of {size[0]:g}")
    return _clipped_squares("square and dot", size[0], dot, joint, cut, ("square", ""))


def clipped_leg(dot: float, joint: float) -> float:
    """Returns how much of each side of a square is taken off at a corner for a dot, mm."""
    return (dot + joint) * math.sqrt(0.5) + joint * (math.sqrt(0.5) - 1)


def _clipped_squares(name: str, across: float, dot: Size, joint: float, cut: float, main: tuple[str, str]) -> UnitCell:
    pitch = across + joint
    far = pitch - cut
    outline = ring(
        [(cut, 0.0), (far, 0.0), (pitch, cut), (pitch, far), (far, pitch), (cut, pitch), (0.0, far), (0.0, cut)]
    )
    standing = turned(rectangle((dot[0], dot[0]), (-dot[0] / 2, -dot[0] / 2)), math.pi / 4)
    kind, measured = main
    return UnitCell(
        name=name,
        a=np.array([pitch, 0.0]),
        b=np.array([0.0, pitch]),
        pieces=(set_in(outline, joint / 2), standing),
        joint=joint,
        size=(across, across),
        lines=(
            LineFamily(name="rows", angle=0.0, offset=0.0, spacing=pitch, through=False),
            LineFamily(name="columns", angle=SQUARE, offset=0.0, spacing=pitch, through=False),
        ),
        kinds=(kind, "dot"),
        sizes=(
            Sized(name=kind, size=(across, across), measured=measured),
            Sized(name="dot", size=(dot[0], dot[0])),
        ),
        anchors=(
            Anchor(name="dot on centre", at=np.zeros(2)),
            Anchor(name=f"{kind} on centre", at=np.array([pitch / 2, pitch / 2])),
            Anchor(name="joint on centre", at=np.array([0.0, pitch / 2])),
        ),
    )


def triangle(side: float, joint: float) -> UnitCell:
    """Returns triangles of three equal sides, points up and down by turns, joints running through three ways.

    Args:
        side: of a piece, mm.
        joint: mm.
    """
    check_goods((side, side), joint)
    pitch = side + math.sqrt(3.0) * joint
    height = pitch * math.sqrt(0.75)
    up = ring([(0.0, 0.0), (pitch, 0.0), (pitch / 2, height)])
    down = ring([(pitch, 0.0), (1.5 * pitch, height), (pitch / 2, height)])
    return UnitCell(
        name="triangle",
        a=np.array([pitch, 0.0]),
        b=np.array([pitch / 2, height]),
        pieces=(set_in(up, joint / 2), set_in(down, joint / 2)),
        joint=joint,
        size=(side, side * math.sqrt(0.75)),
        lines=tuple(
            LineFamily(name=name, angle=angle, offset=0.0, spacing=height)
            for name, angle in (("rows", 0.0), ("right slants", math.pi / 3), ("left slants", 2 * math.pi / 3))
        ),
        sizes=(Sized(name="", size=(side, side), measured=SIDE),),
        anchors=(
            Anchor(name="meeting of six on centre", at=np.zeros(2)),
            Anchor(name="tile on centre", at=np.array([pitch / 2, height / 3])),
        ),
    )


def rhombus(side: float, joint: float, corner: float = 60.0) -> UnitCell:
    """Returns rhombuses in rows, all the same way.

    Args:
        side: of a piece, mm.
        joint: mm.
        corner: degrees of its sharp angle.
    """
    check_goods((side, side), joint)
    sharp = math.radians(corner)
    high = side * math.sin(sharp) + joint
    pitch = high / math.sin(sharp)
    slant = np.array([pitch * math.cos(sharp), high])
    base = np.array([pitch, 0.0])
    outline = np.array([np.zeros(2), base, base + slant, slant])
    return UnitCell(
        name=f"rhombus, {corner:g}°",
        a=np.array([pitch, 0.0]),
        b=slant,
        pieces=(set_in(outline, joint / 2),),
        joint=joint,
        size=(side, side * math.sin(sharp)),
        lines=(
            LineFamily(name="rows", angle=0.0, offset=0.0, spacing=high),
            LineFamily(name="slants", angle=sharp, offset=0.0, spacing=high),
        ),
        sizes=(Sized(name="", size=(side, side), measured=SIDE),),
        anchors=(
            Anchor(name="meeting of four on centre", at=np.zeros(2)),
            Anchor(name="tile on centre", at=outline.mean(axis=0)),
        ),
    )


def tumbling_cubes(side: float, joint: float) -> UnitCell:
    """Returns tumbling cubes: three rhombuses of 60 degrees round a point, in three shades a heap of cubes.

    Args:
        side: of a piece, mm.
        joint: mm.
    """
    check_goods((side, side), joint)
    pitch = side + joint / math.sin(math.pi / 3)
    spokes = [pitch * np.array([math.cos(angle), math.sin(angle)]) for angle in (-SQUARE, math.pi / 6, 5 * math.pi / 6)]
    rhombuses = [
        np.array([np.zeros(2), one, one + other, other])
        for one, other in zip(spokes, (*spokes[1:], spokes[0]), strict=True)
    ]
    wide = pitch * math.sqrt(3.0)
    return UnitCell(
        name="tumbling cubes",
        a=np.array([wide, 0.0]),
        b=np.array([wide / 2, 1.5 * pitch]),
        pieces=tuple(set_in(outline, joint / 2) for outline in rhombuses),
        joint=joint,
        size=(side, side * math.sqrt(0.75)),
        lines=(
            LineFamily(name="rows", angle=0.0, offset=0.0, spacing=1.5 * pitch, through=False, joint=False),
            LineFamily(name="edges", angle=SQUARE, offset=0.0, spacing=wide / 2, through=False),
        ),
        kinds=("right", "top", "left"),
        sizes=tuple(Sized(name=name, size=(side, side), measured=SIDE) for name in ("right", "top", "left")),
        anchors=(
            Anchor(name="middle of a cube on centre", at=np.zeros(2)),
            Anchor(name="meeting of six on centre", at=spokes[0]),
        ),
    )


def fish_scale(across: float, joint: float) -> UnitCell:
    """Returns fish scale: round tops, each row moved by half a scale and set in the hollows of the one below.

    The edges that stand for its arcs stray from them by `SCALE` at most.

    Args:
        across: a scale from side to side, mm.
        joint: mm.
    """
    check_goods((across, across), joint)
    pitch = across + joint
    radius, half = pitch / 2, joint / 2
    top, hollow = radius - half, radius + half
    if top**2 <= hollow**2 - radius**2:
        raise FloorwrightValueError(f"a joint of {joint:g} leaves nothing of a scale of {across:g}")
    # Where its own round meets the hollow about (radius, -radius): both circles cut the line through their centres.
    apart = radius * math.sqrt(2.0)
    along = (apart**2 + top**2 - hollow**2) / (2 * apart)
    off = math.acos(min(1.0, along / top)) - math.pi / 4
    tip = math.sqrt(hollow**2 - radius**2) - radius
    start = top * np.array([math.cos(off), math.sin(off)])
    first = math.atan2(start[1] + radius, -start[0] + radius)
    last = math.atan2(tip + radius, radius)
    hollowed = -math.tan((first - last) / 4)
    sharp = math.acos(1 - SCALE / hollow) * 2
    rounded = _arc((0.0, 0.0), top, off, math.pi - off, sharp)
    left = _arc((-radius, -radius), hollow, first, last, sharp)
    right = left[::-1] * (-1.0, 1.0)
    scale = Outline(
        points=np.array([start, start * (-1.0, 1.0), (0.0, tip)]) + radius,
        bulges=(math.tan((math.pi - 2 * off) / 4), hollowed, hollowed),
        names=(None, None, None),
    )
    return UnitCell(
        name="fish scale",
        a=np.array([pitch, 0.0]),
        b=np.array([radius, radius]),
        pieces=(np.concatenate([rounded[:-1], left[:-1], right[:-1]]) + radius,),
        joint=joint,
        size=(across, across),
        lines=(
            LineFamily(name="rows", angle=0.0, offset=0.0, spacing=radius, through=False, joint=False),
            LineFamily(name="points", angle=SQUARE, offset=0.0, spacing=radius, through=False, joint=False),
        ),
        sizes=(Sized(name="", size=(across, across), measured="from side to side"),),
        anchors=(
            Anchor(name="tile on centre", at=np.array([radius, radius])),
            Anchor(name="point on centre", at=np.array([radius, 0.0])),
        ),
        outlines=(scale,),
    )


def _arc(centre: tuple[float, float], radius: float, start: float, end: float, step: float) -> Points:
    """Returns points round an arc, both ends among them, at steps of an angle or a little less."""
    count = max(1, math.ceil(abs(end - start) / step))
    angles = np.linspace(start, end, count + 1)
    return radius * np.stack([np.cos(angles), np.sin(angles)], axis=1) + centre
