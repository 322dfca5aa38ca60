"""The real size of a tile, or of a joint, from a row laid dry: ten tiles and nine joints reading 3027.

One reading over many tiles shares the error of reading among them: read to 0.5 mm, ten tiles give one to 0.05 mm.
"""

from floorwright.findings import Finding, Severity
from floorwright.units import LengthStyle


def tile_from_row(
    *, reads: float, tiles: int, joints: int, joint: float, place: str, style: LengthStyle
) -> tuple[float | None, Finding]:
    """Returns the size of one tile, mm (None where the row leaves nothing for it), and the finding that says so.

    Args:
        reads: mm, over the whole row.
        tiles: in the row, one or more.
        joints: in the row: one fewer than the tiles where it starts and ends with a tile.
        joint: mm, each.
        place: where it is booked, for the finding (`goods Porcelain 447`).
        style: how lengths print.

    >>> from floorwright.units import METRIC
    >>> tile_from_row(reads=3027, tiles=10, joints=9, joint=3, place="goods", style=METRIC)[0]
    300.0
    """
    row = f"{_count(tiles, 'tile')} and {_count(joints, 'joint')} of {style.entered_text(joint)}"
    if tiles < 1:
        return None, _impossible(place, row, reads, style)
    tile = (reads - joints * joint) / tiles
    if tile <= 0.0:
        return None, _impossible(place, row, reads, style)
    return tile, _taken(place, f"tile taken as {style.entered_text(tile)}", row, reads, tiles, joints, style)


def joint_from_row(
    *, reads: float, tiles: int, joints: int, tile: float, place: str, style: LengthStyle
) -> tuple[float | None, Finding]:
    """Returns the width of one joint, mm (None where the tiles alone are longer), and the finding that says so.

    Args as for `tile_from_row`, with the size of a tile given; one joint or more.
    """
    row = f"{_count(tiles, 'tile')} of {style.entered_text(tile)} and {_count(joints, 'joint')}"
    if joints < 1 or reads < tiles * tile:
        return None, _impossible(place, row, reads, style)
    joint = (reads - tiles * tile) / joints
    return joint, _taken(place, f"joint taken as {style.entered_text(joint)}", row, reads, tiles, joints, style)


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def _taken(place: str, taken: str, row: str, reads: float, tiles: int, joints: int, style: LengthStyle) -> Finding:
    odd = abs(tiles - joints) > 1
    return Finding(
        code="survey-row-of-tiles",
        severity=Severity.WARNING if odd else Severity.NOTE,
        place=place,
        found=f"{taken}: {row} read {style.entered_text(reads)}",
        expected=f"{tiles - 1}, {tiles} or {tiles + 1} joints to {_count(tiles, 'tile')} in one row" if odd else "",
        remedy="count the joints again" if odd else "lay and measure another row if the tiles come from other boxes",
        source="yours",
    )


def _impossible(place: str, row: str, reads: float, style: LengthStyle) -> Finding:
    return Finding(
        code="survey-row-impossible",
        severity=Severity.ERROR,
        place=place,
        found=f"{row} cannot read {style.entered_text(reads)}",
        expected="a row longer than its joints, of at least one tile",
        remedy="count the tiles and joints again, and check what the reading is in",
        source="yours",
    )
