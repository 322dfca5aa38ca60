"""The snap list: every line of the pattern in order, from one nail."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from floorwright.control.centre import on_wall
from floorwright.control.control import Control, ControlLine, Mark
from floorwright.control.lines import in_corner, wall_mark
from floorwright.control.sight import Point, meetings, spans, step, unit
from floorwright.errors import FloorwrightValueError
from floorwright.geometry.measure import distance_to_segments
from floorwright.geometry.region import Points, Region
from floorwright.geometry.straight import Straight, through
from floorwright.layout.grounds import Meeting
from floorwright.layout.layout import Layout
from floorwright.pattern.cell import LineFamily, Placement
from floorwright.plan.room import Corner, Room
from floorwright.tolerance import ALONG, COINCIDENT, TOUCH

GRAZE: Final = 1.0
"""mm. A line that has less floor than this on one side of it all along is not worth snapping."""


THRESHOLD: Final = "threshold"
"""The family of lines where the floor breaks between rooms."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SnapLine:
    """A line to snap.

    Attributes:
        name: `rows 1`, `columns 7`, `first line`, `45 left`.
        family: name of its family, or `control`.
        running: mm from the zero, measured square to the line (for a 45: of the centre, along the first line). Below 0
            where the line runs on the other side of the zero than the rest of its family.
        angle: radians from x.
        marks: where it meets the walls, both ends (more where the room is not convex: the outermost two).
        through: whether a joint runs down it unbroken.
        joint: whether it is the middle of joints at all, and not on corners or middles of pieces.
    """

    name: str
    family: str
    running: float
    angle: float
    marks: tuple[Mark, ...]
    through: bool = True
    joint: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class SnapList:
    """Attributes:
    zero: name of the corner with the nail that every running figure is measured from.
    lines: in the order in which they are snapped: control lines first.
    """

    zero: str
    lines: tuple[SnapLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ZoneLine:
    """A line down the middle of the joint between two zones.

    Attributes:
        name: its own, `border S`.
        zone: the one outside, or `threshold` where the floor breaks between rooms.
        line: see there.
        ends: (2, 2) mm, of one that runs from jamb to jamb; None for one that is snapped from wall to wall.
    """

    name: str
    zone: str
    line: Straight
    ends: Points | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Family:
    """The lines of a family that are worth snapping.

    Attributes:
        name, angle, through, joint: as in `SnapLine`.
        across: direction of their normal, radians.
        at: mm along the normal from the floor's origin, in order.
    """

    name: str
    angle: float
    across: float
    at: tuple[float, ...]
    through: bool
    joint: bool


def snap_list(
    *,
    room: Room,
    control: Control,
    layouts: Sequence[Layout] = (),
    meetings_of_zones: Sequence[ZoneLine] = (),
    zero: str | None = None,
) -> SnapList:
    """Returns the lines to snap: the control lines, then every line of the patterns, running from one nail.

    Lines of a pattern that run nowhere in their zone, or graze it (`GRAZE`), are left out. Along the walls, every mark
    is measured from the corner on the nail's side, so that all figures grow away from the nail.

    Args:
        room: as adjusted.
        control: its lines.
        layouts: of the zones; with more than one, lines are named after their zone too.
        meetings_of_zones: lines down the joint between a border and what lies inside it, and where the floor breaks
            between rooms.
        zero: name of the corner for the nail. By default the one that most figures are positive from, and of those the
            first as booked.

    Raises:
        FloorwrightValueError: the room has no corner of that name.
    """
    families = [family for layout in layouts for family in _families(layout, layout.zone if len(layouts) > 1 else "")]
    nail = _nail(room, families, zero)
    sd = max((mark.sd for line in control.lines for mark in line.marks), default=0.0)
    lines = [_control_line(room, line, control, nail) for line in control.lines]
    for line in meetings_of_zones:
        made = _snapped(room, _zone_family(line), nail, sd, line.name)
        if line.ends is not None:
            made = [replace(one, marks=_jamb_marks(room, line.name, line.ends, sd)) for one in made]
        lines += made
    for family in families:
        lines += _snapped(room, family, nail, sd)
    return SnapList(zero=nail.name, lines=tuple(lines))


def zone_lines(layouts: Sequence[Layout]) -> tuple[ZoneLine, ...]:
    """Returns the lines down the joints between the sides of borders and what lies inside them."""
    strips = [(layout, layout.part.strip) for layout in layouts if layout.part is not None and layout.part.strip]
    return tuple(
        ZoneLine(
            name=layout.zone,
            zone=layout.part.zone if layout.part else layout.zone,
            line=strip.inner.moved(strip.joint_inside / 2),
        )
        for layout, strip in strips
    )


def break_lines(meetings_of_fields: Sequence[Meeting]) -> tuple[ZoneLine, ...]:
    """Returns the lines where the floor breaks between rooms."""
    return tuple(
        ZoneLine(
            name=meeting.threshold.name,
            zone=THRESHOLD,
            line=through(meeting.threshold.start, meeting.threshold.end),
            ends=np.array([meeting.threshold.start, meeting.threshold.end]),
        )
        for meeting in meetings_of_fields
    )


def _jamb_marks(room: Room, name: str, ends: Points, sd: float) -> tuple[Mark, ...]:
    """A mark at either end of a line between two jambs, each from the nearer corner of the wall that it ends at."""
    run = ends[1] - ends[0]
    marks: list[Mark] = []
    face: Points | Point = ends[0]
    for end, letter in zip(ends, "ab", strict=True):
        away = [
            (round(float(distance_to_segments(end, start, stop)[0, 0]) / TOUCH), n)
            for n, wall in enumerate(room.walls)
            for start, stop in [room.ends(wall.name)]
            if not wall.bulge and abs(_sine(run, stop - start)) > math.sin(ALONG)
        ]
        wall = room.walls[min(away)[1]]
        corners = [room.corner(corner) for corner in (wall.start, wall.end)]
        # Half way through a wall both corners are as near: then both marks are measured from one face of it.
        near = min(corners, key=lambda corner: _nearness(corner, end, face))
        face = (near.x, near.y)
        distance = math.dist(face, end)
        x, y = end.tolist()
        marks.append(Mark(name=f"{name} {letter}", on=wall.name, start=near.name, distance=distance, x=x, y=y, sd=sd))
    return tuple(marks)


def _nearness(corner: Corner, end: Points, face: Points | Point) -> tuple[int, int]:
    return round(math.dist((corner.x, corner.y), end) / TOUCH), round(math.dist((corner.x, corner.y), face) / TOUCH)


def _sine(one: Points, other: Points) -> float:
    return float(one[0] * other[1] - one[1] * other[0]) / (math.hypot(*one) * math.hypot(*other))


def _zone_family(line: ZoneLine) -> _Family:
    normal = line.line.normal
    across = math.atan2(normal[1], normal[0])
    return _Family(
        name=line.zone, angle=across - math.pi / 2, across=across, at=(line.line.reach,), through=True, joint=True
    )


def _families(layout: Layout, zone: str) -> list[_Family]:
    """The families of a zone's pattern with the lines that run in the zone."""
    placement = layout.chosen.placement
    return [
        _Family(
            name=f"{zone} {lines.name}".lstrip(),
            angle=placement.angle + lines.angle,
            across=placement.angle + lines.angle + math.pi / 2,
            at=_running_in(layout.region, lines, placement),
            through=lines.through,
            joint=lines.joint,
        )
        for lines in layout.cell.lines
    ]


def _running_in(region: Region, lines: LineFamily, placement: Placement) -> tuple[float, ...]:
    """Where the lines of a family run in a region, along their normal from the floor's origin, in order, mm."""
    angle = placement.angle + lines.angle
    normal = unit(angle + math.pi / 2)
    base = float(np.asarray(placement.origin) @ normal) + lines.offset
    off = region.rings[0] @ normal - base
    first, last = math.ceil(off.min() / lines.spacing), math.floor(off.max() / lines.spacing)
    places = [base + number * lines.spacing for number in range(first, last + 1)]
    return tuple(place for place in places if _is_inside(region, place, angle))


def _is_inside(region: Region, place: float, angle: float) -> bool:
    """Whether a line has floor on both sides of it."""
    return all(spans(region, _foot(place + side, angle), angle) for side in (-GRAZE, GRAZE))


def _foot(place: float, angle: float) -> Point:
    """The point of a line nearest the floor's origin."""
    return step((0.0, 0.0), angle + math.pi / 2, place)


def _nail(room: Room, families: Sequence[_Family], zero: str | None) -> Corner:
    if zero is not None:
        named = [corner for corner in room.corners if corner.name == zero]
        if not named:
            known = ", ".join(corner.name for corner in room.corners)
            raise FloorwrightValueError(f"no corner {zero!r} for the nail; there are {known}")
        return named[0]

    def behind(corner: Corner) -> int:
        return sum(figure < -COINCIDENT for family in families for figure in _running(family, corner)[1])

    return min(room.corners, key=behind)


def _running(family: _Family, nail: Corner) -> tuple[int, list[float]]:
    """Which way a family is measured from a nail, 1 along its normal and -1 against it, and its figures.

    The way that the greater part of them is positive; from the left and the foot of the pattern where both ways are
    alike.
    """
    start = float(np.array([nail.x, nail.y]) @ unit(family.across))
    figures = [place - start for place in family.at]
    way = 1 if round(math.fsum(figures) / TOUCH) >= 0 else -1
    return way, [way * figure for figure in figures]


def _snapped(room: Room, family: _Family, nail: Corner, sd: float, own: str = "") -> list[SnapLine]:
    way, figures = _running(family, nail)
    in_order = sorted(zip(figures, family.at, strict=True))
    return [
        SnapLine(
            name=own or f"{family.name} {number}",
            family=family.name,
            running=running,
            angle=math.remainder(family.angle, math.tau),
            marks=_marks(room, own or f"{family.name} {number}", place, family, way, sd),
            through=family.through,
            joint=family.joint,
        )
        for number, (running, place) in enumerate(in_order, start=1)
    ]


def _marks(room: Room, name: str, place: float, family: _Family, way: int, sd: float) -> tuple[Mark, ...]:
    """The outermost two marks of a line on the walls, each from the end of its wall that the figures grow from."""
    foot = _foot(place, family.angle)
    found = meetings(room.outline, foot, family.angle)
    if not found:
        return ()
    marks = []
    for end, letter in ((found[0], "a"), (found[-1], "b")):
        meeting = in_corner(room, on_wall(room, end))
        start, stop = room.ends(room.walls[meeting.edge].name)
        grows = way * float((stop - start) @ unit(family.across)) >= 0.0
        at = step(foot, family.angle, meeting.at)
        marks.append(wall_mark(room, meeting, at, f"{name} {letter}", sd=sd, from_end=not grows))
    return tuple(marks)


def _control_line(room: Room, line: ControlLine, control: Control, nail: Corner) -> SnapLine:
    """A control line in the list: how far it is from the nail, its marks from the corners nearest the nail."""
    first = control.lines[0].angle
    square_to = line.angle if line.name in ("first line", "square line") else first + math.pi / 2
    gap = np.asarray(control.centre) - np.array([nail.x, nail.y])
    running = abs(float(gap @ unit(square_to + math.pi / 2)))
    marks = tuple(_from_nail(room, mark, nail) for mark in line.marks)
    return SnapLine(name=line.name, family="control", running=running, angle=line.angle, marks=marks)


def _from_nail(room: Room, mark: Mark, nail: Corner) -> Mark:
    """A mark measured from the end of its wall that is nearer to the nail."""
    wall = room.wall(mark.on)
    ends = [room.corner(wall.start), room.corner(wall.end)]
    start = min(ends, key=lambda end: round(math.dist((end.x, end.y), (nail.x, nail.y)) / TOUCH))
    if wall.bulge:
        distance = mark.distance if start.name == mark.start else room.length(wall.name) - mark.distance
        return replace(mark, start=start.name, distance=distance)
    return replace(mark, start=start.name, distance=math.dist((start.x, start.y), (mark.x, mark.y)))
