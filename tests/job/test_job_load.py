"""Reading a job file: as much of it as there is, whatever is in it."""

import datetime as dt
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from floorwright.findings import Finding, Severity
from floorwright.job.load import load, load_bytes, load_text
from floorwright.job.model import Job
from floorwright.job.write.starter import starter

GOOD = starter(metric=True)
IMPERIAL = starter(metric=False)


def told(findings: tuple[Finding, ...]) -> list[str]:
    return [finding.code for finding in findings if finding.severity is not Severity.NOTE]


def test_reads_lengths_in_the_units_of_the_file() -> None:
    job = load_text('units = "in"\n[[goods]]\nname = "tile"\nlength = 11.75\nwidth = "300 mm"\n').job
    assert job is not None
    assert job.goods[0].size == (298.45, 300.0)
    job = load_text(
        'units = "m"\n[survey]\noutline = ["A", "B", "C"]\ndistances = { A-B = 3.6, B-C = ["4 m", 4.001] }'
    ).job
    assert job is not None
    assert job.survey.distances == {"A-B": (3600.0,), "B-C": (4000.0, 4001.0)}


def test_reads_every_key_of_the_metric_starter() -> None:
    loaded = load_text(GOOD)
    job = loaded.job
    assert loaded.is_sound
    assert job is not None
    assert (job.title, job.date, job.paper) == ("Back kitchen", dt.date(2026, 3, 2), "A4")
    assert job.survey.walls["door wall"] == "A-B"
    assert job.survey.tape.tape_class == "EU II"
    assert job.openings[0].start == "A"
    assert job.control.first_line.wall == "door wall"
    assert job.control.setting == 1.0
    assert job.zones[0].joint_most == 4.0
    assert job.aims.hidden == ("window",)
    assert job.order.spares == 3
    assert job.style.step == Fraction(1, 2)


def test_a_file_in_inches_has_defaults_in_inches() -> None:
    job = load_text('units = "in"\n[[zones]]\ngoods = "x"\njoint = 0.125\n[[goods]]\nname = "x"\nlength = 12\n').job
    assert job is not None
    assert (job.words, job.paper) == ("US", "Letter")
    assert (job.style.system, job.style.step) == ("imperial", Fraction(1, 16))
    assert (job.zones[0].joint, job.zones[0].gap, job.zones[0].joint_step) == (3.175, 6.35, 1.5875)
    assert (job.control.compass, job.survey.tape.reading) == (1828.8, 0.79375)


@pytest.mark.parametrize("units", ["mm", "ft"])
def test_no_compass_is_a_compass_of_nought(units: str) -> None:
    loaded = load_text(f'units = "{units}"\n[control]\ncompass = 0\n')
    assert loaded.job is not None
    assert loaded.job.control.compass == 0.0
    assert not any("compass" in finding.place for finding in loaded.findings)
    assert "job-length" in told(load_text("[control]\ntape = 0\n").findings)


def test_a_key_that_a_choice_needs_is_asked_for_in_words() -> None:
    loaded = load_text('[survey]\noutline = ["A", "B", "C"]\n[control]\nfirst_line = { by = "opening" }\n')
    (missing,) = (finding for finding in loaded.findings if finding.code == "job-missing-key")
    assert (missing.found, missing.expected) == ("no `opening`", "one, because `opening` is chosen")


def test_group_measurement_gives_the_real_size() -> None:
    # Ten tiles and nine joints of 3 read 3027 (issue text): 300 each.
    text = '[[goods]]\nname = "x"\nwidth = 148\ngroup = { tiles = 10, joints = 9, joint = 3, reads = 3027 }\n'
    job = load_text(text).job
    assert job is not None
    assert job.goods[0].size == (300.0, 148.0)


def test_all_that_is_wrong_is_told_at_once_in_order_and_the_rest_is_read() -> None:
    text = GOOD.replace("joint = 3\n", 'joint = "3 mn"\n').replace("offset = 540", "offset = -1")
    text = text.replace("spares = 3", "spares = 3\nwaste = 10").replace('title = "Back kitchen"', "title = 3")
    loaded = load_text(text, "kitchen.toml")
    assert told(loaded.findings) == ["job-type", "job-length", "job-length", "job-unknown-key"]
    places = [finding.place for finding in loaded.findings if finding.severity is not Severity.NOTE]
    assert places == sorted(places, key=lambda place: int(place.split(":")[1].split()[0]))
    job = loaded.job
    assert job is not None
    assert (job.zones, job.openings, job.title) == ((), (), "")
    assert job.survey == load_text(GOOD).job.survey  # type: ignore[union-attr]


