"""What was decided, in a few plain lines: for the first page and for a terminal."""

from dataclasses import replace
from typing import Final

from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.pattern.cell import UnitCell
from floorwright.pattern.rings import Rings
from floorwright.scoring.scored import Scored, colours
from floorwright.sheets.figures import Figures
from floorwright.sheets.options import proof_text
from floorwright.sheets.scoring import scoring_title
from floorwright.sheets.words import Words, counted, listed, sentence, words_of
from floorwright.sheets.zones import border_widths, zone_name, zones_of

MOST_ORDERS: Final = 3
"""Kinds of goods that have a line each."""


def decided(solution: Solution) -> tuple[str, ...]:
    """Returns what a job decided, a plain sentence each, in the order in which it was decided."""
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    lines: list[str] = []
    if solution.room is not None:
        lines.append(f"The floor is {figures.area(solution.survey.area)}, wall to wall.")
    if solution.control is not None:
        lines.append(sentence(f"{words.first_line}: {solution.control.first_how}"))
        lines.append(sentence(f"centre: {solution.control.centre_how}"))
    zones = zones_of(solution.layouts)
    for zone in zones:
        lines += _zone_lines(zone, figures, words, several=len(zones) > 1)
    if solution.refit is not None:
        laid = counted(len(solution.refit.laid), "piece")
        lines.append(sentence(f"{laid} laid by {solution.refit.since}, which stay: {solution.refit.verdict}"))
    lines += _scored_lines(solution, figures)
    lines += _order_lines(solution, words)
    return tuple(lines) or ("Nothing yet.",)


def _order_lines(solution: Solution, words: Words) -> list[str]:
    """What to order: a line for each kind of goods, or all in one where there are many."""
    if len(solution.orders) > MOST_ORDERS:
        goods = [f"{order.tiles + order.spares} of {order.goods}" for order in solution.orders]
        return [sentence(f"order {listed(goods)}")]
    lines = []
    for order in solution.orders:
        boxes = f" in {counted(order.boxes, 'box', 'boxes')}" if order.boxes else ""
        of = f" of {order.goods}" if len(solution.orders) > 1 else ""
        spares = f", {words.kept(order.spares)} among them" if order.spares else ""
        lines.append(f"Order {counted(order.tiles + order.spares, 'tile')}{of}{boxes}{spares}.")
    return lines


def _scored_lines(solution: Solution, figures: Figures) -> list[str]:
    scored = solution.scored
    if scored is None or not scored.is_cut:
        return []
    design = scored.design
    borders = ""
    if design.ends or design.sides:
        borders = (
            f", borders of {figures.entered(design.ends, unit=True)} at the ends and "
            f"{figures.entered(design.sides, unit=True)} along the sides"
        )
    lines = [
        sentence(f"scored: {design.cell.name}, {_cells(design.cell, figures)}{borders}"),
        *_scored_zone_lines(scored, figures),
        scoring_title(scored, figures),
    ]
    stains = [colour for colour, _ in colours(scored)]
    if stains:
        lines.append(sentence(f"stained {listed(stains)}"))
    if scored.search is not None and not scored.missed:
        lines.append("A line lies on every joint in the slab.")
    return lines


def _cells(cell: UnitCell, figures: Figures) -> str:
    """Returns the sizes of a pattern's cells to the graduation: those that follow from others are no round figures."""
    style = figures.style
    sizes = tuple(
        replace(one, size=(style.mm(style.steps(one.size[0])), style.mm(style.steps(one.size[1]))))
        for one in cell.goods
    )
    return figures.goods(replace(cell, sizes=sizes))


def _scored_zone_lines(scored: Scored, figures: Figures) -> list[str]:
    """Says what is scored in the other parts, sides of a border that are alike in one line."""
    said = []
    for area in scored.design.areas:
        what = f"{area.cell.name}, {_cells(area.cell, figures)}" if area.cell else "plain"
        said.append(f"{area.zone}: {what}.")
    return [sentence(line) for line in dict.fromkeys(said)]


def _zone_lines(zone: tuple[Layout, ...], figures: Figures, words: Words, *, several: bool) -> list[str]:
    layout, chosen = zone[0], zone[0].chosen
    if layout.rings is not None:
        return [_rings_line(layout, layout.rings, figures, words)]
    own = f"{zone_name(layout)}: " if several else ""
    pattern = f"{own}{words.pattern(layout.cell.name)}, {figures.goods(layout.cell)}"
    full, cut = sum(one.chosen.full for one in zone), sum(one.chosen.cut for one in zone)
    narrowest = figures.cut(min(one.chosen.worst for one in zone), unit=True)
    if several and not layout.is_border:
        how = f"{chosen.name}: {full} full and {cut} cut, the narrowest {narrowest}"
        return [sentence(f"{pattern}, {words.joint}s of {figures.entered(chosen.joint, unit=True)}"), sentence(how)]
    lines = [
        sentence(f"{pattern}, {words.joint}s of {figures.entered(chosen.joint, unit=True)}"),
        sentence(f"width {border_widths(zone, figures)}" if layout.is_border else chosen.name),
        f"{full} full and {cut} cut; the narrowest cut is {narrowest}.",
    ]
    told = [proof for proof in layout.proofs if proof.tells_of(chosen) or proof.span]
    return [*lines, *(proof_text(proof, layout, figures) for proof in told)]


def _rings_line(layout: Layout, rings: Rings, figures: Figures, words: Words) -> str:
    """All there is to decide of rings, in one sentence: the rest stands on their own sheet."""
    tapered = sum(one.tapered for one in rings.rings)
    of = f"{counted(len(rings.rings), 'ring')}, {tapered} of them tapered"
    pieces = f"{layout.chosen.full} full and {layout.chosen.cut} cut pieces"
    joint = f"{words.joint}s of {figures.entered(rings.joint, unit=True)}"
    return sentence(f"{layout.zone}: {of}, {pieces}, {joint}")
