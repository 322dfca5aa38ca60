"""The working screen: a pattern dragged, its figures from the server, the first paint, and what is sent.

    .venv/bin/python -m benchmarks.screen          all, with the floor of 30,000 pieces
    .venv/bin/python -m benchmarks.screen 3000     without the floor of 30,000

A server and a browser of our own, on halls drawn for the purpose. Frames are those that the browser gave; on a machine
that does other work too, read the milliseconds of processor that the page's own thread and the server took instead: a
frame at 60 a second has 16.7. "Slowed" is the browser's own switch, which slows the page's thread four times.
"""

import http.client
import json
import math
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from benchmarks.common import processor
from playwright.sync_api import Browser, CDPSession, Page, sync_playwright

from floorwright.web.pages import loaded_names, page, statics

SWITCHES = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"]
TILE = 300.0
JOINT = 3.0
DRAG_SECONDS = 4.0
DROPS = 40
LOADS = 9
MOST_MS = 120_000
TARGET_DROP_MS = {3_000: 50.0, 30_000: 200.0}

JOB = """schema = 1
title = "Hall of {pieces} pieces"
units = "mm"

[survey]
traced = "hall-{pieces}.geojson"
drawn_in = "mm"

[[goods]]
name = "tile"
length = 300
width = 300

[[zones]]
pattern = "grid"
goods = "tile"
joint = 3
gap = 5
"""

DRAGGED = """(seconds) => new Promise((done) => {
  const plan = document.querySelector("svg.plan");
  const box = plan.getBoundingClientRect();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  let frames = 0, first = 0, turn = 0, moves = 0;
  const seen = new MutationObserver(() => moves++);
  const style = { attributes: true, attributeFilter: ["style"] };
  for (const one of plan.querySelectorAll(".floor, .ghost")) seen.observe(one, style);
  const frame = (now) => {
    first ||= now;
    if (now - first > 1000 * seconds) return done([frames / ((now - first) / 1000), moves / frames, frames]);
    frames++;
    turn += 0.11;
    const at = { clientX: x + 60 * Math.cos(turn), clientY: y + 60 * Math.sin(turn), pointerId: 1, bubbles: true };
    plan.dispatchEvent(new PointerEvent("pointermove", at));
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
})"""
"""A pointer that is down goes in a circle, a step before each frame."""

