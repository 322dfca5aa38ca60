"""What has become of a floor that is partly laid, as data."""

from __future__ import annotations

from typing import TYPE_CHECKING

from floorwright.export.data import number

if TYPE_CHECKING:
    from floorwright.cuts.changed import CutChange
    from floorwright.cuts.refit import Choice, Refit
    from floorwright.export.data import Data


def refit_data(refit: Refit) -> Data:
    """Returns the verdict, the pieces that have changed, the laid ones that no longer fit, and the choices."""
    return {
        "verdict": refit.verdict,
        "since": refit.since,
        "held": list(refit.held),
        "laid": list(refit.laid),
        "changes": [_change(change) for change in refit.changes],
        "misfits": [
            {
                "piece": misfit.piece,
                "wall": misfit.wall,
                "over_mm": number(misfit.over),
                "gap_mm": None if misfit.over > 0 else number(misfit.gap),
            }
            for misfit in refit.misfits
        ],
        "choices": [_choice(choice) for choice in refit.choices],
    }


def _ends(size: tuple[float, float] | None) -> list[float] | None:
    return None if size is None else [number(mm) for mm in size]


def _change(change: CutChange) -> Data:
    return {
        "piece": change.piece,
        "label": change.label,
        "label_before": change.label_before,
        "what": change.what,
        "walls": list(change.walls),
        "before_mm": _ends(change.before),
        "after_mm": _ends(change.after),
        "short_mm": number(change.short),
    }


def _choice(choice: Choice) -> Data:
    return {
        "what": choice.what,
        "wall": choice.wall,
        "pieces": choice.pieces,
        "by_mm": number(choice.by),
        "rows": choice.rows,
        "joint_mm": number(choice.joint),
        "allowed": choice.allowed,
        "narrowest_mm": number(choice.narrowest),
        "full": choice.full,
        "cut": choice.cut,
    }
