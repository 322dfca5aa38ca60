"""Bounds on the narrowest piece over a box of positions: what `layout.search` prunes with.

A position is a *shift* (s, t): the pattern moved by s of its first repeat vector and t of its second.
"""

from dataclasses import dataclass

import numpy as np

from floorwright.geometry.region import Points, Region
from floorwright.layout.axis import Axis, axes_of, base_of, most_left, region_faces
from floorwright.layout.clip import grouped, turn
from floorwright.layout.linear import FAR, MOST, highest_low
from floorwright.layout.link import link
from floorwright.layout.measure import hull_widths, piece_widths, saw_lines
from floorwright.layout.walk import Bools, Edges, Floats, Ints, Outline, edges_of, meetings, near, outline_of, shrunk
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.tolerance import COINCIDENT, TOUCH


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pairs:
    """Every edge with every tile that it may meet at some shift, flat.

    Attributes:
        edge: (n,) index of the edge.
        index: (n, 3) lattice index of the tile.
        start, stop: (n, m) mm, how far the edge's two ends lie inside each side of the tile, at shift zero.
        drop: (n, m, 2) mm, how much less those are at a shift of one along each repeat vector.
        reach: (n,) mm, how far the tile reaches behind the edge, at shift zero.
        rise: (n, 2) mm, how much more at a shift of one.
        kind: (n,) pairs of one kind have the same reach and rise.
    """

    edge: Ints
    index: Ints
    start: Floats
    stop: Floats
    drop: Floats
    reach: Floats
    rise: Points
    kind: Ints

    def __len__(self) -> int:
        return len(self.edge)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Teeth:
    """Edges along the rows, flat: what each leaves of its row of tiles rises and falls with the shift like a saw tooth.

    Attributes:
        left: (n,) mm, what is left at its near end, at shift zero, repeats not taken off.
        rise: (n, 2) mm, how much more at a shift of one.
        size, pitch: (n,) mm.
        most: (n,) mm, the most that may be left at the near end so that the far end leaves no strip.
        taper: (n,) mm, how much more is left at the far end.
    """

    left: Floats
    rise: Points
    size: Floats
    pitch: Floats
    most: Floats
    taper: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ground:
    """What every box of a search shares.

    Attributes:
        region, cell, angle, centre: as given to the search.
        edges: of the region, in the pattern's frame with the centre at its origin.
        outlines: of the pieces.
        pairs, teeth: see there.
        lengths: (2,) mm, of the repeat vectors.
        most: mm, no piece is wider than its tile.
    """

    region: Region
    cell: UnitCell
    angle: float
    centre: tuple[float, float]
    edges: Edges
    outlines: tuple[Outline, ...]
    pairs: Pairs
    teeth: Teeth
    lengths: Points
    most: float

    def placement(self, shift: Points) -> Placement:
        """Returns where the pattern lies at a shift."""
        x, y = turn(self.angle) @ (shift @ self.cell.repeat) + self.centre
        return Placement(origin=(float(x), float(y)), angle=self.angle)

    def shift_of(self, placement: Placement) -> Points:
        """Returns the shift, in [0, 1) both ways, that lays the pattern as a placement at the same angle does."""
        away = (np.array(placement.origin) - self.centre) @ turn(self.angle)
        return np.asarray((away @ np.linalg.inv(self.cell.repeat)) % 1.0)

    def leaves_strip(self, shift: Points) -> bool:
        """Returns whether some edge along the rows leaves a strip that nothing fills."""
        return bool((_within_pitch(self.teeth, self.teeth.left + self.teeth.rise @ shift) > self.teeth.most).any())


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Box:
    """A box of shifts.

    Attributes:
        middle, half: (2,) its middle and half its sides.
        pairs: those possible in it.
        bound: mm, what is known of it so far.
        loose: whether the bound by sure pairs was found wanting for it.
    """

    middle: Points
    half: Points
    pairs: Ints
    bound: float
    loose: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Looked:
    """What is known of each of a batch of boxes.

    Attributes:
        bound: (n,) mm, no position in the box has a wider narrowest piece; minus infinity where none can be laid.
        place: (n, 2) the shift that promises most.
        guess: (n,) mm, the narrowest piece there is at most this.
        matter: (n, 2) mm, by how much half the box each way changes what could still lower its bound.
        possible, sure: per box, the pairs that are.
    """

    bound: Floats
    place: Points
    guess: Floats
    matter: Points
    possible: list[Ints]
    sure: list[Ints]


