"""The app's routes, asked as its page asks them."""

import io
import json
import time
import zipfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any
from urllib.parse import quote

import pytest
from starlette.testclient import TestClient

from floorwright.pattern.catalogue import PATTERNS
from floorwright.web import workers
from floorwright.web.blank import examples

KITCHEN = "larch-row-kitchen"


def started(client: TestClient, name: str = "kitchen", **asked: Any) -> dict[str, Any]:
    answer = client.post("/api/jobs", json={"name": name, **(asked or {"example": KITCHEN})})
    assert answer.status_code == 201, answer.text
    found: dict[str, Any] = answer.json()
    return found


def put(client: TestClient, job: dict[str, Any], path: list[str | int], value: Any) -> Any:
    asked = {"base": job["digest"], "label": "an edit", "edits": [{"path": path, "value": value}]}
    return client.post(f"/api/jobs/{job['name']}/edits", json=asked)


def events(text: str) -> list[tuple[str, Any]]:
    found = []
    for block in text.strip().split("\n\n"):
        kind, data = block.split("\n")
        found.append((kind.removeprefix("event: "), json.loads(data.removeprefix("data: "))))
    return found


def test_a_new_folder_holds_no_jobs(client: TestClient) -> None:
    assert client.get("/api/jobs").json()["jobs"] == []


def test_a_job_from_an_example_is_its_file(client: TestClient, tmp_path: Path) -> None:
    job = started(client)
    assert (tmp_path / "kitchen.toml").read_text(encoding="utf-8") == job["text"] == examples()[KITCHEN]
    assert client.get("/api/jobs").json()["jobs"] == ["kitchen"]


def test_a_taken_name_gets_a_number(client: TestClient) -> None:
    started(client)
    assert started(client)["name"] == "kitchen 2"


def test_a_blank_job_reads_as_a_room_to_measure(client: TestClient) -> None:
    job = started(client, "bay", corners=6, inward=["D"], imperial=True)
    found = client.get(f"/api/jobs/{job['name']}/measured").json()
    assert found["job"]["survey"]["outline"] == list("ABCDEF")
    assert found["survey"]["to_measure"]


def test_an_edit_is_in_the_file_and_can_be_undone_and_redone(client: TestClient, tmp_path: Path) -> None:
    job = started(client)
    edited = put(client, job, ["zones", 0, "joint"], 4).json()
    assert "joint = 4" in (tmp_path / "kitchen.toml").read_text(encoding="utf-8")
    assert (edited["undo"], edited["redo"]) == ("an edit", None)
    undone = client.post("/api/jobs/kitchen/undo").json()
    assert undone["text"] == job["text"] == (tmp_path / "kitchen.toml").read_text(encoding="utf-8")
    assert (undone["undo"], undone["redo"]) == (None, "an edit")
    assert client.post("/api/jobs/kitchen/redo").json()["text"] == edited["text"]
    assert client.post("/api/jobs/kitchen/redo").json()["error"]["code"] == "nothing"


def test_an_edit_after_undoing_cuts_off_what_was_undone(client: TestClient) -> None:
    job = started(client)
    put(client, job, ["zones", 0, "joint"], 4)
    undone = client.post("/api/jobs/kitchen/undo").json()
    again = put(client, undone, ["zones", 0, "joint"], 2).json()
    assert again["redo"] is None
    assert client.post("/api/jobs/kitchen/undo").json()["text"] == job["text"]


def test_two_tabs_that_edit_different_values_both_keep_theirs(client: TestClient) -> None:
    job = started(client)
    put(client, job, ["zones", 0, "joint"], 4)
    second = put(client, job, ["control", "compass"], 1500).json()
    assert second["merged"]
    assert "joint = 4" in second["text"]
    assert "compass = 1500" in second["text"]


def test_two_tabs_that_edit_one_value_are_told_of_both(client: TestClient) -> None:
    job = started(client)
    put(client, job, ["zones", 0, "joint"], 4)
    answer = put(client, job, ["zones", 0, "joint"], 2)
    assert answer.status_code == 409
    error = answer.json()["error"]
    assert (error["code"], error["path"], error["before"], error["now"]) == ("clash", ["zones", 0, "joint"], 3, 4)


