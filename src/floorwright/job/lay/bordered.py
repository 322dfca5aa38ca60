"""The border of free width: which width lets the field finish, chosen by name or as recommended."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, radians
from typing import TYPE_CHECKING, Final

import numpy as np

from floorwright.control.words import fine_bare
from floorwright.findings import Finding, Severity
from floorwright.job.inputs import covers, patterned
from floorwright.job.lay.border_steps import by_steps
from floorwright.layout.border import edges_of, strips_of
from floorwright.layout.finish import ALIKE, POINTS, Finish, Finishes, Span, finishes
from floorwright.tolerance import COINCIDENT

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from floorwright.control.control import Control
    from floorwright.geometry.region import Points
    from floorwright.job import model
    from floorwright.job.lay.border_steps import BySteps
    from floorwright.job.model import Job
    from floorwright.layout.border import Strip
    from floorwright.plan.room import Room
    from floorwright.units import LengthStyle

FOUR: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Frame:
    """The axes of a rectangular field.

    Attributes:
        across, along: (2,) unit vectors, floor frame.
        spans: between the borders on each.
    """

    across: Points
    along: Points
    spans: tuple[Span, Span]

    def on_floor(self, x: float, y: float) -> tuple[float, float]:
        """Returns a point of the frame on the floor, mm."""
        at = x * self.across + y * self.along
        return float(at[0]), float(at[1])

    def inside(self, choice: Finish) -> tuple[tuple[float, float], ...]:
        """Returns the corners of the inside line of the border of a choice, anticlockwise, floor mm."""
        (x0, x1), (y0, y1) = (
            (span.low + choice.widths[span.walls[0]], span.high - choice.widths[span.walls[1]]) for span in self.spans
        )
        return tuple(self.on_floor(x, y) for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bordered:
    """What was found for a border of free width.

    Attributes:
        zone: name of the border.
        field: name of the field inside it.
        frame: the axes of the field; None where it is no rectangle.
        found: what there is to choose from; None where the field has nothing to finish on.
        chosen: the choice that is laid; None without one.
        stepped: mm by wall, where the width was found by steps instead.
        positions: of the field by name, floor mm.
        findings: what there is to say of it.
    """

    zone: str
    field: str
    frame: Frame | None
    found: Finishes | None
    chosen: Finish | None
    stepped: Mapping[str, float]
    positions: tuple[tuple[str, tuple[float, float]], ...]
    findings: tuple[Finding, ...]

    @property
    def widths(self) -> Mapping[str, Mapping[str, float]]:
        """Mm by wall, by zone."""
        widths = self.stepped if self.chosen is None else self.chosen.widths
        return {self.zone: widths} if widths else {}


def bordered(job: Job, room: Room, lines: Control) -> Bordered | None:
    """Returns the widths for the border of free width; None where the job has none, or no field.

    Raises:
        ZoneMisfitError: the border does not fit even at its least.
    """
    zone = next((zone for zone in job.zones if zone.kind == "border" and zone.width_least is not None), None)
    field = next((zone for zone in job.zones if zone.kind == "field"), None)
    if zone is None or field is None or zone.width_least is None or zone.width_most is None:
        return None
    first_line = next(line.angle for line in lines.lines if line.name == "first line")
    walls = covers.border_walls(zone, room)
    least = covers.border_of(job, zone, room, dict.fromkeys(walls, zone.width_least))
    strips = strips_of(zone.name, room, least, edges_of(room, zone.gap), first_line, job.style)
    frame = _frame(room, strips, zone.width_least, lines)
    found = None
    if frame is not None:
        found = finishes(
            spans=frame.spans,
            make_cell=patterned.cell_maker(job, field),
            angle=first_line + radians(patterned.turn(field)) - atan2(frame.across[1], frame.across[0]),
            joint=field.joint,
            joint_step=field.joint_step,
            joint_between=least.joint_inside,
            least=zone.width_least,
            most=zone.width_most,
            round_to=job.style.mm(1) * (2 if job.style.system == "metric" and job.style.step < 1 else 1),
        )
    choices = found.choices if found is not None else ()
    chosen = next((choice for choice in choices if choice.name == zone.option), choices[0] if choices else None)
    stepped = by_steps(job, room, lines, zone, field) if chosen is None else None
    return Bordered(
        zone=zone.name,
        field=field.name,
        frame=frame,
        found=found,
        chosen=chosen,
        stepped={} if stepped is None else dict.fromkeys(walls, stepped.width),
        positions=() if chosen is None or frame is None or found is None else _positions(chosen, frame, found.what),
        findings=tuple(_findings(job, zone, frame, found, chosen, stepped)),
    )


def _frame(room: Room, strips: tuple[Strip, ...], width: float, lines: Control) -> Frame | None:
    """The axes of the field and what lies between its borders; None where it is no rectangle within four of them."""
    if len(room.walls) != FOUR or len(strips) != FOUR:
        return None
    normals = np.array([strip.inner.normal for strip in strips])
    facing = [abs(float(normals[n] @ normals[n + 2]) + 1.0) < COINCIDENT for n in (0, 1)]
    if not all(facing) or abs(float(normals[0] @ normals[1])) > COINCIDENT:
        return None
    # The strip whose inside faces most nearly along the floor's x begins the first axis, the next round it the second.
    west = int(np.round(normals[:, 0], 6).argmax())
    south = max((west + 1) % FOUR, (west + 3) % FOUR, key=lambda n: round(float(normals[n][1]), 6))
    across, along = normals[west], normals[south]
    spans = tuple(_span(strips, n, width, normals, room, lines) for n in (west, south))
    return Frame(across=across, along=along, spans=(spans[0], spans[1]))


def _span(strips: tuple[Strip, ...], n: int, width: float, normals: Points, room: Room, lines: Control) -> Span:
    start, end = strips[n], strips[(n + 2) % FOUR]
    axis = normals[n]
    own = round(float(np.array(lines.centre) @ axis), 3)
    centres = {}
    for opening in room.openings:
        first, last = room.ends(opening.wall)
        along = (last - first) / np.hypot(*(last - first))
        if abs(float(along @ axis)) > 1 / 2:
            middle = first + along * (opening.start + opening.width / 2)
            centres[f"the axis of {opening.name}"] = float(middle @ axis)
    if all(abs(at - own) > ALIKE for at in centres.values()):
        centres["the centre"] = own
    return Span(
        walls=(start.wall, end.wall),
        low=start.inner.reach - width,
        high=-(end.inner.reach - width),
        centres=tuple(centres.items()),
    )


def _positions(chosen: Finish, frame: Frame, what: str) -> tuple[tuple[str, tuple[float, float]], ...]:
    where = "at the border" if chosen.finishes else "nearest to the border"
    names = [f"{what} {where}"]
    if len(chosen.positions) > 1:
        names = [f"{what} {where}, joint on the middle", f"{what} {where}, tile on the middle"]
    return tuple((name, frame.on_floor(x, y)) for name, (x, y) in zip(names, chosen.positions, strict=True))


def width_text(choice: Finish, style: LengthStyle) -> str:
    """Returns the widths of a choice: `W and E 222.5, S and N 265`; one figure where all are alike."""
    if choice.equal:
        return style.text(next(iter(choice.widths.values())), feet=False)
    walls: dict[str, list[str]] = {}
    for wall, width in choice.widths.items():
        walls.setdefault(style.text(width, feet=False), []).append(wall)
    return ", ".join(f"{' and '.join(names)} {width}" for width, names in walls.items())


def miss_text(choice: Finish, what: str, style: LengthStyle) -> str:
    """Returns by how much a border misses what the field would finish on, empty where it does not."""
    said: dict[str, list[str]] = {}
    for wall, miss in choice.miss.items():
        if abs(miss) > ALIKE:
            by = style.text(abs(miss), feet=False)
            said.setdefault(f"cuts {by} into the {what}" if miss > 0 else f"stops {by} short of the {what}", []).append(
                wall
            )
    return "; ".join(f"{how} at {' and '.join(walls)}" for how, walls in said.items())


def _findings(
    job: Job,
    zone: model.Zone,
    frame: Frame | None,
    found: Finishes | None,
    chosen: Finish | None,
    stepped: BySteps | None,
) -> Iterator[Finding]:
    style, place = job.style, f"zone {zone.name}"
    assert zone.width_least is not None
    assert zone.width_most is not None
    allowed = f"{style.entered_text(zone.width_least)} to {style.entered_text(zone.width_most, unit=True)}"
    if found is None or chosen is None or frame is None:
        why = (
            "the field inside it is no rectangle between four borders"
            if frame is None
            else "its pattern has no line on which every course could end alike"
            if found is None
            else "no width that is allowed lets the field finish"
        )
        if stepped is not None:
            yield _by_steps(place, why, allowed, stepped, style)
            return
        yield Finding(
            code="layout-border-no-finish",
            severity=Severity.WARNING,
            place=place,
            found=f"{why}; laid {style.entered_text(zone.width_most, unit=True)} wide, the most allowed",
            expected=f"a width of {allowed} that lets the field finish on whole points or tiles",
            remedy="give the border a `width`, or allow others",
            source="geometry",
        )
        return
    if zone.option and zone.option not in [choice.name for choice in found.choices]:
        yield Finding(
            code="layout-unknown-option",
            severity=Severity.ERROR,
            place=place,
            found=f"no border is called {zone.option!r}",
            expected="one of: " + "; ".join(choice.name for choice in found.choices),
            remedy="copy a name from the choices, or leave it out for the recommended one",
            source="yours",
        )
    if not any(choice.equal and choice.finishes for choice in found.choices):
        yield _none_equal(place, frame, found, style)
    wide = width_text(chosen, style)
    told = [f"{chosen.name}: {wide} wide", miss_text(chosen, found.what, style)]
    if chosen.moved:
        told.append(f"the axis moved {style.text(abs(chosen.moved), feet=False)}")
    yield Finding(
        code="layout-border-width",
        severity=Severity.NOTE,
        place=place,
        found="; ".join(one for one in told if one),
        expected="of " + "; ".join(f"{choice.name}: {width_text(choice, style)}" for choice in found.choices),
        remedy="name another as the `option` of this zone" if len(found.choices) > 1 else "",
        source="yours" if zone.option == chosen.name else "our default",
    )


def _by_steps(place: str, why: str, allowed: str, stepped: BySteps, style: LengthStyle) -> Finding:
    def text(mm: float) -> str:
        return style.text(mm, unit=True, feet=False)

    return Finding(
        code="layout-border-by-steps",
        severity=Severity.NOTE,
        place=place,
        found=f"{why}; laid {text(stepped.width)} wide, where the narrowest piece of the field is widest, "
        f"{text(stepped.worst)}: best found of {stepped.tried} widths, {text(stepped.step)} apart",
        expected=f"a width of {allowed}",
        remedy="give the border a `width` of your own, or narrow the range to try finer steps",
        source="our default",
    )


def _none_equal(place: str, frame: Frame, found: Finishes, style: LengthStyle) -> Finding:
    """That no border of one width lets the field finish all round, with the joints tried."""

    def text(mm: float) -> str:
        return style.text(mm, feet=False)

    own = [
        f"{' and '.join(span.walls)} want {' or '.join(text(width) for width in widths)}"
        for span, widths in zip(frame.spans, found.alike, strict=True)
    ]
    tried = ", ".join(
        f"{fine_bare(apart, style)} apart with joints of {style.entered_text(joint, unit=True)}"
        for joint, apart in found.apart.items()
    )
    every = f"{found.what} every {text(found.spacing[0])}"
    if found.what == POINTS:
        every += f" along the walls (half {fine_bare(found.step[0], style)})"
    return Finding(
        code="layout-border-none-equal",
        severity=Severity.NOTE,
        place=place,
        found=f"no equal border lets the field finish on {found.what} all round: {'; '.join(own)} ({every})",
        expected=f"one width for both; tried: {tried}",
        remedy="choose: finish all round with two widths, or an equal border that misses both a little",
        source="geometry",
    )