def ground_of(region: Region, cell: UnitCell, angle: float, centre: tuple[float, float], spare: float) -> Ground:
    """Returns what the boxes of a search share. Arguments as for `search.search`."""
    edges = edges_of(tuple((ring - centre) @ turn(angle) for ring in region.rings))
    outlines = tuple(outline_of(piece) for piece in cell.pieces)
    widths = [hull_widths(piece, np.array([0]), np.array([len(piece)]))[0] for piece in cell.pieces]
    return Ground(
        region=region,
        cell=cell,
        angle=angle,
        centre=centre,
        edges=edges,
        outlines=outlines,
        pairs=_pairs(edges, outlines, cell.repeat),
        teeth=_teeth(region, axes_of(cell, angle), cell, angle, centre, spare),
        lengths=np.hypot(cell.repeat[:, 0], cell.repeat[:, 1]),
        most=float(max(widths)),
    )


def _pairs(edges: Edges, outlines: tuple[Outline, ...], repeat: Points) -> Pairs:
    sides = max(len(outline.corners) for outline in outlines)
    found: list[tuple[Ints, Ints, Floats, Floats, Floats, Floats]] = []
    for k, outline in enumerate(outlines):
        swept = np.concatenate([outline.corners, outline.corners + repeat.sum(axis=0)])
        edge, i, j = near(edges, swept, repeat)
        origin = np.stack([i, j], axis=1) @ repeat
        # Tiles with fewer sides than others repeat their last one.
        side = np.minimum(np.arange(sides), len(outline.corners) - 1)
        within = shrunk(outline)
        normals, offsets = within.normals[side], within.offsets[side]
        start = (edges.start[edge] - origin) @ normals.T - offsets
        stop = (edges.stop[edge] - origin) @ normals.T - offsets
        drop = np.broadcast_to(normals @ repeat.T, (len(edge), sides, 2))
        into = edges.normals
        reach = (outline.corners @ into.T).max(axis=0)[edge] + ((origin - edges.start[edge]) * into[edge]).sum(axis=1)
        found.append((edge, np.stack([i, j, np.full(len(i), k)], axis=1), start, stop, drop, reach))
    edge, index, start, stop, drop, reach = (np.concatenate(part) for part in zip(*found, strict=True))
    rise = edges.normals[edge] @ repeat.T
    alike = np.round(np.column_stack([reach, rise]) / COINCIDENT)
    kind = np.unique(alike, axis=0, return_inverse=True)[1].ravel()
    return Pairs(edge=edge, index=index, start=start, stop=stop, drop=drop, reach=reach, rise=rise, kind=kind)


def _teeth(
    region: Region, axes: tuple[Axis, ...], cell: UnitCell, angle: float, centre: tuple[float, float], spare: float
) -> Teeth:
    rows: list[tuple[float, float, float, float, float, float, float]] = []
    for axis, other in zip(axes, reversed(axes), strict=True):
        along = (cell.repeat @ turn(angle).T) @ axis.direction
        for face in region_faces(region, axis):
            if not axis.through and (face.rise > axis.joint or face.length < (len(axis.phases) + 1) * other.pitch):
                # It crosses rows one by one, or may miss some of them: then it need not leave a strip.
                continue
            for phase in axis.phases:
                low = float(np.array(centre) @ axis.direction) + axis.joint / 2 + phase
                left = face.near - float(base_of(face.sign, low, axis.size))
                rise = -face.sign * along
                most = float(most_left(axis.size, axis.joint, spare)) + TOUCH - face.rise
                rows.append((left, rise[0], rise[1], axis.size, axis.pitch, most, face.rise))
    table = np.array(rows).reshape(-1, 7)
    return Teeth(
        left=table[:, 0],
        rise=table[:, 1:3],
        size=table[:, 3],
        pitch=table[:, 4],
        most=table[:, 5],
        taper=table[:, 6],
    )


def _within_pitch(teeth: Teeth, left: Floats) -> Floats:
    """Returns what is left with whole repeats taken off: over `TOUCH`, up to the pitch and that."""
    return np.asarray(np.mod(left - TOUCH, teeth.pitch) + TOUCH)


