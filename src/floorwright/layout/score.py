"""A position of the pattern scored: what its pieces, its walls and a hand that is a little out make of it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from floorwright.geometry.region import Points, Region
from floorwright.layout.aims import Aim
from floorwright.layout.axis import Axis, axes_of, region_faces, wall_faces
from floorwright.layout.clip import Clipped, clip, cut_pieces
from floorwright.layout.floor_lines import FloorLine
from floorwright.layout.measure import hull_widths, measure
from floorwright.layout.option import Option, WallCut
from floorwright.layout.pieces import piece_id
from floorwright.layout.rooms import SEVERAL, owners
from floorwright.layout.sides import Side
from floorwright.layout.walls import Strip, strip_at, wall_cut
from floorwright.pattern.cell import Placement, UnitCell
from floorwright.plan.room import Room
from floorwright.tolerance import LEAST_SAWN, LEAST_SHARE, RANK_STEP
from floorwright.units import LengthStyle


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Floor:
    """What every position of a zone is scored against.

    Attributes:
        zone: its name.
        region: what is covered: its part of the floor less the least gap.
        sides: what its cuts are measured to.
        gap: (least, most) perimeter gap, mm.
        limit: mm, no piece should be narrower; 0 for none.
        centre: where the control lines cross, mm.
        shift_sd: mm, how far out the pattern may be laid, one standard deviation.
        turn_sd: radians, how far it may be turned.
        style: how lengths are written.
        joint: mm, as asked for.
        angle: radians, of the pattern as asked for.
        aims: what options are weighed by, in order.
        lines: that a joint or a tile may lie on.
        rooms: those that run through, to say which of them decides; none for a room by itself.
    """

    zone: str
    region: Region
    sides: tuple[Side, ...]
    gap: tuple[float, float]
    limit: float
    centre: tuple[float, float]
    shift_sd: float
    turn_sd: float
    style: LengthStyle
    joint: float = 0.0
    angle: float = 0.0
    aims: tuple[Aim, ...] = ()
    lines: tuple[FloorLine, ...] = ()
    rooms: tuple[Room, ...] = ()

    def ends(self, side: str) -> tuple[Points, Points]:
        """Returns the start and end of a side, each (2,) mm, its gap still on it."""
        return next((one.start, one.end) for one in self.sides if one.name == side)

    @property
    def aims_asked(self) -> bool:
        """Whether a person gave a list of aims."""
        return any(aim.own for aim in self.aims)

    @property
    def spare(self) -> float:
        """Mm by which the gap may be wider than it is."""
        return self.gap[1] - self.gap[0]


def score(floor: Floor, cell: UnitCell, placement: Placement, name: str) -> Option:
    """Returns the position with everything that options are ranked by, except what a hand that is out makes of it.

    `shaken` is the worst piece itself here; see `shake`.
    """
    clipped = clip(floor.region, cell, placement)
    narrowest = measure(clipped).narrowest
    worst, at = _worst(clipped, narrowest, cell)
    axes = axes_of(cell, placement.angle)
    walls = wall_cuts(floor, axes, placement)
    return Option(
        name=name,
        placement=placement,
        joint=cell.joint,
        full=clipped.runs.count,
        cut=len(clipped.index),
        worst=worst,
        worst_piece="" if at is None else piece_id(floor.zone, _index(clipped, at), int(clipped.part[at])),
        worst_thin=min((wall.thin for wall in walls), default=worst),
        walls=walls,
        shaken=worst,
        fragile=False,
        refused=_refused(floor, axes, placement, walls, worst, clipped, at, least_sawn(cell)),
        under=int((narrowest < floor.limit - RANK_STEP).sum()),
        decides=_decides(floor.rooms, clipped, narrowest, worst) if len(floor.rooms) >= SEVERAL else (),
    )


def _decides(rooms: Sequence[Room], clipped: Clipped, narrowest: Points, worst: float) -> tuple[str, ...]:
    """The rooms, of several, that have a piece as narrow as the worst."""
    at = np.flatnonzero(narrowest <= worst + RANK_STEP)
    rings = [int(np.flatnonzero(clipped.piece == piece)[0]) for piece in at]
    found = set(owners(rooms, [[clipped.points[clipped.first[n] : clipped.first[n + 1]]] for n in rings]))
    return tuple(one.name for n, one in enumerate(rooms) if n in found)


def narrowest_of(region: Region, cell: UnitCell, placement: Placement) -> float:
    """Returns the narrowest cut piece of a position, mm; a full one's side if none is cut, 0 if there is no piece."""
    cut = cut_pieces(region, cell, placement)
    if len(cut.index):
        return float(measure(cut).narrowest.min())
    return smallest_side(cell) if clip(region, cell, placement).runs.count else 0.0


def wall_cuts(floor: Floor, axes: tuple[Axis, ...], placement: Placement) -> tuple[WallCut, ...]:
    """Returns the cut along every wall that runs along the pattern, in the order of the walls."""
    origin = np.array(placement.origin)
    cuts: dict[str, WallCut] = {}
    for axis, other in zip(axes, reversed(axes), strict=True):
        faces = wall_faces(floor.sides, axis)
        cuts |= {face.name: wall_cut(face, axis, other, origin, floor.spare, faces) for face in faces}
    return tuple(cuts[side.name] for side in floor.sides if side.name in cuts)


