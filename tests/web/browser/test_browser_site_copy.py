"""The site copy on a phone: opened from a file, offline, with fingers."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from floorwright.export.files import site_files
from floorwright.job.load import load_text
from floorwright.job.solve import solve
from floorwright.sheets.pack import pack

ROOT = Path(__file__).parents[3]
AXE = ROOT / "tools" / "client" / "node_modules" / "axe-core" / "axe.min.js"
PHONE: dict[str, Any] = {
    "viewport": {"width": 360, "height": 740},
    "device_scale_factor": 3,
    "has_touch": True,
    "is_mobile": True,
}
NO_STORAGE = "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('no', 'SecurityError'); }})"
SMALL = """[...document.querySelectorAll("button, input")].filter((one) => {
  const { width, height } = one.getBoundingClientRect();
  return width > 0 && (width < 44 || height < 44);
}).map((one) => one.outerHTML)"""


@pytest.fixture(scope="module")
def copies(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the site copies of two examples, metric and imperial."""
    folder = tmp_path_factory.mktemp("site")
    for name in ("larch-row-kitchen", "plot-7-bath", "mill-lane-patio"):
        loaded = load_text((ROOT / "examples" / f"{name}.toml").read_text(encoding="utf-8"), f"{name}.toml", ROOT)
        assert loaded.job is not None
        files = site_files(pack(solve(loaded.job, findings=loaded.findings)))
        (folder / f"{name}.html").write_bytes(files["site.html"])
    return folder


class Phone:
    """A phone without signal, on which a copy is opened."""

    def __init__(self, browser: Browser, folder: Path, **how: Any) -> None:
        self.context = browser.new_context(**{**PHONE, **how})
        self.context.set_default_timeout(10_000)
        self.context.set_offline(True)
        self.folder = folder
        self.faults: list[str] = []
        self.asked: list[str] = []
        self.context.on("request", lambda request: self.asked.append(request.url))
        self.context.on("weberror", lambda error: self.faults.append(str(error.error)))
        self.context.on("console", lambda message: self.faults.append(message.text))

    def open(self, name: str = "larch-row-kitchen") -> Page:
        page = self.context.new_page()
        page.goto((self.folder / f"{name}.html").as_uri())
        page.wait_for_selector(".tab")
        return page


@pytest.fixture
def phone(browser: Browser, copies: Path) -> Iterator[Phone]:
    phone = Phone(browser, copies)
    yield phone
    phone.context.close()
    assert phone.faults == []
    assert [url for url in phone.asked if not url.startswith(copies.as_uri())] == []


def tab(page: Page, name: str) -> None:
    page.get_by_role("navigation").get_by_role("button", name=name, exact=True).click()


def type_in(page: Page, keys: str) -> None:
    spoken = {"'": "feet", '"': "inches", "/": "over", " ": "space", ".": "point"}
    for key in keys:
        page.locator(".keys").get_by_role("button", name=spoken.get(key, key), exact=True).click()


def test_the_app_makes_the_copy_and_says_how_large_it_is(page: Page, tmp_path: Path) -> None:
    page.get_by_role("button", name="larch row kitchen").click()
    page.get_by_role("button", name="Take to site").first.click()
    page.get_by_role("button", name="Make the site copy").click()
    expect(page.get_by_text("Ready: ")).to_be_visible(timeout=30_000)
    with page.expect_download() as asked:
        page.get_by_role("link", name="Save it").click()
    saved = tmp_path / "copy.html"
    asked.value.save_as(saved)
    assert asked.value.suggested_filename == "Larch row kitchen site.html"
    assert b"Content-Security-Policy" in saved.read_bytes()


def scale_of(page: Page) -> float:
    page.evaluate("new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)))")
    found = page.evaluate("new DOMMatrix(getComputedStyle(document.querySelector('.base')).transform).a")
    assert isinstance(found, float)
    return found


def test_next_leads_to_the_last_step_and_on_to_the_proof(phone: Phone) -> None:
    page = phone.open()
    tab(page, "Lines")
    expect(page.locator(".now .text")).to_have_text("On wall W mark M1, 1788 mm from NW.")
    expect(page.locator(".now .big")).to_have_text("1788 mm")
    expect(page.locator(".over .letter")).to_have_text("M1")
    steps = page.locator(".tasks li").count()
    for _ in range(steps - 1):
        page.get_by_role("button", name="Done, next").click()
    page.get_by_role("button", name="Done", exact=True).click()
    assert page.locator(".tasks .row.done").count() == steps
    page.get_by_role("button", name="Now prove the cross").click()
    expect(page.locator(".typed")).to_be_visible()


def test_what_the_tape_says_gets_its_verdict(phone: Phone) -> None:
    page = phone.open()
    tab(page, "Prove")
    expect(page.locator(".now .big")).to_have_text("2500 mm")
    type_in(page, "2500")
    # Three tapes and four marks are no truer than half a joint at the wall.
    expect(page.locator(".verdict .says")).to_have_text("? Can't tell")
    page.get_by_role("button", name="Clear").click()
    type_in(page, "2506")
    expect(page.locator(".verdict .says")).to_have_text("✗ Out")
    expect(page.locator(".verdict .todo")).to_contain_text("Move M3 on S 9 mm towards W")
    page.get_by_role("button", name="Next reading").click()
    expect(page.locator(".typed")).to_have_value("")
    expect(page.locator(".prove .row.wrong")).to_have_count(1)
    page.get_by_role("button", name="M1 on W to M2 on E").click()
    type_in(page, "4206")
    expect(page.locator(".verdict .says")).to_have_text("✓ Good")


