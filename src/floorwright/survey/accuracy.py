"""How far a tape may be wrong, by its class, and what that makes of one reading.

Three things are kept apart: the limit of error that a class of tape is sold under (nothing beyond it is allowed), how
well a person reads it (one standard deviation), and the standard deviation of a reading that follows from both.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from floorwright.errors import FloorwrightValueError
from floorwright.tolerance import COINCIDENT

FOOT: Final = 304.8
INCH: Final = 25.4
METRE: Final = 1000.0

READING: Final = 0.5
"""mm. Our default of how well a tape with a graduation a mm is read, one standard deviation (half a graduation)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tape:
    """A class of tape by its limits of error.

    Attributes:
        name: as it is printed on the tape or in the job.
        base, per_metre: the limit is base + per_metre x length in metres, rounded up to a whole metre; mm.
        hook: mm to add where the reading starts at the end hook.
        steps: (length up to which, limit), both mm; where given they are the limit instead.
        source: where the figures are printed, or `yours`.
    """

    name: str
    base: float = 0.0
    per_metre: float = 0.0
    hook: float = 0.0
    steps: tuple[tuple[float, float], ...] = ()
    source: str


EU_SOURCE: Final = "Directive 2014/32/EU, MI-008 chapter I (UK SI 2016/1153, schedule 1I)"

EU_I: Final = Tape(name="EU I", base=0.1, per_metre=0.1, hook=0.1, source=EU_SOURCE)
EU_II: Final = Tape(name="EU II", base=0.3, per_metre=0.2, hook=0.2, source=EU_SOURCE)
EU_III: Final = Tape(name="EU III", base=0.6, per_metre=0.4, hook=0.3, source=EU_SOURCE)
US_METAL: Final = Tape(
    name="US metal",
    steps=(
        (6 * FOOT, INCH / 32),
        (30 * FOOT, INCH / 16),
        (55 * FOOT, INCH / 8),
        (80 * FOOT, INCH * 3 / 16),
        (100 * FOOT, INCH / 4),
    ),
    source="NIST Handbook 44, section 5.52, table 1 (metal tapes)",
)

TAPES: Final[Mapping[str, Tape]] = {tape.name: tape for tape in (EU_I, EU_II, EU_III, US_METAL)}
"""The classes that a job can name."""


def own_limit(limit: float) -> Tape:
    """Returns a tape (or laser) that its owner trusts to a limit of their own, mm at any length."""
    if not (math.isfinite(limit) and limit > 0.0):
        raise FloorwrightValueError("a tape's limit of error is a length over zero")
    return Tape(name="own limit", base=limit, source="yours")


def error_limit(length: float, tape: Tape, *, hook: bool = False) -> float:
    """Returns how far a reading may be wrong by the tape alone, mm.

    The European classes take the length up to the next whole metre (7.2 m of class II: 0.3 + 0.2 x 8 = 1.9 mm). The US
    steps name whole feet; a length between two takes the longer one. Over the last step the tape is laid again, and the
    limits add up (ours: the handbook ends at 100 ft).

    Args:
        length: mm, zero or more.
        tape: see `TAPES`.
        hook: whether the reading starts at the end hook.
    """
    if not (math.isfinite(length) and length >= 0.0):
        raise FloorwrightValueError("a length is zero or more")
    extra = tape.hook if hook else 0.0
    if not tape.steps:
        return tape.base + tape.per_metre * math.ceil((length - COINCIDENT) / METRE) + extra
    longest, widest = tape.steps[-1]
    times = max(0, math.ceil((length - COINCIDENT) / longest) - 1)
    rest = length - times * longest
    return times * widest + next(limit for upto, limit in tape.steps if rest <= upto + COINCIDENT) + extra


def sd(length: float, tape: Tape, *, hook: bool = False, reading: float = READING) -> float:
    """Returns the a-priori standard deviation of a reading, mm.

    sigma^2 = (limit / sqrt 3)^2 + reading^2: the tape's error is taken as equally likely anywhere within its limit
    (a rectangular distribution, JCGM 100:2008 "GUM", 4.3.7), and the reading's own is independent of it.

    Args:
        length, tape, hook: as for `error_limit`.
        reading: mm, one standard deviation of reading the tape; zero or more.

    >>> round(sd(7200, EU_II), 3)
    1.206
    """
    if not (math.isfinite(reading) and reading >= 0.0):
        raise FloorwrightValueError("the standard deviation of a reading is zero or more")
    return math.hypot(error_limit(length, tape, hook=hook) / math.sqrt(3.0), reading)
