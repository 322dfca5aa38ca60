"""On which line of a TOML text each key stands.

`tomllib` reads values but not where they were; this scanner walks the same text and notes only the lines. It trusts the
text to be TOML that `tomllib` has read. In other text it still comes to an end, and notes what it saw until then.
"""

import contextlib
import re
from dataclasses import dataclass, field
from typing import Final, TypeAlias

Path: TypeAlias = tuple[str | int, ...]
"""Keys, and places in arrays counted from 0."""

_BLANK: Final = re.compile(r"(?:[ \t\n]+|#[^\n]*)*")
_SPACE: Final = re.compile(r"[ \t]*")
_BARE_KEY: Final = re.compile(r"[A-Za-z0-9_-]+")
_BASIC: Final = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
_LITERAL: Final = re.compile(r"'([^'\n]*)'")
_LONG_BASIC: Final = re.compile(r'"""(?:[^\\]|\\[\s\S])*?"""(?:"{0,2})')
_LONG_LITERAL: Final = re.compile(r"'''[\s\S]*?'''(?:'{0,2})")
_PLAIN: Final = re.compile(r"[^,\]}\n#]+")
_STRINGS: Final = (_LONG_BASIC, _LONG_LITERAL, _BASIC, _LITERAL)
_ESCAPE: Final = re.compile(r'\\(?:u([0-9a-fA-F]{4})|U([0-9a-fA-F]{8})|([btnfr"\\]))')
_ESCAPED: Final = {"b": "\b", "t": "\t", "n": "\n", "f": "\f", "r": "\r", '"': '"', "\\": "\\"}


@dataclass(slots=True)
class Positions:
    """Where keys stand.

    Attributes:
        lines: path -> line, from 1; a table's is its header's.
        repeats: path, line where it first stood, line where it stands again.
    """

    lines: dict[Path, int] = field(default_factory=dict)
    repeats: list[tuple[Path, int, int]] = field(default_factory=list)

    def line(self, path: Path) -> int | None:
        """Returns the line of a path, or of the nearest table or array that holds it; None if there is none."""
        for end in range(len(path), 0, -1):
            if path[:end] in self.lines:
                return self.lines[path[:end]]
        return None


class _UnreadableError(Exception):
    """The text is no TOML from here on."""


def positions(text: str) -> Positions:
    """Returns the lines of the keys of a TOML text, with `\\n` for its line ends."""
    scanner = _Scanner(text)
    with contextlib.suppress(_UnreadableError, RecursionError):
        scanner.document()
    return scanner.found


class _Scanner:
    """Walks a text once.

    `at` is where it is, `table` the path of the header that it is under, `arrays` the last place in each array of
    tables, `defined` what has had its own header or value.
    """

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.found = Positions()
        self.table: Path = ()
        self.arrays: dict[Path, int] = {}
        self.defined: set[Path] = set()
        self.counted_to = 0
        self.line = 1

    def document(self) -> None:
        self.skip(_BLANK)
        while self.at < len(self.text):
            if self.text.startswith("[", self.at):
                self.header()
            else:
                self.pair(self.table)
            self.skip(_SPACE)
            if self.at < len(self.text) and self.text[self.at] not in "#\n":
                raise _UnreadableError
            self.skip(_BLANK)

    def header(self) -> None:
        line = self.line_here()
        many = self.text.startswith("[[", self.at)
        self.at += 2 if many else 1
        keys = self.keys()
        self.expect("]]" if many else "]")
        path: Path = ()
        for key in keys[:-1]:
            path = self.inside((*path, key))
            self.found.lines.setdefault(path, line)
        path = (*path, keys[-1])
        if path in self.defined and not (many and path in self.arrays):
            self.found.repeats.append((path, self.found.lines[path], line))
        self.defined.add(path)
        if many:
            self.arrays[path] = self.arrays.get(path, -1) + 1
            self.found.lines.setdefault(path, line)
            path = self.inside(path)
        self.found.lines[path] = line
        self.table = path

    def inside(self, path: Path) -> Path:
        """Returns the path of the last table of an array of tables; any other path as it is."""
        return (*path, self.arrays[path]) if path in self.arrays else path

    def pair(self, table: Path) -> None:
        line = self.line_here()
        keys = self.keys()
        self.expect("=")
        path = table
        for key in keys[:-1]:
            path = (*path, key)
            self.found.lines.setdefault(path, line)
        path = (*path, keys[-1])
        if path in self.found.lines:
            self.found.repeats.append((path, self.found.lines[path], line))
        self.found.lines.setdefault(path, line)
        self.defined.add(path)
        self.skip(_SPACE)
        self.value(path)

    def keys(self) -> list[str]:
        keys = [self.key()]
        while self.text.startswith(".", self.at):
            self.at += 1
            keys.append(self.key())
        return keys

    def key(self) -> str:
        self.skip(_SPACE)
        for pattern in (_BARE_KEY, _BASIC, _LITERAL):
            if match := pattern.match(self.text, self.at):
                self.at = match.end()
                self.skip(_SPACE)
                return _unescaped(match[1]) if pattern is _BASIC else match[match.lastindex or 0]
        raise _UnreadableError

    def value(self, path: Path) -> None:
        if self.text.startswith("[", self.at):
            self.array(path)
        elif self.text.startswith("{", self.at):
            self.inline_table(path)
        elif self.text.startswith(('"', "'"), self.at):
            self.string()
        else:
            self.plain()

    def string(self) -> None:
        match = next((match for pattern in _STRINGS if (match := pattern.match(self.text, self.at))), None)
        if match is None:
            raise _UnreadableError
        self.at = match.end()

    def plain(self) -> None:
        match = _PLAIN.match(self.text, self.at)
        if match is None:
            raise _UnreadableError
        self.at = match.end()

    def array(self, path: Path) -> None:
        self.at += 1
        index = 0
        self.skip(_BLANK)
        while not self.text.startswith("]", self.at):
            self.found.lines[(*path, index)] = self.line_here()
            self.value((*path, index))
            index += 1
            self.comma("]")
        self.at += 1

    def inline_table(self, path: Path) -> None:
        self.at += 1
        self.skip(_BLANK)
        while not self.text.startswith("}", self.at):
            self.pair(path)
            self.comma("}")
        self.at += 1

    def comma(self, end: str) -> None:
        self.skip(_BLANK)
        if self.text.startswith(",", self.at):
            self.at += 1
            self.skip(_BLANK)
        elif not self.text.startswith(end, self.at):
            raise _UnreadableError

    def expect(self, mark: str) -> None:
        self.skip(_SPACE)
        if not self.text.startswith(mark, self.at):
            raise _UnreadableError
        self.at += len(mark)

    def skip(self, pattern: re.Pattern[str]) -> None:
        match = pattern.match(self.text, self.at)
        if match is not None:
            self.at = match.end()

    def line_here(self) -> int:
        self.line += self.text.count("\n", self.counted_to, self.at)
        self.counted_to = self.at
        return self.line


def _unescaped(text: str) -> str:
    def character(match: re.Match[str]) -> str:
        code = match[1] or match[2]
        return chr(int(code, 16)) if code else _ESCAPED[match[3]]

    try:
        return _ESCAPE.sub(character, text)
    except (ValueError, OverflowError):
        return text
