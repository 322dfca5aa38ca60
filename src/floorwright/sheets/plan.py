"""The room as every plan shows it: walls, openings, obstacles, names outside the work, and from where it is seen."""

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

import numpy as np

from floorwright.draw.lettering import text_width
from floorwright.draw.style import CAP_HEIGHT, Pen, Size, Tone
from floorwright.draw.view import Dimension, Fill, Item, Line, Point, Text
from floorwright.geometry.region import Points, Region
from floorwright.geometry.restore import restored_region
from floorwright.plan.room import Opening, Room, Wall
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import Box, Frame, box_of
from floorwright.tolerance import COINCIDENT

if TYPE_CHECKING:
    import shapely

CORNER_NAME: Final = 4.4
"""mm on paper from a corner to the middle of its name."""

APART: Final = 1.0
"""mm on paper between the names of two corners."""

BESIDE_OUT: Final = 0.7
"""Part of the way to a corner's name that leads out from a wall, where it stands beside the wall."""

ARROW: Final = 2.6
"""mm on paper, the length of the arrow at the door side."""

ARROW_GAP: Final = 1.2

FIGURE_HIGH: Final = 3.9
"""mm on paper from a dimension's line to the top of its figure, with some air."""

RADIUS_OUT: Final = 3.4
"""mm on paper from an arc to the middle of the figure of its radius."""

NEAR: Final = 0.02
"""Of an arc's length: so near to its end it runs much as it does there."""

WRITTEN_OUT: Final = 6.0
"""mm on paper outside a wall that numbers led out of it take."""

SECOND_ROW: Final = 2.0
"""How much farther from their walls dimensions may stand where several rooms crowd them."""

FIGURE_END: Final = 1.8
"""mm on paper that the figure of a dimension leaves of its line."""


def plan_box(region: Region) -> Box:
    """Returns the box about a floor with its reveals, mm."""
    return box_of(region.rings[0])


def paper_angle(frame: Frame, angle: float = 0.0) -> float:
    """Returns the floor angle at which a text stands at `angle` on the paper, radians."""
    return angle - frame.turn * math.pi / 2


def floor_items(room: Room, region: Region) -> tuple[Item, ...]:
    """Returns the bare floor under everything, and the obstacles on it."""
    rings = restored_region(region)
    slab = Fill(
        rings=tuple(_ring(ring.points) for ring in rings),
        tone=Tone.SLAB,
        bulges=tuple(ring.bulges for ring in rings) if region.circles else (),
    )
    return (slab, *obstacle_items(room))


def obstacle_items(room: Room) -> tuple[Item, ...]:
    """Returns the columns and pipes, hatched and outlined."""
    items: list[Item] = []
    for obstacle in room.obstacles:
        if obstacle.radius is not None:
            (x, y), radius, halves = obstacle.centre, obstacle.radius, (1.0, 1.0)
            ends = ((x - radius, y), (x + radius, y))
            items.append(Fill(rings=(ends,), tone=Tone.OBSTACLE, bulges=(halves,)))
            items.append(Line(points=ends, pen=Pen.OBSTACLE, closed=True, bulges=halves))
            continue
        outline = _ring(obstacle.outline)
        items += [Fill(rings=(outline,), tone=Tone.OBSTACLE), Line(points=outline, pen=Pen.OBSTACLE, closed=True)]
    return tuple(items)


def wall_items(room: Room) -> tuple[Item, ...]:
    """Returns the walls, broken at the openings, and the openings with their reveals."""
    items: list[Item] = []
    for wall in room.walls:
        arc = room.arc(wall.name)
        for start, end in _solid(room, wall):
            ends = (_point(room.place(wall.name, start)), _point(room.place(wall.name, end)))
            bulges = (math.tan((end - start) / arc.length * arc.sweep / 4),) if arc else ()
            items.append(Line(points=ends, pen=Pen.WALL, bulges=bulges))
        for opening in _openings(room, wall):
            near, far, out = _jambs(room, opening)
            if opening.reveal:
                near_out, far_out = _moved(near, out, opening.reveal), _moved(far, out, opening.reveal)
                items += [Line(points=(near, near_out), pen=Pen.WALL), Line(points=(far, far_out), pen=Pen.WALL)]
                items.append(Line(points=(near_out, far_out), pen=Pen.OPENING))
            items.append(Line(points=(near, far), pen=Pen.HIDDEN if opening.reveal else Pen.OPENING))
    return tuple(items)


