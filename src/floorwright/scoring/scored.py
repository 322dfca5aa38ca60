"""A slab scored: its field, its lines, its cells, and how it meets the joints that are there."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
import shapely

from floorwright.geometry.inset import inset_parts
from floorwright.geometry.region import Points, Region
from floorwright.pattern.cell import Placement
from floorwright.scoring.cells import BORDER, Cell, cells_of
from floorwright.scoring.design import Circle, Design, Frame, OldJoint, Point
from floorwright.scoring.landing import Axis, Search, search
from floorwright.scoring.lines import Part, ScoreLine, chord_in, cut_lines, edge_runs, overlap, run_between
from floorwright.scoring.overcut import over_cut
from floorwright.scoring.runs import merged, pattern_edges
from floorwright.scoring.stencil import Strips, strips
from floorwright.tolerance import ALONG, ONE_CUT

GRID: Final = "grid"
"""The pattern whose squares and borders are searched for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """Where a circle crosses a joint that is there.

    Attributes:
        joint: its name.
        half: mm either side of where the joint passes the circle's centre; 0 where it only runs beside it.
        off: mm from the joint to the circle's centre.
        points: floor mm.
    """

    joint: str
    half: float
    off: float
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Missed:
    """A joint that no line of the pattern lies on all the way through the field.

    Attributes:
        joint: its name.
        off: mm to the nearest line that runs along it; None where none does.
    """

    joint: str
    off: float | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Scored:
    """What there is to cut.

    Attributes:
        design: as asked.
        frame: along the first line.
        nail: the corner that running figures are measured from.
        nail_at: floor mm.
        field: inside the border's line; None where the borders leave none, and then there are no lines either.
        lines: see `lines.cut_lines`.
        cells: between them.
        alike: pairs of neighbours of one colour, for want of a further one.
        joints: that are there.
        crossings: of the circles with them.
        missed: joints that the pattern does not sit on.
        search: of borders and squares; None where there is nothing to search.
        rest: mm of the last square along the first line and square to it, where they do not come out whole at the
            border's line; 0 where they do, and for other patterns.
        over_cut: mm, at a stop; see `overcut`.
        strips: of the stencil; None where there is none.
        outside: circles, by number from 1, that do not lie on the slab whole.
    """

    design: Design
    frame: Frame
    nail: str
    nail_at: Point
    field: Region | None
    lines: tuple[ScoreLine, ...]
    cells: tuple[Cell, ...]
    alike: int
    joints: tuple[OldJoint, ...]
    crossings: tuple[Crossing, ...]
    missed: tuple[Missed, ...]
    search: Search | None
    over_cut: float
    rest: tuple[float, float] = (0.0, 0.0)
    strips: Strips | None = None
    outside: tuple[int, ...] = ()

    @property
    def straight(self) -> float:
        """mm of straight lines to cut."""
        return math.fsum(line.to_cut for line in self.lines)

    @property
    def lost(self) -> float:
        """mm that come off because of circles."""
        return math.fsum(line.lost for line in self.lines)

    @property
    def there(self) -> float:
        """mm of the pattern that are there already."""
        return math.fsum(line.there for line in self.lines)

    @property
    def round(self) -> float:
        """mm round the circles."""
        return math.fsum(circle.length for circle in self.design.circles)

    @property
    def stops(self) -> int:
        """Ends at which the saw must stop."""
        return sum(len(line.stops) for line in self.lines)

    def area(self, colour: str) -> float:
        """mm2 of a colour."""
        return math.fsum(cell.area for cell in self.cells if cell.colour == colour)

    @property
    def cut_in_order(self) -> tuple[ScoreLine, ...]:
        """The lines with anything to cut, in the order in which they are cut after the circles: those that others stop
        at before those, so the border, then by how many stop at each, then the longest, then from the nail."""
        ends: dict[str, int] = {}
        for line in self.lines:
            for stop in line.stops:
                ends[stop.on] = ends.get(stop.on, 0) + 1
        left = [line for line in self.lines if line.to_cut > 0]
        place = {line.name: number for number, line in enumerate(left)}
        return tuple(sorted(left, key=lambda line: (line.what != BORDER, -ends.get(line.name, 0), place[line.name])))


