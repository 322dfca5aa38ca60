"""How a command ends."""

from typing import Final

FINE: Final = 0
ERROR: Final = 1
"""At least one finding is an error, or the job cannot be read."""
USAGE: Final = 2
"""A wrong option or argument."""
FAULT: Final = 3
"""Our own fault, or the disk's."""
STOPPED: Final = 130
"""By Ctrl-C."""
