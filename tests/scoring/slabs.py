"""Slabs for the tests of scoring. Not of any real place."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from floorwright.geometry.region import Points, Region
from floorwright.pattern.cell import UnitCell
from floorwright.pattern.rows import grid
from floorwright.scoring.design import Circle, Design, Frame, Limits, OldJoint, Saw
from floorwright.scoring.scored import Scored, score

INCH = 25.4
LIMITS = Limits(step=INCH, border_least=6 * INCH, border_most=36 * INCH, size_least=12 * INCH)
GRINDER = Saw(name="grinder", blade=4.5 * INCH, depth=INCH / 4, width=INCH / 8)


def region(points: Sequence[tuple[float, float]], *, turn: float = 0.0, shift: tuple[float, float] = (0, 0)) -> Region:
    """A floor by its corners in inches, turned and then shifted (mm)."""
    ring = turned(np.array(points, dtype=float) * INCH, turn) + np.array(shift)
    return Region(rings=(ring,), edges=(tuple(f"e{n}" for n in range(len(ring))),))


def turned(points: Points, turn: float) -> Points:
    cos, sin = np.cos(turn), np.sin(turn)
    return np.asarray(points @ np.array([[cos, sin], [-sin, cos]]))


PATIO = ((0, 0), (288, 0), (288, 216), (0, 216))
JOINTS = (((96, 0), (96, 216)), ((192, 0), (192, 216)), ((0, 108), (288, 108)))


def joint(name: str, ends: Sequence[tuple[float, float]], **more: Any) -> OldJoint:
    """A joint by its ends in inches."""
    (a, b), (c, d) = ends
    return OldJoint(name=name, ends=((a * INCH, b * INCH), (c * INCH, d * INCH)), **more)


def design(cell: UnitCell | None = None, **more: Any) -> Design:
    """The patio's: 24 in squares, borders of 24 in and 12 in."""
    given: dict[str, Any] = {
        "name": "patio",
        "cell": cell or grid((24 * INCH, 24 * INCH), 0.0),
        "angle": 0.0,
        "ends": 24 * INCH,
        "sides": 12 * INCH,
        "saw": GRINDER,
        "limits": LIMITS,
        **more,
    }
    return Design(**given)


def patio(
    turn: float = 0.0,
    shift: tuple[float, float] = (0.0, 0.0),
    discs: Sequence[tuple[tuple[float, float], float]] = (),
    disc_colours: tuple[str, ...] = (),
    **more: Any,
) -> Scored:
    """The patio scored, wherever it lies."""

    def place(x: float, y: float) -> tuple[float, float]:
        u, v = turned(np.array([x, y]) * INCH, turn) + np.array(shift)
        return float(u), float(v)

    joints = tuple(
        OldJoint(name=str(number), ends=(place(*start), place(*end))) for number, (start, end) in enumerate(JOINTS)
    )
    circles = tuple(Circle(centre=place(*at), radius=radius * INCH, colours=disc_colours) for at, radius in discs)
    return score(
        design=design(circles=circles, **more),
        floor=region(PATIO, turn=turn, shift=shift),
        frame=Frame(origin=place(144, 108), angle=turn),
        joints=joints,
        nail=("A", place(0, 0)),
    )
