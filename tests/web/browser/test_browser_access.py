"""Every stage in every theme, on a desk and in the hand, with what stands in the way: no fault of access is found."""

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

AXE = Path(__file__).parents[3] / "tools" / "client" / "node_modules" / "axe-core" / "axe.min.js"
SOLVED_MS = 90_000
# Still, as for those who ask for that: a colour on its way to another is neither.
DESK: dict[str, Any] = {"viewport": {"width": 1280, "height": 800}, "reduced_motion": "reduce"}
PHONE = {**DESK, "viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True}

CHECK = """() => axe.run(document, { resultTypes: ["violations"] }).then(({ violations }) =>
  violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary.slice(0, 200)}`)))"""
SMALL = """() => [...document.querySelectorAll("button, summary, select, a.button, input[type=text], .keypad input")]
  .map((one) => [one.outerHTML.slice(0, 160), one.getBoundingClientRect()])
  .filter(([, { width, height }]) => width > 0 && (width < 44 || height < 44))
  .map(([html, { width, height }]) => `${Math.round(width)} x ${Math.round(height)}: ${html}`)"""
"""What a thumb cannot hit."""


class Checked:
    """A page, and what was found on its screens."""

    def __init__(self, page: Page, theme: str) -> None:
        self.page = page
        self.found: list[str] = []
        page.evaluate(f"localStorage.setItem('floorwright-theme', '{theme}')")
        page.reload()
        # The checker is put in by the browser, outside the page's policy; the page itself may load no such thing.
        page.evaluate(AXE.read_text(encoding="utf-8"))

    def screen(self, name: str) -> None:
        """Checks the screen as it is now."""
        self.found += [f"{name}: {fault}" for fault in self.page.evaluate(CHECK)]
        if self.page.evaluate("document.documentElement.scrollWidth > innerWidth"):
            self.found.append(f"{name}: runs over")
        if self.page.viewport_size == PHONE["viewport"]:
            self.found += [f"{name}: too small: {one}" for one in self.page.evaluate(SMALL)]

    def press(self, name: str) -> None:
        self.page.get_by_role("button", name=name, exact=True).click()


@pytest.mark.parametrize(
    ("how", "theme"),
    [(DESK, "light"), (DESK, "dark"), (DESK, "contrast"), (PHONE, "light"), (PHONE, "dark")],
    ids=["desk light", "desk dark", "desk contrast", "phone light", "phone dark"],
)
def test_no_stage_has_a_fault_of_access(watch: Any, how: dict[str, Any], theme: str) -> None:
    checked = Checked(watch(**how).page(), theme)
    page = checked.page
    checked.screen("Jobs")
    checked.press("Larch row kitchen")
    expect(page.locator("path.wall")).to_be_visible()
    checked.screen("Measure")
    checked.press("Book something else")
    checked.press("A door or opening")
    checked.screen("the form of a door")
    page.keyboard.press("Escape")
    checked.press("Leave it")
    page.locator(".job-name").click()
    checked.screen("details")
    checked.press("Set out")
    for part in ("Lines", "Tools", "Steps", "Check"):
        page.locator(".parts").get_by_role("button", name=part, exact=True).click()
        if part == "Lines":
            expect(page.locator(".candidate").first).to_be_visible(timeout=SOLVED_MS)
        checked.screen(part)
    checked.press("Lay")
    expect(page.locator("[data-hand=take]")).to_be_enabled(timeout=SOLVED_MS)
    page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true")
    checked.screen("Lay")
    page.locator("[data-hand=take]").click()
    expect(page.locator("[data-pieces=exact]")).to_be_attached()
    page.locator("svg.plan").focus()
    page.keyboard.press("Shift+ArrowRight")
    expect(page.locator("[data-hand=back]")).to_be_visible()
    checked.screen("the pattern in hand")
    checked.press("Cut and order")
    expect(page.locator(".cuts").first).to_be_visible(timeout=SOLVED_MS)
    checked.screen("Cut and order")
    checked.press("Take to site")
    expect(page.get_by_role("heading", name="Site copy")).to_be_visible()
    checked.screen("Take to site")
    assert not checked.found, "\n".join(checked.found)


@pytest.mark.parametrize("how", [DESK, PHONE], ids=["desk", "phone"])
def test_nor_has_what_stands_in_the_way(watch: Any, server: Any, how: dict[str, Any]) -> None:
    checked = Checked(watch(**how).page(), "light")
    page = checked.page
    checked.press("L shape")
    expect(page.locator(".keypad")).to_be_visible()
    for stage in ("Measure", "Set out", "Lay", "Cut and order", "Take to site"):
        checked.press(stage)
        checked.screen(f"{stage} with nothing measured")
    checked.press("More")
    checked.screen("search")
    page.keyboard.press("Escape")
    (path,) = server.folder.glob("*.toml")
    text = path.read_text(encoding="utf-8")
    path.unlink()
    expect(page.get_by_role("alert")).to_contain_text("is gone")
    checked.screen("a job that is gone")
    path.write_text(text, encoding="utf-8")
    expect(page.get_by_role("alert")).to_have_count(0)
    page.evaluate("() => { window.fetch = () => Promise.reject(new TypeError('no network')); }")
    expect(page.get_by_role("alert")).to_contain_text("The server has ended")
    checked.screen("a server that has ended")
    assert not checked.found, "\n".join(checked.found)
