"""Results as data: every key of the design, numbers to a ten-thousandth, the same bytes every time."""

import json
import math
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from floorwright import load, solve
from floorwright.export import data as of_job
from floorwright.export import data_cuts as of_cuts
from floorwright.export import data_floor as of_floor
from floorwright.export.data import as_json, as_line, number
from floorwright.job.solution import Solution
from floorwright.survey.booking import booking

EXAMPLES = Path(__file__).parents[2] / "src" / "floorwright" / "examples"
RESULTS = {
    "check": of_job.check_data,
    "survey": of_job.survey_data,
    "control": of_job.control_data,
    "layout": of_floor.layout_data,
    "cuts": of_cuts.cuts_data,
    "takeoff": of_cuts.takeoff_data,
}
COMMON = {"schema", "units", "findings"}
WALL = {"name", "start_mm", "end_mm", "taper_mm_per_tile", "fits"}
SCORES = {"name", "origin_mm", "angle_deg", "joint_mm", "counts", "narrowest_mm"}


def solved(name: str) -> Solution:
    loaded = load(EXAMPLES / f"{name}.toml")
    assert loaded.job is not None
    return solve(loaded.job, findings=loaded.findings)


@pytest.fixture(scope="module")
def kitchen() -> Solution:
    return solved("larch-row-kitchen")


@pytest.fixture(scope="module")
def bath() -> Solution:
    return solved("plot-7-bath")


def values(data: Any, key: str = "") -> Iterator[tuple[str, Any]]:
    """Every plain value with the key that it stands under."""
    if isinstance(data, dict):
        for name, value in data.items():
            yield from values(value, name)
    elif isinstance(data, list):
        for value in data:
            yield from values(value, key)
    else:
        yield key, data


@pytest.mark.parametrize("name", RESULTS)
def test_every_result_carries_schema_units_and_findings(name: str, kitchen: Solution) -> None:
    made = RESULTS[name](kitchen)
    assert set(made) >= COMMON
    assert (made["schema"], made["units"]) == (1, "mm")
    assert made["findings"] == [finding.as_dict() for finding in kitchen.findings]


def test_survey_has_every_key(kitchen: Solution) -> None:
    made = of_job.survey_data(kitchen)
    keys = {"points", "observations", "degrees_of_freedom", "variance_factor", "suspects", "corners", "area_m2"}
    assert set(made) >= keys | {"perimeter_mm"}
    assert set(made["points"]) == {"SW", "SE", "NE", "NW"}
    for point in made["points"].values():
        assert set(point) >= {"x_mm", "y_mm", "sd_x_mm", "sd_y_mm", "sd_a_posteriori_x_mm", "sd_a_posteriori_y_mm"}
    reading = {"key", "kind", "unit", "measured", "adjusted", "residual", "redundancy", "standardised", "suspect"}
    assert all(set(one) >= reading and one["unit"] == "mm" for one in made["observations"])
    assert [one["key"] for one in made["observations"]][:2] == ["SW-SE", "SE-NE"]
    assert sum(one["angle_deg"] for one in made["corners"]) == pytest.approx(360.0, abs=1e-3)
    assert made["area_m2"] == pytest.approx(15.14, abs=0.01)
    assert made["degrees_of_freedom"] == 1


def test_a_corner_taken_as_square_is_in_degrees() -> None:
    text = (EXAMPLES / "larch-row-kitchen.toml").read_text(encoding="utf-8")
    loaded = of_text(text + '\n[[survey.square]]\ncorner = "SE"\nwithin = 20\nover = 1000\n')
    square = next(one for one in of_job.survey_data(loaded)["observations"] if one["kind"] == "square")
    assert square["unit"] == "deg"
    assert square["measured"] == 90.0
    assert square["adjusted"] == pytest.approx(89.8, abs=0.05)
    assert square["sd"] == pytest.approx(math.degrees(math.atan(0.02)), abs=1e-3)


def of_text(text: str) -> Solution:
    from floorwright.job.load import load_text

    loaded = load_text(text)
    assert loaded.job is not None
    return solve(loaded.job, findings=loaded.findings)


