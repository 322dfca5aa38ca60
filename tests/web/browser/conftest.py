"""A real browser on the real app: one browser and one server for the session, a folder for each test."""

import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

ROOT = Path(__file__).parents[3]

SWITCHES = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

WAIT_MS = 20_000
"""A process of the app takes seconds to start where the machine is busy; nothing is said of how fast it is."""

expect.set_options(timeout=WAIT_MS)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    program = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    assert program, "there is no Chromium: run ./test, which brings it"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=SWITCHES)
        yield browser
        browser.close()


@dataclass
class Server:
    """The app in a process of its own."""

    folder: Path
    process: subprocess.Popen[str]
    link: str

    def end(self) -> None:
        self.process.terminate()
        self.process.communicate(timeout=20)

    def kill(self) -> None:
        self.process.kill()
        self.process.communicate(timeout=20)


def served(folder: Path, port: str = "0", *options: str) -> Server:
    command = [sys.executable, "-m", "floorwright", "serve", str(folder), "--no-browser", "--port", port, *options]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    found = re.search(r"http://\S+", process.stdout.readline())
    assert found is not None
    return Server(folder=folder, process=process, link=found[0])


@pytest.fixture(scope="session")
def standing(tmp_path_factory: pytest.TempPathFactory) -> Iterator[subprocess.Popen[str]]:
    """A server whose processes are warm after the first test; what one has worked out, it need not again."""
    command = [sys.executable, "-m", "tests.web.browser.standing", str(tmp_path_factory.mktemp("none"))]
    process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, cwd=ROOT)
    yield process
    process.communicate(timeout=20)


@pytest.fixture
def server(standing: subprocess.Popen[str], tmp_path: Path) -> Server:
    """The standing server on a folder of the test's own, with a history of its own."""
    folder = tmp_path / "jobs"
    folder.mkdir()
    assert standing.stdin is not None
    assert standing.stdout is not None
    standing.stdin.write(f"{folder}\n")
    standing.stdin.flush()
    return Server(folder=folder, process=standing, link=standing.stdout.readline().strip())


@pytest.fixture
def serve() -> Callable[..., Server]:
    """Serves a folder, at a port if one is given; whoever asks ends it."""
    return served


class Watched:
    """A context whose pages may ask nobody but the app, and whose scripts may not fail."""

    def __init__(self, context: BrowserContext, link: str) -> None:
        self.context = context
        self.link = link
        self.faults: list[str] = []
        context.on("request", self._asked)
        context.on("weberror", lambda error: self.faults.append(f"script: {error.error}"))
        context.on("console", self._said)

    def _asked(self, request: Any) -> None:
        if not request.url.startswith((self.link, "data:", "blob:")):
            self.faults.append(f"asked outside: {request.url}")

    def _said(self, message: Any) -> None:
        # A refusal that the app tells of is not a fault of the page.
        if message.type == "error" and "status of 4" not in message.text:
            self.faults.append(f"console: {message.text}")

    def page(self) -> Page:
        page = self.context.new_page()
        page.goto(self.link)
        page.wait_for_selector(".new-job, .desk")
        return page


@pytest.fixture
def watch(browser: Browser, server: Server) -> Iterator[Any]:
    """Opens watched contexts: `watch(viewport=...)`; at the end nothing may have gone wrong in them."""
    opened: list[Watched] = []

    def open_(**how: Any) -> Watched:
        how = {"viewport": {"width": 1280, "height": 800}, **how}
        watched = Watched(browser.new_context(**how), server.link)
        watched.context.set_default_timeout(WAIT_MS)
        opened.append(watched)
        return watched

    yield open_
    for watched in opened:
        watched.context.close()
    assert [fault for watched in opened for fault in watched.faults] == []


@pytest.fixture
def page(watch: Any) -> Page:
    page: Page = watch().page()
    return page
