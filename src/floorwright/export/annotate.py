"""Texts, dimensions and marks as strokes and words on paper, alike for every format that has no such thing of its own.

All in paper mm, x right and y up from the lower left corner of the window (`View.affine`).
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from floorwright.draw.lettering import text_width
from floorwright.draw.style import CAP_HEIGHT, Pen, Size
from floorwright.draw.view import Cross, Dimension, Point, Running, Text, View
from floorwright.tolerance import COINCIDENT

CLEAR: Final = 1.0
"""From the floor point to the start of its extension line, ISO 129-1."""
OVERRUN: Final = 1.5
"""Of an extension line beyond its dimension line."""
TICK: Final = 1.3
"""Half the length of the oblique stroke that ends a dimension."""
ABOVE: Final = 0.9
"""From a dimension line to the foot of its figure."""
ZERO: Final = 1.0
"""Radius of the circle at the zero of running dimensions."""
LEADER: Final = 3.0
"""From a running dimension's line to its figure, when figures had to be spread."""
APART: Final = 1.45
"""Least distance of the lines of two figures, in capital heights."""
SPREAD: Final = 9.0
"""A figure stands at most this far from its tick; else every other one is left out."""
LEANING: Final = math.radians(15)
ARM: Final = 1.6
"""Half a cross."""
BESIDE: Final = 1.2
"""From a cross's arm to its letter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroked:
    """A polyline on paper."""

    points: tuple[Point, ...]
    pen: Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A small circle on paper."""

    centre: Point
    radius: float
    pen: Pen


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A text on paper: `at` is its anchor, half a capital height above the base line; `angle` as `upright` gives it."""

    at: Point
    text: str
    size: Size
    anchor: str = "middle"
    angle: float = 0.0
    halo: bool = False


Part = Stroked | Ring | Words


def upright(angle: float) -> tuple[float, bool]:
    """Returns the angle at which a text reads from the bottom or the right, and whether it was turned for it.

    A text within `LEANING` past upright still reads from the right, so that those along one crooked wall all do.
    """
    turned = math.remainder(angle, math.tau)
    if turned > math.pi / 2 + LEANING:
        return turned - math.pi, True
    if turned <= -math.pi / 2 + LEANING:
        return turned + math.pi, True
    return turned, False


def words(view: View, text: Text) -> Words:
    """Returns a text as it stands on the paper."""
    raw = text.angle + view.turn * math.pi / 2
    angle, turned = upright(raw)
    anchor = {"start": "end", "end": "start"}.get(text.anchor, text.anchor) if turned else text.anchor
    along, left = text.shift
    x, y = view.on_paper(text.at)
    cos, sin = math.cos(raw), math.sin(raw)
    at = (x + cos * along - sin * left, y + sin * along + cos * left)
    return Words(at=at, text=text.text, size=text.size, anchor=anchor, angle=angle, halo=text.halo)


def cross(view: View, item: Cross) -> Iterator[Part]:
    """Yields a cross and its letter, which stands clear of it on the side of `away`."""
    x, y = view.on_paper(item.at)
    yield Stroked(points=((x - ARM, y), (x + ARM, y)), pen=Pen.MARK)
    yield Stroked(points=((x, y - ARM), (x, y + ARM)), pen=Pen.MARK)
    if item.label:
        a, b, *_ = view.affine
        ux, uy = _unit((a * item.away[0] - b * item.away[1], b * item.away[0] + a * item.away[1]))
        half = (text_width(item.label, item.size) / 2, CAP_HEIGHT[item.size] / 2)
        out = BESIDE + ARM * max(abs(ux), abs(uy)) + abs(ux) * half[0] + abs(uy) * half[1]
        yield Words(at=(x + ux * out, y + uy * out), text=item.label, size=item.size, halo=True)


def dimension(view: View, item: Dimension) -> Iterator[Part]:
    """Yields a dimension: extension lines, line, oblique ends, and the figure above the line, or past a short one."""
    start, end = view.on_paper(item.start), view.on_paper(item.end)
    (ux, uy), length = _direction(start, end)
    first, last = _moved(start, (-uy, ux), item.offset), _moved(end, (-uy, ux), item.offset)
    yield from _extension(start, (-uy, ux), item.offset)
    yield from _extension(end, (-uy, ux), item.offset)
    angle, turned = upright(math.atan2(uy, ux))
    up = (-math.sin(angle), math.cos(angle))
    for point in (first, last):
        slope = (math.cos(angle + math.pi / 4) * TICK, math.sin(angle + math.pi / 4) * TICK)
        ends = ((point[0] - slope[0], point[1] - slope[1]), (point[0] + slope[0], point[1] + slope[1]))
        yield Stroked(points=ends, pen=Pen.MARK)
    rise = ABOVE + CAP_HEIGHT[item.size] / 2
    wide = text_width(item.text, item.size)
    if wide <= length - 2 * ABOVE:
        yield Stroked(points=(first, last), pen=Pen.DIMENSION)
        at = _moved(((first[0] + last[0]) / 2, (first[1] + last[1]) / 2), up, rise)
        yield Words(at=at, text=item.text, size=item.size, angle=angle, halo=True)
    else:
        yield Stroked(points=(first, _moved(last, (ux, uy), wide + 3 * ABOVE)), pen=Pen.DIMENSION)
        at = _moved(_moved(last, (ux, uy), 2 * ABOVE), up, rise)
        anchor = "end" if turned else "start"
        yield Words(at=at, text=item.text, size=item.size, anchor=anchor, angle=angle, halo=True)


def running(view: View, item: Running) -> Iterator[Part]:
    """Yields running dimensions: line, circle at the zero, ticks, and the figures square to the line."""
    if not item.marks:
        return
    zero = view.on_paper(item.zero)
    points = [view.on_paper(point) for point, _ in item.marks]
    (ux, uy), _ = _direction(zero, points[-1])
    normal = (-uy, ux)
    side = math.copysign(1.0, item.offset)
    out = (normal[0] * side, normal[1] * side)
    base = _moved(zero, normal, item.offset)
    along = [0.0, *((x - zero[0]) * ux + (y - zero[1]) * uy for x, y in points)]
    yield Stroked(points=(_moved(base, (ux, uy), min(along)), _moved(base, (ux, uy), max(along))), pen=Pen.DIMENSION)
    yield Ring(centre=base, radius=ZERO, pen=Pen.MARK)
    yield from _extension(zero, normal, item.offset)
    for point, at in zip(points, along[1:], strict=True):
        foot = _moved(base, (ux, uy), at)
        yield from _extension_to(point, foot, out)
        yield Stroked(points=(_moved(foot, out, -TICK), _moved(foot, out, TICK)), pen=Pen.MARK)
    texts = ("0", *(text for _, text in item.marks))
    yield from _figures(
        base, (ux, uy), out, sorted(zip(along, texts, strict=True), key=lambda mark: mark[0]), item.size
    )


def _figures(base: Point, along: Point, out: Point, marks: list[tuple[float, str]], size: Size) -> Iterator[Part]:
    """Yields the figures of running dimensions, spread where they would touch, with leaders from their ticks."""
    places = spread([at for at, _ in marks], CAP_HEIGHT[size] * APART)
    while max(abs(place - at) for place, (at, _) in zip(places, marks, strict=True)) > SPREAD and len(marks) > 2:
        marks = marks[:1] + marks[1:-1][1::2] + marks[-1:]
        places = spread([at for at, _ in marks], CAP_HEIGHT[size] * APART)
    led = any(abs(place - at) > COINCIDENT for place, (at, _) in zip(places, marks, strict=True))
    angle, turned = upright(math.atan2(out[1], out[0]))
    for place, (at, text) in zip(places, marks, strict=True):
        foot = _moved(base, along, at)
        if led:
            bends = (_moved(foot, out, TICK), _moved(_moved(base, along, place), out, TICK + LEADER))
            yield Stroked(points=bends, pen=Pen.DIMENSION)
        start = _moved(_moved(base, along, place), out, TICK + ABOVE + (LEADER if led else 0.0))
        yield Words(at=start, text=text, size=size, anchor="end" if turned else "start", angle=angle, halo=True)


def spread(places: list[float], apart: float) -> list[float]:
    """Returns places at least `apart` from each other, in the same order, that have moved as little as possible.

    Least squares under the order, by pooling neighbours that would cross (Barlow, Bartholomew, Bremner and Brunk,
    "Statistical inference under order restrictions", 1972, chapter 1). places: rising.

    >>> spread([0.0, 10.0, 11.0], 5.0)
    [0.0, 8.0, 13.0]
    """
    pools: list[tuple[float, int]] = []
    for index, place in enumerate(places):
        mean, count = place - index * apart, 1
        while pools and pools[-1][0] > mean:
            before, many = pools.pop()
            mean, count = (before * many + mean * count) / (many + count), many + count
        pools.append((mean, count))
    level = [mean for mean, count in pools for _ in range(count)]
    return [mean + index * apart for index, mean in enumerate(level)]


def _unit(vector: Point) -> Point:
    length = math.hypot(*vector)
    return (vector[0] / length, vector[1] / length) if length > 0 else (1.0, 0.0)


def _direction(start: Point, end: Point) -> tuple[Point, float]:
    """Returns the unit direction from start to end, along x where they are one point, and their distance."""
    vector = (end[0] - start[0], end[1] - start[1])
    length = math.hypot(*vector)
    return (_unit(vector) if length > COINCIDENT else (1.0, 0.0)), length


def _moved(point: Point, direction: Point, by: float) -> Point:
    return point[0] + direction[0] * by, point[1] + direction[1] * by


def _extension(point: Point, normal: Point, offset: float) -> Iterator[Part]:
    """Yields the extension line from a point to a dimension line `offset` along the normal, if there is room."""
    out = _unit((normal[0] * offset, normal[1] * offset)) if offset else normal
    yield from _extension_to(point, _moved(point, normal, offset), out)


def _extension_to(point: Point, foot: Point, out: Point) -> Iterator[Part]:
    reach = (foot[0] - point[0]) * out[0] + (foot[1] - point[1]) * out[1]
    if reach > CLEAR:
        yield Stroked(points=(_moved(point, out, CLEAR), _moved(point, out, reach + OVERRUN)), pen=Pen.DIMENSION)
