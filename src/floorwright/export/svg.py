"""A view as SVG, in real paper millimetres: the only place where y is turned to run down."""

import base64
import html
import math
import re
from collections.abc import Callable, Iterable
from functools import cache, partial
from importlib.resources import files
from typing import Final

from floorwright.draw.lettering import font_size, printable, text_width
from floorwright.draw.scale import scale_text
from floorwright.draw.style import CAP_HEIGHT, Pen, Size, Tone
from floorwright.draw.view import (
    CHECK_BAR_LENGTH,
    Cross,
    Curve,
    Dimension,
    Fill,
    Item,
    Line,
    Point,
    Running,
    Text,
    View,
)
from floorwright.export import annotate
from floorwright.export.pens import FILLINGS, LIGHT, STROKES, Palette

FAMILY: Final = "Floorwright Sans"
escape = partial(html.escape, quote=False)
HALO: Final = 0.9
"""Width of the border of paper colour behind a text, mm, half of it outside the letters."""


def view_svg(view: View, *, palette: Palette = LIGHT, standalone: bool = True, imperial: bool = False) -> str:
    """Returns the view as an SVG whose user unit is one mm on paper.

    Args:
        view: at its scale; what lies outside its window is cut off.
        palette: the colours.
        standalone: carries the font and a ground of paper colour, to be opened by itself; else for setting into a page
            that has both.
        imperial: the check bar is 4 in long, and the scale in inches to the foot.
    """
    width, height = view.picture_size(imperial)
    slug = re.sub(r"[^a-z0-9]+", "-", view.name.lower()).strip("-") or "view"
    body = "".join(_Drawing(view, palette, slug).lines())
    bar = _check_bar(view, palette, imperial) if view.check_bar else ""
    ground = f'<rect width="{_n(width)}" height="{_n(height)}" fill="{palette.paper}"/>\n' if standalone else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{_n(width)}mm" height="{_n(height)}mm" '
        f'viewBox="0 0 {_n(width)} {_n(height)}" font-family="\'{FAMILY}\', Inter, sans-serif" '
        f'fill="none" stroke-linejoin="miter">\n'
        f"<title>{escape(printable(view.name))}</title>\n<desc>{escape(printable(view.described))}</desc>\n"
        f"{_font_face() if standalone else ''}"
        f"<defs>{_hatches(view, palette, slug)}"
        f'<clipPath id="{slug}-window"><rect width="{_n(view.width)}" height="{_n(view.height)}"/></clipPath></defs>\n'
        f'{ground}<g clip-path="url(#{slug}-window)">\n{body}</g>\n{bar}</svg>\n'
    )


