"""The cut list by wall, with the marks to saw each piece by, and pictures of those that are not plain strips."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from floorwright import tolerance
from floorwright.cuts.schedule import ArcCut, CutList, CutPiece, SawLine
from floorwright.draw.paper import GUTTER, body_space
from floorwright.draw.sheet import Block, Column, Columns, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.plan.room import Room
from floorwright.sheets.figures import Figures
from floorwright.sheets.pictures import picture_views
from floorwright.sheets.words import capital, counted, sentence
from floorwright.sheets.zones import zone_name, zones_of

ABREAST: Final = 2
"""Columns that the lists run down."""

CAUTION: Final = (
    "Dust: cut wet or with extraction, and wear a mask.",
    "Saw: let it stop before you reach for the piece; eyes, ears and hands covered.",
    "Before drilling or sawing into the slab find hot pipes and cables. A post-tensioned slab must not be sawn at all "
    "until whoever designed it has agreed.",
)

HOW: Final = (
    "Tile face up. Every figure is what you keep, along the tile's side from its factory corner.",
    "Mark all lines on the full tile before you saw the first. Thin and fat ends differ: measure both.",
    "The sawn side goes to the wall named. Numbers are those on the layout; those with * are pictured.",
)

FEW: Final = 3
"""So many numbers, and no more, are counted at a glance."""

WASTE: Final = "X is waste, thick sides are sawn."

ONE_OF_EACH: Final = "Of single angled cuts one of each kind is shown."

CURVED: Final = (
    "Curved: mark both ends, then the middle: it bulges out past the line between them, or hollows in, by the figure. "
    "Two arcs struck from the ends at the radius cross in the centre; where that is out of reach, bend a batten "
    "through the three marks.",
    "Saw short of a curve in straight relief cuts and grind back to the line: more dust than a saw cut. Mask, eyes.",
)
"""Common practice, no source."""

ROUND_TILES: Final = (
    "Tiles with round sides: every figure is measured straight from the corner that its picture shows.",
)

STOP: Final = "Where two sawn sides meet inside the tile, stop the saw at the corner."


@dataclass(frozen=True, slots=True, kw_only=True)
class AlikeCuts:
    """Cuts of a wall that are all the same.

    Attributes:
        pieces: at least one.
        numbers: theirs, as they are said.
        kept: what to keep at both ends, empty where no straight cut is.
        note: what else is to be known of them.
    """

    pieces: tuple[CutPiece, ...]
    numbers: str
    kept: tuple[str, str]
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CutsAtWall:
    """The cuts that a walk first meets at a wall.

    Attributes:
        wall: its name.
        heading: what it is and from where to where it runs.
        ends: what stands over both figures.
        cuts: in walking order.
    """

    wall: str
    heading: str
    ends: tuple[str, str]
    cuts: tuple[AlikeCuts, ...]


def cuts_sheet(solution: Solution, *laid: tuple[Layout, CutList]) -> Sheet:
    """Returns the cut list of a zone, of a border with all its sides, or of several; the solution must have a room.

    Args:
        solution: solved.
        laid: each layout with its cut list, those of a zone together.
    """
    room = solution.room
    assert room is not None
    figures = Figures(style=solution.style)
    sawn = [(layout, cuts) for layout, cuts in laid if cuts.pieces]
    if not sawn:
        return Sheet(key="cuts", title="Nothing is cut.", blocks=(Prose(lines=("Every tile is laid full.",)),))
    kinds = sum(len({piece.same_as for piece in cuts.pieces}) for _, cuts in sawn)
    count = sum(len(cuts.pieces) for _, cuts in sawn)
    several = len(zones_of(solution.layouts)) > 1
    here = zones_of([layout for layout, _ in sawn])
    own = f"{capital(zone_name(sawn[0][0]))}: saw" if several and len(here) == 1 else "Saw"
    shown = [pictured(cuts) for _, cuts in sawn]
    heads = {id(zone[0]): capital(zone_name(zone[0])) for zone in here if len(here) > 1}
    listing: list[Block] = []
    for (layout, cuts), some in zip(sawn, shown, strict=True):
        if id(layout) in heads:
            listing.append(Prose(heading=heads[id(layout)], lines=(sentence(figures.goods(layout.cell)),)))
        listing += _wall_tables(room, layout, cuts, some, figures)
    told: set[str] = set()
    for (layout, _), some in zip(sawn, shown, strict=True):
        listing += _pictures(some, layout, figures, solution.job.paper, told)
    lists = [_list(room, layout, cuts, figures) for layout, cuts in sawn]
    return Sheet(
        key="cuts",
        title=f"{own} {counted(count, 'piece')}: {counted(kinds, 'different cut')}.",
        blocks=(
            Prose(lines=(*HOW, *(ROUND_TILES if any(layout.cell.outlines for layout, _ in sawn) else ()))),
            Prose(heading="Before you saw", lines=CAUTION, tone="caution"),
            Columns(blocks=tuple(listing), count=ABREAST),
        ),
        lists=(("cut-list", replace(lists[0], rows=tuple(row for one in lists for row in one.rows))),),
    )


def _wall_tables(
    room: Room, layout: Layout, cuts: CutList, shown: Sequence[CutPiece], figures: Figures
) -> Iterator[Table]:
    """Yields a table for each wall in the order in which a walk meets them; each piece stands once, like ones in a row
    together."""
    for at_wall in cuts_at_walls(room, layout, cuts, {piece.label for piece in shown}, figures):
        columns = (
            Column(heading="No.", marked=True),
            *(Column(heading=end, unit=figures.column, align="right", marked=True) for end in at_wall.ends),
            Column(heading=""),
        )
        rows = [(alike.numbers, *alike.kept, alike.note) for alike in at_wall.cuts]
        # A column that says nothing anywhere is left out.
        said = [n for n in range(len(columns)) if any(row[n] for row in rows)]
        yield Table(
            heading=at_wall.heading,
            columns=tuple(columns[n] for n in said),
            rows=tuple(tuple(row[n] for n in said) for row in rows),
            ticks=True,
        )


def cuts_at_walls(
    room: Room, layout: Layout, cuts: CutList, pictures: set[str], figures: Figures
) -> Iterator[CutsAtWall]:
    """Yields the cuts of each wall in the order in which a walk meets them.

    Args:
        room, layout, cuts: of a zone.
        pictures: labels of the pieces that are pictured.
        figures: how lengths print.
    """
    narrow = narrow_ids(layout)
    for wall, pieces in by_wall(cuts).items():
        start, end = _ends(room, wall)
        groups: dict[tuple[str, bool], list[CutPiece]] = {}
        for piece in pieces:
            groups.setdefault((piece.same_as, piece.id in narrow), []).append(piece)
        heading = f"Wall {wall}, from {start} to {end}" if start else capital(wall)
        yield CutsAtWall(
            wall=wall,
            heading=heading + _radius(pieces, wall, figures),
            ends=(f"at {start}" if start else "keep", f"at {end}" if end else "and"),
            cuts=tuple(
                AlikeCuts(
                    pieces=tuple(group),
                    numbers=runs([piece.label for piece in group]),
                    kept=_kept(group[0], wall, figures),
                    note=_note(group, wall, under, pictures, figures),
                )
                for (_, under), group in groups.items()
            ),
        )


def narrow_ids(layout: Layout) -> set[str]:
    """Returns the ids of the pieces under the limit."""
    return {piece.id for piece in layout.pieces if piece.narrowest < layout.limit - tolerance.PROOF}


def runs(labels: Sequence[str]) -> str:
    """Returns numbers as they are said, those in a row by the first and the last.

    >>> runs(["1", "3", "4", "5", "7", "8"])
    '1, 3–5, 7, 8'
    """
    found: list[list[int]] = []
    for number in sorted(map(int, labels)):
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in found)


def by_wall(cuts: CutList) -> dict[str, list[CutPiece]]:
    """Returns the pieces by the wall at which a walk first meets them, in walking order."""
    listed: dict[str, list[CutPiece]] = {}
    for piece in cuts.pieces:
        listed.setdefault(piece.walls[0], []).append(piece)
    return listed


def _note(group: Sequence[CutPiece], wall: str, narrow: bool, pictures: set[str], figures: Figures) -> str:
    """Returns what else is to be known of like pieces than what to keep at both ends."""
    piece = group[0]
    notes = [f"{len(group)}\N{NO-BREAK SPACE}×"] if len(group) > FEW else []
    notes += [piece.cut_from] if piece.cut_from else []
    rises = [_rise(arc, figures) for arc in piece.arcs if arc.wall == wall]
    notes += rises
    if piece.same_as != piece.label:
        notes.append(f"as {piece.same_as}")
    elif piece.label in pictures and rises:
        notes[-1] += "*"
    elif piece.label in pictures:
        notes.append(f"{piece.kind}*")
    if narrow:
        notes.append("under limit")
    return ", ".join(notes)


def _kept(piece: CutPiece, wall: str, figures: Figures) -> tuple[str, str]:
    """Returns what is kept at both ends of the cut to a wall; nothing where no straight cut is."""
    arc = next((arc for arc in piece.arcs if arc.wall == wall), None)
    if arc is not None:
        start, end = (figures.cut(mark.distance) if mark else "" for mark in arc.marks)
        return start, end
    saw = min(piece.saws, key=lambda saw: saw.wall != wall, default=None)
    return _marks(saw, figures) if saw else ("", "")


def _rise(arc: ArcCut, figures: Figures) -> str:
    """Returns how far an arc lies off the line between its ends, in its middle: `bulges 18.5`, `hollow 12`; `straight`
    where it does by less than prints."""
    if figures.style.steps(arc.rise) == 0:
        return "straight"
    return f"{'bulges' if arc.rise > 0 else 'hollow'} {figures.cut(abs(arc.rise))}"


def _radius(pieces: Sequence[CutPiece], wall: str, figures: Figures) -> str:
    """Returns the radius that a wall's cuts are struck with, for the head of its table; nothing for a straight one."""
    radii = [arc.radius for piece in pieces for arc in piece.arcs if arc.wall == wall]
    return f": radius {figures.cut(radii[0])}" if radii else ""


