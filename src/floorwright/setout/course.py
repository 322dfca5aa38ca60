"""A course: what lies along one straight line across the floor, wall to wall, so that it can be printed and add up."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of a course: `gap`, `cut`, `tile` or `joint`, its length in mm, and the piece's id (empty for gap and joint)."""

    kind: str
    length: float
    piece: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """One course.

    Attributes:
        name: `row 3`, ...
        walls: names of the walls it runs between.
        length: mm wall to wall.
        parts: in order, adding up to `length`.
    """

    name: str
    walls: tuple[str, str]
    length: float
    parts: tuple[Part, ...]
