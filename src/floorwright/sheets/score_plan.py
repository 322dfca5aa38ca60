"""A scored slab as its plans show it: lines to cut, joints that are there, stops, colours."""

import math
from collections.abc import Iterator
from typing import Final

import numpy as np

from floorwright.draw.lettering import text_width
from floorwright.draw.style import CAP_HEIGHT, Pen, Size, Tone
from floorwright.draw.view import Cross, Curve, Fill, Item, Line, Point, Running, Text
from floorwright.geometry.region import Region
from floorwright.scoring.lines import ScoreLine
from floorwright.scoring.scored import Scored, colours
from floorwright.scoring.stops import NODE
from floorwright.scoring.swings import Swing
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import Frame
from floorwright.sheets.plan import paper_angle
from floorwright.tolerance import COINCIDENT

TONES: Final[tuple[tuple[Tone, ...], ...]] = (
    (Tone.TILE,),
    (Tone.WASTE,),
    (Tone.TILE, Tone.BORDER),
    (Tone.CUT, Tone.INSET),
    (Tone.CUT,),
    (Tone.WASTE, Tone.INSET),
    (Tone.WASTE, Tone.BORDER),
    (Tone.CUT, Tone.BORDER),
    (Tone.TILE, Tone.INSET),
    (Tone.SLAB,),
)
"""What stains are shown by, in turn: not their own colours, which no copy keeps, but a tone or a hatch of each, and a
letter."""

BAR: Final = 1.3
"""mm on paper, half of the bar at a stop."""

RUNNING_OFF: Final = 5.6
NAME_OFF: Final = 3.2
"""mm on paper from the slab to the line of the running figures, and to the middle of a line's name."""

OFF_CORNER: Final = 4.5
"""mm on paper from a corner, whose own name stands there, to the next name of a line."""

HALF_TURN: Final = math.pi + COINCIDENT
"""Radians, with some to spare."""

BETWEEN: Final = 1.2
"""mm on paper between two names."""


def colour_letters(scored: Scored) -> dict[str, str]:
    """Returns the letter of each colour, A for the first."""
    return {colour: chr(ord("A") + number) for number, (colour, _) in enumerate(colours(scored))}


def cell_items(scored: Scored) -> tuple[Item, ...]:
    """Returns every stained cell as a fill; those of one tone follow each other."""
    tones = {colour: TONES[number % len(TONES)] for number, (colour, _) in enumerate(colours(scored))}
    fills = [Fill(rings=cell.rings, tone=tone) for cell in scored.cells if cell.colour for tone in tones[cell.colour]]
    return tuple(sorted(fills, key=lambda fill: (fill.tone in (Tone.BORDER, Tone.INSET), fill.tone)))


def letter_items(scored: Scored, place: Frame) -> Iterator[Item]:
    """Yields the letter of its colour in every cell that has room for it."""
    import shapely

    letters = colour_letters(scored)
    # Joints run on through cells, and a letter on one is no letter.
    clear = place.paper(CAP_HEIGHT[Size.SMALL]) / 2
    joints = shapely.buffer(shapely.MultiLineString([joint.ends for joint in scored.joints]), clear)
    for cell in scored.cells:
        if not cell.colour:
            continue
        shape = shapely.Polygon(cell.rings[0], cell.rings[1:])
        parts = shapely.get_parts(shapely.difference(shape, joints)) if shapely.intersects(shape, joints) else [shape]
        free = max(parts, key=lambda part: float(part.area), default=None)
        if free is None or free.is_empty:
            # A small cell that a joint runs through from side to side.
            continue
        circle = shapely.maximum_inscribed_circle(free, tolerance=place.paper(0.2))
        if circle.length >= place.paper(CAP_HEIGHT[Size.SMALL]):
            (x, y), _ = circle.coords
            yield Text(
                at=(x, y),
                text=letters[cell.colour],
                size=Size.SMALL,
                angle=paper_angle(place),
                halo=True,
            )


def score_items(scored: Scored) -> tuple[Item, ...]:
    """Returns the lines to cut, dotted, the circles, and the joints that are there, double."""
    joints = [Line(points=joint.ends, pen=Pen.SLAB_JOINT) for joint in scored.joints]
    cuts = [
        Line(points=(part.start, part.end), pen=Pen.SCORE)
        for line in scored.lines
        for part in line.parts
        if not part.there
    ]
    cuts += [Line(points=ends, pen=Pen.SCORE) for one in scored.spokes for ends in one.lines]
    circles = [
        Curve(centre=circle.centre, radius=radius, start=start, end=start + math.pi, pen=Pen.SCORE)
        for circle in scored.design.circles
        for radius in circle.radii
        for start in (0.0, math.pi)
    ]
    arcs = [
        Curve(centre=swing.pivot, radius=swing.radius, start=start, end=end, pen=Pen.SCORE)
        for row in scored.arcs
        for swing in row.swings
        for start, end in _halves(swing)
    ]
    return (*joints, *cuts, *circles, *arcs)


