"""Exceptions for our own faults and for misuse of the library.

What is wrong with a person's job is never an exception: it is a `findings.Finding`, so that all of them can be
shown at once. Each class here also is the built-in it resembles, so that callers can catch either.
"""


class FloorwrightError(Exception):
    """Base of everything that floorwright raises on purpose."""


class FloorwrightValueError(FloorwrightError, ValueError):
    """A value that no caller should have passed."""


class LengthError(FloorwrightValueError):
    """A text that is not a length.

    Attributes:
        found: the text as it was read.
        expected: what would have been right, as a phrase to show.
    """

    def __init__(self, found: str, expected: str) -> None:
        super().__init__(f"not a length: {found!r}; write {expected}")
        self.found = found
        self.expected = expected
