"""The frame: jobs, details, what others change on the disk, a server that ends, two tabs, the keyboard and a phone."""

import time
import tomllib
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

KITCHEN = (files("floorwright") / "examples" / "larch-row-kitchen.toml").read_text(encoding="utf-8")
SOLVED_MS = 90_000
"""A floor takes seconds to work out, and many where the machine is busy."""


def opened(page: Page) -> None:
    page.get_by_role("button", name="Larch row kitchen", exact=True).click()
    expect(page.locator("path.wall")).to_be_visible()


def job_path(server: Any) -> Path:
    path: Path = server.folder / "Larch row kitchen.toml"
    return path


def test_jobs_are_listed_with_what_state_they_are_in_and_copied_and_renamed(page: Page, server: Any) -> None:
    opened(page)
    page.get_by_role("button", name="All jobs").click()
    card = page.locator(".job-card")
    expect(card).to_contain_text("Measured, with a pattern")
    page.get_by_role("button", name="copy Larch row kitchen").click()
    page.get_by_label("The copy is called").fill("Flat 2")
    page.get_by_role("button", name="Copy", exact=True).last.click()
    expect(card).to_have_count(2)
    page.get_by_role("button", name="rename Flat 2").click()
    page.get_by_label("New name").fill("Flat 3")
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="open Flat 3")).to_be_visible()
    assert sorted(path.name for path in server.folder.glob("*.toml")) == ["Flat 3.toml", "Larch row kitchen.toml"]


def test_a_job_that_is_opened_waits_for_no_picture_of_the_list(watch: Any, server: Any) -> None:
    for name in ("Flat 1", "Flat 2", "Flat 3"):
        (server.folder / f"{name}.toml").write_text(KITCHEN, encoding="utf-8")
    watched = watch()
    asked: list[str] = []
    # None of them is ever answered.
    watched.context.route("**/card", lambda route: asked.append(route.request.url))
    page = watched.page()
    expect(page.locator(".job-card")).to_have_count(3)
    with page.expect_event("requestfailed", lambda request: request.url.endswith("/card")):
        page.get_by_role("button", name="open Flat 1").click()
    expect(page.locator("path.wall")).to_be_visible()
    assert len(asked) == 1
    page.get_by_role("button", name="All jobs").click()
    expect(page.locator(".job-card")).to_have_count(3)
    with page.expect_event("requestfailed", lambda request: request.url.endswith("/card")):
        page.get_by_role("button", name="open Flat 2").click()
    assert len(asked) == 2


DRAWN_IN = """() => {
  const probe = document.body.appendChild(document.createElement("i"));
  probe.style.color = "CanvasText";
  const ink = getComputedStyle(probe).color;
  probe.remove();
  const drawn = ["path.wall", ".read.across", ".read"].map((one) => document.querySelector(one));
  const strokes = drawn.map((one) => getComputedStyle(one).stroke);
  return [ink, ...new Set(strokes)];
}"""


def test_with_the_system_s_own_colours_the_plan_is_drawn_in_them_whatever_theme_is_chosen(watch: Any) -> None:
    page = watch(forced_colors="active").page()
    page.get_by_label("Dark", exact=True).check()
    opened(page)
    expect(page.locator(".read.across").first).to_be_attached()
    ink, *strokes = page.evaluate(DRAWN_IN)
    assert strokes == [ink]
    # A button that is filled keeps its fill behind its words.
    expect(page.locator(".primary").first).to_have_css("forced-color-adjust", "none")


def test_details_of_the_job_are_edited_and_undone(page: Page, server: Any) -> None:
    opened(page)
    page.keyboard.press("d")
    page.get_by_label("Client").fill("M. Byre")
    page.get_by_label("Client").press("Enter")
    page.get_by_label("US", exact=True).check()
    expect(page.get_by_label("US", exact=True)).to_be_checked()
    page.get_by_label("Date").fill("2026-04-02")
    page.get_by_label("Date").blur()
    expect(page.locator(".said")).to_have_text("date changed")
    held = tomllib.loads(job_path(server).read_text(encoding="utf-8"))
    assert (held["client"], held["words"], str(held["date"])) == ("M. Byre", "US", "2026-04-02")
    for _ in range(3):
        page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("button", name="Undo")).to_be_disabled()
    assert job_path(server).read_text(encoding="utf-8") == KITCHEN


def test_high_contrast_is_a_setting_that_is_kept(page: Page) -> None:
    page.get_by_label("High contrast").check()
    page.reload()
    expect(page.locator("html")).to_have_attribute("data-theme", "contrast")