def test_control_has_every_key(kitchen: Solution) -> None:
    made = of_job.control_data(kitchen)
    assert set(made) >= {"centre", "lines", "construction", "checks"}
    assert set(made["centre"]) >= {"x_mm", "y_mm"}
    assert [line["name"] for line in made["lines"]] == ["first line", "square line", "45 left", "45 right"]
    for line in made["lines"]:
        assert set(line) >= {"angle_deg", "marks", "sd_angle_arcsec", "drift"}
        assert all(set(mark) >= {"name", "on", "from", "distance_mm", "x_mm", "y_mm"} for mark in line["marks"])
        assert all(set(there) == {"at_mm", "sd_mm"} for there in line["drift"])
    for step in made["construction"]:
        assert set(step) >= {"step", "tool", "from", "makes", "method", "chosen"}
        assert ("radius_mm" in step) == (step["action"] == "arc")
    assert all(set(check) >= {"between", "expected_mm", "allow_mm"} for check in made["checks"])
    chosen = [way["makes"] for way in made["ways"] if way["chosen"]]
    assert chosen == ["first line", "square line", "45 left", "45 right"]
    assert {step["makes"] for step in made["construction"] if step["chosen"]} == set(chosen)


def test_layout_has_every_key(kitchen: Solution) -> None:
    made = of_floor.layout_data(kitchen)
    (zone,) = made["zones"]
    layout = kitchen.layouts[0]
    assert set(zone) >= SCORES | {"pieces", "proof"}
    assert zone["name"] == "floor"
    assert zone["option"] == layout.chosen.name
    assert zone["counts"] == {"full": layout.chosen.full, "cut": layout.chosen.cut}
    piece = {"id", "label", "full", "kind", "outline_mm", "area_mm2", "narrowest_mm"}
    assert all(set(one) == piece for one in zone["pieces"])
    assert len(zone["pieces"]) == len(layout.pieces)
    assert sum(not one["full"] for one in zone["pieces"]) == sum(one["label"] != "" for one in zone["pieces"])
    assert set(zone["proof"]) >= {"status", "aim", "best_mm", "bound_mm", "shortfall"}
    assert zone["proof"]["joint_mm"] == zone["joint_mm"]
    assert [one["name"] for one in made["options"]] == [option.name for option in layout.options]
    assert all(set(one) >= SCORES for one in made["options"])
    assert [one["name"] for one in made["options"] if one["chosen"]] == [layout.chosen.name]
    assert all(set(wall) >= WALL for wall in made["walls"])
    assert all(set(wall) >= WALL for one in made["options"] for wall in one["walls"])
    assert [wall["name"] for wall in made["walls"]] == [wall.wall for wall in layout.chosen.walls]


def test_the_proof_of_two_axes_is_that_of_the_narrower(bath: Solution) -> None:
    (zone,) = of_floor.layout_data(bath)["zones"]
    assert len(zone["proofs"]) == 2
    assert zone["proof"]["best_mm"] == min(proof["best_mm"] for proof in zone["proofs"])


def test_a_proof_that_counts_says_so(kitchen: Solution) -> None:
    layout = kitchen.layouts[0]
    proofs = tuple(replace(proof, aim="fewest cut pieces", best=24.0, bound=24.0) for proof in layout.proofs)
    counted = replace(kitchen, layouts=(replace(layout, proofs=proofs),))
    proof = of_floor.layout_data(counted)["zones"][0]["proof"]
    assert (proof["best_count"], proof["bound_count"]) == (24.0, 24.0)


def test_cuts_have_every_key(kitchen: Solution) -> None:
    made = of_cuts.cuts_data(kitchen)
    assert set(made) >= {"tiles", "bound", "status", "boxes", "stock"}
    cuts = kitchen.cuts[0]
    assert made["tiles"] == len(made["stock"]) == len(cuts.pieces)
    assert made["boxes"] == 14
    assert 0 < made["bound"] <= made["tiles"]
    cut = [piece for piece in kitchen.layouts[0].pieces if not piece.full]
    assert made["bound"] == math.ceil(math.fsum(piece.area for piece in cut) / 447**2)
    assert len({one["id"] for one in made["stock"]}) == len(made["stock"])
    for one, piece in zip(made["stock"], cuts.pieces, strict=True):
        (laid,) = one["pieces"]
        assert set(laid) >= {"id", "x_mm", "y_mm", "turn_deg"}
        assert laid["id"] == piece.id
        assert len(one["saw"]) == len(piece.saws)
        assert all(set(saw) >= {"from_edge", "fence_mm", "marks", "length_mm"} for saw in one["saw"])


