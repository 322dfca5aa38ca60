"""The unit cell: what every pattern that repeats comes down to."""

from dataclasses import dataclass

import numpy as np

from floorwright.geometry.region import Points


@dataclass(frozen=True, slots=True, kw_only=True)
class LineFamily:
    """Parallel working lines of a pattern, each down the middle of a joint.

    Line n passes through `offset + n * spacing` measured square to the lines.

    Attributes:
        name: trade word: `rows` or `columns` (grid), `courses` and `perps` (bond).
        angle: direction of the lines in the pattern's own frame, radians, in [0, pi).
        offset: mm from the pattern's origin to line 0, along the normal (angle + 90 degrees).
        spacing: mm.
        through: whether the joint runs through the floor unbroken (a bond's perps do not).
    """

    name: str
    angle: float
    offset: float
    spacing: float
    through: bool = True


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class UnitCell:
    """A repeat of the pattern.

    Frame: the pattern's own, mm. Its origin is a crossing of joint centre lines, so that the first piece's lower
    left corner lies at (joint/2, joint/2). Piece k of repeat (i, j) is `pieces[k] + i*a + j*b`.

    Attributes:
        name: trade word, such as `grid` or `brick bond, half`.
        a, b: repeat vectors, (2,) mm.
        pieces: outlines at work size, each (m, 2) mm, anticlockwise.
        joint: joint width, mm.
        size: length (along the pattern's x) and width of the goods, mm.
        lines: working lines, the ones that run through first.
    """

    name: str
    a: Points
    b: Points
    pieces: tuple[Points, ...]
    joint: float
    size: tuple[float, float]
    lines: tuple[LineFamily, ...]

    @property
    def repeat(self) -> Points:
        """(2, 2): rows are a and b."""
        return np.array([self.a, self.b])


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """Where a pattern lies on the floor.

    A pattern-frame point p lies at `origin + R(angle) p` on the floor.

    Attributes:
        origin: floor mm.
        angle: radians from the floor's x to the pattern's x.
    """

    origin: tuple[float, float]
    angle: float
