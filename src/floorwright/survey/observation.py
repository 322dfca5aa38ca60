"""What was read or taken as true on site, each with its a-priori accuracy. All lengths mm, all angles radians."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """A tape or laser distance between two points.

    Attributes:
        key: how the person calls it and where it is written: `SW-NE` (`SW-NE/2` for a repeat).
        a, b: point names.
        measured: mm.
        sd: a-priori standard deviation, mm.
    """

    key: str
    a: str
    b: str
    measured: float
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Square:
    """A corner taken as square: the angle at `at` from `a` to `b` is a right angle.

    Attributes:
        key: `square B`.
        at, a, b: point names; turning anticlockwise from the ray to `a` to the ray to `b` (the angle may be 90 or 270).
        sd: a-priori standard deviation of the angle, radians.
    """

    key: str
    at: str
    a: str
    b: str
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Straight:
    """A point taken to lie on the line through two others.

    Attributes:
        key: `straight A-P-B`.
        a, b: ends of the line.
        at: the point on it.
        sd: how far it may lie off the line, mm, one standard deviation.
    """

    key: str
    a: str
    at: str
    b: str
    sd: float


Observation = Distance | Square | Straight