def _halves(swing: Swing) -> Iterator[tuple[float, float]]:
    """Yields an arc's angles; of more than half a turn in two parts."""
    part = swing.sweep if swing.sweep <= HALF_TURN else swing.sweep / 2
    yield swing.start, swing.start + part
    if part < swing.sweep:
        yield swing.start + part, swing.start + swing.sweep


def stop_items(scored: Scored, place: Frame) -> Iterator[Item]:
    """Yields a bar across the end of every cut that must not run on; not where all stop at a node, which is plain."""
    half = place.paper(BAR)
    for line in scored.lines:
        x, y = -math.sin(line.angle) * half, math.cos(line.angle) * half
        for stop in line.stops:
            if stop.on == NODE:
                continue
            u, v = stop.at
            yield Line(points=((u - x, v - y), (u + x, v + y)), pen=Pen.SAWN)


def pivot_items(scored: Scored, figures: Figures, place: Frame) -> Iterator[Item]:
    """Yields a cross at the pivot of each circle, and its radius on a line from there."""
    for number, circle in enumerate(scored.design.circles, start=1):
        x, y = circle.centre
        name = pivot_name(number, len(scored.design.circles))
        yield Cross(at=circle.centre, label=name, away=(-math.sqrt(0.5), -math.sqrt(0.5)))
        turn = scored.frame.angle + math.radians(30)
        end = (x + math.cos(turn) * circle.radius, y + math.sin(turn) * circle.radius)
        yield Line(points=(circle.centre, end), pen=Pen.DIMENSION)
        text = f"R {figures.room(circle.radius)}"
        if text_width(text, Size.TEXT) * place.scale < circle.radius:
            middle = (x + 0.55 * (end[0] - x), y + 0.55 * (end[1] - y))
            yield Text(at=middle, text=text, size=Size.TEXT, angle=turn, halo=True)


def pivot_name(number: int, count: int) -> str:
    """Returns the letter of a pivot: `P`, or `P1` where there are others."""
    return "P" if count == 1 else f"P{number}"


def running_items(scored: Scored, nail: Point, region: Region, figures: Figures) -> Iterator[Item]:
    """Yields the running figures of rows and columns from the nail, outside the slab."""
    zero = scored.frame.local(np.asarray(nail))
    middle = scored.frame.local(region.rings[0]).mean(axis=0)
    for axis, letter in ((0, "C"), (1, "R")):
        lines = _named(scored, letter)
        if not lines:
            continue
        way = math.copysign(1.0, middle[axis] - zero[axis])
        marks = []
        for line in lines:
            at = zero.copy()
            at[axis] += way * line.running
            x, y = scored.frame.floor(at)
            marks.append(((float(x), float(y)), figures.room(line.running)))
        # The slab lies to the left of a run along u from its foot, and to the right of one up v from its left.
        left = way * (middle[1 - axis] - zero[1 - axis]) * (1 if axis == 0 else -1) > 0
        yield Running(zero=nail, marks=tuple(marks), offset=-RUNNING_OFF if left else RUNNING_OFF)


def name_items(scored: Scored, nail: Point, region: Region, place: Frame) -> Iterator[Item]:
    """Yields the names of rows and columns across the slab from their figures, as many as find room."""
    zero = scored.frame.local(np.asarray(nail))
    ring = scored.frame.local(region.rings[0])
    middle = ring.mean(axis=0)
    for axis, letter in ((0, "C"), (1, "R")):
        way = math.copysign(1.0, middle[axis] - zero[axis])
        far = ring[:, 1 - axis].max() if middle[1 - axis] > zero[1 - axis] else ring[:, 1 - axis].min()
        out = math.copysign(place.paper(NAME_OFF), far - middle[1 - axis])
        last = -math.inf
        for line in _named(scored, letter):
            room = place.paper(text_width(line.name, Size.SMALL) + BETWEEN)
            along = zero[axis] + way * line.running
            at_corner = np.abs(ring - np.where(np.arange(2) == axis, along, far)).max(axis=1) < place.paper(OFF_CORNER)
            if line.running - last < room or bool(at_corner.any()):
                continue
            last = line.running
            at = np.zeros(2)
            at[axis], at[1 - axis] = along, far + out
            x, y = scored.frame.floor(at)
            yield Text(at=(float(x), float(y)), text=line.name, size=Size.SMALL, angle=paper_angle(place))
    others = [line for line in scored.lines if line.name[0] not in "CR"]
    if all(len(line.parts) == 1 for line in others):
        # What runs through has its name on it; of broken lines the list tells enough.
        for line in others:
            (x, y), (u, v) = line.parts[0].start, line.parts[0].end
            if math.dist((x, y), (u, v)) > 2 * place.paper(text_width(line.name, Size.SMALL)):
                yield Text(at=((2 * x + u) / 3, (2 * y + v) / 3), text=line.name, size=Size.SMALL, halo=True)


def _named(scored: Scored, letter: str) -> list[ScoreLine]:
    return [line for line in scored.lines if line.name.startswith(letter)]
