"""Plain text for a terminal: aligned tables and findings, wrapped to the width there is."""

from __future__ import annotations

import textwrap
from shutil import get_terminal_size
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from floorwright.findings import Finding

NARROWEST: Final = 60
WIDEST: Final = 120


def width() -> int:
    """Returns how many characters wide to print."""
    return max(NARROWEST, min(WIDEST, get_terminal_size((100, 24)).columns))


def table(headings: Sequence[str], rows: Iterable[Sequence[str]], left: int = 1) -> str:
    """Returns rows in columns, two spaces apart; the first `left` columns to the left, the others to the right."""
    lines = [list(headings), *(list(row) for row in rows)]
    widths = [max(len(line[i]) for line in lines) for i in range(len(headings))]
    return "\n".join(
        "  ".join(
            cell.ljust(width) if i < left else cell.rjust(width)
            for i, (cell, width) in enumerate(zip(line, widths, strict=True))
        ).rstrip()
        for line in lines
    )


def paragraph(text: str, indent: str = "") -> str:
    """Returns a sentence wrapped to the width there is."""
    return textwrap.fill(
        text, width(), initial_indent=indent, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    )


def finding_text(finding: Finding) -> str:
    """Returns one finding: what it is, where, what was found and expected, and the mend."""
    sentence = finding.found
    if finding.expected:
        sentence += f"; {finding.expected}"
    lines = [f"{finding.severity.value}: {finding.place} [{finding.code}]", paragraph(sentence, "    ")]
    if finding.remedy:
        lines.append(paragraph(f"-> {finding.remedy}", "    "))
    return "\n".join(lines)


def findings_text(findings: Sequence[Finding]) -> str:
    """Returns all findings, worst first as given, and a count of each kind."""
    if not findings:
        return "Nothing to answer."
    counts = {"error": 0, "warning": 0, "note": 0}
    for finding in findings:
        counts[finding.severity.value] += 1
    said = ", ".join(f"{count} {kind}{'s' if count > 1 else ''}" for kind, count in counts.items() if count)
    return "\n".join([*(finding_text(finding) for finding in findings), "", said])
