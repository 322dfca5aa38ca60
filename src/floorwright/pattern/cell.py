"""The unit cell: what every pattern that repeats comes down to."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from floorwright.geometry.region import Points
from floorwright.geometry.restore import Outline

Size: TypeAlias = tuple[float, float]
"""Length (along the pattern's x) and width of one piece at work size, mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LineFamily:
    """Parallel working lines of a pattern: down the middle of joints or, where the name says so, on corners of pieces.

    Line n passes through `offset + n * spacing` measured square to the lines.

    Attributes:
        name: trade word: `rows` or `columns` (grid), `courses` and `perps` (bond), `axes` (herringbone).
        angle: direction of the lines in the pattern's own frame, radians, in [0, pi).
        offset: mm from the pattern's origin to line 0, along the normal (angle + 90 degrees).
        spacing: mm.
        through: whether the joint runs through the floor unbroken (a bond's perps do not).
        joint: whether the line is the middle of joints at all; else it runs on corners, points or middles of pieces.
    """

    name: str
    angle: float
    offset: float
    spacing: float
    through: bool = True
    joint: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Sized:
    """The goods of one kind of piece.

    Attributes:
        name: of the kind, `octagon`; empty where a pattern has only one.
        size: mm.
        measured: what the length is of a piece that is no rectangle, `across the flats`; empty for a rectangle, which
            has a length and a width.
    """

    name: str
    size: Size
    measured: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Anchor:
    """A point of the pattern that a setter brings on to the centre.

    Attributes:
        name: of the position that makes: `joint on centre`, `dot on centre`, `axis on centre, at a corner`.
        at: (2,) mm, pattern frame.
    """

    name: str
    at: Points


@dataclass(frozen=True, slots=True, kw_only=True)
class RowRules:
    """What rows laid at random are to keep on the floor.

    Attributes:
        pitch: mm from row to row.
        stagger: mm between joints of neighbouring rows at least; half of it two rows off.
        end_least: mm, the shortest piece at the end of a row that is no fault; 0 for none.
        stagger_is_own, end_is_own: whether the person has said so.
    """

    pitch: float
    stagger: float
    end_least: float = 0.0
    stagger_is_own: bool = False
    end_is_own: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class UnitCell:
    """A repeat of the pattern.

    Frame: the pattern's own, mm. Its origin is a crossing of joint centre lines, so that the lower left corner of a
    first piece that is a rectangle lies at (joint/2, joint/2). Piece k of repeat (i, j) is `pieces[k] + i*a + j*b`.

    Attributes:
        name: trade word, such as `grid` or `brick bond, half`.
        a, b: repeat vectors, (2,) mm.
        pieces: outlines at work size, each (m, 2) mm, anticlockwise.
        joint: joint width, mm.
        size: length (along the pattern's x) and width of the goods, mm; of several goods of the main ones.
        lines: working lines, the ones that run through first.
        kinds: of each piece, the name of its kind; empty where all are of one.
        sizes: of each kind; empty where `size` says it all.
        anchors: points to bring on to the centre; where empty a crossing of joints, and a tile.
        outlines: of each piece that has arcs, its outline with them, for which its straight edges stand; None for one
            that has none. Empty where none has.
        rows: the rules of rows laid at random; None of any other pattern.
    """

    name: str
    a: Points
    b: Points
    pieces: tuple[Points, ...]
    joint: float
    size: tuple[float, float]
    lines: tuple[LineFamily, ...]
    kinds: tuple[str, ...] = ()
    sizes: tuple[Sized, ...] = ()
    anchors: tuple[Anchor, ...] = ()
    outlines: tuple[Outline | None, ...] = ()
    rows: RowRules | None = None

    def kind(self, k: int) -> str:
        """Returns the name of piece k's kind, empty where all are of one."""
        return self.kinds[k] if self.kinds else ""

    def renamed(self, names: Mapping[str, str]) -> "UnitCell":
        """Returns the pattern with some of its kinds called otherwise."""
        return replace(
            self,
            kinds=tuple(names.get(kind, kind) for kind in self.kinds),
            sizes=tuple(replace(one, name=names.get(one.name, one.name)) for one in self.sizes),
        )

    @property
    def goods(self) -> tuple[Sized, ...]:
        """Every kind of piece with its size, at least one."""
        return self.sizes or (Sized(name="", size=self.size),)

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
