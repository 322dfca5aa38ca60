"""A layout whose few positions are all there is to try: the side of a border, and rings about their own centre."""

from collections.abc import Sequence

from floorwright.findings import Finding
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option
from floorwright.layout.pieces import pieces_of
from floorwright.layout.said import Said
from floorwright.layout.say import findings_of_strip
from floorwright.layout.score import Floor
from floorwright.layout.zones import Part
from floorwright.pattern.cell import UnitCell


def unsearched(
    part: Part,
    floor: Floor,
    cell: UnitCell,
    options: Sequence[Option],
    *,
    chosen: Option,
    wanted: str,
    findings: tuple[Finding, ...] = (),
) -> Layout:
    """Returns the layout of one of the options, nothing searched and nothing proved.

    Args:
        part: of the floor.
        floor, cell: as everywhere.
        options: best first.
        chosen: the one that is laid.
        wanted: the option that the person asked for, or empty.
        findings: told after those of the options.
    """
    said = Said(
        chosen=chosen,
        recommended=options[0],
        options=tuple(options),
        wanted=wanted,
        named={option.name: option for option in options},
        steps=(cell.joint,),
        cell=cell,
        offers=(),
        proofs=(),
    )
    return Layout(
        zone=part.name,
        cell=cell,
        region=part.region,
        gap=floor.gap,
        limit=floor.limit,
        chosen=chosen,
        options=said.options,
        pieces=pieces_of(part.name, part.region, cell, chosen.placement),
        proofs=(),
        findings=(*findings_of_strip(floor, said), *findings),
        part=part,
        floor=floor,
    )
