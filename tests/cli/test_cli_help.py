"""Help: quick, since it loads nothing heavy, and there for every command."""

import subprocess
import sys

import pytest
from tests.cli.conftest import Run

from floorwright.cli.main import COMMANDS

HEAVY = ("numpy", "shapely", "scipy", "ezdxf", "typst", "pydantic", "rich", "fastapi")

ASK = """
import sys
from floorwright.__main__ import main
try:
    main(sys.argv[1].split())
except SystemExit as ending:
    assert ending.code == {code}, ending.code
loaded = [name for name in {heavy!r} if name in sys.modules]
assert not loaded, loaded
"""


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        ("--help", 0),
        ("--version", 0),
        ("", 2),
        ("nonsense", 2),
        *((f"{name} --help", 0) for name in COMMANDS),
        *((f"{name} --nonsense", 2) for name in COMMANDS),
    ],
)
def test_help_and_mistakes_load_nothing_heavy(arguments: str, code: int) -> None:
    script = ASK.format(code=code, heavy=HEAVY)
    done = subprocess.run([sys.executable, "-c", script, arguments], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert done.stdout or code


def test_help_lists_every_command_in_the_order_of_the_job(run: Run) -> None:
    ended = run("--help")
    assert ended.code == 0
    listed = [line.split()[0] for line in ended.out.partition("Commands:")[2].splitlines() if line[2:3].strip()]
    assert listed == list(COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_says_what_it_does(name: str, run: Run) -> None:
    short, long = run(name, "-h"), run(name, "--help")
    assert (long.code, long.err) == (0, "")
    assert short == long
    assert long.out.startswith(f"Usage: floorwright {name} ")
    assert long.out.splitlines()[2].strip()


def test_no_command_at_all_shows_the_help(run: Run) -> None:
    ended = run()
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith("Usage: floorwright ")


def test_the_version_is_printed(run: Run) -> None:
    from floorwright import __version__

    assert run("--version").out == f"floorwright, version {__version__}\n"
