"""Laid floors for the tests of setout, made by hand: a pattern in a room, with its gap."""

import numpy as np

from floorwright.control.choices import Centre, FirstLine, Tools
from floorwright.control.control import Control
from floorwright.control.set_out import set_control
from floorwright.geometry.inset import inset
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option
from floorwright.layout.piece import Piece
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Room
from floorwright.units import METRIC

TOOLS = Tools(compass=2000, tape=8000, mark=0.5, set=1.0)


def control_of(room: Room) -> Control:
    return set_control(
        room=room,
        region=floor_region(room),
        first=FirstLine(by="parallel", wall=room.walls[0].name),
        centre=Centre(by="mid-point"),
        tools=TOOLS,
        joint=3.0,
        style=METRIC,
    )


def laid(
    room: Room,
    cell: UnitCell,
    origin: tuple[float, float],
    *,
    angle: float = 0.0,
    gap: float = 5.0,
    zone: str = "floor",
    pieces: tuple[Piece, ...] = (),
) -> Layout:
    option = Option(
        name="by hand", placement=Placement(origin=origin, angle=angle), joint=cell.joint, full=0, cut=0, worst=0.0,
        worst_piece="", worst_thin=0.0, walls=(), shaken=0.0, fragile=False, refused="", under=0,
    )  # fmt: skip
    return Layout(
        zone=zone, cell=cell, region=inset(floor_region(room), gap), gap=(gap, gap), limit=0.0, chosen=option,
        options=(option,), pieces=pieces, proofs=(), findings=(),
    )  # fmt: skip


def piece(zone: str, index: tuple[int, int, int], ring: list[tuple[float, float]], part: str = "") -> Piece:
    outline = np.array(ring, dtype=np.float64)
    return Piece(
        id=f"{zone}:{index[0]},{index[1]},{index[2]}{part}", index=index, full=False, rings=(outline,),
        edges=((None,) * len(outline),), area=1.0, narrowest=1.0, depth=1.0,
    )  # fmt: skip
