"""Of rooms that run through, what each one makes of the pattern, and which of them decide the worst piece."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from floorwright.geometry.region import Points, Region
from floorwright.layout.axis import Axis
from floorwright.layout.option import Proof
from floorwright.layout.piece import Piece
from floorwright.plan.room import Room
from floorwright.tolerance import RANK_STEP

SEVERAL: Final = 2
"""Rooms from which on it is worth a word which of them it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomPart:
    """The pattern in one room of several.

    Attributes:
        room: its name.
        area: of the floor covered in it, joints and all, mm2; a doorway counts to the room that most of it is nearest.
        full, cut: pieces of which the largest share lies in it.
        worst: mm, the narrowest of them.
        worst_piece: id of that piece; empty where none is cut.
        decides: whether no piece of the whole floor is narrower.
    """

    room: str
    area: float
    full: int
    cut: int
    worst: float
    worst_piece: str
    decides: bool


def room_parts(
    rooms: Sequence[Room], region: Region, pieces: Sequence[Piece], full_side: float
) -> tuple[RoomPart, ...]:
    """Returns the pattern room by room, in the order of the rooms it reaches; nothing for a room by itself.

    Args:
        rooms: those that it runs through.
        region: what is covered.
        pieces: all of them.
        full_side: mm, the narrowest side of a full piece.
    """
    if len(rooms) < SEVERAL:
        return ()
    owner = owners(rooms, [piece.rings for piece in pieces])
    least = min((piece.narrowest for piece in pieces if not piece.full), default=full_side)
    covered = shapely.Polygon(region.rings[0], region.rings[1:])
    left: BaseGeometry = covered
    parts = []
    for n, one in enumerate(rooms):
        own = [piece for piece, at in zip(pieces, owner, strict=True) if at == n]
        cut = [piece for piece in own if not piece.full]
        worst = min(cut, key=lambda piece: (round(piece.narrowest / RANK_STEP), piece.index), default=None)
        floor = shapely.Polygon(one.outline)
        left = shapely.difference(left, floor)
        parts.append(
            RoomPart(
                room=one.name,
                area=float(shapely.intersection(covered, floor).area),
                full=len(own) - len(cut),
                cut=len(cut),
                worst=full_side if worst is None else worst.narrowest,
                worst_piece="" if worst is None else worst.id,
                decides=worst is not None and worst.narrowest <= least + RANK_STEP,
            )
        )
    for doorway in shapely.get_parts(left):
        n = _nearest(rooms, doorway)
        parts[n] = replace(parts[n], area=parts[n].area + float(doorway.area))
    return tuple(part for part in parts if part.full or part.cut)


def owners(rooms: Sequence[Room], pieces: Sequence[Sequence[Points]]) -> list[int]:
    """Returns for each piece the room that the largest share of it lies in; in a doorway the nearest.

    Args:
        rooms: each by itself.
        pieces: the rings of each, the outer one first.
    """
    floors = np.array([shapely.Polygon(one.outline) for one in rooms])
    shapes = np.array([shapely.Polygon(rings[0]) for rings in pieces], dtype=object)
    shared = shapely.area(shapely.intersection(shapes[:, None], floors[None, :]))
    return [
        int(np.argmax(row)) if row.max() > 0.0 else _nearest(rooms, shape)
        for row, shape in zip(np.round(shared), shapes, strict=True)
    ]


def _nearest(rooms: Sequence[Room], shape: BaseGeometry) -> int:
    away = [shapely.distance(shape.centroid, shapely.Polygon(one.outline)) for one in rooms]
    return int(np.argmin(np.round(away, 3)))


def room_centres(rooms: Sequence[Room], axis: Axis) -> tuple[tuple[str, float], ...]:
    """Returns half way across each of several rooms, from side to side along an axis, mm, by the room's name."""
    spans = ((one.name, one.outline @ axis.direction) for one in rooms)
    return tuple((name, float(reach.min() + reach.max()) / 2) for name, reach in spans)


def of_walls(room: Room, rooms: Sequence[Room], walls: Iterable[str]) -> tuple[str, ...]:
    """Returns those of several rooms that some walls belong to, in the order of the rooms; nothing for a room by
    itself."""
    if len(rooms) < SEVERAL:
        return ()
    own = {wall.name: wall.room for wall in room.known_walls}
    found = {own.get(wall, "") for wall in walls}
    return tuple(one.name for one in rooms if one.name in found)


def decided_by(room: Room, rooms: Sequence[Room], proofs: Iterable[Proof]) -> tuple[Proof, ...]:
    """Returns proofs with the rooms whose walls decide each."""
    return tuple(replace(proof, decides=of_walls(room, rooms, proof.walls)) for proof in proofs)
