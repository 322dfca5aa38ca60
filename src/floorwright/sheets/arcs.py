"""Walls that are arcs, on the sheet of the room: their sizes, and the offsets to strike them by."""

from collections.abc import Iterator
from typing import Final

from floorwright.control.choices import Tools
from floorwright.control.predicted import chord_offset, trammel_arc
from floorwright.draw.sheet import Block, Column, Prose, Table
from floorwright.job.inputs.inputs import tools
from floorwright.job.solution import Solution
from floorwright.setout.strike import Strike, strikes
from floorwright.sheets.figures import Figures
from floorwright.tolerance import TOUCH

MOST_STRUCK: Final = 6
"""Arcs that are told how to strike, the longest."""


def arc_blocks(solution: Solution, figures: Figures) -> Iterator[Block]:
    """Yields a table of all arcs and, for each, how it is struck; nothing where every wall is straight."""
    if solution.room is None or not solution.survey.arcs:
        return
    yield _sizes(solution, figures)
    every = strikes(solution.room, solution.job.control.compass, imperial=figures.imperial)
    longest = sorted(every, key=lambda strike: -round(strike.arc.length / TOUCH))[:MOST_STRUCK]
    for strike in every:
        if strike in longest:
            yield from _struck(strike, tools(solution.job), figures)
    if len(every) > len(longest):
        yield Prose(lines=(f"Offsets are given for the {len(longest)} longest; the others have their sizes above.",))


def _sizes(solution: Solution, figures: Figures) -> Table:
    return Table(
        heading="Round walls",
        columns=(
            Column(heading="Wall"),
            Column(heading="Bows"),
            Column(heading="Chord", unit=figures.column, align="right"),
            Column(heading="Rise", unit=figures.column, align="right"),
            Column(heading="Radius", unit=figures.column, align="right"),
            Column(heading="good to", unit=figures.column, align="right"),
            Column(heading="Along it", unit=figures.column, align="right"),
        ),
        rows=tuple(
            (
                one.wall,
                one.bows,
                figures.room(one.arc.chord),
                figures.room(abs(one.arc.rise)),
                figures.room(one.arc.radius),
                figures.within(one.sd_radius, unit=False),
                figures.room(one.arc.length),
            )
            for one in solution.survey.arcs
        ),
    )


def _struck(strike: Strike, hand: Tools, figures: Figures) -> Iterator[Block]:
    radius = figures.room(strike.arc.radius, unit=True)
    if strike.reachable:
        good = figures.within(trammel_arc(hand))
        yield Prose(
            lines=(f"Strike {strike.wall} from its centre with the compass set to {radius}; it comes out to {good}.",)
        )
        return
    why = f"The centre of {strike.wall}, {radius} off, is out of reach of the compass"
    if not strike.offsets:
        yield Prose(lines=(f"{why}, and no string between its corners reaches all of it: use a trammel.",))
        return
    string = f"a string from {strike.start} to {strike.end}"
    if strike.held:
        string += f", held {figures.room(strike.held, unit=True)} into the room off both"
    yield Prose(
        lines=(f"{why}: stretch {string}, mark the wall square out from it, and bend a batten through the marks.",)
    )
    yield Table(
        heading=f"Offsets of {strike.wall}",
        columns=(
            Column(heading=f"From {strike.start}", unit=figures.column, align="right", marked=True),
            Column(heading="Out", unit=figures.column, align="right", marked=True),
            Column(heading="good to", unit=figures.column, align="right"),
        ),
        rows=tuple(
            (
                figures.room(along),
                figures.room(out),
                figures.within(chord_offset(strike.arc.radius, strike.arc.chord, along, hand), unit=False),
            )
            for along, out in strike.offsets
        ),
    )
