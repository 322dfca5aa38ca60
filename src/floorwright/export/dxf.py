"""The floor as DXF R2018, in floor units, for people who work on in a CAD program.

Real entities on named layers: what is measured there is the floor. Dimensions carry the figure as printed and a
picture of their own, so that they show it whatever the program that opens them would have measured or rounded.
"""

import io
import math
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from floorwright.draw.style import CAP_HEIGHT, Pen, Size, Tone
from floorwright.draw.view import Cross, Curve, Dimension, Fill, Item, Line, Point, Running, Text, View
from floorwright.errors import FloorwrightValueError
from floorwright.export import annotate
from floorwright.export.pens import FILLINGS, LIGHT, STROKES, Hatch
from floorwright.export.plain import plain

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts import BaseLayout

LAYERS: Final = {
    Pen.WALL: "WALLS", Pen.JOINT: "JOINTS", Pen.FACTORY: "FACTORY EDGES", Pen.SAWN: "SAWN EDGES",
    Pen.CONTROL: "CONTROL", Pen.ARC: "ARCS", Pen.DIMENSION: "DIMENSIONS", Pen.HIDDEN: "HIDDEN",
    Pen.READING: "READINGS", Pen.SUSPECT: "SUSPECTS", Pen.OPENING: "OPENINGS", Pen.OBSTACLE: "OBSTACLES",
    Pen.ZONE: "ZONES", Pen.MARK: "MARKS", Pen.RULE: "RULES", Pen.SCORE: "SCORE LINES", Pen.SLAB_JOINT: "SLAB JOINTS",
}  # fmt: skip
TEXT_LAYER: Final = "TEXT"
"""With the name of the view."""
HATCH_LAYERS: Final = {
    Tone.UNDER: "HATCH UNDER LIMIT",
    Tone.OBSTACLE: "HATCH OBSTACLES",
    Tone.BORDER: "HATCH BORDERS",
    Tone.INSET: "HATCH INSETS",
}
"""Other tones are left out: a plain fill would hide what lies on it on a dark ground, and edges say the same."""
STYLE: Final = "FLOORWRIGHT"
WEIGHTS: Final = (0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211)
"""Line weights that DXF knows, in hundredths of a mm."""
FURTHER: Final = 9.0
"""mm on paper that a dimension stands further out than in its view: other views write at the walls."""
SAME_PLACE: Final = 20.0
"""mm on paper: words alike that two views have nearer to each other than this name the same thing."""
MM, INCH = 4, 1
"""$INSUNITS."""


def floor_dxf(views: View | Sequence[View], *, imperial: bool = False) -> bytes:
    """Returns views of one floor, laid over each other, as a DXF file; the same bytes for the same views.

    What two views show alike is written once, as the finer of them has it. All text and the distance of dimension lines
    are sized for the finest scale; each view has its text on a layer of its own, so that one can be read at a time.
    Dimensions stand clear of what is written at the walls. Windows cut nothing off here.

    Args:
        views: of one floor, in its coordinates.
        imperial: the unit is the inch; else the millimetre.

    Raises:
        FloorwrightValueError: no view.
    """
    given = (views,) if isinstance(views, View) else tuple(views)
    if not given:
        raise FloorwrightValueError("no view to write as DXF")
    finest = min(view.scale for view in given)
    shown = [replace(view, scale=finest) for view in sorted(given, key=lambda view: view.scale)]
    with _fixed_metadata():
        document = _document(finest, imperial, dict.fromkeys(_text_layer(view) for view in shown))
        drawn: set[Item] = set()
        for view in shown:
            fresh = [item for item in view.items if item not in drawn and not _is_said(item, drawn, view)]
            drawn.update(fresh)
            _Writer(document, view, 1 / 25.4 if imperial else 1.0).write(fresh)
        stream = io.StringIO()
        document.write(stream)
    return stream.getvalue().encode("utf-8")


def _is_said(item: Item, drawn: Iterable[Item], view: View) -> bool:
    """Returns whether an earlier view has the same words, or as small a sign, at about the same place."""
    if isinstance(item, Text):
        near = [other.at for other in drawn if isinstance(other, Text) and other.text == item.text]
        return any(math.dist(item.at, at) < SAME_PLACE * view.scale for at in near)
    if isinstance(item, Line) and item.closed and item.pen is Pen.MARK:
        signs = [
            other.points[0] for other in drawn if isinstance(other, Line) and other.closed and other.pen is item.pen
        ]
        return any(math.dist(item.points[0], at) < SAME_PLACE * view.scale for at in signs)
    return False


