"""Remakes the pictures in the README from the example jobs' packs.

    .venv/bin/python tools/make_pictures.py

It needs `pdftoppm` (poppler-utils).
"""

import io
import subprocess
from dataclasses import replace
from pathlib import Path

from PIL import Image

import floorwright
from floorwright.draw.sheet import Pack
from floorwright.export.pdf import pack_pdf
from floorwright.sheets.pack import pack

ROOT = Path(__file__).parent.parent
PICTURES = ROOT / "docs" / "pictures"
DOTS_PER_INCH = 80
COLOURS = 48
SHOWN = (
    ("larch-row-kitchen", "first"),
    ("larch-row-kitchen", "control"),
    ("larch-row-kitchen", "layout"),
    ("plot-7-bath", "snap"),
)
"""Example and key of the sheet whose first page is shown."""


def page(whole: Pack, key: str) -> bytes:
    """Returns the first page of a sheet as PNG, few colours."""
    sheets = tuple(sheet for sheet in whole.sheets if sheet.key == key)
    alone = pack_pdf(replace(whole, sheets=sheets))
    command = ["pdftoppm", "-png", "-r", str(DOTS_PER_INCH), "-f", "1", "-l", "1", "-"]
    done = subprocess.run(command, input=alone, check=True, capture_output=True)
    picture = Image.open(io.BytesIO(done.stdout)).convert("RGB").quantize(COLOURS)
    written = io.BytesIO()
    picture.save(written, "PNG", optimize=True)
    return written.getvalue()


def main() -> None:
    """Writes docs/pictures/."""
    PICTURES.mkdir(exist_ok=True)
    packs: dict[str, Pack] = {}
    for example, key in SHOWN:
        if example not in packs:
            loaded = floorwright.load(ROOT / "examples" / f"{example}.toml")
            assert loaded.job is not None
            packs[example] = pack(floorwright.solve(loaded.job, findings=loaded.findings))
        (PICTURES / f"{key}.png").write_bytes(page(packs[example], key))


if __name__ == "__main__":
    main()
