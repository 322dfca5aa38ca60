"""The centre: the point on the first line that the square is raised at and that the pattern is measured from."""

import math
from dataclasses import dataclass
from typing import Final

from floorwright.control.choices import Centre
from floorwright.control.first import Found, find_place
from floorwright.control.sight import Meeting, Point, chord, crossing, longest_chord, room_round, spans, step
from floorwright.control.visible import centroid, visual_centre
from floorwright.control.wall import find_opening, opening_angle, opening_at, wall_angle, wall_middle
from floorwright.control.words import fine
from floorwright.findings import Finding, Severity
from floorwright.geometry.measure import distance_to_ring, is_inside_ring
from floorwright.geometry.region import Region
from floorwright.plan.room import Obstacle, Room
from floorwright.tolerance import ALONG, STRIP, TOUCH
from floorwright.units import LengthStyle

ACROSS: Final = math.sqrt(0.5)
"""Sine of 45 degrees. A wall at more than this to the first line lies across it, one at less along it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundCentre:
    """A centre as found.

    Attributes:
        point: mm.
        how: words.
        findings: what was assumed or could not be as chosen.
    """

    point: Point
    how: str
    findings: tuple[Finding, ...] = ()


def find_centre(room: Room, region: Region, first: Found, centre: Centre, style: LengthStyle) -> FoundCentre:
    """Returns the centre, on the first line where that has a place of its own and inside the room always.

    A choice that names what is not there, or that falls outside the room, is an error, and the middle of the first line
    stands in. A centre in an obstacle is a warning: nobody can mark it.
    """
    found = _find(room, region, first, centre)
    if isinstance(found, Finding):
        found = FoundCentre(point=_stand_in(room, region, first).point, how="middle of the room", findings=(found,))
    found = _on_first(found, first, centre, style)
    if not _in_room(room, found.point):
        outside = Finding(
            code="control-centre-outside",
            severity=Severity.ERROR,
            place="centre",
            found=f"the centre ({found.how}) lies {_where(room, found.point, style)}",
            expected="a point inside the walls",
            remedy="choose another; the middle of the room stands in until then",
            source="yours",
        )
        stand_in = _stand_in(room, region, first)
        found = FoundCentre(point=stand_in.point, how=stand_in.how, findings=(*found.findings, outside))
    blocking = obstacle_at(room, found.point)
    if blocking is None:
        return found
    in_the_way = Finding(
        code="control-centre-in-obstacle",
        severity=Severity.WARNING,
        place="centre",
        found=f"the centre ({found.how}) lies in {blocking.name}",
        expected="a point that can be marked",
        remedy="choose another, or set every line out from its marks on the walls",
    )
    return FoundCentre(point=found.point, how=found.how, findings=(*found.findings, in_the_way))


def obstacle_at(room: Room, point: Point) -> Obstacle | None:
    """Returns the obstacle that a point lies in or on, None where there is none."""
    for obstacle in room.obstacles:
        if bool(is_inside_ring(point, obstacle.outline)[0]) or distance_to_ring(point, obstacle.outline)[0] <= TOUCH:
            return obstacle
    return None


def middle(part: tuple[Meeting, Meeting], through: Point, angle: float) -> Point:
    """Returns the middle of a part of a line, mm."""
    return step(through, angle, (part[0].at + part[1].at) / 2)


def first_chord(room: Room, through: Point, angle: float) -> tuple[Meeting, Meeting] | None:
    """Returns the ends of the part of a line that holds a point, or of its longest part where the point is outside."""
    part = chord(room.outline, through, angle) or longest_chord(room.outline, through, angle)
    return None if part is None else (on_wall(room, part[0]), on_wall(room, part[1]))


def on_wall(room: Room, meeting: Meeting) -> Meeting:
    """Returns a meeting with an edge of a room's outline as one with the wall that the edge is of.

    Along an arc it is measured along the face, between the ends of its edge by their share.
    """
    if not room.has_arcs:
        return meeting
    sides = room.sides
    wall, start = sides[meeting.edge]
    ring, face = room.outline, room.walls[wall]
    if not face.bulge:
        return Meeting(at=meeting.at, edge=wall, along=start + meeting.along)
    after = (meeting.edge + 1) % len(ring)
    end = sides[after][1] if sides[after][0] == wall else room.length(face.name)
    share = meeting.along / math.dist(ring[meeting.edge], ring[after])
    return Meeting(at=meeting.at, edge=wall, along=start + share * (end - start))


def _find(room: Room, region: Region, first: Found, centre: Centre) -> FoundCentre | Finding:
    if centre.by == "mid-point":
        return _by_mid_point(room, first, centre.wall or ("" if first.through else first.wall))
    if centre.by == "point":
        point = None if centre.point is None else find_place(room, centre.point)
        if point is None:
            return _unknown(f"corner {centre.point!r}", [corner.name for corner in room.corners])
        return FoundCentre(point=point, how="as typed" if not isinstance(centre.point, str) else f"at {centre.point}")
    if centre.by == "visual" and not centre.opening and not room.openings:
        return _without_door(room, region)
    opening = find_opening(room, centre.opening)
    if opening is None:
        return _unknown(f"opening {centre.opening!r}", [known.name for known in room.known_openings])
    if centre.by == "visual":
        return _by_sight(room, region, opening.name)
    return _by_opening(room, first, opening.name)


def _by_mid_point(room: Room, first: Found, wall: str) -> FoundCentre | Finding:
    """The middle of the first line inside the room, or square from the middle of a wall."""
    if not wall:
        assert first.through is not None
        part = first_chord(room, first.through, first.angle)
        if part is None:
            return _unknown("part of the first line inside the room", [])
        return FoundCentre(point=middle(part, first.through, first.angle), how="middle of the first line")
    if wall not in [known.name for known in room.known_walls]:
        return _unknown(f"wall {wall!r}", [known.name for known in room.known_walls])
    base, square = wall_middle(room, wall), first.angle + math.pi / 2
    if abs(math.sin(wall_angle(room, wall) - first.angle)) > ACROSS:
        return _across(room, first, wall)
    if first.through is not None:
        point = crossing(base, square, first.through, first.angle)
        assert point is not None
        return FoundCentre(point=point, how=f"on the first line, square to it from the middle of {wall}")
    part = first_chord(room, base, square)
    if part is None:
        return _unknown(f"room across the first line at the middle of wall {wall}", [])
    return FoundCentre(point=middle(part, base, square), how=f"half way across the room from the middle of {wall}")


def _across(room: Room, first: Found, wall: str) -> FoundCentre | Finding:
    """From the middle of a wall that the first line runs onto: a line with no place of its own starts there."""
    through = first.through or wall_middle(room, wall)
    part = first_chord(room, through, first.angle)
    if part is None:
        return _unknown("part of the first line inside the room", [])
    point = middle(part, through, first.angle)
    if first.through is None:
        return FoundCentre(point=point, how=f"half way across the room from the middle of {wall}")
    along = Finding(
        code="control-centre-along",
        severity=Severity.NOTE,
        place="centre",
        found=f"square from the middle of {wall} runs along the first line and crosses it nowhere useful",
        remedy="the middle of the first line is taken",
        source="our default",
    )
    return FoundCentre(point=point, how=f"middle of the first line, which runs onto {wall}", findings=(along,))


def _by_opening(room: Room, first: Found, name: str) -> FoundCentre | Finding:
    """On the line through the middle of a door, square to its wall."""
    opening = find_opening(room, name)
    assert opening is not None
    base, axis = opening_at(room, opening), opening_angle(room, opening) + math.pi / 2
    if first.through is None:
        part = first_chord(room, base, axis)
        if part is None:
            return _unknown(f"room in line with {name}", [])
        return FoundCentre(point=middle(part, base, axis), how=f"half way across the room in line with {name}")
    point = crossing(base, axis, first.through, first.angle)
    if point is not None and abs(math.sin(axis - first.angle)) > math.sin(ALONG):
        return FoundCentre(point=point, how=f"where the first line crosses the line of {name}")
    part = first_chord(room, first.through, first.angle)
    if part is None:
        return _unknown("part of the first line inside the room", [])
    along = Finding(
        code="control-centre-along",
        severity=Severity.NOTE,
        place="centre",
        found=f"the line of {name} runs along the first line and crosses it nowhere useful",
        remedy="the middle of the first line is taken",
        source="our default",
    )
    how = f"middle of the first line, which runs with {name}"
    return FoundCentre(point=middle(part, first.through, first.angle), how=how, findings=(along,))


def _by_sight(room: Room, region: Region, name: str) -> FoundCentre:
    """The middle of what is seen from a door; half way across in line with it where that cannot be marked."""
    opening = find_opening(room, name)
    assert opening is not None
    seen = visual_centre(room, region, opening)
    if seen is not None and room_round(region, seen)[0] > 0.0:
        return FoundCentre(point=seen, how=f"middle of what is seen from {name}")
    trouble = "the door is blocked" if seen is None else "it falls outside the room or in an obstacle"
    note = Finding(
        code="control-visual-fallback",
        severity=Severity.NOTE,
        place="centre",
        found=f"no middle of what is seen from {name}: {trouble}",
        remedy=f"half way across the room in line with {name} is taken",
        source="our default",
    )
    base, axis = opening_at(room, opening), opening_angle(room, opening) + math.pi / 2
    clear = spans(region, base, axis)
    first, last = max(clear, key=lambda span: round((span[1] - span[0]) / STRIP), default=(0.0, 0.0))
    point = step(base, axis, (first + last) / 2)
    return FoundCentre(point=point, how=f"half way across the room in line with {name}", findings=(note,))


def _without_door(room: Room, region: Region) -> FoundCentre:
    """The middle of the floor, where no door says what is seen."""
    note = Finding(
        code="control-no-door",
        severity=Severity.NOTE,
        place="centre",
        found="no door or opening is booked, so nothing says what is seen first",
        remedy="the middle of the floor by area is taken; book the door, or choose the centre",
        source="our default",
    )
    point = centroid(region.rings)
    if _in_room(room, point) and room_round(region, point)[0] > 0.0:
        return FoundCentre(point=point, how="middle of the floor by area", findings=(note,))
    return FoundCentre(point=_widest(region, point, 0.0), how="middle of the floor", findings=(note,))


def _stand_in(room: Room, region: Region, first: Found) -> FoundCentre:
    """A centre for a choice that failed: inside the room, and on the first line where that has a place."""
    part = None if first.through is None else first_chord(room, first.through, first.angle)
    if part is not None and first.through is not None:
        point = middle(part, first.through, first.angle)
        if _in_room(room, point):
            return FoundCentre(point=point, how="middle of the first line")
    return FoundCentre(point=_widest(region, centroid(region.rings), first.angle), how="middle of the room")


def _widest(region: Region, through: Point, angle: float) -> Point:
    """The middle of the longest clear run along a line or square to it. A line through the centroid always has one."""
    runs = [(last - first, (first + last) / 2, way) for way in (angle, angle + math.pi / 2)
            for first, last in spans(region, through, way)]  # fmt: skip
    _, at, way = max(runs, key=lambda run: round(run[0] / STRIP))
    return step(through, way, at)


def _on_first(found: FoundCentre, first: Found, centre: Centre, style: LengthStyle) -> FoundCentre:
    """The centre moved square onto a first line that has a place of its own; a warning where the person typed it."""
    if first.through is None:
        return found
    point = crossing(found.point, first.angle + math.pi / 2, first.through, first.angle)
    assert point is not None
    moved = math.dist(point, found.point)
    if moved <= TOUCH:
        return FoundCentre(point=point, how=found.how, findings=found.findings)
    note = Finding(
        code="control-centre-moved",
        severity=Severity.WARNING if centre.by == "point" else Severity.NOTE,
        place="centre",
        found=f"the centre ({found.how}) is {fine(moved, style)} off the first line ({first.how})",
        remedy="it is moved square onto the first line",
        source="our default",
    )
    return FoundCentre(point=point, how=f"{found.how}, moved onto the first line", findings=(*found.findings, note))


def _in_room(room: Room, point: Point) -> bool:
    """Whether a point lies inside the walls, off all of them: only then has every line through it two ends."""
    return bool(is_inside_ring(point, room.outline)[0]) and float(distance_to_ring(point, room.outline)[0]) > TOUCH


def _where(room: Room, point: Point, style: LengthStyle) -> str:
    away = float(distance_to_ring(point, room.outline)[0])
    return "on a wall" if away <= TOUCH else f"outside the room, {style.text(away, unit=True)} from it"


def _unknown(what: str, known: list[str]) -> Finding:
    return Finding(
        code="control-centre",
        severity=Severity.ERROR,
        place="centre",
        found=f"no {what}",
        expected="one of " + ", ".join(known) if known else "",
        remedy="mend the choice; the middle of the room stands in until then",
        source="yours",
    )
