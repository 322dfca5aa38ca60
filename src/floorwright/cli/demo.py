"""`floorwright demo`."""

from importlib.resources import files
from pathlib import Path
from typing import Final

import click

EXAMPLE: Final = "larch-row-kitchen.toml"


@click.command("demo")
@click.argument(
    "folder", metavar="[FOLDER]", default="floorwright-demo", type=click.Path(path_type=Path, file_okay=False)
)
def command(folder: Path) -> None:
    """Writes an example job and its pack into a folder, and says in ten lines what the job decided.

    The example is a kitchen that is out of square, measured with a tape: four walls, two diagonals.
    """
    from floorwright.cli.job import solved
    from floorwright.cli.packing import say, write_pack
    from floorwright.export.folder import write_files

    example = (files("floorwright") / "examples" / EXAMPLE).read_bytes()
    job = write_files(folder, {EXAMPLE: example})
    solution = solved(folder / EXAMPLE)
    written = write_pack(solution, folder)
    say(solution, written, kept=job.kept)
