"""The pieces of a chosen position, full and cut, as nouns that other parts read."""

from dataclasses import replace

import numpy as np

from floorwright.geometry.arc import bulged_area
from floorwright.geometry.region import Region
from floorwright.geometry.restore import flattened, restored
from floorwright.layout.clip import Clipped, clip, turn
from floorwright.layout.factory_arcs import with_factory_arcs
from floorwright.layout.measure import hull_widths, measure
from floorwright.layout.piece import Piece
from floorwright.layout.repeat import repeat_of
from floorwright.pattern.cell import Placement, UnitCell


def pieces_of(zone: str, region: Region, cell: UnitCell, placement: Placement) -> tuple[Piece, ...]:
    """Returns every piece of the pattern so placed, in order of index.

    Args:
        zone: its name, for the ids.
        region: what is covered, floor frame.
        cell, placement: the pattern and where it lies.
    """
    clipped = clip(region, cell, placement)
    pieces = _full(zone, cell, placement, clipped) + _cut(zone, region, clipped)
    if cell.outlines:
        pieces = [with_factory_arcs(piece, cell, placement, region.circles) for piece in pieces]
    return tuple(sorted(pieces, key=lambda piece: (piece.index, piece.id)))


def piece_id(zone: str, index: tuple[int, int, int], part: int = 0) -> str:
    """Returns the id of a piece; `part` counts from 1 where a tile leaves more than one, else it is 0."""
    i, j, k = index
    return f"{zone}:{i},{j},{k}" + (f"/{part}" if part else "")


def _full(zone: str, cell: UnitCell, placement: Placement, clipped: Clipped) -> list[Piece]:
    repeat = repeat_of(cell)
    to_floor = turn(placement.angle).T
    outlines = [outline @ to_floor for outline in cell.pieces]
    area = repeat.areas.tolist()
    width = hull_widths(repeat.corners, repeat.first[:-1], repeat.first[1:]).tolist()
    edges: list[tuple[tuple[str | None, ...], ...]] = [((None,) * len(outline),) for outline in cell.pieces]
    index = clipped.full
    at = index[:, :2] @ cell.repeat @ to_floor + placement.origin
    return [
        Piece(
            id=piece_id(zone, (i, j, k)),
            index=(i, j, k),
            full=True,
            rings=(outlines[k] + origin,),
            edges=edges[k],
            area=area[k],
            narrowest=width[k],
            depth=width[k],
        )
        for (i, j, k), origin in zip(index.tolist(), at, strict=True)
    ]


def _cut(zone: str, region: Region, clipped: Clipped) -> list[Piece]:
    names: list[str | None] = [name for ring in region.edges for name in ring]
    names.append(None)  # where `link.FACTORY` points
    measures = measure(clipped)
    narrowest = measures.narrowest
    begins = np.searchsorted(clipped.piece, np.arange(len(clipped.index) + 1)).tolist()
    first = clipped.first.tolist()
    edge = clipped.edge.tolist()
    pieces = []
    for row, (i, j, k) in enumerate(clipped.index.tolist()):
        spans = [(first[ring], first[ring + 1]) for ring in range(begins[row], begins[row + 1])]
        piece = Piece(
            id=piece_id(zone, (i, j, k), int(clipped.part[row])),
            index=(i, j, k),
            full=False,
            rings=tuple(clipped.points[a:b] for a, b in spans),
            edges=tuple(tuple(names[at] for at in edge[a:b]) for a, b in spans),
            area=float(clipped.area[row]),
            narrowest=float(narrowest[row]),
            depth=float(measures.depth[row]),
        )
        pieces.append(_curved(piece, region) if region.circles else piece)
    return pieces


def _curved(piece: Piece, region: Region) -> Piece:
    """The piece with its true arcs, if it is sawn to any."""
    outlines = tuple(
        restored(ring, names, region.circles) for ring, names in zip(piece.rings, piece.edges, strict=True)
    )
    if not any(outline.is_curved for outline in outlines):
        return piece
    flat = [flattened(outline) for outline in outlines]
    return replace(
        piece,
        rings=tuple(points for points, _ in flat),
        edges=tuple(names for _, names in flat),
        area=sum(bulged_area(outline.points, outline.bulges) for outline in outlines),
        outlines=outlines,
    )