def test_feet_and_inches_are_typed_with_thick_fingers(phone: Phone) -> None:
    page = phone.open("plot-7-bath")
    tab(page, "Prove")
    expect(page.locator(".now .big")).to_have_text("5'-5\"")
    page.get_by_role("button", name="M1 on near to M2 on far").click()
    type_in(page, "10'2 5/8\"")
    expect(page.locator(".typed")).to_have_value("10'2 5/8\"")
    expect(page.locator(".verdict .says")).to_have_text("✓ Good")


def test_ticks_stay_on_the_device(phone: Phone) -> None:
    page = phone.open()
    tab(page, "Cuts")
    expect(page.locator(".progress")).to_have_text("0 of 24 cut")
    page.get_by_role("button", name="Cut 1", exact=True).click()
    expect(page.locator(".progress")).to_have_text("1 of 24 cut")
    expect(page.locator(".base .cut.done")).to_have_count(1)
    tab(page, "Prove")
    type_in(page, "2500")
    page.reload()
    expect(page.locator(".typed")).to_have_value("2500")
    tab(page, "Cuts")
    expect(page.locator(".progress")).to_have_text("1 of 24 cut")
    expect(page.get_by_role("button", name="Cut 1", exact=True)).to_have_attribute("aria-pressed", "true")
    tab(page, "Floor")
    page.get_by_role("button", name="Clear ticks and readings").click()
    page.get_by_role("button", name="Clear all ticks").click()
    tab(page, "Cuts")
    expect(page.locator(".progress")).to_have_text("0 of 24 cut")


def test_a_device_that_keeps_nothing_says_so(phone: Phone) -> None:
    phone.context.add_init_script(NO_STORAGE)
    page = phone.open()
    expect(page.locator(".warned")).to_contain_text("This device keeps nothing from files")
    tab(page, "Cuts")
    page.get_by_role("button", name="Cut 1", exact=True).click()
    tab(page, "Floor")
    tab(page, "Cuts")
    expect(page.locator(".progress")).to_have_text("1 of 24 cut")


def test_two_fingers_zoom_and_one_moves(phone: Phone) -> None:
    page = phone.open()
    before = scale_of(page)
    box = page.locator(".drawing").bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    session = phone.context.new_cdp_session(page)

    def touch(kind: str, *fingers: tuple[float, float]) -> None:
        points = [{"x": fx, "y": fy, "id": n} for n, (fx, fy) in enumerate(fingers)]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    touch("touchStart", (x - 20, y), (x + 20, y))
    for apart in (30, 40, 50, 60):
        touch("touchMove", (x - apart, y), (x + apart, y))
    touch("touchEnd")
    assert scale_of(page) == pytest.approx(3 * before, rel=0.02)
    expect(page.locator(".over .number")).to_have_count(0)
    for _ in range(3):
        touch("touchStart", (x - 60, y))
        for right in (-30, 0, 30, 60, 90):
            touch("touchMove", (x + right, y))
        touch("touchEnd")
    expect(page.locator(".over .number").first).to_be_visible()
    page.get_by_role("button", name="All of the floor").click()
    assert scale_of(page) == pytest.approx(before)


def test_a_tap_on_a_cut_opens_it(phone: Phone) -> None:
    page = phone.open()
    cut = page.locator(".base .cut").nth(8).bounding_box()
    assert cut is not None
    page.touchscreen.tap(cut["x"] + cut["width"] / 2, cut["y"] + cut["height"] / 2)
    expect(page.locator(".card .count")).to_contain_text("No. 9")
    expect(page.locator(".card .big")).to_have_count(2)
    expect(page.locator(".card .picture")).to_be_visible()
    expect(page.locator(".base .cut.chosen")).to_have_count(1)


@pytest.mark.parametrize("look", ["Light", "Dark", "Sun"])
def test_nothing_keeps_anyone_out(phone: Phone, look: str) -> None:
    page = phone.open()
    page.get_by_role("button", name=look, exact=True).click()
    # The page's own policy lets no other script in; the browser's own console may.
    session = phone.context.new_cdp_session(page)
    session.send("Runtime.evaluate", {"expression": AXE.read_text(encoding="utf-8")})
    for name in ("Floor", "Lines", "Prove", "Snap", "Cuts"):
        tab(page, name)
        if name == "Cuts":
            page.locator(".cuts .what").first.click()
        broken = page.evaluate(
            "axe.run().then(({violations}) => violations.map((one) => [one.id, one.nodes.map((node) => node.html)]))"
        )
        assert broken == [], name
        assert page.evaluate(SMALL) == [], name
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), name


def test_a_scored_slab_is_cut_line_by_line_with_its_cautions_first(phone: Phone) -> None:
    page = phone.open("mill-lane-patio")
    tab(page, "Saw")
    panel = page.locator(".panel")
    expect(panel.locator(".now")).to_contain_text("post-tension cables")
    done = page.get_by_role("button", name="Done, next")
    for _ in range(3):
        done.click()
    # The circle before what stops at it, then the border.
    expect(panel.locator(".now")).to_contain_text("P")
    expect(panel.locator(".now")).to_contain_text("4'-6\"")
    done.click()
    expect(panel.locator(".now")).to_contain_text("R1")
    expect(panel.locator(".now")).to_contain_text("1'-0\"")
    expect(panel.locator(".now")).to_contain_text("Do not cut past C1, C11")
    done.click()
    expect(panel.locator("li .done")).to_have_count(5)
    page.reload()
    expect(page.locator(".panel .now")).to_contain_text("R9")
