"""`lay_rings`: rings laid about their centre, and cut where walls and obstacles are."""

from floorwright.layout.aims import default_aims
from floorwright.layout.layout import Layout
from floorwright.layout.options import weighed
from floorwright.layout.score import Floor, score
from floorwright.layout.unsearched import unsearched
from floorwright.layout.zones import Part
from floorwright.pattern.cell import Placement
from floorwright.pattern.rings import cell_of
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
    assert outline.rounded.rings is not None
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
    return unsearched(part, floor, cell, (chosen,), chosen=chosen, wanted=choose)