def _marks(saw: SawLine, figures: Figures) -> tuple[str, str]:
    start, end = (figures.cut(mark.distance) for mark in saw.marks)
    return start, end


def _ends(room: Room, wall: str) -> tuple[str, str]:
    for one in room.walls:
        if one.name == wall:
            return one.start, one.end
    return "", ""


def pictured(cuts: CutList) -> list[CutPiece]:
    """Returns one of every different cut that two figures do not tell, and one of each kind of those that they do."""
    shown, kinds = [], set()
    for piece in cuts.pieces:
        if piece.kind == "straight" or piece.same_as != piece.label:
            continue
        if piece.kind == "angled" and len(piece.saws) == 1:
            kind = (piece.cut_from, *((mark.side, mark.corner) for mark in piece.saws[0].marks))
            if kind in kinds:
                continue
            kinds.add(kind)
        shown.append(piece)
    return shown


def _pictures(
    shown: Sequence[CutPiece], layout: Layout, figures: Figures, paper: str, told: set[str]
) -> tuple[Block, ...]:
    """Returns the pictures of some cuts under what is to be known of them, which is told once; `told` takes it up."""
    if not shown:
        return ()
    width = (body_space(paper)[0] - GUTTER * (ABREAST - 1)) / ABREAST
    stops = any(mark is None for piece in shown for saw in piece.saws for mark in (saw.start_mark, saw.end_mark))
    angled = any(piece.kind == "angled" for piece in shown)
    curved = any(piece.arcs for piece in shown)
    said = ((ONE_OF_EACH, angled), (STOP, stops), *((line, curved) for line in CURVED))
    heading = "" if WASTE in told else "Cuts with *"
    lines = tuple(line for line, holds in ((WASTE, True), *said) if holds and line not in told)
    told.update(lines)
    note = (Prose(heading=heading, lines=lines),) if lines else ()
    return (*note, *picture_views(shown, layout, figures, width))


