"""Control over a room as the tests make it, and how they look into it."""

from floorwright.control.choices import Centre, FirstLine, Tools
from floorwright.control.control import Control, ControlLine
from floorwright.control.set_out import set_control
from floorwright.findings import Finding
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Room
from floorwright.units import METRIC, LengthStyle

TOOLS = Tools(compass=2000, tape=8000, mark=0.5, set=1.0)
S6 = Tools(compass=2850, tape=8000, mark=0.0, set=1.0)
PARALLEL_S = FirstLine(by="parallel", wall="S")
ON_LINE = Centre(by="mid-point")


def control(
    room: Room,
    first: FirstLine = PARALLEL_S,
    centre: Centre = ON_LINE,
    tools: Tools = TOOLS,
    joint: float = 3.0,
    style: LengthStyle = METRIC,
) -> Control:
    return set_control(
        room=room, region=floor_region(room), first=first, centre=centre, tools=tools, joint=joint, style=style
    )


def finding(found: Control, code: str) -> Finding:
    return next(each for each in found.findings if each.code == code)


def codes(found: Control) -> set[str]:
    return {each.code for each in found.findings}


def line(found: Control, name: str) -> ControlLine:
    return next(each for each in found.lines if each.name == name)