def test_lines_stay_true_when_an_earlier_table_of_the_list_is_left_out() -> None:
    text = """[survey]
outline = ["A", "B", "C"]
[[openings]]
name = "one"
wall = "A-B"
from = "A"
offset = "x"
width = 800
[[openings]]
name = "two"
wall = "A-B"
from = "C"
offset = 100
width = 800
"""
    places = [finding.place for finding in load_text(text).findings if finding.severity is Severity.ERROR]
    assert places == ["job.toml:7 openings.offset", "job.toml:12 openings.from"]


def test_what_hangs_on_something_left_out_is_left_out_without_a_word() -> None:
    loaded = load_text(GOOD.replace("length = 298 ", "length = 298O "))
    assert told(loaded.findings) == ["job-syntax"]
    loaded = load_text(GOOD.replace("length = 298 ", 'length = "298O" '))
    assert told(loaded.findings) == ["job-length"]
    assert loaded.job is not None
    assert (loaded.job.goods, loaded.job.zones) == ((), ())
    loaded = load_text(GOOD.replace('outline = ["A", "B", "C", "D"]', 'outline = ["A", "B", "C", "A"]'))
    assert told(loaded.findings) == ["job-outline"]
    assert loaded.job is not None
    assert (loaded.job.survey.outline, loaded.job.openings) == ((), ())


def test_every_line_with_broken_quotes_is_told_at_once() -> None:
    lines = IMPERIAL.replace('"9ft 9in"', '"9\' 9""').replace('"9ft 8 3/4in"', "'9' 8 3/4\"'")
    findings = load_text(lines).findings
    assert told(findings) == ["job-quotes", "job-quotes"]
    assert [finding.place.split()[-1] for finding in findings] == ["B-C", "D-A"]
    assert findings[1].remedy == "write \"9ft 9in\", or put it between three single quotes: '''9' 9\"'''"


def test_three_single_quotes_hold_foot_and_inch_marks() -> None:
    loaded = load_text(IMPERIAL.replace('"9ft 9in"', "'''9' 9\"'''"))
    assert loaded.is_sound
    assert loaded.job is not None
    assert loaded.job.survey.distances["D-A"] == (2971.8,)


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("\ufeff" + GOOD, id="byte-order mark"),
        pytest.param(GOOD.replace("\n", "\r\n"), id="lines ended as on other systems"),
        pytest.param(GOOD.replace("date = 2026-03-02", 'date = "2026-03-02"'), id="date as text"),
    ],
)
def test_differences_that_make_none(text: str) -> None:
    loaded = load_bytes(text.encode())
    assert loaded.findings == ()
    assert loaded.job == load_text(GOOD).job


def test_a_wall_may_be_called_by_its_corners() -> None:
    text = GOOD.replace('wall = "door wall"\nfrom', 'wall = "B-A"\nfrom').replace(
        'hidden = ["window"]', 'hidden = ["C-D"]'
    )
    assert load_text(text).job == load_text(GOOD).job


def test_a_wall_without_a_name_is_called_by_its_corners_anticlockwise() -> None:
    text = '[survey]\noutline = ["A", "B", "C"]\ndirection = "clockwise"\n[aims]\nhidden = ["A-B"]\n'
    job = load_text(text).job
    assert job is not None
    assert job.aims.hidden == ("B-A",)


def test_a_tie_point_is_no_misspelt_corner() -> None:
    ties = "B-D = 4529\nA-P = 1000\nB-P = 2900\n"
    assert load_text(GOOD.replace("B-D = 4529\n", ties)).findings == ()
    straight = '\n[[survey.straight]]\npoints = ["A", "P", "B"]\n\n[[openings]]'
    assert load_text(
        GOOD.replace("B-D = 4529\n", "B-D = 4529\nA-P = 1000\n").replace("\n[[openings]]", straight)
    ).is_sound


def test_the_same_distance_from_both_ends_is_a_repeat() -> None:
    assert load_text(GOOD.replace("B-D = 4529\n", "B-D = 4529\nD-B = 4528\n")).findings == ()


def test_defaults_that_results_hang_on_are_notes() -> None:
    loaded = load_text(
        '[survey]\noutline = ["A", "B", "C"]\n[[goods]]\nname = "t"\nlength = 100\n[[zones]]\ngoods = "t"\njoint = 2\n'
    )
    notes = {finding.place.split()[-1] for finding in loaded.findings}
    assert {finding.severity for finding in loaded.findings} == {Severity.NOTE}
    assert {finding.source for finding in loaded.findings} == {"our default"}
    assert notes == {
        "units", "survey.direction", "survey.tape.class", "control.first_line", "control.centre", "aims.least_piece",
        "zones.gap",
    }  # fmt: skip
    assert loaded.job is not None
    assert loaded.job.control.first_line.wall == "A-B"


def test_no_doubt_is_cast_on_a_length_with_its_unit() -> None:
    assert told(load_text(GOOD.replace("A-B = 3418", "A-B = 3.418")).findings) == ["job-doubt"]
    assert told(load_text(GOOD.replace("A-B = 3418", 'A-B = "3.418 m"')).findings) == []
    assert told(load_text(GOOD.replace("A-B = 3418", 'A-B = "34 mm"')).findings) == []


