"""Writing a pack and saying what was decided, for `pack` and `demo`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from pathlib import Path

    from floorwright.export.folder import Written
    from floorwright.job.solution import Solution


def write_pack(solution: Solution, folder: Path) -> Written:
    """Writes the pack of a solution into a folder and returns what was written and what was kept."""
    from floorwright.export.files import pack_files
    from floorwright.export.folder import write_files
    from floorwright.sheets.pack import pack

    return write_files(folder, pack_files(pack(solution)))


def say(solution: Solution, written: Written, kept: tuple[Path, ...] = ()) -> None:
    """Prints what the job decided, line by line, and where the sheets are."""
    from floorwright.sheets.decided import decided

    for line in decided(solution):
        click.echo(line)
    for path in written.written:
        if path.suffix == ".pdf":
            click.echo(f"Sheets: {path}")
    others = [path.name for path in written.written if path.suffix != ".pdf"]
    if others:
        click.echo(f"Beside it: {', '.join(others)}")
    for path in (*kept, *written.kept):
        click.echo(f"Left alone, since it was edited or is not ours: {path}", err=True)
