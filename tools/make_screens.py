"""Remakes the pictures of the working screen in docs/pictures/screen/ from the example jobs.

    .venv/bin/python -m tools.make_screens [NAME ...]

Each screen is taken on a desk and on a phone, in the light and in the dark. It needs Chromium. Names make only those.
"""

import io
import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, Page, sync_playwright

ROOT = Path(__file__).parent.parent
PICTURES = ROOT / "docs" / "pictures" / "screen"
COLOURS = 64
ALIKE = 20
"""Two colours less apart than this, their three parts added up, are one."""
CHANGED = 1_776_672_000
"""20 April 2026: what the jobs say that they were changed on."""
SOLVED_MS = 120_000
MOVED_MS = 400
"""For what moves to come to rest."""

SETTLED = """() => !document.querySelector(".working")
    && !/^(Working the|Laying the|Comparing anew)/m.test(document.querySelector(".panel").innerText)"""

KITCHEN, BATH, COURT = "Larch Row kitchen", "plot-7-bath", "mill-yard-circle"
OPEN_PLAN, PATIO, GARDEN_ROOM = "Number 12, open plan", "Mill Lane patio", "Willow End garden room"


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """Where a screen is looked at: its size in pixels, and how many of the device's there are to each."""

    name: str
    width: int
    height: int
    scale: int


DESKS = (Desk(name="desk", width=1280, height=800, scale=1), Desk(name="phone", width=360, height=740, scale=2))


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """A screen: its name, the job that it is of, none for the list of jobs, the stage, and what is done there first."""

    name: str
    job: str = ""
    stage: str = ""
    does: Callable[[Page], None] | None = None


def slipped(page: Page) -> None:
    """Reads a diagonal 50 short."""
    page.get_by_role("button", name="read SW to NE again").click()
    page.keyboard.type("5480")
    page.keyboard.press("Enter")
    page.locator(".doubt").first.wait_for()


def booking(page: Page) -> None:
    """Asks for a reading anew, part of it typed."""
    page.get_by_role("button", name="read A to B again").click()
    page.keyboard.type("7' 3 1/2")


def part(name: str) -> Callable[[Page], None]:
    """Returns what goes to a part of setting out."""
    return lambda page: page.get_by_role("button", name=name, exact=True).click()


def compared(page: Page) -> None:
    """Waits for the lines side by side."""
    page.locator(".candidate").nth(2).wait_for(timeout=SOLVED_MS)


def in_hand(page: Page) -> None:
    """Takes the pattern in hand and moves it."""
    page.locator("[data-hand=take]").click()
    page.locator("[data-pieces=exact]").wait_for(state="attached")
    page.locator("svg.plan").focus()
    for _ in range(4):
        page.keyboard.press("Shift+ArrowRight")


def why(page: Page) -> None:
    """Opens the sums of a wall."""
    page.get_by_role("button", name="why the cut at near").first.click()


def ring(page: Page) -> None:
    """Touches the ring of setts."""
    box = page.locator("path.wall").bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] * 0.56)
    page.get_by_text("From the inside out").first.wait_for()


SCREENS = (
    Screen(name="jobs"),
    Screen(name="measure", job=KITCHEN, stage="Measure"),
    Screen(name="keypad", job=BATH, stage="Measure", does=booking),
    Screen(name="slip", job=KITCHEN, stage="Measure", does=slipped),
    Screen(name="lines", job=KITCHEN, stage="Set out", does=compared),
    Screen(name="tools", job=BATH, stage="Layout", does=part("Tools")),
    Screen(name="steps", job=KITCHEN, stage="Set out", does=part("Steps")),
    Screen(name="check", job=BATH, stage="Layout", does=part("Check")),
    Screen(name="lay", job=OPEN_PLAN, stage="Lay"),
    Screen(name="why", job=BATH, stage="Lay", does=why),
    Screen(name="move", job=KITCHEN, stage="Lay", does=in_hand),
    Screen(name="rings", job=COURT, stage="Lay", does=ring),
    Screen(name="scored", job=PATIO, stage="Lay"),
    Screen(name="cut", job=KITCHEN, stage="Cut and order"),
    Screen(name="site", job=GARDEN_ROOM, stage="Take to site"),
)