class _Drawing:
    """A view's items as SVG, those of one pen or one tone in a row joined to one path."""

    def __init__(self, view: View, palette: Palette, slug: str) -> None:
        self.view = view
        self.colours = palette.as_dict()
        self.slug = slug
        self.place = _placer(view)
        self.found: list[str] = []
        self.ink: Pen | Tone | None = None
        self.run: list[str] = []

    def lines(self) -> list[str]:
        """Returns the elements, in drawing order."""
        for item in (*self.view.items, *self.view.aside):
            self._draw(item)
        self._end_run()
        return self.found

    def _draw(self, item: Item) -> None:
        match item:
            case Line():
                self._go_on(item.pen, self._sides(item.points, item.bulges, closed=item.closed))
            case Curve():
                self._go_on(item.pen, self._arc(item))
            case Fill():
                self._fill(item)
            case Text():
                self._part(annotate.words(self.view, item))
            case Dimension():
                self._parts(annotate.dimension(self.view, item))
            case Running():
                self._parts(annotate.running(self.view, item))
            case Cross():
                self._parts(annotate.cross(self.view, item))

    def _parts(self, parts: Iterable[annotate.Part]) -> None:
        for part in parts:
            self._part(part)

    def _part(self, part: annotate.Part) -> None:
        match part:
            case annotate.Stroked():
                self._go_on(part.pen, _path(((x, self.view.height - y) for x, y in part.points)))
            case annotate.Ring():
                x, y, r = part.centre[0], self.view.height - part.centre[1], _n(part.radius)
                self._go_on(
                    part.pen,
                    f"M{_n(x - part.radius)} {_n(y)}a{r} {r} 0 1 0 {_n(2 * part.radius)} 0"
                    f"a{r} {r} 0 1 0 {_n(-2 * part.radius)} 0",
                )
            case annotate.Words():
                self._end_run()
                self.found.append(_words_svg(part, self.view.height, self.colours))

    def _fill(self, item: Fill) -> None:
        bulges = item.bulges or ((),) * len(item.rings)
        rings = zip(item.rings, bulges, strict=True)
        self._go_on(item.tone, "".join(self._sides(ring, bulge, closed=True) for ring, bulge in rings))

    def _sides(self, points: tuple[Point, ...], bulges: tuple[float, ...], *, closed: bool) -> str:
        """Returns a path of straight sides and true arcs."""
        if not any(bulges):
            return _path(map(self.place, points), closed=closed)
        placed = [self.place(point) for point in points]
        ends = [*placed[1:], placed[0]] if closed else placed[1:]
        path = f"M{_n(placed[0][0])} {_n(placed[0][1])}"
        # Of an open line the last point starts no side.
        for start, (x, y), bulge in zip(placed, ends, bulges, strict=False):
            if not bulge:
                path += f"L{_n(x)} {_n(y)}"
                continue
            radius = _n(math.dist(start, (x, y)) / 4 * (1 / abs(bulge) + abs(bulge)))
            # y runs down here, so what is anticlockwise on the floor is drawn with the sweep flag 0.
            path += f"A{radius} {radius} 0 {int(abs(bulge) > 1)} {int(bulge < 0)} {_n(x)} {_n(y)}"
        return path + ("Z" if closed else "")

    def _go_on(self, ink: Pen | Tone, path: str) -> None:
        """Adds a path to the run of its pen or tone, or begins one."""
        if ink is not self.ink:
            self._end_run()
            self.ink = ink
        self.run.append(path)

    def _end_run(self) -> None:
        path = "".join(self.run)
        match self.ink:
            case Pen():
                self.found.append(_stroked(self.ink, path, self.colours))
            case Tone():
                self.found.append(_filled(self.ink, path, self.colours, self.slug))
        self.ink, self.run = None, []

    def _arc(self, item: Curve) -> str:
        radius = item.radius / self.view.scale
        sweep = item.end - item.start
        if sweep < 0:
            sweep += math.tau
        halves = 2 if sweep > math.pi else 1
        angles = [item.start + sweep * i / halves for i in range(halves + 1)]
        ends = [
            self.place((item.centre[0] + item.radius * math.cos(a), item.centre[1] + item.radius * math.sin(a)))
            for a in angles
        ]
        return f"M{_n(ends[0][0])} {_n(ends[0][1])}" + "".join(
            f"A{_n(radius)} {_n(radius)} 0 0 0 {_n(x)} {_n(y)}" for x, y in ends[1:]
        )


def _placer(view: View) -> Callable[[Point], Point]:
    """Returns the function from floor mm to the SVG's mm."""
    a, b, c, d, e, f = view.affine
    f = view.height - f

    def place(point: Point) -> Point:
        x, y = point
        return a * x + c * y + e, f - b * x - d * y

    return place


