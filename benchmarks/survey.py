"""Adjust a room of 30 readings, beside scipy's least squares on the same network in the same run.

    .venv/bin/python -m benchmarks.survey

Both start from the same coordinates 20 mm off, hold the same wall and have the same analytic derivatives; both end with
the same coordinates (checked). Ours also gives the covariance, redundancy and standardised residuals; scipy's is the
solution alone. Then the whole survey: the room found from nothing, without and with a slip of 50 mm, and rings of 100
and 200 corners taped from three of them, the larger with a slip as well.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from itertools import combinations

import numpy as np
from benchmarks.common import cpu_ms, processor
from scipy import optimize

from floorwright.survey.accuracy import EU_II, sd
from floorwright.survey.adjustment import Datum
from floorwright.survey.datum import basis_of
from floorwright.survey.network import Floats, derivatives, network, residuals
from floorwright.survey.observation import Distance, Observation
from floorwright.survey.solve import adjust
from floorwright.survey.survey import survey_room
from floorwright.units import METRIC

READINGS = 30
SLIP = 50.0
LARGE = (100, 200)
ROOM = {
    "A": (0, 0), "B": (4210, 15), "C": (4195, 1830), "D": (6120, 1845), "E": (6105, 5020), "F": (3000, 5605),
    "G": (820, 5010), "H": (-12, 2600), "I": (-300, 1200),
}  # fmt: skip
INWARD = ("C",)


def readings(slip: float = 0.0) -> list[Observation]:
    """Walls, then diagonals, each with an error of its own: the same every run."""
    rng = np.random.default_rng(11)
    names = list(ROOM)
    walls = [(name, names[(i + 1) % len(names)]) for i, name in enumerate(names)]
    across = [pair for pair in combinations(names, 2) if pair not in walls and pair[::-1] not in walls]
    pairs = walls + [across[i] for i in sorted(rng.choice(len(across), READINGS - len(walls), replace=False))]
    taken: list[Observation] = []
    for a, b in pairs:
        length = math.dist(ROOM[a], ROOM[b])
        accuracy = sd(length, EU_II)
        taken.append(Distance(key=f"{a}-{b}", a=a, b=b, measured=length + accuracy * rng.normal(), sd=accuracy))
    first = taken[-1]
    assert isinstance(first, Distance)
    taken[-1] = Distance(key=first.key, a=first.a, b=first.b, measured=first.measured + slip, sd=first.sd)
    return taken


def ring(count: int) -> tuple[tuple[str, ...], list[Distance]]:
    """The corners of a round room, and its walls and every corner as taped from three of them."""
    rng = np.random.default_rng(3)
    around = 2 * np.pi * np.arange(count) / count
    places = 5000.0 * np.column_stack([np.cos(around), np.sin(around)])
    pairs = {(i, (i + 1) % count) for i in range(count)}
    pairs |= {(k, i) for k in (0, count // 3, 2 * count // 3) for i in range(count) if i != k and (i, k) not in pairs}
    taken: list[Distance] = []
    for i, j in sorted(pairs):
        if i < j or (j, i) not in pairs:
            length = math.dist(places[i], places[j])
            accuracy = sd(length, EU_II)
            read = length + accuracy * rng.normal()
            taken.append(Distance(key=f"P{i}-P{j}", a=f"P{i}", b=f"P{j}", measured=read, sd=accuracy))
    return tuple(f"P{i}" for i in range(count)), taken


def main() -> None:
    """Prints the table."""
    names, taken = tuple(ROOM), readings()
    datum = Datum(kind="first wall", points=names[:2])
    start = np.array(list(ROOM.values()), dtype=np.float64) + np.random.default_rng(3).normal(0, 20, (len(names), 2))
    net, basis = network(names, taken), basis_of(datum, names, start)

    def misfit(moves: Floats) -> Floats:
        return residuals(net, start + (basis @ moves).reshape(-1, 2)) / net.sd

    def slopes(moves: Floats) -> Floats:
        return (derivatives(net, start + (basis @ moves).reshape(-1, 2)) / net.sd[:, None]) @ basis

    zero = np.zeros(basis.shape[1])
    ways = [("levenberg (lm)", "lm"), ("trust region (trf)", "trf")]
    theirs = {
        name: partial(optimize.least_squares, misfit, zero, slopes, method=method, xtol=1e-12, ftol=1e-12, gtol=1e-12)
        for name, method in ways
    }
    ours = partial(adjust, names, start, taken, datum)
    for name, work in theirs.items():
        apart = float(np.abs(ours().xy - start - (basis @ work().x).reshape(-1, 2)).max())
        assert apart < 1e-4, f"{name} ends {apart} mm away"

    def whole(
        observations: Sequence[Observation], outline: tuple[str, ...] = names, inward: tuple[str, ...] = tuple(INWARD)
    ) -> object:
        return survey_room(
            name="bench", outline=outline, direction="anticlockwise", inward=inward, observations=observations,
            wall_names={}, hidden=(), datum=None, style=METRIC,
        )  # fmt: skip

    base = cpu_ms(ours, loops=20)
    rows = [("floorwright adjust", base)]
    rows += [(f"scipy least_squares, {name}", cpu_ms(work, loops=20)) for name, work in theirs.items()]
    rows += [("whole survey, no start given", cpu_ms(partial(whole, taken)))]
    rows += [(f"whole survey, one slip of {SLIP:.0f} mm", cpu_ms(partial(whole, readings(SLIP))))]
    for count in LARGE:
        corners, many = ring(count)
        rows += [(f"whole survey, {count} corners", cpu_ms(partial(whole, many, corners, ()), repeats=2))]
    many[count // 2] = replace(many[count // 2], measured=many[count // 2].measured + SLIP)
    rows += [(f"the same, one slip of {SLIP:.0f} mm", cpu_ms(partial(whole, many, corners, ()), repeats=2))]
    print(f"{processor()}; {len(taken)} readings, {len(names)} points; CPU ms, least of 7 after one to warm")
    for name, milliseconds in rows:
        print(f"{name:40s} {milliseconds:9.2f}   {milliseconds / base:6.2f} of adjust")


if __name__ == "__main__":
    main()
