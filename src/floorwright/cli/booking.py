"""The blank booking of a room that is not measured yet: printed, and written as a sheet to take along."""

from __future__ import annotations

import string
from typing import TYPE_CHECKING

import click

from floorwright.cli.blocks import blocks_text
from floorwright.cli.say import say, say_data, warn
from floorwright.draw.sheet import Pack, Sheet
from floorwright.errors import FloorwrightValueError
from floorwright.sheets.booking import booking_sheet
from floorwright.sheets.pack import units_text
from floorwright.survey.accuracy import US_METAL
from floorwright.survey.booking import booking
from floorwright.units import FOOT, IMPERIAL, INCH, METRIC

if TYPE_CHECKING:
    from pathlib import Path

    from floorwright.survey.booking import Booking
    from floorwright.units import LengthStyle

WALL_FEET = 12
"""A wall of the made-up room in feet, near the metric one."""


LEAST_OUTWARD = 3


def book(corners: int, inward: tuple[str, ...], imperial: bool, pdf: Path | None, as_data: bool) -> None:
    """Prints which distances to take in a room of so many corners, and writes the sheet to book them on."""
    style = IMPERIAL if imperial else METRIC
    blank = _blank(corners, inward, imperial)
    sheet = booking_sheet(blank, style, inward)
    if pdf is not None:
        _write(sheet, style, pdf)
        warn(f"Sheet: {pdf}")
    if as_data:
        from floorwright.export.data import booking_data

        say_data(booking_data(blank) | {"files": [str(pdf)] if pdf else []})
    else:
        say(f"{sheet.title}\n\n{blocks_text(sheet.blocks)}")


def _blank(corners: int, inward: tuple[str, ...], imperial: bool) -> Booking:
    names = string.ascii_uppercase[:corners]
    strangers = [name for name in inward if name not in names]
    if strangers:
        raise click.UsageError(f"--inward {strangers[0]}: the corners are {names[0]} to {names[-1]}.")
    if len(set(inward)) > corners - LEAST_OUTWARD:
        raise click.UsageError(f"--inward: at least {LEAST_OUTWARD} corners of a room do not turn in.")
    try:
        if imperial:
            return booking(
                corners, inward=inward, side=float(WALL_FEET * FOOT), tape=US_METAL, reading=float(INCH / 32)
            )
        return booking(corners, inward=inward)
    except FloorwrightValueError as fault:
        raise click.UsageError(f"--inward {' '.join(inward)}: {fault}.") from fault


def _write(sheet: Sheet, style: LengthStyle, path: Path) -> None:
    """Writes the sheet; a file of that name stays, unless it is this very sheet."""
    from floorwright.export.folder import write_whole
    from floorwright.export.pdf import pack_pdf

    imperial = style.system == "imperial"
    content = pack_pdf(
        Pack(
            job="Room to be measured",
            client="",
            by="",
            revision="",
            date="",
            units=units_text(style),
            paper="Letter" if imperial else "A4",
            words="US" if imperial else "UK",
            sheets=(sheet,),
        )
    )
    if path.exists() and path.read_bytes() != content:
        raise click.ClickException(f"{path} is there already and stays as it is. Give another name.")
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, content)
