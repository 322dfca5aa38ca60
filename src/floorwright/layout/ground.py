"""What every position of a search shares: the room in the pattern's frame, and what may cut what.

A *place* is where the pattern's origin lies: (2,) mm in the pattern's frame, counted from the search's centre. All
places that differ by repeats are one; those of one repeat are searched.
"""

import math
from dataclasses import dataclass

import numpy as np

from floorwright.geometry.region import Points, Region
from floorwright.layout.axis import CROSSES, Axis, Face, axes_of, base_of, most_left, region_faces
from floorwright.layout.clip import turn
from floorwright.layout.convex import convex_parts
from floorwright.layout.flat import Floats
from floorwright.layout.measure import hull_widths
from floorwright.layout.repeat import Outline, Repeat, outline_of, repeat_of
from floorwright.layout.walk import Edges, edges_of, near
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import ALONG, COINCIDENT, PARALLEL, TOUCH


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Part:
    """A convex part of a piece of the repeat, less `tolerance.TOUCH` at the piece's sides.

    Attributes:
        piece: which piece.
        outline: of the part.
    """

    piece: int
    outline: Outline


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pairs:
    """An edge of the room with one part of the repeat, and every tile of which it may meet that part at some place.

    Tiles side by side along the edge, that it would cut alike, are taken together: as if one tile met a longer edge.

    Attributes:
        edge: index of the edge.
        part: index of the part.
        start, stop: (n, 2) mm, the ends of the edge, from the tile's origin at place zero.
    """

    edge: int
    part: int
    start: Points
    stop: Points


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Teeth:
    """Edges along the rows, flat: what each leaves of its row of tiles rises and falls with the place like a saw tooth.

    Attributes:
        left: (n,) mm, what is left at its near end, at place zero, repeats not taken off.
        rise: (n, 2) how much more for each mm of the place.
        pitch: (n,) mm.
        most: (n,) mm, the most that may be left at the near end so that the far end leaves no strip.
        reach: (n,) mm, from the search's centre to the edge's farther end.
        length: (n,) mm, of the edge.
        holds: (n,) radians, how far the floor may be turned either way so that the edge still runs along the rows.
    """

    left: Floats
    rise: Points
    pitch: Floats
    most: Floats
    reach: Floats
    length: Floats
    holds: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ground:
    """What every position of a search shares.

    Attributes:
        cell, angle, centre: as given to the search.
        edges: of the region, in the pattern's frame with the centre at its origin.
        repeat: the pieces.
        within: the same less `tolerance.TOUCH` at their sides.
        parts: convex ones that make up the pieces.
        pairs, teeth: see there.
        most: mm, no piece is wider than its tile.
    """

    cell: UnitCell
    angle: float
    centre: tuple[float, float]
    edges: Edges
    repeat: Repeat
    within: Repeat
    parts: tuple[Part, ...]
    pairs: tuple[Pairs, ...]
    teeth: Teeth
    most: float

    def placement(self, place: Points) -> Placement:
        """Returns where the pattern lies on the floor."""
        x, y = turn(self.angle) @ place + self.centre
        return Placement(origin=(float(x), float(y)), angle=self.angle)

    def place_of(self, placement: Placement) -> Points:
        """Returns the place, in the repeat that is searched, of a placement at the same angle."""
        away = (np.array(placement.origin) - self.centre) @ turn(self.angle)
        return np.asarray(((away @ np.linalg.inv(self.cell.repeat)) % 1.0) @ self.cell.repeat)

    def edges_at(self, place: Points) -> Edges:
        """Returns the edges as the pattern at a place sees them."""
        return Edges(start=self.edges.start - place, stop=self.edges.stop - place, following=self.edges.following)

    def leaves_strip(self, place: Points) -> bool:
        """Returns whether some edge along the rows leaves a strip that nothing fills."""
        left = np.mod(self.teeth.left + self.teeth.rise @ place - TOUCH, self.teeth.pitch) + TOUCH
        return bool((left > self.teeth.most).any())


def ground_of(region: Region, cell: UnitCell, angle: float, centre: tuple[float, float], spare: float) -> Ground:
    """Returns what the positions of a search share. Arguments as for `search.search`."""
    edges = edges_of(tuple((ring - centre) @ turn(angle) for ring in region.rings))
    repeat = repeat_of(cell)
    within = repeat.shrunk()
    parts = tuple(
        Part(piece=k, outline=outline_of(corners))
        for k in range(len(repeat))
        for corners in convex_parts(within.of(k).corners)
    )
    return Ground(
        cell=cell,
        angle=angle,
        centre=centre,
        edges=edges,
        repeat=repeat,
        within=within,
        parts=parts,
        pairs=tuple(pair for number, part in enumerate(parts) for pair in _pairs(edges, number, part, cell.repeat)),
        teeth=_teeth(region, axes_of(cell, angle), angle, centre, spare),
        most=float(hull_widths(repeat.corners, repeat.first[:-1], repeat.first[1:]).max()),
    )


