"""How to strike a wall's arc: from its centre where that can be reached, else by offsets from a string."""

import math
from dataclasses import dataclass
from typing import Final

from floorwright.geometry.arc import Arc
from floorwright.geometry.measure import is_inside_ring
from floorwright.plan.room import Room

STEPS: Final = {
    False: (100.0, 150.0, 200.0, 300.0, 500.0, 1000.0, 2000.0, 5000.0),
    True: (101.6, 152.4, 304.8, 609.6, 1219.2, 2438.4, 4876.8),
}
"""mm between offsets, for a tape in mm and for one in feet and inches."""

USUAL: Final = {False: 300.0, True: 304.8}
"""mm, the step that is taken where it gives neither too few offsets nor too many."""

FEWEST, MOST = 5, 12
"""Steps along a string. Our defaults."""

NEAR: Final = 4.0
"""Of a step: an offset so near to the middle or the end is left out."""

CLEAR: Final = 50.0
"""mm by which a string is held clear of a wall that bows in, at the least; in whole steps of the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strike:
    """The figures that an arc is struck by.

    Attributes:
        wall: its name.
        start, end: its corners; offsets run from the start.
        arc: it.
        reachable: whether its centre lies in the room, and no farther off than the compass reaches.
        held: mm that the string is held into the room from both corners; 0 on the corners themselves.
        offsets: (along the string from the start, out from the string to the wall), mm; none for an arc of more than
            half a circle, which no string between its corners reaches all of.
    """

    wall: str
    start: str
    end: str
    arc: Arc
    reachable: bool
    held: float
    offsets: tuple[tuple[float, float], ...]


def strikes(room: Room, compass: float, *, imperial: bool = False) -> tuple[Strike, ...]:
    """Returns how every wall of a room that is an arc is struck, in the order of the walls.

    Args:
        room: as adjusted.
        compass: mm, its reach.
        imperial: whether the tape is in feet and inches.
    """
    found = []
    for wall in room.walls:
        arc = room.arc(wall.name)
        if arc is None:
            continue
        held = 0.0 if arc.rise > 0.0 else CLEAR * math.ceil((abs(arc.rise) + CLEAR) / CLEAR)
        places = places_along(arc.chord, imperial) if abs(arc.bulge) <= 1.0 else ()
        inside = bool(is_inside_ring(arc.centre, room.outline)[0])
        found.append(
            Strike(
                wall=wall.name,
                start=wall.start,
                end=wall.end,
                arc=arc,
                reachable=inside and arc.radius <= compass,
                held=held,
                offsets=tuple((place, held + arc.offset(place)) for place in places),
            )
        )
    return tuple(found)


def places_along(chord: float, imperial: bool) -> tuple[float, ...]:
    """Returns places along a string, mm: even steps from its start, its middle and its end."""
    steps = STEPS[imperial]
    step = USUAL[imperial]
    if not FEWEST <= chord / step <= MOST:
        step = next((one for one in steps if chord / one <= MOST), steps[-1])
    stops = [round(step * n, 6) for n in range(math.ceil(chord / step))]
    # The middle tells the rise and the end proves the string: what stands close beside them tells nothing more.
    apart = [stop for stop in stops if min(abs(stop - chord / 2.0), chord - stop) > step / NEAR]
    return tuple(sorted({*apart, chord / 2.0, chord}))
