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


@dataclass(frozen=True, slots=True, kw_only=True)
class Angle:
    """An angle read with a laser or a protractor: at `at`, from `a` anticlockwise to `b`.

    Attributes:
        key: `angle B`.
        at, a, b: point names.
        measured: radians, over 0 and under 2 pi.
        sd: a-priori standard deviation, radians.
    """

    key: str
    at: str
    a: str
    b: str
    measured: float
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Offset:
    """How far a point lies square out from the line through two others.

    Attributes:
        key: `P off S`.
        a, b: ends of the line.
        at: the point.
        measured: mm to the left of the line from `a` to `b`; under 0 to its right.
        sd: a-priori standard deviation, mm.
    """

    key: str
    a: str
    at: str
    b: str
    measured: float
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Along:
    """How far along the line through two points another lies, to the foot of the square from it.

    Attributes:
        key: `P along S`.
        a, b: the zero of the line, and where it runs to.
        at: the point.
        measured: mm from `a`; under 0 behind it.
        sd: a-priori standard deviation, mm.
    """

    key: str
    a: str
    at: str
    b: str
    measured: float
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Coordinate:
    """One coordinate of a point, from a total station or off a drawing.

    Attributes:
        key: `P x`.
        point: its name.
        axis: 0 for x (east), 1 for y (north).
        measured: mm.
        sd: a-priori standard deviation, mm.
    """

    key: str
    point: str
    axis: int
    measured: float
    sd: float


Observation = Distance | Square | Straight | Angle | Offset | Along | Coordinate