@contextmanager
def _fixed_metadata() -> Iterator[None]:
    """Keeps the library from writing the clock and random identifiers into the file."""
    from ezdxf import options

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _text_layer(view: View) -> str:
    """Returns the name of the layer of a view's text, without the signs that DXF allows in no name."""
    return f"{TEXT_LAYER} {re.sub(r'[^A-Z0-9]+', ' ', view.name.upper()).strip()}".strip()


def _document(scale: float, imperial: bool, text_layers: Iterable[str]) -> "Drawing":
    """Returns an empty drawing with our units, layers, line types and dimension style."""
    import ezdxf

    unit = 1 / 25.4 if imperial else 1.0
    document = ezdxf.new("R2018", units=INCH if imperial else MM)
    document.header["$MEASUREMENT"] = 0 if imperial else 1
    document.header["$LUNITS"] = 4 if imperial else 2
    document.header["$LTSCALE"] = scale * unit
    document.styles.add(STYLE, font="arial.ttf")
    for pen, name in LAYERS.items():
        stroke = STROKES[pen]
        layer = document.layers.add(name, lineweight=_weight(stroke.width))
        _colour(layer, stroke.ink)
        if stroke.dashes:
            layer.dxf.linetype = name
            document.linetypes.add(name, [sum(stroke.dashes), *_signed(stroke.dashes)], description=f"{pen} line")
    for layer_name in text_layers:
        document.layers.add(layer_name, color=7)
    for tone, name in HATCH_LAYERS.items():
        _colour(document.layers.add(name), _hatch(tone).ink)
    height = CAP_HEIGHT[Size.TEXT] * scale * unit
    document.dimstyles.add(
        STYLE,
        dxfattribs={
            "dimtxsty": STYLE, "dimtxt": height, "dimasz": height, "dimtsz": height / 2, "dimgap": height / 3,
            "dimexo": annotate.CLEAR * scale * unit, "dimexe": annotate.OVERRUN * scale * unit, "dimscale": 1.0,
            "dimlfac": 1.0, "dimdec": 4 if imperial else 1, "dimzin": 0 if imperial else 8,
            "dimlunit": 4 if imperial else 2, "dimtad": 1, "dimtih": 0, "dimtoh": 0,
        },
    )  # fmt: skip
    return document


def _signed(dashes: tuple[float, ...]) -> list[float]:
    """Returns dashes as DXF has them, spaces below nought."""
    return [-part if i % 2 else part for i, part in enumerate(dashes)]


def _hatch(tone: Tone) -> Hatch:
    hatch = FILLINGS[tone].hatch
    assert hatch is not None
    return hatch


def _weight(width: float) -> int:
    return min(WEIGHTS, key=lambda weight: abs(weight - 100 * width))


def _colour(layer: object, ink: str) -> None:
    """Gives a layer a colour of the palette; ink is the number that shows black on white and white on black."""
    if ink == "ink":
        layer.dxf.color = 7  # type: ignore[attr-defined]
    else:
        text = LIGHT.as_dict()[ink]
        layer.dxf.true_color = int(text[1:], 16)  # type: ignore[attr-defined]


def _bulged(points: Sequence[Point], bulges: Sequence[float]) -> list[tuple[float, float, float]]:
    """Returns points with the bulge of the side that starts at each, 0 where none is given."""
    given = (*bulges, *[0.0] * (len(points) - len(bulges)))
    return [(x, y, bulge) for (x, y), bulge in zip(points, given, strict=True)]


