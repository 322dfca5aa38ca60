"""The aims of a layout in words: what was asked in which order, what was reached, what is proved, and what decided."""

from floorwright.draw.sheet import Beside, Block, Column, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.layout.aims import (
    BALANCED_CUTS,
    FIRM,
    FULL_TILE,
    JOINT_AS_ASKED,
    JOINT_ON,
    LEAST_SMALL_EDGE,
    LIMITED,
    LINED_UP,
    NO_PIECE_UNDER,
    TILE_ON,
    Aim,
    Reached,
)
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import listed, sentence

NOT_LINED_UP = 6
"""From this figure of `lined up` on, a position is marked from figures alone."""


SHOWN = 5
"""Options compared, the best first."""

LINED = 3
"""Of the best so many it is told what lines up with what."""


def aim_words(aim: Aim, figures: Figures) -> str:
    """Returns an aim as it is said: `no piece under 150 mm`, `fewest cuts, 2 more as good`."""
    said = {
        JOINT_ON: f"a joint on {aim.on}",
        TILE_ON: f"the middle of a tile on {aim.on}",
        FULL_TILE: f"a full tile at {listed(list(aim.walls))}",
        LEAST_SMALL_EDGE: "least saw cut on pieces",
        FIRM: "firm when set out a little wrong",
        LINED_UP: "lined up with the control lines",
    }.get(aim.name, aim.name)
    if aim.name in LIMITED:
        under = figures.cut(aim.limit, unit=True)
        said = f"{said} {under}" if aim.name == NO_PIECE_UNDER else f"{said} under {under}"
    if aim.walls and aim.name != FULL_TILE:
        said += f" {'of' if aim.name == BALANCED_CUTS else 'at'} {listed(list(aim.walls))}"
    if aim.visible:
        said += " at visible walls"
    if aim.at_most is not None:
        said += f", at most {aim.at_most}"
    if aim.within:
        said += f", {aim.within:.0f} more as good" if aim.unit == "count" else ""
        said += f", {figures.cut(aim.within, unit=True)} as good" if aim.unit == "mm" else ""
    return said


def figure_text(aim: Aim, value: float | None, figures: Figures) -> str:
    """Returns what an option makes of an aim, as it prints; a stroke where the aim says nothing of it."""
    if value is None:
        return "–"
    if aim.name == LINED_UP:
        return "on both" if value == 0 else "in part" if value < NOT_LINED_UP else "no"
    if aim.name == JOINT_AS_ASKED:
        return "as asked" if value == 0 else f"{figures.entered(value, unit=True)} wider"
    if aim.unit == "yes":
        return "yes" if value else "no"
    return f"{value:.0f}" if aim.unit == "count" else figures.cut(value)


def known_text(reached: Reached, figures: Figures) -> str:
    """Returns what is known of an aim beside the figure: kept or broken, proved, or by how much it may fall short."""
    parts: list[str] = [] if reached.kept is None else ["kept" if reached.kept else "not kept"]
    if reached.value is None:
        parts.append("says nothing here")
    elif reached.status == "of the options":
        better = reached.best != reached.value and reached.best is not None and not reached.kept
        what = figure_text(reached.aim, reached.best, figures)
        joint = "the joint " if reached.aim.name == JOINT_AS_ASKED else ""
        parts += ["no position has it beside the aims before it, proved"] if reached.ruled_out else []
        parts += [f"another option has {joint}{what}"] if better else []
    elif not reached.kept:
        bound = figure_text(reached.aim, reached.bound, figures)
        parts.append(f"no position has better than {bound}")
        parts.append("proved" if reached.status == "proved" else f"not proved: {reached.why}")
    if reached.decided:
        parts.append("decided")
    return ", ".join(parts)


def aims_table(layout: Layout, figures: Figures) -> Table:
    """Returns the aims in order, each with what the chosen option makes of it."""
    own = any(reached.aim.own for reached in layout.aims)
    return Table(
        heading="What was aimed for, the weightiest first" + ("" if own else " (our order)"),
        columns=(
            Column(heading=""),
            Column(heading="Aim"),
            Column(heading="Reached", unit=figures.column, align="right"),
            Column(heading="What is known"),
        ),
        rows=tuple(
            (
                str(n),
                sentence(aim_words(reached.aim, figures))[:-1],
                figure_text(reached.aim, reached.value, figures),
                sentence(known_text(reached, figures))[:-1],
            )
            for n, reached in enumerate(layout.aims, start=1)
        ),
    )


