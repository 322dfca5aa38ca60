"""Runs the examples of the manual: Python blocks, and console blocks with `$ floorwright ...`."""

import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner
from sybil import Example, Sybil
from sybil.parsers.markdown import CodeBlockParser, PythonCodeBlockParser

EXAMPLES = Path(__file__).parent.parent / "examples"


def run_console(example: Example) -> str | None:
    """Runs the one command of a console block, with examples/ as the folder, and compares what it prints.

    A line of three dots stands for any lines.
    """
    from floorwright.cli.main import commands

    first, _, expected = example.parsed.partition("\n")
    prompt, name, *arguments = shlex.split(first)
    assert (prompt, name) == ("$", "floorwright"), first
    result = CliRunner().invoke(commands, arguments, catch_exceptions=False)
    assert result.exit_code in (0, 1), result.output
    there = result.stdout.splitlines()
    position = 0
    anywhere = False
    for line in expected.rstrip().splitlines():
        if line.strip() == "...":
            anywhere = True
            continue
        if anywhere:
            while position < len(there) and there[position].rstrip() != line.rstrip():
                position += 1
        found = there[position].rstrip() if position < len(there) else "<the end>"
        if found != line.rstrip():
            return f"{first}: expected {line!r}, found {found!r} in:\n{result.stdout}"
        position += 1
        anywhere = False
    return None


class ConsoleParser(CodeBlockParser):
    """Finds console blocks."""

    language = "console"

    def evaluate(self, example: Example) -> str | None:
        return run_console(example)


@pytest.fixture(autouse=True)
def _in_examples(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(EXAMPLES)
    monkeypatch.setenv("COLUMNS", "120")


pytest_collect_file = Sybil(
    parsers=[PythonCodeBlockParser(), ConsoleParser()],
    patterns=["*.md"],
    fixtures=["_in_examples"],
).pytest()
