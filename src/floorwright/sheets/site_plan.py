"""The plan as it goes to site: every shape once, so that a few thousand tiles still fit into a message."""

import math
from collections.abc import Iterator
from itertools import groupby

import numpy as np

from floorwright.draw.site import Named, SiteCut, SitePlan, Tiles
from floorwright.draw.style import Pen, Tone
from floorwright.draw.view import Fill, Line
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.layout.piece import Piece
from floorwright.plan.room import Room
from floorwright.sheets.control import line_items
from floorwright.sheets.cuts import narrow_ids
from floorwright.sheets.plan import door_place, floor_items, mid_wall, plan_box, rings_of, wall_items
from floorwright.sheets.rooms import room_names
from floorwright.sheets.score_plan import score_items
from floorwright.sheets.tiles import outline_sides, zone_items

SAME = 0.05
"""mm by which corners of tiles of one shape may differ: half of what the copy's figures show."""


def site_plan(solution: Solution) -> SitePlan:
    """Returns the plan of a job; it must have a room and control."""
    room, region, control = solution.room, solution.region, solution.control
    assert room is not None
    assert region is not None
    assert control is not None
    pieces = {piece.id: piece for layout in solution.layouts for piece in layout.pieces}
    cut = [(pieces[one.id], one.label) for cuts in solution.cuts for one in cuts.pieces]
    narrow = set().union(*(narrow_ids(layout) for layout in solution.layouts))
    scored = score_items(solution.scored) if solution.scored is not None else ()
    return SitePlan(
        box=plan_box(region),
        floor=floor_items(room, region),
        tiles=tuple(tiles for layout in solution.layouts for tiles in _full(layout)),
        cuts=tuple(SiteCut(label=label, shape=_shape(piece), is_under=piece.id in narrow) for piece, label in cut),
        sawn=tuple(line for piece, _ in cut for line in _sawn(piece)),
        walls=(*zone_items(solution.layouts), *scored, *wall_items(room), *line_items(control)),
        names=tuple(_names(room)),
    )


def _full(layout: Layout) -> Iterator[Tiles]:
    """Yields the full tiles of a layout, those of one shape together."""
    full = sorted((piece for piece in layout.pieces if piece.full), key=lambda piece: piece.index[2])
    for _, group in groupby(full, key=lambda piece: (piece.index[2], len(piece.rings[0]))):
        rings = np.stack([piece.rings[0] for piece in group])
        outlines = rings - rings[:, :1]
        if float(np.ptp(outlines, axis=0).max()) < SAME:
            yield Tiles(outline=outlines[0], places=rings[:, 0])
            continue
        for ring, outline in zip(rings, outlines, strict=True):
            yield Tiles(outline=outline, places=ring[:1])


def _shape(piece: Piece) -> Fill:
    if piece.outlines:
        rings = tuple(rings_of(tuple(outline.points for outline in piece.outlines)))
        return Fill(rings=rings, tone=Tone.CUT, bulges=tuple(outline.bulges for outline in piece.outlines))
    return Fill(rings=tuple(rings_of(piece.rings)), tone=Tone.CUT)


def _sawn(piece: Piece) -> Iterator[Line]:
    for outline in piece.outlines:
        for side, wall, bulge in outline_sides(outline):
            if wall is not None:
                yield Line(points=side, pen=Pen.SAWN, bulges=(bulge,) if bulge else ())
    if piece.outlines:
        return
    for ring, walls in zip(rings_of(piece.rings), piece.edges, strict=True):
        for n, wall in enumerate(walls):
            if wall is not None:
                yield Line(points=(ring[n], ring[(n + 1) % len(ring)]), pen=Pen.SAWN)


def _names(room: Room) -> Iterator[Named]:
    ring = room.corner_ring
    for n, corner in enumerate(room.corners):
        before, after = ring[n] - ring[n - 1], ring[(n + 1) % len(ring)] - ring[n]
        into, out_of = (float(np.arctan2(side[1], side[0])) for side in (before, after))
        half = into + math.remainder(out_of - into, math.tau) / 2 - math.pi / 2
        yield Named(at=(corner.x, corner.y), away=(math.cos(half), math.sin(half)), text=corner.name, what="corner")
    for wall in room.walls:
        middle = mid_wall(room, wall)
        if middle is not None:
            yield Named(at=middle[0], away=middle[1], text=wall.name, what="wall")
    for opening in room.openings:
        at, away = door_place(room, opening)
        yield Named(at=at, away=away, text=opening.name, what="door")
    for text in room_names(room):
        yield Named(at=text.at, away=(0.0, 0.0), text=text.text, what="room")
