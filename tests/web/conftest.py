"""The app over a folder of its own, asked without a browser."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi import FastAPI
from starlette.testclient import TestClient

from floorwright.web.app import create_app
from floorwright.web.guard import Guard, hosts_of

PORT = 8000
ORIGIN = f"http://localhost:{PORT}"


@pytest.fixture
def app(tmp_path: Path) -> FastAPI:
    return create_app(tmp_path, Guard(hosts=hosts_of(PORT)))


@pytest.fixture
def client(app: FastAPI) -> Iterator[TestClient]:
    with TestClient(app, base_url=ORIGIN, headers={"origin": ORIGIN}) as client:
        yield client
