"""Control: from the room and the person's choices to lines, ways to raise them and readings that prove them."""

import math
from dataclasses import replace

from floorwright.control.angled import Wanted, at_angle, is_raised
from floorwright.control.centre import obstacle_at
from floorwright.control.checks import check_readings
from floorwright.control.choices import Centre, FirstLine, Tools
from floorwright.control.control import Construction, Control, ControlLine, Mark
from floorwright.control.cross import place_cross
from floorwright.control.diagonal import four_equal_marks
from floorwright.control.lines import TURNS, between_marks, by_wall_marks, control_line, line_marks
from floorwright.control.midlines import mid_lines_finding
from floorwright.control.past import past_obstacles
from floorwright.control.sight import Point
from floorwright.control.station import Station
from floorwright.control.verdict import carried_with_straightedge, diagonal_verdict, square_verdict
from floorwright.control.ways import considered, not_as_asked, squares, taken
from floorwright.findings import Finding, Severity
from floorwright.geometry.region import Region
from floorwright.plan.room import Room
from floorwright.units import LengthStyle


def set_control(
    *,
    room: Room,
    region: Region,
    first: FirstLine,
    centre: Centre,
    tools: Tools,
    joint: float,
    style: LengthStyle,
    wanted: tuple[Wanted, ...] = (),
) -> Control:
    """Returns the control lines of a room, the ways to raise them with their accuracy, and the check readings.

    The first line runs to the right or up the plan: its angle is in (-45, 135] degrees. The others pass through the
    same centre. Each line carries the accuracy of the construction taken: the one asked for, else the truest; a line
    that none can be fitted for is struck through its marks on the walls.

    Args:
        room: as adjusted.
        region: its floor wall to wall, obstacles as holes, door reveals included.
        first: how the first line is found.
        centre: how the centre is found. A centre off a first line with a place of its own is moved square onto it.
        tools: to hand.
        joint: mm, the narrowest that the drift is held against; 0 where there is none yet.
        style: how lengths print in findings.
        wanted: lines at other angles that patterns ask for; those that fit nowhere are told of.
    """
    cross = place_cross(room, region, first, centre, style)
    station = cross.station
    marks = _marks(room, cross.centre, cross.angle, tools)
    constructions = _constructions(room, station, marks, tools)
    best = {made.makes: made for made in constructions if made.chosen}
    angled = {line.name: at_angle(station, tools, line) for line in wanted if not is_raised(line.angle)}
    lines = tuple(
        control_line(room, name, cross.centre, _turned(cross.angle, name), marks[name], best[name].sd_angle, tools)
        for name in TURNS
    )
    past, blocked = past_obstacles(room, station, lines, tools, style)
    mid_lines = mid_lines_finding(
        room,
        cross.wall or room.walls[0].name,
        joint,
        station.handy,
        style,
        is_used=first.by == "mid-points",
    )
    findings = [
        *cross.findings,
        *([mid_lines] if mid_lines else []),
        *_named_twice(room, lines, constructions),
        *_in_the_way(room, lines),
        *blocked,
        *carried_with_straightedge(lines[1], best["square line"], joint, tools, style),
        *_unfitted(best),
        *not_as_asked(constructions, tools),
        *(_no_room(name) for name, made in angled.items() if made is None),
        *_verdicts(lines, best, joint, tools, style, station),
    ]
    return Control(
        centre=cross.centre,
        centre_how=cross.centre_how,
        first_how=cross.first_how,
        lines=lines,
        constructions=(*constructions, *(replace(made, chosen=True) for made in angled.values() if made), *past),
        checks=check_readings(room, station, lines, constructions, tools, style),
        findings=tuple(findings),
        considered=considered(constructions, tools),
    )


def _turned(angle: float, name: str) -> float:
    """The direction of a line, radians in (-pi, pi]."""
    turned = math.remainder(angle + TURNS[name], math.tau)
    return math.pi if turned == -math.pi else turned


def _named_twice(room: Room, lines: tuple[ControlLine, ...], made: tuple[Construction, ...]) -> list[Finding]:
    """Warns of corners that are called as a mark is: on a sheet `X1` must be one place."""
    names = {mark.name for line in lines for mark in line.marks}
    names |= {name for one in made for step in one.steps for name, _, _ in step.points}
    twice = [corner.name for corner in room.corners if corner.name in names]
    if not twice:
        return []
    return [
        Finding(
            code="control-name-twice",
            severity=Severity.WARNING,
            place=f"corner {', '.join(twice)}",
            found=f"called as marks are called on the sheets: {', '.join(twice)}",
            expected="names of corners other than E, F, L, M, S, X or Y with a number",
            remedy="give those corners other names",
        )
    ]


