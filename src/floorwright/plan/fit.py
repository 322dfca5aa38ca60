"""Openings brought within their walls, where readings only just disagree."""

from collections.abc import Iterator
from dataclasses import replace

from floorwright.findings import Finding, Severity
from floorwright.plan.room import Opening, Room
from floorwright.tolerance import AT_CORNER
from floorwright.units import LengthStyle


def fit_openings(room: Room, style: LengthStyle) -> tuple[Room, tuple[Finding, ...]]:
    """Returns the room with openings that run past a corner by no more than `AT_CORNER` moved to end there.

    A door in the corner of a room is measured to the corner, and the wall is adjusted to all its readings: the two
    seldom agree to the last bit. What is farther past is left for `plan.check.check_room` to find.
    """
    fitted = tuple(_fitted(room, opening) for opening in room.openings)
    return replace(room, openings=fitted), tuple(_moved(room, fitted, style))


def _fitted(room: Room, opening: Opening) -> Opening:
    length = room.length(opening.wall)
    before, past = _over(room, opening)
    if max(before, past) <= 0.0 or max(before, past) > AT_CORNER:
        return opening
    width = min(opening.width, length)
    start = min(max(opening.start, 0.0), length - width)
    return replace(opening, start=start, width=width)


def _over(room: Room, opening: Opening) -> tuple[float, float]:
    """How far an opening runs past the start and the end of its wall, mm; negative where it does not."""
    return -opening.start, opening.start + opening.width - room.length(opening.wall)


def _moved(room: Room, fitted: tuple[Opening, ...], style: LengthStyle) -> Iterator[Finding]:
    """What is said of every opening that was moved by as much as prints."""
    for opening, fit in zip(room.openings, fitted, strict=True):
        over = max(_over(room, opening))
        if fit is opening or style.steps(over) == 0:
            continue
        wall = room.wall(opening.wall)
        corner = wall.start if over == -opening.start else wall.end
        yield Finding(
            code="plan-opening-at-corner",
            severity=Severity.NOTE,
            place=f"opening {opening.name}",
            found=f"{opening.name} runs {style.text(over, unit=True)} past corner {corner} by its readings",
            remedy=f"it is taken up to {corner}; measure it again if it does not stand in that corner",
            source="our default",
        )
