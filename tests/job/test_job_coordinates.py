"""Coordinates from a CSV file, or in the job file: read, questioned, refused at their line."""

from pathlib import Path

import pytest

from floorwright.job.load import Loaded, load, load_text
from floorwright.job.read.csv_points import read_points
from floorwright.job.solve import solve

METRES = """\
point,north (m),east (m),height
SW,5707194.412,3579041.416,12.1
SE,5707194.420,3579045.616,12.1
NE,5707198.020,3579045.610,12.1
NW,5707198.000,3579041.400,12.1
"""

JOB = """\
schema = 1
units = "mm"
[survey]
coordinates = "points.csv"
"""


def job_in(folder: Path, csv: str, more: str = "", job: str = JOB) -> Loaded:
    (folder / "points.csv").write_text(csv, encoding="utf-8")
    (folder / "job.toml").write_text(job + more, encoding="utf-8")
    return load(folder / "job.toml")


def errors(loaded: Loaded) -> list[tuple[str, str]]:
    return [(f.code, f.place) for f in loaded.findings if f.severity == "error"]


def test_a_room_from_grid_coordinates(tmp_path: Path) -> None:
    loaded = job_in(tmp_path, METRES, "[survey.distances]\nSW-SE = 4201\n")
    assert errors(loaded) == []
    assert loaded.job is not None
    assert loaded.job.survey.outline == ("SW", "SE", "NE", "NW")
    result = solve(loaded.job).survey
    assert result.adjustment is not None
    assert result.adjustment.degrees_of_freedom == 1
    assert result.corners[1].x == pytest.approx(4200.2, abs=0.8)
    assert result.corners[1].y == pytest.approx(0.0, abs=1e-9)
    assert result.area == pytest.approx(15.1e6, rel=0.01)
    assert all(0.0 <= corner.sd_x < 4.0 for corner in result.corners)


def test_a_slip_in_one_coordinate_is_named(tmp_path: Path) -> None:
    """The tape says that NE is not where the instrument has it: 200 mm in north."""
    wrong = METRES.replace("5707198.020", "5707198.220")
    tapes = "[survey.distances]\nSW-SE = 4200\nSE-NE = 3600\nNE-NW = 4210\nNW-SW = 3588\nSW-NE = 5528\nSE-NW = 5531\n"
    loaded = job_in(tmp_path, wrong, tapes)
    assert loaded.job is not None
    result = solve(loaded.job).survey
    assert result.explanations[0].key == "NE y"


def test_clockwise_points_and_those_that_turn_in(tmp_path: Path) -> None:
    ell = "A,0,0\nB,0,5000\nC,3000,5000\nD,3000,2500\nE,6000,2500\nF,6000,0\n"
    loaded = job_in(tmp_path, ell)
    assert errors(loaded) == []
    assert loaded.job is not None
    assert loaded.job.survey.direction == "clockwise"
    assert loaded.job.survey.inward == ("D",)
    assert solve(loaded.job).survey.area == pytest.approx(22.5e6, abs=1.0)
    belied = job_in(tmp_path, ell, 'direction = "anticlockwise"\n')
    assert "job-direction" in [f.code for f in belied.findings]
    assert belied.job == loaded.job


@pytest.mark.parametrize(
    ("csv", "place"),
    [
        ("name,east,north\nA,0,0\nB,4000;1,0\nC,4000,3000\n", "points.csv:3 east"),
        ("name,east,north\nA,0,0\nB,4000\nC,4000,3000\n", "points.csv:3"),
        ("name,east,north\nA,0,0\nA,4000,0\nC,4000,3000\n", "points.csv:3 name"),
        ("name,east,north\nA-B,0,0\nB,4000,0\nC,4000,3000\n", "points.csv:2 name"),
        ("name,east,height\nA,0,0\n", "points.csv:1"),
        ("name,east_yd,north_yd\nA,0,0\n", "points.csv:1 east_yd"),
        ("A,0,0\nB,4,x\nC,4,3\n", "points.csv:2 north"),
        ("A,0,0\nB,4,1e400\nC,4,3\n", "points.csv:2 north"),
        ("name;east;north\nA;0;0\nB;4,1;0\nC;4;3\n", "points.csv:3 east"),
        ("", "points.csv"),
        ("name,east,north\nA,0,0\n" + "4" * 200_000 + "\n", "points.csv:3"),
        ("name,east,north\nA,0,0\nB,4000,0\n", "points.csv"),
    ],
)
def test_what_is_wrong_is_said_at_its_line(tmp_path: Path, csv: str, place: str) -> None:
    assert errors(job_in(tmp_path, csv)) == [("job-csv", place)]


def test_metres_read_as_the_jobs_mm_are_questioned(tmp_path: Path) -> None:
    loaded = job_in(tmp_path, "A,0,0\nB,4.2,0\nC,4.2,3.6\n")
    assert errors(loaded) == [("job-csv-unit", "points.csv")]
    (finding,) = [f for f in loaded.findings if f.code == "job-csv-unit"]
    assert "m (4.2 m)" in finding.expected


@pytest.mark.parametrize("name", ["../points.csv", "/etc/passwd", "a/../../points.csv", "~/points.csv", "C:points.csv"])
def test_no_file_outside_the_folder(tmp_path: Path, name: str) -> None:
    inner = tmp_path / "inner"
    inner.mkdir()
    (tmp_path / "points.csv").write_text(METRES)
    loaded = job_in(inner, METRES, job=JOB.replace("points.csv", name))
    assert [code for code, _ in errors(loaded)] == ["job-file-name"]
    assert loaded.job is not None
    assert loaded.job.survey.points == {}


def test_no_link_out_of_the_folder(tmp_path: Path) -> None:
    inner = tmp_path / "inner"
    inner.mkdir()
    (tmp_path / "far.csv").write_text(METRES)
    (inner / "near.csv").symlink_to(tmp_path / "far.csv")
    assert errors(job_in(inner, METRES, job=JOB.replace("points.csv", "near.csv")))[0][0] == "job-file-beside"


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    loaded = job_in(tmp_path, METRES, job=JOB.replace("points.csv", "other.csv"))
    assert errors(loaded) == [("job-file-beside", "job.toml:4 survey.coordinates")]
    assert errors(load_text(JOB)) == [("job-file-beside", "job.toml:4 survey.coordinates")]


def test_heads_in_other_words() -> None:
    drawn = read_points(b"\xef\xbb\xbfY [m]\tX [m]\tNo\n0\t0\tA\n0\t4.2\tB\n3.6\t4.2\tC\n", "p.csv", "mm")
    assert drawn.points == (("A", 0.0, 0.0), ("B", 4200.0, 0.0), ("C", 4200.0, 3600.0))
