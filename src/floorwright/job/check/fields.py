"""What cannot be so among the fields of a job: rooms that none covers, or two; where the floor breaks between them."""

from collections.abc import Iterator
from typing import Any, Final

from floorwright.findings import Severity
from floorwright.job.check.reference import Known
from floorwright.job.model import Job, Link
from floorwright.job.read.misfit import quoted
from floorwright.job.read.positions import Path
from floorwright.job.read.problem import Problem

OF_A_BREAK: Final = ("at", "strip")
"""The keys of a link that only a break has a use for."""


def check_fields(job: Job, rooms: Known, original: dict[str, Any]) -> Iterator[Problem]:
    """Yields what cannot be so among the fields.

    Args:
        job: what is left of it.
        rooms: the names known.
        original: the tables of the file, with what was left out.
    """
    fields = [i for i, zone in enumerate(job.zones) if zone.kind == "field"]
    strangers = [
        problem
        for i in fields
        for n, name in enumerate(job.zones[i].rooms)
        for problem in rooms.check(("zones", i, "rooms", n), name, ("zones", i))
    ]
    yield from strangers
    rest = [i for i in fields if not job.zones[i].rooms]
    for i in rest[1:]:
        yield Problem(
            path=("zones", i),
            code="job-two-fields",
            found=f"a second field, {quoted(job.zones[i].name)}",
            expected="one field, which takes what borders and insets leave, or fields that say their `rooms`",
            remedy='give it kind = "border", "inset" or "rings", `rooms` of its own, or a file of its own',
            drop=("zones", i),
        )
    if strangers or len(rest) > 1:
        return
    owner: dict[str, int] = {}
    for i in fields:
        for n, name in enumerate(job.zones[i].rooms):
            if name in owner:
                yield _twice(job, i, n, name, owner[name])
            owner.setdefault(name, i)
    every = [job.survey.name, *(room.name for room in job.rooms)]
    left = [name for name in every if name not in owner]
    if fields and not rest and left:
        yield _bare(fields[-1], left)
    elif rest and not left and len(every) > 1:
        yield Problem(
            path=("zones", rest[0]),
            code="job-room-twice",
            found=f"a field that no room is left for, {quoted(job.zones[rest[0]].name)}",
            expected="a room that no other field names",
            remedy="take it out, or take a room off another field",
            drop=("zones", rest[0]),
        )
    elif _named_rooms(original) == sum(len(zone.rooms) for zone in job.zones):
        # Where a field or its rooms had to go, what meets what is no news.
        owner |= dict.fromkeys(left, rest[0]) if rest else {}
        yield from _breaks(job, owner)


def _named_rooms(original: dict[str, Any]) -> int:
    """How many rooms the zones of a file name."""
    zones = original.get("zones")
    named = [zone.get("rooms") for zone in zones if isinstance(zone, dict)] if isinstance(zones, list) else []
    return sum(len(rooms) for rooms in named if isinstance(rooms, list))


def _twice(job: Job, i: int, n: int, name: str, other: int) -> Problem:
    return Problem(
        path=("zones", i, "rooms", n),
        code="job-room-twice",
        found=f"{quoted(name)}, which {quoted(job.zones[other].name)} covers",
        expected="each room in one field",
        remedy="take it off one of the two",
        drop=("zones", i),
    )


def _bare(i: int, left: list[str]) -> Problem:
    return Problem(
        path=("zones", i, "rooms"),
        code="job-room-bare",
        found=f"no field that covers {' or '.join(quoted(name) for name in left)}",
        expected="every room in one field",
        remedy="add it to the `rooms` of one, or add a field without `rooms`, which takes the rest",
        drop=("zones", i, "rooms"),
    )


def _breaks(job: Job, owner: dict[str, int]) -> Iterator[Problem]:
    """Breaks that nothing changes at, links of two fields that say nothing of one, and keys without use."""
    for i, link in enumerate(job.links):
        path: Path = ("links", i)
        zones = [owner[name] for name in link.rooms if name in owner]
        if len(zones) != len(link.rooms):
            continue
        apart = zones[0] != zones[1]
        if link.floor == "breaks" and not apart:
            yield Problem(
                path=(*path, "floor"),
                code="job-break-idle",
                found=f"a break at {_called(link)} with {quoted(job.zones[zones[0]].name)} on both sides",
                expected="another field on either side",
                remedy="give the rooms on one side a field of their own; as it is the pattern runs through",
                severity=Severity.NOTE,
            )
        if link.floor != "breaks" and apart:
            yield Problem(
                path=path,
                code="job-break-assumed",
                found=f"two fields meet at {_called(link)}, so the floor breaks there",
                expected='floor = "breaks" in the link',
                remedy="write it, with `at` if the line lies elsewhere",
                severity=Severity.NOTE,
            )
        if link.floor != "breaks" and not apart:
            yield from _idle_keys(path, link)


def _idle_keys(path: Path, link: Link) -> Iterator[Problem]:
    for key in OF_A_BREAK:
        if key in link.model_fields_set:
            yield Problem(
                path=(*path, key),
                code="job-unused",
                found=f"`{key}` of a link that the floor runs through",
                expected="a key that does something here",
                remedy='take it out, or write floor = "breaks"',
                severity=Severity.WARNING,
            )


def _called(link: Link) -> str:
    return quoted(link.name or (link.openings[0] if link.openings else " to ".join(link.rooms)))
