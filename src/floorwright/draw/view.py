"""Primitives in floor coordinates, and the view that is the only bridge from floor mm to paper mm."""

from dataclasses import dataclass
from typing import Final

from floorwright.draw.style import Pen, Size, Tone

Point = tuple[float, float]
Affine = tuple[float, float, float, float, float, float]
"""(a, b, c, d, e, f): x, y goes to a x + c y + e, b x + d y + f."""

CHECK_BAR: Final = 10.0
"""mm on paper that the check bar and its words take under a view."""
CHECK_BAR_LENGTH: Final = {False: 100.0, True: 101.6}
"""mm on paper; for imperial, 4 in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A polyline. points: floor mm; bulges: of the side that starts at each, 0 for a straight one (see
    `geometry.arc`), or none where all are straight."""

    points: tuple[Point, ...]
    pen: Pen
    closed: bool = False
    bulges: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A circular arc, anticlockwise from angle `start` to `end` (radians). centre, radius: floor mm."""

    centre: Point
    radius: float
    start: float
    end: float
    pen: Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """A filled area. rings: outline then holes, floor mm; bulges: for each ring as for a `Line`, or none."""

    rings: tuple[tuple[Point, ...], ...]
    tone: Tone
    bulges: tuple[tuple[float, ...], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A text at a floor point, at a size on paper.

    Attributes:
        at: floor mm.
        text: as printed.
        size: on paper.
        anchor: where `at` is in the text: `middle`, `start` or `end`; always centred upright on its capitals.
        angle: radians on the floor, so that it turns with the view; the export turns it by half a turn about `at` when
            it would read upside down.
        shift: mm on paper from `at`, along the text and to its left as `angle` gives them.
        halo: a border of paper colour behind it, so that lines do not run through it.
    """

    at: Point
    text: str
    size: Size = Size.TEXT
    anchor: str = "middle"
    angle: float = 0.0
    shift: Point = (0.0, 0.0)
    halo: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A linear dimension between two floor points, ISO 129-1: figure above the line, read from the bottom or the right.

    Attributes:
        start, end: floor mm.
        offset: mm on paper, to the left of start -> end.
        text: as printed; the exports never measure for themselves.
        size: of the figure.
    """

    start: Point
    end: Point
    offset: float
    text: str
    size: Size = Size.TEXT


@dataclass(frozen=True, slots=True, kw_only=True)
class Running:
    """Running dimensions from one zero along a straight line, ISO 129-1: a small circle at the zero, a tick and a
    figure at each mark, the figures square to the line. Figures that would touch are spread, each led to its tick;
    where there is no room for that, every other one is left out, never its tick: a table gives them all.

    Attributes:
        zero: floor mm.
        marks: ((x, y) floor mm, figure as printed), in order from the zero.
        offset: mm on paper, to the left of the direction from the zero to the last mark.
    """

    zero: Point
    marks: tuple[tuple[Point, str], ...]
    offset: float
    size: Size = Size.FIGURE


@dataclass(frozen=True, slots=True, kw_only=True)
class Cross:
    """A point that people mark: a small cross, with a letter outside the work.

    Attributes:
        at: floor mm.
        label: one letter or a few.
        away: unit direction on the floor from the cross to the letter.
    """

    at: Point
    label: str
    away: Point = (0.7071, 0.7071)
    size: Size = Size.TEXT


Item = Line | Curve | Fill | Text | Dimension | Running | Cross


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A piece of the floor drawn to scale.

    Attributes:
        name: for file names and for the picture's spoken name.
        described: one sentence for a reader who cannot see it.
        scale: 20 for 1:20.
        window: (x least, y least, x most, y most) floor mm that lies on the paper.
        items: drawn in order.
        turn: quarter turns anticlockwise of the floor on the paper.
        check_bar: whether a bar to check the print by stands under it (100 mm or 4 in).
        aside: items that belong to the paper and not to the floor (an upright check bar): drawn last on paper, and not
            in a drawing in floor units.
        is_to_scale: False for a sketch, whose scale nobody is told.
    """

    name: str
    described: str
    scale: float
    window: tuple[float, float, float, float]
    items: tuple[Item, ...]
    turn: int = 0
    check_bar: bool = True
    aside: tuple[Item, ...] = ()
    is_to_scale: bool = True

    @property
    def width(self) -> float:
        """mm on paper."""
        least_x, least_y, most_x, most_y = self.window
        return (most_y - least_y if self.turn % 2 else most_x - least_x) / self.scale

    @property
    def height(self) -> float:
        """mm on paper."""
        least_x, least_y, most_x, most_y = self.window
        return (most_x - least_x if self.turn % 2 else most_y - least_y) / self.scale

    @property
    def affine(self) -> Affine:
        """From floor mm to paper mm, x right and y up from the lower left corner of the window on the paper."""
        cos, sin = ((1, 0), (0, 1), (-1, 0), (0, -1))[self.turn % 4]
        least_x, least_y, most_x, most_y = self.window
        a, b = cos / self.scale, sin / self.scale
        corners = ((least_x, least_y), (most_x, most_y))
        return (
            a,
            b,
            -b,
            a,
            -min(a * x - b * y for x, y in corners),
            -min(b * x + a * y for x, y in corners),
        )

    def on_paper(self, point: Point) -> Point:
        """Returns where a floor point lies on the paper, in the frame of `affine`."""
        a, b, c, d, e, f = self.affine
        return a * point[0] + c * point[1] + e, b * point[0] + d * point[1] + f

    def on_floor(self, point: Point) -> Point:
        """Returns the floor point that lies at a point of the paper: the inverse of `on_paper`."""
        a, b, c, d, e, f = self.affine
        x, y, size = point[0] - e, point[1] - f, a * d - b * c
        return (d * x - c * y) / size, (a * y - b * x) / size

    def picture_size(self, imperial: bool = False) -> Point:
        """Returns (width, height) in mm on paper with the check bar, if it has one."""
        if not self.check_bar:
            return self.width, self.height
        return max(self.width, CHECK_BAR_LENGTH[imperial] + 1.0), self.height + CHECK_BAR