@contextmanager
def served() -> Iterator[tuple[Path, str]]:
    """Yields a folder with the examples, and where it is served."""
    with tempfile.TemporaryDirectory() as held:
        folder = Path(held) / "spring 2026"
        folder.mkdir()
        command = [sys.executable, "-m", "floorwright", "serve", str(folder), "--no-browser", "--port", "0"]
        process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        try:
            assert process.stdout is not None
            found = re.search(r"http://\S+", process.stdout.readline())
            assert found is not None
            yield folder, found[0]
        finally:
            process.terminate()
            process.wait()


def fill(folder: Path) -> None:
    """Puts the examples into the folder as they are."""
    for example in sorted((ROOT / "examples").glob("*.toml")):
        there = folder / example.name
        shutil.copyfile(example, there)
        os.utime(there, (CHANGED, CHANGED))


def taken(browser: Browser, link: str, screen: Screen, desk: Desk, scheme: str) -> bytes:
    """Returns a screen as PNG."""
    context = browser.new_context(
        viewport={"width": desk.width, "height": desk.height},
        device_scale_factor=desk.scale,
        color_scheme="dark" if scheme == "dark" else "light",
        locale="en-GB",
        timezone_id="UTC",
        reduced_motion="reduce",
    )
    page = context.new_page()
    page.set_default_timeout(SOLVED_MS)
    page.goto(link)
    page.locator(".job-card").last.wait_for()
    page.locator(".job-picture .blank").first.wait_for(state="detached")
    if screen.job:
        page.get_by_role("button", name=f"open {screen.job}", exact=True).click()
        page.locator("path.wall").wait_for()
        page.get_by_role("button", name=screen.stage, exact=True).click()
        page.wait_for_timeout(MOVED_MS)
        page.wait_for_function(SETTLED)
        if screen.does:
            screen.does(page)
            page.wait_for_function(SETTLED)
    page.evaluate("document.activeElement?.blur()")
    page.wait_for_timeout(MOVED_MS)
    found = page.screenshot()
    context.close()
    return found


def small(png: bytes) -> bytes:
    """Returns a picture in few colours: those that it has most of, no two nearly alike, so that none of them shifts."""
    picture = Image.open(io.BytesIO(png)).convert("RGB")
    every = picture.getcolors(picture.width * picture.height)
    kept: list[tuple[int, ...]] = []
    for _, colour in sorted(every or [], reverse=True):
        assert isinstance(colour, tuple)
        if all(sum(abs(a - b) for a, b in zip(colour, other, strict=True)) >= ALIKE for other in kept):
            kept.append(colour)
        if len(kept) == COLOURS:
            break
    palette = Image.new("P", (1, 1))
    palette.putpalette([part for colour in kept for part in colour])
    written = io.BytesIO()
    picture.quantize(palette=palette, dither=Image.Dither.NONE).save(written, "PNG", optimize=True)
    return written.getvalue()


def main(names: list[str]) -> None:
    """Writes docs/pictures/screen/."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    program = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    assert program, "there is no Chromium: run ./test, which brings it"
    switches = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-sync"]
    with served() as (folder, link), sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=switches)
        for screen in SCREENS:
            if names and screen.name not in names:
                continue
            for desk in DESKS:
                for scheme in ("light", "dark"):
                    fill(folder)
                    made = small(taken(browser, link, screen, desk, scheme))
                    (PICTURES / f"{screen.name}-{desk.name}-{scheme}.png").write_bytes(made)
        browser.close()


if __name__ == "__main__":
    main(sys.argv[1:])
