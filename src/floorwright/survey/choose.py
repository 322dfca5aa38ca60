"""The one shape of a room among those that its readings allow, or what keeps it from being told."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from floorwright.geometry.region import Points
from floorwright.survey.chi_square import CLEARLY
from floorwright.survey.long import walked_shapes
from floorwright.survey.observation import Observation
from floorwright.survey.outline import Outline
from floorwright.survey.start import Shape, built_shapes, settled_shapes
from floorwright.survey.take import Missing, missing_readings


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Choice:
    """What the readings make of the room.

    Attributes:
        shape: the best; None where there is none.
        starts: figures to start from when a reading is left out: the one that misfits least, and the shape's own.
        rivals: others that fit about as well.
        missing: what keeps the readings from fixing a shape.
    """

    shape: Shape | None = None
    starts: tuple[Points, ...] = ()
    rivals: tuple[Shape, ...] = ()
    missing: Missing = field(default_factory=Missing)


def choose_shape(points: Sequence[str], outline: Outline, observations: Sequence[Observation]) -> Choice:
    """Returns the shape of a room.

    A long outline is walked round. Any other, and one where that leads nowhere, is built up point by point: first to
    shapes whose every corner turns the way it is booked. Where the readings disagree on all of them, those
    with corners turned otherwise are tried too, and taken only where the readings agree on one: then the booking is
    what is wrong, and `Shape.misturned` says where.

    Args:
        points: all names, the outline's corners first.
        outline: as booked.
        observations: see `survey.observation`.
    """
    walked = walked_shapes(points, outline, observations)
    if walked:
        return _choice(walked)
    found = built_shapes(points, outline, observations, turned=True)
    if not found:
        missing = missing_readings(points, outline, observations)
        if missing.loose:
            return Choice(missing=missing)
        found = settled_shapes(points, outline, observations, turned=True)
    if not found or not found[0].is_acceptable:
        otherwise = built_shapes(points, outline, observations, turned=False)
        if not found and not otherwise:
            otherwise = settled_shapes(points, outline, observations, turned=False)
        if otherwise and (not found or (otherwise[0].is_acceptable and otherwise[0].adjustment.degrees_of_freedom > 0)):
            found = otherwise
    return _choice(found) if found else Choice()


def _choice(found: Sequence[Shape]) -> Choice:
    """The best of some shapes, with those about as good."""
    alike = _alike(found)
    first = min(found, key=lambda shape: shape.rank)
    starts = (first.built,) if first is alike[0] else (first.built, alike[0].built)
    return Choice(shape=alike[0], starts=starts, rivals=tuple(alike[1:]))


def _alike(found: Sequence[Shape]) -> list[Shape]:
    """Shapes that the readings do not tell from the best, those with most of their points in the room."""
    best = found[0].adjustment
    unrest = 1.0 if found[0].is_acceptable else best.variance_factor
    margin = best.sum_of_squares + CLEARLY * unrest
    alike = [shape for shape in found if shape.is_acceptable or shape.adjustment.sum_of_squares <= margin]
    fewest = min(shape.outside for shape in alike)
    return [shape for shape in alike if shape.outside == fewest]