def _marks(room: Room, centre: Point, angle: float, tools: Tools) -> dict[str, tuple[Mark, ...]]:
    """The marks on the walls of every control line, named M1 to M8."""
    return {
        name: line_marks(room, centre, _turned(angle, name), (f"M{2 * index + 1}", f"M{2 * index + 2}"), tools)
        for index, name in enumerate(TURNS)
    }


def _constructions(
    room: Room, station: Station, marks: dict[str, tuple[Mark, ...]], tools: Tools
) -> tuple[Construction, ...]:
    """Every way that fits, the one to take of each line chosen. The 45s are raised on the square that was chosen."""
    base = between_marks(room, marks["first line"], station.angle)
    first = by_wall_marks("first line", marks["first line"], station.centre, base)
    raised = squares(station, tools) or (_by_walls(room, "square line", marks, station.angle, base),)
    best = taken(raised, tools)
    diagonals = {made.makes: made for made in four_equal_marks(station, tools, best.sd_angle)}
    return (
        replace(first, chosen=True),
        *(replace(made, chosen=made is best) for made in raised),
        *(
            replace(diagonals.get(name) or _by_walls(room, name, marks, station.angle, base), chosen=True)
            for name in ("45 left", "45 right")
        ),
    )


def _by_walls(room: Room, name: str, marks: dict[str, tuple[Mark, ...]], angle: float, base: float) -> Construction:
    """A line that no construction fits, struck through its own marks: out by those and by the first line's."""
    own = between_marks(room, marks[name], _turned(angle, name))
    return by_wall_marks(name, marks[name], None, math.hypot(own, base))


def _in_the_way(room: Room, lines: tuple[ControlLine, ...]) -> list[Finding]:
    """Marks on the walls that an obstacle covers, or that fall in an opening."""
    found = []
    for line in lines:
        for mark in line.marks:
            obstacle = obstacle_at(room, (mark.x, mark.y))
            if obstacle is not None:
                found.append(
                    Finding(
                        code="control-mark-covered",
                        severity=Severity.WARNING,
                        place=f"{mark.name} on {mark.on}",
                        found=f"{obstacle.name} stands where the {line.name} meets {mark.on}",
                        expected="a mark that can be made",
                        remedy=f"mark the {line.name} on the floor in front of it",
                    )
                )
            elif (opening := _opening_at(room, mark)) is not None:
                found.append(
                    Finding(
                        code="control-mark-in-opening",
                        severity=Severity.NOTE,
                        place=f"{mark.name} on {mark.on}",
                        found=f"the {line.name} runs out through {opening}, where {mark.on} has no face to mark",
                        remedy="lay a straightedge across the opening and mark the floor on its line",
                    )
                )
    return found


def _opening_at(room: Room, mark: Mark) -> str | None:
    """The name of the opening that a mark falls in."""
    start, _ = room.ends(mark.on)
    along = math.dist(start, (mark.x, mark.y))
    for opening in room.openings:
        if opening.wall == mark.on and opening.start < along < opening.start + opening.width:
            return opening.name
    return None


def _unfitted(best: dict[str, Construction]) -> list[Finding]:
    """Lines that had to be struck through their marks on the walls, in one finding."""
    names = [name for name, made in best.items() if name != "first line" and made.method == "marks on the walls"]
    if not names:
        return []
    finding = Finding(
        code="control-no-construction",
        severity=Severity.WARNING,
        place=", ".join(names),
        found="no compass, triangle or rectangle fits the clear floor about the centre",
        expected="a construction on the floor",
        remedy="strike it through its marks on the walls, and prove it by the check readings; or move the centre",
    )
    return [finding]


def _no_room(name: str) -> Finding:
    return Finding(
        code="control-no-angle",
        severity=Severity.WARNING,
        place=name,
        found="no mark, radius and crossing for its angle fit the clear floor about the centre",
        expected="a construction on the floor",
        remedy="strike it through its marks on the walls in the snap list, or move the centre",
    )


def _verdicts(
    lines: tuple[ControlLine, ...],
    best: dict[str, Construction],
    joint: float,
    tools: Tools,
    style: LengthStyle,
    station: Station,
) -> list[Finding]:
    """Whether the lines are true enough for the joint; nothing where there is no joint to hold them against."""
    if joint <= 0:
        return []
    _, square, *diagonals = lines
    made = best["square line"]
    how = tuple(best[line.name] for line in diagonals)
    return [
        square_verdict(square, made, joint, tools, style, station),
        diagonal_verdict(tuple(diagonals), how, made.sd_angle, joint, tools, style, station.handy),
    ]
