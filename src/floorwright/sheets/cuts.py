"""The cut list by wall, with the marks to saw each piece by, and pictures of those that are not plain strips."""

from typing import Final

from floorwright import tolerance
from floorwright.cuts.schedule import CutList, CutPiece, SawLine
from floorwright.draw.sheet import Block, Column, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.plan.room import Room
from floorwright.sheets.figures import Figures
from floorwright.sheets.pictures import picture_views
from floorwright.sheets.words import counted

CAUTION: Final = (
    "Dust: cut wet or with extraction, and wear a mask.",
    "Saw: let it stop before you reach for the piece; eyes, ears and hands covered.",
    "Before drilling or sawing into the slab find hot pipes and cables. A post-tensioned slab must not be sawn at all "
    "until whoever designed it has agreed.",
)

HOW: Final = (
    "Tile face up. Every figure runs along the tile's side from the factory corner that you keep.",
    "Mark all lines on the full tile before you saw the first. Thin and fat ends differ: measure both.",
    "The sawn side goes to the wall that heads the list. Numbers are those on the layout.",
)


def cuts_sheet(solution: Solution, layout: Layout, cuts: CutList) -> Sheet:
    """Returns the cut list of one zone; the solution must have a room."""
    room = solution.room
    assert room is not None
    figures = Figures(style=solution.style)
    if not cuts.pieces:
        return Sheet(key="cuts", title="Nothing is cut.", blocks=(Prose(lines=("Every tile is laid full.",)),))
    kinds = len({piece.same_as for piece in cuts.pieces})
    title = f"Saw {counted(len(cuts.pieces), 'piece')}: {counted(kinds, 'different cut')}."
    blocks: list[Block] = [Prose(lines=HOW), Prose(heading="Before you saw", lines=CAUTION, tone="caution")]
    blocks += _wall_tables(room, layout, cuts, figures)
    blocks += _pictures(layout, cuts, figures, solution.job.paper)
    return Sheet(key="cuts", title=title, blocks=tuple(blocks))


def _wall_tables(room: Room, layout: Layout, cuts: CutList, figures: Figures) -> list[Table]:
    """Returns a table for each wall in the order in which a walk meets them; each piece stands once."""
    tables = []
    narrow = {piece.id for piece in layout.pieces if piece.narrowest < layout.limit - tolerance.PROOF}
    alike: dict[str, list[str]] = {}
    for piece in cuts.pieces:
        alike.setdefault(piece.same_as, []).append(piece.label)
    for wall, pieces in by_wall(cuts).items():
        start, end = _ends(room, wall)
        columns = (
            Column(heading="No.", marked=True),
            Column(heading="Cut"),
            Column(heading=f"Keep, {start or 'first'} end", unit=figures.column, align="right", marked=True),
            Column(heading=f"Keep, {end or 'other'} end", unit=figures.column, align="right", marked=True),
            Column(heading="Same cut"),
            Column(heading="Also"),
        )
        rows = [_row(piece, wall, piece.id in narrow, alike, figures) for piece in pieces]
        # A column that says nothing anywhere is left out.
        said = [n for n in range(len(columns)) if any(row[n] for row in rows)]
        tables.append(
            Table(
                heading=f"Wall {wall}, from {start} to {end}" if start else wall.capitalize(),
                columns=tuple(columns[n] for n in said),
                rows=tuple(tuple(row[n] for n in said) for row in rows),
                ticks=True,
            )
        )
    return tables


def by_wall(cuts: CutList) -> dict[str, list[CutPiece]]:
    """Returns the pieces by the wall at which a walk first meets them, in walking order."""
    listed: dict[str, list[CutPiece]] = {}
    for piece in cuts.pieces:
        listed.setdefault(piece.walls[0], []).append(piece)
    return listed


def _row(piece: CutPiece, wall: str, narrow: bool, alike: dict[str, list[str]], figures: Figures) -> tuple[str, ...]:
    lines = sorted(piece.saws, key=lambda saw: saw.wall != wall)
    first = lines[0] if lines else None
    start, end = _marks(first, figures) if first else ("", "")
    also = [_said(saw, figures) for saw in lines[1:]]
    also += [f"{bore.wall}: round, {figures.cut(2 * bore.radius)} across, centred as pictured" for bore in piece.bores]
    if any(mark is None for saw in lines for mark in (saw.start_mark, saw.end_mark)):
        also.append("stop at the inside corner")
    if narrow:
        also.append("under the limit")
    others = [label for label in alike[piece.same_as] if label != piece.label]
    return piece.label, piece.kind, start, end, _same(piece, others), "; ".join(also)


def _marks(saw: SawLine, figures: Figures) -> tuple[str, str]:
    start, end = (figures.cut(mark.distance) for mark in saw.marks)
    return start, end


def _said(saw: SawLine, figures: Figures) -> str:
    start, end = _marks(saw, figures)
    return f"{saw.wall}: {start}" if start == end else f"{saw.wall}: {start} and {end}"


def _same(piece: CutPiece, others: list[str]) -> str:
    """Returns `as 4` for a piece like an earlier one, `and 3 more` for the first of several."""
    if piece.same_as != piece.label:
        return f"as {piece.same_as}"
    return f"and {len(others)} more" if others else ""


def _ends(room: Room, wall: str) -> tuple[str, str]:
    for one in room.walls:
        if one.name == wall:
            return one.start, one.end
    return "", ""


def _pictures(layout: Layout, cuts: CutList, figures: Figures, paper: str) -> tuple[Block, ...]:
    """Returns a picture of every different cut that two figures do not tell, and of one of each kind that they do."""
    shown, kinds = [], set()
    for piece in cuts.pieces:
        if piece.kind == "straight" or piece.same_as != piece.label:
            continue
        if piece.kind == "angled" and len(piece.saws) == 1:
            kind = tuple((mark.side, mark.corner) for mark in piece.saws[0].marks)
            if kind in kinds:
                continue
            kinds.add(kind)
        shown.append(piece)
    if not shown:
        return ()
    note = Prose(
        heading="The cuts that are not plain strips, as they lie on the layout",
        lines=("X is waste. Thick sides are sawn. Of single angled cuts one of each kind is shown.",),
    )
    return (note, *picture_views(shown, layout, figures, paper))
