"""Setting out: what is marked on the floor once the lines are known, and what proves it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from floorwright.control.choices import Tools
from floorwright.control.control import Control
from floorwright.findings import Finding
from floorwright.geometry.region import Region
from floorwright.layout.layout import Layout
from floorwright.plan.room import Room
from floorwright.setout.course import Course
from floorwright.setout.grid import GridChoices, WorkingGrid, working_grid
from floorwright.setout.nodes import Node, find_nodes
from floorwright.setout.points import SetOutPoint, frame_words, set_out_points
from floorwright.setout.rod import Rod, gauge_rods
from floorwright.setout.snap import SnapList
from floorwright.setout.ties import Ties, tie_nodes
from floorwright.units import LengthStyle

ASLANT: Final = math.radians(0.5)
"""A zone turned from the first line by less than this runs along it or square to it (our default)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetOut:
    """Attributes:
    nodes: points of the patterns that are worth a mark.
    ties: of the nodes; None where none are asked for.
    rods: a gauge rod for each family of lines; empty where none are asked for.
    points: corners, marks and nodes with their coordinates, for a total station.
    frame: the words that say where the coordinates are counted from.
    findings: of the ties and the grid.
    grid: the working grid; None where none is asked for.
    """

    nodes: tuple[Node, ...]
    ties: Ties | None
    rods: tuple[Rod, ...]
    points: tuple[SetOutPoint, ...]
    frame: str
    findings: tuple[Finding, ...]
    grid: WorkingGrid | None = None


def set_out(
    *,
    room: Room,
    region: Region,
    control: Control,
    layouts: Sequence[Layout],
    snap: SnapList,
    courses: Sequence[Sequence[Course]],
    tools: Tools,
    with_ties: bool | None,
    with_rods: bool,
    grid: GridChoices,
    style: LengthStyle,
) -> SetOut:
    """Returns the nodes with their coordinates, and the ties and gauge rods that are asked for.

    Args:
        room, region: the room and its floor wall to wall.
        control: its lines.
        layouts: of the zones.
        snap: the lines to snap.
        courses: of each layout.
        tools: to hand.
        with_ties: whether to tie the nodes; None leaves it to the floor: where a zone runs neither along the first
            line nor square to it, so that its lines meet the walls aslant, and where one ends off the walls.
        with_rods: whether to work out gauge rods.
        grid: what is said of the working grid.
        style: how lengths print in findings.
    """
    nodes = find_nodes(room=room, region=region, control=control, layouts=layouts, snap=snap)
    wanted = _are_worth_tying(control, layouts, nodes) if with_ties is None else with_ties
    ties = tie_nodes(room=room, region=region, control=control, nodes=nodes, tools=tools) if wanted else None
    boxed, told = working_grid(room=room, layouts=layouts, snap=snap, choices=grid, style=style)
    return SetOut(
        nodes=nodes,
        ties=ties,
        rods=gauge_rods(snap=snap, layouts=layouts, courses=courses) if with_rods else (),
        points=set_out_points(room, control, nodes),
        frame=frame_words(room),
        findings=(*(ties.findings if ties else ()), *told),
        grid=boxed,
    )


def _are_worth_tying(control: Control, layouts: Sequence[Layout], nodes: Sequence[Node]) -> bool:
    first = control.lines[0].angle
    turns = [math.remainder(layout.chosen.placement.angle - first, math.pi / 2) for layout in layouts]
    return any(abs(turn) > ASLANT for turn in turns) or any(not node.lines for node in nodes)