def corner_names(room: Room, frame: Frame, *, inside: bool = False) -> tuple[Item, ...]:
    """Returns the names of the corners, on the bisector of each, outside the room.

    Args:
        room: whose.
        frame: of the drawing.
        inside: whether those of corners that turn in stand in the room, off the figures outside.
    """
    return tuple(
        Text(at=at, text=name, size=Size.TEXT, angle=paper_angle(frame), halo=True)
        for name, at, _ in _corner_places(room, frame, inside=inside)
    )


def _corner_places(room: Room, frame: Frame, *, inside: bool) -> list[tuple[str, Point, "shapely.Polygon"]]:
    """Returns the name of each corner, where its middle stands, and its box; none of jambs."""
    import shapely

    outline = room.corner_ring
    jambs = _corners_at_jambs(room)
    floor = shapely.Polygon(room.outline)
    found: list[tuple[str, Point, shapely.Polygon]] = []
    for n, corner in enumerate(room.corners):
        if corner.name in jambs:
            continue
        turns_in = inside and corner.angle > math.pi
        places = [_moved(_point(outline[n]), way, frame.paper(CORNER_NAME)) for way in _ways_out(room, n, turns_in)]
        boxes = [_name_box(at, corner.name, frame) for at in places]
        clear = (
            k
            for k, (at, box) in enumerate(zip(places, boxes, strict=True))
            if (turns_in or shapely.disjoint(floor, box))
            and math.dist(at, outline[n]) <= min(math.dist(at, other) for other in outline) + COINCIDENT
            and all(shapely.distance(box, other) > frame.paper(APART) for _, _, other in found)
        )
        best = next(clear, 0)
        found.append((corner.name, places[best], boxes[best]))
    return found


def _ways_out(room: Room, n: int, turns_in: bool) -> tuple[Point, ...]:
    """Returns unit directions from a corner to its name: on the bisector, or beside a wall of it where another room or
    name stands in the way; into the room where it turns in and its name is to stand there."""
    at = room.corner_ring[n]
    before, after = _beside(room, n)
    x, y = _outward(before, at, after)
    side = -1.0 if turns_in else 1.0
    beside = []
    for end, left in ((before, False), (after, True)):
        along = (end - at) / np.hypot(*(end - at))
        out = np.array([along[1], -along[0]]) if left else np.array([-along[1], along[0]])
        beside.append(_point(side * BESIDE_OUT * out + math.sqrt(1 - BESIDE_OUT**2) * along))
    return ((side * x, side * y), *beside)


def _name_box(at: Point, name: str, frame: Frame) -> "shapely.Polygon":
    """Returns the box of a corner's name, floor mm."""
    import shapely

    half = frame.paper(text_width(name, Size.TEXT)) / 2, frame.paper(CAP_HEIGHT[Size.TEXT]) / 2
    wide, high = half if frame.turn % 2 == 0 else half[::-1]
    return shapely.box(at[0] - wide, at[1] - high, at[0] + wide, at[1] + high)


def _corners_at_jambs(room: Room) -> set[str]:
    """The corners of doorways between rooms: a wall's thickness apart, too near for letters on both faces."""
    booked = {corner.name for one in room.rooms for corner in one.corners}
    return {corner.name for corner in room.corners} - booked if booked else set()


def _beside(room: Room, n: int) -> tuple[Points, Points]:
    """Returns points on the walls before and after a corner: their other ends, or of an arc one near by."""
    before, after = room.walls[n - 1], room.walls[n]
    arcs = room.arc(before.name), room.arc(after.name)
    near = [NEAR * arc.length if arc else 0.0 for arc in arcs]
    return (
        room.place(before.name, arcs[0].length - near[0]) if arcs[0] else room.ends(before.name)[0],
        room.place(after.name, near[1]) if arcs[1] else room.ends(after.name)[1],
    )


