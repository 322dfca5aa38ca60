"""`floorwright serve` as it is run: it says where it is, answers there, and ends at Ctrl-C."""

import os
import re
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from pathlib import Path

import pytest


def serve(folder: Path, *options: str) -> subprocess.Popen[str]:
    command = [sys.executable, "-m", "floorwright", "serve", str(folder), "--no-browser", *options]
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=dict(os.environ))


def link_of(server: subprocess.Popen[str]) -> str:
    assert server.stdout is not None
    found = re.search(r"http://\S+", server.stdout.readline())
    assert found is not None
    return found[0]


def test_it_says_where_it_is_and_ends_at_ctrl_c(tmp_path: Path) -> None:
    with serve(tmp_path / "jobs", "--port", "0") as server:
        link = link_of(server)
        assert link.startswith("http://127.0.0.1:")
        with urllib.request.urlopen(link) as answer:
            assert b"floorwright" in answer.read()
        server.send_signal(signal.SIGINT)
        _, said = server.communicate(timeout=20)
    assert "Traceback" not in said
    assert (tmp_path / "jobs").is_dir()


def test_a_taken_port_is_said_so(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        with serve(tmp_path, "--port", str(taken.getsockname()[1])) as server:
            _, said = server.communicate(timeout=20)
    assert server.returncode == 2
    assert "is taken" in said
    assert "Traceback" not in said


@pytest.mark.slow
def test_on_the_network_the_link_has_a_key_and_the_danger_is_said(tmp_path: Path) -> None:
    with serve(tmp_path, "--port", "0", "--lan") as server:
        link = link_of(server)
        assert "?key=" in link
        with urllib.request.urlopen(link) as answer:
            assert answer.status == 200
        with pytest.raises(urllib.error.HTTPError, match="401"):
            urllib.request.urlopen(link.split("?")[0])
        server.send_signal(signal.SIGINT)
        shown, said = server.communicate(timeout=20)
    assert "█" in shown
    assert "not encrypted" in said
