"""The first page: what the floor will look like, what was decided, and what needs an answer."""

from floorwright.draw.sheet import Block, Prose, Sheet
from floorwright.findings import Severity
from floorwright.job.solution import Solution
from floorwright.layout.layout import Layout
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import arrange, frame
from floorwright.sheets.layout import proof_text
from floorwright.sheets.plan import (
    corner_names,
    door_side,
    floor_items,
    obstacle_items,
    plan_box,
    wall_items,
    wall_names,
)
from floorwright.sheets.tiles import tile_items
from floorwright.sheets.words import Words, counted, sentence, told, words_of

MARGIN = 8.0
NAMES = 3.4


def first_sheet(solution: Solution) -> Sheet:
    """Returns the first page, as far as the job came."""
    figures, words = Figures(style=solution.style), words_of(solution.job.words)
    title = _title(solution)
    decided = Prose(heading="Decided", lines=_decided(solution, figures, words))
    answer = _to_answer(solution)
    room, region = solution.room, solution.region
    if room is None or region is None:
        return Sheet(key="first", title=title, blocks=(decided, *answer))
    place = frame(
        plan_box(region), paper=solution.job.paper, imperial=figures.imperial, title=title, margin=MARGIN, under=60.0
    )
    tiles = [item for layout in solution.layouts for item in tile_items(layout)]
    view = place.view(
        "floor",
        "Picture of the floor as it will be laid.",
        (
            *floor_items(room, region),
            *tiles,
            *obstacle_items(room),
            *wall_items(room),
            *wall_names(room, place, NAMES),
            *door_side(room, place, NAMES),
            *corner_names(room, place),
        ),
    )
    blocks = arrange(place, view, (decided,), answer, solution.job.paper)
    return Sheet(key="first", title=title, blocks=blocks, landscape=place.landscape)


def _title(solution: Solution) -> str:
    name = solution.job.title or "This floor"
    if any(finding.severity is Severity.ERROR for finding in solution.findings):
        return f"{name}: something must be put right first."
    warnings = sum(finding.severity is Severity.WARNING for finding in solution.findings)
    if warnings:
        return f"{name}: set out, with {counted(warnings, 'thing')} to answer."
    return f"{name}: set out and ready."


def _decided(solution: Solution, figures: Figures, words: Words) -> tuple[str, ...]:
    lines: list[str] = []
    if solution.room is not None:
        lines.append(f"The floor is {figures.area(solution.survey.area)}, wall to wall.")
    if solution.control is not None:
        lines.append(sentence(f"{words.first_line}: {solution.control.first_how}"))
        lines.append(sentence(f"centre: {solution.control.centre_how}"))
    for layout in solution.layouts:
        lines += _layout_lines(layout, figures, words)
    if solution.order is not None:
        order = solution.order
        boxes = f" in {counted(order.boxes, 'box', 'boxes')}" if order.boxes else ""
        spares = f", {words.kept(order.spares)} among them" if order.spares else ""
        lines.append(f"Order {counted(order.tiles + order.spares, 'tile')}{boxes}{spares}.")
    return tuple(lines) or ("Nothing yet.",)


def _layout_lines(layout: Layout, figures: Figures, words: Words) -> list[str]:
    chosen = layout.chosen
    pattern = f"{words.pattern(layout.cell.name)} of {figures.size(*layout.cell.size)}"
    lines = [
        sentence(f"{pattern}, {words.joint}s of {figures.entered(chosen.joint, unit=True)}"),
        sentence(chosen.name),
        f"{chosen.full} full and {chosen.cut} cut; the narrowest cut is {figures.cut(chosen.worst, unit=True)}.",
    ]
    return [*lines, *(proof_text(proof, figures) for proof in layout.proofs)]


def _to_answer(solution: Solution) -> tuple[Block, ...]:
    errors = tuple(told(one) for one in solution.findings if one.severity is Severity.ERROR)
    warnings = tuple(told(one) for one in solution.findings if one.severity is Severity.WARNING)
    blocks: list[Block] = []
    if errors:
        blocks.append(Prose(heading="Put right first", lines=errors, tone="limit"))
    if warnings:
        blocks.append(Prose(heading="Needs an answer", lines=warnings, tone="doubt"))
    if not errors and not warnings:
        blocks.append(Prose(lines=("Nothing needs an answer.",), tone="agrees"))
    return tuple(blocks)
