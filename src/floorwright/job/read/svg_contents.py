"""The straight shapes of an SVG drawing: polygons, rectangles, lines and paths of straight sides, in their places.

The file is read as it stands: nothing that it names is fetched, no entity is expanded, no style sheet is followed.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final
from xml.parsers import expat

import numpy as np

from floorwright.errors import FloorwrightValueError
from floorwright.job.read.contents import Contents
from floorwright.job.read.ring import Chain
from floorwright.job.read.svg_path import NUMBER, CurveError, Run, numbers, runs_of
from floorwright.units import MM_IN

if TYPE_CHECKING:
    from collections.abc import Mapping

    from floorwright.geometry.region import Points

DEEPEST: Final = 200
"""Elements inside each other; a drawing of a pattern has a handful."""

MOST_SHAPES: Final = 20_000

NOT_DRAWN: Final = frozenset({"defs", "symbol", "clipPath", "mask", "marker", "pattern", "linearGradient"})
"""Elements whose contents are drawn only where something else names them."""

ROUND: Final = frozenset({"circle", "ellipse"})
OTHERS: Final = frozenset({"text", "image", "use", "foreignObject"})
"""What is drawn and is no shape of straight sides."""

UNITS: Final[Mapping[str, float]] = {
    "mm": 1.0, "cm": 10.0, "in": float(MM_IN["in"]), "pt": float(MM_IN["in"]) / 72, "pc": float(MM_IN["in"]) / 6,
}  # fmt: skip
"""mm in a unit of CSS that is a true length (CSS Values and Units, section 6.2). A bare number or px is not taken for
one: few drawings mean the 96th part of an inch by it."""

_LENGTH = re.compile(rf"\s*({NUMBER})\s*([a-z%]*)\s*")
_TRANSFORM = re.compile(r"\s*,?\s*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^)]*)\)")


class SvgError(FloorwrightValueError):
    """A file that is no drawing of straight shapes; its text says what it is instead.

    Attributes:
        remedy: what to do about it.
    """

    def __init__(self, found: str, remedy: str) -> None:
        super().__init__(found)
        self.remedy = remedy


def svg_contents(content: bytes) -> Contents:
    """Returns what is drawn, its y turned up, in mm where the file says its size, else in its own unit.

    A shape's layer is the id of the innermost group with one that it is in, empty outside all.

    Args:
        content: of the file.

    Raises:
        SvgError: it is no SVG, or declares entities, or a side is a curve.
    """
    reader = _Reader()
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.EntityDeclHandler = _refuse_entities
    parser.StartElementHandler = reader.start
    parser.EndElementHandler = reader.end
    try:
        parser.Parse(content, True)
    except SvgError:
        raise
    except expat.ExpatError as error:
        said = f"{expat.ErrorString(error.code)}, line {error.lineno}"
        raise SvgError(f"a file that is no SVG ({said})", AGAIN) from error
    except (LookupError, ValueError) as error:
        raise SvgError("a file in an encoding of its own", "save it again as UTF-8") from error
    if not reader.is_svg:
        raise SvgError("a file that is no SVG", AGAIN)
    return reader.contents()


AGAIN: Final = "save it again as plain SVG"


def _refuse_entities(name: str, *_declared: object) -> None:
    raise SvgError(f"an entity of its own, {name[:40]}", AGAIN)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    """What an element hands to those inside it."""

    layer: str
    matrix: Points
    drawn: bool


@dataclass(slots=True)
class _Reader:
    """What is met in the file, element by element."""

    is_svg: bool = False
    millimetres: float | None = None
    places: list[_Place] = field(default_factory=lambda: [_Place(layer="", matrix=np.eye(3), drawn=True)])
    chains: dict[str, list[Chain]] = field(default_factory=dict)
    passed_over: Counter[str] = field(default_factory=Counter)
    broken: list[str] = field(default_factory=list)
    count: int = 0

    def start(self, tag: str, given: dict[str, str]) -> None:
        """Takes the start of an element."""
        name = tag.rpartition(" ")[2]
        if len(self.places) == 1:
            if name != "svg" or self.is_svg:
                raise SvgError(f"a file of <{name[:40]}>", "save the drawing as plain SVG")
            self.is_svg = True
            self.millimetres = _millimetres(given)
        if len(self.places) > DEEPEST:
            raise SvgError(f"groups more than {DEEPEST} deep", AGAIN)
        place = self._inside(name, given)
        self.places.append(place)
        if place.drawn:
            self._draw(name, given, place)

    def end(self, _tag: str) -> None:
        """Takes the end of an element."""
        self.places.pop()

    def contents(self) -> Contents:
        """Returns what was met."""
        scale = self.millimetres or 1.0
        return Contents(
            chains={layer: [chain.scaled(scale) for chain in chains] for layer, chains in self.chains.items()},
            rounds={},
            passed_over=self.passed_over,
            doors=(),
            heights=(0.0, 0.0),
            broken=tuple(self.broken),
            header="mm" if self.millimetres else "",
        )

    def _inside(self, name: str, given: dict[str, str]) -> _Place:
        outer = self.places[-1]
        style = given.get("style", "").replace(" ", "")
        hidden = given.get("display") == "none" or "display:none" in style
        called = next((text for key, text in given.items() if key.rpartition(" ")[2] == "label"), given.get("id", ""))
        return _Place(
            layer=called if name == "g" and called else outer.layer,
            matrix=outer.matrix @ _matrix(given.get("transform", "")),
            drawn=outer.drawn and not hidden and name not in NOT_DRAWN,
        )

    def _draw(self, name: str, given: dict[str, str], place: _Place) -> None:
        if name in ROUND or (name == "rect" and (given.get("rx", "0") != "0" or given.get("ry", "0") != "0")):
            raise SvgError(f"a curve: <{name}>{_called(given)}", STRAIGHT)
        if name in OTHERS:
            self.passed_over[name] += 1
            return
        try:
            runs = _runs(name, given)
        except FloorwrightValueError as fault:
            if isinstance(fault, SvgError):
                raise
            self.broken.append(f"a <{name}>{_called(given)} that cannot be read ({fault})")
            return
        self.count += len(runs)
        if self.count > MOST_SHAPES:
            raise SvgError(f"more than {MOST_SHAPES} shapes", "keep the pieces of one repeat in it, and nothing else")
        for points, closed in runs:
            with np.errstate(all="ignore"):
                at = np.column_stack([points, np.ones(len(points))]) @ place.matrix.T
            if not np.isfinite(at).all():
                self.broken.append(f"a <{name}>{_called(given)} with a point at no number")
                continue
            chain = Chain(vertices=tuple((x, -y, 0.0) for x, y in at[:, :2].tolist()), closed=closed)
            self.chains.setdefault(place.layer, []).append(chain)


STRAIGHT: Final = "draw its edge as short straight sides, or draw it as DXF"


def _called(given: dict[str, str]) -> str:
    return f" {given['id'][:40]}" if given.get("id") else ""


def _runs(name: str, given: dict[str, str]) -> list[Run]:
    """The runs of corners of an element, each with whether it is closed; none of one that is no shape."""
    if name == "path":
        try:
            return runs_of(given.get("d", ""))
        except CurveError as curve:
            raise SvgError(f"a curve: <path>{_called(given)} with {curve}", STRAIGHT) from curve
    if name in ("polygon", "polyline"):
        values = numbers(given.get("points", ""))
        if len(values) % 2 or len(values) < 4:
            raise FloorwrightValueError(f"{len(values)} numbers for its points")
        return [([(x, y) for x, y in zip(values[::2], values[1::2], strict=True)], name == "polygon")]
    if name == "rect":
        x, y, wide, high = (_number(given, key) for key in ("x", "y", "width", "height"))
        return [([(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)], True)]
    if name == "line":
        x1, y1, x2, y2 = (_number(given, key) for key in ("x1", "y1", "x2", "y2"))
        return [([(x1, y1), (x2, y2)], False)]
    return []


def _number(given: dict[str, str], key: str) -> float:
    found = _LENGTH.fullmatch(given.get(key, "0"))
    if found is None or found[2] not in ("", "px"):
        raise FloorwrightValueError(f"{key} {given[key][:20]!r}")
    return float(found[1])


def _millimetres(given: dict[str, str]) -> float | None:
    """The mm of the drawing's own unit, where the file gives its size on paper both ways alike."""
    view = numbers(given.get("viewBox", "")) if "viewBox" in given else []
    sizes = [_LENGTH.fullmatch(given.get(key, "")) for key in ("width", "height")]
    scales = []
    for found, span in zip(sizes, view[2:4] if len(view) == 4 else (0.0, 0.0), strict=True):
        if found is None or found[2] not in UNITS or span <= 0:
            return None
        scales.append(float(found[1]) * UNITS[found[2]] / span)
    # What does not scale alike is fitted in by the smaller (SVG 2, section 8.8, preserveAspectRatio).
    scale = min(scales)
    return scale if scale > 0 and math.isfinite(scale) else None