def _list(room: Room, layout: Layout, cuts: CutList, figures: Figures) -> Table:
    """Returns every cut piece with all its cuts in one list."""
    narrow = narrow_ids(layout)
    rows = []
    for wall, pieces in by_wall(cuts).items():
        start, end = _ends(room, wall)
        for piece in pieces:
            also = other_cuts(piece, wall, figures)
            same = "" if piece.same_as == piece.label else piece.same_as
            under = "under the limit" if piece.id in narrow else ""
            both = _both(piece, wall, figures, end)
            row = (piece.label, wall, piece.kind, start, *both, "; ".join(also), same, under)
            rows.append((*row, piece.cut_from) if layout.cell.kinds else row)
    headings = (
        "No.",
        "Wall",
        "Cut",
        "From corner",
        "Keep there",
        "To corner",
        "Keep there",
        "Also",
        "Same as",
        "Limit",
        *(("Of",) if layout.cell.kinds else ()),
    )
    columns = (Column(heading=one, unit=figures.column if one.startswith("Keep") else "") for one in headings)
    return Table(columns=tuple(columns), rows=tuple(rows))


def other_cuts(piece: CutPiece, wall: str, figures: Figures) -> list[str]:
    """Returns what is cut of a piece besides the straight cut to a wall."""
    others = sorted((saw for saw in piece.saws if saw.wall != wall), key=lambda saw: saw.wall)
    also = [f"{saw.wall}: {' and '.join(dict.fromkeys(_marks(saw, figures)))}" for saw in others]
    also += [f"{arc.wall}: {_rise(arc, figures)}, radius {figures.cut(arc.radius)}" for arc in piece.arcs]
    return also + [f"{bore.wall}: round, {figures.cut(2 * bore.radius)} across" for bore in piece.bores]


def _both(piece: CutPiece, wall: str, figures: Figures, end: str) -> tuple[str, str, str]:
    at_start, at_end = _kept(piece, wall, figures)
    return at_start, end, at_end
