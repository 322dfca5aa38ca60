"""Figures as plain characters, for formats whose readers may lack raised and lowered ones."""

from typing import Final

PLAIN: Final = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄″′−\u2009", "01234567890123456789/\"'- ")
FRACTION: Final = frozenset("⁄″′")


def plain(text: str) -> str:
    """Returns the text with fractions, primes and minus in ASCII; a raised figure that is no fraction stays (`m²`).

    >>> plain("3′-4 ¹⁄₂″"), plain("12 m²")
    ('3\\'-4 1/2"', '12 m²')
    """
    return text.translate(PLAIN) if FRACTION & set(text) else text.replace("−", "-")
