"""`floorwright demo`."""

from importlib.resources import files
from pathlib import Path
from typing import Final

import click

from floorwright.cli.job import json_option, solved

EXAMPLE: Final = "larch-row-kitchen.toml"


@click.command("demo")
@click.argument(
    "folder", metavar="[FOLDER]", default="floorwright-demo", type=click.Path(path_type=Path, file_okay=False)
)
@json_option
def command(folder: Path, as_data: bool) -> None:
    """Writes an example job and its pack into a folder, and says in ten lines what the job decided.

    The example is a kitchen that is out of square, measured with a tape: four walls, two diagonals. Edit it and run the
    demo again: your file stays, and its pack is made anew.
    """
    from floorwright.cli.packing import hand_over
    from floorwright.export.folder import write_files

    example = (files("floorwright") / "examples" / EXAMPLE).read_bytes()
    job = write_files(folder, {EXAMPLE: example})
    hand_over(solved(folder / EXAMPLE, as_data=as_data), folder, as_data, before=job)
