"""What is cut round: circles with what stops at them, their rings and spokes, and a pattern's arcs by their pivots."""

import math
from collections.abc import Iterator

from floorwright.draw.sheet import Beside, Block, Column, Table
from floorwright.scoring.design import Circle
from floorwright.scoring.scored import Scored
from floorwright.scoring.spokes import Spokes
from floorwright.sheets.figures import Figures
from floorwright.sheets.score_plan import pivot_name
from floorwright.sheets.words import counted, listed
from floorwright.tolerance import TOUCH
from floorwright.units import FOOT


def run_text(mm: float, figures: Figures) -> str:
    """Returns a length of cuts, as saws and blades are reckoned: `254.5 ft`, `77.57 m`."""
    return f"{mm / float(FOOT):.1f} ft" if figures.imperial else f"{mm / 1000:.2f} m"


def round_cuts(scored: Scored) -> list[str]:
    """Returns what is cut on a pivot, counted: `3 circles`, `24 arcs`; nothing for none."""
    circles = sum(len(circle.radii) for circle in scored.design.circles)
    arcs = sum(len(row.swings) for row in scored.arcs)
    kinds = ((circles, "circle", "a circle"), (arcs, "arc", "an arc"))
    return [counted(count, what) if count > 1 else one for count, what, one in kinds if count]


def arms(circle: Circle, figures: Figures) -> str:
    """Returns what the arm is set to, of rings the largest first."""
    return listed([figures.room(radius, unit=True) for radius in circle.radii], "then")


def arc_arms(scored: Scored, figures: Figures) -> str:
    """Returns what the arm is set to for the arcs of the pattern."""
    return listed(list(dict.fromkeys(figures.room(row.radius, unit=True) for row in scored.arcs)))


def round_tables(scored: Scored, figures: Figures) -> Iterator[Block]:
    """Yields the tables about circles, rings and arcs."""
    yield from _circle_tables(scored, figures)
    if scored.spokes:
        yield _rings(scored, figures)
    if scored.arcs:
        yield _arcs(scored, figures)


def _circle_tables(scored: Scored, figures: Figures) -> Iterator[Block]:
    if not scored.design.circles:
        return
    stopped = [line for line in scored.lines if line.lost]
    tables: list[Block] = []
    if stopped:
        tables.append(
            Table(
                heading=f"What stops at the circle, {run_text(scored.lost, figures)} off",
                columns=(
                    Column(heading="Line"),
                    Column(heading="comes off", unit=figures.column, align="right"),
                    Column(heading="is left", unit=figures.column, align="right"),
                ),
                rows=tuple((line.name, figures.cut(line.lost), figures.room(line.to_cut)) for line in stopped),
            )
        )
    if scored.crossings:
        tables.append(
            Table(
                heading="Joints that run on through it",
                columns=(
                    Column(heading="Joint"),
                    Column(heading="from the pivot", unit=figures.column, align="right"),
                    Column(heading="crosses, each way", unit=figures.column, align="right"),
                ),
                rows=tuple(
                    (one.joint, figures.cut(one.off) if one.off > TOUCH else "through it", figures.cut(one.half))
                    for one in scored.crossings
                ),
            )
        )
    yield Beside(left=(tables[0],), right=(tables[1],), share=0.48) if len(tables) == 2 else tables[0]


def _rings(scored: Scored, figures: Figures) -> Table:
    pivots = len(scored.design.circles)
    return Table(
        heading="Rings: step the spokes off on the outer circle and close the round before one is cut; the first of "
        "them is so far anticlockwise from the line along the first line",
        columns=(
            Column(heading="Ring"),
            Column(heading="from", unit=figures.column, align="right"),
            Column(heading="to", unit=figures.column, align="right"),
            Column(heading="Cells", align="right"),
            Column(heading="First spoke", unit=figures.column, align="right", marked=True),
            Column(heading="Step off", unit=figures.column, align="right", marked=True),
            Column(heading="cell inside", unit=figures.column, align="right"),
            Column(heading="outside", unit=figures.column, align="right"),
        ),
        rows=tuple(
            (
                f"{pivot_name(one.circle, pivots)}, ring {one.ring}",
                figures.room(one.outer),
                figures.room(one.inner) if one.inner else "the pivot",
                str(one.count),
                _first_spoke(one, scored, figures),
                figures.room(one.chord),
                figures.cut(one.widths[0]) if one.inner else "a point",
                figures.cut(one.widths[1]),
            )
            for one in scored.spokes
        ),
    )


def _first_spoke(spokes: Spokes, scored: Scored, figures: Figures) -> str:
    """How far it is marked on the outer circle from the line through the pivot along the first line, straight."""
    turn = (spokes.first - scored.frame.angle) % (math.tau / spokes.count)
    off = 2 * spokes.outer * math.sin(turn / 2)
    return "on it" if off <= TOUCH else figures.room(off)


def _arcs(scored: Scored, figures: Figures) -> Table:
    rows = []
    for row in scored.arcs:
        every = "" if row.spacing is None else figures.room(row.spacing)
        rows.append(
            (
                str(row.number),
                counted(len(row.along), "pivot"),
                figures.room(row.radius),
                figures.room(row.running),
                figures.room(row.along[0]),
                f"{every}, with gaps" if row.has_gaps else every or ("as drawn" if len(row.along) > 1 else ""),
                run_text(math.fsum(swing.length for swing in row.swings), figures),
            )
        )
    return Table(
        heading="Arcs, one row of pivots after the other: each next row ends on the one before",
        columns=(
            Column(heading="Row", align="right"),
            Column(heading="What"),
            Column(heading="Arm", unit=figures.column, align="right", marked=True),
            Column(heading="Row is at", unit=figures.column, align="right", marked=True),
            Column(heading="first pivot at", unit=figures.column, align="right", marked=True),
            Column(heading="then every", unit=figures.column, align="right"),
            Column(heading="Length", align="right"),
        ),
        rows=tuple(rows),
        ticks=True,
    )
