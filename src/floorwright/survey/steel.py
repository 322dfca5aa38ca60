"""What a tape that is not true, not at 20 degrees, pulled otherwise than it was made for or hanging makes of a length.

Every reading is out alike, so that it adds up.
"""

import math
from dataclasses import dataclass
from typing import Final

from floorwright.tolerance import COINCIDENT

STEEL: Final = 11.5e-6
"""Per degree C that steel grows by (from memory; textbooks print 11 to 12; 20 m grow 3.5 mm in 15 degrees)."""

AT: Final = 20.0
"""Degrees C at which the limits of a tape's class hold (Directive 2014/32/EU, MI-008)."""


def true_length(
    read: float, *, reads: float = 1.0, true: float = 1.0, celsius: float = AT, grows: float = STEEL
) -> float:
    """Returns the true length of what a tape was read over, mm.

    A tape that reads too short a figure over a known length has gone long: true = read x (true / reads). A warm tape
    has grown and reads short as well: by `grows` of the length for each degree over 20. Both go with the length, so
    that no number of readings averages them out.

    Args:
        read: mm.
        reads, true: what the tape reads over a length, and what that length is, in any one unit.
        celsius: of the tape while it was read.
        grows: part of its length for each degree C; steel unless said.

    >>> round(true_length(20_000.0, celsius=35.0) - 20_000.0, 2)
    3.45
    """
    return read * (true / reads) * (1.0 + grows * (celsius - AT))


STIFF: Final = 2.0e5
"""N/mm2, of steel (J. Mahun, open-access surveying text, Taping: 29 000 000 psi)."""

DENSE: Final = 7.85e-6
"""kg/mm3, of steel (from memory)."""

MADE_FOR: Final = 50.0
"""N: the pull that the limits of a class hold at for a tape of 5 m and over (Directive 2014/32/EU, MI-008)."""

GRAVITY: Final = 9.80665
"""m/s2 (3rd CGPM, 1901)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pull:
    """How a steel tape was held while it was read.

    Attributes:
        pull: N.
        made_for: N, at which the tape is true.
        section: mm2, of the steel across; 0 where nothing is made of its stretch.
        mass: kg a mm.
        bay: mm from support to support where it hangs free; infinite where it is held up at its ends alone.
    """

    pull: float
    made_for: float = MADE_FOR
    section: float = 0.0
    mass: float = 0.0
    bay: float = math.inf


def stretch(read: float, held: Pull) -> float:
    """Returns how much longer a length is than it was read, for the pull alone, mm: (P - Ps) M / (A E).

    Args:
        read: mm, M.
        held: see there.
    """
    return (held.pull - held.made_for) * read / (held.section * STIFF) if held.section > 0.0 else 0.0


def sag(read: float, held: Pull) -> float:
    """Returns how much shorter a length is than it was read over a tape that hangs, mm.

    w^2 L^3 / (24 P^2) for every bay L: the tape lies along a curve, and the length is its chord.

    Args:
        read: mm; where it is longer than a bay, whole bays and what is left.
        held: see there.
    """
    whole = 0 if math.isinf(held.bay) else math.floor((read + COINCIDENT) / held.bay)
    bays = [held.bay] * whole + [read - whole * held.bay if whole else read]
    weight = held.mass * GRAVITY
    return math.fsum(bay**3 for bay in bays) * (weight / held.pull) ** 2 / 24.0


def droop(span: float, mass: float, pull: float) -> float:
    """Returns how far a tape or a string hangs down half way between its ends, mm: w L^2 / (8 T).

    Args:
        span: mm, L.
        mass: kg a mm.
        pull: N, T.

    >>> round(droop(10_000.0, 1e-6, 20.0), 1)
    6.1
    """
    return mass * GRAVITY * span**2 / (8.0 * pull)
