"""The trade's words, which differ between the UK and the US. Sheets take theirs from here, never from memory."""

import re
from dataclasses import dataclass
from typing import Final

from floorwright.errors import FloorwrightValueError
from floorwright.findings import Finding
from floorwright.units import typeset


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """One country's words, in small letters.

    Attributes:
        setting_out: the planning and lining as a whole.
        full: a tile that is not cut.
        first_line: the first straight line, from which the others are raised.
        joint: between tiles.
        gap: at the walls.
        spares: tiles kept for repairs.
        bond: pattern names that differ, ours to theirs.
        setter: the person who lays.
    """

    setting_out: str
    full: str
    first_line: str
    joint: str
    gap: str
    spares: str
    setter: str
    bond: tuple[tuple[str, str], ...] = ()

    def kept(self, count: int) -> str:
        """Returns a count of tiles kept for repairs: `4 spares`, `4 for attic stock`."""
        return counted(count, self.spares[:-1]) if self.spares.endswith("s") else f"{count} for {self.spares}"

    def pattern(self, name: str) -> str:
        """Returns a pattern's name as it is said: `brick bond, half` is `running bond, half` in the US."""
        for ours, theirs in self.bond:
            name = name.replace(ours, theirs)
        return name


UK: Final = Words(
    setting_out="setting out",
    full="full tile",
    first_line="first line",
    joint="joint",
    gap="gap",
    spares="spares",
    setter="fixer",
)

US: Final = Words(
    setting_out="layout",
    full="full",
    first_line="first line",
    joint="grout joint",
    gap="expansion gap",
    spares="attic stock",
    setter="setter",
    bond=(("brick bond", "running bond"), ("grid", "straight lay")),
)

NAME: Final = re.compile(r"(?<=\b[A-Z])-(?=[A-Z]\b)|(?<=\b[A-Z].)-(?=[A-Z].?\b)|(?<=\b[A-Z])-(?=[A-Z].\b)")
"""The hyphen between two corners of one or two characters."""

WORDS: Final = {"UK": UK, "US": US}


def words_of(country: str) -> Words:
    """Returns the words of `UK` or `US`.

    Raises:
        FloorwrightValueError: for any other country.
    """
    if country not in WORDS:
        raise FloorwrightValueError(f"no words for {country!r}; there are {', '.join(WORDS)}")
    return WORDS[country]


def sentence(text: str) -> str:
    """Returns a text that starts with a capital and ends with a stop, its fractions set as fractions.

    >>> sentence("wall S is 4200 long")
    'Wall S is 4200 long.'
    """
    text = text.strip()
    if not text:
        return ""
    return unbroken(typeset(text[0].upper() + text[1:] + ("" if text[-1] in ".?!" else ".")))


def capital(text: str) -> str:
    """Returns a text that starts with a capital, its other letters as they are: names keep theirs."""
    return text[:1].upper() + text[1:]


def unbroken(text: str) -> str:
    """Returns a text in which no line breaks inside the name of a wall or a reading, such as `A-B`."""
    return NAME.sub("\N{NON-BREAKING HYPHEN}", text)


def counted(count: int, one: str, many: str = "") -> str:
    """Returns a count with its word: `1 tile`, `2 tiles`.

    >>> counted(2, "box", "boxes")
    '2 boxes'
    """
    return f"{count} {one if count == 1 else many or one + 's'}"


def listed(parts: list[str], word: str = "and") -> str:
    """Returns a list as it is said: `a`, `a and b`, `a, b and c`."""
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} {word} {parts[-1]}"


def told(finding: Finding) -> str:
    """Returns a finding as sentences: where and what was found, what was expected, what to do."""
    expected = f"expected: {finding.expected}" if finding.expected else ""
    return " ".join(filter(None, map(sentence, (_found(finding), expected, finding.remedy))))


def told_briefly(finding: Finding) -> str:
    """Returns a finding as two short sentences: where and what was found, without its workings, and what to do."""
    found, _, _ = _found(finding).partition("; ")
    remedy, _, _ = finding.remedy.partition("; ")
    return " ".join(filter(None, map(sentence, (found, remedy))))


def _found(finding: Finding) -> str:
    named = finding.found.lower().startswith(finding.place.lower())
    return finding.found if named else f"{finding.place}: {finding.found}"
