"""Rooms and controls of the scenarios, built straight from their figures."""

import math
from functools import partial
from typing import Any

import numpy as np

from floorwright.control.control import Control, ControlLine
from floorwright.layout.lay import lay_out
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option, WallCut
from floorwright.layout.zones import Cover, divide
from floorwright.pattern.catalogue import grid
from floorwright.plan.room import Corner, Obstacle, Room, Wall
from floorwright.units import METRIC

Point = tuple[float, float]


def room_of(
    corners: dict[str, Point], walls: tuple[str, ...], hidden: str = "", obstacles: tuple[Obstacle, ...] = ()
) -> Room:
    """A room from named corners, anticlockwise; wall n runs from corner n."""
    names = list(corners)
    return Room(
        name="room",
        corners=tuple(Corner(name=name, x=x, y=y) for name, (x, y) in corners.items()),
        walls=tuple(
            Wall(name=wall, start=start, end=end, hidden=wall in hidden)
            for wall, start, end in zip(walls, names, names[1:] + names[:1], strict=True)
        ),
        obstacles=obstacles,
    )


def rectangle_room(width: float, height: float, obstacles: tuple[Obstacle, ...] = ()) -> Room:
    corners = {"SW": (0.0, 0.0), "SE": (width, 0.0), "NE": (width, height), "NW": (0.0, height)}
    return room_of(corners, ("S", "E", "N", "W"), obstacles=obstacles)


def control_at(centre: Point, angle: float = 0.0) -> Control:
    def line(name: str, turn: float) -> ControlLine:
        return ControlLine(name=name, angle=angle + turn, through=centre, marks=(), sd_angle=0.0, drift=())

    lines = (line("first line", 0.0), line("square line", math.pi / 2))
    return Control(centre=centre, centre_how="", first_how="", lines=lines, constructions=(), checks=(), findings=())


def lay(room: Room, centre: Point, **given: Any) -> Layout:
    size: tuple[float, float] = given.pop("size", (300.0, 300.0))
    make = given.pop("make_cell", partial(grid, size))
    gap: tuple[float, float] = given.pop("gap", (5.0, 5.0))
    (part,) = divide(
        room=room, covers=[Cover(zone=given.pop("zone", "floor"), gap=gap[0])], first_line=0.0, style=METRIC
    )
    arguments: dict[str, Any] = {
        "gap": gap,
        "joint": 3.0,
        "joint_most": None,
        "joint_step": 1.0,
        "angle": 0.0,
        "limit": min(size) / 2,
        "choose": "",
        "shift_sd": 1.0,
        "turn_sd": 0.0,
        "style": METRIC,
    }
    return lay_out(part=part, room=room, control=control_at(centre), make_cell=make, **(arguments | given))


def option(layout: Layout, name: str) -> Option:
    found = [option for option in layout.options if option.name == name]
    assert found, f"no option {name!r} among {[option.name for option in layout.options]}"
    return found[0]


def wall(option: Option, name: str) -> WallCut:
    return next(cut for cut in option.walls if cut.wall == name)


def meet(a: Point, ra: float, b: Point, rb: float) -> Point:
    """Where circles about two points meet, on the left of a -> b."""
    base = math.dist(a, b)
    along = (ra**2 - rb**2 + base**2) / (2 * base)
    out = math.sqrt(ra**2 - along**2)
    unit = (np.array(b) - a) / base
    x, y = np.array(a) + along * unit + out * np.array([-unit[1], unit[0]])
    return float(x), float(y)


def larch_row() -> Room:
    """S2: S 4200, E 3612, N 4210, W 3588, SW-NE 5530."""
    sw, se = (0.0, 0.0), (4200.0, 0.0)
    ne = meet(sw, 5530.0, se, 3612.0)
    nw = meet(sw, 3588.0, ne, 4210.0)
    return room_of({"SW": sw, "SE": se, "NE": ne, "NW": nw}, ("S", "E", "N", "W"), hidden="EW")
