"""The first page: what the floor will look like, what was decided, and what needs an answer."""

from floorwright.draw.paper import GUTTER, body_space, title_height
from floorwright.draw.sheet import Beside, Block, Prose, Sheet
from floorwright.findings import Severity
from floorwright.job.solution import Solution
from floorwright.sheets.decided import decided
from floorwright.sheets.frame import BLOCK, TALL, WAYS, Box, Frame, arrange, frame, prose_height
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
from floorwright.sheets.words import counted, told_briefly

MARGIN = 8.0
NAMES = 3.4
COLUMNS = (56.0, 70.0, 88.0)
"""mm on paper, widths that the words beside the picture may have."""

MOST_UNDER = 110.0
"""mm on paper that words may take under the picture before it gives way no further."""


def first_sheet(solution: Solution) -> Sheet:
    """Returns the first page, as far as the job came."""
    title = _title(solution)
    said = Prose(heading="Decided", lines=decided(solution))
    answer = _to_answer(solution)
    room, region = solution.room, solution.region
    if room is None or region is None:
        return Sheet(key="first", title=title, blocks=(said, *answer))
    place = _place(plan_box(region), title, said, answer, solution)
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
    side: tuple[Block, ...] = (said, *answer)
    if not place.beside:
        side = (Beside(left=(said,), right=answer, share=0.5),)
    blocks = arrange(place, view, side)
    return Sheet(key="first", title=title, blocks=blocks, landscape=place.landscape)


def _place(box: Box, title: str, said: Block, answer: tuple[Block, ...], solution: Solution) -> Frame:
    """Returns the place at which the picture is largest, all words on the same page, beside it or under it."""
    paper, imperial = solution.job.paper, solution.style.system == "imperial"
    half = (body_space(paper)[0] - GUTTER) / 2
    under = max(prose_height(blocks, half) for blocks in ((said,), answer)) + BLOCK
    places = [
        frame(
            box,
            paper=paper,
            imperial=imperial,
            title=title,
            margin=MARGIN,
            column=column,
            under=min(under, MOST_UNDER) if way == TALL else 0.0,
            ways=(way,),
            free=True,
        )
        for way in WAYS
        for column in (COLUMNS if way != TALL else COLUMNS[:1])
    ]
    fitting = [place for place in places if not place.beside or _fits(place, title, (said, *answer), paper)]
    return min(fitting, key=lambda place: place.scale)


def _fits(place: Frame, title: str, words: tuple[Block, ...], paper: str) -> bool:
    """Returns whether words fit beside the picture, on one page."""
    width, height = body_space(paper, place.landscape)
    return prose_height(words, (width - GUTTER) * (1 - place.share)) <= height - title_height(title, width)


def _title(solution: Solution) -> str:
    name = solution.job.title or "This floor"
    if any(finding.severity is Severity.ERROR for finding in solution.findings):
        return f"{name}: something must be put right first."
    warnings = sum(finding.severity is Severity.WARNING for finding in solution.findings)
    if warnings:
        return f"{name}: set out, with {counted(warnings, 'thing')} to answer."
    return f"{name}: set out and ready."


def _to_answer(solution: Solution) -> tuple[Block, ...]:
    errors = tuple(told_briefly(one) for one in solution.findings if one.severity is Severity.ERROR)
    warnings = tuple(told_briefly(one) for one in solution.findings if one.severity is Severity.WARNING)
    blocks: list[Block] = []
    if errors:
        blocks.append(Prose(heading="Put right first", lines=errors, tone="limit"))
    if warnings:
        blocks.append(Prose(heading="Needs an answer", lines=warnings, tone="doubt"))
    if not errors and not warnings:
        blocks.append(Prose(lines=("Nothing needs an answer.",), tone="agrees"))
    return tuple(blocks)