def bound(ground: Ground, boxes: list[Box]) -> Looked:
    """Returns bounds for a batch of boxes, by the sure pairs and the teeth."""
    middle, half = np.array([box.middle for box in boxes]), np.array([box.half for box in boxes])
    pairs = ground.pairs
    box_of = np.repeat(np.arange(len(boxes)), [len(box.pairs) for box in boxes])
    pair = np.concatenate([box.pairs for box in boxes])
    drop = pairs.drop[pair]
    moved = _dot(drop, middle[box_of])
    start, stop = pairs.start[pair] - moved, pairs.stop[pair] - moved
    give = _dot(np.abs(drop), half[box_of])
    possible = _meets(start + give, stop + give)
    box_of, pair = box_of[possible], pair[possible]
    sure = _meets((start - give)[possible], (stop - give)[possible])

    at_middle = pairs.reach[pair] + (pairs.rise[pair] * middle[box_of]).sum(axis=1)
    value, slope = _lowest_kinds(ground, at_middle[sure], pair[sure], box_of[sure], len(boxes))
    top, place = highest_low(value, slope, half)
    most_left, breaks = tooth_bound(ground.teeth, middle, half)
    top = np.minimum(np.minimum(top, ground.most), most_left)
    place = _off_strips(ground, place + middle)
    change = np.abs(pairs.rise[pair]) * half[box_of]
    counts = at_middle - change.sum(axis=1) < top[box_of]
    matter = (breaks[:, :, None] * np.abs(ground.teeth.rise)).max(axis=1, initial=0.0) * half
    np.maximum.at(matter, box_of[counts], change[counts])
    return Looked(
        bound=top,
        place=place,
        guess=_guess(ground, place, pair, box_of),
        matter=matter,
        possible=_split(pair, box_of, len(boxes)),
        sure=_split(pair[sure], box_of[sure], len(boxes)),
    )


def _dot(many: Floats, one: Floats) -> Floats:
    """Returns (n, m): each of (n, m, 2) with its own of (n, 2)."""
    return np.asarray(many[..., 0] * one[:, None, 0] + many[..., 1] * one[:, None, 1])


def _split(values: Ints, box_of: Ints, boxes: int) -> list[Ints]:
    return np.split(values, np.searchsorted(box_of, np.arange(1, boxes)))


def _meets(start: Floats, stop: Floats) -> Bools:
    """Returns which segments run through their tile, from how far their ends lie inside each of its sides."""
    change = start - stop
    where = np.divide(start, change, out=np.zeros_like(start), where=change != 0)
    out0, out1 = start <= 0, stop <= 0
    enter = np.where(out0, where, 0.0).max(axis=1)
    leave = np.where(out1, where, 1.0).min(axis=1)
    return np.asarray((enter < leave) & ~(out0 & out1).any(axis=1))


def _lowest_kinds(ground: Ground, value: Floats, pair: Ints, box_of: Ints, boxes: int) -> tuple[Floats, Floats]:
    """Returns for each box the values and slopes of its lowest few kinds of sure pair."""
    values = np.full((boxes, MOST), FAR)
    slopes = np.zeros((boxes, MOST, 2))
    kinds = ground.pairs.kind[pair]
    _, one = np.unique(box_of * (int(ground.pairs.kind.max(initial=0)) + 1) + kinds, return_index=True)
    value, pair, box_of = value[one], pair[one], box_of[one]
    order = np.lexsort((value, box_of))
    value, pair, box_of = value[order], pair[order], box_of[order]
    rank = np.arange(len(box_of)) - np.searchsorted(box_of, np.arange(boxes))[box_of]
    low = rank < MOST
    values[box_of[low], rank[low]] = value[low]
    slopes[box_of[low], rank[low]] = ground.pairs.rise[pair[low]]
    return values, slopes


