"""The small linear programme against a solver that knows nothing of it."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from floorwright.layout.linear import FAR, MOST, highest_low

functions = st.lists(
    st.tuples(st.integers(-500, 500), st.integers(-9, 9), st.integers(-9, 9)), min_size=1, max_size=MOST
)


@given(functions, st.integers(1, 300), st.integers(1, 300))
def test_agrees_with_a_general_solver(drawn: list[tuple[int, int, int]], width: int, height: int) -> None:
    n = len(drawn)
    table = np.array(drawn, dtype=np.float64)
    value, slope = table[:, 0], table[:, 1:]
    half = np.array([width / 10, height / 10])
    # Greatest z with z <= value + slope x.
    solved = linprog(
        [0, 0, -1],
        A_ub=np.column_stack([-slope, np.ones(n)]),
        b_ub=value,
        bounds=[(-half[0], half[0]), (-half[1], half[1]), (None, None)],
    )
    values = np.concatenate([value, np.full(MOST - n, FAR)])
    slopes = np.concatenate([slope, np.zeros((MOST - n, 2))])
    top, place = highest_low(values[None], slopes[None], half[None])
    assert abs(top[0] + solved.fun) < 1e-6
    assert (np.abs(place[0]) <= half + 1e-4).all()
    assert abs((value + slope @ place[0]).min() - top[0]) < 1e-6
