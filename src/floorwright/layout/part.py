"""`lay_part`: a part of the floor laid as its kind asks for."""

from collections.abc import Callable
from typing import Any, Final

from floorwright.control.control import Control
from floorwright.layout.lay import lay_out
from floorwright.layout.layout import Layout
from floorwright.layout.ringed import lay_rings
from floorwright.layout.strip import lay_strip
from floorwright.layout.zones import BORDER, RINGS, Part
from floorwright.plan.room import Room
from floorwright.units import LengthStyle

OF_A_STRIP: Final = ("gap", "make_cell", "joint", "limit", "choose", "shift_sd", "turn_sd")
"""What the side of a border is laid by: it keeps the joint asked for, and its rows run along its wall."""

OF_RINGS: Final = ("gap", "limit", "choose", "shift_sd", "turn_sd")
"""What rings are laid by: they lie where their centre is."""


def lay_part(
    *,
    part: Part,
    room: Room,
    control: Control,
    style: LengthStyle,
    progress: Callable[[str, float], None] | None = None,
    **asked: Any,
) -> Layout:
    """Returns a part laid out: a side of a border along its wall, rings about their centre, all else by the proved
    search.

    Args:
        part, room, control, style, progress: as for `layout.lay.lay_out`.
        asked: all its other arguments.
    """
    if part.kind == BORDER:
        return lay_strip(part=part, style=style, **{name: asked[name] for name in OF_A_STRIP})
    if part.kind == RINGS:
        return lay_rings(part=part, style=style, **{name: asked[name] for name in OF_RINGS})
    return lay_out(part=part, room=room, control=control, style=style, progress=progress, **asked)