def test_a_file_in_metres_with_millimetres_says_so() -> None:
    findings = load_text(GOOD.replace('units = "mm"', 'units = "m"')).findings
    remedies = {finding.place.split()[-1]: finding.remedy for finding in findings}
    assert remedies["survey.distances.A-B"] == 'write "3418 mm", or the metres'
    assert remedies["goods.length"].startswith('write "298 mm"')


@pytest.mark.parametrize(
    ("make", "found"),
    [
        (lambda folder: folder, "a folder"),
        (lambda folder: folder / "none.toml", "no such file"),
        (lambda folder: folder / "a\0b.toml", "a file that cannot be opened"),
    ],
)
def test_a_file_that_cannot_be_opened_is_a_finding(make: object, found: str, tmp_path: Path) -> None:
    assert callable(make)
    loaded = load(make(tmp_path))
    assert loaded.job is None
    assert [finding.code for finding in loaded.findings] == ["job-file"]
    assert loaded.findings[0].found == found


def test_a_huge_file_is_refused_unread(tmp_path: Path) -> None:
    path = tmp_path / "huge.toml"
    path.write_bytes(b"a = 1\n" * 1_000_000)
    assert [finding.code for finding in load(path).findings] == ["job-size"]


@pytest.mark.parametrize(
    "text",
    [
        ".".join(["a"] * 4000) + " = 1",
        "a = " + '"' * 9000,
        "a = " + "{ a = " * 900,
        "a = " + "[" * 3000 + "]" * 3000,
        "[" + ".".join(["a"] * 30) + "]\nx = 1",
        "a = '''" + "\n'\"" * 5000,
        "a" * 20_000,
        "survey = " + "9" * 4400,
        "x = " + "[1," * 15 + "]" * 15,
    ],
)
def test_hostile_texts_are_refused(text: str) -> None:
    loaded = load_text(text)
    assert told(loaded.findings)
    assert all(len(finding.place) < 200 for finding in loaded.findings)


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(content: bytes) -> None:
    loaded = load_bytes(content)
    assert loaded.job is not None or loaded.findings


PIECES = st.sampled_from(
    [
        '"',
        "'",
        "[",
        "]",
        "{",
        "}",
        "=",
        "\n",
        ",",
        "#",
        "-",
        ".",
        "0",
        "nan",
        "inf",
        "1e400",
        "true",
        "[[",
        "3.6",
        "½",
        "\\",
        "\x00",
    ]
)


@st.composite
def mutants(draw: st.DrawFn) -> str:
    text = draw(st.sampled_from([GOOD, IMPERIAL]))
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        end = min(len(text), start + draw(st.integers(0, 30)))
        text = text[:start] + draw(st.one_of(PIECES, st.just(""), st.text(max_size=4))) + text[end:]
    return text


@settings(suppress_health_check=[HealthCheck.too_slow], deadline=None, max_examples=150)
@given(mutants())
def test_a_half_written_file_is_read_as_far_as_it_goes(text: str) -> None:
    loaded = load_text(text)
    assert loaded.job is not None or loaded.findings
    for finding in loaded.findings:
        assert finding.code.startswith("job-")
        assert finding.found
        assert finding.place.startswith("job.toml")


VALUES = st.recursive(
    st.one_of(
        st.none().map(lambda _: dt.date(2026, 3, 2)),
        st.booleans(),
        st.integers(),
        st.floats(),
        st.text(max_size=8),
        st.sampled_from(["A", "A-B", "mm", "grid", "3.6 m", "parallel", "half"]),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(st.sampled_from(["name", "by", "wall", "A-B", "x", "length"]), inner, max_size=3),
    ),
    max_leaves=6,
)


def _places() -> list[tuple[str, str]]:
    places: list[tuple[str, str]] = []
    for name, field in Job.model_fields.items():
        inner = getattr(field.annotation, "model_fields", None)
        places += (
            [(field.alias or name, "")]
            if inner is None
            else [(name, other.alias or key) for key, other in inner.items()]
        )
    return places


@settings(deadline=None, max_examples=150)
@given(st.dictionaries(st.sampled_from(_places()), VALUES, max_size=4))
def test_any_values_leave_a_job(values: dict[tuple[str, str], object]) -> None:
    from floorwright.job.load import _read

    data: dict[str, object] = {}
    for (table, key), value in values.items():
        if not key:
            data[table] = value
        else:
            inner = data.setdefault(table, {})
            assert isinstance(inner, dict)
            inner[key] = value
    data.pop("units", None)
    job, problems = _read(data)
    assert isinstance(job, Job)
    assert all(problem.found and problem.code for problem in problems)
