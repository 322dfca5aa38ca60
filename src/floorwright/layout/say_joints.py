"""What a layout has to say of the limit, and of the joints that might keep it."""

import math
from collections.abc import Iterator

from floorwright.findings import Finding, Severity
from floorwright.layout.option import Option
from floorwright.layout.options import breaks_limit
from floorwright.layout.said import Said, joint_text, text, zone
from floorwright.layout.score import Floor, smallest_side
from floorwright.layout.wider import Offer
from floorwright.tolerance import RANK_STEP
from floorwright.units import INCH


def of_limit(floor: Floor, said: Said) -> list[Finding]:
    """Returns that pieces are under the limit, and what could be done about it."""
    chosen = said.chosen
    if floor.limit <= 0 or not breaks_limit(chosen, floor.limit):
        return []
    share = chosen.worst / smallest_side(said.cell)
    thin = [wall for wall in chosen.walls if wall.thin < floor.limit - RANK_STEP]
    hidden = {side.name for side in floor.sides if side.hidden}
    at = ", ".join(
        f"{text(floor, wall.thin)} at {wall.wall}{' (hidden)' if wall.wall in hidden else ''}" for wall in thin
    )
    pieces = f"{chosen.under} {'piece' if chosen.under == 1 else 'pieces'} under the limit, "
    return [
        Finding(
            code="layout-under-limit",
            severity=Severity.WARNING,
            place=zone(floor),
            found=f"{pieces if chosen.under else ''}the narrowest {text(floor, chosen.worst)}, "
            f"{share:.1%} of a tile{'; thin ends ' + at if at else ''}",
            expected=f"no piece under {text(floor, floor.limit)}",
            remedy="; ".join((*_of_better(floor, said), *_of_keeping(floor, said), *_of_wider(floor, said))),
            source="yours",
        )
    ]


def _of_better(floor: Floor, said: Said) -> Iterator[str]:
    """What the joints that are allowed can do, where none keeps the limit, and whether it is proved."""
    chosen = said.chosen
    laid = [option for option in said.options if not option.refused]
    best = max(laid, key=lambda option: round(option.worst / RANK_STEP), default=chosen)
    if len(said.steps) > 1 and all(breaks_limit(option, floor.limit) for option in laid):
        yield f"{_none_keeps(floor, said)} brings every piece to the limit"
        if laid:
            yield f"a joint of {joint_text(floor, best.joint)} gives {text(floor, best.worst)}{_falls(floor, best)}"
    if not said.proofs:
        return
    found = max(min(proof.best for proof in said.proofs if proof.joint == joint) for joint in said.searched)
    is_best = round(chosen.worst / RANK_STEP) >= max(round(found / RANK_STEP), round(best.worst / RANK_STEP))
    if is_best and all(proof.status == "proved" for proof in said.proofs):
        joints = [joint_text(floor, joint) for joint in said.searched]
        either = " or ".join((", ".join(joints[:-1]), joints[-1])) if len(joints) > 1 else joints[0]
        yield f"nothing better exists with a joint of {either} (proved)"


def _none_keeps(floor: Floor, said: Said) -> str:
    """Which joints do not keep the limit: every whole step where that is sure, else those that were tried."""
    short = [
        joint
        for joint in said.searched
        if min(proof.bound for proof in said.proofs if proof.joint == joint) < floor.limit - RANK_STEP
    ]
    which = "whole step" if set(said.steps) <= set(short) else "joint tried"
    return f"no {which} up to {joint_text(floor, said.steps[-1])}"


def _of_keeping(floor: Floor, said: Said) -> Iterator[str]:
    """The joints that are offered at which the limit is kept, each with the first option that does."""
    kept: dict[float, str] = {}
    for offer in said.offers:
        if offer.joint is None or offer.joint == said.chosen.joint:
            continue
        if not breaks_limit(said.named[offer.option], floor.limit):
            kept.setdefault(offer.joint, offer.option)
    for joint, name in kept.items():
        yield f"the joint may be {joint_text(floor, joint)}: {name}"


def _of_wider(floor: Floor, said: Said) -> Iterator[str]:
    """A wider worst piece at the same joint that something weightier speaks against."""
    chosen = said.chosen
    alike = [option for option in said.options if not option.refused and option.joint == chosen.joint]
    widest = max(alike, key=lambda option: round(option.worst / RANK_STEP), default=chosen)
    if round(widest.worst / RANK_STEP) <= round(chosen.worst / RANK_STEP):
        return
    yield f"{widest.name} has {text(floor, widest.worst)}{_falls(floor, widest)}"


def _falls(floor: Floor, option: Option) -> str:
    """What a floor set out a little wrong leaves of a worst piece that is fragile."""
    if not option.fragile:
        return ""
    return f", but {text(floor, option.shaken)} when laid as far out as your marks may be"


def of_offers(floor: Floor, said: Said) -> list[Finding]:
    """Returns what is offered at other joints."""
    found = []
    refused = {option.name: option.refused for option in said.options if option.refused}
    for offer in said.offers:
        reason = next((why for name, why in refused.items() if offer.position in (name, *name.split(", "))), "")
        asked = joint_text(floor, said.joint)
        expected = "a joint at which it can be laid"
        if offer.least is not None:
            expected = f"a joint of {_least_text(floor, offer.least)} is the least {_does(floor, said, offer)}"
        step = "no whole spacer step does it"
        if offer.joint is not None:
            first = "first whole step" if offer.least is not None else "first step tried that does it"
            step = f"{_turned(said, offer.joint)} all joints to {joint_text(floor, offer.joint)}, the {first}"
        found.append(
            Finding(
                code="layout-joint-offered",
                severity=Severity.NOTE,
                place=zone(floor),
                found=f"{offer.position} with a joint of {asked}: "
                + (reason or f"leaves a thin end under {text(floor, offer.thinnest)}"),
                expected=expected,
                remedy=step,
            )
        )
    return found


def _turned(said: Said, joint: float) -> str:
    return "open" if joint > said.joint else "close"


def _does(floor: Floor, said: Said, offer: Offer) -> str:
    """What the least joint does for a row: it keeps the limit, or only lets the row be laid."""
    if offer.thinnest >= floor.limit - RANK_STEP:
        return "that does it"
    most = joint_text(floor, said.steps[-1])
    return f"at which it fits; no whole step up to {most} brings its thin ends to {text(floor, floor.limit)}"


def _least_text(floor: Floor, mm: float) -> str:
    if floor.style.system == "metric":
        return f"{mm:.3f} mm"
    sixty_fourth = float(INCH) / 64
    return floor.style.entered_text(math.ceil(mm / sixty_fourth - RANK_STEP) * sixty_fourth)


def of_passed_over(floor: Floor, said: Said) -> list[Finding]:
    """Joints that are allowed and at which the positions were not searched."""
    left = len(set(said.steps) - set(said.searched))
    if not left:
        return []
    return [
        Finding(
            code="layout-joints-passed-over",
            severity=Severity.NOTE,
            place=zone(floor),
            found="all positions were searched with joints of "
            + ", ".join(joint_text(floor, joint) for joint in said.searched)
            + f" only; {left} more of the whole steps up to {joint_text(floor, said.steps[-1])} were passed over",
            expected="a range of few steps, all of which are searched",
            remedy="name a narrower range of joints to have every one searched",
            source="our default",
        )
    ]