def _matrix(text: str) -> Points:
    """A transform attribute, (3, 3) (SVG 2, section 8.5).

    Raises:
        SvgError: it is none.
    """
    matrix, end = np.eye(3), 0
    try:
        while found := _TRANSFORM.match(text, end):
            matrix, end = matrix @ _one(found[1], numbers(found[2])), found.end()
    except SvgError:
        raise
    except FloorwrightValueError:
        # What is left of it is told of below.
        pass
    if text[end:].strip():
        raise SvgError(f"a transform {text[:40]!r}", AGAIN)
    return matrix


def _one(kind: str, values: list[float]) -> Points:
    allowed = {"matrix": (6,), "translate": (1, 2), "scale": (1, 2), "rotate": (1, 3), "skewX": (1,), "skewY": (1,)}
    if len(values) not in allowed[kind]:
        raise SvgError(f"a transform {kind} of {len(values)} numbers", AGAIN)
    first, second = values[0], values[1] if len(values) > 1 else None
    if kind == "matrix":
        a, b, c, d, e, f = values
        return np.array([[a, c, e], [b, d, f], [0.0, 0.0, 1.0]])
    if kind == "translate":
        return np.array([[1.0, 0.0, first], [0.0, 1.0, second or 0.0], [0.0, 0.0, 1.0]])
    if kind == "scale":
        return np.diag([first, first if second is None else second, 1.0])
    turn = math.radians(first)
    if kind == "rotate":
        cos, sin = math.cos(turn), math.sin(turn)
        x, y = values[1:] if len(values) == 3 else (0.0, 0.0)
        return np.array([[cos, -sin, x - x * cos + y * sin], [sin, cos, y - x * sin - y * cos], [0.0, 0.0, 1.0]])
    skew = np.eye(3)
    skew[(0, 1) if kind == "skewX" else (1, 0)] = math.tan(turn)
    return skew
