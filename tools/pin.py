"""Remakes the pins in pyproject.toml: exact versions of every dependency, with their environment markers and no host.

    .venv/bin/python tools/pin.py

It asks `uv` to resolve afresh, leaves `uv.lock` out of the repository (that one names hosts) and writes
`[tool.uv] constraint-dependencies`. The pins bind inside the project only; an installation elsewhere sees the ranges.
"""

import re
import subprocess
from pathlib import Path

ROOT = Path(__file__).parent.parent
PINS = re.compile(r"constraint-dependencies = \[.*?\]\n", re.DOTALL)


def resolved() -> list[str]:
    """Returns `name==version ; marker` of every dependency, as uv resolves the ranges of pyproject.toml today."""
    (ROOT / "uv.lock").unlink(missing_ok=True)
    command = ["uv", "export", "--quiet", "--all-groups", "--no-hashes", "--no-emit-project", "--no-annotate"]
    done = subprocess.run([*command, "--no-header"], cwd=ROOT, check=True, capture_output=True, text=True)
    return sorted(line.strip() for line in done.stdout.splitlines() if line.strip())


def main() -> None:
    """Writes the pins."""
    path = ROOT / "pyproject.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text(PINS.sub("constraint-dependencies = []\n", text), encoding="utf-8")
    lines = "".join(f'    "{pin}",\n' for pin in resolved())
    path.write_text(PINS.sub(lambda _: f"constraint-dependencies = [\n{lines}]\n", text), encoding="utf-8")


if __name__ == "__main__":
    main()
