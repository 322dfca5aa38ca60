"""What a job leaves open and the results hang on: told as notes, so that no default is taken in silence."""

from collections.abc import Iterator
from typing import Any, Final

from floorwright.findings import Severity
from floorwright.job.inputs.observations import BY_EYE
from floorwright.job.inputs.walls import walls_of
from floorwright.job.model import Job
from floorwright.job.read.misfit import value_at
from floorwright.job.read.positions import Path
from floorwright.job.read.problem import Problem

OURS: Final = "our default"


def assumed(job: Job, data: dict[str, Any]) -> Iterator[Problem]:
    """Yields a note for each default that the results hang on.

    Args:
        job: as read.
        data: the tables that it was read from.
    """
    if not job.survey.outline:
        return
    tape = job.survey.tape
    walls = list(walls_of(job))
    defaults: dict[Path, str] = {
        ("units",): "a bare number is mm",
        ("survey", "direction"): "the outline goes anticlockwise, seen from above",
        ("survey", "tape", "class"): f"a tape of class {tape.tape_class}",
        ("control", "first_line"): f"the first line runs parallel to wall {walls[0]}",
        ("control", "centre"): "the centre is the middle of what is seen from the door",
    }
    if tape.limit is not None:
        del defaults["survey", "tape", "class"]
    if job.zones and job.aims.least == job.aims.least_piece:
        defaults["aims", "least_piece"] = f"no piece narrower than a {job.aims.least_piece} of a tile"
    for i, zone in enumerate(job.zones):
        defaults["zones", i, "gap"] = f"a gap of {job.style.entered_text(zone.gap, unit=True)} at the walls"
    if job.survey.points:
        good_to = job.style.entered_text(job.survey.coordinates_within, unit=True)
        defaults["survey", "coordinates_within"] = f"coordinates good to {good_to}"
    by_eye = [i for i, offset in enumerate(job.survey.offsets) if offset.within is None and offset.along is not None]
    for i in by_eye[:1]:
        defaults["survey", "offsets", i, "within"] = f"squared out by eye to 1 in {1 / BY_EYE:.0f}, and by the tape"
    for i, angle in list(enumerate(job.survey.angles))[:1]:
        defaults["survey", "angles", i, "within_degrees"] = f"angles good to {angle.within_degrees} degrees"
    for path, taken in defaults.items():
        if value_at(data, path) is None:
            yield _note(path, taken)


def _note(path: Path, taken: str) -> Problem:
    key = ".".join(step for step in path if isinstance(step, str))
    return Problem(
        path=path,
        code="job-assumed",
        found=f"no `{path[-1]}`: {taken}",
        remedy=f"write {key} if it is otherwise",
        severity=Severity.NOTE,
        source=OURS,
    )
