"""The manual is kept true: pages made by the program are current, every finding and command is documented."""

import ast
import importlib.util
import re
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

from floorwright.cli.main import COMMANDS
from floorwright.findings import Severity

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "src" / "floorwright"
PARTS = "job|plan|pattern|survey|control|layout|setout|scoring|cuts|takeoff"
CODE = re.compile(rf"(?:{PARTS})-[a-z0-9-]+")


def make_docs() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_docs", ROOT / "tools" / "make_docs.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def codes_in_source() -> set[str]:
    """Every plain text in the source that is a code and nothing more; names made up of parts are none."""
    trees = (ast.parse(path.read_text(encoding="utf-8")) for path in PACKAGE.rglob("*.py"))
    texts = (node.value for tree in trees for node in ast.walk(tree) if isinstance(node, ast.Constant))
    return {text for text in texts if isinstance(text, str) and CODE.fullmatch(text)}


@pytest.mark.parametrize("name", ["commands.md", "job-file.md", "patterns.md"])
def test_made_pages_are_current(name: str) -> None:
    made = {path.name: text for path, text in make_docs().pages().items()}
    assert (ROOT / "docs" / name).read_text(encoding="utf-8") == made[name], "run tools/make_docs.py"


def test_every_finding_is_documented_and_no_other() -> None:
    rows = re.findall(
        r"^\| `([^`]+)` \| ([^|]+) \|", (ROOT / "docs" / "findings.md").read_text(encoding="utf-8"), re.MULTILINE
    )
    documented = [code for code, _ in rows]
    assert len(documented) == len(set(documented))
    assert codes_in_source() == set(documented)
    severities = {severity for _, said in rows for severity in said.split(", ")}
    assert severities <= {severity.value for severity in Severity}


def test_every_command_has_help_and_a_section() -> None:
    page = (ROOT / "docs" / "commands.md").read_text(encoding="utf-8")
    for name, help_text in COMMANDS.items():
        assert help_text.endswith(".")
        assert f"\n## {name}\n" in page


def test_the_manual_builds_without_a_warning(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "sphinx", "-W", "-q", str(ROOT / "docs"), str(tmp_path)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert {path.stem for path in (ROOT / "docs").glob("*.md")} <= {path.stem for path in tmp_path.glob("*.html")}


def test_nothing_tracked_names_a_registry_host_or_a_machine_path() -> None:
    hosts = ("pypi[.]org", "pythonhosted[.]", "npmjs[.]", "/simple[/]", "index[-]url")
    forbidden = re.compile("|".join((*hosts, r"(?<![\w./])/(?:work|farm|tmp)/")))
    listed = [
        path
        for folder in ("src", "tests", "docs", "benchmarks", "tools", ".ci")
        for path in (ROOT / folder).rglob("*")
        if path.is_file()
        and path.suffix in {".py", ".md", ".toml", ".typ", ".txt", ".js", ".json", ".css", ".html", ""}
        and not {"__pycache__", "node_modules"} & set(path.parts)
    ]
    listed += [path for path in ROOT.iterdir() if path.is_file() and path.suffix in {".md", ".toml", ""}]
    for path in listed:
        if path == Path(__file__) or path.name == "uv.lock" or path.name.startswith(".git"):
            continue
        assert not forbidden.search(path.read_text(encoding="utf-8", errors="replace")), path


def test_every_picture_of_the_screen_is_shown_and_told_of() -> None:
    folder = ROOT / "docs" / "pictures" / "screen"
    text = (ROOT / "docs" / "screen.md").read_text(encoding="utf-8")
    shown = re.findall(r"!\[([^\]]+)\]\(pictures/screen/([^)]+)\)", text)
    assert sorted(name for _, name in shown) == sorted(path.name for path in folder.iterdir())
    assert sum(path.stat().st_size for path in folder.iterdir()) < 2_500_000
