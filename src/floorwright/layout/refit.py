"""A floor partly laid, laid on: what is laid keeps its place, its joint and its outline, and the rest follows from it.

The pattern goes on from what is laid, so its position, direction and joint are fixed. Only the pieces that are not laid
yet are cut anew to the floor as it is now measured.
"""

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

import numpy as np

from floorwright.geometry.measure import distance_to_segments, is_inside, offset_from_line
from floorwright.geometry.region import Points, Region
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option
from floorwright.layout.piece import Piece
from floorwright.layout.pieces import pieces_of
from floorwright.layout.score import Floor, is_fragile, score, shake
from floorwright.layout.sides import Side
from floorwright.layout.zones import Part
from floorwright.pattern.cell import Placement
from floorwright.plan.room import Room
from floorwright.tolerance import RANK_STEP, TOUCH


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tie:
    """How the floor as measured before lies on the floor as measured now: turned about the origin, then moved.

    Attributes:
        turn: radians.
        move: (2,) mm.
    """

    turn: float
    move: Points

    def points(self, before: Points) -> Points:
        """Returns points of the earlier floor on the present one, (n, 2) mm."""
        cos, sin = math.cos(self.turn), math.sin(self.turn)
        return np.asarray(before @ np.array([[cos, sin], [-sin, cos]]) + self.move)

    def placement(self, before: Placement) -> Placement:
        """Returns where a pattern of the earlier floor lies on the present one."""
        x, y = self.points(np.array([before.origin]))[0]
        return Placement(origin=(float(x), float(y)), angle=before.angle + self.turn)

    def piece(self, before: Piece) -> Piece:
        """Returns a piece of the earlier floor on the present one."""
        return replace(before, rings=tuple(self.points(ring) for ring in before.rings))


def tie(before: Room, now: Room, hold: tuple[str, str]) -> Tie:
    """Returns how two measurements of a floor lie on each other, tied at a corner and in the direction of another.

    Args:
        before, now: the same room twice.
        hold: two corners that have not moved; the first is the one that they are tied at.
    """
    ends = [[np.array([room.corner(name).x, room.corner(name).y]) for name in hold] for room in (before, now)]
    turns = [math.atan2(*(end - start)[::-1]) for start, end in ends]
    turn = math.remainder(turns[1] - turns[0], 2 * math.pi)
    unmoved = Tie(turn=turn, move=np.zeros(2))
    return Tie(turn=turn, move=ends[1][0] - unmoved.points(ends[0][0][None])[0])


def on_side(pieces: Collection[Piece], start: Points, end: Points, side: str) -> frozenset[str]:
    """Returns the ids of the pieces that lie wholly on one side of a line, `left` or `right` as one looks along it."""
    sign = 1.0 if side == "left" else -1.0
    return frozenset(
        piece.id for piece in pieces if bool((sign * offset_from_line(piece.rings[0], start, end) >= -TOUCH).all())
    )


def laid_on(floor: Floor, part: Part, before: Layout, tied: Tie, laid: Collection[str]) -> Layout:
    """Returns the layout in which the laid pieces stay as they are and the others are cut to the floor as it is now.

    Args:
        floor: as measured now.
        part: of it.
        before: the layout that was laid by.
        tied: how its floor lies on this one.
        laid: ids of its pieces that are laid.
    """
    placement = tied.placement(before.chosen.placement)
    anew = pieces_of(floor.zone, floor.region, before.cell, placement)
    frozen = tuple(tied.piece(piece) for piece in before.pieces if piece.id in laid)
    taken = {piece.index for piece in frozen}
    # A tile of which a part is laid is laid: what the new floor would make of the rest of it is not there any more.
    pieces = tuple(
        sorted(
            [*frozen, *(piece for piece in anew if piece.index not in taken)],
            key=lambda piece: (piece.index, piece.id),
        )
    )
    option = _option(floor, before, placement, pieces)
    return Layout(
        zone=floor.zone,
        cell=before.cell,
        region=floor.region,
        gap=floor.gap,
        limit=floor.limit,
        chosen=option,
        options=(option,),
        pieces=pieces,
        proofs=(),
        findings=(),
        part=part,
    )


