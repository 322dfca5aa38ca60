"""The cut list: every cut piece numbered as a person meets it who walks along the walls."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from floorwright import tolerance
from floorwright.cuts.frame import Tile, onto_tile, tile_of
from floorwright.cuts.marks import Round, Sawn, rounds_of, sawn, true_walls
from floorwright.cuts.schedule import CutList, CutPiece, SawLine, TileMark
from floorwright.cuts.walk import Place, met
from floorwright.geometry.region import Points
from floorwright.layout.layout import Layout
from floorwright.layout.piece import Piece
from floorwright.units import LengthStyle

Key = tuple[object, ...]


def cut_lists(layouts: Sequence[Layout], style: LengthStyle) -> tuple[CutList, ...]:
    """Returns the cut list of each layout, the numbers running on from one to the next, so that each stands once on a
    plan of the whole floor."""
    lists: list[CutList] = []
    for layout in layouts:
        lists.append(cut_list(layout, style, first=1 + sum(len(done.pieces) for done in lists)))
    return tuple(lists)


def cut_list(layout: Layout, style: LengthStyle, first: int = 1) -> CutList:
    """Returns the cut pieces of a layout, numbered in walking order.

    That is along the walls from the first, a piece at a corner once, where it is first met; then round the obstacles
    that stand free. Two pieces are the same cut when every mark prints the same. A `straight` or `strip` cut may be
    turned half round, as on a tile without grain; nothing may be turned over, so a taper to the left and one to the
    right are two cuts.

    Args:
        layout: pieces, pattern and what is covered.
        style: whose step the marks are compared at; nothing is rounded in the result.
        first: the first number.
    """
    rounds = rounds_of(layout.region)
    cut = sorted(
        (_on_tile(piece, layout, rounds) for piece in layout.pieces if not piece.full),
        key=lambda one: (one.met, one.piece.id),
    )
    firsts: dict[Key, str] = {}
    pieces = []
    for number, one in enumerate(cut, start=first):
        how = sawn(one.rings, one.walls, one.tile, one.rounds)
        pieces.append(_cut_piece(one, str(number), how, style, firsts))
    lengths = [saw.length for piece in pieces for saw in piece.saws]
    lengths += [bore.length for piece in pieces for bore in piece.bores]
    lengths += [arc.length for piece in pieces for arc in piece.arcs]
    return CutList(zone=layout.zone, pieces=tuple(pieces), sawn=math.fsum(lengths), tiles=len(pieces))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Cut:
    """A cut piece on its way into the list: in its tile's frame, with the walls that it is truly sawn to.

    Attributes:
        kind: of the tile, as the pattern calls it.
        met: those walls, each with where a walk first meets the piece there, in that order.
        rounds: round obstacles among them, in the tile's frame.
    """

    piece: Piece
    kind: str
    tile: Tile
    rings: list[Points]
    walls: list[tuple[str | None, ...]]
    met: tuple[tuple[Place, str], ...]
    rounds: dict[str, Round]


def _on_tile(piece: Piece, layout: Layout, rounds: dict[str, Round]) -> _Cut:
    tile = tile_of(layout.cell, piece.index[2])

    def local(points: Points) -> Points:
        return onto_tile(points, tile, layout.cell, layout.chosen.placement, piece.index)

    rings = [local(ring) for ring in piece.rings]
    walls = [true_walls(ring, names, tile) for ring, names in zip(rings, piece.edges, strict=True)]
    places = met(piece, walls, layout.region)
    near = {name: rounds[name] for _, name in places if name in rounds}
    return _Cut(
        piece=piece,
        kind=layout.cell.kind(piece.index[2]),
        tile=tile,
        rings=rings,
        walls=walls,
        met=places,
        rounds={name: replace(one, centre=local(one.centre[None])[0]) for name, one in near.items()},
    )


def _cut_piece(one: _Cut, label: str, how: Sawn, style: LengthStyle, firsts: dict[Key, str]) -> CutPiece:
    kind = _kind(how, one.tile)
    thin, fat = _ends(kind, how, one.rings[0])
    return CutPiece(
        id=one.piece.id,
        label=label,
        walls=tuple(name for _, name in one.met),
        kind=kind,
        thin=thin,
        fat=fat,
        saws=how.saws,
        outline=tuple(tuple((float(x), float(y)) for x, y in ring) for ring in one.rings),
        factory=how.factory,
        same_as=firsts.setdefault((one.kind, *_key(kind, how, one.tile, style)), label),
        bores=how.bores,
        arcs=how.arcs,
        cut_from=one.kind,
    )


def _kind(how: Sawn, tile: Tile) -> str:
    if how.arcs:
        return "curved"
    if how.turns_in:
        return "notch"
    if how.meets:
        return "corner"
    if all(_is_straight(saw, tile) for saw in how.saws):
        if len(how.saws) == 1:
            return "straight"
        if len({frozenset(mark.side for mark in saw.marks) for saw in how.saws}) == 1:
            return "strip"
    return "angled"


def _is_straight(saw: SawLine, tile: Tile) -> bool:
    """Returns whether a line runs from one side of the tile to the opposite one, along the other two."""
    first, last = saw.marks
    if not tile.opposite(first.side, last.side):
        return False
    next_side = tile.sides.index(first.side) + 1
    corners = tile.outline[next_side % 4], tile.outline[(next_side + 1) % 4]
    side, line = corners[1] - corners[0], np.subtract(last.at, first.at)
    off = abs(side[0] * line[1] - side[1] * line[0])
    return bool(off <= math.sin(tolerance.ALONG) * np.hypot(*side) * np.hypot(*line))


def _ends(kind: str, how: Sawn, outline: Points) -> tuple[float, float]:
    """Returns the thin and the fat end, mm; of a piece without ends the sides of its bounding rectangle."""
    if kind == "straight":
        ends = [mark.distance for mark in how.saws[0].marks]
    elif kind == "strip":
        by_side = {mark.side: mark.at for mark in how.saws[1].marks}
        ends = [math.dist(mark.at, by_side[mark.side]) for mark in how.saws[0].marks]
    else:
        ends = [float(extent) for extent in np.ptp(outline, axis=0)]
    return min(ends), max(ends)


def _key(kind: str, how: Sawn, tile: Tile, style: LengthStyle) -> Key:
    """Returns what two pieces have in common when they are the same cut."""
    key = _marks_key(kind, how, style, {})
    if kind not in ("straight", "strip") or not tile.half_turns:
        return key
    turned = dict([*_swapped(tile.sides), *_swapped(tile.corners)])
    return min(key, _marks_key(kind, how, style, turned), key=repr)


def _swapped(names: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    return zip(names, names[2:] + names[:2], strict=True)


def _marks_key(kind: str, how: Sawn, style: LengthStyle, turned: dict[str, str]) -> Key:
    def mark(one: TileMark) -> Key:
        return turned.get(one.side, one.side), turned.get(one.corner, one.corner), style.steps(one.distance)

    def stop(at: tuple[float, float], distance: float | None) -> Key:
        return () if distance is not None else tuple(style.steps(value) for value in at)

    saws = sorted(
        ((*map(mark, saw.marks), stop(saw.start, saw.start_mark), stop(saw.end, saw.end_mark)) for saw in how.saws),
        key=repr,
    )
    bores = [tuple(style.steps(value) for value in (*bore.centre, bore.radius, bore.length)) for bore in how.bores]
    arcs = [(*(style.steps(value) for value in (*arc.start, *arc.end)), style.steps(arc.rise)) for arc in how.arcs]
    factory = sorted(turned.get(side, side) for side in how.factory)
    return kind, tuple(saws), tuple(bores), tuple(arcs), tuple(factory)
