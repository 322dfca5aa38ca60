"""Figures as plain characters, for formats whose readers may lack raised and lowered ones."""

from typing import Final

PLAIN: Final = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄″′", "01234567890123456789/\"'")
ALWAYS: Final = str.maketrans("−\N{NON-BREAKING HYPHEN}\N{THIN SPACE}\N{NO-BREAK SPACE}", "--  ")
FRACTION: Final = frozenset("⁄″′")


def plain(text: str) -> str:
    """Returns the text with fractions, primes, minus and unbroken signs in ASCII; a raised figure that is no fraction
    stays (`m²`).

    >>> plain("3′-4 ¹⁄₂″"), plain("12 m²")
    ('3\\'-4 1/2"', '12 m²')
    """
    return (text.translate(PLAIN) if FRACTION & set(text) else text).translate(ALWAYS)
