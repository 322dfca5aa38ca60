"""The widths that a border of free width may have, side by side: small plans, and what the field makes of each."""

from collections.abc import Iterator
from math import cos, hypot, pi, sin
from typing import Final

import numpy as np

from floorwright.draw.paper import body_space
from floorwright.draw.sheet import Column, Prose, Sheet, Table
from floorwright.draw.style import CAP_HEIGHT, Pen, Size, Tone
from floorwright.draw.view import Fill, Item, Line, Text, View
from floorwright.job.lay.bordered import Bordered, Frame, miss_text
from floorwright.job.solution import Solution
from floorwright.layout.finish import Finish, Finishes
from floorwright.layout.layout import Layout
from floorwright.sheets.compared import moved
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import box_of
from floorwright.sheets.plan import outward, wall_items
from floorwright.sheets.words import sentence, told

SHOWN: Final = 4
"""Small plans side by side."""

TALLEST: Final = 62.0
"""mm on paper that a small plan may be high."""

EDGE: Final = 7.0
"""mm on paper about a small plan, for the widths."""

HEAD: Final = 6.0
"""mm on paper over a small plan, for its letter."""

ROW: Final = 3.4
"""mm on paper from a wall to the middle of the width there."""


def border_sheet(solution: Solution, border: Bordered) -> Sheet:
    """Returns the sheet of a border's widths; the solution must have a room, and the border something to choose."""
    found, frame, chosen = border.found, border.frame, border.chosen
    assert found is not None
    assert frame is not None
    assert chosen is not None
    figures = Figures(style=solution.style)
    lettered = [(chr(ord("A") + place), choice) for place, choice in enumerate(found.choices)]
    table = Table(
        columns=(
            Column(heading=""),
            Column(heading="Border"),
            *(Column(heading=f"At {wall}", unit=figures.column, align="right") for wall in chosen.widths),
            Column(heading="What you see"),
        ),
        rows=tuple(
            (
                letter,
                sentence(choice.name)[:-1] + (" (chosen)" if choice is chosen else ""),
                *(figures.cut(choice.widths[wall]) for wall in chosen.widths),
                sentence(seen(choice, found, solution)),
            )
            for letter, choice in lettered
        ),
    )
    return Sheet(
        key="border",
        title=_title(found),
        blocks=(
            _plans(lettered[:SHOWN], solution, border, frame, figures),
            table,
            Prose(lines=tuple(told(finding) for finding in border.findings if finding.code != WIDTH), tone="quiet"),
        ),
        landscape=True,
        lists=(("border-widths", table),),
    )


WIDTH: Final = "layout-border-width"
"""What this sheet's own table tells."""


def _title(found: Finishes) -> str:
    if any(choice.equal and choice.finishes for choice in found.choices):
        return f"An equal border lets the field finish on {found.what}."
    return f"No equal border lets the field finish on {found.what}: choose one of these."


def seen(choice: Finish, found: Finishes, solution: Solution) -> str:
    """Returns what a choice looks like, in a few words."""
    style = solution.style
    parts = [f"{found.what} all round" if choice.finishes else miss_text(choice, found.what, style)]
    if choice.moved:
        parts.append(f"the axis moved {style.text(abs(choice.moved), feet=False)}")
    return "; ".join(parts)


def _plans(
    shown: list[tuple[str, Finish]],
    solution: Solution,
    border: Bordered,
    frame: Frame,
    figures: Figures,
) -> View:
    region = solution.region
    assert region is not None
    field = next(layout for layout in solution.layouts if layout.zone == border.field)
    width, _ = body_space(solution.job.paper, landscape=True)
    cell = width / len(shown)
    x0, y0, x1, y1 = box_of(region.rings[0])
    scale = max((x1 - x0) / (cell - 2 * EDGE), (y1 - y0) / TALLEST)
    high = (y1 - y0) + (2 * EDGE + HEAD) * scale
    items: list[Item] = []
    for place, (letter, choice) in enumerate(shown):
        shift = (place + 0.5) * cell * scale - (x0 + x1) / 2, EDGE * scale - y0
        items += moved(_small_plan(choice, field, frame, solution, scale, figures), shift)
        left = (place + 0.5) * cell * scale - (x1 - x0) / 2
        head = f"{letter}{', chosen' if choice is border.chosen else ''}"
        items.append(
            Text(at=(left, high - CAP_HEIGHT[Size.FIGURE] * scale), text=head, size=Size.FIGURE, anchor="start")
        )
    return View(
        name="border-widths",
        described=f"Small plans of {len(shown)} borders, each with its width at every wall and the field's joints.",
        scale=scale,
        window=(0.0, 0.0, width * scale, high),
        items=tuple(items),
        check_bar=False,
        is_to_scale=False,
    )


def _small_plan(
    choice: Finish, field: Layout, frame: Frame, solution: Solution, scale: float, figures: Figures
) -> Iterator[Item]:
    room, region = solution.room, solution.region
    assert room is not None
    assert region is not None
    inside = frame.inside(choice)
    yield Fill(rings=tuple(tuple((float(x), float(y)) for x, y in ring) for ring in region.rings), tone=Tone.TILE)
    yield Fill(rings=(inside,), tone=Tone.SLAB)
    yield from _joints(field, frame.on_floor(*choice.positions[0]), inside)
    yield Line(points=inside, pen=Pen.ZONE, closed=True)
    yield from (item for item in wall_items(room) if isinstance(item, Line))
    for wall, width in choice.widths.items():
        (x, y), out = outward(room, wall)
        start, end = room.ends(wall)
        at = (start + end) / 2 + np.array(out) * ROW * scale
        yield Text(at=(float(at[0]), float(at[1])), text=figures.cut(width), size=Size.SMALL, angle=np.arctan2(y, x))


def _joints(field: Layout, origin: tuple[float, float], inside: tuple[tuple[float, float], ...]) -> Iterator[Line]:
    """The joints of the field as one line each, from border to border."""
    import shapely

    ground = shapely.Polygon(inside)
    x0, y0, x1, y1 = ground.bounds
    reach = hypot(x1 - x0, y1 - y0)
    for lines in field.cell.lines:
        angle = field.chosen.placement.angle + lines.angle
        along, normal = (cos(angle), sin(angle)), (cos(angle + pi / 2), sin(angle + pi / 2))
        count = int(reach / lines.spacing) + 1
        for number in range(-count, count + 1):
            off = lines.offset + number * lines.spacing
            foot = origin[0] + off * normal[0], origin[1] + off * normal[1]
            ends = [(foot[0] + way * reach * along[0], foot[1] + way * reach * along[1]) for way in (-1, 1)]
            part = shapely.intersection(ground, shapely.LineString(ends))
            if isinstance(part, shapely.LineString) and not part.is_empty:
                yield Line(points=tuple((x, y) for x, y in part.coords), pen=Pen.JOINT)
