"""The site copy: what a phone needs of a job, in the words of the sheets."""

from collections.abc import Iterator, Sequence

from floorwright.control.control import Construction, Control, Step
from floorwright.draw.sheet import Prose
from floorwright.draw.site import SiteCopy, SiteSteps, SiteTask
from floorwright.draw.view import Point
from floorwright.job.solution import Solution
from floorwright.setout.snap import SnapLine
from floorwright.sheets import cuts, snap
from floorwright.sheets.decided import decided
from floorwright.sheets.figures import Figures
from floorwright.sheets.first import first_title, to_answer
from floorwright.sheets.site_checks import site_checks
from floorwright.sheets.site_cuts import site_cuts
from floorwright.sheets.site_plan import site_plan
from floorwright.sheets.site_score import site_score
from floorwright.sheets.steps import done_together, steps_heading, steps_told, why_so


def site_copy(solution: Solution) -> SiteCopy | None:
    """Returns what a phone needs of a job; None while there is no control to set out."""
    control, listed = solution.control, solution.snap
    if solution.room is None or solution.region is None or control is None or listed is None:
        return None
    figures = Figures(style=solution.style)
    lines = snap.pattern_lines(listed)
    labels = snap.labelled(lines)
    return SiteCopy(
        title=first_title(solution),
        system=solution.style.system,
        column=figures.column,
        unit=solution.job.units,
        plan=site_plan(solution),
        first=(*to_answer(solution), Prose(heading="Decided", lines=decided(solution))),
        steps=tuple(_steps(one, control, figures) for one in done_together(control)),
        checks=site_checks(solution),
        nail=listed.zero,
        lines=tuple(_line(label, line, listed.zero, figures) for label, line in zip(labels, lines, strict=True)),
        cuts=site_cuts(solution),
        scored=site_score(solution),
        before_snapping=(Prose(lines=(snap.legend(lines), *snap.WHY), tone="quiet"),) if lines else (),
        before_sawing=(
            Prose(heading="Before you saw", lines=cuts.CAUTION, tone="caution"),
            Prose(lines=cuts.HOW[:2], tone="quiet"),
        ),
    )


def _steps(together: tuple[Construction, ...], control: Control, figures: Figures) -> SiteSteps:
    said = steps_told(together, control, figures)
    return SiteSteps(
        heading=steps_heading(together),
        tasks=tuple(_task(text, figure, steps) for (text, figure), steps in said.items()),
        why=why_so(together, control, figures),
    )


def _task(text: str, figure: str, steps: Sequence[Step]) -> SiteTask:
    points = dict.fromkeys((name, (x, y)) for step in steps for name, x, y in step.points)
    return SiteTask(
        name="",
        text=text,
        figures=(("", figure),) if figure else (),
        points=tuple(points),
        lines=tuple(line for step in steps for line in _struck(step)),
        arcs=tuple((arc.centre, arc.near) for step in steps for arc in step.arcs),
    )


def _struck(step: Step) -> Iterator[tuple[Point, Point]]:
    """Yields the line that a step strikes, or pulls a tape along, if it does."""
    if step.action in ("join", "pull", "extend") and len(step.points) > 1:
        (_, ax, ay), *_, (_, bx, by) = step.points
        yield (ax, ay), (bx, by)


def _line(label: str, line: SnapLine, nail: str, figures: Figures) -> SiteTask:
    """Returns a line of the pattern to snap: its running figure, and where its ends are marked."""
    marks = (line.marks[0], line.marks[-1]) if len(line.marks) > 1 else ()
    ends = tuple((f"on {mark.on}, from {mark.start}", figures.room(mark.distance)) for mark in marks)
    points = tuple((mark.x, mark.y) for mark in marks)
    return SiteTask(
        name=label,
        text="",
        figures=((f"running, from {nail}", snap.running_text(line, figures)), *(ends or ((snap.NO_WALL, ""),))),
        points=tuple(("", point) for point in points),
        lines=(points,) if len(points) == 2 else (),
    )
