"""What is wrong with a booking before anything is computed: names, corners and walls that do not go together."""

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Final

from floorwright.errors import FloorwrightValueError
from floorwright.findings import Finding, Severity
from floorwright.survey.adjustment import Datum
from floorwright.survey.network import names_of, network
from floorwright.survey.observation import Observation
from floorwright.survey.outline import Booked

FEWEST: Final = 3
"""Corners of a room."""


def booking_findings(
    outline: Sequence[str],
    inward: Sequence[str],
    observations: Sequence[Observation],
    wall_names: Mapping[str, tuple[str, str]],
    hidden: Collection[str],
    datum: Datum | None,
    more: Sequence[Booked] = (),
) -> Iterator[Finding]:
    """Yields what is wrong with a booking; args as for `survey.survey.survey_room`. No error: it can be solved."""
    yield from _outline(outline, inward)
    for room in more:
        yield from _outline(room.outline, room.inward)
    outlines = [outline, *(room.outline for room in more)]
    yield from _walls(outlines, wall_names, hidden)
    corners = {name for walked in outlines for name in walked}
    points = sorted({*corners, *(point for o in observations for point in names_of(o))})
    for observation in observations:
        try:
            network(points, [observation])
        except FloorwrightValueError as fault:
            yield _error("survey-reading", observation.key, str(fault), remedy="put the reading right or leave it out")
    if datum is not None:
        if datum.kind == "fixed points":
            yield _error(
                "survey-datum", "survey", "a datum of fixed points without coordinates for them",
                remedy="use the first wall or inner constraints",
            )  # fmt: skip
        for point in datum.points:
            if point not in points:
                yield _error("survey-datum", f"point {point}", f"the datum names {point}, which nothing was read to")


def _outline(outline: Sequence[str], inward: Sequence[str]) -> Iterator[Finding]:
    if len(outline) < FEWEST:
        yield _error(
            "survey-outline", "survey", f"an outline of {len(outline)} corners", "three corners or more",
            "name the corners in the order in which they come round the room",
        )  # fmt: skip
    for name, times in Counter(outline).items():
        if times > 1:
            yield _error(
                "survey-outline", f"corner {name}", f"{name} comes {times} times in the outline", "each corner once",
                "give each corner a name of its own; the first is not repeated at the end",
            )  # fmt: skip
    for name in inward:
        if name not in outline:
            yield _error(
                "survey-inward", f"corner {name}", f"{name} is booked as turning in but is no corner of the outline",
                f"one of {', '.join(outline)}",
            )  # fmt: skip


def _walls(
    outlines: Sequence[Sequence[str]], wall_names: Mapping[str, tuple[str, str]], hidden: Collection[str]
) -> Iterator[Finding]:
    walls = {frozenset((outline[i - 1], outline[i])) for outline in outlines for i in range(len(outline))}
    named: dict[frozenset[str], str] = {}
    for name, (a, b) in wall_names.items():
        ends = frozenset((a, b))
        if ends not in walls:
            yield _error(
                "survey-wall", f"wall {name}", f"wall {name} runs from {a} to {b}, which are not neighbours",
                "two corners that follow each other in the outline",
            )  # fmt: skip
        elif ends in named:
            yield _error("survey-wall", f"wall {name}", f"{named[ends]} and {name} name one wall", "one name a wall")
        named[ends] = name
    plain = {f"{a}-{b}" for a, b in (tuple(wall) for wall in walls if len(wall) > 1)}
    plain |= {f"{b}-{a}" for a, b in (tuple(wall) for wall in walls if len(wall) > 1)}
    for name in sorted(set(hidden) - set(wall_names) - plain):
        yield Finding(
            code="survey-hidden-wall",
            severity=Severity.WARNING,
            place=f"wall {name}",
            found=f"{name} is booked as hidden but is no wall",
            expected=f"one of {', '.join(sorted(wall_names)) or 'the walls'}",
            remedy="use the name of a wall",
            source="yours",
        )


def _error(code: str, place: str, found: str, expected: str = "", remedy: str = "put the name right") -> Finding:
    return Finding(
        code=code, severity=Severity.ERROR, place=place, found=found, expected=expected, remedy=remedy, source="yours"
    )
