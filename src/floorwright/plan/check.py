"""What cannot be so in a room: openings past their wall, obstacles outside or in each other."""

from collections.abc import Iterator
from itertools import combinations

from floorwright.errors import FloorwrightValueError
from floorwright.findings import Finding, Severity, has_error
from floorwright.geometry.measure import is_inside_ring, ring_gap
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Obstacle, Opening, Room
from floorwright.tolerance import COINCIDENT, STRIP
from floorwright.units import LengthStyle


def check_room(room: Room, style: LengthStyle) -> tuple[Finding, ...]:
    """Returns what is wrong with the openings and obstacles of a room, openings first, each in the room's order.

    Where it returns no error, `plan.floor.floor_region` gives a floor.
    """
    findings = (*_openings(room, style), *_obstacles(room, style))
    return findings if has_error(findings) else (*findings, *check_floor(room))


def check_floor(room: Room) -> Iterator[Finding]:
    """Yields that a room has no floor in one piece, if it has none."""
    try:
        floor_region(room)
    except FloorwrightValueError as fault:
        yield Finding(
            code="plan-no-floor",
            severity=Severity.ERROR,
            place=f"room {room.name}",
            found=str(fault),
            expected="one floor that a person can walk all over",
            remedy="measure the reveals and obstacles again, or book each part as a room",
            source="yours",
        )


def _openings(room: Room, style: LengthStyle) -> Iterator[Finding]:
    for opening in room.openings:
        length = room.length(opening.wall)
        past = opening.start + opening.width - length
        if opening.start < -COINCIDENT or past > COINCIDENT:
            yield Finding(
                code="plan-opening-past-wall",
                severity=Severity.ERROR,
                place=f"opening {opening.name}",
                found=f"{opening.name} runs from {style.text(opening.start)} to "
                f"{style.text(opening.start + opening.width)} along wall {opening.wall}",
                expected=f"wall {opening.wall} is {style.text(length)} long",
                remedy="measure its offset and width again, and check which corner they start at",
                source="yours",
            )
    for first, second in combinations(room.openings, 2):
        if first.wall == second.wall and _overlap(first, second):
            yield Finding(
                code="plan-openings-overlap",
                severity=Severity.ERROR,
                place=f"wall {first.wall}",
                found=f"{first.name} and {second.name} share a part of wall {first.wall}",
                expected="openings stand clear of each other",
                remedy="measure both again from the same corner, or book them as one opening",
                source="yours",
            )


def _overlap(first: Opening, second: Opening) -> bool:
    """Whether two openings of one wall share some of it, or touch where both have reveals."""
    clear = max(first.start, second.start) - min(first.start + first.width, second.start + second.width)
    return clear < -COINCIDENT or (clear <= COINCIDENT and first.reveal > 0.0 and second.reveal > 0.0)


def _obstacles(room: Room, style: LengthStyle) -> Iterator[Finding]:
    outline = room.outline
    for obstacle in room.obstacles:
        inside = is_inside_ring(obstacle.outline, outline)
        clear = ring_gap(obstacle.outline, outline)
        if not bool(inside.any()) and clear > 0.0:
            yield Finding(
                code="plan-obstacle-outside",
                severity=Severity.ERROR,
                place=f"obstacle {obstacle.name}",
                found=f"{obstacle.name} stands outside the room, {style.text(clear)} from the nearest wall",
                expected="an obstacle stands in the room",
                remedy="measure it again, and check which corner and wall it is measured from",
                source="yours",
            )
        elif clear <= STRIP:
            yield Finding(
                code="plan-obstacle-at-wall",
                severity=Severity.NOTE,
                place=f"obstacle {obstacle.name}",
                found=f"{obstacle.name} touches the wall: the floor is cut round it and has no gap behind it",
                remedy="if there is floor behind it, measure how far out it stands",
                source="yours",
            )
    for first, second in combinations(room.obstacles, 2):
        if _meet(first, second):
            yield Finding(
                code="plan-obstacles-overlap",
                severity=Severity.WARNING,
                place=f"obstacle {second.name}",
                found=f"{first.name} and {second.name} stand in each other; the floor runs round both as one",
                expected="obstacles stand clear of each other",
                remedy="measure both again from the same corner",
                source="yours",
            )


def _meet(first: Obstacle, second: Obstacle) -> bool:
    a, b = first.outline, second.outline
    inside = is_inside_ring(a[0], b)[0] or is_inside_ring(b[0], a)[0]
    return bool(inside) or ring_gap(a, b) <= 0.0