def tooth_bound(teeth: Teeth, middle: Points, half: Points) -> tuple[Floats, Bools]:
    """Returns for each box the most that the edges along the rows allow, and which of their teeth break inside it.

    Over the box, what is left at an edge's near end runs through an interval. Within it, up to `most`, the piece
    there is no wider than what is left at the far end. The bound is minus infinity where every position leaves a
    strip.

    Returns:
        (boxes,) mm and (boxes, teeth).
    """
    if len(teeth.left) == 0:
        return np.full(len(middle), np.inf), np.zeros((len(middle), 0), dtype=bool)
    give = half @ np.abs(teeth.rise).T
    low = _within_pitch(teeth, teeth.left + middle @ teeth.rise.T - give)
    high = low + 2 * give
    lap = teeth.pitch + TOUCH
    here = np.where(low <= teeth.most, np.minimum(np.minimum(high, lap), teeth.most), -np.inf)
    next_row = np.where(high > lap, np.minimum(high - teeth.pitch, teeth.most), -np.inf)
    left = np.maximum(here, next_row)
    breaks = ((low <= teeth.most) & (high > teeth.most)) | (high > lap)
    return np.minimum(left + teeth.taper, teeth.size).min(axis=1), breaks


def _off_strips(ground: Ground, place: Points) -> Points:
    """Returns the places, each moved off a strip to where the edge that leaves it has the most that it may."""
    teeth = ground.teeth
    if len(teeth.left) == 0:
        return place
    over = _within_pitch(teeth, teeth.left + place @ teeth.rise.T) - teeth.most
    for axis in range(2):
        # Edges square to one axis are moved off by a shift along one repeat vector alone.
        only = (np.abs(teeth.rise[:, axis]) > COINCIDENT) & (np.abs(teeth.rise[:, 1 - axis]) < COINCIDENT)
        if only.any():
            worst = np.where(over[:, only] > 0, over[:, only], 0.0)
            tooth = worst.argmax(axis=1)
            step = worst[np.arange(len(place)), tooth] / teeth.rise[only, axis][tooth]
            place = place - np.where(np.arange(2) == axis, step[:, None], 0.0)
    return place


def _guess(ground: Ground, place: Points, pair: Ints, box_of: Ints) -> Floats:
    """Returns how far the narrowest tile reaches behind the edge that cuts it, each box at its place."""
    pairs = ground.pairs
    moved = _dot(pairs.drop[pair], place[box_of])
    cut = _meets(pairs.start[pair] - moved, pairs.stop[pair] - moved)
    reach = pairs.reach[pair] + (pairs.rise[pair] * place[box_of]).sum(axis=1)
    guess = np.full(len(place), ground.most)
    np.minimum.at(guess, box_of[cut], reach[cut])
    teeth = ground.teeth
    if len(teeth.left):
        left = _within_pitch(teeth, teeth.left + place @ teeth.rise.T)
        guess[(left > teeth.most).any(axis=1)] = -np.inf
    return guess


def grown_bound(ground: Ground, box: Box, sure: Ints, enough: float) -> float:
    """Returns a bound for one box from the room cut by tiles grown to all that they cover from anywhere in the box.

    A piece that an edge surely cuts lies, wherever in the box the pattern is, within the grown piece along that edge;
    so it reaches no farther behind the edge, and its hull is no wider.
    """
    repeat = ground.cell.repeat
    give = [np.abs(outline.normals @ repeat.T) @ box.half for outline in ground.outlines]
    grown = tuple(outline.grown(by) for outline, by in zip(ground.outlines, give, strict=True))
    away = box.middle @ repeat
    edges = Edges(start=ground.edges.start - away, stop=ground.edges.stop - away, following=ground.edges.following)
    rings = link(edges, meetings(edges, grown, repeat), grown, touch=0.0)
    pieces = grouped(rings)
    lines = saw_lines(pieces)
    trusted = ~_rows_in(pieces.index[lines.piece], rings.index[rings.broken])
    key = np.column_stack([pieces.index[lines.piece], lines.edge])
    trusted &= _rows_in(key, np.column_stack([ground.pairs.index[sure], ground.pairs.edge[sure]]))
    if not trusted.any():
        return ground.most
    # Grouping drops points nearer than TOUCH to the next, which may lie outermost.
    reach = float(lines.left[trusted].min()) + TOUCH
    return reach if reach <= enough else min(reach, float(piece_widths(pieces)[lines.piece[trusted]].min()) + TOUCH)


def _rows_in(rows: Ints, among: Ints) -> Bools:
    """Returns which rows are among others."""
    wanted = {tuple(row) for row in among.tolist()}
    return np.array([tuple(row) in wanted for row in rows.tolist()], dtype=bool)
