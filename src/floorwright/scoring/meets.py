"""How what is scored meets the joints that are in the slab: which it misses, and where circles cross them."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely

from floorwright.geometry.region import Region
from floorwright.scoring.clip import chord_in, overlap, run_between
from floorwright.scoring.design import Circle, Frame, OldJoint, Point
from floorwright.scoring.lines import Part, ScoreLine
from floorwright.scoring.place import out_of_line
from floorwright.tolerance import ALONG, ONE_CUT


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """Where a circle crosses a joint that is there.

    Attributes:
        joint: its name.
        half: mm either side of where the joint passes the circle's centre; 0 where it only runs beside it.
        off: mm from the joint to the circle's centre.
        points: floor mm.
    """

    joint: str
    half: float
    off: float
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Missed:
    """A joint that no line of the pattern lies on all the way through the field.

    Attributes:
        joint: its name.
        off: mm to the nearest line that runs along it; None where none does.
        askew: mm that it strays over its length from the first line's direction, or from square to it, where that is
            too much for a line to lie on it; else 0.
        length: mm, its own.
    """

    joint: str
    off: float | None
    askew: float = 0.0
    length: float = 0.0


def crossings(circles: Sequence[Circle], joints: Sequence[OldJoint], frame: Frame) -> Iterator[Crossing]:
    for circle in circles:
        centre = frame.local(np.asarray(circle.centre))
        for joint in joints:
            run = run_between(*frame.local(np.asarray(joint.ends)))
            chord = chord_in(run, circle, frame)
            if chord is None or chord[1] < run.start or chord[0] > run.end:
                continue
            points = [frame.floor(run.point(at)) for at in chord if run.start - ONE_CUT <= at <= run.end + ONE_CUT]
            off = float(centre @ np.array([-math.sin(run.angle), math.cos(run.angle)])) - run.off
            yield Crossing(
                joint=joint.name,
                half=(chord[1] - chord[0]) / 2,
                off=abs(off),
                points=tuple((float(x), float(y)) for x, y in points),
            )


def missed_joints(
    joints: Sequence[OldJoint], lines: Sequence[ScoreLine], field: Region, frame: Frame
) -> Iterator[Missed]:
    """Joints that run through the field and of which less lies on lines than runs there."""
    area = shapely.Polygon(field.rings[0], field.rings[1:])
    parts = [part for line in lines for part in line.parts]
    for joint in joints:
        inside = shapely.intersection(shapely.LineString(joint.ends), area).length
        on = math.fsum(part.length for part in parts if part.there == joint.name)
        if inside - on > 2 * ONE_CUT:
            out = out_of_line(joint, frame)
            yield Missed(
                joint=joint.name,
                off=_nearest(joint, parts, frame) if on <= ONE_CUT else None,
                askew=out if out > ONE_CUT else 0.0,
                length=math.dist(*joint.ends),
            )


def _nearest(joint: OldJoint, parts: Sequence[Part], frame: Frame) -> float | None:
    """mm from a joint to the nearest line beside it that runs its way."""
    run = run_between(*frame.local(np.asarray(joint.ends)))
    off = []
    for part in parts:
        other = run_between(*frame.local(np.array([part.start, part.end])))
        same = abs(math.remainder(other.angle - run.angle, math.pi)) <= ALONG
        if same and overlap(replace(other, off=run.off, angle=run.angle), run) is not None:
            off.append(abs(other.off - run.off))
    return min(off, default=None)