WALL_SEEN = """() => new Promise((seen) => {
  const ready = () => document.querySelector("path.wall");
  const start = performance.now();
  const watch = new MutationObserver(() => ready() && (watch.disconnect(), seen(performance.now() - start)));
  watch.observe(document.body, { subtree: true, childList: true });
  document.querySelector(".job-card .job").click();
})"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """Something measured.

    Attributes:
        name: what.
        value: in `unit`.
        unit: `ms`.
        target: None where none is set.
        least: whether the target is the least that is good enough, not the most.
    """

    name: str
    value: float
    unit: str
    target: float | None = None
    least: bool = False

    def line(self) -> str:
        """Returns the line of the table."""
        shown = f"{self.name:58s} {self.value:9.1f} {self.unit:8s}"
        if self.target is None:
            return shown
        met = self.value >= self.target if self.least else self.value <= self.target
        return f"{shown} {'least' if self.least else 'most':5s} {self.target:6.0f}   {'pass' if met else 'MISS'}"


def hall(pieces: int) -> dict[str, str]:
    """Returns the files of a job: a hall a little out of square, with a recess, on which so many tiles lie."""
    pitch = TILE + JOINT
    width = math.sqrt(pieces * 1.3) * pitch
    depth = pieces * pitch**2 / width
    recess = 0.1 * width
    # What the recess takes away the hall is deeper by.
    depth += recess * 0.1 * depth / width
    ring: list[tuple[float, float]] = [
        (0, 0),
        (width, 0.002 * depth),
        (0.998 * width, depth),
        (0.6 * width, depth),
        (0.6 * width, 0.9 * depth),
        (0.6 * width - recess, 0.9 * depth),
        (0.6 * width - recess, depth),
        (0.001 * width, 0.999 * depth),
        (0, 0),
    ]
    whole = [[round(x), round(y)] for x, y in ring]
    shape = {"type": "Polygon", "coordinates": [whole]}
    return {f"hall-{pieces}.geojson": json.dumps(shape), f"hall {pieces}.toml": JOB.format(pieces=pieces)}


class Server:
    """The app in a process of its own, asked over one connection."""

    def __init__(self, folder: Path) -> None:
        command = [sys.executable, "-m", "floorwright", "serve", str(folder), "--no-browser", "--port", "0"]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        found = re.search(r"http://\S+", self.process.stdout.readline())
        assert found is not None
        self.link = found[0]
        self._wire = http.client.HTTPConnection(urlsplit(self.link).netloc)

    def ask(self, method: str, address: str, body: Any = None) -> bytes:
        """Returns the content of an answer."""
        headers = {"origin": self.link.rstrip("/"), "content-type": "application/json"}
        self._wire.request(method, address.replace(" ", "%20"), None if body is None else json.dumps(body), headers)
        answer = self._wire.getresponse()
        content = answer.read()
        assert answer.status < 400, content
        return content

    def solved(self, name: str) -> Any:
        """Returns the event that a job is solved with."""
        # The server has long closed a connection on which nothing was asked.
        self._wire.close()
        content = self.ask("GET", f"/api/jobs/{name}/solved").decode()
        return json.loads(content.strip().split("\n\n")[-1].split("\ndata: ", 1)[1])

    def cpu_seconds(self) -> float:
        """Returns what the server and all that it started have used of the processor."""
        tick = os.sysconf("SC_CLK_TCK")
        return sum(int(field) for one in self._family() for field in _stat(one)[11:15]) / tick

    def _family(self) -> list[int]:
        known = [self.process.pid]
        for one in known:
            known += [
                int(child)
                for each in Path(f"/proc/{one}/task").glob("*/children")
                for child in each.read_text().split()
            ]
        return known

    def end(self) -> None:
        """Ends it."""
        self._wire.close()
        self.process.terminate()
        self.process.wait()


def _stat(process: int) -> list[str]:
    """Returns the fields of a process behind its name, as the system counts them from the third on."""
    return Path(f"/proc/{process}/stat").read_text().rpartition(") ")[2].split()


def drops(server: Server, pieces: int) -> Iterator[Figure]:
    """Yields what the server takes for the exact figures of a pattern that was let go, over many positions."""
    name = f"hall {pieces}"
    found = server.solved(name)
    zone = found["result"]["layout"]["zones"][0]
    laid = sum(zone["counts"][kind] for kind in ("full", "cut"))
    yield Figure(name=f"pieces on {name}", value=laid, unit="")
    x, y = zone["origin_mm"]
    where = {"digest": found["digest"], "zone": zone["name"], "angle_deg": zone["angle_deg"]}

    def ask(n: int, *, pieces: bool) -> int:
        # Steps that share no measure with the tile, so that no position comes again.
        asked = {**where, "x_mm": x + 37.3 * n, "y_mm": y - 23.7 * n, "pieces": pieces}
        return len(server.ask("POST", f"/api/jobs/{name}/place", asked))

    for kind, with_pieces in (("drag", False), ("drop", True)):
        ask(0, pieces=with_pieces)
        times, before, size = [], server.cpu_seconds(), 0
        for n in range(1, DROPS + 1):
            start = time.perf_counter()
            size = ask(n, pieces=with_pieces)
            times.append(1e3 * (time.perf_counter() - start))
        cpu = 1e3 * (server.cpu_seconds() - before) / DROPS
        target = TARGET_DROP_MS[pieces] if with_pieces else None
        yield Figure(
            name=f"{kind} at {pieces}: median to the answer", value=statistics.median(times), unit="ms", target=target
        )
        yield Figure(name=f"{kind} at {pieces}: the server's processor", value=cpu, unit="ms")
        yield Figure(name=f"{kind} at {pieces}: answer", value=size / 1e3, unit="kB")


def first_paint(browser: Browser, link: str) -> Iterator[Figure]:
    """Yields when something is there to see, and when the first plan is, each from nothing kept by the browser."""
    paints, plans, works = [], [], []
    for _ in range(LOADS):
        opened = browser.new_context(viewport={"width": 1280, "height": 800})
        shown = opened.new_page()
        metrics = _metrics(shown)
        shown.goto(link)
        shown.wait_for_selector(".job-card")
        paints.append(shown.evaluate("performance.getEntriesByName('first-contentful-paint')[0].startTime"))
        works.append(1e3 * metrics()["TaskDuration"])
        plans.append(shown.evaluate(WALL_SEEN))
        opened.close()
    yield Figure(name="first contentful paint, median", value=statistics.median(paints), unit="ms", target=300.0)
    yield Figure(name="first contentful paint, worst", value=max(paints), unit="ms")
    yield Figure(name="page's thread until the jobs are listed, median", value=statistics.median(works), unit="ms")
    yield Figure(name="a job opened to its plan seen, median", value=statistics.median(plans), unit="ms")


def drags(browser: Browser, link: str, pieces: int) -> Iterator[Figure]:
    """Yields frames a second and the page's own time for each, as the pattern and the plan are dragged."""
    opened = browser.new_context(viewport={"width": 1280, "height": 800})
    opened.set_default_timeout(MOST_MS)
    shown = opened.new_page()
    shown.goto(link)
    shown.get_by_role("button", name=f"open hall {pieces}", exact=True).click()
    shown.get_by_role("button", name="Lay", exact=True).click()
    shown.locator("[data-hand=take]:enabled").wait_for()
    yield from _dragged(shown, "plan dragged", None, None)
    shown.locator("[data-hand=take]").click()
    shown.locator("[data-pieces=exact]").wait_for(state="attached")
    yield from _dragged(shown, "pattern dragged", 55.0, 30.0)
    opened.close()


