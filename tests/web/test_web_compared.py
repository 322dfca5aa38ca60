"""First lines side by side, and the lines at once while the floor is still to be laid."""

from typing import Any

from starlette.testclient import TestClient


def started(client: TestClient) -> dict[str, Any]:
    found: dict[str, Any] = client.post("/api/jobs", json={"name": "kitchen", "example": "larch-row-kitchen"}).json()
    return found


def put(client: TestClient, job: dict[str, Any], path: list[str | int], value: Any) -> Any:
    asked = {"base": job["digest"], "label": "an edit", "edits": [{"path": path, "value": value}]}
    return client.post(f"/api/jobs/{job['name']}/edits", json=asked)


def measured(client: TestClient, name: str) -> dict[str, Any]:
    found: dict[str, Any] = client.get(f"/api/jobs/{name}/measured").json()
    return found


def test_lines_are_compared_with_what_each_costs_and_how_to_choose_it(client: TestClient) -> None:
    job = started(client)
    answer = client.get(f"/api/jobs/{job['name']}/compared")
    assert answer.headers["x-digest"] == job["digest"]
    found = answer.json()["candidates"]
    yours = [one for one in found if one["yours"]]
    assert len(yours) == 1
    assert yours[0]["choose"] is None
    for one in found:
        drawn = one["drawn"]
        assert sum(len(shape["at_mm"]) for shape in drawn["full"]) == one["counts"]["full"]
        assert len(drawn["cut"]) >= one["counts"]["cut"]


def test_a_candidate_that_is_chosen_becomes_the_person_s_own(client: TestClient) -> None:
    job = started(client)
    found = client.get(f"/api/jobs/{job['name']}/compared").json()["candidates"]
    other = next(one for one in found if one["name"].startswith("middle of S"))
    edits = [{"path": ["control", key], "value": other["choose"][key]} for key in ("first_line", "centre")]
    asked = {"base": job["digest"], "label": "another line", "edits": edits}
    assert client.post(f"/api/jobs/{job['name']}/edits", json=asked).status_code == 200
    control = measured(client, job["name"])["control"]
    assert control["first_line"] == "middle of S to middle of N"
    assert control["centre"]["x_mm"] == other["centre"]["x_mm"]
    assert control["centre"]["y_mm"] == other["centre"]["y_mm"]


def test_the_lines_are_known_before_the_floor_is_laid(client: TestClient) -> None:
    job = started(client)
    found = measured(client, job["name"])
    control = found["control"]
    assert [line["name"] for line in control["lines"]] == ["first line", "square line", "45 left", "45 right"]
    # Held against half the joint, though no tile is laid yet.
    verdict = next(one for one in found["findings"] if one["code"] == "control-square-accuracy")
    assert verdict["expected"] == "half the joint, 1.5 mm"
    texts = [step["text"] for step in control["steps"]]
    assert "On wall W mark M1, 1788 mm from NW." in texts
    arcs = next(step for step in control["steps"] if "cross arcs at X1" in step["text"])
    assert {arc["radius_mm"] for arc in arcs["arcs"]} == {2000.0}
    assert len(arcs["arcs"]) == 2


def test_every_check_has_ends_that_a_reading_may_name(client: TestClient) -> None:
    job = started(client)
    checks = measured(client, job["name"])["control"]["checks"]
    readings = [{"between": one["ends"], "reads": one["expected_mm"]} for one in checks]
    assert put(client, job, ["control", "readings"], readings).status_code == 200
    found = measured(client, job["name"])
    assert len(found["control"]["readings"]) == len(checks)
    assert not [one for one in found["findings"] if one["code"] == "control-reading-unknown"]


def test_the_way_to_square_changes_how_far_out_the_line_may_be(client: TestClient) -> None:
    job = started(client)
    before = measured(client, job["name"])["control"]
    by_method = {way["method"]: way["far_mm"] for way in before["considered"]}
    assert by_method["laser"] is None
    assert put(client, job, ["control", "square"], "3-4-5").status_code == 200
    after = measured(client, job["name"])["control"]
    assert after["considered"][0]["method"] == "3-4-5"
    far = max(one["sd_mm"] for one in after["lines"][1]["drift"])
    assert far == by_method["3-4-5"] > by_method["compass"]
