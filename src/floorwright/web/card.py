"""Pictures of jobs: what a list shows of each, and the sketch of a room that its readings do not fix yet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.export.data import M2, number
from floorwright.findings import Severity, has_error
from floorwright.job.inputs import inputs
from floorwright.survey.booked import booking_findings
from floorwright.survey.sketch import sketch

if TYPE_CHECKING:
    from floorwright.export.data import Data
    from floorwright.job.load import Loaded
    from floorwright.job.model import Job
    from floorwright.job.solution import Solution


def card_data(loaded: Loaded, solution: Solution | None) -> Data:
    """Returns the card of a job.

    Args:
        loaded: the job as read.
        solution: its readings adjusted; None where the file cannot be read as a job.
    """
    job = loaded.job
    findings = solution.findings if solution else loaded.findings
    region = solution.region if solution else None
    adjusted = bool(solution and solution.survey.adjustment)
    return {
        "title": job.title if job else "",
        "client": job.client if job else "",
        "units": job.units if job else "mm",
        "outlines_mm": [[[number(x), number(y)] for x, y in ring] for ring in region.rings] if region else [],
        "area_m2": number(solution.survey.area * M2) if solution and adjusted else None,
        "to_measure": len(solution.survey.to_measure) if solution and not adjusted else 0,
        "read": len(job.survey.distances) if job else 0,
        "laid": bool(job and (job.zones or job.scoring)),
        "errors": sum(one.severity is Severity.ERROR for one in findings),
        "warnings": sum(one.severity is Severity.WARNING for one in findings),
    }


def sketch_data(job: Job) -> dict[str, list[float]]:
    """Returns where to draw the points of a job, by name, while nothing fixes them; none where it is booked wrong."""
    booked = inputs.survey(job)
    wrong = booking_findings(
        booked["outline"],
        booked["inward"],
        booked["observations"],
        booked["wall_names"],
        booked["hidden"],
        booked["datum"],
        booked["more"],
    )
    if has_error(tuple(wrong)):
        return {}
    keys = ("outline", "direction", "inward", "observations", "more")
    places = sketch(name=booked["room"], **{key: booked[key] for key in keys})
    return {name: [number(x), number(y)] for name, (x, y) in places.items()}
