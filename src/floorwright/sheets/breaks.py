"""Where the floor breaks between rooms: the line on a plan, and what is said of it."""

from collections.abc import Sequence
from itertools import chain

from floorwright.draw.sheet import Prose
from floorwright.draw.style import Pen, Size
from floorwright.draw.view import Line, Point, Text
from floorwright.job.solution import Solution
from floorwright.layout.grounds import Meeting
from floorwright.sheets.figures import Figures
from floorwright.sheets.frame import Frame
from floorwright.sheets.plan import paper_angle
from floorwright.sheets.words import sentence

NAME_OFF = 2.4
"""mm on paper from the line to the middle of its name."""

MOVEMENT_JOINT = (
    "Where tile meets tile in another direction, the movement joint usually goes on this line, where it hardly shows "
    "(told second-hand; the designer decides)."
)


def break_lines(meetings: Sequence[Meeting]) -> tuple[Line, ...]:
    """Returns the line down the middle of what is kept free at every break."""
    return tuple(Line(points=_ends(meeting), pen=Pen.ZONE) for meeting in meetings)


def break_names(meetings: Sequence[Meeting], frame: Frame) -> tuple[Text, ...]:
    """Returns the name of every break beside the middle of its line, on the side of its second room."""
    items: list[Text] = []
    for meeting in meetings:
        (ax, ay), (bx, by) = _ends(meeting)
        length = float(((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5)
        out = ((by - ay) / length, (ax - bx) / length)
        by_mm = frame.paper(NAME_OFF)
        at = ((ax + bx) / 2 + out[0] * by_mm, (ay + by) / 2 + out[1] * by_mm)
        text = meeting.threshold.name
        items.append(Text(at=at, text=text, size=Size.SMALL, angle=paper_angle(frame), halo=True))
    return tuple(items)


def _ends(meeting: Meeting) -> tuple[Point, Point]:
    (ax, ay), (bx, by) = meeting.threshold.start.tolist(), meeting.threshold.end.tolist()
    return (ax, ay), (bx, by)


def break_text(meeting: Meeting, figures: Figures) -> str:
    """Returns what is said of a break: `at arch tiles and wood meet, with 3 mm between them`."""
    width = figures.entered(meeting.width, unit=True)
    between = f"{width} kept free for a strip" if meeting.is_strip else f"a joint of {width}"
    if not meeting.width:
        between = "no joint"
    return f"at {meeting.threshold.name} {meeting.zones[0]} and {meeting.zones[1]} meet, with {between} between them"


def breaks_told(solution: Solution, figures: Figures) -> tuple[Prose, ...]:
    """Returns where the floor breaks, as a block beside the layout; nothing where it breaks nowhere."""
    if not solution.breaks:
        return ()
    said = [sentence(break_text(meeting, figures)) for meeting in solution.breaks]
    tiled = [layout for layout in solution.layouts if layout.part is not None and layout.part.rooms]
    joints = {layout.part.zone: layout.chosen.joint for layout in tiled if layout.part is not None}
    names = set(chain.from_iterable(meeting.zones for meeting in solution.breaks))
    jointed = all(joints.get(name, 0.0) > 0.0 for name in names)
    return (Prose(heading="Where the floor breaks", lines=(*said, *((MOVEMENT_JOINT,) if jointed else ()))),)