def test_a_file_changed_by_somebody_else_is_noticed_and_kept(client: TestClient, tmp_path: Path) -> None:
    job = started(client)
    path = tmp_path / "kitchen.toml"
    path.write_text(job["text"].replace("compass = 2000", "compass = 1800 # the short one"), encoding="utf-8")
    edited = put(client, job, ["zones", 0, "joint"], 4).json()
    assert edited["merged"]
    assert "compass = 1800 # the short one" in path.read_text(encoding="utf-8")
    assert client.post("/api/jobs/kitchen/undo").json()["undo"] == "changed outside this app"


def test_the_history_outlasts_the_app_and_its_loss_loses_no_job(client: TestClient, tmp_path: Path) -> None:
    job = started(client)
    put(client, job, ["zones", 0, "joint"], 4)
    for path in tmp_path.glob(".floorwright-book*"):
        path.unlink()
    assert "joint = 4" in client.get("/api/jobs/kitchen").json()["text"]


def test_the_room_is_measured(client: TestClient) -> None:
    started(client)
    found = client.get("/api/jobs/kitchen/measured").json()
    assert [corner["name"] for corner in found["plan"]["corners"]] == ["SW", "SE", "NE", "NW"]
    assert abs(found["survey"]["area_m2"] - 15.138) < 0.001


def test_the_floor_is_solved_with_news_of_it(client: TestClient) -> None:
    started(client)
    told = events(client.get("/api/jobs/kitchen/solved").text)
    kind, found = told[-1]
    assert kind == "solved"
    assert {kind for kind, _ in told[:-1]} == {"progress"}
    assert found["result"]["layout"]["zones"][0]["counts"]["full"] > 0
    assert found["digest"] == client.get("/api/jobs/kitchen").json()["digest"]


def test_a_file_that_is_no_job_is_said_to_be_none(client: TestClient) -> None:
    job = started(client, "odd", text="units = 'cubits'\n")
    found = client.get(f"/api/jobs/{job['name']}/measured").json()
    assert found["findings"][0]["severity"] == "error"
    assert "plan" not in found


def test_the_pack_comes_down_whole(client: TestClient) -> None:
    started(client)
    answer = client.get("/api/jobs/kitchen/files/pack.pdf")
    assert answer.content.startswith(b"%PDF")
    archive = zipfile.ZipFile(io.BytesIO(client.get("/api/jobs/kitchen/files/pack.zip").content))
    assert {"pack.pdf", "floor.dxf"} <= set(archive.namelist())
    assert client.get("/api/jobs/kitchen/files/secret.txt").status_code == 404


def test_names_lead_nowhere_else(client: TestClient, tmp_path: Path) -> None:
    outside = tmp_path.parent / "outside.toml"
    outside.write_text("title = 'x'", encoding="utf-8")
    for name in ("../outside", "..%2Foutside", "a/b", ".hidden", "con", "x" * 81, "a\x00b", " a", "a."):
        assert client.get(f"/api/jobs/{quote(name)}").status_code in {404, 422}
        assert client.post("/api/jobs", json={"name": name, "text": ""}).status_code in {404, 422}
    (tmp_path / "link.toml").symlink_to(outside)
    assert client.get("/api/jobs/link").status_code == 404
    assert client.get("/api/jobs").json()["jobs"] == []


def test_no_answer_tells_a_path_of_the_machine(client: TestClient, tmp_path: Path) -> None:
    (tmp_path / "odd.toml").write_bytes(b"\xff\xfe\x00")
    for answer in (client.get("/api/jobs"), client.get("/api/jobs/odd"), client.get("/api/jobs/none")):
        assert str(tmp_path) not in answer.text


def test_a_drawing_put_beside_a_job_gives_its_room(client: TestClient, tmp_path: Path) -> None:
    ring = [[0, 0], [4200, 0], [4210, 3600], [0, 3590], [0, 0]]
    drawing = json.dumps({"type": "Polygon", "coordinates": [ring]})
    put_there = client.post("/api/beside/hall.geojson", content=drawing)
    assert put_there.json() == {"file": "hall.geojson"}
    job = started(client, "hall", text='units = "mm"\n')
    traced = put(client, job, ["survey", "traced"], "hall.geojson").json()
    asked = client.get("/api/jobs/hall/measured").json()["findings"][0]
    assert "whose unit is not said" in asked["found"]
    put(client, traced, ["survey", "drawn_in"], "mm")
    found = client.get("/api/jobs/hall/measured").json()
    assert len(found["plan"]["corners"]) == 4
    assert (tmp_path / "hall.geojson").read_text(encoding="utf-8") == drawing


