"""`lay_rings`: rings laid about their centre, and cut where walls and obstacles are."""

import math
from collections.abc import Iterator
from dataclasses import replace

from floorwright.geometry.sector import circle_outline
from floorwright.layout.aims import default_aims
from floorwright.layout.layout import Layout
from floorwright.layout.options import weighed
from floorwright.layout.piece import Piece
from floorwright.layout.pieces import pieces_of
from floorwright.layout.said import Said
from floorwright.layout.say import findings_of_strip
from floorwright.layout.score import Floor, score
from floorwright.layout.zones import Part
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.pattern.rings import STONE, cell_of
from floorwright.units import LengthStyle

ON_CENTRE = "about its centre"


def lay_rings(
    *,
    part: Part,
    gap: tuple[float, float],
    limit: float,
    choose: str,
    shift_sd: float,
    turn_sd: float,
    style: LengthStyle,
) -> Layout:
    """Returns rings laid out; there is one position, the person's own centre.

    Args:
        part: with its outline, which holds the rings.
        gap, limit, shift_sd, turn_sd, style: as for `layout.lay.lay_out`.
        choose: the option that the person wants, or empty.
    """
    outline = part.outline
    assert outline is not None
    assert outline.rounded is not None
    cell = cell_of(outline.rounded.rings)
    floor = Floor(
        zone=part.name,
        region=part.region,
        sides=part.sides,
        gap=gap,
        limit=limit,
        centre=outline.centre,
        shift_sd=shift_sd,
        turn_sd=turn_sd,
        style=style,
        joint=cell.joint,
        angle=outline.along,
        aims=default_aims(limit, runs_along=False),
    )
    placement = Placement(origin=outline.centre, angle=outline.along)
    # Not shaken: a hand that is out moves the circle that lies around them with them.
    chosen = weighed(floor, cell, score(floor, cell, placement, ON_CENTRE), 0)
    said = Said(
        chosen=chosen,
        recommended=chosen,
        options=(chosen,),
        wanted=choose,
        named={chosen.name: chosen},
        steps=(cell.joint,),
        cell=cell,
        offers=(),
        proofs=(),
    )
    return Layout(
        zone=part.name,
        cell=cell,
        region=part.region,
        gap=gap,
        limit=limit,
        chosen=chosen,
        options=(chosen,),
        pieces=tuple(_pieces(part, cell, placement, outline.rounded.rings.stone)),
        proofs=(),
        findings=findings_of_strip(floor, said),
        part=part,
        floor=floor,
    )


def _pieces(part: Part, cell: UnitCell, placement: Placement, stone: float) -> Iterator[Piece]:
    """The pieces, the stone as it truly is where no wall cuts it."""
    for piece in pieces_of(part.name, part.region, cell, placement):
        if piece.full and cell.kind(piece.index[2]) == STONE:
            outline = circle_outline(placement.origin, stone / 2, None)
            yield replace(piece, area=math.pi * stone**2 / 4, outlines=(outline,))
        else:
            yield piece
