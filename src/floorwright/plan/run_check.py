"""What cannot be so among rooms that run through: two in one place, one that nothing leads to, a wall opened twice."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import combinations

import shapely

from floorwright.findings import Finding, Severity
from floorwright.plan.links import Bridge, Stretch
from floorwright.plan.room import Link, Room
from floorwright.tolerance import AT_CORNER, SLIVER_AREA
from floorwright.units import LengthStyle


def overlaps(rooms: Sequence[Room], style: LengthStyle) -> Iterator[Finding]:
    """Yields rooms that stand in each other by more than readings of one wall may differ."""
    floors = [shapely.Polygon(room.outline) for room in rooms]
    cores = [floor.buffer(-AT_CORNER / 2) for floor in floors]
    for (i, a), (j, b) in combinations(enumerate(rooms), 2):
        shared = shapely.intersection(cores[i], cores[j])
        if shared.area <= SLIVER_AREA:
            continue
        x, y = shared.representative_point().coords[0]
        low_x, low_y, high_x, high_y = shared.bounds
        yield Finding(
            code="plan-rooms-overlap",
            severity=Severity.ERROR,
            place=f"rooms {a.name} and {b.name}",
            found=f"{a.name} and {b.name} lie over each other by {style.text(high_x - low_x)} x "
            f"{style.text(high_y - low_y)}, about {style.text(float(x))} / {style.text(float(y))}",
            expected="rooms side by side, no floor in two of them",
            remedy="look at the ties from room to room, and at the direction and inward corners of each",
            source="yours",
        )


def apart(rooms: Sequence[Room], links: Sequence[Link]) -> Iterator[Finding]:
    """Yields rooms that no link leads to."""
    reached = {rooms[0].name}
    for _ in rooms:
        reached |= {name for link in links if reached & set(link.rooms) for name in link.rooms}
    for room in rooms:
        if room.name not in reached:
            yield Finding(
                code="plan-room-apart",
                severity=Severity.ERROR,
                place=f"room {room.name}",
                found=f"no link leads from {rooms[0].name} to {room.name}",
                expected="every room linked to the others: the floor runs through all of them",
                remedy="add a [[links]] for the mouth or doorway, or put the room in a file of its own",
                source="yours",
            )


def crowded(rooms: Sequence[Room], bridges: Sequence[Bridge]) -> Iterator[Finding]:
    """Yields mouths and doorways that take the same part of a wall."""
    taken: defaultdict[tuple[int, str], list[tuple[Stretch, str]]] = defaultdict(list)
    for bridge in bridges:
        for side in (bridge.near, bridge.far):
            for other, name in taken[side.room, side.wall]:
                if min(side.end, other.end) - max(side.start, other.start) > AT_CORNER:
                    yield Finding(
                        code="plan-links-overlap",
                        severity=Severity.ERROR,
                        place=f"wall {side.wall}",
                        found=f"{name} and {bridge.name} share a part of wall {side.wall} of {rooms[side.room].name}",
                        expected="each part of a wall open to one room",
                        remedy="take one link out, or measure both openings again from the same corner",
                        source="yours",
                    )
            taken[side.room, side.wall].append((side, bridge.name))
