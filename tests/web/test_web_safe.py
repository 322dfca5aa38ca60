"""Safe and steady: who is reached, how much is taken in, what an error tells, and what waits for nothing."""

import contextlib
import http.client
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from floorwright.web import workers
from floorwright.web.app import create_app
from floorwright.web.gate import LARGEST_BODY
from floorwright.web.guard import Guard, hosts_of
from floorwright.web.serve import LOCAL, take_post

ORIGIN = "http://localhost:8000"
KITCHEN = "larch-row-kitchen"


@pytest.mark.parametrize("lan", [False, True])
def test_nobody_but_this_machine_is_let_in_unless_asked(lan: bool) -> None:
    post = take_post(0, lan=lan)
    with post.listener:
        assert (post.listener.getsockname()[0] == LOCAL) is not lan
        assert (post.guard.key is None, post.lan is None) == (not lan, not lan)


def test_a_small_answer_is_not_held_back() -> None:
    post = take_post(0, lan=False)
    with post.listener:
        # The event loop switches the holding back off for these alone.
        assert post.listener.proto == socket.IPPROTO_TCP


def test_no_two_starts_share_a_key() -> None:
    keys = set()
    for _ in range(3):
        post = take_post(0, lan=True)
        post.listener.close()
        assert post.guard.key is not None
        assert len(post.guard.key) >= 20
        keys.add(post.guard.key)
    assert len(keys) == 3


def test_a_request_that_says_it_is_too_large_is_not_read(client: TestClient) -> None:
    answer = client.post("/api/jobs", content=b"{}", headers={"content-length": str(LARGEST_BODY + 1)})
    assert answer.status_code == 413
    assert "MB at most" in answer.json()["error"]["message"]


@pytest.mark.parametrize("address", ["/api/jobs", "/api/jobs/hall/edits", "/api/beside/hall.csv"])
def test_a_request_that_goes_on_for_ever_is_cut_off(client: TestClient, address: str) -> None:
    sent = 0

    def endless() -> Iterator[bytes]:
        nonlocal sent
        while sent < 4 * LARGEST_BODY:
            sent += 1_000_000
            yield b" " * 1_000_000

    answer = client.post(address, content=endless(), headers={"content-type": "application/json"})
    assert answer.status_code == 413
    assert set(answer.json()["error"]) >= {"code", "message"}


def test_a_disk_that_fails_is_said_in_the_one_shape_and_no_path_is_told(tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    folder.mkdir()
    app = create_app(folder, Guard(hosts=hosts_of(8000)))
    with TestClient(app, base_url=ORIGIN, headers={"origin": ORIGIN}, raise_server_exceptions=False) as client:
        job = started(client)
        shutil.rmtree(folder)
        asked = {"base": job["digest"], "label": "x", "edits": [{"path": ["title"], "value": "x"}]}
        for answer, status in (
            (client.post("/api/jobs", json={"name": "hall", "text": ""}), 500),
            (client.post("/api/beside/hall.csv", content=b"x"), 500),
            (client.post("/api/jobs/kitchen/edits", json=asked), 404),
        ):
            assert answer.status_code == status
            assert set(answer.json()["error"]) >= {"code", "message"}
            assert str(tmp_path) not in answer.text


HELD = "tests_web_held_up"


def test_a_pattern_is_moved_while_every_slow_process_is_busy(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / f"{HELD}.py").write_text(
        "import time\n"
        "from pathlib import Path\n"
        "from floorwright.web.tasks import *\n"
        "def packed(text, name, folder, tell):\n"
        "    tell('begun', 0.1)\n"
        "    while not (Path(folder) / 'go.csv').exists():\n"
        "        time.sleep(0.05)\n"
        "    return {}\n",
        encoding="utf-8",
    )
    monkeypatch.setattr(workers, "TASKS", HELD)
    monkeypatch.syspath_prepend(str(tmp_path))
    folder = tmp_path / "jobs"
    folder.mkdir()
    app = create_app(folder, Guard(hosts=hosts_of(8000)))
    with TestClient(app, base_url=ORIGIN, headers={"origin": ORIGIN}) as client, ThreadPoolExecutor(2) as threads:
        job = started(client)
        started(client, "other")
        client.get("/api/jobs/kitchen/solved")
        packs = [threads.submit(client.get, f"/api/jobs/{name}/pack") for name in ("kitchen", "other")]
        where = {"digest": job["digest"], "zone": "floor", "x_mm": 100.0, "y_mm": 50.0, "angle_deg": 0.0}
        try:
            for _ in range(3):
                assert client.post("/api/jobs/kitchen/place", json=where).json()["counts"]["full"] > 0
            assert client.get("/api/jobs/kitchen/measured").status_code == 200
            assert not any(pack.done() for pack in packs)
        finally:
            (folder / "go.csv").touch()
        assert all("packed" in pack.result().text for pack in packs)


def started(client: TestClient, name: str = "kitchen") -> dict[str, Any]:
    job: dict[str, Any] = client.post("/api/jobs", json={"name": name, "example": KITCHEN}).json()
    return job


class Killed:
    """The app in a process of its own, that can be killed."""

    def __init__(self, folder: Path) -> None:
        command = [sys.executable, "-m", "floorwright", "serve", str(folder), "--no-browser", "--port", "0"]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        found = re.search(r"http://\S+/", self.process.stdout.readline())
        assert found is not None
        self.link = found[0]

    def ask(self, address: str, body: Any = None) -> Any:
        data = None if body is None else json.dumps(body).encode()
        headers = {"origin": self.link.rstrip("/"), "content-type": "application/json"}
        with urllib.request.urlopen(urllib.request.Request(f"{self.link}api/{address}", data, headers)) as answer:
            return json.load(answer)

    def kill(self) -> None:
        os.kill(self.process.pid, signal.SIGKILL)
        self.process.communicate()


def test_killed_in_a_storm_of_requests_nothing_that_was_answered_is_lost(tmp_path: Path) -> None:
    app, answered = Killed(tmp_path), 0
    job = app.ask("jobs", {"name": "hall", "text": '# kept\ntitle = "0"\n'})

    def storm() -> None:
        nonlocal answered, job
        with contextlib.suppress(OSError, http.client.HTTPException):
            while True:
                edit = {"path": ["title"], "value": str(answered + 1)}
                job = app.ask("jobs/hall/edits", {"base": job["digest"], "label": "x", "edits": [edit]})
                answered += 1

    with ThreadPoolExecutor(1) as thread:
        storming = thread.submit(storm)
        while answered < 25 and not storming.done():
            time.sleep(0.01)
        app.kill()
        storming.result()
    text = (tmp_path / "hall.toml").read_text(encoding="utf-8")
    again = Killed(tmp_path)
    try:
        found = again.ask("jobs/hall")
        assert found["text"] == text
        assert text in {f'# kept\ntitle = "{number}"\n' for number in (answered, answered + 1)}
        for _ in range(3):
            found = again.ask("jobs/hall/undo", {})
        assert found["text"] in {f'# kept\ntitle = "{answered - back}"\n' for back in (2, 3)}
    finally:
        again.kill()
