"""A slab scored: its field, its lines, its cells, and how it meets the joints that are there."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely

from floorwright.geometry.region import Region
from floorwright.pattern.cell import Placement
from floorwright.scoring.arc_rows import ArcRow, arc_rows
from floorwright.scoring.arcs import arcs_inside, cell_arcs, placed_arcs
from floorwright.scoring.cells import Cell, cells_of
from floorwright.scoring.clip import less, ring_runs, within
from floorwright.scoring.design import Area, Circle, Design, Frame, OldJoint, Point
from floorwright.scoring.landing import Search
from floorwright.scoring.lines import BORDER, PATTERN, ScoreLine, lines_of
from floorwright.scoring.meets import Crossing, Missed, crossings, missed_joints
from floorwright.scoring.overcut import over_cut
from floorwright.scoring.place import box_of, field_of, placement_of, rest_of, search_of, strips_of
from floorwright.scoring.runs import Run, merged, pattern_edges
from floorwright.scoring.slab import Slab
from floorwright.scoring.spokes import Spokes, spokes_of
from floorwright.scoring.stencil import Strips
from floorwright.scoring.stops import Around, stopped
from floorwright.scoring.swings import Swing
from floorwright.tolerance import ONE_CUT, TOUCH


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Scored:
    """What there is to cut.

    Attributes:
        design: as asked.
        frame: along the first line.
        nail: the corner that running figures are measured from.
        nail_at: floor mm.
        field: inside the border's line; None where the borders leave none, and then there are no lines either.
        lines: straight ones, with their stops.
        cells: between them.
        alike: pairs of neighbours of one colour, for want of a further one.
        joints: that are there.
        crossings: of the circles with them.
        missed: joints that the pattern does not sit on.
        search: of borders and squares; None where there is nothing to search.
        rest: mm of the last square along the first line and square to it, where they do not come out whole at the
            border's line; 0 where they do, and for other patterns.
        over_cut: mm, at a stop; see `overcut`.
        arcs: of the pattern, by rows of pivots, in the order in which they are cut.
        spokes: of the rings of circles.
        strips: of the stencil; None where there is none.
        slab: what its joints make of it; None where nobody asked.
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
    arcs: tuple[ArcRow, ...] = ()
    spokes: tuple[Spokes, ...] = ()
    rest: tuple[float, float] = (0.0, 0.0)
    strips: Strips | None = None
    slab: Slab | None = None
    outside: tuple[int, ...] = ()

    @property
    def is_cut(self) -> bool:
        """Whether there is anything to cut, or a line of the pattern at least on a joint that is there."""
        return bool(self.lines or self.arcs or (self.field is not None and self.design.circles and not self.outside))

    @property
    def straight(self) -> float:
        """mm of straight lines to cut, spokes among them."""
        return math.fsum((*(line.to_cut for line in self.lines), *(one.length for one in self.spokes)))

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
        """mm round the circles, and of arcs."""
        circles = (circle.length for circle in self.design.circles)
        return math.fsum((*circles, *(swing.length for row in self.arcs for swing in row.swings)))

    @property
    def stops(self) -> int:
        """Ends at which the saw must stop."""
        lines = sum(len(line.stops) for line in self.lines)
        return lines + sum(row.stops for row in self.arcs) + sum(2 * len(one.lines) for one in self.spokes)

    def area(self, colour: str) -> float:
        """mm2 of a colour."""
        return math.fsum(cell.area for cell in self.cells if cell.colour == colour)

    @property
    def cut_in_order(self) -> tuple[ScoreLine, ...]:
        """The lines with anything to cut, in the order in which they are cut after the circles: those that others stop
        at before those, so the border, then by how many stop at each, then from the nail."""
        ends: dict[str, int] = {}
        for line in self.lines:
            for stop in line.stops:
                ends[stop.on] = ends.get(stop.on, 0) + 1
        left = [line for line in self.lines if line.to_cut > 0]
        place = {line.name: number for number, line in enumerate(left)}
        return tuple(sorted(left, key=lambda line: (line.what != BORDER, -ends.get(line.name, 0), place[line.name])))


