"""How rings are set out: each circle from its centre or by offsets, and every joint by its chord from one start."""

import math
from dataclasses import dataclass

from floorwright.geometry.arc import Arc
from floorwright.geometry.measure import is_inside_ring
from floorwright.layout.layout import Layout
from floorwright.pattern.ring import Ring
from floorwright.setout.strike import places_along
from floorwright.tolerance import COINCIDENT


@dataclass(frozen=True, slots=True, kw_only=True)
class RingMark:
    """A joint of a ring.

    Attributes:
        number: of joints from the start.
        angle: radians turned from the start.
        chord: mm, straight from the start, on the inside circle.
        along: mm, along that circle.
    """

    number: int
    angle: float
    chord: float
    along: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RingMarks:
    """The marks of one ring.

    Attributes:
        name: of it.
        ring: it.
        start: (x, y) mm, where its first joint meets the inside circle.
        heading: radians on the floor, from the centre to there.
        reachable: whether its circle can be struck from the centre: that lies on the floor, within the compass's reach.
        marks: of joints up to half a turn. Those of a whole ring lie to both hands of the start alike; those of an arc
            of over half a turn are taken from either side of it.
        both: whether they are taken to both hands, or from both sides.
        offsets: (along the string between the ends of the arc, out from it) mm, where it is not reachable.
    """

    name: str
    ring: Ring
    start: tuple[float, float]
    heading: float
    reachable: bool
    marks: tuple[RingMark, ...]
    both: bool
    offsets: tuple[tuple[float, float], ...] = ()


def ring_marks(layout: Layout, compass: float, *, imperial: bool = False) -> tuple[RingMarks, ...]:
    """Returns the marks of every ring of a layout, from the inside out; none where it has no rings.

    Args:
        layout: of rings.
        compass: mm, its reach.
        imperial: whether the tape is in feet and inches.
    """
    rings, part = layout.rings, layout.part
    if rings is None or part is None or part.outline is None:
        return ()
    centre, along = part.outline.centre, part.outline.along
    on_floor = bool(is_inside_ring(centre, part.ground.rings[0])[0]) if not rings.is_round else True
    return tuple(
        _marks(name, one, centre, along, on_floor and one.inside <= compass, imperial)
        for name, one in zip(rings.names, rings.rings, strict=True)
    )


def _marks(
    name: str, one: Ring, centre: tuple[float, float], along: float, reachable: bool, imperial: bool
) -> RingMarks:
    heading = along + one.first
    whole = len(one.angles) == one.pieces
    most = min(math.floor(math.pi / one.step + COINCIDENT), one.pieces)
    marks = tuple(
        RingMark(number=n, angle=n * one.step, chord=one.chord(n), along=n * one.step * one.inside)
        for n in range(1, most + 1)
    )
    return RingMarks(
        name=name,
        ring=one,
        start=_on(centre, one.inside, heading),
        heading=heading,
        reachable=reachable,
        marks=marks,
        both=whole or one.sweep > math.pi + COINCIDENT,
        offsets=() if reachable or one.sweep > math.pi else _offsets(one, centre, heading, imperial),
    )


def _offsets(one: Ring, centre: tuple[float, float], heading: float, imperial: bool) -> tuple[tuple[float, float], ...]:
    """From a string between the two ends of its inside circle."""
    ends = _on(centre, one.inside, heading), _on(centre, one.inside, heading + one.sweep)
    arc = Arc(start=ends[0], end=ends[1], bulge=math.tan(one.sweep / 4))
    return tuple((place, arc.offset(place)) for place in places_along(arc.chord, imperial))


def _on(centre: tuple[float, float], radius: float, turn: float) -> tuple[float, float]:
    return centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn)
