"""What cannot be so in the further rooms of a job, and in the links between them."""

from collections import Counter
from collections.abc import Iterator
from typing import Any

from floorwright.job.check.reference import Known, is_nameless, names_in, names_of_their_own
from floorwright.job.check.survey import outline_problems
from floorwright.job.inputs.walls import anticlockwise, own_name, rooms_of, walls_of
from floorwright.job.model import Job, Link
from floorwright.job.read.misfit import quoted
from floorwright.job.read.positions import Path
from floorwright.job.read.problem import Problem


def check_rooms(job: Job, original: dict[str, Any]) -> Iterator[Problem]:
    """Yields what is wrong with the rooms and the links of a job whose first outline is sound.

    Args:
        job: what is left of it.
        original: the tables of the file, with what was left out.
    """
    yield from names_of_their_own("rooms", [room.name for room in job.rooms])
    for i, room in enumerate(job.rooms):
        path: Path = ("rooms", i)
        if room.name == job.survey.name:
            yield Problem(
                path=(*path, "name"),
                code="job-same-name",
                found=f"{quoted(room.name)}, as the first room is called",
                expected="a name of its own for each",
                remedy="give it another, or write name = ... in [survey]",
                drop=path,
            )
        yield from outline_problems((*path, "outline"), room.outline, path)
        corners = Known(code="job-unknown-corner", what=f"a corner of {room.name}", names=room.outline)
        for n, inward in enumerate(room.inward):
            yield from corners.check((*path, "inward", n), inward, (*path, "inward"))
    yield from _links(job, original)


def _links(job: Job, original: dict[str, Any]) -> Iterator[Problem]:
    rooms = Known(
        code="job-unknown-room",
        what="a room",
        names=[job.survey.name, *(room.name for room in job.rooms)],
        left_out=names_in(original, "rooms"),
        all_left_out=is_nameless(original, "rooms"),
    )
    openings = Known(
        code="job-unknown-opening",
        what="an opening",
        names=[opening.name for opening in job.openings],
        left_out=names_in(original, "openings"),
        all_left_out=is_nameless(original, "openings"),
    )
    uses = Counter[str]()
    for i, link in enumerate(job.links):
        path: Path = ("links", i)
        strangers = [
            problem
            for kind, known, names in (("rooms", rooms, link.rooms), ("openings", openings, link.openings or ()))
            for n, name in enumerate(names)
            for problem in known.check((*path, kind, n), name, path)
        ]
        yield from strangers
        if not strangers:
            yield from _link(job, path, link)
        for n, name in enumerate(link.openings or ()):
            uses[name] += 1
            if uses[name] == 2:
                yield _wrong(
                    (*path, "openings", n), f"{quoted(name)} a second time", "each opening in one link", path,
                    "measure the opening on the other face of the wall, and name that",
                )  # fmt: skip


def _link(job: Job, path: Path, link: Link) -> Iterator[Problem]:
    """A link whose names all are of something: of two rooms, and of an opening in each."""
    if link.rooms[0] == link.rooms[1]:
        yield _wrong((*path, "rooms"), f"{quoted(link.rooms[0])} twice", "two rooms", path, "name the other room")
        return
    walls = walls_of(job)
    corners = {room.name: anticlockwise(room) for room in rooms_of(job)}
    for n, (room, name) in enumerate(zip(link.rooms, link.openings or (), strict=False)):
        wall = next(opening.wall for opening in job.openings if opening.name == name)
        own = own_name(job, wall)
        # An opening in no wall that is known is told of where it stands.
        if own is not None and not set(walls[own]) <= set(corners[room]):
            yield _wrong(
                (*path, "openings", n),
                f"{quoted(name)}, which is in wall {wall}",
                f"an opening in a wall of {room}",
                path,
                "name the openings in the order of the rooms, each in a wall of its own",
            )


def _wrong(path: Path, found: str, expected: str, drop: Path, remedy: str) -> Problem:
    return Problem(path=path, code="job-link", found=found, expected=expected, remedy=remedy, drop=drop)