def _pairs(edges: Edges, number: int, part: Part, repeat: Points) -> list[Pairs]:
    swept = np.concatenate([part.outline.corners, part.outline.corners + repeat.sum(axis=0)])
    _, edge, i, j = near(edges, swept, np.array([0, len(swept)]), repeat)
    origins = np.stack([i, j], axis=1) @ repeat
    # `near` gives the edges in order.
    begins = np.searchsorted(edge, np.arange(len(edges) + 1))
    return [
        _alike(edges, e, number, origins[begins[e] : begins[e + 1]])
        for e in range(len(edges))
        if begins[e] < begins[e + 1]
    ]


def _alike(edges: Edges, edge: int, part: int, origins: Points) -> Pairs:
    """Returns an edge with tiles at some origins, those that lie along it in one line taken together."""
    run = edges.stop[edge] - edges.start[edge]
    length = float(np.hypot(*run))
    unit = run / max(length, COINCIDENT)
    along, off = origins @ unit, origins @ np.array([-unit[1], unit[0]])
    line = np.round(off / PARALLEL)
    order = np.lexsort((along, line))
    # A tile farther along than the edge is long begins another.
    apart = (np.diff(line[order], prepend=-np.inf) != 0) | (np.diff(along[order], prepend=-np.inf) > length)
    heads = np.flatnonzero(apart)
    tails = np.append(heads[1:], len(order)) - 1
    return Pairs(
        edge=edge,
        part=part,
        start=edges.start[edge] - origins[order[tails]],
        stop=edges.stop[edge] - origins[order[heads]],
    )


def _teeth(region: Region, axes: tuple[Axis, ...], angle: float, centre: tuple[float, float], spare: float) -> Teeth:
    rows: list[tuple[float, ...]] = []
    for axis, other in zip(axes, reversed(axes), strict=True):
        along = axis.direction @ turn(angle)
        for face in region_faces(region, axis):
            if not axis.through and (face.rise > axis.joint or face.length < (len(axis.phases) + 1) * other.pitch):
                # It crosses rows one by one, or may miss some of them: then it need not leave a strip.
                continue
            most = float(most_left(axis.size, axis.joint, face.spare(spare))) + TOUCH - face.rise
            reach = _farther_end(face, axis, centre)
            rise = CROSSES * axis.size if axis.through else axis.joint
            off = math.asin(min(1.0, face.rise / face.length))
            holds = min(ALONG - off, (rise - face.rise) / face.length)
            for phase in axis.phases:
                low = float(np.array(centre) @ axis.direction) + axis.joint / 2 + phase
                left = face.near - float(base_of(face.sign, low, axis.size))
                along_rise = -face.sign * along[0], -face.sign * along[1]
                rows.append((left, *along_rise, axis.pitch, most, reach, face.length, holds))
    table = np.array(rows).reshape(-1, 8)
    left, pitch, most_of_each, *more = table[:, [0, 3, 4, 5, 6, 7]].T
    return Teeth(
        left=left, rise=table[:, 1:3], pitch=pitch, most=most_of_each, reach=more[0], length=more[1], holds=more[2]
    )


def _farther_end(face: Face, axis: Axis, centre: tuple[float, float]) -> float:
    """Returns how far the farther end of an edge along the rows lies from the centre, mm."""
    out = face.sign * float(np.array(centre) @ axis.direction)
    aside = float(np.array(centre) @ np.array([-axis.direction[1], axis.direction[0]]))
    return math.hypot(
        max(abs(face.start - out), abs(face.end - out)), max(abs(face.low - aside), abs(face.high - aside))
    )


def strips(ground: Ground, turn: float = 0.0) -> list[Points]:
    """Returns polygons of the places at which some edge along the rows leaves a strip that nothing fills.

    Args:
        ground: of the search.
        turn: radians; if not 0, only places at which it does however far the floor is turned about the centre, up to so
            far either way: meanwhile what is left at the edge's near end, and its rise, change by no more than the
            chords that its ends describe.
    """
    found: list[Points] = []
    chord = 2.0 * math.sin(turn / 2)
    teeth, rim = ground.teeth, np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]]) @ ground.cell.repeat
    for n in np.flatnonzero(turn <= teeth.holds) if turn else range(len(teeth.left)):
        left, rise, pitch = teeth.left[n], teeth.rise[n], teeth.pitch[n]
        strays = chord * teeth.reach[n]
        low_end, high_end = teeth.most[n] + strays + chord * teeth.length[n], TOUCH + pitch - strays
        if low_end >= high_end:
            continue
        reach, aside = rim @ rise, np.array([-rise[1], rise[0]])
        low, high = float((rim @ aside).min()), float((rim @ aside).max())
        first = math.floor((left + reach.min() - pitch - TOUCH) / pitch)
        for lap in range(first, math.ceil((left + reach.max() - teeth.most[n]) / pitch) + 1):
            begin, end = low_end + lap * pitch - left, high_end + lap * pitch - left
            ends = ((begin, low), (begin, high), (end, high), (end, low))
            found.append(np.array([square * rise + along * aside for square, along in ends]))
    return found