def wall_names(room: Room, frame: Frame, row: float) -> tuple[Item, ...]:
    """Returns the name of each wall along it, `row` mm on paper outside, at the middle of its longest solid part."""
    items = []
    jambs = _corners_at_jambs(room)
    for wall in room.walls:
        start, end = _longest_solid(room, wall)
        if end == start or jambs & {wall.start, wall.end}:
            continue
        middle = _point(room.place(wall.name, (start + end) / 2))
        along, out = _directions(room, wall, (start + end) / 2)
        name = f"wall {wall.name}"
        size = Size.SMALL if text_width(name, Size.SMALL) * frame.scale < end - start else None
        if size is not None:
            at = _moved(middle, out, frame.paper(row))
            items.append(Text(at=at, text=name, size=size, angle=math.atan2(along[1], along[0]), halo=True))
    return tuple(items)


def mid_wall(room: Room, wall: Wall) -> tuple[Point, Point] | None:
    """Returns the middle of the longest solid part of a wall, and the direction out of the room there; None where the
    wall is all opening."""
    start, end = _longest_solid(room, wall)
    if end == start:
        return None
    middle = (start + end) / 2
    return _point(room.place(wall.name, middle)), _directions(room, wall, middle)[1]


def door_place(room: Room, opening: Opening) -> tuple[Point, Point]:
    """Returns the middle of an opening at the outside of its reveal, and the direction out of the room."""
    near, far, out = _jambs(room, opening)
    return _moved(((near[0] + far[0]) / 2, (near[1] + far[1]) / 2), out, opening.reveal), out


def door_side(room: Room, frame: Frame, row: float) -> tuple[Item, ...]:
    """Returns an arrow into the room at each opening, and its name, `row` mm on paper outside."""
    items: list[Item] = []
    for opening in room.openings:
        near, far, out = _jambs(room, opening)
        near, far = _moved(near, out, opening.reveal), _moved(far, out, opening.reveal)
        along = (-out[1], out[0])
        wide = text_width(opening.name, Size.SMALL)
        middle = _moved(((near[0] + far[0]) / 2, (near[1] + far[1]) / 2), out, frame.paper(row))
        tip = _moved(middle, out, -frame.paper(ARROW / 2))
        tail = _moved(middle, out, frame.paper(ARROW / 2))
        half = frame.paper(ARROW * 0.4)
        base = tuple(_moved(tail, along, side) for side in (-half, half))
        items.append(Line(points=(tip, *base), pen=Pen.MARK, closed=True))
        at = _moved(middle, along, frame.paper(ARROW * 0.4 + ARROW_GAP + wide / 2))
        angle = math.atan2(along[1], along[0])
        items.append(Text(at=at, text=opening.name, size=Size.SMALL, angle=angle, halo=True))
    return tuple(items)


