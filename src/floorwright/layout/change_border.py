"""The least change of a border's width, on every side alike, that does away with cuts of the field inside it."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from floorwright.layout.arcs import Arc, arc_of, least_shift, shared
from floorwright.layout.axis import Axis, Face, axes_of, region_faces
from floorwright.layout.change import LIMIT, NO_CUTS, Change, is_full
from floorwright.layout.layout import Layout
from floorwright.layout.option import Option
from floorwright.layout.options import breaks_limit
from floorwright.layout.rectilinear import is_rectilinear
from floorwright.tolerance import TOUCH


@dataclass(frozen=True, slots=True, kw_only=True)
class FreeBorder:
    """A border that may be wider or narrower, on every side alike.

    Attributes:
        zone: its name.
        width: mm, as asked for.
        least, most: mm, between which it may be.
    """

    zone: str
    width: float
    least: float
    most: float


def by_border(layout: Layout, border: FreeBorder, lay: Callable[[float], Layout | None]) -> Iterator[Change]:
    """Yields the least changes of a border's width at which no cut of the field is left along an axis, or every piece
    keeps the limit.

    Only a field is looked at that the border goes round and whose edges run true to its rows: there it is exact.

    Args:
        layout: of the field, as the job is.
        border: that goes round it.
        lay: lays the field out inside a border of another width, mm.
    """
    if not is_rectilinear(layout.region, layout.cell, layout.chosen.placement.angle):
        return
    wanted: list[tuple[str, float, Callable[[Option], bool]]] = []
    for axis in axes_of(layout.cell, layout.chosen.placement.angle):
        names = [face.name for face in region_faces(layout.region, axis)]
        wanted += _wanted(layout, border, axis, axis.size, f"{NO_CUTS} {axis.name}", _is_full_at(names))
    if layout.limit > 0 and breaks_limit(layout.options[0], layout.limit):
        for axis in axes_of(layout.cell, layout.chosen.placement.angle):
            wanted += _wanted(
                layout, border, axis, layout.limit, LIMIT, lambda one: not breaks_limit(one, layout.limit)
            )
    told: set[str] = set()
    for aim, width, does_it in sorted(wanted, key=lambda one: (one[0], abs(one[1] - border.width))):
        changed = lay(width) if aim not in told else None
        laid = [] if changed is None else [one for one in changed.options if not one.refused and does_it(one)]
        good = laid if aim == LIMIT else [one for one in laid if one.cut < layout.chosen.cut]
        if good:
            told.add(aim)
            best = min(good, key=lambda option: (breaks_limit(option, layout.limit), option.cut))
            yield Change(aim=aim, border=(border.zone, width), before=layout.chosen, option=best, exact=True)


def _is_full_at(names: Sequence[str]) -> Callable[[Option], bool]:
    return lambda option: is_full(option, names)


def _wanted(
    layout: Layout, border: FreeBorder, axis: Axis, least: float, aim: str, does_it: Callable[[Option], bool]
) -> list[tuple[str, float, Callable[[Option], bool]]]:
    width = _width(layout, border, axis, least)
    return [] if width is None or abs(width - border.width) < TOUCH else [(aim, width, does_it)]


def _width(layout: Layout, border: FreeBorder, axis: Axis, least: float) -> float | None:
    """Returns the width nearest to the border's at which a position leaves no cut on this axis thinner than `least`."""
    faces = region_faces(layout.region, axis)
    if any(not face.name.startswith(f"{border.zone} at ") for face in faces):
        return None
    far, near = ([face for face in faces if face.sign == sign] for sign in (1, -1))

    def allowed(some: Sequence[Face]) -> list[Arc]:
        return shared([arc_of(face, axis, least, 0.0) for face in some], axis.pitch)

    # A border narrower by d lets both ends of the field go d outward: the far one goes 2 d from the near one.
    narrower = least_shift(
        allowed(far), allowed(near), axis.pitch, 2 * (border.width - border.most), 2 * (border.width - border.least)
    )
    return None if narrower is None else border.width - narrower / 2
