"""The ties: every node from two corners with two tapes, and the readings that prove them."""

import math
from collections.abc import Iterator, Sequence

from floorwright.control.sight import step
from floorwright.draw.sheet import Beside, Block, Column, Prose, Sheet, Table
from floorwright.draw.style import Pen, Size
from floorwright.draw.view import Cross, Curve, Item, Line, Point
from floorwright.findings import Finding
from floorwright.geometry.region import Region
from floorwright.job.solution import Solution
from floorwright.setout.nodes import Node
from floorwright.setout.ties import Tie, Ties
from floorwright.sheets.clear import CLEAR, ROUND_ABOUT, clearance, clearest, floor_shape, letter_box, point_box
from floorwright.sheets.control import line_items
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import Frame, frame
from floorwright.sheets.plan import corner_names, door_side, floor_items, plan_box, wall_items
from floorwright.sheets.snap import labels_of
from floorwright.sheets.words import counted, sentence, told

MARGIN = 9.0
DOOR_ROW = 7.9
UNDER = 118.0
"""mm on paper to leave for the figures under the plan."""

HALF_ARC = 3.2
"""mm on paper, half of an arc as it is struck."""

UNBROKEN = "\N{NO-BREAK SPACE}"

HOW = (
    "Hold one tape at each point, pull both tight and level; the node is where the two figures meet. Walking from the "
    "first point to the second, it lies on your left.",
)


def ties_sheet(solution: Solution) -> Sheet:
    """Returns the sheet of ties; the solution must have some."""
    room, region, control, marked = solution.room, solution.region, solution.control, solution.setout
    assert room is not None
    assert region is not None
    assert control is not None
    assert marked is not None
    assert solution.snap is not None
    assert marked.ties is not None
    figures = Figures(style=solution.style)
    title = f"Tie {counted(len(marked.ties.ties), 'node')} with two tapes, then prove each with a third."
    place = frame(
        plan_box(region), paper=solution.job.paper, imperial=figures.imperial, title=title, margin=MARGIN, under=UNDER,
        ways=((False, False),),
    )  # fmt: skip
    at = {one.name: (one.x, one.y) for one in marked.points}
    lines, arcs = line_items(control, ("first line", "square line")), _arcs(marked.ties, at, place)
    view = place.view(
        "ties",
        f"Plan with {counted(len(marked.ties.ties), 'node')} of the pattern, each where two short arcs cross.",
        (
            *floor_items(room, region),
            *wall_items(room),
            *lines,
            *arcs,
            *_crosses(marked.ties, lines, arcs, region, place),
            *door_side(room, place, DOOR_ROW),
            *corner_names(room, place),
        ),
    )
    table, across = _table(marked.ties, labels_of(solution.snap), figures), _diagonals(marked.ties, figures)
    how: tuple[Block, ...] = (Prose(lines=(*HOW, _third(marked.ties, figures)), tone="quiet"),)
    proofs = (Beside(left=(across,), right=how, share=0.45),) if across.rows else how
    return Sheet(
        key="ties",
        title=title,
        blocks=(view, table, *proofs, *_doubts(marked.ties.findings)),
        landscape=place.landscape,
        lists=(("ties", _list(marked.ties, figures)), ("tie-checks", across)),
    )


def _arcs(ties: Ties, at: dict[str, Point], place: Frame) -> tuple[Curve, ...]:
    """Returns both arcs of each tie, only near their crossing."""
    arcs: list[Curve] = []
    for tie in ties.ties:
        for leg in tie.legs:
            held = at[leg.held.removeprefix("corner ")]
            towards = math.atan2(tie.node.y - held[1], tie.node.x - held[0])
            half = min(place.paper(HALF_ARC) / leg.reads, math.pi / 6)
            arcs.append(Curve(centre=held, radius=leg.reads, start=towards - half, end=towards + half, pen=Pen.ARC))
    return tuple(arcs)