def wall_lengths(room: Room, figures: Figures, frame: Frame, offset: float) -> tuple[Item, ...]:
    """Returns the name and length of every wall as a dimension, `offset` mm on paper from it: outside it, or in the
    room where others stand in its way, as beside a corner that turns in.

    Where several rooms crowd them, they may stand in a second row, and a short wall has its length alone.
    """
    import shapely

    floor = shapely.Polygon(room.outline, [obstacle.outline for obstacle in room.obstacles])
    paper = shapely.box(*shapely.bounds(floor)).buffer(frame.paper(offset + FIGURE_HIGH), join_style="mitre")
    items: list[Item] = []
    lines: list[shapely.LineString] = []
    texts: list[shapely.Polygon] = []
    names = [box for _, _, box in _corner_places(room, frame, inside=True)] if room.rooms else []
    jambs = _corners_at_jambs(room)
    for wall in room.walls:
        if jambs >= {wall.start, wall.end}:
            continue
        _, out = _directions(room, wall)
        places = []
        for text, start, end, side in _dimensions(room, wall, figures):
            by = side * frame.paper(offset)
            ends = _moved(start, out, by), _moved(end, out, by)
            line, box = shapely.LineString(ends), _figure_box(ends, text, frame)
            crossed = sum(bool(shapely.intersects(box, other)) for other in (*lines, *texts, *names))
            crossed += sum(bool(shapely.intersects(line, other)) for other in texts)
            crossed += not bool(shapely.disjoint(box, floor) if side > 0 else shapely.contains(floor, box))
            crossed += bool(room.rooms) and not bool(shapely.covers(paper, box))
            # The outside lies to the left of the way from the wall's end to its start.
            left = side * offset * (1 if start == _point(room.ends(wall.name)[1]) else -1)
            made = Dimension(start=start, end=end, offset=left, text=text, size=Size.TEXT)
            places.append((crossed, line, box, made))
        _, line, box, made = min(places, key=lambda one: one[0])
        lines.append(line)
        texts.append(box)
        items.append(made)
    return tuple(items)


def _dimensions(room: Room, wall: Wall, figures: Figures) -> Iterator[tuple[str, Point, Point, float]]:
    """Yields how a wall's length may be told: the text, from where to where, and how many rows out of the room.

    A figure too long for its line stands past its end, so that it matters which end that is.
    """
    start, end = (_point(point) for point in room.ends(wall.name))
    figure = f"{'chord ' if wall.bulge else ''}{figures.room(math.dist(start, end))}"
    named = f"{wall.name}: {figure}"
    if not room.rooms:
        yield from ((named, end, start, side) for side in (1.0, -1.0))
        return
    for text in (named, figure):
        for side in (1.0, -1.0, SECOND_ROW, -SECOND_ROW):
            yield text, end, start, side
            yield text, start, end, side


def _figure_box(ends: tuple[Point, Point], text: str, frame: Frame) -> "shapely.Polygon":
    """Returns what the figure of a dimension may take on either side of its line, floor mm: in its middle, or past the
    end of one that is too short for it."""
    import shapely

    (x, y), length = (ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]), math.dist(*ends)
    along = (x / length, y / length)
    wide = frame.paper(text_width(text, Size.TEXT) + FIGURE_END)
    first, last = (length / 2 - wide / 2, length / 2 + wide / 2) if wide <= length else (length, length + wide)
    figure = shapely.LineString([_moved(ends[0], along, first), _moved(ends[0], along, last)])
    box = figure.buffer(frame.paper(FIGURE_HIGH), cap_style="flat")
    assert isinstance(box, shapely.Polygon)
    return box


def arc_sizes(room: Room, figures: Figures, frame: Frame) -> tuple[Item, ...]:
    """Returns the rise of every wall that is an arc as a dimension from its chord, and its radius outside it."""
    items: list[Item] = []
    for wall in room.walls:
        arc = room.arc(wall.name)
        if arc is None:
            continue
        (ax, ay), (bx, by) = arc.start, arc.end
        top = arc.at(arc.length / 2)
        text = figures.room(abs(arc.rise))
        items.append(Dimension(start=((ax + bx) / 2, (ay + by) / 2), end=top, offset=0.0, text=text, size=Size.TEXT))
        # Off the openings, which have names of their own outside them.
        start, end = max(_solid(room, wall), key=lambda part: part[1] - part[0], default=(0.0, arc.length))
        middle = (start + end) / 2
        along, out = _directions(room, wall, middle)
        at = _moved(arc.at(middle), out, frame.paper(RADIUS_OUT))
        radius = f"R {figures.room(arc.radius)}"
        items.append(Text(at=at, text=radius, size=Size.TEXT, angle=math.atan2(along[1], along[0]), halo=True))
    return tuple(items)