def _n(value: float) -> str:
    """Returns a number to 1e-4 mm, with no sign of nought and no trailing noughts."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _path(points: Iterable[Point], *, closed: bool = False) -> str:
    return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points) + ("Z" if closed else "")


def _stroked(pen: Pen, path: str, colours: dict[str, str]) -> str:
    stroke = STROKES[pen]
    dashes = f' stroke-dasharray="{" ".join(map(_n, stroke.dashes))}"' if stroke.dashes else ""
    cased = (
        f'<path stroke="{colours["paper"]}" stroke-width="{_n(stroke.cased)}" d="{path}"/>\n' if stroke.cased else ""
    )
    core = f'<path stroke="{colours["paper"]}" stroke-width="{_n(stroke.core)}" d="{path}"/>\n' if stroke.core else ""
    return (
        f'{cased}<path class="{pen}" stroke="{colours[stroke.ink]}" stroke-width="{_n(stroke.width)}"{dashes} '
        f'd="{path}"/>\n{core}'
    )


def _filled(tone: Tone, path: str, colours: dict[str, str], slug: str) -> str:
    filling = FILLINGS[tone]
    paint = colours[filling.ink] if filling.ink else "none"
    hatch = f'<path fill="url(#{slug}-{tone})" fill-rule="evenodd" d="{path}"/>\n' if filling.hatch else ""
    return f'<path fill="{paint}" fill-rule="evenodd" d="{path}"/>\n{hatch}'


def _words_svg(part: annotate.Words, height: float, colours: dict[str, str]) -> str:
    """Returns a text element; `at` is half a capital height above the base line."""
    down = CAP_HEIGHT[part.size] / 2
    x, y = part.at[0] + math.sin(part.angle) * down, height - part.at[1] + math.cos(part.angle) * down
    degrees = -math.degrees(part.angle)
    turned = f' transform="rotate({_n(degrees)} {_n(x)} {_n(y)})"' if abs(degrees) >= 5e-5 else ""
    halo = (
        f' stroke="{colours["paper"]}" stroke-width="{_n(HALO)}" stroke-linejoin="round" paint-order="stroke"'
        if part.halo
        else ""
    )
    return (
        f'<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(font_size(part.size))}" text-anchor="{part.anchor}" '
        f'fill="{colours["ink"]}"{halo}{turned}>{escape(printable(part.text))}</text>\n'
    )


def _hatches(view: View, palette: Palette, slug: str) -> str:
    """Returns the patterns of the hatched tones that the view uses."""
    used = {item.tone for item in view.items if isinstance(item, Fill)}
    return "".join(_hatch(tone, palette, slug) for tone in Tone if tone in used and FILLINGS[tone].hatch)


def _hatch(tone: Tone, palette: Palette, slug: str) -> str:
    hatch = FILLINGS[tone].hatch
    assert hatch is not None
    apart, middle = _n(hatch.apart), _n(hatch.apart / 2)
    return (
        f'<pattern id="{slug}-{tone}" width="{apart}" height="{apart}" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate({_n(-hatch.angle)})"><path stroke="{palette.as_dict()[hatch.ink]}" '
        f'stroke-width="{_n(hatch.width)}" d="M0 {middle}H{apart}"/></pattern>'
    )


def _check_bar(view: View, palette: Palette, imperial: bool) -> str:
    """Returns the bar under a view with the words that say what it is for."""
    length = CHECK_BAR_LENGTH[imperial]
    top, left = view.height + 4.0, 0.5
    spaces = 4 if imperial else round(length / 10)
    ticks = ""
    for i in range(spaces + 1):
        half = 1.2 if i in (0, spaces) else 0.6
        ticks += f"M{_n(left + length * i / spaces)} {_n(top - half)}V{_n(top + half)}"
    line = f'<path stroke="{palette.ink}" stroke-width="0.25" d="M{_n(left)} {_n(top)}H{_n(left + length)}{ticks}"/>'
    foot, size = _n(view.height + 9.2), _n(font_size(Size.SMALL))
    text = escape(_bar_words(view, imperial))
    label = f'<text x="{_n(left)}" y="{foot}" font-size="{size}" fill="{palette.ink}">{text}</text>'
    return f'<g class="check-bar">{line}{label}</g>\n'


def _bar_words(view: View, imperial: bool) -> str:
    """Returns what is said under the bar, as much as there is width for."""
    said, scale = "4 in" if imperial else "100 mm", scale_text(view.scale, imperial)
    long = f"{scale}. This bar is {said} long: measure it before you scale from the print."
    return long if text_width(long, Size.SMALL) <= view.picture_size(imperial)[0] else f"{scale}, bar {said}"


@cache
def _font_face() -> str:
    """Returns the style element that carries our font."""
    data = files("floorwright.export").joinpath("fonts/FloorwrightSans-Regular.otf").read_bytes()
    coded = base64.b64encode(data).decode("ascii")
    return (
        f"<style>@font-face{{font-family:'{FAMILY}';"
        f'src:url("data:font/otf;base64,{coded}") format("opentype")}}</style>\n'
    )