def test_a_fence_saws_what_is_true_to_a_side_and_nothing_else(kitchen: Solution, bath: Solution) -> None:
    tapered = [saw for one in of_cuts.cuts_data(kitchen)["stock"] for saw in one["saw"]]
    assert {saw["fence_mm"] for saw in tapered} == {None}
    for one in of_cuts.cuts_data(bath)["stock"]:
        for saw in one["saw"]:
            assert saw["from_edge"] in ("bottom", "right", "top", "left")
            assert saw["fence_mm"] == saw["marks"][0]["distance_mm"] == saw["marks"][1]["distance_mm"]
            assert all(saw["from_edge"] in mark["corner"] for mark in saw["marks"])


def test_takeoff_is_a_table(kitchen: Solution) -> None:
    made = of_cuts.takeoff_data(kitchen)
    assert all(set(line) >= {"code", "quantity", "unit", "basis"} for line in made["lines"])
    assert {line["code"]: line["quantity"] for line in made["lines"]}["order"] == 84
    assert [(one["name"], one["boxes"]) for one in made["goods"]] == [("Porcelain 450 nominal", 14)]


@pytest.mark.parametrize("name", RESULTS)
def test_without_a_room_there_is_data_all_the_same(name: str) -> None:
    text = (EXAMPLES / "larch-row-kitchen.toml").read_text(encoding="utf-8")
    loose = of_text("\n".join(line for line in text.splitlines() if not line.startswith(("SW-NE", "SE-NW"))))
    made = json.loads(as_json(RESULTS[name](loose)))
    assert "survey-too-few" in [finding["code"] for finding in made["findings"]]


@pytest.mark.parametrize("name", RESULTS)
def test_numbers_are_rounded_and_lengths_say_mm(name: str, kitchen: Solution, bath: Solution) -> None:
    for solution in (kitchen, bath):
        for key, value in values(RESULTS[name](solution)):
            if isinstance(value, float):
                assert value == round(value, 4), key
                assert math.isfinite(value), key
                assert math.copysign(1.0, value) > 0 or value < 0, f"negative zero at {key}"


@pytest.mark.parametrize("name", RESULTS)
def test_the_same_job_gives_the_same_bytes(name: str, kitchen: Solution) -> None:
    assert as_json(RESULTS[name](kitchen)) == as_json(RESULTS[name](solved("larch-row-kitchen")))


def test_json_has_no_word_for_a_number_that_is_none() -> None:
    for value in (math.nan, math.inf):
        with pytest.raises(ValueError, match="not JSON compliant"):
            as_json({"x_mm": value})
        with pytest.raises(ValueError, match="not JSON compliant"):
            as_line({"x_mm": value})


@pytest.mark.parametrize("name", RESULTS)
def test_on_one_line_it_says_the_same(name: str, kitchen: Solution) -> None:
    made = RESULTS[name](kitchen)
    assert json.loads(as_line(made)) == json.loads(as_json(made))
    assert "\n" not in as_line(made)


def test_a_number_has_no_negative_zero() -> None:
    assert str(number(-0.00001)) == "0.0"
    assert number(2.00005) == pytest.approx(2.0, abs=1e-4)


def test_a_blank_booking_says_what_to_read_and_what_it_gives() -> None:
    made = of_job.booking_data(booking(4))
    assert set(made) >= COMMON | {"corners", "readings", "sd_corner_mm", "least_redundancy", "wall_mm", "tape"}
    assert made["readings"][0] == {"key": "A-B", "from": "A", "to": "B", "why": "wall"}


def test_files_written_and_kept_are_listed_as_text(tmp_path: Path) -> None:
    made = of_job.files_data((), [tmp_path / "pack.pdf"], [tmp_path / "floor.dxf"])
    assert made["files"] == [str(tmp_path / "pack.pdf")]
    assert made["kept"] == [str(tmp_path / "floor.dxf")]
    assert set(made) >= COMMON


def test_a_loop_that_closes_has_no_ratio() -> None:
    loaded = load(EXAMPLES / "number-12-open-plan.toml")
    assert loaded.job is not None
    loops = of_job.survey_data(solve(loaded.job, findings=loaded.findings, lay=False))["loops"]
    assert None in [loop["ratio"] for loop in loops]
    assert as_line({"loops": loops})
