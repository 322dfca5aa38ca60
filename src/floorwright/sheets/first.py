"""The first page: what the floor will look like, what was decided, and what needs an answer."""

from floorwright.draw.paper import GUTTER, body_space
from floorwright.draw.sheet import Beside, Block, Prose, Sheet
from floorwright.findings import Severity
from floorwright.job.solution import Solution
from floorwright.sheets.decided import decided
from floorwright.sheets.frame import BLOCK, arrange, beside_or_under, prose_height
from floorwright.sheets.plan import (
    corner_names,
    door_side,
    floor_items,
    obstacle_items,
    plan_box,
    wall_items,
    wall_names,
)
from floorwright.sheets.rooms import room_names
from floorwright.sheets.score_plan import cell_items, score_items
from floorwright.sheets.tiles import tile_items, zone_items
from floorwright.sheets.words import counted, told_briefly

MARGIN = 8.0
NAMES = 3.4


def first_sheet(solution: Solution) -> Sheet:
    """Returns the first page, as far as the job came."""
    title = first_title(solution)
    said = Prose(heading="Decided", lines=decided(solution))
    answer = to_answer(solution)
    room, region = solution.room, solution.region
    if room is None or region is None:
        return Sheet(key="first", title=title, blocks=(said, *answer))
    paper = solution.job.paper
    half = (body_space(paper)[0] - GUTTER) / 2
    side: tuple[Block, ...] = (said, *answer)
    place = beside_or_under(
        plan_box(region),
        side,
        paper=paper,
        imperial=solution.style.system == "imperial",
        title=title,
        margin=MARGIN,
        under=max(prose_height(blocks, half) for blocks in ((said,), answer)) + BLOCK,
        free=True,
    )
    tiles = [item for layout in solution.layouts for item in tile_items(layout)]
    view = place.view(
        "floor",
        "Picture of the floor as it will be laid.",
        (
            *floor_items(room, region),
            *tiles,
            *zone_items(solution.layouts),
            *((*cell_items(solution.scored), *score_items(solution.scored)) if solution.scored else ()),
            *obstacle_items(room),
            *wall_items(room),
            *room_names(room),
            *wall_names(room, place, NAMES),
            *door_side(room, place, NAMES),
            *corner_names(room, place),
        ),
    )
    if not place.beside:
        side = (Beside(left=(said,), right=answer, share=0.5),)
    blocks = arrange(place, view, side)
    return Sheet(key="first", title=title, blocks=blocks, landscape=place.landscape)


def first_title(solution: Solution) -> str:
    """Returns a job in one sentence: whether it is ready, or what is to be answered."""
    name = solution.job.title or "This floor"
    if any(finding.severity is Severity.ERROR for finding in solution.findings):
        return f"{name}: something must be put right first."
    warnings = sum(finding.severity is Severity.WARNING for finding in solution.findings)
    if warnings:
        return f"{name}: set out, with {counted(warnings, 'thing')} to answer."
    return f"{name}: set out and ready."


def to_answer(solution: Solution) -> tuple[Prose, ...]:
    """Returns what must be put right, and what needs an answer; that nothing does where it is so."""
    errors = tuple(told_briefly(one) for one in solution.findings if one.severity is Severity.ERROR)
    warnings = tuple(told_briefly(one) for one in solution.findings if one.severity is Severity.WARNING)
    blocks: list[Prose] = []
    if errors:
        blocks.append(Prose(heading="Put right first", lines=errors, tone="limit"))
    if warnings:
        blocks.append(Prose(heading="Needs an answer", lines=warnings, tone="doubt"))
    if not errors and not warnings:
        blocks.append(Prose(lines=("Nothing needs an answer.",), tone="agrees"))
    return tuple(blocks)
