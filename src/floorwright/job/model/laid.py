"""What is laid already."""

from typing import Literal

from pydantic import Field

from floorwright.job.model.table import Table
from floorwright.job.model.values import FileName, LaidLine, Note, TwoPoints


class Laid(Table):
    """What is laid already: it stays as it is, and only the rest is worked out anew."""

    earlier: FileName = Field(alias="from")
    """The job file that it was laid by, beside this one."""
    pieces: tuple[Note, ...] = Field(default=(), max_length=20_000)
    """Ids of the pieces that are laid, as `floorwright layout --json` of the earlier job gives them."""
    line: LaidLine | None = None
    """Or a line that all is laid up to: `first line` or `square line` of the earlier job, or two points on its
    floor."""
    side: Literal["left", "right"] | None = None
    """With `line`: the side that is laid, as one looks along it."""
    hold: TwoPoints | None = None
    """Two corners that have not moved, by which the new readings are tied to the old; without it the ends of the first
    wall."""
