"""The slab and its joints on a sheet: what they are, and what they are held against."""

from collections.abc import Iterator

from floorwright.draw.sheet import Block, Column, Prose, Table
from floorwright.scoring.scored import Scored
from floorwright.scoring.slab import PLACE, RATIO, STRAIGHT, Slab, depth_needed, most_spacing, spacing
from floorwright.sheets.figures import Figures
from floorwright.sheets.words import counted

SECOND_HAND = (
    "Figures of ACI and CSA documents were read second-hand, straightness is our own default: the contract and the "
    "local code govern. More joints are the designer's to order; scoring makes none."
)


def slab_blocks(scored: Scored, figures: Figures) -> Iterator[Block]:
    """Yields the table of the slab and its joints, and whose figures they are."""
    if scored.slab is not None and scored.slab.thickness is not None:
        yield slab_table(scored, scored.slab, scored.slab.thickness, figures)
        yield Prose(lines=(SECOND_HAND,), tone="quiet")


def slab_table(scored: Scored, slab: Slab, thickness: float, figures: Figures) -> Table:
    """Returns what the joints are, and what they are held against."""
    return Table(
        heading=f"The slab, {figures.entered(thickness, unit=True)} thick, and its joints",
        columns=(Column(heading="What"), Column(heading="is"), Column(heading="should be")),
        rows=(
            *_depth(slab, thickness, figures),
            *_panels(slab, thickness, figures),
            (
                "Joints lie",
                "measure both ends of each",
                f"within {figures.entered(PLACE, unit=True)} of where they were drawn",
            ),
            (
                "Score lines",
                f"{figures.entered(scored.design.saw.depth, unit=True)} deep",
                f"decoration only, straight within {figures.entered(STRAIGHT[0], unit=True)} "
                f"in {figures.entered(STRAIGHT[1], unit=True)}",
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
    low, most = min(spacing(thickness)[0], most_spacing(thickness)), most_spacing(thickness)
    better, limit = RATIO
    yield (
        counted(len(slab.panels), "panel"),
        f"up to {figures.room(longest, unit=True)} long",
        f"{figures.room(low, unit=True)} to {figures.room(most, unit=True)}",
    )
    yield "Long side by short side", f"up to {ratio:.2f}", f"{limit:g} at the most, {better:g} better"
