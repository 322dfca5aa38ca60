"""Why a cut is what it is, as data: the courses that end at each wall, added up as they print."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.setout.course import like_parts, printed

if TYPE_CHECKING:
    from floorwright.export.data import Data
    from floorwright.job.solution import Solution
    from floorwright.setout.course import Course
    from floorwright.units import LengthStyle


def sums_data(solution: Solution) -> list[Data]:
    """Returns, for every wall that courses end at, the first and the last of them: parts that add up to the room.

    Figures are texts, as sheets print them: what is entered as it was entered, cuts rounded, and what rounding leaves
    over on the last joint, so that a person who adds them up meets the wall.
    """
    at: dict[str, list[Course]] = {}
    for course in solution.courses:
        for wall in dict.fromkeys(course.walls):
            at.setdefault(wall, []).append(course)
    return [
        {"wall": wall, "courses": [_course(course, solution.style) for course in _first_and_last(courses)]}
        for wall, courses in at.items()
    ]


def _first_and_last(courses: list[Course]) -> list[Course]:
    return courses[:1] if len(courses) == 1 else [courses[0], courses[-1]]


def _course(course: Course, style: LengthStyle) -> Data:
    told = printed(course, style)
    return {
        "name": course.name,
        "between": list(course.walls),
        "parts": [
            {"kind": kind, "figure": style.entered_text(float(figure), feet=False), "count": count}
            for (kind, figure), count in like_parts(course, told).items()
        ],
        "total": style.text(float(told.total), unit=True),
    }
