"""The site copy as a file: small, the same every time, nothing from elsewhere, and no name in it that does anything."""

import base64
import hashlib
import json
import math
import re
import shutil
import subprocess
from dataclasses import replace
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from floorwright.control.control import Check
from floorwright.control.readings import Reading, ends_of, judged
from floorwright.control.words import fine
from floorwright.draw.sheet import Pack
from floorwright.export.files import pack_files, site_files
from floorwright.job.inputs import inputs
from floorwright.job.load import load_text
from floorwright.job.solution import Solution
from floorwright.job.solve import solve
from floorwright.sheets.pack import pack, units_text
from floorwright.sheets.site import site_copy
from floorwright.sheets.steps import steps_sheet
from floorwright.sheets.words import sentence
from floorwright.units import IMPERIAL, METRIC, typeset

ROOT = Path(__file__).parents[2]
KITCHEN, BATH, BAY = "larch-row-kitchen", "plot-7-bath", "training-bay"
MOST_BYTES = 400_000
HOSTILE = "</script><script>alert(1)</script> \"'&amp; <!-- שלום \u202e \u2028 {{ data }}"
MANY = """
schema = 1
title = "Hall of many"
units = "mm"
[survey]
outline = ["A", "B", "C", "D"]
[survey.distances]
A-B = 9400
B-C = 7300
C-D = 9406
D-A = 7304
A-C = 11905
B-D = 11899
[[goods]]
name = "tile"
length = 150
width = 150
[[zones]]
name = "floor"
goods = "tile"
joint = 3
pattern = "grid"
angle = 45
gap = 5
"""


@cache
def example(name: str) -> Solution:
    path = ROOT / "examples" / f"{name}.toml"
    return solved(path.read_text(encoding="utf-8"))


def solved(text: str) -> Solution:
    loaded = load_text(text, "job.toml", Path())
    assert loaded.job is not None, loaded.findings
    return solve(loaded.job, findings=loaded.findings)


def small(solution: Solution) -> Pack:
    """Returns the pack of a job without its sheets."""
    job = solution.job
    units = units_text(solution.style)
    heads = {
        "job": job.title,
        "client": job.client,
        "by": job.by,
        "revision": job.revision,
        "date": str(job.date or ""),
    }
    return Pack(**heads, units=units, paper=job.paper, words=job.words, sheets=(), site=site_copy(solution))


def site(solution: Solution) -> bytes:
    return site_files(small(solution))["site.html"]


class Page(HTMLParser):
    """What a browser would make of the file: every element, and the text of scripts and styles."""

    def __init__(self, page: bytes) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.texts: dict[int, str] = {}
        self.inside = -1
        self.feed(page.decode())

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.inside = len(self.tags)
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        self.inside = -1

    def handle_data(self, data: str) -> None:
        self.texts[self.inside] = self.texts.get(self.inside, "") + data

    def of(self, tag: str) -> list[tuple[dict[str, str | None], str]]:
        return [(attributes, self.texts.get(at, "")) for at, (name, attributes) in enumerate(self.tags) if name == tag]

    @property
    def data(self) -> dict[str, Any]:
        (data,) = (text for attributes, text in self.of("script") if attributes.get("type") == "application/json")
        found: dict[str, Any] = json.loads(data)
        return found


@pytest.mark.parametrize("name", [KITCHEN, BATH, BAY])
def test_the_same_job_makes_the_same_bytes(name: str) -> None:
    assert site(example(name)) == site(example(name))


def test_the_pack_holds_it() -> None:
    files = pack_files(pack(example(KITCHEN)))
    assert files["site.html"] == site(example(KITCHEN))


def test_nothing_to_set_out_makes_no_copy() -> None:
    text = (ROOT / "examples" / f"{KITCHEN}.toml").read_text(encoding="utf-8")
    blank = re.sub(r"\[survey\.distances\].*?(?=\n\[)", "[survey.distances]", text, flags=re.DOTALL)
    assert blank != text
    assert site_files(small(solved(blank))) == {}