class _Writer:
    """One view's items into the model space."""

    def __init__(self, document: "Drawing", view: View, unit: float) -> None:
        self.document = document
        self.model = document.modelspace()
        self.view = view
        self.unit = unit

    def write(self, items: Iterable[Item]) -> None:
        """Adds the items, in their order."""
        for item in items:
            match item:
                case Line():
                    self._line(item)
                case Curve():
                    self._curve(item)
                case Fill():
                    self._fill(item)
                case Text():
                    self._part(annotate.words(self.view, item), self.model)
                case Dimension():
                    self._dimension(item)
                case Running():
                    self._parts(annotate.running(self.view, item), self.model)
                case Cross():
                    self._parts(annotate.cross(self.view, item), self.model)

    def _line(self, item: Line) -> None:
        points = self._floor(item.points)
        layer = {"layer": LAYERS[item.pen]}
        if any(item.bulges):
            self.model.add_lwpolyline(_bulged(points, item.bulges), format="xyb", close=item.closed, dxfattribs=layer)
        elif len(points) == 2 and not item.closed:
            self.model.add_line(*points, dxfattribs=layer)
        else:
            self.model.add_lwpolyline(points, close=item.closed, dxfattribs=layer)

    def _curve(self, item: Curve) -> None:
        (centre,) = self._floor((item.centre,))
        start, end = math.degrees(item.start), math.degrees(item.end)
        layer = {"layer": LAYERS[item.pen]}
        self.model.add_arc(centre, item.radius * self.unit, start, end, dxfattribs=layer)

    def _fill(self, item: Fill) -> None:
        if item.tone not in HATCH_LAYERS:
            return
        lines = _hatch(item.tone)
        apart = lines.apart * self.view.scale * self.unit
        angle = math.radians(lines.angle)
        step = (-math.sin(angle) * apart, math.cos(angle) * apart)
        hatch = self.model.add_hatch(color=256, dxfattribs={"layer": HATCH_LAYERS[item.tone]})
        hatch.set_pattern_fill(STYLE, color=256, definition=[[lines.angle, (0, 0), step, []]])
        for index, ring in enumerate(item.rings):
            vertices = _bulged(self._floor(ring), item.bulges[index] if item.bulges else ())
            hatch.paths.add_polyline_path(vertices, is_closed=True, flags=16 if index else 1)

    def _dimension(self, item: Dimension) -> None:
        """Adds a dimension that carries our own picture of it: its text is what we print."""
        item = replace(item, offset=item.offset + math.copysign(FURTHER, item.offset))
        start, end = self._floor((item.start, item.end))
        override = self.model.add_aligned_dim(
            p1=start,
            p2=end,
            distance=item.offset * self.view.scale * self.unit,
            dimstyle=STYLE,
            text=plain(item.text),
            dxfattribs={"layer": LAYERS[Pen.DIMENSION]},
        )
        picture = self.document.blocks.new_anonymous_block(type_char="D")
        parts = list(annotate.dimension(self.view, item))
        self._parts(parts, picture, LAYERS[Pen.DIMENSION])
        (middle,) = self._off_paper(part.at for part in parts if isinstance(part, annotate.Words))
        override.dimension.dxf.geometry = picture.name
        override.dimension.dxf.text_midpoint = (*middle, 0)

    def _parts(self, parts: Iterable[annotate.Part], layout: "BaseLayout", layer: str = "") -> None:
        for part in parts:
            self._part(part, layout, layer)

    def _part(self, part: annotate.Part, layout: "BaseLayout", layer: str = "") -> None:
        match part:
            case annotate.Stroked():
                start, end = self._off_paper(part.points)
                layout.add_line(start, end, dxfattribs={"layer": layer or LAYERS[part.pen]})
            case annotate.Ring():
                (centre,) = self._off_paper((part.centre,))
                radius = part.radius * self.view.scale * self.unit
                layout.add_circle(centre, radius, dxfattribs={"layer": layer or LAYERS[part.pen]})
            case annotate.Words():
                self._words(part, layout, layer or _text_layer(self.view))

    def _words(self, part: annotate.Words, layout: "BaseLayout", layer: str) -> None:
        from ezdxf.enums import TextEntityAlignment

        align = {
            "start": TextEntityAlignment.MIDDLE_LEFT,
            "middle": TextEntityAlignment.MIDDLE_CENTER,
            "end": TextEntityAlignment.MIDDLE_RIGHT,
        }[part.anchor]
        (at,) = self._off_paper((part.at,))
        layout.add_text(
            plain(part.text),
            height=CAP_HEIGHT[part.size] * self.view.scale * self.unit,
            rotation=math.degrees(part.angle) - 90 * self.view.turn,
            dxfattribs={"layer": layer, "style": STYLE},
        ).set_placement(at, align=align)

    def _floor(self, points: Iterable[Point]) -> list[Point]:
        """Returns floor points in the drawing's unit."""
        return [(x * self.unit, y * self.unit) for x, y in points]

    def _off_paper(self, points: Iterable[Point]) -> list[Point]:
        """Returns points of the paper as floor points in the drawing's unit."""
        return self._floor(self.view.on_floor(point) for point in points)