def score(
    *,
    design: Design,
    floor: Region,
    frame: Frame,
    joints: Sequence[OldJoint],
    nail: tuple[str, Point],
    ground: Region | None = None,
    tiled: bool = False,
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
        ground: what the field takes of it with its plain border; None for all.
        tiled: whether tiles lie on what is not scored: nothing is cut along their edge, and every cut stops there.
    """
    name, at = nail
    outside = tuple(number for number, circle in enumerate(design.circles, start=1) if not _is_on_slab(circle, floor))
    own = floor if ground is None else ground
    field = field_of(design, own, frame)
    empty = Scored(
        design=design,
        frame=frame,
        nail=name,
        nail_at=at,
        field=field,
        lines=(),
        cells=(),
        alike=0,
        joints=tuple(joints),
        crossings=(),
        missed=(),
        search=search_of(design, own, frame, [joint for joint in joints if _runs_through(joint, own)]),
        over_cut=over_cut(design.saw.depth, design.saw.blade),
        outside=outside,
    )
    return empty if field is None or outside else _cut(empty, field, floor=floor, ground=ground, tiled=tiled)


def _cut(empty: Scored, field: Region, *, floor: Region, ground: Region | None, tiled: bool) -> Scored:
    """All that is cut in a field and the other parts; `floor`, `ground` and `tiled` as for `score`."""
    design, frame, joints, nail = empty.design, empty.frame, empty.joints, empty.nail_at
    own = floor if ground is None else ground
    local = placement_of(design, field, frame, joints)
    areas = (_field_area(design, field, local, frame), *design.areas)
    whole = _together((own, *(area.region for area in design.areas)) if tiled else (floor,))
    plain = [circle for circle in design.circles if circle.plain]
    bordered = ground if ground is not None or not (design.ends or design.sides) else own
    runs = _runs(areas, bordered, whole, frame)
    unstopped = lines_of(runs, frame=frame, joints=joints, circles=plain, nail=nail)
    swings = _swings(areas, plain)
    lines, arc_stops = stopped(unstopped, Around(slab=floor, scored=whole, circles=plain, swings=swings))
    spokes = spokes_of(design.circles, frame, joints)
    cells, alike = cells_of(design=design, areas=areas, ground=own, spokes=spokes)
    return replace(
        empty,
        lines=lines,
        arcs=arc_rows(swings, arc_stops, areas[0].placement, np.asarray(nail)),
        spokes=spokes,
        cells=cells,
        alike=alike,
        rest=rest_of(design, local, field, frame),
        strips=strips_of(design, field, frame),
        crossings=tuple(crossings(design.circles, joints, frame)),
        missed=tuple(missed_joints(joints, lines, field, frame)),
    )


def _field_area(design: Design, field: Region, local: Placement, frame: Frame) -> Area:
    x, y = frame.floor(np.asarray(local.origin))
    return Area(
        zone=design.name,
        name=design.name,
        region=field,
        cell=design.cell,
        placement=Placement(origin=(float(x), float(y)), angle=local.angle + frame.angle),
        colours=design.colours,
        by_size=design.by_size,
    )


def _together(regions: Sequence[Region]) -> shapely.Geometry:
    """All of several regions, with joints of no width between them closed."""
    shapes = [shapely.Polygon(region.rings[0], region.rings[1:]) for region in regions]
    if len(shapes) == 1:
        return shapes[0]
    return shapely.union_all([shapely.buffer(shape, TOUCH, join_style="mitre") for shape in shapes])


def _runs(areas: Sequence[Area], ground: Region | None, whole: shapely.Geometry, frame: Frame) -> list[tuple[str, Run]]:
    """What is cut straight: the lines round the parts, then those of their patterns; none along the edge of it all.

    Args:
        areas: with patterns of their own, the field inside its plain border first.
        ground: that field with its border; None where it has none, and there are no other parts.
        whole: what may be cut.
        frame: along the first line.
    """
    outer = [np.asarray(ring.coords)[:-1] for part in shapely.get_parts(whole) for ring in _rings(part)]
    edges = ring_runs(outer, frame)
    bordered = () if ground is None else (ground, *(area.region for area in areas))
    sides = [np.stack([ring, np.roll(ring, -1, axis=0)], axis=1) for region in bordered for ring in region.rings]
    rim = less(merged(frame.local(np.concatenate(sides))), edges) if sides else ()
    found = [(BORDER, run) for run in rim]
    for area in areas:
        if area.cell is not None:
            local = _local(area.placement, frame)
            runs = merged(pattern_edges(area.cell, local, box_of(area.region, frame)))
            found += [(PATTERN, run) for run in less(tuple(within(runs, area.region, frame)), (*rim, *edges))]
    return found


def _rings(part: shapely.Polygon) -> tuple[shapely.LinearRing, ...]:
    return (part.exterior, *part.interiors)


def _local(placement: Placement, frame: Frame) -> Placement:
    u, v = frame.local(np.asarray(placement.origin))
    return Placement(origin=(float(u), float(v)), angle=placement.angle - frame.angle)


def _swings(areas: Sequence[Area], circles: Sequence[Circle]) -> tuple[Swing, ...]:
    """The arcs of the patterns, on the floor, as far as each lies in its part."""
    found: list[Swing] = []
    for area in areas:
        if area.cell is not None:
            box = np.array([area.region.rings[0].min(axis=0), area.region.rings[0].max(axis=0)])
            placed = placed_arcs(cell_arcs(area.cell), area.cell, area.placement, box)
            shape = shapely.Polygon(area.region.rings[0], area.region.rings[1:])
            found += arcs_inside(placed, shape, circles)
    return tuple(found)


def _is_on_slab(circle: Circle, floor: Region) -> bool:
    slab = shapely.Polygon(floor.rings[0], floor.rings[1:])
    middle = shapely.Point(circle.centre)
    return bool(slab.contains(middle) and shapely.distance(middle, slab.boundary) >= circle.radius)


def _runs_through(joint: OldJoint, region: Region) -> bool:
    area = shapely.Polygon(region.rings[0], region.rings[1:])
    return bool(shapely.intersection(shapely.LineString(joint.ends), area).length > ONE_CUT)


def colours(scored: Scored) -> tuple[tuple[str, float], ...]:
    """Returns every colour with its area, mm2, as they are named: the field's, the other parts', the border's, the
    circles'."""
    design = scored.design
    named = [
        *design.colours,
        *(colour for area in design.areas for colour in area.colours),
        design.border_colour,
        *(colour for circle in design.circles for colour in circle.colours),
    ]
    areas = {colour: scored.area(colour) for colour in named if colour}
    return tuple((colour, area) for colour, area in areas.items() if area)
