"""A job: all its tables."""

from typing import Final, Literal

from pydantic import Field

from floorwright.job.model.aims import Aims, FreeEdge
from floorwright.job.model.control import Control
from floorwright.job.model.goods import DrawnPattern, Goods, Ordering
from floorwright.job.model.laid import Laid
from floorwright.job.model.rooms import Link, Obstacle, Opening, Room, SlabJoint
from floorwright.job.model.scoring import Scoring, Slab
from floorwright.job.model.setout import SetOut
from floorwright.job.model.survey import Survey
from floorwright.job.model.table import Table, as_if_read, by_system
from floorwright.job.model.values import Date, Note, Rounding, style_for
from floorwright.job.model.zones import Zone
from floorwright.units import LengthStyle

SCHEMA: Final = 1
"""The number of this form of the job file."""


class Job(Table):
    """A job."""

    schema_number: Literal[1] = Field(default=SCHEMA, alias="schema")
    """The number of this form of the job file."""
    title: Note = ""
    """What the job is called on the sheets."""
    client: Note = ""
    """For whom."""
    by: Note = ""
    """By whom."""
    date: Date = None
    """Printed on the sheets; the clock is never read."""
    revision: Note = ""
    """Printed on the sheets."""
    units: Literal["mm", "cm", "m", "in", "ft"] = "mm"
    """What a bare number means, and whether lengths print in mm or in feet and inches."""
    words: Literal["UK", "US"] = by_system("UK", "US")
    """The trade words on the sheets."""
    paper: Literal["A4", "Letter"] = by_system("A4", "Letter")
    """The paper of the pack."""
    rounding: Rounding = by_system("0.5 mm", "1/16in")
    """What printed lengths are rounded to: 1 or 0.5 mm, 1/16in or 1/32in."""
    survey: Survey = as_if_read({})
    """What was measured of the room."""
    rooms: tuple[Room, ...] = Field(default=(), max_length=50)
    """Further rooms that the floor runs through to."""
    links: tuple[Link, ...] = Field(default=(), max_length=200)
    """Where the rooms run into each other."""
    openings: tuple[Opening, ...] = ()
    """Doors and other openings."""
    obstacles: tuple[Obstacle, ...] = ()
    """Columns and pipes."""
    slab_joints: tuple[SlabJoint, ...] = Field(default=(), max_length=100)
    """Straight joints that are in the slab already."""
    slab: Slab = as_if_read({})
    """The concrete slab that is scored."""
    scoring: Scoring | None = None
    """Lines to score or saw into the slab: the pattern's lines, not pieces."""
    control: Control = as_if_read({})
    """The control lines and the tools to hand."""
    goods: tuple[Goods, ...] = ()
    """Tiles or other pieces as they are bought."""
    patterns: tuple[DrawnPattern, ...] = ()
    """Patterns of your own, drawn."""
    zones: tuple[Zone, ...] = ()
    """Parts of the floor, each with one pattern."""
    aims: Aims = as_if_read({})
    """What the layout is to aim for."""
    setout: SetOut = as_if_read({})
    """What is marked on the floor beside the control lines."""
    free: tuple[FreeEdge, ...] = ()
    """Walls and edges that may move: a patio's edge, a kerb not built yet."""
    laid: Laid | None = None
    """What is laid already, by an earlier job file."""
    order: Ordering = as_if_read({})
    """What to order beside what is laid."""

    @property
    def style(self) -> LengthStyle:
        """How its lengths print."""
        return style_for(self.units, self.rounding)
