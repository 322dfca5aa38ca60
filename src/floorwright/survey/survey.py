"""From booked readings to a room: the one call that the rest of the program makes."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from floorwright.findings import Finding, Severity, has_error
from floorwright.geometry.measure import distance, interior_angles
from floorwright.geometry.region import Points
from floorwright.plan.room import Corner, Room, Wall
from floorwright.survey import remarks
from floorwright.survey.accuracy import READING
from floorwright.survey.adjustment import Adjustment, Datum, Residual
from floorwright.survey.arcs import BookedArc, WallArc, fit_arcs
from floorwright.survey.booked import booking_findings
from floorwright.survey.choose import Choice, choose_shape
from floorwright.survey.closure import Loop, loop_finding, loop_of
from floorwright.survey.coordinates import (
    READ,
    choose_by_coordinates,
    has_coordinates,
    in_the_rooms_frame,
    without_coordinates,
)
from floorwright.survey.datum import carried_over, on_first_wall
from floorwright.survey.network import derivatives, names_of, network
from floorwright.survey.observation import Angle, Distance, Observation, Square
from floorwright.survey.outline import Booked, Outline, fits, outline_of, runs_of
from floorwright.survey.solve import adjust
from floorwright.survey.start import APART, first_wall
from floorwright.survey.straightness import Straightness, straightness, straightness_findings
from floorwright.survey.suspect import Explanation, Suspicion, suspicion, with_recognised
from floorwright.survey.take import Reading, checking_reading, pairs_to_measure, sharpening_reading, telling_reading
from floorwright.units import LengthStyle

LOOKED_AT: Final = 40
"""Points between which a further distance is looked for; a traced curve has many more, and all alike."""

Direction = Literal["anticlockwise", "clockwise"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SurveyResult:
    """A surveyed room, or several out of one network of readings.

    Attributes:
        name: of it all.
        adjustment: of all readings, suspects marked; None where they fix no room.
        rooms: each with its corners, the first as booked, and its walls; none without an adjustment.
        explanations: readings that may be wrong, with what would explain them, the best first.
        straightness: of each wall that was read from a string between its ends.
        to_measure: distances that the findings ask for, the most needed first.
        findings: in the order: booking, shape, readings, assumptions, arcs, corners.
        arcs: walls that are arcs.
        loops: rooms of which every wall and the corner angles were read, as they close before the adjustment.
    """

    name: str
    adjustment: Adjustment | None
    rooms: tuple[Room, ...]
    explanations: tuple[Explanation, ...]
    straightness: tuple[Straightness, ...]
    to_measure: tuple[Reading, ...]
    findings: tuple[Finding, ...]
    arcs: tuple[WallArc, ...] = ()
    loops: tuple[Loop, ...] = ()

    @property
    def corners(self) -> tuple[Corner, ...]:
        """The corners of every room, room by room; one that rooms share comes with its angle in each."""
        return tuple(corner for room in self.rooms for corner in room.corners)

    @property
    def walls(self) -> tuple[Wall, ...]:
        """The walls of every room, room by room; wall i of a room runs from its corner i to the next."""
        return tuple(wall for room in self.rooms for wall in room.walls)

    @property
    def area(self) -> float:
        """Of all rooms, wall to wall, mm2, arcs as they are."""
        return sum(room.area for room in self.rooms)

    @property
    def perimeter(self) -> float:
        """Round all rooms, mm, along arcs."""
        return sum(room.perimeter for room in self.rooms)

    @property
    def residuals(self) -> tuple[Residual, ...]:
        """One per reading or assumption, in the order booked; none without an adjustment."""
        return self.adjustment.residuals if self.adjustment else ()


def survey_room(
    *,
    name: str,
    outline: Sequence[str],
    direction: Direction,
    inward: Sequence[str],
    observations: Sequence[Observation],
    wall_names: Mapping[str, tuple[str, str]],
    hidden: Collection[str],
    datum: Datum | None,
    style: LengthStyle,
    arcs: Sequence[BookedArc] = (),
    room: str = "room",
    more: Sequence[Booked] = (),
) -> SurveyResult:
    """Returns a room from what was booked of it; never raises for what a person may have booked.

    Frame: the first corner of the outline is (0, 0) and the wall from it to the next corner anticlockwise runs along
    x, the room on its left. Of an outline booked clockwise that is the wall to the corner booked last.

    Args:
        name: of it all.
        outline: corner names in the order walked.
        direction: in which it was walked, seen from above.
        inward: corners that turn into the room.
        observations: in the order booked. Points off the outline may be named: they lie in the room.
        wall_names: name -> its two corners, in either order; walls not named here are `start-end`.
        hidden: names of walls that nobody sees.
        datum: None for the first wall. Another `first wall` moves the frame to its points; `inner constraints` share
            the uncertainty out among all points.
        style: how lengths print in findings.
        arcs: walls that are arcs, at most one for a wall of the outline.
        room: name of the room that the outline is of.
        more: further rooms that the observations are of; rooms may share corners.
    """
    booked = tuple(booking_findings(outline, inward, observations, wall_names, hidden, datum, more))
    if has_error(booked):
        return _nothing(name, booked)
    walked = outline_of(
        outline,
        anticlockwise=direction == "anticlockwise",
        inward=inward,
        observations=observations,
        name=room,
        more=more,
    )
    by_coordinates = has_coordinates(observations)
    if by_coordinates and not without_coordinates(walked.corners, observations):
        observations = in_the_rooms_frame(walked, observations)
    others = sorted({point for o in observations for point in names_of(o)} - set(walked.every))
    points = (*walked.every, *others)
    choice, kept, aside = _without_loose(points, walked, observations)
    if choice.shape is None:
        trouble = remarks.too_few(choice.missing, walked.every) if choice.missing.loose else remarks.no_shape()
        return _nothing(name, (*booked, *aside, trouble), choice.missing.readings)

    names = choice.shape.adjustment.points
    turned_otherwise = not fits(walked, names, choice.shape.adjustment.xy)
    worst = max((o.sd for o in kept if isinstance(o, Distance)), default=READING)
    pairs = pairs_to_measure(names, walked, kept, choice.shape.adjustment.xy, most=LOOKED_AT)
    figures = [shape.adjustment.xy for shape in (choice.shape, *choice.rivals)]
    shape_tell = telling_reading(figures, pairs, names, worst, "tells which shape") if choice.rivals else None
    suspected = suspicion(
        choice.shape.adjustment,
        kept,
        READ if by_coordinates else first_wall(walked),
        starts=choice.starts,
        fits=lambda xy: turned_otherwise or fits(walked, names, xy),
    )
    suspected = with_recognised(suspected, kept, style)
    adjustment = _marked(_on_datum(choice.shape.adjustment, kept, datum), suspected)
    tell = _between_suspects(suspected, pairs, names, worst)
    check = checking_reading(adjustment, kept, pairs, worst)
    sharper = None if choice.rivals else sharpening_reading(adjustment, walked.every, kept, pairs)
    rounded, of_arcs = fit_arcs(arcs, adjustment, style)
    rooms = tuple(_room(one, adjustment, wall_names, hidden, rounded) for one in walked.rooms)
    bowed = straightness([run for one in walked.rooms for run in runs_of(one.corners, kept)], adjustment)
    movers = _movers(figures, names, worst)
    loops = tuple(loop for one in walked.rooms if (loop := loop_of(one, kept)) is not None)
    wrong = tuple(remarks.suspects(suspected, kept, tell, style, corners=len(walked.every)))
    findings = (
        *booked,
        *aside,
        *([remarks.two_shapes(shape_tell, movers, walked, style)] if choice.rivals and movers else []),
        *remarks.misturned(choice.shape.misturned, walked),
        *(loop_finding(loop, style) for loop in loops),
        *wrong,
        *remarks.checks(adjustment, check),
        *([remarks.sharper(sharper, style)] if sharper else []),
        *remarks.assumptions(kept, style),
        *straightness_findings(bowed, style),
        *of_arcs,
        # Corners that a slip has turned are no news of the room.
        *(() if has_error(wrong) else _of_corners(rooms, walked, adjustment, _worst(kept, adjustment), style)),
    )
    return SurveyResult(
        name=name,
        adjustment=adjustment,
        rooms=rooms,
        explanations=suspected.explanations,
        straightness=bowed,
        to_measure=_each_once((shape_tell, tell, check), sharper),
        findings=findings,
        arcs=rounded,
        loops=loops,
    )


def _each_once(readings: Sequence[Reading | None], sharper: Reading | None) -> tuple[Reading, ...]:
    """The readings there are, each for the first reason that asks for it, with what the sharper one gains."""
    kept: dict[str, Reading] = {}
    for reading in readings:
        if reading is not None:
            kept.setdefault(reading.name, reading)
    if sharper is not None:
        kept[sharper.name] = replace(
            kept.get(sharper.name, sharper),
            corner=sharper.corner,
            sd_before=sharper.sd_before,
            sd_after=sharper.sd_after,
        )
    return tuple(kept.values())


def _nothing(name: str, findings: tuple[Finding, ...], to_measure: tuple[Reading, ...] = ()) -> SurveyResult:
    return SurveyResult(
        name=name,
        adjustment=None,
        rooms=(),
        explanations=(),
        straightness=(),
        to_measure=to_measure,
        findings=findings,
    )


def _without_loose(
    points: Sequence[str], walked: Outline, observations: Sequence[Observation]
) -> tuple[Choice, tuple[Observation, ...], tuple[Finding, ...]]:
    """The choice of a shape; points off the outline that nothing fixes are left aside, and said so."""
    choose = choose_by_coordinates if has_coordinates(observations) else choose_shape
    choice = choose(points, walked, observations)
    loose = choice.missing.loose
    if not loose or any(name in walked.every for name in loose):
        return choice, tuple(observations), ()
    kept = tuple(o for o in observations if not set(names_of(o)) & set(loose))
    aside = replace(remarks.too_few(choice.missing, walked.every), severity=Severity.WARNING)
    return choose([name for name in points if name not in loose], walked, kept), kept, (aside,)


def _on_datum(adjustment: Adjustment, observations: Sequence[Observation], datum: Datum | None) -> Adjustment:
    """The adjustment on another datum than the first wall of the outline."""
    if datum is None or (datum.kind == "first wall" and not datum.points):
        return adjustment
    if has_coordinates(observations):
        return carried_over(adjustment, datum)
    start = adjustment.xy
    if datum.kind == "first wall":
        start = on_first_wall(start, *(adjustment.points.index(name) for name in datum.points))
    return adjust(adjustment.points, start, observations, datum)


def _marked(adjustment: Adjustment, suspected: Suspicion) -> Adjustment:
    """The adjustment with the suspects of another datum's marked (suspicion does not depend on the datum)."""
    marks = [residual.suspect for residual in suspected.adjustment.residuals]
    return replace(
        adjustment,
        residuals=tuple(replace(r, suspect=mark) for r, mark in zip(adjustment.residuals, marks, strict=True)),
        suspects=suspected.adjustment.suspects,
    )


