"""Gauge rods: a lath with every joint of one direction on it, running from the line that it is held to."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from floorwright.control.sight import unit
from floorwright.layout.layout import Layout
from floorwright.pattern.cell import LineFamily
from floorwright.setout.course import Course
from floorwright.setout.snap import SnapLine, SnapList
from floorwright.tolerance import TOUCH

ALIKE: Final = 0.5
"""Of a tile. End cuts that differ by more than this from course to course are no figure for a rod."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RodJoint:
    """A joint on the rod.

    Attributes:
        line: name of the line down its middle: `columns 3`.
        start, end: mm from the zero: where the tile before it ends, where the one after it begins. Below 0 for the
            tile edge on the near side of the zero line itself.
        phase: 0; in a bond the number of the course, counted from 0 and starting again, that has a joint there.
    """

    line: str
    start: float
    end: float
    phase: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class EndCut:
    """The cut beyond an end of the rod: what it measures from course to course, mm, and the wall that it meets."""

    wall: str
    least: float
    most: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Rod:
    """A gauge rod for one direction of a zone.

    Attributes:
        name: of its lines: `columns`.
        zone: of the floor.
        zero: name of the line that its zero is held to, the nearest to the nail.
        joints: in order from the zero, that one first.
        before, after: the cuts beyond its two ends; None where there is none, or none alike enough to say.
        phases: 1; in a bond how many courses it takes until joints fall in the same places again.
    """

    name: str
    zone: str
    zero: str
    joints: tuple[RodJoint, ...]
    before: EndCut | None
    after: EndCut | None
    phases: int = 1

    @property
    def length(self) -> float:
        """mm from the zero to the last tile edge marked."""
        return self.joints[-1].end


def gauge_rods(*, snap: SnapList, layouts: Sequence[Layout], courses: Sequence[Sequence[Course]]) -> tuple[Rod, ...]:
    """Returns a rod for each family of lines of each zone.

    The zero is a snapped line and no wall, so that the rod fits at any place along the line: where the walls are
    crooked only the cuts beyond its ends vary, and the rod tells from what to what.

    Args:
        snap: the lines, running from the nail.
        layouts: of the zones.
        courses: of each layout.
    """
    return tuple(
        rod
        for layout, rows in zip(layouts, courses, strict=True)
        for family in layout.cell.lines
        if (rod := _rod(snap, layout, rows, family, f"{layout.zone} " if len(layouts) > 1 else "")) is not None
    )


def _rod(snap: SnapList, layout: Layout, courses: Sequence[Course], family: LineFamily, prefix: str) -> Rod | None:
    lines = [line for line in snap.lines if line.family == f"{prefix}{family.name}"]
    if not lines:
        return None
    zero, half = lines[0].running, layout.cell.joint / 2
    phases = 1 if family.through else max(1, round(_repeat(layout, family) / family.spacing))
    joints = tuple(
        RodJoint(
            line=line.name,
            start=line.running - zero - half,
            end=line.running - zero + half,
            phase=round((line.running - zero) / family.spacing) % phases,
        )
        for line in lines
    )
    ends = _end_cuts(courses, across_columns=_is_along_x(family), tile=_repeat(layout, family) - layout.cell.joint)
    before, after = ends if _runs_with_pattern(layout, family, lines) else ends[::-1]
    return Rod(
        name=family.name, zone=layout.zone, zero=lines[0].name, joints=joints, before=before, after=after, phases=phases
    )


def _is_along_x(family: LineFamily) -> bool:
    """Whether the rod of a family lies along the pattern's x: its lines run square to that."""
    return abs(float(unit(family.angle)[1])) > 1 - TOUCH


def _repeat(layout: Layout, family: LineFamily) -> float:
    """From a joint to the next one along a course, mm."""
    size = layout.cell.size[0 if _is_along_x(family) else 1]
    return size + layout.cell.joint


def _runs_with_pattern(layout: Layout, family: LineFamily, lines: Sequence[SnapLine]) -> bool:
    """Whether the rod, away from the nail, runs the way of the pattern's own x or y."""
    if len(lines) < 2 or not lines[0].marks or not lines[-1].marks:
        return True
    first, last = lines[0].marks[0], lines[-1].marks[0]
    way = unit(layout.chosen.placement.angle + (0.0 if _is_along_x(family) else math.pi / 2))
    return float((last.x - first.x) * way[0] + (last.y - first.y) * way[1]) >= 0


def _end_cuts(courses: Sequence[Course], *, across_columns: bool, tile: float) -> tuple[EndCut | None, EndCut | None]:
    """The cuts at the low and the high end of the courses that a rod is held along."""
    kind = "row" if across_columns else "column"
    along = [course for course in courses if course.name.split()[0] == kind]
    whole = [course for course in along if "," not in course.name] or along
    low, high = (_alike(list(_ends(whole, end)), tile) for end in (0, -1))
    return low, high


def _ends(courses: Sequence[Course], end: int) -> Iterator[tuple[str, float]]:
    for course in courses:
        laid = [part for part in course.parts if part.kind in ("cut", "tile")]
        if laid:
            yield course.walls[end], laid[end].length


def _alike(ends: Sequence[tuple[str, float]], tile: float) -> EndCut | None:
    walls = list(dict.fromkeys(wall for wall, _ in ends))
    if len(walls) != 1:
        return None
    lengths = [length for _, length in ends]
    least, most = min(lengths), max(lengths)
    return EndCut(wall=walls[0], least=least, most=most) if most - least <= ALIKE * tile else None