def _dragged(shown: Page, what: str, target: float | None, slowed: float | None) -> Iterator[Figure]:
    session = shown.context.new_cdp_session(shown)
    for rate, name, least in ((1, what, target), (4, f"{what}, slowed four times", slowed)):
        session.send("Emulation.setCPUThrottlingRate", {"rate": rate})
        frames, work, followed = _drag(shown, session)
        yield Figure(name=f"{name}: frames", value=frames, unit="a second", target=least, least=True)
        yield Figure(name=f"{name}: page's thread", value=work, unit="ms/frame")
        yield Figure(name=f"{name}: positions drawn", value=followed, unit="a frame")
    session.send("Emulation.setCPUThrottlingRate", {"rate": 1})
    session.detach()


def _drag(shown: Page, session: CDPSession) -> tuple[float, float, float]:
    """Returns frames a second, and for each ms of the page's thread and positions drawn."""
    box = shown.locator("svg.plan").bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    metrics = _metrics(shown, session)
    shown.mouse.move(x, y)
    shown.mouse.down()
    shown.mouse.move(x + 20, y)
    before = metrics()["TaskDuration"]
    frames, moves, count = shown.evaluate(DRAGGED, DRAG_SECONDS)
    work = metrics()["TaskDuration"] - before
    shown.mouse.up()
    return frames, 1e3 * work / count, moves


def _metrics(shown: Page, session: CDPSession | None = None) -> Callable[[], dict[str, float]]:
    """Returns what tells what the page's own thread has used of the processor and for what, seconds."""
    session = session or shown.context.new_cdp_session(shown)
    # Its processor time: what others do on the machine does not count.
    session.send("Performance.enable", {"timeDomain": "threadTicks"})
    return lambda: {one["name"]: one["value"] for one in session.send("Performance.getMetrics")["metrics"]}


def sizes(server: Server) -> Iterator[Figure]:
    """Yields what is sent."""
    sent = [page(), *(statics()[name] for name in loaded_names())]
    whole = sum(len(one.zipped) for one in sent) / 1e3
    yield Figure(name=f"all {len(sent)} files but the fonts, gzipped as sent", value=whole, unit="kB", target=120.0)
    copy = server.ask("GET", "/api/jobs/hall 3000/files/site.html")
    yield Figure(name="site copy at 3000", value=len(copy) / 1e3, unit="kB", target=400.0)


@contextmanager
def serving() -> Iterator[Server]:
    """Yields a server on a folder with the halls."""
    with tempfile.TemporaryDirectory() as folder:
        for pieces in TARGET_DROP_MS:
            for name, text in hall(pieces).items():
                (Path(folder) / name).write_text(text, encoding="utf-8")
        server = Server(Path(folder))
        try:
            yield server
        finally:
            server.end()


def main() -> None:
    """Prints the table as it is measured."""
    floors = [int(one) for one in sys.argv[1:]] or sorted(TARGET_DROP_MS)
    print(processor())
    with serving() as server, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=SWITCHES)
        for measured in (
            sizes(server),
            first_paint(browser, server.link),
            drags(browser, server.link, 3_000),
            *(drops(server, pieces) for pieces in floors),
        ):
            for figure in measured:
                print(figure.line(), flush=True)
        browser.close()


if __name__ == "__main__":
    main()