def test_a_second_file_of_a_name_gets_a_number_and_the_same_one_does_not(client: TestClient) -> None:
    assert client.post("/api/beside/a.csv", content="1").json() == {"file": "a.csv"}
    assert client.post("/api/beside/a.csv", content="1").json() == {"file": "a.csv"}
    assert client.post("/api/beside/a.csv", content="2").json() == {"file": "a 2.csv"}


def test_what_is_no_drawing_or_table_is_not_put_there(client: TestClient, tmp_path: Path) -> None:
    before = sorted(tmp_path.iterdir())
    for name in ("kitchen.toml", "x.py", "dxf", "..%2Fa.csv", ".csv", "con.csv", "a.csv%00.toml"):
        assert client.post(f"/api/beside/{name}", content="x").status_code in {404, 422}
    assert client.post("/api/beside/a.dxf", content=b"0" * 20_000_001).status_code == 413
    assert sorted(tmp_path.iterdir()) == before


def place(client: TestClient, digest: str, **asked: Any) -> Any:
    where = {"digest": digest, "zone": "floor", "x_mm": 1000.0, "y_mm": 500.0, "angle_deg": 0.0}
    return client.post("/api/jobs/kitchen/place", json={**where, **asked})


def test_a_moved_pattern_gets_its_figures_and_its_pieces(client: TestClient) -> None:
    job = started(client)
    assert place(client, job["digest"]).json()["error"]["code"] == "unsolved"
    solved = events(client.get("/api/jobs/kitchen/solved").text)[-1][1]["result"]["layout"]["zones"][0]
    x, y = solved["origin_mm"]
    again = place(client, job["digest"], x_mm=x, y_mm=y, pieces=True).json()
    assert again["counts"] == solved["counts"]
    drawn = again["drawn"]
    assert sum(len(shape["at_mm"]) for shape in drawn["full"]) == solved["counts"]["full"]
    assert len(drawn["cut"]) == solved["counts"]["cut"]
    assert "a joint on the first line" in {catch["words"] for catch in again["catches"]}
    assert place(client, job["digest"], zone="cellar").status_code == 404
    edited = put(client, job, ["zones", 0, "joint"], 4).json()
    assert place(client, edited["digest"]).status_code == 409


def test_a_list_of_jobs_shows_what_state_each_is_in(client: TestClient) -> None:
    started(client)
    started(client, "hall", corners=6, inward=["D"])
    kitchen, hall = (client.get(f"/api/jobs/{name}/card").json() for name in ("kitchen", "hall"))
    assert (kitchen["errors"], kitchen["laid"], kitchen["to_measure"]) == (0, True, 0)
    assert len(kitchen["outlines_mm"][0]) >= 4
    assert (hall["outlines_mm"], hall["area_m2"], hall["laid"]) == ([], None, False)
    assert hall["to_measure"] > 0
    shown = client.get("/api/jobs").json()
    assert all(shown["changed"][name] > 0 for name in shown["jobs"])


HELD_UP = """
import time
from pathlib import Path

def card(text, name, folder, tell):
    (Path(folder) / "begun").touch()
    over = time.monotonic() + 20
    while not (Path(folder) / "go on").exists() and time.monotonic() < over:
        time.sleep(0.02)
    return '{"title": "late"}'

def measured(text, name, folder, tell):
    return '{"is": "measured"}'
"""


def test_a_job_is_read_while_the_list_still_waits_for_a_card(
    client: TestClient, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "tests_web_cards_held.py").write_text(HELD_UP, encoding="utf-8")
    monkeypatch.setattr(workers, "TASKS", "tests_web_cards_held")
    monkeypatch.syspath_prepend(str(tmp_path))
    started(client)
    with ThreadPoolExecutor(1) as thread:
        card = thread.submit(client.get, "/api/jobs/kitchen/card")
        while not (tmp_path / "begun").exists() and not card.done():
            time.sleep(0.02)
        assert client.get("/api/jobs/kitchen/measured").json() == {"is": "measured"}
        assert not card.done()
        (tmp_path / "go on").touch()
        assert card.result().json() == {"title": "late"}


