"""Requests that nobody would make and files that nobody should send: refused in the one shape, no fault of ours."""

import json
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import quote

import pytest
import schemathesis
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schemathesis.core.result import Ok
from starlette.testclient import TestClient

from floorwright.web.app import create_app
from floorwright.web.blank import examples
from floorwright.web.guard import Guard, hosts_of

ORIGIN = "http://localhost:8000"
KITCHEN = examples()["larch-row-kitchen"]


@pytest.fixture(scope="module")
def client() -> Iterator[TestClient]:
    with TemporaryDirectory() as folder:
        (Path(folder) / "kitchen.toml").write_text(KITCHEN, encoding="utf-8")
        app = create_app(Path(folder), Guard(hosts=hosts_of(8000)))
        with TestClient(app, base_url=ORIGIN, headers={"origin": ORIGIN}, raise_server_exceptions=False) as client:
            yield client


def operations() -> list[Any]:
    """The app's routes by its own description, less those that take seconds: they have tests of their own."""
    with TemporaryDirectory() as folder:
        described = create_app(Path(folder), Guard(hosts=frozenset())).openapi()
    schema = schemathesis.openapi.from_dict(described).exclude(path_regex="/(solved|files)")
    return [found.ok() for found in schema.get_all_operations() if isinstance(found, Ok)]


@pytest.mark.parametrize("operation", operations(), ids=lambda one: one.label)
@given(data=st.data())
@settings(max_examples=20, suppress_health_check=list(HealthCheck))
def test_no_request_brings_the_app_down(operation: Any, data: st.DataObject, client: TestClient) -> None:
    asked = data.draw(operation.as_strategy()).as_transport_kwargs(base_url=ORIGIN)
    body = {"content" if key == "data" else key: asked[key] for key in ("data", "json") if asked.get(key) is not None}
    answer = client.request(asked["method"], asked["url"], params=asked.get("params"), **body)
    assert answer.status_code < 500, answer.text
    if answer.status_code >= 400:
        assert {"code", "message"} <= set(json.loads(answer.content)["error"])


@given(st.binary(max_size=400), st.sampled_from(["dxf", "geojson", "csv"]))
@settings(max_examples=30, suppress_health_check=list(HealthCheck))
def test_a_file_of_rubbish_beside_a_job_is_a_finding(client: TestClient, content: bytes, end: str) -> None:
    file = client.post(f"/api/beside/rubbish.{end}", content=content).json()["file"]
    key = "coordinates" if end == "csv" else "traced"
    text = f'units = "mm"\n\n[survey]\n{key} = "{file}"\n'
    job = client.post("/api/jobs", json={"name": "rubbish", "text": text}).json()
    answer = client.get(f"/api/jobs/{quote(job['name'])}/measured")
    assert answer.status_code == 200
    assert answer.json()["findings"]


def _deep(depth: int) -> bytes:
    return b"[" * depth + b"]" * depth


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("deep.geojson", _deep(200_000)),
        ("long.csv", b"name,east,north\n" + b"a" * 5_000_000),
        ("wide.geojson", b'{"type":"Polygon","coordinates":[[' + b"[0,0]," * 300_000 + b"[0,0]]]}"),
        ("huge.geojson", b'{"type":"Polygon","coordinates":[[[1e999,0],[-1e999,0],[0,1e308]]]}'),
        ("loop.dxf", b"0\nSECTION\n2\nENTITIES\n" + b"0\nLINE\n10\n0\n20\n0\n11\n1\n21\n1\n" * 60_000),
    ],
)
def test_a_hostile_file_neither_hangs_nor_crashes_the_app(client: TestClient, name: str, content: bytes) -> None:
    file = client.post(f"/api/beside/{name}", content=content).json()["file"]
    key = "coordinates" if name.endswith("csv") else "traced"
    text = f'units = "mm"\n\n[survey]\n{key} = "{file}"\ndrawn_in = "mm"\n'
    job = client.post("/api/jobs", json={"name": name.split(".")[0], "text": text}).json()
    answer = client.get(f"/api/jobs/{quote(job['name'])}/measured")
    assert answer.status_code in {200, 504}
    assert client.get("/api/jobs/kitchen/measured").status_code == 200
