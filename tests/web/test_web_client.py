"""The client part: its types, its own few computations, its size, and where its vendored modules come from."""

import gzip
import json
import posixpath
import re
import shutil
import subprocess
import sys
from fractions import Fraction
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorwright.units import LengthStyle
from floorwright.web.pages import MODULES, static_file, static_names

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


def test_every_module_is_there_and_imports_only_what_is() -> None:
    names = static_names()
    assert set(MODULES.values()) <= names
    for name in names:
        if name.startswith("app/") and name.endswith(".js"):
            found = static_file(name)
            assert found is not None
            for line in found[0].decode().split("\n"):
                if line.startswith(("import ", "} from")) and ' from "' in line:
                    source = line.split(' from "')[1].split('"')[0]
                    assert source in MODULES or source.startswith("."), f"{name}: {source}"


def loaded() -> set[str]:
    """What the page loads but for the fonts: its styles and mark, and every module that is reached from the first."""
    page = static_text("index.html")
    names = set(re.findall(r'"/static/([^"]+)"', page))
    left = ["app/main.js"]
    while left:
        name = left.pop()
        names.add(name)
        for source in re.findall(r'^(?:import|export|\}).*? from "([^"]+)"', static_text(name), re.MULTILINE):
            reached = MODULES.get(source) or posixpath.normpath(posixpath.join(posixpath.dirname(name), source))
            if reached not in names and reached not in left:
                left.append(reached)
    return names | {"index.html"}


def static_text(name: str) -> str:
    return (files("floorwright") / "web" / "static" / name).read_text(encoding="utf-8")


def test_all_but_the_fonts_come_in_few_bytes() -> None:
    assert {"vendor/preact.js", "app/store.js", "style/floor.css"} <= loaded()
    assert sum(len(gzip.compress(static_text(name).encode())) for name in loaded()) < MOST_KB * 1000
