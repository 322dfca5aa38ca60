"""The slab and its joints: whether lines lie on them, what else would, and what the joints are held against."""

from collections.abc import Iterator

from floorwright.draw.sheet import Block, Column, Prose, Sheet, Table
from floorwright.job.solution import Solution
from floorwright.scoring.say import searched_text
from floorwright.scoring.scored import Scored
from floorwright.scoring.slab import PLACE, RATIO, STRAIGHT, Slab, depth_needed, most_spacing, spacing
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import counted, listed, sentence
from floorwright.tolerance import TOUCH

SECOND_HAND = (
    "Figures of ACI and CSA documents were read second-hand, straightness is our own default: the contract and the "
    "local code govern. More joints are the designer's to order; scoring makes none."
)


def slab_sheet(solution: Solution) -> Sheet:
    """Returns how the lines and the joints in the slab agree; the solution must score it."""
    scored = solution.scored
    assert scored is not None
    return Sheet(key="slab", title=_title(scored), blocks=slab_blocks(scored, Figures(style=solution.style)))


def has_slab(scored: Scored) -> bool:
    """Returns whether there is anything to say of the slab and its joints."""
    return bool(scored.joints) or (scored.slab is not None and scored.slab.thickness is not None)


def _title(scored: Scored) -> str:
    if not scored.joints:
        return "The slab has no joints booked: whatever is scored, it cracks where it likes."
    if scored.missed:
        count = len(scored.missed)
        return f"{counted(count, 'joint has', 'joints have')} no line on {'it' if count == 1 else 'them'} all the way."
    return "A line lies on every joint in the slab."


def slab_blocks(scored: Scored, figures: Figures) -> tuple[Block, ...]:
    """Returns what lands on the joints and how it was searched, then the slab with what its joints are held against."""
    blocks: list[Block] = []
    if scored.search is not None and scored.search.landings:
        blocks += [_landings(scored, figures), Prose(lines=(sentence(searched_text(scored.search, figures.style)),))]
    if scored.slab is not None and scored.slab.thickness is not None:
        blocks += [slab_table(scored, scored.slab, scored.slab.thickness, figures)]
        blocks.append(Prose(lines=(SECOND_HAND,), tone="quiet"))
    return tuple(blocks)


def _landings(scored: Scored, figures: Figures) -> Table:
    assert scored.search is not None
    design = scored.design

    def said(borders: tuple[float, ...]) -> str:
        return listed([figures.entered(border) for border in borders], "or")

    def is_taken(size: float, ends: tuple[float, ...], sides: tuple[float, ...]) -> bool:
        return (
            abs(size - design.cell.size[0]) <= TOUCH
            and any(abs(border - design.ends) <= TOUCH for border in ends)
            and any(abs(border - design.sides) <= TOUCH for border in sides)
        )

    return Table(
        heading="Squares and borders that land on every joint",
        columns=(
            Column(heading="Squares", unit=figures.column, align="right"),
            Column(heading="Border at the ends", unit=figures.column, align="right"),
            Column(heading="Border along the sides", unit=figures.column, align="right"),
            Column(heading=""),
        ),
        rows=tuple(
            (
                figures.entered(one.size),
                said(one.ends),
                said(one.sides),
                "taken" if is_taken(one.size, one.ends, one.sides) else "",
            )
            for one in scored.search.landings
        ),
    )


def slab_table(scored: Scored, slab: Slab, thickness: float, figures: Figures) -> Table:
    """Returns what the joints are, and what they are held against."""
    system = figures.style.system
    off, along = STRAIGHT[system]
    return Table(
        heading=f"The slab, {figures.entered(thickness, unit=True)} thick, and its joints",
        columns=(Column(heading="What"), Column(heading="is"), Column(heading="should be")),
        rows=(
            *_depth(slab, thickness, figures),
            *_panels(slab, thickness, figures),
            (
                "Joints lie",
                "measure both ends of each",
                f"within {figures.entered(PLACE[system], unit=True)} of where they were drawn",
            ),
            (
                "Score lines",
                f"{figures.entered(scored.design.saw.depth, unit=True)} deep",
                f"decoration only, straight within {figures.entered(off, unit=True)} "
                f"in {figures.room(along, unit=True)}",
            ),
        ),
    )


def _depth(slab: Slab, thickness: float, figures: Figures) -> Iterator[tuple[str, str, str]]:
    sawn = [joint for joint in slab.joints if joint.kind == "contraction"]
    known = [joint for joint in sawn if joint.depth is not None]
    if not sawn:
        return
    depths = sorted({joint.depth for joint in known if joint.depth is not None})
    is_ = " to ".join(figures.entered(depth, unit=True) for depth in dict.fromkeys((*depths[:1], *depths[-1:])))
    left = counted(len(sawn) - len(known), "joint") + " not measured" if len(known) < len(sawn) else ""
    need = max(depth_needed(joint, thickness) for joint in sawn)
    yield "Depth of joints", "; ".join(filter(None, (is_, left))), f"{figures.entered(need, unit=True)} or more"


def _panels(slab: Slab, thickness: float, figures: Figures) -> Iterator[tuple[str, str, str]]:
    longest = max(panel.long for panel in slab.panels)
    ratio = max(panel.ratio for panel in slab.panels)
    most = most_spacing(thickness, slab.mix)
    low = min(spacing(thickness)[0], most)
    better, limit = RATIO
    yield (
        counted(len(slab.panels), "panel"),
        f"up to {figures.room(longest, unit=True)} long",
        f"{figures.room(low, unit=True)} to {figures.room(most, unit=True)}",
    )
    yield "Long side by short side", f"up to {ratio:.2f}", f"{limit:g} at the most, {better:g} better"