def test_a_file_that_somebody_else_changed_is_shown_as_it_is(page: Page, server: Any) -> None:
    opened(page)
    text = job_path(server).read_text(encoding="utf-8")
    job_path(server).write_text(text.replace("SW-SE = 4200", "SW-SE = 4201"), encoding="utf-8")
    expect(page.locator("table.readings")).to_contain_text("4201")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("table.readings")).not_to_contain_text("4201")
    assert job_path(server).read_text(encoding="utf-8") == text


def test_a_file_that_is_gone_is_told_of_and_put_back(page: Page, server: Any) -> None:
    opened(page)
    job_path(server).unlink()
    expect(page.get_by_role("alert")).to_contain_text("is gone")
    page.get_by_role("button", name="Put it back").click()
    expect(page.get_by_role("alert")).to_have_count(0)
    assert job_path(server).read_text(encoding="utf-8") == KITCHEN


@pytest.mark.parametrize(("button", "kept"), [("Put mine", 4205), ("Take theirs", 4201)])
def test_two_who_change_one_value_are_asked_whose_it_is(page: Page, server: Any, button: str, kept: int) -> None:
    opened(page)
    page.get_by_role("button", name="read SW to SE again").click()
    page.keyboard.type("4205")
    # Both at once: the file is changed right before the edit arrives, and nobody has looked since.
    path = job_path(server)

    def meanwhile(route: Any) -> None:
        path.write_text(KITCHEN.replace("SW-SE = 4200", "SW-SE = 4201"), encoding="utf-8")
        route.continue_()

    page.route("**/edits", meanwhile, times=1)
    page.keyboard.press("Enter")
    alert = page.get_by_role("alert")
    expect(alert).to_contain_text("4201")
    expect(alert).to_contain_text("4205")
    page.get_by_role("button", name=button).click()
    expect(page.locator("table.readings")).to_contain_text(str(kept))
    expect(alert).to_have_count(0)
    assert tomllib.loads(path.read_text(encoding="utf-8"))["survey"]["distances"]["SW-SE"] == kept


def test_a_server_that_is_killed_is_told_of_and_found_again(browser: Any, serve: Any, tmp_path: Path) -> None:
    first = serve(tmp_path / "jobs")
    page = browser.new_page()
    page.set_default_timeout(20_000)
    page.goto(first.link)
    opened(page)
    page.get_by_role("button", name="read SW to SE again").click()
    page.keyboard.type("4201")
    page.keyboard.press("Enter")
    expect(page.locator("table.readings")).to_contain_text("4201")
    first.kill()
    alert = page.get_by_role("alert")
    expect(alert).to_contain_text("The server has ended")
    expect(alert).to_contain_text("SW to SE reads 4201")
    port = first.link.rstrip("/").rpartition(":")[2]
    again = serve(tmp_path / "jobs", port)
    try:
        page.get_by_role("button", name="Try now").click()
        expect(alert).to_have_count(0)
        page.reload()
        expect(page.locator("table.readings")).to_contain_text("4201")
        page.get_by_role("button", name="Undo").click()
        expect(page.locator("table.readings")).not_to_contain_text("4201")
    finally:
        page.close()
        again.end()


def test_loaded_again_it_shows_the_same_job_and_stage_and_back_leads_back(page: Page, server: Any) -> None:
    opened(page)
    page.get_by_role("button", name="Set out", exact=True).click()
    expect(page.locator(".parts")).to_be_visible()
    page.reload()
    expect(page.get_by_role("button", name="Set out", exact=True)).to_have_attribute("aria-current", "step")
    expect(page.locator("path.wall").first).to_be_visible()
    page.go_back()
    expect(page.get_by_role("heading", name="Jobs")).to_be_visible()
    page.go_forward()
    expect(page.get_by_role("button", name="Set out", exact=True)).to_have_attribute("aria-current", "step")
    # A job that has gone meanwhile is said to have, over those that there are.
    job_path(server).rename(server.folder / "Moved.toml")
    page.reload()
    expect(page.get_by_role("alert")).to_contain_text("there is no job called Larch row kitchen")
    expect(page.get_by_role("button", name="open Moved")).to_be_visible()
    assert page.evaluate("location.hash") == ""


