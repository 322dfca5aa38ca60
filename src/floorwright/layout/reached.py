"""What the chosen option makes of each aim, beside what is known to be possible."""

from collections.abc import Sequence

from floorwright.layout.aims import PLACED, SEARCHED, WIDEST, Aim, Reached, is_kept, loss
from floorwright.layout.option import Option, Proof


def reached(
    aims: Sequence[Aim], chosen: Option, options: Sequence[Option], proofs: Sequence[Proof], decided: int
) -> tuple[Reached, ...]:
    """Returns for each aim what the chosen option makes of it, and whether more is known to be impossible.

    Args:
        aims: in order.
        chosen: the option that is laid.
        options: all, with their figures.
        proofs: of the positions searched; one tells of an aim where it was searched for under the aims before it, at
            the chosen option's joint and angle.
        decided: which aim left the chosen option alone; -1 for none.
    """
    laid = [option for option in options if not option.refused] or list(options)
    made = []
    for n, aim in enumerate(aims):
        known = [option.figures[n] for option in laid if option.figures[n] is not None]
        value = chosen.figures[n]
        proof = _proof_of(aim, n, chosen, proofs)
        made.append(
            Reached(
                aim=aim,
                value=value,
                best=min(known, key=lambda figure: loss(aim, figure), default=None),
                kept=is_kept(aim, value),
                status="of the options" if proof is None else proof.status,
                bound=None if proof is None else proof.bound,
                tolerance=0.0 if proof is None else proof.tolerance,
                why="" if proof is None else proof.why,
                decided=n == decided,
                ruled_out=_is_ruled_out(aim, n, chosen, proofs),
            )
        )
    return tuple(made)


def _is_ruled_out(aim: Aim, number: int, chosen: Option, proofs: Sequence[Proof]) -> bool:
    if aim.name not in PLACED:
        return False
    return any(proof.tells_of(chosen) and proof.number == number and not proof.possible for proof in proofs)


def _proof_of(aim: Aim, number: int, chosen: Option, proofs: Sequence[Proof]) -> Proof | None:
    if aim.name not in SEARCHED:
        return None
    own = [proof for proof in proofs if proof.tells_of(chosen) and proof.number == number]
    if not own and number == 0 and not (aim.walls or aim.visible) and aim.unit == "mm":
        # The widest worst piece of all is searched for in any case, and bounds the limit too.
        own = [proof for proof in proofs if proof.tells_of(chosen) and proof.aim == WIDEST]
    # Of two axes, each proved on its own, the narrower tells.
    return min(own, key=lambda proof: (proof.best, proof.axis), default=None)