def _crosses(ties: Ties, lines: Sequence[Line], arcs: Sequence[Curve], region: Region, place: Frame) -> Iterator[Item]:
    """Yields a cross at each node, its name clear of the arcs, the lines and the other nodes."""
    import shapely

    drawn = [shapely.LineString(line.points) for line in lines]
    drawn += [shapely.LineString(_chord(arc)) for arc in arcs]
    floor = floor_shape(region)
    set_before: list[shapely.Polygon] = []
    nodes = [tie.node for tie in ties.ties]
    for node in nodes:
        taken = [point_box((other.x, other.y), place) for other in nodes if other is not node]
        ways = [Cross(at=(node.x, node.y), label=node.name, away=way, size=Size.TEXT) for way in ROUND_ABOUT]
        boxes = [letter_box(way, place) for way in ways]
        reach = place.paper(CLEAR)
        scores = [
            (min(clearance(box, [*taken, *set_before], floor), reach), min(clearance(box, drawn, floor), reach / 2))
            for box in boxes
        ]
        best = clearest(scores)
        set_before.append(boxes[best])
        yield ways[best]


def _chord(arc: Curve) -> tuple[Point, Point]:
    return step(arc.centre, arc.start, arc.radius), step(arc.centre, arc.end, arc.radius)


def _third(ties: Ties, figures: Figures) -> str:
    """Says how far the third tapes may be out."""
    most = max(tie.allow for tie in ties.ties)
    return f"Then read the third tape before you trust the mark: {figures.within(most)} out, and something is wrong."


def _where(node: Node, labels: dict[str, str]) -> str:
    """Returns the lines that cross at a node, on one line of text."""
    return f"{UNBROKEN}×{UNBROKEN}".join(labels[line] for line in node.lines) or node.what


def _table(ties: Ties, labels: dict[str, str], figures: Figures) -> Table:
    """Returns the two tapes of each node, how true they make it, and the third tape that proves it."""
    reads = Column(heading="reads", unit=figures.column, align="right", marked=True)
    return Table(
        columns=(
            Column(heading="Node"),
            Column(heading="Where"),
            Column(heading="From"),
            reads,
            Column(heading="and"),
            reads,
            Column(heading="Arcs at", align="right"),
            Column(heading="True", unit=figures.column, align="right"),
            Column(heading="Third"),
            reads,
        ),
        rows=tuple(_row(tie, labels, figures) for tie in ties.ties),
        ticks=True,
    )


def _row(tie: Tie, labels: dict[str, str], figures: Figures) -> tuple[str, ...]:
    third = (_held(tie.check.held), figures.room(tie.check.reads)) if tie.check is not None else ("none", "")
    return (
        tie.node.name,
        _where(tie.node, labels),
        *(part for leg in tie.legs for part in (_held(leg.held), figures.room(leg.reads))),
        f"{math.degrees(tie.angle):.0f}°{' weak' if tie.weak else ''}",
        figures.within(tie.sd, unit=False),
        *third,
    )


def _held(name: str) -> str:
    """Returns a held point as the plan has it: a corner by its name alone."""
    return name.removeprefix("corner ")


def _list(ties: Ties, figures: Figures) -> Table:
    """Returns the ties with heads that are plain without the sheet."""
    tape = (Column(heading="Held at"), Column(heading="Reads", unit=figures.column))
    return Table(
        columns=(
            Column(heading="Node"),
            Column(heading="What"),
            *tape,
            *tape,
            Column(heading="Arcs cross at", unit="degrees"),
            Column(heading="True to", unit=figures.column),
            *tape,
            Column(heading="Give or take", unit=figures.column),
        ),
        rows=tuple(
            (
                tie.node.name,
                tie.node.what,
                *(part for leg in tie.legs for part in (leg.held, figures.room(leg.reads))),
                f"{math.degrees(tie.angle):.0f}",
                figures.within(tie.sd, unit=False),
                *(
                    (tie.check.held, figures.room(tie.check.reads), figures.within(tie.allow, unit=False))
                    if tie.check
                    else ("", "", "")
                ),
            )
            for tie in ties.ties
        ),
    )


def _diagonals(ties: Ties, figures: Figures) -> Table:
    return Table(
        heading="Prove them across",
        columns=(
            Column(heading="From"),
            Column(heading="to"),
            Column(heading="must read", unit=figures.column, align="right", marked=True),
            Column(heading="±", unit=figures.column, align="right"),
        ),
        rows=tuple(
            (*diagonal.between, figures.room(diagonal.expected), figures.within(diagonal.allow, unit=False))
            for diagonal in ties.diagonals
        ),
        ticks=True,
    )


def _doubts(findings: tuple[Finding, ...]) -> Iterator[Block]:
    if findings:
        yield Prose(lines=tuple(sentence(told(one)) for one in findings), tone="doubt")