def out_of_chord(room: Room, wall: str, along: float, wide: float = 0.0) -> float:
    """Returns how far a wall's face lies out of the room from the line between its corners, mm, where it lies farthest
    out beside something `wide` mm at a place along that line; 0 for a straight wall."""
    arc = room.arc(wall)
    if arc is None:
        return 0.0
    places = (along - wide / 2, along, along + wide / 2)
    return max(arc.offset(min(max(place, 0.0), arc.chord)) for place in places)


def outward(room: Room, wall: str) -> tuple[Point, Point]:
    """Returns the unit directions along a wall, start to end, and square out of the room."""
    return _directions(room, room.wall(wall))


def backed_walls(room: Room, frame: Frame) -> frozenset[str]:
    """Returns the walls that stand so near to another part of the floor that nothing can be written outside them."""
    import shapely

    if not room.rooms:
        return frozenset()
    floor = shapely.Polygon(room.outline)
    found = []
    for wall in room.walls:
        start, end = room.ends(wall.name)
        _, out = _directions(room, wall)
        near, far = (
            [_moved(_point(point), out, frame.paper(off)) for point in (start, end)] for off in (0.0, WRITTEN_OUT)
        )
        if shapely.intersection(floor, shapely.Polygon([*near, *reversed(far)])).area > frame.paper(1.0) ** 2:
            found.append(wall.name)
    return frozenset(found)


def least_row(size: Size) -> float:
    """Returns mm on paper from a wall to the middle of a line of text that stands just clear of it."""
    return 1.6 + CAP_HEIGHT[size] / 2


def _solid(room: Room, wall: Wall) -> list[tuple[float, float]]:
    """Returns the parts of a wall between its openings, mm along its face from its start."""
    stops = [0.0]
    for opening in _openings(room, wall):
        stops += [opening.start, opening.start + opening.width]
    stops.append(room.length(wall.name))
    return [(a, b) for a, b in zip(stops[::2], stops[1::2], strict=True) if b > a]


def _longest_solid(room: Room, wall: Wall) -> tuple[float, float]:
    return max(_solid(room, wall), key=lambda part: part[1] - part[0], default=(0.0, 0.0))


def _openings(room: Room, wall: Wall) -> list[Opening]:
    return sorted((opening for opening in room.openings if opening.wall == wall.name), key=lambda one: one.start)


def _jambs(room: Room, opening: Opening) -> tuple[Point, Point, Point]:
    """Returns both sides of an opening in the wall's face, and the direction out of the room."""
    near = room.place(opening.wall, opening.start)
    far = room.place(opening.wall, opening.start + opening.width)
    x, y = (far - near) / np.hypot(*(far - near))
    return _point(near), _point(far), (float(y), -float(x))


def _directions(room: Room, wall: Wall, along: float | None = None) -> tuple[Point, Point]:
    """Returns the unit directions along a wall and square out of the room; of an arc at a place along it, else those
    of its chord."""
    arc = room.arc(wall.name)
    if arc is not None and along is not None:
        angle = arc.heading(along)
        return (math.cos(angle), math.sin(angle)), (math.sin(angle), -math.cos(angle))
    start, end = room.ends(wall.name)
    x, y = (end - start) / np.hypot(*(end - start))
    return (float(x), float(y)), (float(y), -float(x))


def _outward(before: Points, at: Points, after: Points) -> Point:
    """Returns the unit bisector out of a corner of an anticlockwise outline."""
    into = (at - before) / np.hypot(*(at - before))
    out_of = (after - at) / np.hypot(*(after - at))
    normal = np.array([into[1] + out_of[1], -into[0] - out_of[0]])
    length = float(np.hypot(*normal))
    return _point(normal / length) if length else _point(into)


def _moved(point: Point, direction: Point, distance: float) -> Point:
    return point[0] + direction[0] * distance, point[1] + direction[1] * distance


def _point(array: Points) -> Point:
    return float(array[0]), float(array[1])


def _ring(ring: Points) -> tuple[Point, ...]:
    return tuple(_point(point) for point in ring)


def rings_of(rings: tuple[Points, ...]) -> Iterator[tuple[Point, ...]]:
    """Yields rings as tuples of points."""
    return (_ring(ring) for ring in rings)
