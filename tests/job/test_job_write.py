"""Writing a job: what is written reads back as the same job, and writes as the same text."""

import datetime as dt
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorwright.findings import Severity
from floorwright.job.load import load_text
from floorwright.job.model import Job
from floorwright.job.model.values import UNITS
from floorwright.job.write.starter import starter
from floorwright.job.write.text import job_text, length_text
from floorwright.units import INCH, parse_length


def read(text: str) -> Job:
    loaded = load_text(text)
    assert loaded.job is not None
    assert [finding for finding in loaded.findings if finding.severity is Severity.ERROR] == []
    return loaded.job


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [
        (3600.0, "mm", "3600"),
        (282.5, "mm", "282.5"),
        (3600.0, "cm", "360"),
        (4001.0, "m", "4.001"),
        (2222.5, "in", '"7ft 3 1/2in"'),
        (2222.5, "ft", '"7ft 3 1/2in"'),
        (0.396875, "in", '"1/64in"'),
        (93.98, "in", '"3.7in"'),
        (447.0, "in", '"447 mm"'),
        (3657.6, "in", '"12ft"'),
        (-457.2, "in", '"-1ft 6in"'),
        (0.0, "in", "0"),
        (-5.5, "mm", "-5.5"),
    ],
)
def test_lengths_in_the_units_of_the_file(mm: float, unit: str, text: str) -> None:
    assert length_text(mm, unit) == text


@given(
    st.one_of(
        st.floats(-1e6, 1e6).filter(lambda mm: mm == 0 or abs(mm) > 1e-6),
        st.integers(-100_000, 100_000).map(lambda n: float(Fraction(n, 64) * INCH)),
        st.integers(0, 40_000).map(lambda n: n / 4),
    ),
    st.sampled_from(UNITS),
    st.booleans(),
)
def test_every_length_reads_back_exactly(mm: float, unit: str, feet: bool) -> None:
    text = length_text(mm, unit, feet=feet)
    value = text.strip('"') if text.startswith('"') else float(text)
    assert parse_length(value, unit, signed=True) == mm


@pytest.mark.parametrize("metric", [True, False])
def test_written_read_and_written_again_is_the_same_text(metric: bool) -> None:
    job = read(starter(metric=metric))
    text = job_text(job)
    assert read(text) == job
    assert job_text(read(text)) == text


def test_one_fact_a_line_in_the_order_of_the_form() -> None:
    text = job_text(read(starter(metric=True)))
    lines = text.splitlines()
    assert lines[:2] == ["schema = 1", 'title = "Back kitchen"']
    assert '"door wall" = "A-B"' in lines
    assert "A-C = [4511, 4512]" in lines
    assert 'first_line = { by = "parallel", wall = "door wall" }' in lines
    assert "# The control lines and the tools to hand." in lines
    headers = [line for line in lines if line.startswith("[")]
    assert headers == [
        "[survey]", "[survey.tape]", "[survey.walls]", "[survey.distances]", "[[openings]]", "[control]", "[[goods]]",
        "[[zones]]", "[aims]", "[order]",
    ]  # fmt: skip


def test_defaults_that_were_not_given_are_not_written() -> None:
    assert job_text(Job.model_validate({"title": "x"})) == 'title = "x"\n'


NAMES = st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "S")), min_size=1, max_size=6).filter(
    lambda name: name == name.strip()
)
CORNERS = st.lists(NAMES.filter(lambda name: not set(name) & set("-/")), min_size=3, max_size=6, unique_by=str.casefold)
LENGTHS = st.one_of(
    st.integers(200, 5000).map(float),
    st.floats(200, 5000),
    st.integers(600, 20_000).map(lambda n: float(Fraction(n, 64) * INCH)),
).map(lambda mm: f"{mm} mm")
JOINTS = st.one_of(st.just(0.0), st.floats(0.5, 10)).map(lambda mm: f"{mm} mm")


@st.composite
def jobs(draw: st.DrawFn) -> dict[str, Any]:
    outline = draw(CORNERS)
    sides = list(zip(outline, [*outline[1:], outline[0]], strict=True))
    walls = draw(st.lists(NAMES, max_size=len(sides), unique=True))
    named = {name: "-".join(side) for name, side in zip(walls, sides, strict=False)}
    first, side = next(iter(named.items())) if named else (None, "-".join(sides[0]))
    wall = first or side
    start = side.split("-")[0]
    openings = [
        {"name": name, "wall": wall, "from": start, "offset": draw(LENGTHS), "width": draw(LENGTHS)}
        for name in draw(st.lists(NAMES, max_size=2, unique=True))
    ]
    goods = {"name": draw(NAMES), "length": draw(LENGTHS), "box": draw(st.integers(1, 40))}
    if draw(st.booleans()):
        goods["group"] = {"tiles": 10, "joints": 9, "joint": draw(JOINTS), "reads": draw(LENGTHS)}
    zone = {
        "goods": goods["name"],
        "pattern": "brick bond",
        "fraction": f"1/{draw(st.integers(2, 6))}",
        "joint": draw(JOINTS),
        "angle": draw(st.sampled_from([0.0, 45.0, -12.5, 30])),
    }
    return {
        "schema": 1,
        "title": draw(st.text(st.characters(codec="utf-8", exclude_categories=("C", "Zl", "Zp")), max_size=20)),
        "date": draw(st.dates(dt.date(2000, 1, 1), dt.date(2100, 1, 1))),
        "units": draw(st.sampled_from(UNITS)),
        "survey": {
            "outline": outline,
            "direction": draw(st.sampled_from(["anticlockwise", "clockwise"])),
            "tape": {"class": "EU I", "hook": draw(st.booleans())},
            "walls": named,
            "distances": {"-".join(side): draw(st.lists(LENGTHS, min_size=1, max_size=3)) for side in sides},
            "square": [{"corner": outline[0], "within": draw(LENGTHS)}],
        },
        "openings": openings,
        "control": {"centre": {"by": "point", "x": f"-{draw(LENGTHS)}", "y": draw(LENGTHS)}, "set": draw(LENGTHS)},
        "goods": [goods],
        "zones": [zone],
        "aims": {"least_piece": draw(st.one_of(st.sampled_from(["half", "third"]), LENGTHS))},
    }


@settings(deadline=None)
@given(jobs())
def test_any_job_written_and_read_is_the_same(data: dict[str, Any]) -> None:
    made = Job.model_validate(data, context={"unit": data["units"]})
    job = read(job_text(made))
    # What is read calls walls by their own names and has a first line; from then on nothing changes.
    again = job_text(job)
    assert read(again) == job
    assert job_text(read(again)) == again
    assert (job.survey, job.goods, job.title, job.date) == (made.survey, made.goods, made.title, made.date)
    assert job.control.centre == made.control.centre
    assert [zone.joint for zone in job.zones] == [zone.joint for zone in made.zones]