def test_a_card_is_of_the_text_that_the_file_holds_now(client: TestClient, tmp_path: Path) -> None:
    started(client)
    before = client.get("/api/jobs/kitchen/card").json()
    assert client.get("/api/jobs/kitchen/card").json() == before
    path = tmp_path / "kitchen.toml"
    path.write_text(path.read_text(encoding="utf-8").replace("[survey]", "[survey", 1), encoding="utf-8")
    assert client.get("/api/jobs/kitchen/card").json()["errors"] > 0


def test_a_job_is_copied_and_renamed_with_its_history(client: TestClient, tmp_path: Path) -> None:
    job = started(client)
    put(client, job, ["zones", 0, "joint"], 4)
    copied = client.post("/api/jobs/kitchen/copy", json={"name": "kitchen"})
    assert copied.status_code == 201
    assert (copied.json()["name"], copied.json()["undo"]) == ("kitchen 2", None)
    named = client.post("/api/jobs/kitchen/rename", json={"name": "Back kitchen"}).json()
    assert (named["name"], named["undo"]) == ("Back kitchen", "an edit")
    assert sorted(path.name for path in tmp_path.glob("*.toml")) == ["Back kitchen.toml", "kitchen 2.toml"]
    assert client.post("/api/jobs/Back kitchen/undo").json()["text"] == job["text"]
    taken = client.post("/api/jobs/Back kitchen/rename", json={"name": "kitchen 2"})
    assert (taken.status_code, taken.json()["error"]["code"]) == (404, "job")
    assert client.post("/api/jobs/Back kitchen/rename", json={"name": "../out"}).status_code == 404


def test_readings_that_fix_no_room_make_a_sketch(client: TestClient) -> None:
    started(client, "hall", corners=6, inward=["D"])
    found = client.get("/api/jobs/hall/measured").json()
    assert set(found["sketch"]) == set("ABCDEF")
    assert found["file"]["survey"]["inward"] == ["D"]
    assert "sketch" not in client.get(f"/api/jobs/{started(client)['name']}/measured").json()


def test_the_layers_of_a_drawing_are_there_to_choose_from(client: TestClient) -> None:
    shapes = [
        {"type": "Feature", "properties": {"name": name}, "geometry": {"type": "Polygon", "coordinates": [ring]}}
        for name, ring in (
            ("hall", [[0, 0], [4, 0], [4, 3], [0, 3], [0, 0]]),
            ("bath", [[5, 0], [7, 0], [7, 2], [5, 2], [5, 0]]),
        )
    ]
    drawing = json.dumps({"type": "FeatureCollection", "features": shapes}).encode()
    assert client.post("/api/beside/flat.geojson", content=drawing).status_code == 201
    text = 'schema = 1\ntitle = "flat"\n\n[survey]\ntraced = "flat.geojson"\ndrawn_in = "m"\n'
    job = started(client, "flat", text=text)
    assert client.get("/api/jobs/flat/measured").json()["layers"] == ["bath", "hall"]
    put(client, job, ["survey", "layer"], "hall")
    found = client.get("/api/jobs/flat/measured").json()
    assert (found["layers"], len(found["plan"]["corners"])) == ([], 4)


def test_a_pack_is_made_once_and_its_files_come_from_that(client: TestClient) -> None:
    started(client)
    news = events(client.get("/api/jobs/kitchen/pack").text)
    assert news[0][0] == "progress"
    kind, packed = news[-1]
    assert kind == "packed"
    sizes = {one["file"]: one["bytes"] for one in packed["files"]}
    assert {"pack.pdf", "floor.dxf"} <= set(sizes)
    assert len(client.get("/api/jobs/kitchen/files/pack.pdf").content) == sizes["pack.pdf"]


def test_the_patterns_come_with_what_they_take_and_a_drawing(client: TestClient) -> None:
    found = client.get("/api/patterns").json()
    assert set(PATTERNS) == {one["name"] for one in found["patterns"]} == set(found["drawings"])
    bond = next(one for one in found["patterns"] if one["name"] == "brick bond")
    assert [key["key"] for key in bond["keys"]] == ["fraction", "shift"]
    grid = found["drawings"]["grid"]
    # A piece of 600 by 300 has the area of a square of 424: six of those wide.
    assert grid["size"] == [120, 80]
    assert grid["paths"][0].count("M") >= 6 * 4
    assert len(found["drawings"]["octagon and dot"]["paths"]) == 2
