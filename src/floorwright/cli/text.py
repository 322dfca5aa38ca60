"""Plain text for a terminal: aligned tables, findings and the words of sheets, wrapped to the width there is."""

from __future__ import annotations

import re
import textwrap
from collections import Counter
from itertools import zip_longest
from shutil import get_terminal_size
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from floorwright.findings import Finding

NARROWEST: Final = 60
WIDEST: Final = 120
NARROWEST_CELL: Final = 16
"""Characters; a column of words is wrapped, but not narrower than this."""

_PLAIN: Final = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "0123456789" * 2)
_FRACTION: Final = re.compile(r"[⁰¹²³⁴-⁹]+⁄[₀-₉]+")
_SIGNS: Final = str.maketrans("\N{NO-BREAK SPACE}\N{NON-BREAKING HYPHEN}\N{MINUS SIGN}\N{FRACTION SLASH}", " --/")


def width() -> int:
    """Returns how many characters wide to print."""
    return max(NARROWEST, min(WIDEST, get_terminal_size((100, 24)).columns))


def plain(text: str) -> str:
    """Returns the text of a sheet as it is typed: fractions, minus signs and unbroken spaces in plain characters.

    >>> plain("7 ¹¹⁄₁₆ in")
    '7 11/16 in'
    """
    return _FRACTION.sub(lambda fraction: fraction[0].translate(_PLAIN), text).translate(_SIGNS)


def table(headings: Sequence[str], rows: Iterable[Sequence[str]], left: Iterable[int] = (0,)) -> str:
    """Returns rows in columns, two spaces apart; where they are too wide, words are wrapped, the widest column first.

    Args:
        headings: one for each column.
        rows: as many texts in each.
        left: columns of words, which start at the left; the others, of figures, end at the right.
    """
    lines = [list(headings), *(list(row) for row in rows)]
    words = set(left)
    widths = _fitted([max(len(line[i]) for line in lines) for i in range(len(headings))], words)
    return "\n".join(
        "  ".join(
            cell.ljust(wide) if i in words else cell.rjust(wide)
            for i, (cell, wide) in enumerate(zip(part, widths, strict=True))
        ).rstrip()
        for line in lines
        for part in _wrapped(line, widths)
    )


def _fitted(widths: list[int], words: set[int]) -> list[int]:
    """Returns the widths of columns, those of words narrowed as far as there is need and they can be."""
    widths = list(widths)
    over = sum(widths) + 2 * (len(widths) - 1) - width()
    for column in sorted(words, key=lambda i: (-widths[i], i)):
        narrower = max(min(widths[column], NARROWEST_CELL), widths[column] - max(over, 0))
        over -= widths[column] - narrower
        widths[column] = narrower
    return widths


def _wrapped(line: list[str], widths: list[int]) -> Iterable[tuple[str, ...]]:
    """Returns a line of a table as several, what is too long for its column run on under itself."""
    cells = [
        textwrap.wrap(cell, wide, break_on_hyphens=False) if len(cell) > wide else [cell]
        for cell, wide in zip(line, widths, strict=True)
    ]
    return zip_longest(*cells, fillvalue="")


def paragraph(text: str, indent: str = "", hang: str | None = None) -> str:
    """Returns a sentence wrapped to the width there is; `hang` indents all its lines but the first."""
    return textwrap.fill(
        text,
        width(),
        initial_indent=indent,
        subsequent_indent=indent if hang is None else hang,
        break_long_words=False,
        break_on_hyphens=False,
    )


def finding_text(finding: Finding) -> str:
    """Returns one finding: what it is, where, what was found and expected, and the mend."""
    sentence = finding.found
    if finding.expected:
        sentence += f" (expected: {finding.expected})"
    lines = [f"{finding.severity.value}: {finding.place} [{finding.code}]", paragraph(sentence, "    ")]
    if finding.remedy:
        lines.append(paragraph(f"-> {finding.remedy}", "    "))
    return "\n".join(lines)


def findings_text(findings: Sequence[Finding]) -> str:
    """Returns all findings, worst first as given, and last how many of them need an answer."""
    if not findings:
        return "Nothing needs an answer."
    counts = Counter(finding.severity.value for finding in findings)
    errors, warnings, notes = (
        f"{counts[kind]} {kind}{'s' if counts[kind] > 1 else ''}" if counts[kind] else ""
        for kind in ("error", "warning", "note")
    )
    answer = " and ".join(filter(None, (errors, warnings)))
    said = f"To answer: {answer}" if answer else "Nothing needs an answer"
    return "\n".join(
        [*(finding_text(finding) for finding in findings), "", f"{said}; {notes}." if notes else f"{said}."]
    )