def aims_sheet(solution: Solution, layout: Layout) -> Sheet:
    """Returns the sheet of one zone's aims: what was aimed for, what was reached, and how the best options compare."""
    figures = Figures(style=solution.style)
    laid = [option for option in layout.options if not option.refused]
    shown = [(chr(ord("A") + n), option) for n, option in enumerate(laid[:SHOWN])]
    return Sheet(
        key="aims",
        title=_title(layout),
        blocks=(
            *_beside(aims_table(layout, figures), _traded(layout, figures)),
            *_by_aim(layout, shown, figures),
            *_lining_up(shown[:LINED]),
        ),
        landscape=True,
    )


def _beside(aims: Table, traded: tuple[Table, ...]) -> tuple[Block, ...]:
    return (Beside(left=(aims,), right=traded, share=0.6),) if traded else (aims,)


def _traded(layout: Layout, figures: Figures) -> tuple[Table, ...]:
    """Returns what more cuts buy."""
    if not layout.trade_off:
        return ()
    return (
        Table(
            heading="What more cuts buy",
            columns=(
                Column(heading="Cut", align="right"),
                Column(heading="Narrowest", unit=figures.column, align="right"),
                Column(heading="With fewer cuts and none under", unit=figures.column, align="right"),
            ),
            rows=tuple(
                (
                    str(trade.cut),
                    figures.cut(trade.worst),
                    f"{figures.cut(trade.least)}: {'none' if trade.status == 'proved' else 'none found'}",
                )
                for trade in layout.trade_off
            ),
        ),
    )


def _title(layout: Layout) -> str:
    decided = [reached.aim.name for reached in layout.aims if reached.decided]
    if not decided:
        return "What was aimed for, and what the position makes of it."
    what = {FIRM: "to stay good in the hand", LINED_UP: "to line up"}.get(decided[0], decided[0])
    return f"What decided between the positions: {what}."


def _by_aim(layout: Layout, shown: list[tuple[str, Option]], figures: Figures) -> tuple[Table, ...]:
    """Returns how the best options do by each aim, under the letters that they have among the positions."""
    if len(shown) < 2:
        return ()
    aims = [reached.aim for reached in layout.aims]
    return (
        Table(
            heading="How the best positions do by each",
            columns=(
                Column(heading=""),
                Column(heading="Position"),
                *(
                    Column(heading=f"{n} {aim.name}", unit=_unit(aim, figures), align="right")
                    for n, aim in enumerate(aims, start=1)
                ),
            ),
            rows=tuple(
                (
                    letter,
                    sentence(option.name)[:-1],
                    *(figure_text(aim, value, figures) for aim, value in zip(aims, option.figures, strict=True)),
                )
                for letter, option in shown
            ),
        ),
    )


def _unit(aim: Aim, figures: Figures) -> str:
    return figures.column if aim.unit == "mm" and aim.name != JOINT_AS_ASKED else ""


def _lining_up(shown: list[tuple[str, Option]]) -> tuple[Table, ...]:
    """Returns what lines up with what in each option."""
    rows = tuple((letter, sentence("; ".join(option.lines_up))[:-1]) for letter, option in shown if option.lines_up)
    if not rows:
        return ()
    columns = (Column(heading=""), Column(heading="What lines up with what"))
    return (Table(columns=columns, rows=rows),)


def trade_text(layout: Layout, figures: Figures) -> str:
    """Returns what more cuts buy, on a line: `13 cuts with the worst piece 150; 25 with 213`."""
    (cut, worst), *others = [(trade.cut, figures.cut(trade.worst)) for trade in layout.trade_off]
    return "; ".join([f"{cut} cuts with the worst piece {worst}", *(f"{more} with {wider}" for more, wider in others)])
