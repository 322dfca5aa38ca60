"""Set out a patterned floor, from tape readings to a job pack.

The whole pipeline is one function, `floorwright.solve`; read it first.
"""

from typing import TYPE_CHECKING, Any

from floorwright._version import __version__

if TYPE_CHECKING:
    from floorwright.job.load import load
    from floorwright.job.solve import solve

__all__ = ["__version__", "load", "solve"]


def __getattr__(name: str) -> Any:
    """Hands on `load` and `solve` when they are first asked for, so that importing the package loads nothing heavy."""
    if name == "load":
        from floorwright.job.load import load

        return load
    if name == "solve":
        from floorwright.job.solve import solve

        return solve
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
