"""What a tape that is not true, or not at 20 degrees, makes of a length: every reading is out alike, so it adds up."""

from typing import Final

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