def score(
    *, design: Design, floor: Region, frame: Frame, joints: Sequence[OldJoint], nail: tuple[str, Point]
) -> Scored:
    """Returns what there is to cut.

    The pattern starts in the corner of the field nearest the nail's frame, whole from the border's line; turned, it
    stands on the frame's origin. Where its lines all come within half a step of the joints, it is laid on them, and
    the borders take the difference.

    Args:
        design: as asked.
        floor: the slab.
        frame: along the first line, at the centre.
        joints: there already.
        nail: name and place of the corner that figures run from.
    """
    name, at = nail
    outside = tuple(number for number, circle in enumerate(design.circles, start=1) if not _is_on_slab(circle, floor))
    field = _field(design, floor, frame)
    found = _search(design, floor, frame, joints)
    cut = over_cut(design.saw.depth, design.saw.blade)
    empty = Scored(
        design=design,
        frame=frame,
        nail=name,
        nail_at=at,
        field=None,
        lines=(),
        cells=(),
        alike=0,
        joints=tuple(joints),
        crossings=(),
        missed=(),
        search=found,
        over_cut=cut,
        outside=outside,
    )
    if field is None or outside:
        return replace(empty, field=field)
    local = _placement(design, field, frame, joints)
    runs = merged(pattern_edges(design.cell, local, _box(field, frame)))
    border = edge_runs(field, frame) if design.ends or design.sides else ()
    lines = cut_lines(
        runs=runs,
        border=border,
        field=field,
        floor=floor,
        frame=frame,
        joints=joints,
        circles=design.circles,
        nail=at,
    )
    x, y = frame.floor(np.asarray(local.origin))
    placed = Placement(origin=(float(x), float(y)), angle=local.angle + frame.angle)
    cells, alike = cells_of(design=design, placement=placed, floor=floor, field=field)
    return replace(
        empty,
        field=field,
        lines=lines,
        cells=cells,
        alike=alike,
        rest=_rest(design, local, field, frame),
        strips=_strips(design, field, frame),
        crossings=tuple(_crossings(design.circles, joints, frame)),
        missed=tuple(_missed(joints, lines, field, frame)),
    )


def _is_on_slab(circle: Circle, floor: Region) -> bool:
    slab = shapely.Polygon(floor.rings[0], floor.rings[1:])
    middle = shapely.Point(circle.centre)
    return bool(slab.contains(middle) and shapely.distance(middle, slab.boundary) >= circle.radius)


def _field(design: Design, floor: Region, frame: Frame) -> Region | None:
    """What the borders leave of the slab, its largest part; None where they leave nothing."""
    gaps = dict.fromkeys((name for names in floor.edges[1:] for name in names), 0.0)
    ring = floor.rings[0]
    for start, end, name in zip(ring, np.roll(ring, -1, axis=0), floor.edges[0], strict=True):
        run = run_between(*frame.local(np.array([start, end])))
        along = abs(math.remainder(run.angle, math.pi)) < math.pi / 4
        gaps[name] = design.sides if along else design.ends
    parts = inset_parts(floor, gaps)
    return parts[0] if parts else None


def _box(field: Region, frame: Frame) -> Points:
    ring = frame.local(field.rings[0])
    return np.array([ring.min(axis=0), ring.max(axis=0)])


def _placement(design: Design, field: Region, frame: Frame, joints: Sequence[OldJoint]) -> Placement:
    """Where the pattern lies in the frame."""
    if abs(math.remainder(design.angle, math.pi / 2)) > ALONG:
        return Placement(origin=(0.0, 0.0), angle=design.angle)
    u, v = _box(field, frame)[0]
    if design.cell.name != GRID or not design.limits:
        return Placement(origin=(float(u), float(v)), angle=design.angle)
    length, width = design.cell.size
    along, across = _along_axes(joints, frame)
    return Placement(
        origin=(
            float(u) + _shift([at - u for at in across], length, design.limits.step),
            float(v) + _shift([at - v for at in along], width, design.limits.step),
        ),
        angle=design.angle,
    )


def _strips(design: Design, field: Region, frame: Frame) -> Strips | None:
    sheet = design.stencil
    if sheet is None:
        return None
    low, high = _box(field, frame)
    along, across = (float(side) for side in high - low)
    return strips(across, along, width=sheet.width, length=sheet.length, overlap=sheet.overlap)


def _rest(design: Design, local: Placement, field: Region, frame: Frame) -> tuple[float, float]:
    """What is left of the last square each way, where it is more than two cuts would leave."""
    if design.cell.name != GRID or abs(math.remainder(local.angle, math.pi / 2)) > ALONG:
        return 0.0, 0.0
    box = _box(field, frame)
    left = [float(box[1, axis] - local.origin[axis]) % design.cell.size[axis] for axis in (0, 1)]
    along, across = (
        rest if ONE_CUT < rest < size - ONE_CUT else 0.0 for rest, size in zip(left, design.cell.size, strict=True)
    )
    return along, across


