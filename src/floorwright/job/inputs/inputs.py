"""What each part needs, taken out of a job: names resolved, degrees turned to radians, defaults made plain."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, radians
from typing import TYPE_CHECKING, Any, Final

from floorwright.control.angled import Wanted
from floorwright.control.choices import Centre, FirstLine, SlabJoint, Tools
from floorwright.control.readings import Reading
from floorwright.findings import Finding, Severity, has_error
from floorwright.job.inputs import patterned
from floorwright.job.inputs.arcs import booked_arcs
from floorwright.job.inputs.observations import observations
from floorwright.job.model.values import ends
from floorwright.layout.aims import COUNTS, LIMITED, Aim
from floorwright.layout.angles import Turns
from floorwright.layout.change import FreeEdge
from floorwright.plan.check import check_floor, check_room
from floorwright.plan.fit import fit_openings
from floorwright.plan.obstacles import column, pipe
from floorwright.plan.room import Link, Obstacle, Opening, Room
from floorwright.plan.run import run_of_rooms
from floorwright.setout.grid import GridChoices
from floorwright.survey.adjustment import Datum
from floorwright.survey.outline import Booked

if TYPE_CHECKING:
    from collections.abc import Iterator

    from floorwright.control.control import Control
    from floorwright.job import model
    from floorwright.job.model import Job
    from floorwright.layout.border import ZoneMisfitError
    from floorwright.survey.survey import SurveyResult
    from floorwright.units import LengthStyle

SHARES: Final = {"half": 1 / 2, "third": 1 / 3, "fifth": 1 / 5}
"""Of the smaller side of a tile."""


def survey(job: Job) -> dict[str, Any]:
    """Returns the arguments of `survey.survey.survey_room`, except the style."""
    booked = job.survey
    datum = None if booked.datum == "first wall" else Datum(kind=booked.datum)
    return {
        "name": job.title,
        "outline": booked.outline,
        "direction": booked.direction,
        "inward": booked.inward,
        "observations": observations(job),
        "wall_names": {name: ends(pair) for name, pair in booked.walls.items()},
        "hidden": frozenset(job.aims.hidden),
        "datum": datum,
        "arcs": booked_arcs(job),
        "room": booked.name,
        "more": tuple(
            Booked(
                name=other.name,
                outline=other.outline,
                anticlockwise=other.direction == "anticlockwise",
                inward=other.inward,
            )
            for other in job.rooms
        ),
    }


def room(job: Job, surveyed: SurveyResult, *, style: LengthStyle) -> tuple[Room | None, tuple[Finding, ...]]:
    """Returns the room with its openings and obstacles (None where no floor comes of it), and what is wrong there.

    Several rooms are made one.
    """
    if surveyed.adjustment is None:
        return None, ()
    taken: set[str] = set()
    rooms: list[Room] = []
    findings: list[Finding] = []
    for bare in surveyed.rooms:
        # A wall that two rooms have is no wall; what is booked of it is the first room's.
        own = {wall.name for wall in bare.walls} - taken
        taken |= own
        furnished = replace(
            bare,
            openings=tuple(_opening(opening, bare) for opening in job.openings if opening.wall in own),
            obstacles=tuple(_obstacle(obstacle, bare) for obstacle in job.obstacles if obstacle.wall in own),
        )
        fitted, moved = fit_openings(furnished, style)
        rooms.append(fitted)
        findings += [*moved, *check_room(fitted, style)]
    if has_error(tuple(findings)):
        return None, tuple(findings)
    if len(rooms) == 1:
        return replace(rooms[0], name=job.title), tuple(findings)
    run, trouble = run_of_rooms(job.title, rooms, links_of(job), style)
    findings += [*trouble, *(check_floor(run) if run else ())]
    return (None if has_error(tuple(findings)) else run), tuple(findings)


def links_of(job: Job) -> tuple[Link, ...]:
    """Returns where the rooms run into each other, each with a name."""
    return tuple(
        Link(
            name=link.name or (link.openings[0] if link.openings else " to ".join(link.rooms)),
            rooms=link.rooms,
            openings=link.openings,
            at=link.at,
        )
        for link in job.links
    )


def _opening(opening: model.Opening, bare: Room) -> Opening:
    wall = bare.wall(opening.wall)
    start = opening.offset
    if opening.start == wall.end:
        start = bare.length(wall.name) - opening.offset - opening.width
    return Opening(name=opening.name, wall=wall.name, start=start, width=opening.width, reveal=opening.reveal)


def _obstacle(obstacle: model.Obstacle, bare: Room) -> Obstacle:
    place: dict[str, Any] = {
        "name": obstacle.name,
        "wall": obstacle.wall,
        "start": obstacle.start,
        "along": obstacle.along,
        "out": obstacle.out,
    }
    if obstacle.kind != "column":
        return pipe(bare, diameter=obstacle.diameter or 0.0, kind=obstacle.kind, **place)
    return column(bare, length=obstacle.length or 0.0, width=obstacle.width or 0.0, **place)


def control(job: Job) -> dict[str, Any]:
    """Returns the arguments of `control.set_out.set_control`, except the room, the region and the style."""
    chosen = job.control
    line, centre = chosen.first_line, chosen.centre
    point = None if centre.x is None or centre.y is None else (centre.x, centre.y)
    in_slab = {joint.name: joint.ends for joint in slab_joints(job)}
    typed = () if line.start is None or line.to is None else (line.start, line.to)
    return {
        "first": FirstLine(
            by=line.by,
            walls=line.walls or (),
            opening=line.opening or "",
            wall=line.wall or "",
            points=in_slab.get(line.slab_joint or "", typed),
            slab_joint=line.slab_joint or "",
        ),
        "centre": Centre(by=centre.by, wall=centre.wall or "", opening=centre.opening or "", point=point),
        "tools": tools(job),
        "joint": min((zone.joint for zone in job.zones), default=0.0),
        "wanted": tuple(
            Wanted(name=f"rows of {zone.name}", angle=radians(patterned.turn(zone)), first=3 * number + 1)
            for number, zone in enumerate(job.zones)
        ),
    }


def check_readings(job: Job) -> dict[str, Any]:
    """Returns the arguments of `control.readings.judged`, except the control and the style."""
    return {
        "readings": tuple(Reading(between=one.between, reads=one.reads) for one in job.control.readings),
        "joint": min((zone.joint for zone in job.zones), default=0.0),
        "tools": tools(job),
    }


def tools(job: Job) -> Tools:
    """Returns the tools to hand."""
    chosen = job.control
    return Tools(
        compass=chosen.compass,
        tape=chosen.tape,
        mark=chosen.mark,
        set=chosen.setting,
        laser=chosen.laser,
        straightedge=chosen.straightedge,
        square=chosen.square or "",
    )


def setout(job: Job) -> dict[str, Any]:
    """Returns the arguments of `setout.set_out.set_out`, except the results it starts from and the style."""
    grid = job.setout.grid
    return {
        "tools": tools(job),
        "with_ties": job.setout.ties,
        "with_rods": job.setout.gauge_rod,
        "grid": GridChoices(wanted=grid.wanted, reach=grid.reach, skins=grid.skins or 0.0, first_pass=grid.first_pass),
    }


def slab_joints(job: Job) -> tuple[SlabJoint, ...]:
    """Returns the joints that are in the slab already."""
    return tuple(SlabJoint(name=joint.name, ends=(joint.start, joint.to)) for joint in job.slab_joints)


def zone(job: Job, laid: model.Zone, lines: Control) -> dict[str, Any]:
    """Returns the arguments of `layout.lay.lay_part`, except the part, the control, the style and the progress.

    The setting-out error is what control predicts: the square line's angle, and the marks that it is struck through.
    """
    smallest = min(min(size) for size in patterned.sizes(job, laid).values())
    turn = max(line.sd_angle for line in lines.lines)
    least = job.aims.least if laid.least_piece is None else laid.least_piece
    return {
        "gap": (laid.gap, laid.gap if laid.gap_most is None else laid.gap_most),
        "make_cell": None if laid.kind == "rings" else patterned.cell_maker(job, laid),
        "joint": laid.joint,
        "joint_most": laid.joint_most,
        "joint_least": laid.joint_least,
        "joint_step": laid.joint_step,
        "angle": radians(patterned.turn(laid)),
        "turns": _turns(laid),
        "limit": _width(least, smallest),
        "choose": laid.option or (job.aims.option if laid is _first_field(job) else ""),
        "shift_sd": hypot(job.control.mark, job.control.setting),
        "turn_sd": turn,
        "at": laid.at,
        "aims": tuple(_aim(wanted, least, smallest) for wanted in job.aims.order),
    }


def _first_field(job: Job) -> model.Zone | None:
    return next((zone for zone in job.zones if zone.kind == "field"), None)


def _turns(laid: model.Zone) -> Turns | None:
    """Returns the angles to try, or None for one."""
    stand = radians(patterned.turn(laid) - laid.angle)
    walls = laid.angle_walls or ()
    if laid.angles:
        named = tuple(each if isinstance(each, str) else radians(each) for each in laid.angles)
        return Turns(named=named, walls=walls, stand=stand)
    if laid.angle_from is None or laid.angle_to is None:
        return None
    span = (radians(laid.angle_from), radians(laid.angle_to))
    return Turns(about=laid.angle_about, walls=walls, span=span, stand=stand)


def _aim(wanted: model.Aim, least: str | float, side: float) -> Aim:
    """Returns an aim as the layout takes it; `least` is the zone's least piece, `side` the smaller side of a tile,
    mm."""
    under = least if wanted.under is None else wanted.under
    within = wanted.within_count if wanted.aim in COUNTS else wanted.within
    return Aim(
        name=wanted.aim,
        limit=_width(under, side) if wanted.aim in LIMITED else 0.0,
        at_most=wanted.at_most,
        within=float(within or 0),
        walls=wanted.walls,
        visible=wanted.visible,
        on=wanted.on or "",
    )


def _width(least: str | float, side: float) -> float:
    return SHARES[least] * side if isinstance(least, str) else least


def misfit(fault: ZoneMisfitError) -> Finding:
    """Returns the finding that a zone does not fit the floor."""
    return Finding(
        code="job-gap" if fault.by_gap else "layout-zone-misfit",
        severity=Severity.ERROR,
        place=f"zone {fault.zone}",
        found=fault.found,
        expected=fault.expected,
        remedy=fault.remedy,
        source="yours",
    )


def free(job: Job) -> tuple[FreeEdge, ...]:
    """Returns the walls that may move."""
    return tuple(FreeEdge(wall=edge.wall, out=edge.out, inward=edge.inward) for edge in job.free)


def goods_of(job: Job, laid: model.Zone) -> model.Goods:
    """Returns the goods of a zone."""
    return next(goods for goods in job.goods if goods.name == laid.goods)


def rows_of_tiles(job: Job) -> tuple[Finding, ...]:
    """Returns what was made of every row of tiles that was measured."""
    return tuple(goods.row(job.style)[1] for goods in job.goods if goods.group is not None)


def orders(job: Job) -> Iterator[tuple[dict[str, frozenset[str]], dict[str, Any]]]:
    """Yields for each kind of goods, in the order of the zones, the zones laid in it, each with the kinds of piece that
    are these goods (none where all are), and the arguments of `takeoff.count.order`, except the results it counts."""
    laid = {zone.name: patterned.goods_by_kind(job, zone) for zone in job.zones}
    for goods in {goods.name: goods for zone in laid.values() for goods in zone.values()}.values():
        zones = {
            zone: {kind for kind, one in by_kind.items() if one.name == goods.name} for zone, by_kind in laid.items()
        }
        kinds = {zone: frozenset(own if len(own) < len(laid[zone]) else ()) for zone, own in zones.items() if own}
        counted = {"goods_name": goods.name, "box": goods.box or 0, "spares": job.order.spares}
        yield kinds, counted
