"""Aims that hold along an axis only: the places that they rule out, as strips across the repeat."""

import math
from collections.abc import Iterator, Sequence

import numpy as np
import shapely

from floorwright.layout.aims import BALANCED_CUTS, FULL_TILE, JOINT_ON, NO_THIN_TRIM, TILE_ON, Aim
from floorwright.layout.axis import Axis, Face, axes_of, base_of, wall_faces
from floorwright.layout.clip import turn
from floorwright.layout.floor_lines import runs_along
from floorwright.layout.ground import Ground
from floorwright.layout.positions import BALANCED, positions_of
from floorwright.layout.score import Floor
from floorwright.layout.shapes import Shapes, shapes_of
from floorwright.tolerance import LEAST_TRIM, RANK_STEP, STRIP

Span = tuple[float, float]
"""From and to, mm: where a tile may begin along an axis."""


def ruled_out(floor: Floor, ground: Ground, aim: Aim) -> Shapes | None:
    """Returns the places that an aim rules out, or None if it rules out none: it says nothing along either axis."""
    polygons = []
    for axis in axes_of(ground.cell, ground.angle):
        faces = wall_faces(floor.sides, axis)
        if aim.name == NO_THIN_TRIM:
            out = list(_trims(faces, axis))
        else:
            kept = sorted((low % axis.pitch, half) for low, half in _kept(floor, axis, faces, aim))
            out = _between(kept, axis.pitch)
        polygons += [strip for span in out for strip in _strips(ground, axis, span)]
    if not polygons:
        return None
    return shapes_of(np.array(polygons, dtype=object), np.zeros(len(polygons), dtype=np.intp), 1)


def _kept(floor: Floor, axis: Axis, faces: tuple[Face, ...], aim: Aim) -> Iterator[tuple[float, float]]:
    """Yields where a tile may begin, mm along the axis, and how far to either side of that."""
    half = max(aim.within, RANK_STEP)
    if aim.name in {JOINT_ON, TILE_ON}:
        line = next((line for line in floor.lines if line.name == aim.on), None)
        if line is None or not runs_along(line, axis):
            return
        at = float(line.point @ axis.direction) + (axis.joint / 2 if aim.name == JOINT_ON else -axis.size / 2)
        yield from ((at - phase, half) for phase in axis.phases)
    elif aim.name == FULL_TILE:
        for face in faces:
            if face.name in aim.walls:
                yield float(base_of(face.sign, face.near + face.rise - axis.size, axis.size)), half
    elif aim.name == BALANCED_CUTS:
        chosen = tuple(face for face in faces if face.name in aim.walls) if aim.walls else faces
        for position in positions_of(chosen):
            if position.name == BALANCED:
                lows = position.lows(axis, 0.0, np.array([axis.joint]))
                yield from ((float(low[0]), half / 2) for low in lows)


def _between(kept: Sequence[tuple[float, float]], pitch: float) -> list[Span]:
    """Returns the spans between those that are kept, over one pitch."""
    found = []
    for n, (low, half) in enumerate(kept):
        after, beyond = kept[(n + 1) % len(kept)]
        end = after - beyond + (pitch if n + 1 == len(kept) else 0.0)
        if end > low + half:
            found.append((low + half, end))
    return found


def _trims(faces: tuple[Face, ...], axis: Axis) -> Iterator[Span]:
    """Yields where a tile may not begin: a strip too thin to saw would come off at one end of a wall."""
    for face in faces:
        for reach in {face.near, face.near + face.rise}:
            for phase in axis.phases:
                lows = [
                    float(base_of(face.sign, reach - axis.size + off, axis.size)) - phase for off in (STRIP, LEAST_TRIM)
                ]
                yield min(lows), max(lows) - RANK_STEP


def _strips(ground: Ground, axis: Axis, span: Span) -> Iterator[shapely.Polygon]:
    """Yields the strips of places at which a tile begins in a span of an axis, or whole pitches from it."""
    along = axis.direction @ turn(ground.angle)
    aside = np.array([-along[1], along[0]])
    rim = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]]) @ ground.cell.repeat
    zero = float(np.array(ground.centre) @ axis.direction) + axis.joint / 2
    low, high = float((rim @ aside).min()) - RANK_STEP, float((rim @ aside).max()) + RANK_STEP
    begin, end = span[0] - zero, span[1] - zero
    first = math.floor(((rim @ along).min() - end) / axis.pitch)
    for lap in range(first, math.ceil(((rim @ along).max() - begin) / axis.pitch) + 1):
        ends = [(begin, low), (end, low), (end, high), (begin, high)]
        yield shapely.Polygon([(at + lap * axis.pitch) * along + square * aside for at, square in ends])
