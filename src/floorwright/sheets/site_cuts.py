"""Cuts as they go to site: by wall, like ones together, each with its picture in the tile."""

import numpy as np

from floorwright.cuts.frame import tile_of
from floorwright.cuts.schedule import CutPiece
from floorwright.draw.site import SiteAlike, SiteCuts, TilePicture
from floorwright.draw.style import Pen, Tone
from floorwright.draw.view import Fill, Line, Point
from floorwright.geometry.region import Points
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.sheets.cuts import cuts_at_walls, other_cuts
from floorwright.sheets.figures import Figures
from floorwright.sheets.pictures import laid_level, marks_of
from floorwright.sheets.words import capital
from floorwright.sheets.zones import zone_name, zones_of


def site_cuts(solution: Solution) -> tuple[SiteCuts, ...]:
    """Returns the cuts of every wall, zone by zone; pieces are counted through all cut lists."""
    assert solution.room is not None
    figures = Figures(style=solution.style)
    several = len(zones_of(solution.layouts)) > 1
    found: list[SiteCuts] = []
    before = 0
    for layout, cuts in zip(solution.layouts, solution.cuts, strict=True):
        places = {piece.label: before + n for n, piece in enumerate(cuts.pieces)}
        kinds = {piece.id: piece.index[2] for piece in layout.pieces if not piece.full}
        own = f"{capital(zone_name(layout))}. " if several else ""
        for at_wall in cuts_at_walls(solution.room, layout, cuts, set(), figures):
            alike = tuple(
                SiteAlike(
                    numbers=one.numbers,
                    pieces=tuple(places[piece.label] for piece in one.pieces),
                    kept=one.kept,
                    note=one.note,
                    also=tuple(other_cuts(one.pieces[0], at_wall.wall, figures)),
                    picture=_picture(one.pieces[0], kinds[one.pieces[0].id], layout, figures),
                )
                for one in at_wall.cuts
            )
            found.append(SiteCuts(heading=f"{own}{at_wall.heading}", ends=at_wall.ends, cuts=alike))
        before += len(cuts.pieces)
    return tuple(found)


def _picture(piece: CutPiece, k: int, layout: Layout, figures: Figures) -> TilePicture:
    tile = tile_of(layout.cell, k)

    def placed(points: Points | tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple((float(x), float(y)) for x, y in laid_level(np.asarray(points), tile, layout))

    sawn = [Line(points=placed((saw.start, saw.end)), pen=Pen.SAWN) for saw in piece.saws]
    sawn += [Line(points=placed((arc.start, arc.end)), pen=Pen.SAWN, bulges=(arc.bulge,)) for arc in piece.arcs]
    corners = dict(zip(tile.corners, tile.outline, strict=True))
    marks = marks_of(piece)
    ends = placed(np.array([(mark.at, corners[mark.corner]) for mark in marks]).reshape(-1, 2))
    return TilePicture(
        tile=placed(tile.outline),
        kept=Fill(rings=tuple(placed(ring) for ring in piece.outline), tone=Tone.CUT),
        sawn=tuple(sawn),
        marks=tuple(
            (at, corner, figures.cut(mark.distance))
            for at, corner, mark in zip(ends[::2], ends[1::2], marks, strict=True)
        ),
    )