def _between_suspects(
    suspected: Suspicion, pairs: Sequence[tuple[int, str, str]], names: Sequence[str], sd: float
) -> Reading | None:
    figures = [explanation.rest.xy for explanation in suspected.explanations]
    return telling_reading(figures, pairs, names, sd, "tells which is wrong") if len(figures) > 1 else None


def _worst(observations: Sequence[Observation], adjustment: Adjustment) -> float:
    """The largest standard deviation of the observations as a length, mm: an angle's over the longer of its arms."""
    place = dict(zip(adjustment.points, adjustment.xy, strict=True))
    sds = [READING]
    for o in observations:
        arms = [distance(place[o.at], place[end]) for end in (o.a, o.b)] if isinstance(o, Square | Angle) else [1.0]
        sds.append(o.sd * max(arms))
    return max(sds)


def _movers(figures: Sequence[Points], names: Sequence[str], sd: float) -> tuple[str, ...]:
    """Points that lie elsewhere in one of the figures than in the first."""
    moves = np.max([np.abs(figure - figures[0]).max(axis=1) for figure in figures], axis=0)
    return tuple(name for name, move in zip(names, moves, strict=True) if move > APART * sd)


def _corners(walked: Outline, adjustment: Adjustment) -> tuple[Corner, ...]:
    sds = np.sqrt(np.maximum(np.diag(adjustment.covariance), 0.0)).reshape(-1, 2)
    at = [adjustment.points.index(name) for name in walked.corners]
    turned = interior_angles(adjustment.xy[at])
    return tuple(
        Corner(name=name, x=float(x), y=float(y), sd_x=float(sd_x), sd_y=float(sd_y), angle=float(angle))
        for name, (x, y), (sd_x, sd_y), angle in zip(walked.corners, adjustment.xy[at], sds[at], turned, strict=True)
    )