def test_everything_done_is_undone_and_done_again(page: Page, server: Any) -> None:
    opened(page)
    path = job_path(server)
    texts = [KITCHEN]

    def done(says: str) -> None:
        expect(page.locator(".said")).to_contain_text(says)
        texts.append(path.read_text(encoding="utf-8"))
        assert texts[-1] != texts[-2], says

    page.get_by_role("button", name="read SW to SE again").click()
    page.keyboard.type("4201")
    page.keyboard.press("Enter")
    done("SW to SE reads 4201")
    page.locator(".job-name").click()
    page.get_by_label("Client").fill("M. Byre")
    page.get_by_label("Client").press("Enter")
    done("client changed")
    page.get_by_role("button", name="Set out", exact=True).click()
    page.locator(".parts").get_by_role("button", name="Tools", exact=True).click()
    page.get_by_role("radio", name="3-4-5").check()
    done("3-4-5")
    page.get_by_role("button", name="Lay", exact=True).click()
    section = page.locator("details.section", has=page.get_by_role("heading", name="Aims", exact=True))
    section.locator("> summary").click(timeout=SOLVED_MS)
    section.get_by_label("fewest cuts; arrow keys move it").press("ArrowUp")
    done("fewest cuts is aim")
    page.get_by_role("button", name="Measure", exact=True).click()
    for steps, button in ((reversed(texts[:-1]), "Undo"), (iter(texts[1:]), "Do again")):
        for text in steps:
            page.get_by_role("button", name=button).click()
            poll(path, text)
        expect(page.get_by_role("button", name=button)).to_be_disabled()


def poll(path: Path, text: str) -> None:
    """Waits until a file holds a text."""
    for _ in range(400):
        if path.read_text(encoding="utf-8") == text:
            return
        time.sleep(0.05)
    assert path.read_text(encoding="utf-8") == text


def test_the_key_of_the_link_does_not_stay_in_sight(browser: Any, serve: Any, tmp_path: Path) -> None:
    server = serve(tmp_path / "jobs", "0", "--lan")
    page = browser.new_page()
    try:
        assert "?key=" in server.link
        page.goto(server.link)
        page.wait_for_url(lambda url: "key" not in url)
        page.reload()
        expect(page.locator(".new-job")).to_be_visible()
    finally:
        page.close()
        server.end()


def test_two_tabs_on_one_job_see_each_other(watch: Any) -> None:
    watched = watch()
    one, other = watched.page(), watched.page()
    opened(one)
    other.reload()
    other.get_by_role("button", name="open Larch row kitchen").click()
    expect(other.locator("path.wall")).to_be_visible()
    one.get_by_role("button", name="read SE to NE again").click()
    one.keyboard.type("3613")
    one.keyboard.press("Enter")
    expect(other.locator("table.readings")).to_contain_text("3613")


def test_the_keyboard_alone_goes_everywhere(page: Page, server: Any) -> None:
    page.get_by_role("button", name="Rectangle").focus()
    page.keyboard.press("Enter")
    expect(page.locator(".keypad")).to_be_visible()
    page.keyboard.type("3000")
    page.keyboard.press("Enter")
    expect(page.locator("table.readings")).to_contain_text("3000")
    for key, stage in (("s", "Set out"), ("l", "Lay"), ("c", "Cut and order"), ("g", "Take to site"), ("m", "Measure")):
        page.evaluate("document.activeElement.blur()")
        page.keyboard.press(key)
        expect(page.get_by_role("button", name=stage, exact=True)).to_have_attribute("aria-current", "step")
    # The keyboard is back at the keypad, which takes figures alone.
    page.evaluate("document.activeElement.blur()")
    page.keyboard.press("d")
    expect(page.get_by_role("heading", name="The job")).to_be_focused()
    page.keyboard.press("Escape")
    expect(page.locator(".keypad")).to_be_visible()
    page.evaluate("document.activeElement.blur()")
    page.keyboard.press("j")
    expect(page.get_by_role("button", name="open New job")).to_be_visible()


def test_a_phone_has_the_stages_under_the_thumb_and_nothing_runs_over(watch: Any) -> None:
    page = watch(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True).page()
    page.get_by_role("button", name="Larch row kitchen", exact=True).tap()
    expect(page.locator("path.wall")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    boxes = [page.get_by_role("button", name=name, exact=True).bounding_box() for name in ("Measure", "Take to site")]
    for box in boxes:
        assert box is not None
        assert box["y"] > 740 * 0.8
        assert 0 <= box["x"] <= 361 - box["width"]
    for name in ("Jobs", "Undo", "More"):
        box = page.get_by_role("button", name=name, exact=True).bounding_box()
        assert box is not None
        assert min(box["height"], box["width"]) >= 44
