"""Dividing the floor among the zones: borders along the walls, insets and rings with outlines of their own, fields the
rest.

There is one field, or where the floor breaks between rooms one for each set of rooms (`layout.grounds`). Between two
zones lies one joint. Along the walls lies the perimeter gap of the zone that meets them. Each zone comes
out as one or more *parts*: a border has one for each wall, all others one. Read `divide` first.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely

from floorwright.errors import FloorwrightValueError
from floorwright.geometry.inset import inset
from floorwright.geometry.region import Circle, Points, Region
from floorwright.geometry.straight import crossing, through
from floorwright.geometry.subtract import common, subtract
from floorwright.layout.border import Border, Edge, Strip, ZoneMisfitError, edges_inside, edges_of, strips_of
from floorwright.layout.grounds import Meeting, grounds, kept_off, sides_of_ground
from floorwright.layout.sides import Side, sides_of_region, sides_of_room
from floorwright.pattern.rings import Rings
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Room
from floorwright.tolerance import SLIVER_AREA
from floorwright.units import LengthStyle

FIELD, BORDER, INSET, RINGS = "field", "border", "inset", "rings"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rounded:
    """What an outline has where it is round.

    Attributes:
        rings: to be laid in it; None of an inset of another pattern.
        region: what they cover, with its true circles.
        around: the hole that they leave in what lies around them, a joint off, with its own.
    """

    rings: Rings | None
    region: Region
    around: Region


LESS_AROUND = "make the zones around it narrower or smaller"
LESS_GAP = "make the gap narrower"
OWN_ZONE = "give each part that no room joins to the others a field of its own"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Outline:
    """What an inset covers.

    Attributes:
        ring: (n, 2) mm, anticlockwise.
        names: of its sides: `near side`, `right side`.
        along: radians, the direction that its pattern is laid along.
        centre: (x, y) mm, what its pattern is counted from.
        rounded: of rings, and of a round inset.
    """

    ring: Points
    names: tuple[str, ...]
    along: float
    centre: tuple[float, float]
    rounded: Rounded | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cover:
    """What a zone asks to cover: a border or an outline; with neither it is a field, which takes the rest.

    Attributes:
        zone: its name.
        gap: mm, at the walls.
        joint: mm, around an inset, to whatever it lies in.
        border, outline: one of the two at most.
        rooms: of a field, those that it covers, where there are several fields.
    """

    zone: str
    gap: float
    joint: float = 0.0
    border: Border | None = None
    outline: Outline | None = None
    rooms: tuple[str, ...] = ()

    @property
    def kind(self) -> str:
        """`border`, `inset`, `rings` or `field`."""
        if self.outline is not None:
            return RINGS if self.outline.rounded and self.outline.rounded.rings else INSET
        return BORDER if self.border else FIELD


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Part:
    """A part of the floor with one pattern.

    Attributes:
        zone: name of its zone.
        name: its own: the zone's, with the wall for a side of a border (`border S`).
        kind: `border`, `inset`, `rings` or `field`.
        region: what is covered, gap and joints to other zones off.
        ground: the same with the gap at the walls still on it.
        sides: what cuts are measured to.
        strip: of a border, its side.
        outline: of an inset or of rings.
        rooms: of one of several fields, those that it covers.
    """

    zone: str
    name: str
    kind: str
    region: Region
    ground: Region
    sides: tuple[Side, ...]
    strip: Strip | None = None
    outline: Outline | None = None
    rooms: tuple[str, ...] = ()


def divide(
    *,
    room: Room,
    covers: Sequence[Cover],
    first_line: float,
    style: LengthStyle,
    meetings: Sequence[Meeting] = (),
) -> tuple[Part, ...]:
    """Returns the parts of the floor, in the order of the zones and for a border in that of the walls.

    Borders lie inside each other in their order, the first along the walls. Insets are cut out of all else.

    Args:
        room: as adjusted.
        covers: one for each zone; among them a single field, one for each set of rooms, or none.
        first_line: radians, its direction.
        style: how lengths are written.
        meetings: where two fields meet.

    Raises:
        ZoneMisfitError: a zone does not fit, or leaves what is round it in several parts or in none.
    """
    floor = floor_region(room)
    covered = {cover.zone: _covered(cover.zone, floor, cover.gap, style) for cover in covers}
    edges = {cover.zone: edges_of(room, cover.gap) for cover in covers}
    found: dict[str, list[Part]] = {}
    taken: list[tuple[Points, tuple[str, ...]]] = []
    walled: tuple[Edge, ...] = ()
    for cover in covers:
        if cover.border is None:
            continue
        strips = strips_of(cover.zone, room, cover.border, walled or edges[cover.zone], first_line, style)
        found[cover.zone] = [_border_part(cover, strip, (covered[cover.zone], floor), taken, room) for strip in strips]
        taken += [(strip.taken, (f"{cover.zone} at {strip.wall}",) * len(strip.taken)) for strip in strips]
        walled = edges_inside(walled or edges[cover.zone], strips, cover.border.joint_inside)
    fields = [cover for cover in covers if cover.kind == FIELD]
    if any(cover.rooms for cover in fields):
        found |= _fields_of_rooms(fields, floor, meetings, taken, room)
    else:
        found |= {cover.zone: [_field_part(cover, (covered[cover.zone], floor), taken, room)] for cover in fields}
    insets = [cover for cover in covers if cover.outline is not None]
    for number, cover in enumerate(insets):
        _check_clear(cover, insets[:number])
        found = {zone: [_less_inset(part, cover, room) for part in parts] for zone, parts in found.items()}
        found[cover.zone] = [_outlined(cover, covered[cover.zone], floor, room)]
    of_floor = {name for names in floor.edges for name in names}
    return tuple(_with_joints(part, of_floor) for cover in covers for part in found[cover.zone])


def _with_joints(part: Part, of_floor: Collection[str]) -> Part:
    """The part told which of its edges are joints to other zones."""
    joints = frozenset(name for names in part.region.edges for name in names if name not in of_floor)
    sides = tuple(replace(side, is_joint=side.name in joints) for side in part.sides)
    return replace(part, region=replace(part.region, joints=joints), sides=sides)


def _walls(room: Room) -> dict[str, bool]:
    return {wall.name: wall.hidden for wall in room.walls}


def _covered(zone: str, floor: Region, gap: float, style: LengthStyle) -> Region:
    try:
        return inset(floor, gap)
    except FloorwrightValueError as fault:
        raise ZoneMisfitError(
            zone,
            f"a gap of {style.entered_text(gap, unit=True)} at the walls: {fault}",
            "a gap that leaves the floor in one piece",
            "make the gap narrower, or book each part of the floor as a room of its own",
            by_gap=True,
        ) from fault


def _one(zone: str, parts: Sequence[Region], what: str, remedy: str = LESS_AROUND) -> Region:
    if len(parts) == 1:
        return parts[0]
    raise ZoneMisfitError(
        zone,
        f"{what} is left in {len(parts)} parts" if parts else f"nothing is left of {what}",
        "one part",
        remedy,
    )


def _around(region: Region, parts: Sequence[Region]) -> Region:
    """The part that a region lies in: others are crumbs of the gap in corners that turn in."""
    own = _polygon(region)
    return max(parts, key=lambda part: round(shapely.intersection(own, _polygon(part)).area))


def _border_part(
    cover: Cover,
    strip: Strip,
    wholes: tuple[Region, Region],
    taken: Sequence[tuple[Points, tuple[str, ...]]],
    room: Room,
) -> Part:
    def own(whole: Region) -> Sequence[Region]:
        cut = common(whole, [(strip.ring, strip.names)])
        return [part for each in cut for part in (subtract(each, taken) if taken else (each,))]

    covered, floor = wholes
    region = _one(cover.zone, own(covered), f"its side along {strip.wall}")
    ground = _around(region, own(floor))
    return Part(
        zone=cover.zone,
        name=f"{cover.zone} {strip.wall}",
        kind=BORDER,
        region=region,
        ground=ground,
        sides=tuple(side for side in sides_of_region(region, _walls(room)) if side.name != strip.inside),
        strip=strip,
    )


def _field_part(
    cover: Cover, wholes: tuple[Region, Region], taken: Sequence[tuple[Points, tuple[str, ...]]], room: Room
) -> Part:
    covered, floor = wholes
    if not taken:
        sides = sides_of_room(room, cover.gap)
        return Part(zone=cover.zone, name=cover.zone, kind=FIELD, region=covered, ground=floor, sides=sides)
    region = _one(cover.zone, subtract(covered, taken), "it")
    ground = _around(region, subtract(floor, taken))
    sides = sides_of_region(region, _walls(room))
    return Part(zone=cover.zone, name=cover.zone, kind=FIELD, region=region, ground=ground, sides=sides)


def _fields_of_rooms(
    fields: Sequence[Cover],
    floor: Region,
    meetings: Sequence[Meeting],
    taken: Sequence[tuple[Points, tuple[str, ...]]],
    room: Room,
) -> dict[str, list[Part]]:
    """The fields of a floor that breaks between rooms, each by its name."""
    own = grounds(floor, room, {cover.zone: cover.rooms for cover in fields}, meetings)
    found = {}
    for cover in fields:
        whole = _one(cover.zone, own[cover.zone], f"the floor of {' and '.join(cover.rooms)}", OWN_ZONE)
        covered = _one(cover.zone, kept_off(whole, meetings, cover.gap), "it, less the gap at the walls,", LESS_GAP)
        ground = _one(cover.zone, kept_off(whole, meetings, 0.0), "it")
        others = [part for zone, parts in own.items() if zone != cover.zone for part in parts]
        if taken:
            part = _field_part(cover, (covered, ground), taken, room)
        else:
            sides = tuple(sides_of_ground(whole, covered, room, cover.gap, others))
            part = Part(zone=cover.zone, name=cover.zone, kind=FIELD, region=covered, ground=ground, sides=sides)
        found[cover.zone] = [replace(part, rooms=cover.rooms)]
    return found


def _check_clear(cover: Cover, others: Sequence[Cover]) -> None:
    assert cover.outline is not None
    own = shapely.Polygon(cover.outline.ring)
    for other in others:
        assert other.outline is not None
        if shapely.distance(own, shapely.Polygon(other.outline.ring)) < max(cover.joint, other.joint):
            raise ZoneMisfitError(
                cover.zone,
                f"it lies over {other.zone}, or nearer to it than a joint",
                "insets that keep clear of each other",
                "move it or make it smaller",
            )


def _less_inset(part: Part, cover: Cover, room: Room) -> Part:
    """A part with an inset and the joint around it cut out."""
    outline = cover.outline
    assert outline is not None
    grown, names, circles = _hole(cover.zone, outline, cover.joint)
    if part.outline is not None or not shapely.Polygon(grown).intersects(_polygon(part.region)):
        return part
    region = _with(circles, _one(part.zone, subtract(part.region, [(grown, names)]), "it"))
    ground = _with(circles, _one(part.zone, subtract(part.ground, [(grown, names)]), "it"))
    around = {side.name: side for side in part.sides}
    cut = {side.name: side for side in sides_of_region(region, _walls(room))}
    kept = tuple(cut.pop(name, side) if not _is_whole(part, side) else side for name, side in around.items())
    more = tuple(cut[name] for name in dict.fromkeys(names) if name in cut)
    return replace(part, region=region, ground=ground, sides=(*kept, *more))


def _hole(zone: str, outline: Outline, joint: float) -> tuple[Points, tuple[str, ...], Mapping[str, Circle]]:
    """What is taken from what lies around: a ring, the names of its edges, and their circles."""
    if outline.rounded is not None:
        around = outline.rounded.around
        return around.rings[0], around.edges[0], around.circles
    return _grown(outline.ring, joint), tuple(f"{zone}, {name}" for name in outline.names), {}


def _with(circles: Mapping[str, Circle], region: Region) -> Region:
    return replace(region, circles={**region.circles, **circles}) if circles else region


def _is_whole(part: Part, side: Side) -> bool:
    """Whether a side is a wall from corner to corner, gap still on it."""
    return side.wall and side.gap > 0 and part.kind == FIELD


def _outlined(cover: Cover, covered: Region, floor: Region, room: Room) -> Part:
    """An inset, which must lie on the floor, or rings, which walls may cut."""
    outline = cover.outline
    assert outline is not None
    if outline.rounded is not None and outline.rounded.rings is not None:
        return _rings_part(cover, outline, outline.rounded.region, (covered, floor), room)
    if shapely.difference(shapely.Polygon(outline.ring), _polygon(covered)).area > SLIVER_AREA:
        raise ZoneMisfitError(
            cover.zone,
            "part of its outline lies off the floor",
            "an outline on the floor, clear of walls, gap and obstacles",
            "move it or make it smaller",
        )
    plain = Region(rings=(outline.ring,), edges=(outline.names,))
    region = plain if outline.rounded is None else outline.rounded.region
    return Part(
        zone=cover.zone,
        name=cover.zone,
        kind=INSET,
        region=region,
        ground=region,
        sides=sides_of_region(region, {}),
        outline=outline,
    )


def _rings_part(cover: Cover, outline: Outline, own: Region, wholes: tuple[Region, Region], room: Room) -> Part:
    cut = [(own.rings[0], own.edges[0])]
    region = _with(own.circles, _one(cover.zone, common(wholes[0], cut), "what lies on the floor of it"))
    ground = _with(own.circles, _around(region, common(wholes[1], cut)))
    return Part(
        zone=cover.zone,
        name=cover.zone,
        kind=RINGS,
        region=region,
        ground=ground,
        sides=sides_of_region(region, _walls(room)),
        outline=outline,
    )


def _polygon(region: Region) -> shapely.Polygon:
    return shapely.Polygon(region.rings[0], region.rings[1:])


def _grown(ring: Points, by: float) -> Points:
    """An anticlockwise ring with every side moved out, mitred at its corners."""
    lines = [through(start, end).moved(-by) for start, end in zip(ring, np.roll(ring, -1, axis=0), strict=True)]
    found = [crossing(lines[n - 1], line) for n, line in enumerate(lines)]
    normals = [line.normal for line in lines]
    return np.array(
        [ring[n] - by * normals[n] if point is None else point for n, point in enumerate(found)], dtype=np.float64
    )