def _index(clipped: Clipped, piece: int) -> tuple[int, int, int]:
    i, j, k = clipped.index[piece].tolist()
    return i, j, k


def least_sawn(cell: UnitCell) -> float:
    """Returns the narrowest piece that can be sawn, mm: `LEAST_SAWN`, or of small tiles `LEAST_SHARE` of a side."""
    return min(LEAST_SAWN, LEAST_SHARE * smallest_side(cell))


def smallest_side(cell: UnitCell) -> float:
    """Returns the hull width of the narrowest full tile, mm."""
    first = np.cumsum([0, *map(len, cell.pieces)])
    return float(hull_widths(np.concatenate(cell.pieces), first[:-1], first[1:]).min())


def _worst(clipped: Clipped, narrowest: Points, cell: UnitCell) -> tuple[float, int | None]:
    """Returns the narrowest piece and which cut piece it is; ties, to `RANK_STEP`, go to the first by index."""
    if len(narrowest):
        return float(narrowest.min()), int(np.round(narrowest / RANK_STEP).argmin())
    return (smallest_side(cell) if clipped.runs.count else 0.0), None


def shake(floor: Floor, cell: UnitCell, placement: Placement) -> float:
    """Returns the worst piece, mm, over the position moved by the setting-out error each way and turned each way."""
    return min(narrowest_of(floor.region, cell, place) for place in (placement, *_moved(floor, placement)))


def is_spoilt(floor: Floor, cell: UnitCell, option: Option) -> bool:
    """Returns whether an option is fragile (`is_fragile`), with no more moves tried than it takes to tell."""
    return any(
        is_fragile(option, narrowest_of(floor.region, cell, place), floor.limit)
        for place in _moved(floor, option.placement)
    )


def _moved(floor: Floor, placement: Placement) -> list[Placement]:
    """A position moved by the setting-out error each way, and turned each way."""
    x, y = placement.origin
    d = floor.shift_sd
    moved = [(x + d, y), (x - d, y), (x, y + d), (x, y - d)] if d > 0 else []
    tried = [Placement(origin=origin, angle=placement.angle) for origin in moved]
    return [*tried, *(_turned(placement, floor.centre, turn) for turn in (floor.turn_sd, -floor.turn_sd) if turn)]


def _turned(placement: Placement, about: tuple[float, float], angle: float) -> Placement:
    x, y = placement.origin[0] - about[0], placement.origin[1] - about[1]
    cos, sin = math.cos(angle), math.sin(angle)
    return Placement(origin=(about[0] + cos * x - sin * y, about[1] + sin * x + cos * y), angle=placement.angle + angle)


def is_fragile(option: Option, shaken: float, limit: float) -> bool:
    """Returns whether a hand that is a little out brings the worst piece under the limit, or to under half of
    itself."""
    falls_under = option.worst >= limit - RANK_STEP > shaken
    return falls_under or shaken < option.worst / 2


def _refused(
    floor: Floor,
    axes: tuple[Axis, ...],
    placement: Placement,
    walls: Sequence[WallCut],
    worst: float,
    clipped: Clipped,
    at: int | None,
    least: float,
) -> str:
    """Returns why the position cannot be laid: what it needs and what there is; empty when it can."""
    for wall in walls:
        if not wall.fits:
            strip = Strip(name=wall.wall, thin=wall.thin, fat=wall.fat, tile=wall.tile, over=wall.over)
            return _strip_text(strip, floor)
    origin = np.array(placement.origin)
    for axis, other in zip(axes, reversed(axes), strict=True):
        for face in region_faces(floor.region, axis):
            found = strip_at(face, axis, other, origin, floor.spare)
            if found is not None:
                return _strip_text(found, floor)
    if at is not None and worst < least:
        where = _walls_of(floor.region, clipped, at)
        under = floor.style.text(least, feet=False)
        return f"leaves a piece {_small_text(worst, floor.style)} wide{where}, too narrow to saw (under {under})"
    return ""


def _small_text(mm: float, style: LengthStyle) -> str:
    """A length over nothing, even where it prints as nothing."""
    return style.text(mm, feet=False) if style.steps(mm) else f"under {style.text(style.mm(1), feet=False)}"


def _strip_text(strip: Strip, floor: Floor) -> str:
    style = floor.style

    def text(mm: float) -> str:
        return style.text(mm, feet=False)

    tile = style.entered_text(strip.tile)
    if strip.over:
        needs = text(strip.fat) if text(strip.thin) == text(strip.fat) else f"{text(strip.thin)} to {text(strip.fat)}"
        return f"needs {needs} at {strip.name}, a tile is {tile}: a tile and its joint leave {text(strip.over)} over"
    gap = text(strip.fat - strip.tile)
    what = "joint" if strip.name in floor.region.joints else "gap"
    return f"leaves a strip of {gap} between the last tile and the {what} at {strip.name}, which nothing fills"


def _walls_of(region: Region, clipped: Clipped, piece: int) -> str:
    names = [name for ring in region.edges for name in ring]
    rings = np.flatnonzero(clipped.piece == piece)
    edges = np.concatenate([clipped.edge[clipped.first[ring] : clipped.first[ring + 1]] for ring in rings])
    walls = list(dict.fromkeys(names[edge] for edge in edges.tolist() if edge >= 0))
    return f" at {' and '.join(walls)}" if walls else ""
