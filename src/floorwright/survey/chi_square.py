"""The chi-square distribution, as far as a survey needs it: what sums of squares are too large, or too small.

By the incomplete gamma function (Abramowitz and Stegun 26.4.19, 6.5.29, 6.5.31), so that nothing is imported for it.
"""

import math
from typing import Final

from floorwright.errors import FloorwrightValueError

RISK: Final = 0.001
"""Our default: a good survey is called wrong once in a thousand (Baarda's data snooping, one reading, two sides)."""

CRITICAL: Final = 3.290527
"""Standardised residual that a good reading exceeds once in a thousand: the normal quantile for 0.1 % on two sides."""

CLEARLY: Final = 6.634897
"""How much more one explanation must take off the sum of squares than another: chi-square, 1 degree, 1 %."""

_ONE_PERCENT: Final = 0.01
_STEPS: Final = 500
_PRECISION: Final = 1e-15


def probability(value: float, freedom: int) -> float:
    """Returns the probability that a chi-square of that freedom is at most the value."""
    if freedom < 1:
        raise FloorwrightValueError("chi-square takes one degree of freedom or more")
    a, x = freedom / 2, value / 2
    if x <= 0.0:
        return 0.0
    return _series(a, x) if x < a + 1.0 else 1.0 - _fraction(a, x)


def quantile(share: float, freedom: int) -> float:
    """Returns the value that a chi-square of that freedom is under with the probability `share`, 0 < share < 1.

    >>> round(quantile(0.95, 1), 3)
    3.841
    """
    if not 0.0 < share < 1.0:
        raise FloorwrightValueError("a probability lies between 0 and 1")
    low, high = 0.0, float(freedom)
    while probability(high, freedom) < share:
        low, high = high, 2 * high
    while high - low > _PRECISION * high:
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if probability(middle, freedom) < share else (low, middle)
    return high


def clear_difference(freedom: int) -> float:
    """Returns how much larger one square is than another, in units of a variance, before it means anything (1 %).

    `CLEARLY` where the variance is known; where it is estimated with some degrees of freedom, the square of Student's t
    at 1 % on two sides: with two degrees 98.5, with ten 10.0. None at all estimate nothing: infinity.

    Args:
        freedom: degrees of freedom that the variance is estimated with; 0 or more.
    """
    if freedom < 1:
        return math.inf
    low, high = 0.0, math.pi / 2
    while high - low > _PRECISION:
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if _student(middle, freedom) < 1.0 - _ONE_PERCENT else (low, middle)
    return freedom * math.tan(high) ** 2


def _student(angle: float, freedom: int) -> float:
    """Probability that |t| < sqrt(freedom) tan(angle), Abramowitz and Stegun 26.7.3 and 26.7.4."""
    cosine, total, term = math.cos(angle), 0.0, 1.0
    odd = freedom % 2
    for k in range(odd, freedom - 1, 2):
        total += term
        term *= (k + 1) / (k + 2) * cosine * cosine
    if odd:
        return (angle + math.sin(angle) * cosine * total) * 2 / math.pi
    return math.sin(angle) * total


def is_acceptable(squares: float, freedom: int) -> bool:
    """Returns whether a sum of squares is no larger than readings of the stated accuracy give, but once in `1/RISK`.

    With no degrees of freedom nothing is compared; a sum of squares is then only what rounding left, or the triangle
    that does not close, and is held against one degree.
    """
    return squares <= quantile(1.0 - RISK, max(freedom, 1))


def _series(a: float, x: float) -> float:
    term = total = 1.0 / a
    for n in range(1, _STEPS):
        term *= x / (a + n)
        total += term
        if term < total * _PRECISION:
            break
    return total * math.exp(a * math.log(x) - x - math.lgamma(a))


def _fraction(a: float, x: float) -> float:
    """The upper tail by Lentz's continued fraction."""
    b = x + 1.0 - a
    c, d = 1.0 / math.ulp(0.0) ** 0.5, 1.0 / b
    total = d
    for i in range(1, _STEPS):
        numerator = -i * (i - a)
        b += 2.0
        d = 1.0 / (numerator * d + b)
        c = b + numerator / c
        change = d * c
        total *= change
        if abs(change - 1.0) < _PRECISION:
            break
    return total * math.exp(a * math.log(x) - x - math.lgamma(a))