def _option(floor: Floor, before: Layout, placement: Placement, pieces: tuple[Piece, ...]) -> Option:
    """Returns the position scored, with the counts and the narrowest of the pieces that there really are."""
    scored = score(floor, before.cell, placement, before.chosen.name)
    cut = [piece for piece in pieces if not piece.full]
    worst = min(cut, key=lambda piece: (round(piece.narrowest / RANK_STEP), piece.index), default=None)
    shaken = shake(floor, before.cell, placement)
    option = replace(
        scored,
        full=len(pieces) - len(cut),
        cut=len(cut),
        worst=worst.narrowest if worst else scored.worst,
        worst_piece=worst.id if worst else "",
        under=sum(piece.narrowest < floor.limit - RANK_STEP for piece in cut),
        shaken=shaken,
    )
    return replace(option, fragile=is_fragile(option, shaken, floor.limit))


@dataclass(frozen=True, slots=True, kw_only=True)
class Misfit:
    """A laid piece that the floor as now measured has no room for, or leaves too much room at.

    Attributes:
        piece: its id.
        wall: where.
        over: mm by which it stands over the wall's line; 0 where it does not.
        gap: mm left to the wall at the laid piece where that is less than the least gap or more than the most; 0 where
            it stands over.
    """

    piece: str
    wall: str
    over: float
    gap: float


def misfits(
    frozen: Collection[Piece], sides: Sequence[Side], walls: Region, gap: tuple[float, float], step: float
) -> tuple[Misfit, ...]:
    """Returns the laid pieces that stand over a wall's line, in its gap, or too far from it.

    Args:
        frozen: the laid pieces, on the floor as it is now.
        sides: that the cuts are measured to now.
        walls: the floor wall to wall, as measured now.
        gap: (least, most) mm.
        step: mm, what lengths are printed to: what is out by no more is not out.
    """
    found = []
    for piece in frozen:
        over = _over(piece, walls, step)
        if over is not None:
            found.append(over)
            continue
        for name, left in _gaps(piece, sides).items():
            least, most = left
            if least < gap[0] - step:
                found.append(Misfit(piece=piece.id, wall=name, over=0.0, gap=least))
            elif most > gap[1] + step:
                found.append(Misfit(piece=piece.id, wall=name, over=0.0, gap=most))
    return tuple(found)


def _over(piece: Piece, walls: Region, step: float) -> Misfit | None:
    """Returns by how much a piece stands out of the floor, and over which edge; None where it does not."""
    points = piece.rings[0]
    out = points[~is_inside(points, walls)]
    if len(out) == 0:
        return None
    edges = [
        (ring[n], ring[(n + 1) % len(ring)], name)
        for ring, names in zip(walls.rings, walls.edges, strict=True)
        for n, name in enumerate(names)
    ]
    starts, ends = np.array([edge[0] for edge in edges]), np.array([edge[1] for edge in edges])
    away = distance_to_segments(out, starts, ends)
    far = int(away.min(axis=1).argmax())
    over, wall = float(away[far].min()), edges[int(away[far].argmin())][2]
    return Misfit(piece=piece.id, wall=wall, over=over, gap=0.0) if over > step else None


def _gaps(piece: Piece, sides: Sequence[Side]) -> dict[str, tuple[float, float]]:
    """Returns the least and the most gap that a cut piece's sawn sides leave to the walls they were sawn to, mm."""
    straight = {side.name: side for side in sides if side.wall and not side.arc}
    found: dict[str, tuple[float, float]] = {}
    for ring, names in zip(piece.rings, piece.edges, strict=True):
        for n, name in enumerate(names):
            if name is None or name not in straight:
                continue
            sawn = ring[[n, (n + 1) % len(ring)]]
            away = offset_from_line(sawn, straight[name].start, straight[name].end)
            least, most = found.get(name, (math.inf, -math.inf))
            found[name] = min(least, float(away.min())), max(most, float(away.max()))
    return found
