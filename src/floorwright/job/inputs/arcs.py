"""Walls that are arcs, as booked in a job, for the survey."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.job.inputs.observations import tape_accuracy
from floorwright.job.inputs.walls import own_name, walls_of
from floorwright.survey.arcs import ArcReading, BookedArc

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from floorwright.job.model import ArcWall, Job


def booked_arcs(job: Job) -> tuple[BookedArc, ...]:
    """Returns every arc of a job; of an outline that was left out for what is wrong with it there are none."""
    named = ((own_name(job, one.wall), one) for one in job.survey.arcs)
    return tuple(_arc(name, one, job, tape_accuracy(job.survey)) for name, one in named if name is not None)


def _arc(name: str, one: ArcWall, job: Job, accuracy: Callable[[float], float]) -> BookedArc:
    start, end = walls_of(job)[name]
    return BookedArc(
        wall=name,
        start=start,
        end=end,
        out=None if one.bows is None and one.points else one.bows != "in",
        over_half=one.over_half,
        readings=tuple(_readings(one, accuracy)),
        points=one.points,
        sd=one.within or job.survey.tape.reading,
    )


def _readings(one: ArcWall, accuracy: Callable[[float], float]) -> Iterator[ArcReading]:
    for kind, reads in (("rise", one.rise), ("radius", one.radius)):
        for read in reads or ():
            yield ArcReading(kind=kind, measured=read, sd=one.within or accuracy(read))