def _room(
    walked: Outline,
    adjustment: Adjustment,
    wall_names: Mapping[str, tuple[str, str]],
    hidden: Collection[str],
    arcs: Sequence[WallArc],
) -> Room:
    walls = _walls(walked, wall_names, hidden, arcs)
    return Room(name=walked.name, corners=_corners(walked, adjustment), walls=walls)


def _of_corners(
    rooms: Sequence[Room], walked: Outline, adjustment: Adjustment, worst: float, style: LengthStyle
) -> tuple[Finding, ...]:
    """What there is to say of the corners, room by room; of one that rooms share nothing twice.

    Those at the end of an arc are no square ones that went wrong.
    """
    found: list[Finding] = []
    for room, one in zip(rooms, walked.rooms, strict=True):
        at_arcs = {f"corner {name}" for wall in room.walls if wall.bulge for name in (wall.start, wall.end)}
        found += [
            finding
            for finding in remarks.corners_of(room.corners, _angle_sds(one, adjustment), worst, style)
            if finding.code != "survey-out-of-square" or finding.place not in at_arcs
        ]
    return tuple(dict.fromkeys(found))


def _angle_sds(walked: Outline, adjustment: Adjustment) -> list[float]:
    """Standard deviation of the room's angle at each corner, radians, from the covariance of all three points."""
    angles = [
        Square(key=name, at=name, a=walked.neighbours(name)[1], b=walked.neighbours(name)[0], sd=1.0)
        for name in walked.corners
    ]
    rows = derivatives(network(adjustment.points, angles), adjustment.xy - adjustment.xy.mean(axis=0))
    return [float(value) for value in np.sqrt(np.einsum("ij,jk,ik->i", rows, adjustment.covariance, rows))]


def _walls(
    walked: Outline, wall_names: Mapping[str, tuple[str, str]], hidden: Collection[str], arcs: Sequence[WallArc]
) -> tuple[Wall, ...]:
    bulges = {frozenset((one.start, one.end)): one.arc.bulge for one in arcs}
    names = {frozenset(ends): name for name, ends in wall_names.items()}
    walls = []
    for start in walked.corners:
        end = walked.neighbours(start)[1]
        plain = (f"{start}-{end}", f"{end}-{start}")
        name = names.get(frozenset((start, end)), plain[0])
        is_hidden = bool({name, *plain} & set(hidden))
        bulge = bulges.get(frozenset((start, end)), 0.0)
        walls.append(Wall(name=name, start=start, end=end, hidden=is_hidden, bulge=bulge, room=walked.name))
    return tuple(walls)
