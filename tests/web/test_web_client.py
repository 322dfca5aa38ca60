"""The client part: its types, its own few computations, its size, and where its vendored modules come from."""

import gzip
import json
import re
import shutil
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorwright.units import LengthStyle
from floorwright.web.pages import MODULES, SCRIPT, STYLE, contents, loaded_names, page, statics, version

ROOT = Path(__file__).parents[2]
PACKAGES = ROOT / "tools" / "client" / "node_modules"
CLIENT = Path(__file__).parent / "client"
STYLES = {
    "half mm": LengthStyle("metric", Fraction(1, 2)),
    "mm": LengthStyle("metric", Fraction(1)),
    "sixteenths": LengthStyle("imperial", Fraction(1, 16)),
    "thirty-seconds": LengthStyle("imperial", Fraction(1, 32)),
}
MOST_KB = 120


def node(*arguments: str, given: str = "") -> str:
    """Runs node; `./test` brings it where it is missing."""
    found = shutil.which("node")
    assert found, "node is not installed: run ./test, which brings it"
    done = subprocess.run([found, *arguments], input=given, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_the_types_of_the_client_hold() -> None:
    compiler = PACKAGES / "typescript" / "bin" / "tsc"
    assert compiler.exists(), "the client's packages are not there: run ./test, which brings them"
    node(str(compiler), "-p", str(ROOT / "tools" / "client" / "tsconfig.json"))


def test_a_wrong_type_would_be_found(tmp_path: Path) -> None:
    compiler = PACKAGES / "typescript" / "bin" / "tsc"
    (tmp_path / "wrong.js").write_text("// @ts-check\n/** @type {number} */\nexport const joint = '3';\n")
    command = ["node", str(compiler), "--noEmit", "--allowJs", "--checkJs", "--strict", str(tmp_path / "wrong.js")]
    assert subprocess.run(command, capture_output=True, check=False).returncode != 0


@pytest.mark.parametrize("path", sorted(CLIENT.glob("*.test.js")), ids=lambda path: path.stem)
def test_the_client_s_own_computations(path: Path) -> None:
    node("--test", str(path))


@settings(max_examples=4)
@given(st.lists(st.floats(-20_000, 20_000), min_size=200, max_size=200), st.integers(0, 400))
def test_the_client_writes_lengths_as_the_sheets_do(lengths: list[float], steps: int) -> None:
    cases: list[dict[str, Any]] = []
    expected: list[str] = []
    for style in STYLES.values():
        midway = [float((number + Fraction(1, 2)) * style.step_mm) for number in range(-5, steps)]
        step = float(style.step)
        for mm in [*lengths, *midway, 0.0, -0.0]:
            for feet in (True, False):
                cases.append(
                    {"mm": mm, "style": {"system": style.system, "step": step}, "how": {"unit": True, "feet": feet}}
                )
                expected.append(style.text(mm, unit=True, feet=feet))
    said = json.loads(node(str(CLIENT / "say_lengths.js"), given=json.dumps(cases)))
    for case, ours, theirs in zip(cases, said, expected, strict=True):
        assert ours == theirs, case


def test_vendored_modules_are_what_their_packages_ship() -> None:
    sys.path.insert(0, str(ROOT / "tools"))
    try:
        import vendor  # type: ignore[import-not-found]
    finally:
        sys.path.pop(0)
    made = vendor.vendored()
    there = {path.name: path.read_bytes() for path in vendor.VENDOR.iterdir()}
    assert there == made, "run tools/vendor.py"


def test_what_the_script_imports_is_vendored_and_asked_for_at_once() -> None:
    script = statics()[SCRIPT].content.decode()
    assert set(re.findall(r'^import \* as \$from\d from "([^"]+)";$', script, re.MULTILINE)) <= set(MODULES)
    for name in MODULES.values():
        assert f'<link rel="modulepreload" href="/static/{version()}/{name}" />' in page().content.decode()


def test_every_module_but_the_types_is_in_the_script() -> None:
    modules = {name for name in contents() if name.startswith("app/") and name.endswith(".js")}
    script = statics()[SCRIPT].content.decode()
    assert len(re.findall(r"^const \$\d+ = \(\(\) => \{$", script, re.MULTILINE)) == len(modules - {"app/types.js"})
    assert "/**" not in script


def test_every_style_is_in_the_one_that_is_sent_and_finds_its_fonts() -> None:
    style = statics()[STYLE].content.decode()
    for name, content in contents().items():
        if name.startswith("style/") and name.endswith(".css"):
            assert content.decode().split("\n", 1)[1].replace("../fonts/", "fonts/") in style, name
    asked = re.findall(r'url\("([^"]+)"\)', style)
    assert asked
    assert all(name in statics() for name in asked)


def test_all_but_the_fonts_come_in_few_bytes() -> None:
    assert {"vendor/preact.js", SCRIPT, STYLE} <= set(loaded_names())
    sent = [page(), *(statics()[name] for name in loaded_names())]
    assert sum(len(one.zipped) for one in sent) < MOST_KB * 1000
    assert all(gzip.decompress(one.zipped) == one.content for one in sent)