def _shift(places: Sequence[float], size: float, step: float) -> float:
    """How far lines a size apart move to come on to the joints, if that is a trifle for each of them."""
    off = [math.remainder(place, size) for place in places]
    return sum(off) / len(off) if off and all(abs(one) <= step / 2 for one in off) else 0.0


def _along_axes(joints: Sequence[OldJoint], frame: Frame) -> tuple[list[float], list[float]]:
    """Where joints run: v of those along the first line, u of those square to it; others are left out."""
    along, across = [], []
    for joint in joints:
        ends = frame.local(np.asarray(joint.ends))
        du, dv = np.abs(ends[1] - ends[0])
        if dv <= ONE_CUT:
            along.append(float(ends[:, 1].mean()))
        elif du <= ONE_CUT:
            across.append(float(ends[:, 0].mean()))
    return along, across


def _search(design: Design, floor: Region, frame: Frame, joints: Sequence[OldJoint]) -> Search | None:
    """The search for borders and squares on a slab whose edges all run along the first line or square to it; None
    where they do not, where a joint runs askew, or where nothing is to be searched."""
    along, across = _along_axes(joints, frame)
    if design.limits is None or not joints or len(along) + len(across) < len(joints):
        return None
    ring = frame.local(floor.rings[0])
    edges: dict[int, list[tuple[float, int]]] = {0: [], 1: []}
    for start, end in zip(ring, np.roll(ring, -1, axis=0), strict=True):
        du, dv = end - start
        if abs(dv) <= ALONG * abs(du):
            edges[1].append((float(start[1] + end[1]) / 2, 1 if du > 0 else -1))
        elif abs(du) <= ALONG * abs(dv):
            edges[0].append((float(start[0] + end[0]) / 2, 1 if dv < 0 else -1))
        else:
            return None
    ends, sides = (
        Axis(
            edges=tuple((at - min(edges[axis])[0], side) for at, side in sorted(edges[axis])),
            joints=tuple(place - min(edges[axis])[0] for place in places),
        )
        for axis, places in ((0, across), (1, along))
    )
    return search(ends, sides, design.limits)


def _crossings(circles: Sequence[Circle], joints: Sequence[OldJoint], frame: Frame) -> Iterator[Crossing]:
    for circle in circles:
        centre = frame.local(np.asarray(circle.centre))
        for joint in joints:
            run = run_between(*frame.local(np.asarray(joint.ends)))
            chord = chord_in(run, circle, frame)
            if chord is None or chord[1] < run.start or chord[0] > run.end:
                continue
            points = [frame.floor(run.point(at)) for at in chord if run.start - ONE_CUT <= at <= run.end + ONE_CUT]
            off = float(centre @ np.array([-math.sin(run.angle), math.cos(run.angle)])) - run.off
            yield Crossing(
                joint=joint.name,
                half=(chord[1] - chord[0]) / 2,
                off=abs(off),
                points=tuple((float(x), float(y)) for x, y in points),
            )


def _missed(joints: Sequence[OldJoint], lines: Sequence[ScoreLine], field: Region, frame: Frame) -> Iterator[Missed]:
    """Joints that run through the field and of which less lies on lines than runs there."""
    area = shapely.Polygon(field.rings[0], field.rings[1:])
    parts = [part for line in lines for part in line.parts]
    for joint in joints:
        inside = shapely.intersection(shapely.LineString(joint.ends), area).length
        on = math.fsum(part.length for part in parts if part.there == joint.name)
        if inside - on > 2 * ONE_CUT:
            yield Missed(joint=joint.name, off=_nearest(joint, parts, frame) if on <= ONE_CUT else None)


def _nearest(joint: OldJoint, parts: Sequence[Part], frame: Frame) -> float | None:
    """mm from a joint to the nearest line beside it that runs its way."""
    run = run_between(*frame.local(np.asarray(joint.ends)))
    off = []
    for part in parts:
        other = run_between(*frame.local(np.array([part.start, part.end])))
        same = abs(math.remainder(other.angle - run.angle, math.pi)) <= ALONG
        if same and overlap(replace(other, off=run.off, angle=run.angle), run) is not None:
            off.append(abs(other.off - run.off))
    return min(off, default=None)


def colours(scored: Scored) -> tuple[tuple[str, float], ...]:
    """Returns every colour with its area, mm2, cells' first."""
    named = dict.fromkeys(cell.colour for cell in scored.cells if cell.colour)
    return tuple((colour, scored.area(colour)) for colour in named)
