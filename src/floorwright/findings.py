"""What the program has to tell a person about their job: one sentence each, with the figure and the mend."""

from dataclasses import asdict, dataclass
from enum import StrEnum
from typing import Final


class Severity(StrEnum):
    """How much a finding matters.

    `ERROR`: no result to trust. `WARNING`: a limit broken or a doubt. `NOTE`: a choice that was made.
    """

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


ORDER: Final = {Severity.ERROR: 0, Severity.WARNING: 1, Severity.NOTE: 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing found.

    Attributes:
        code: a short name, `part-what`, documented in `docs/findings.md`; stable between releases.
        severity: see `Severity`.
        place: where: `job.toml:12 goods.length`, or a trade place such as `corner NE`, `wall S`, `zone field`.
        found: what is there, with its figure.
        expected: what should be there, or what the figure was held against. May be empty for a note.
        remedy: what to do about it.
        source: whose figure it was held against: a rule, `our default`, `yours` (the person's own), `geometry`.
    """

    code: str
    severity: Severity
    place: str
    found: str
    expected: str = ""
    remedy: str = ""
    source: str = "geometry"

    def as_dict(self) -> dict[str, str]:
        """Returns the finding as the JSON object of design section 5."""
        return {key: str(value) for key, value in asdict(self).items()}


def worst_first(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Returns the findings with errors first, else in the order in which they were found."""
    return tuple(sorted(findings, key=lambda finding: ORDER[finding.severity]))


def has_error(findings: tuple[Finding, ...]) -> bool:
    """Returns whether any finding leaves no result to trust."""
    return any(finding.severity is Severity.ERROR for finding in findings)
