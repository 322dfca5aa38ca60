"""What a drawing holds: its runs of sides, layer by layer, and all that tells how it is meant."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections import Counter

    from floorwright.job.read.ring import Chain


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """What is drawn, in the drawing's own unit.

    Attributes:
        chains: runs of vertices by layer, as (x, y, bulge of the side that starts there).
        rounds: whole circles, by layer.
        passed_over: kinds of entity that no outline is made of, with how many.
        doors: radii of quarter circles.
        heights: least and greatest.
        broken: what is said of entities that lack a point, or have one at no number.
        header: unit that the file says it is in; empty where it says none.
    """

    chains: dict[str, list[Chain]]
    rounds: dict[str, list[Chain]]
    passed_over: Counter[str]
    doors: tuple[float, ...]
    heights: tuple[float, float]
    broken: tuple[str, ...]
    header: str

    @property
    def outlines(self) -> dict[str, list[Chain]]:
        """What may be the outline of a room: a circle beside lines is a column or a mark, alone it is a round room."""
        return self.chains or self.rounds
