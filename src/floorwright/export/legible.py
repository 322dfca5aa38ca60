"""Whether every text of a view can be read: none cut by the window, none over another."""

import math
from collections.abc import Iterator
from itertools import pairwise

from floorwright.draw.lettering import text_width
from floorwright.draw.style import CAP_HEIGHT
from floorwright.draw.view import Cross, Dimension, Point, Running, Text, View
from floorwright.export import annotate
from floorwright.tolerance import COINCIDENT


def box(part: annotate.Words) -> tuple[Point, Point, Point, Point]:
    """Returns the corners of the box on paper, of capital height, that a text takes."""
    wide, half = text_width(part.text, part.size), CAP_HEIGHT[part.size] / 2
    left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[part.anchor]
    cos, sin = math.cos(part.angle), math.sin(part.angle)
    corners = ((left, -half), (left + wide, -half), (left + wide, half), (left, half))
    a, b, c, d = ((part.at[0] + cos * x - sin * y, part.at[1] + sin * x + cos * y) for x, y in corners)
    return a, b, c, d


def parts(view: View) -> Iterator[annotate.Part]:
    """Yields the strokes and words of a view's texts, dimensions and crosses, in its order."""
    for item in (*view.items, *view.aside):
        match item:
            case Text():
                yield annotate.words(view, item)
            case Dimension():
                yield from annotate.dimension(view, item)
            case Running():
                yield from annotate.running(view, item)
            case Cross():
                yield from annotate.cross(view, item)
            case _:
                pass


def clipped_texts(view: View) -> list[str]:
    """Returns the texts of a view that its window cuts through or leaves out: there should be none."""
    return [
        part.text
        for part in parts(view)
        if isinstance(part, annotate.Words)
        and not all(
            -COINCIDENT <= x <= view.width + COINCIDENT and -COINCIDENT <= y <= view.height + COINCIDENT
            for x, y in box(part)
        )
    ]


def touching_texts(view: View) -> list[tuple[str, str]]:
    """Returns the pairs of texts of a view whose boxes overlap: there should be none."""
    found = [part for part in parts(view) if isinstance(part, annotate.Words) and part.text]
    boxes = [box(part) for part in found]
    return [
        (found[i].text, found[j].text)
        for i in range(len(found))
        for j in range(i + 1, len(found))
        if not _parted(boxes[i], boxes[j])
    ]


def _parted(first: tuple[Point, ...], second: tuple[Point, ...]) -> bool:
    """Returns whether a line along a side of one of two rectangles parts them."""
    for ring in (first, second):
        for (ax, ay), (bx, by) in pairwise(ring[:3]):
            nx, ny = by - ay, ax - bx
            one = [nx * x + ny * y for x, y in first]
            other = [nx * x + ny * y for x, y in second]
            if max(one) <= min(other) + COINCIDENT or max(other) <= min(one) + COINCIDENT:
                return True
    return False