def test_three_thousand_pieces_fit_into_a_message() -> None:
    solution = solved(MANY)
    pieces = solution.layouts[0].pieces
    assert len(pieces) >= 3000
    page = site(solution)
    assert len(page) < MOST_BYTES
    plan = Page(page).data["plan"]
    assert sum(len(at) // 2 for _, at in plan["tiles"]) == sum(piece.full for piece in pieces)
    assert len(plan["cuts"]) == sum(not piece.full for piece in pieces)


def test_only_what_the_file_was_made_with_may_run() -> None:
    page = Page(site(example(KITCHEN)))
    policy = next(str(meta["content"]) for meta, _ in page.of("meta") if "http-equiv" in meta)
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    (script,) = (text for attributes, text in page.of("script") if "type" not in attributes)
    ((_, style),) = page.of("style")
    for kind, text in (("script", script), ("style", style)):
        digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
        assert f"{kind}-src 'sha256-{digest}'" in policy
    assert not re.search(r"\beval\b|\bimport\b|\bfetch\b|XMLHttpRequest|innerHTML|Function\(", script)


def test_nothing_comes_from_elsewhere() -> None:
    page = Page(site(example(BAY)))
    for _, attributes in page.tags:
        assert not {"src", "href", "srcset", "action", "style"} & set(attributes)
        assert not [name for name in attributes if name.startswith("on")]
    addresses = set(re.findall(r"https?://[^\s\"'<]+", site(example(BAY)).decode()))
    assert addresses == {"http://www.w3.org/2000/svg"}  # a name, which is never asked for


def test_a_hostile_name_stays_text() -> None:
    good = small(example(KITCHEN))
    assert good.site is not None
    names = tuple(replace(name, text=HOSTILE) for name in good.site.plan.names)
    copy = replace(good.site, title=HOSTILE, plan=replace(good.site.plan, names=names))
    page = Page(site_files(replace(good, job=HOSTILE, client=HOSTILE, by=HOSTILE, site=copy))["site.html"])
    assert [tag for tag, _ in page.tags] == [tag for tag, _ in Page(site(example(KITCHEN))).tags]
    assert page.data["job"] == HOSTILE
    assert {name[4] for name in page.data["plan"]["names"]} == {HOSTILE}
    assert page.of("title")[0][1] == HOSTILE


def test_tiles_lie_where_the_layout_has_them() -> None:
    solution = example(KITCHEN)
    assert solution.region is not None
    left, top = (float(value) for value in (solution.region.rings[0][:, 0].min(), solution.region.rings[0][:, 1].max()))
    places = set()
    for _, at in Page(site(solution)).data["plan"]["tiles"]:
        places |= set(zip(at[::2], at[1::2], strict=True))
    full = [piece.rings[0][0] for piece in solution.layouts[0].pieces if piece.full]
    assert places == {(round((x - left) * 10), round((top - y) * 10)) for x, y in full}


def test_lines_to_score_and_joints_that_are_there_are_on_the_plan() -> None:
    solution = example("mill-lane-patio")
    assert solution.scored is not None
    walls = Page(site(solution)).data["plan"]["walls"]
    paths = "".join(path for kind, path in walls if kind == "score")
    assert paths.count("A") == 2 * len(solution.scored.design.circles)
    assert any(kind == "slab-joint" for kind, _ in walls)


def test_every_cut_is_in_one_row_of_the_list() -> None:
    for name in (KITCHEN, BATH, BAY):
        data = Page(site(example(name))).data
        listed = [piece for wall in data["cuts"] for row in wall["rows"] for piece in row["pieces"]]
        assert sorted(listed) == list(range(len(data["plan"]["cuts"])))


def test_the_steps_are_those_of_the_sheet() -> None:
    solution = example(KITCHEN)
    steps = Page(site(solution)).data["steps"]
    printed = repr(steps_sheet(solution).blocks)
    told = [task["text"] for group in steps for task in group["tasks"]]
    assert len(told) > 10
    for text in told:
        assert repr(text)[1:-1] in printed


def answers(cases: list[dict[str, Any]]) -> list[Any]:
    """Returns what the page makes of cases."""
    node = shutil.which("node")
    assert node, "node is not installed: run ./test, which brings it"
    script = Path(__file__).parent / "say_site.js"
    done = subprocess.run([node, str(script)], input=json.dumps(cases), capture_output=True, text=True, check=True)
    found: list[Any] = json.loads(done.stdout)
    return found


def named(check: Check, solution: Solution) -> tuple[str, str]:
    assert solution.control is not None
    first, second = (min(end) for end in ends_of(check, solution.control, solution.style))
    return first, second


@pytest.mark.parametrize("name", [KITCHEN, BATH, BAY])
def test_the_page_judges_readings_as_the_program_does(name: str) -> None:
    solution = example(name)
    control = solution.control
    assert control is not None
    given = inputs.check_readings(solution.job)
    checks = sorted(control.checks, key=lambda check: not check.legs)
    shown = Page(site(solution)).data["checks"]
    cases: list[dict[str, Any]] = []
    expected: list[tuple[str, str, float]] = []
    for check, data in zip(checks, shown, strict=True):
        for off in (0.0, 0.3, -0.4, 1.1, -1.3, 2.2, -2.6, 4.0, -5.1, 9.0, -14.0, 60.0):
            reads = check.expected + off
            reading = Reading(between=named(check, solution), reads=reads)
            (verdict,), _ = judged(control, (reading,), given["joint"], given["tools"], solution.style)
            cases.append({"check": data, "reads": reads, "system": solution.style.system})
            expected.append((verdict.says, verdict.do, verdict.far))
    said = set()
    for ours, (says, do, far) in zip(answers(cases), expected, strict=True):
        assert ours["says"] == says
        assert math.isclose(ours["off"], far, abs_tol=1e-6)
        assert ours["todo"] == sentence(do)
        said.add(says)
    assert {"good", "out"} <= said


def test_the_page_says_small_lengths_as_the_program_does() -> None:
    lengths = [number * 0.037 for number in range(400)] + [0.05, 0.15, 0.25, 25.4, 304.8, 914.4, 25.4 / 64]
    cases = [{"mm": mm, "system": style.system} for style in (METRIC, IMPERIAL) for mm in lengths]
    expected = [typeset(fine(mm, style)) for style in (METRIC, IMPERIAL) for mm in lengths]
    assert answers(cases) == expected


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        ("2404.5", "mm", 2404.5),
        ("2.4045", "m", 2404.5),
        ("7' 10 5/8\"", "in", (7 * 12 + 10.625) * 25.4),
        ("7'10\"", "ft", 94 * 25.4),
        ("94 5/8", "in", 94.625 * 25.4),
        ("5/8", "in", 0.625 * 25.4),
        ("7'", "in", 84 * 25.4),
        ("6.5", "ft", 6.5 * 304.8),
        ("", "mm", None),
        (".", "mm", None),
        ("7' 10 5/", "in", None),
        ("7/0", "in", None),
        ("12 1/2", "mm", None),
        ("2404x", "mm", None),
    ],
)
def test_what_is_typed_is_read(text: str, unit: str, mm: float | None) -> None:
    (found,) = answers([{"typed": text, "unit": unit}])
    assert found == (None if mm is None else pytest.approx(mm, abs=1e-9))
