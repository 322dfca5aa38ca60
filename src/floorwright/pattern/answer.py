"""What there is to say of a pattern with the goods and the joint that a zone asks for."""

import math
from collections.abc import Iterator
from typing import Final

from floorwright.errors import FloorwrightValueError
from floorwright.findings import Finding, Severity, has_error
from floorwright.pattern.entry import Asked, Pattern
from floorwright.pattern.measured import longest_run
from floorwright.tolerance import RANK_STEP

STANDS: Final = ("square to wall", "diagonal to wall")
"""How a pattern with a direction may stand: its pieces along the wall, or at 45 degrees to it."""


def answer(pattern: Pattern, asked: Asked, stand: str | None) -> tuple[Finding, ...]:
    """Returns what does not close and what would, what runs too far, and the choice that is still open.

    Args:
        pattern: of the catalogue.
        asked: see there.
        stand: one of `STANDS`, None where the person has not said.
    """
    found = list(pattern.check(asked))
    if pattern.stands and stand is None:
        found.append(_undecided(pattern, asked))
    if not has_error(tuple(one for one in found if one.code != UNDECIDED)):
        found += _made(pattern, asked)
    return tuple(found)


UNDECIDED: Final = "pattern-stand"


def _undecided(pattern: Pattern, asked: Asked) -> Finding:
    return asked.finding(
        UNDECIDED,
        f"{pattern.name} that is neither said to be square nor diagonal to the wall; it is shown square to it",
        "one or the other, agreed with the client: there is no page to sign till then",
        'write stand = "square to wall" or stand = "diagonal to wall"',
        Severity.ERROR,
    )


def _made(pattern: Pattern, asked: Asked) -> Iterator[Finding]:
    """Yields what is only known of a pattern once it is made."""
    try:
        cell = pattern.cell(asked.sizes, asked.joint, asked.values)
    except FloorwrightValueError as fault:
        yield asked.finding(
            "pattern-impossible", str(fault), "a pattern that can be laid", "take other values", Severity.ERROR
        )
        return
    if pattern.parameter("run_most") is None:
        return
    run, most = longest_run(cell), asked.values.get("run_most")
    if math.isinf(run):
        return
    if most is not None and run > most + RANK_STEP:
        yield asked.finding(
            "pattern-straight-joint",
            f"the longest straight joint is {asked.text(run)}",
            f"none over {asked.text(most)}",
            "take smaller pieces, or a pattern of more sizes",
        )
    else:
        yield asked.finding(
            "pattern-straight-joint",
            f"the longest straight joint is {asked.text(run)}",
            f"none over {asked.text(most)}" if most is not None else "",
            severity=Severity.NOTE,
        )
