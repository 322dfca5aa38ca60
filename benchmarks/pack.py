"""Whole `floorwright pack` of the demo, in CPU time of a process of its own, beside the bare cost of its imports.

    .venv/bin/python -m benchmarks.pack

Target: under 1.5 s of CPU time warm on a two-core machine of this class.
"""

import resource
import subprocess
import sys
import tempfile
from pathlib import Path

from benchmarks.common import processor

EXAMPLE = Path(__file__).parent.parent / "examples" / "larch-row-kitchen.toml"
TIMES = 7
NOTHING = "pass"
IMPORTS = "import click, pydantic, numpy, shapely, ezdxf, typst"
OWN = "; import floorwright.job.load, floorwright.job.solve, floorwright.sheets.pack, floorwright.export.files"


def cpu(arguments: list[str]) -> float:
    """Returns the least CPU seconds (user and system) of a child process over some runs, the first one to warm."""
    least = float("inf")
    for _ in range(TIMES + 1):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run(arguments, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        least = min(least, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return least


def main() -> None:
    """Prints the table."""
    with tempfile.TemporaryDirectory() as folder:
        rows = [
            ("bare interpreter", cpu([sys.executable, "-c", NOTHING])),
            ("imports of libraries alone", cpu([sys.executable, "-c", IMPORTS])),
            ("imports, ours too", cpu([sys.executable, "-c", IMPORTS + OWN])),
            ("whole pack", cpu([sys.executable, "-m", "floorwright", "pack", str(EXAMPLE), "-o", folder])),
        ]
    whole = rows[-1][1]
    print(f"{processor()}; CPU seconds, least of {TIMES} after one to warm")
    for name, seconds in rows:
        print(f"{name:28s} {seconds:6.3f}   {seconds / whole:5.2f} of the whole")


if __name__ == "__main__":
    main()
