"""Whole `floorwright pack` of the demo, in CPU time of a process of its own, beside the bare cost of its imports.

    .venv/bin/python -m benchmarks.pack

Warm means that bytecode is there, as it is on any machine from the second run on: it is kept in a folder of the
benchmark's own, also where the environment forbids to write it. Target: under 1.5 s of CPU time warm on a two-core
machine of this class.
"""

import os
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


def cpu(arguments: list[str], bytecode: str) -> float:
    """Returns the least CPU seconds (user and system) of a child process over some runs, the first one to warm."""
    warm = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    warm["PYTHONPYCACHEPREFIX"] = bytecode
    least = float("inf")
    for _ in range(TIMES + 1):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run(arguments, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=warm)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        least = min(least, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return least


def main() -> None:
    """Prints the table."""
    with tempfile.TemporaryDirectory() as folder, tempfile.TemporaryDirectory() as bytecode:
        pack = [sys.executable, "-m", "floorwright", "pack", str(EXAMPLE), "-o", folder]
        rows = [
            ("bare interpreter", cpu([sys.executable, "-c", NOTHING], bytecode)),
            ("imports of libraries alone", cpu([sys.executable, "-c", IMPORTS], bytecode)),
            ("imports, ours too", cpu([sys.executable, "-c", IMPORTS + OWN], bytecode)),
            ("whole pack", cpu(pack, bytecode)),
        ]
    whole = rows[-1][1]
    print(f"{processor()}; CPU seconds, least of {TIMES} after one to warm")
    for name, seconds in rows:
        print(f"{name:28s} {seconds:6.3f}   {seconds / whole:5.2f} of the whole")


if __name__ == "__main__":
    main()
