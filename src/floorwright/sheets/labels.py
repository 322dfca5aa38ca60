"""Labels outside a wall: set as they find room, kept apart from each other and from the names of the corners."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Final

import numpy as np

from floorwright.draw.lettering import text_width
from floorwright.draw.style import CAP_HEIGHT, Pen, Size
from floorwright.draw.view import Item, Line, Point, Text
from floorwright.plan.room import Corner, Room
from floorwright.sheets.frame import Frame
from floorwright.sheets.plan import out_of_chord, outward, paper_angle

OFF_WALL: Final = 1.4
"""mm on paper between a wall and the labels outside it."""

BETWEEN: Final = 0.9
"""mm on paper between two labels."""

FROM_CORNER: Final = 0.6
"""mm on paper that labels keep from the end of their wall, where the corner's name stands on the slant."""

FROM_INNER_CORNER: Final = 5.2
"""The same where the corner turns in, and its name stands on the labels' side."""


NEAR: Final = 400.0
"""mm on the floor: a wall's thickness. Our default: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A label that wants to stand outside a wall.

    Attributes:
        text: as printed.
        along: mm along the wall from its start, where it wants to stand.
        foot: what it names, to be led to; None for what lies at `along` itself.
    """

    text: str
    along: float
    foot: Point | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Labelled:
    """Labels as set: what is drawn, and how many found no room."""

    items: tuple[Item, ...]
    left_out: int


def outside(
    labels: Sequence[Label], wall: str, room: Room, frame: Frame, *, size: Size = Size.TEXT, off: float = OFF_WALL
) -> Labelled:
    """Returns labels outside a wall: level on the paper, else square to the wall, else only every so many of them.

    Args:
        labels: any order.
        wall: its name.
        room: whose wall it is.
        frame: of the drawing.
        size: of the text.
        off: mm on paper between the wall and the labels.
    """
    ordered = sorted(labels, key=lambda label: label.along)
    (x, y), out = outward(room, wall)
    turned = math.atan2(y, x) + frame.turn * math.pi / 2
    wide, high = max(text_width(label.text, size) for label in ordered), CAP_HEIGHT[size]
    level = _turned(wide, high, turned)
    space = _space(room, wall, frame)
    if len(ordered) * (level[0] + BETWEEN) <= space:
        return Labelled(items=tuple(_set(ordered, wall, room, frame, level, off, size, paper_angle(frame))), left_out=0)
    most = max(2, int(space / (high + BETWEEN)))
    step = -(-len(ordered) // most)
    kept = [label for n, label in enumerate(ordered) if n % step == 0]
    angle = math.atan2(out[1], out[0])
    items = _set(kept, wall, room, frame, (high, wide), off, size, angle)
    return Labelled(items=tuple(items), left_out=len(ordered) - len(kept))


def _turned(wide: float, high: float, angle: float) -> tuple[float, float]:
    """Returns the extent along and out from a wall at an angle on the paper, of a text that is level there."""
    cos, sin = abs(math.cos(angle)), abs(math.sin(angle))
    return cos * wide + sin * high, sin * wide + cos * high


def _space(room: Room, wall: str, frame: Frame) -> float:
    """Returns mm on paper that labels have along a wall."""
    start, end = room.ends(wall)
    return float(np.hypot(*(end - start))) / frame.scale - sum(kept_clear(room, wall))


def kept_clear(room: Room, wall: str) -> tuple[float, float]:
    """Returns mm on paper to keep clear at both ends of a wall."""
    corners = room.corner(room.wall(wall).start), room.corner(room.wall(wall).end)
    first, last = (
        FROM_INNER_CORNER if corner.angle > math.pi or _has_another_near(room, corner) else FROM_CORNER
        for corner in corners
    )
    return first, last


def _has_another_near(room: Room, corner: Corner) -> bool:
    """Returns whether the corner of another room stands so near that both names stand beside their walls."""
    others = (other for one in room.rooms for other in one.corners if other.name != corner.name)
    return any(math.dist((corner.x, corner.y), (other.x, other.y)) < NEAR for other in others)


def _set(
    labels: Sequence[Label],
    wall: str,
    room: Room,
    frame: Frame,
    extent: tuple[float, float],
    off: float,
    size: Size,
    angle: float,
) -> Iterator[Item]:
    start, end = room.ends(wall)
    (x, y), out = outward(room, wall)
    length = float(np.hypot(*(end - start)))
    width = frame.paper(extent[0] + BETWEEN)
    first, last = (frame.paper(clear) + width / 2 for clear in kept_clear(room, wall))
    places = spread([label.along for label in labels], [width] * len(labels), first, length - last)
    rise, reach = frame.paper(off + extent[1] / 2), frame.paper(off - BETWEEN / 2)
    for label, place in zip(labels, places, strict=True):
        bow = out_of_chord(room, wall, place, width)
        base = (float(start[0]) + x * place + out[0] * bow, float(start[1]) + y * place + out[1] * bow)
        if label.foot is not None:
            stop = (base[0] + out[0] * reach, base[1] + out[1] * reach)
            yield Line(points=(label.foot, stop), pen=Pen.DIMENSION)
        at = (base[0] + out[0] * rise, base[1] + out[1] * rise)
        yield Text(at=at, text=label.text, size=size, angle=angle, halo=True)


def spread(
    wanted: Sequence[float], widths: Sequence[float], least: float = -math.inf, most: float = math.inf
) -> list[float]:
    """Returns middles as near as can be to those wanted (least squares), so that things of such widths do not overlap.

    Args:
        wanted: middles in rising order.
        widths: of each, what must be free beside it included.
        least, most: where the first and the last middle may stand; `least` holds where not all fit between.

    >>> spread([0.0, 1.0, 10.0], [3.0, 3.0, 3.0])
    [-1.0, 2.0, 10.0]
    >>> spread([0.0, 1.0, 10.0], [3.0, 3.0, 3.0], least=0.0)
    [0.0, 3.0, 10.0]
    """
    # Less the widths before them the middles must only rise: pool neighbours that do not (isotonic regression), and
    # clip to the ends, which keeps the sum of squares least.
    before = list(accumulate(((a + b) / 2 for a, b in pairwise(widths)), initial=0.0))[: len(wanted)]
    pools: list[tuple[float, int]] = []
    for place, taken in zip(wanted, before, strict=True):
        mean, count = place - taken, 1
        while pools and pools[-1][0] > mean:
            lower, size = pools.pop()
            mean, count = (lower * size + mean * count) / (size + count), size + count
        pools.append((mean, count))
    highest = max(most - before[-1], least) if before else most
    means = [min(max(mean, least), highest) for mean, count in pools for _ in range(count)]
    return [mean + taken for mean, taken in zip(means, before, strict=True)]
