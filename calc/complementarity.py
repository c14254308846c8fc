"""Which of many touch and which part: linear complementarity by single principal pivoting.

Covers   w = matrix z + constant with w >= 0, z >= 0 and w z = 0 for each pair, for a symmetric matrix that gives no
         negative energy: supports that may let go, least movements that keep reactions within bounds.
Not      matrices of other kinds: the rule that ends the search holds for these.
Units    whatever the caller's rows have: each w in one unit, each z in another.
Sources  the criss-cross method of least index, which ends on every such matrix, a singular one too.
"""

import numpy as np
import numpy.typing as npt

from calc.beam_loads import Floats
from calc.errors import NothingFits

Pair = npt.NDArray[np.intp]

ROUNDING = 1e-11
"""What counts as nothing beside the greatest entry of the matrix or of the constant."""


def complementary(matrix: Floats, constant: Floats) -> Floats:
    """The z of: w = matrix z + constant, w >= 0, z >= 0, and one of each pair zero.

    Args:
        matrix: symmetric, no negative energy; shape (pairs, pairs)
        constant: w with every z zero; shape (pairs,)

    Raises:
        NothingFits: no z makes every w at least zero.

    >>> complementary(np.array([[2.0, 1.0], [1.0, 2.0]]), np.array([-4.0, 1.0])).tolist()
    [2.0, 0.0]
    """
    # Rows and columns of one size, so that one tolerance serves all of them.
    size = np.sqrt(np.where(np.diag(matrix) > 0, np.diag(matrix), 1.0))
    scaled, start = matrix / np.outer(size, size), constant / size
    table, column = scaled.copy(), start.copy()
    swapped = np.zeros(len(column), dtype=bool)
    small = ROUNDING * max(float(np.abs(column).max(initial=0.0)), 1e-300)
    # A cap on the steps only guards against rounding; the method itself never comes back to a basis.
    for _ in range(100 * len(column) + 100):
        below = np.flatnonzero(column < -small)
        if not len(below):
            return _finished(scaled, start, swapped) / size
        pair = _pair(table, int(below[0]))
        table, column = _pivoted(table, column, pair)
        swapped[pair] = ~swapped[pair]
    raise NothingFits("set of supports that touch", 0.0, float(column.min()), "-")


def _pair(table: Floats, row: int) -> Pair:
    if table[row, row] > ROUNDING:
        return np.array([row])
    partners = np.flatnonzero(table[row] > ROUNDING)
    if not len(partners):
        raise NothingFits("combination of movements", 0.0, -1.0, "-")
    return np.array([row, int(partners[0])])


def _pivoted(table: Floats, column: Floats, pair: Pair) -> tuple[Floats, Floats]:
    """The same relations with the named pairs changing sides."""
    rest = np.setdiff1d(np.arange(len(column)), pair)
    block = np.linalg.inv(table[np.ix_(pair, pair)])
    across, down = table[np.ix_(pair, rest)], table[np.ix_(rest, pair)]
    new, fresh = np.empty_like(table), np.empty_like(column)
    new[np.ix_(pair, pair)] = block
    new[np.ix_(pair, rest)] = -block @ across
    new[np.ix_(rest, pair)] = down @ block
    new[np.ix_(rest, rest)] = table[np.ix_(rest, rest)] - down @ block @ across
    fresh[pair] = -block @ column[pair]
    fresh[rest] = column[rest] - down @ block @ column[pair]
    return new, fresh


def _finished(matrix: Floats, constant: Floats, swapped: npt.NDArray[np.bool_]) -> Floats:
    """Worked out once more from the matrix as given: pivoting has rounded at every step."""
    result = np.zeros(len(constant))
    some = np.flatnonzero(swapped)
    if len(some):
        result[some] = np.linalg.lstsq(matrix[np.ix_(some, some)], -constant[some], rcond=1e-13)[0]
    return np.maximum(result, 0.0)
