"""Stain it so: which cell gets which colour, by letter."""

from floorwright.draw.sheet import Beside, Block, Column, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.scoring.scored import colours
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import frame
from floorwright.sheets.plan import corner_names, door_side, floor_items, plan_box, wall_items
from floorwright.sheets.score_plan import cell_items, colour_letters, letter_items, score_items
from floorwright.sheets.words import listed


def stain_sheet(solution: Solution) -> Sheet:
    """Returns which cell is stained what; the solution must have colours."""
    room, region, scored = solution.room, solution.region, solution.scored
    assert room is not None
    assert region is not None
    assert scored is not None
    figures = Figures(style=solution.style)
    letters = colour_letters(scored)
    title = f"Stain {listed([f'{letter} {colour}' for colour, letter in letters.items()])}, after cutting."
    if len(letters) == 1:
        title = f"Stain it {next(iter(letters))}, and cut after the first coat of sealer."
    place = frame(
        plan_box(region), paper=solution.job.paper, imperial=figures.imperial, title=title, margin=9.0, under=70.0
    )
    view = place.view(
        "stain",
        "Plan of the slab with the letter of its stain in every cell.",
        (
            *floor_items(room, region),
            *cell_items(scored),
            *wall_items(room),
            *score_items(scored),
            *letter_items(scored, place),
            *door_side(room, place, 7.0),
            *corner_names(room, place),
        ),
    )
    table = Table(
        columns=(
            Column(heading="Letter"),
            Column(heading="Stain"),
            Column(heading="Area", align="right", marked=True),
        ),
        rows=tuple((letters[colour], colour, figures.area(area)) for colour, area in colours(scored)),
    )
    said = Prose(
        lines=(
            "Try every stain on a corner that nobody sees: concrete takes it as it likes.",
            "Acid stains burn skin, eyes and lungs: gloves, goggles, air, and the maker's sheet. Local rules govern.",
        ),
        tone="caution",
    )
    blocks: tuple[Block, ...] = (view, table, said)
    if place.beside:
        blocks = (Beside(left=(view,), right=(table, said), share=place.share),)
    return Sheet(key="stain", title=title, blocks=blocks, landscape=place.landscape, lists=(("stains", table),))
