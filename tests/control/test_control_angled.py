"""Lines at other angles, and further ways to raise the square: where their marks lie, and what is thought of."""

import math
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.control.rooms import column, l_room, larch_row, rectangle, room

from floorwright.control.angled import Wanted, at_angle, is_raised
from floorwright.control.choices import Centre, FirstLine, Tools
from floorwright.control.control import Considered, Construction
from floorwright.control.set_out import set_control
from floorwright.control.sight import room_round
from floorwright.control.squares_more import off_laser, semicircle
from floorwright.control.station import HAND, Station, stand
from floorwright.job.load import load
from floorwright.job.solve import solve
from floorwright.plan.floor import floor_region
from floorwright.plan.room import Room
from floorwright.units import METRIC

TOOLS = Tools(compass=2000, tape=8000, mark=0.5, set=1.0, laser=0.3)
EXAMPLES = Path(__file__).parents[2] / "examples"
ROOMS = {
    "rectangle": (rectangle(5000, 4000), (2500.0, 2000.0)),
    "larch row": (larch_row(), (2100.0, 1790.0)),
    "l": (l_room(), (1500.0, 1000.0)),
    "column": (
        room(
            {"A": (0.0, 0.0), "B": (5000.0, 0.0), "C": (5000.0, 4000.0), "D": (0.0, 4000.0)},
            ["AB", "BC", "CD", "DA"],
            obstacles=(column(3200.0, 2300.0, 400.0),),
        ),
        (2500.0, 2000.0),
    ),
}


def station_of(name: str, angle: float = 0.0) -> Station:
    made, centre = ROOMS[name]
    return stand(centre, angle, floor_region(made), METRIC)


def points_of(made: Construction) -> dict[str, tuple[float, float]]:
    return {name: (x, y) for step in made.steps for name, x, y in step.points}


@pytest.mark.parametrize("name", ROOMS)
@settings(max_examples=25, deadline=None)
@given(degrees=st.floats(-89, 89).filter(lambda value: abs(value) > 3), turned=st.floats(-0.3, 0.3))
def test_an_angle_is_raised_inside_the_floor_and_points_the_right_way(name: str, degrees: float, turned: float) -> None:
    station = station_of(name, turned)
    made = at_angle(station, TOOLS, Wanted(name="rows", angle=math.radians(degrees)))
    if made is None:
        return
    points = points_of(made)
    far = points[made.steps[-1].end]
    way = math.atan2(far[1] - station.centre[1], far[0] - station.centre[0])
    assert abs(math.remainder(way - turned - math.radians(degrees), math.pi)) < 1e-9
    assert (room_round(station.region, list(points.values())) >= HAND - 1e-6).all()
    for step in made.steps:
        for arc in step.arcs:
            assert math.dist(arc.centre, arc.near) == pytest.approx(arc.radius)
            assert arc.radius <= TOOLS.compass


@pytest.mark.parametrize(
    ("degrees", "method"), [(30, "stepping the radius"), (-60, "stepping the radius"), (20, "chord")]
)
def test_sixty_and_thirty_are_stepped(degrees: float, method: str) -> None:
    made = at_angle(station_of("rectangle"), TOOLS, Wanted(name="rows", angle=math.radians(degrees)))
    assert made is not None
    assert made.method == method


def test_the_cross_has_its_own_angles() -> None:
    assert [is_raised(math.radians(angle)) for angle in (0, 45, -45, 90, 180, 30, 44.5)] == [True] * 5 + [False] * 2


@pytest.mark.parametrize("name", ROOMS)
def test_a_semicircle_raises_a_square(name: str) -> None:
    station = station_of(name)
    made = semicircle(station, TOOLS)
    assert made is not None
    points = points_of(made)
    assert points["S3"][0] == pytest.approx(station.centre[0])
    assert points["S2"][1] == pytest.approx(station.centre[1])
    middle = [(points["S2"][n] + points["S3"][n]) / 2 for n in (0, 1)]
    assert points["S1"] == pytest.approx(tuple(middle))


def test_a_laser_only_where_there_is_one() -> None:
    station = station_of("rectangle")
    made = off_laser(station, TOOLS)
    assert made is not None
    assert made.sd_angle > 0.0003
    assert off_laser(station, Tools(compass=2000, tape=8000, mark=0.5, set=1.0)) is None


def changed(folder: Path, *changes: tuple[str, str]) -> Path:
    text = (EXAMPLES / "larch-row-kitchen.toml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_a_zone_at_an_angle_gets_its_construction_through_the_job_file(tmp_path: Path) -> None:
    path = changed(tmp_path, ("joint_most = 5\n", "angle = 22.5\n"), ("compass = 2000", "compass = 2000\nlaser = 0.1"))
    loaded = load(path)
    assert loaded.job is not None, loaded.findings
    control = solve(loaded.job).control
    assert control is not None
    (rows,) = [made for made in control.constructions if made.makes == "rows of floor"]
    assert rows.chosen
    assert rows.steps[-2].length == pytest.approx(2 * rows.size * math.sin(math.radians(22.5) / 2))
    assert control.considered[0].method == "laser"
    assert {way.method for way in control.considered} == {"compass", "3-4-5", "equal diagonals", "semicircle", "laser"}
    assert all((way.why_not == "") is (way is control.considered[0]) for way in control.considered)


@pytest.mark.parametrize("laser", ["-1", '"0.3 mm"', "50"])
def test_a_wrong_laser_gives_one_message(tmp_path: Path, laser: str) -> None:
    loaded = load(changed(tmp_path, ("compass = 2000", f"compass = 2000\nlaser = {laser}")))
    (wrong,) = [one for one in loaded.findings if one.code != "job-assumed"]
    assert wrong.place.endswith("control.laser")
    assert wrong.remedy or wrong.expected


def test_no_way_that_does_not_fit_is_passed_over_in_silence() -> None:
    made = solve_room(rectangle(900, 900))
    assert {way.method for way in made if way.sd_angle is None} <= {
        "compass",
        "3-4-5",
        "equal diagonals",
        "semicircle",
        "laser",
    }
    assert all(way.why_not for way in made if way.sd_angle is None)


def solve_room(small: Room) -> tuple[Considered, ...]:
    found = set_control(
        room=small,
        region=floor_region(small),
        first=FirstLine(by="parallel", wall="S"),
        centre=Centre(by="mid-point", wall="S"),
        tools=Tools(compass=0, tape=8000, mark=0.5, set=1.0),
        joint=3.0,
        style=METRIC,
    )
    return found.considered
