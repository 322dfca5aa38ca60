"""The snap list: every line of the pattern in order, from one nail."""

from dataclasses import dataclass

from floorwright.control.control import Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class SnapLine:
    """A line to snap.

    Attributes:
        name: `rows 1`, `columns 7`, `first line`, `45 left`.
        family: name of its family, or `control`.
        running: mm from the zero, measured square to the line (for a control line: of the centre along the first line).
        angle: radians from x.
        marks: where it meets the walls, both ends (more where the room is not convex: the outermost two).
        through: whether a joint runs down it unbroken.
    """

    name: str
    family: str
    running: float
    angle: float
    marks: tuple[Mark, ...]
    through: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class SnapList:
    """Attributes:
    zero: name of the corner with the nail that every running figure is measured from.
    lines: in the order in which they are snapped: control lines first.
    """

    zero: str
    lines: tuple[SnapLine, ...]
