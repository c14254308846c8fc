"""Many layouts of jacks under one wall worked out at once, for a search that tries thousands.

Covers   what each pair of neighbouring places on a grid takes of the load, once for a wall; from it reactions,
         sensitivities, one jack lost and uneven lifting of a whole batch of layouts with the same number of jacks.
Not      a result to hand out: the figures of one beam are worked out again by beam_on_jacks, another way.
Signs    as beam_on_jacks.
Units    m, kN, kN/m, kN m; bending stiffness kN m2; compliance m/kN.
Sources  the equation of five moments (beam_on_jacks), solved without pivoting: its matrix is positive definite.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from calc.beam_loads import BeamLoad, Floats, prefix_integrals
from calc.errors import require
from calc.fields import note, quantity

Places = npt.NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Grid:
    """A wall's load as neighbouring jacks on a grid take it. Tables go by place, then by places apart."""

    step: float = quantity("m", "from one place to the next; place 0 is the beam's left end")
    places: int = note("number of places")
    widest: int = note("greatest number of places between neighbours")
    stiffness: float = quantity("kN m2", "bending stiffness of the beam")
    compliance: Floats = quantity("m/kN", "of a support at each place")
    left: Floats = quantity("kN", "drawn by the left jack of a hinged span")
    right: Floats = quantity("kN", "drawn by its right jack")
    left_slope: Floats = quantity("kN m2", "6EI times the slope of that span at its left end")
    right_slope: Floats = quantity("kN m2", "the same at its right end")
    left_half: Floats = quantity("kN", "on the left half of the span")
    right_half: Floats = quantity("kN", "on the right half")
    before: Floats = quantity("kN", "on the beam to the left of each place")
    before_moment: Floats = quantity("kN m", "its moment at the place, sagging positive")
    after: Floats = quantity("kN", "on the beam to the right of each place, the place itself included")
    after_moment: Floats = quantity("kN m", "its moment at the place, sagging positive")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Batch:
    """Layouts worked out together; the last axis counts the layouts."""

    reactions: Floats = quantity("kN", "shape (jacks, layouts)")
    sensitivity: Floats = quantity("kN/m", "shape (jacks, jacks, layouts)")


def grid_of(load: BeamLoad, step: float, widest: int, stiffness: float, compliance: float | Floats) -> Grid:
    """The tables of one wall, worked out once.

    Args:
        load: on the beam
        step: from one place to the next [m]
        widest: greatest number of steps between neighbouring jacks
        stiffness: bending stiffness of the beam [kN m2]
        compliance: of a support, everywhere or at each place [m/kN]

    >>> from calc.beam_loads import beam_load
    >>> grid = grid_of(beam_load(3.0, [(0.0, 3.0, 10.0)]), 0.5, 4, 1e4, 1e-4)
    >>> grid.places, float(grid.left[0, 2]), float(grid.before[3])
    (7, 5.0, 15.0)
    """
    require("step of the grid", step, "m", "be more than", 0.0)
    require("bending stiffness", stiffness, "kN m2", "be more than", 0.0)
    count = int(load.length / step + 1e-6) + 1
    at = np.minimum(step * np.arange(count), load.length)
    sums = prefix_integrals(load, at)
    far = np.minimum(np.arange(count)[:, None] + np.arange(widest + 1), count - 1)
    part = sums[:, far] - sums[:, :, None]
    span = at[far] - at[:, None]
    m1, m2, m3 = _about(at[:, None], part)
    with np.errstate(divide="ignore", invalid="ignore"):
        right = np.where(span > 0, m1 / span, 0.0)
        left_slope = np.where(span > 0, (2 * span**2 * m1 - 3 * span * m2 + m3) / span, 0.0)
        right_slope = np.where(span > 0, (span**2 * m1 - m3) / span, 0.0)
    middles, place = np.unique((at[far] + at[:, None]) / 2, return_inverse=True)
    half = prefix_integrals(load, middles)[0][place].reshape(span.shape) - sums[0][:, None]
    after = load.total - sums[0]
    return Grid(
        step=step, places=count, widest=widest, stiffness=stiffness,
        compliance=np.broadcast_to(np.asarray(compliance, dtype=np.float64), (count,)),
        left=part[0] - right, right=right, left_slope=left_slope, right_slope=right_slope, left_half=half,
        right_half=part[0] - half, before=sums[0], before_moment=sums[1] - sums[0] * at, after=after,
        after_moment=after * at - (load.moment - sums[1]),
    )  # fmt: skip


def _about(at: Floats, part: Floats) -> tuple[Floats, Floats, Floats]:
    """Sums of load times distance 1, 2, 3 moved from the beam's end to the left end of each span."""
    m1 = part[1] - at * part[0]
    m2 = part[2] - 2 * at * part[1] + at**2 * part[0]
    m3 = part[3] - 3 * at * part[2] + 3 * at**2 * part[1] - at**3 * part[0]
    return m1, m2, m3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _System:
    """The equations of a batch: one row to an inner jack, the last axis counts the layouts."""

    inverse: Floats
    middle: Floats
    reactions: Floats
    bands: tuple[Floats, Floats, Floats]
    wanted: Floats


def batch(grid: Grid, layouts: Places) -> Batch:
    """Reactions and sensitivities of many layouts with the same number of jacks.

    Args:
        grid: the wall's tables
        layouts: places of the jacks in order, one layout to a column; shape (jacks, layouts)

    >>> from calc.beam_loads import beam_load
    >>> grid = grid_of(beam_load(4.0, [(0.0, 4.0, 10.0)]), 0.5, 8, 1e4, 0.0)
    >>> batch(grid, np.array([[0, 0], [4, 3], [8, 8]])).reactions.T.round(4).tolist()
    [[7.5, 25.0, 7.5], [3.5417, 26.3333, 10.125]]
    """
    system, rows = _system(grid, layouts), len(layouts) - 2
    sides = np.zeros((rows, rows + 3, layouts.shape[1]))
    sides[:, 0] = system.wanted
    order = np.arange(rows)
    sides[order, order + 1], sides[order, order + 2] = system.inverse[:-1], system.middle
    sides[order, order + 3] = system.inverse[1:]
    _solve(system.bands, sides)
    answer = np.zeros((rows + 2, rows + 2, layouts.shape[1]))
    _add_chord_forces(answer, system.inverse[:, None], system.middle[:, None], sides[:, 1:])
    answer *= -6 * grid.stiffness
    _add_chord_forces(system.reactions, system.inverse, system.middle, sides[:, 0])
    return Batch(reactions=system.reactions, sensitivity=answer)


def reactions_of(grid: Grid, layouts: Places) -> Floats:
    """Reactions of many layouts with all jacks at work and level, and nothing else; shape (jacks, layouts) [kN].

    Args:
        grid: the wall's tables
        layouts: places of the jacks in order, one layout to a column

    >>> from calc.beam_loads import beam_load
    >>> grid = grid_of(beam_load(4.0, [(0.0, 4.0, 10.0)]), 0.5, 8, 1e4, 0.0)
    >>> reactions_of(grid, np.array([[0], [4], [8]])).T.round(4).tolist()
    [[7.5, 25.0, 7.5]]
    """
    system = _system(grid, layouts)
    sides = system.wanted[:, None].copy()
    _solve(system.bands, sides)
    _add_chord_forces(system.reactions, system.inverse, system.middle, sides[:, 0])
    return system.reactions


def _system(grid: Grid, layouts: Places) -> _System:
    gap = layouts[1:] - layouts[:-1]
    span = gap * np.float64(grid.step)
    inverse = 1 / span
    middle = -inverse[:-1] - inverse[1:]
    reactions, moments = _hinged(grid, layouts)
    slope = (moments[1:] - moments[:-1]) * inverse
    reactions[:-1] += slope
    reactions[1:] -= slope
    flat = layouts[:-1] * (grid.widest + 1) + gap
    yields = 6 * grid.stiffness * grid.compliance[layouts]
    moved = yields * reactions
    wanted = -(grid.right_slope.ravel()[flat[:-1]] + grid.left_slope.ravel()[flat[1:]])
    wanted -= inverse[:-1] * moved[:-2] + middle * moved[1:-1] + inverse[1:] * moved[2:]
    if len(wanted):
        wanted[0] -= span[0] * moments[0]
        wanted[-1] -= span[-1] * moments[-1]
    bands = _bands(span, inverse, middle, yields)
    return _System(inverse=inverse, middle=middle, reactions=reactions, bands=bands, wanted=wanted)


def _add_chord_forces(forces: Floats, inverse: Floats, middle: Floats, moments: Floats) -> None:
    """Adds what moments over the inner jacks put on each jack."""
    forces[:-2] += inverse[:-1] * moments
    forces[1:-1] += middle * moments
    forces[2:] += inverse[1:] * moments


def tributary(grid: Grid, layouts: Places) -> Floats:
    """Load each jack draws by the lever rule, overhangs to the end jacks; shape (jacks, layouts) [kN].

    Args:
        grid: the wall's tables
        layouts: places of the jacks in order, one layout to a column

    >>> from calc.beam_loads import beam_load
    >>> grid = grid_of(beam_load(4.0, [(0.0, 4.0, 10.0)]), 0.5, 8, 1e4, 0.0)
    >>> tributary(grid, np.array([[1], [4], [8]])).T.tolist()
    [[12.5, 17.5, 10.0]]
    """
    flat = layouts[:-1] * (grid.widest + 1) + np.diff(layouts, axis=0)
    drawn = np.zeros(layouts.shape)
    drawn[:-1] = grid.left.ravel()[flat]
    drawn[1:] += grid.right.ravel()[flat]
    drawn[0] += grid.before[layouts[0]]
    drawn[-1] += grid.after[layouts[-1]]
    return drawn


def _hinged(grid: Grid, layouts: Places) -> tuple[Floats, Floats]:
    reactions = tributary(grid, layouts)
    moments = np.zeros(layouts.shape)
    moments[0] = grid.before_moment[layouts[0]]
    moments[-1] = grid.after_moment[layouts[-1]]
    return reactions, moments


def _bands(span: Floats, inverse: Floats, middle: Floats, yields: Floats) -> tuple[Floats, Floats, Floats]:
    """The three upper diagonals of the matrix: bending of the spans, and supports that yield."""
    near, far = inverse[:-1], inverse[1:]
    main = 2 * (span[:-1] + span[1:])
    main += yields[:-2] * near**2 + yields[1:-1] * middle**2 + yields[2:] * far**2
    first = span[1:-1] + yields[1:-2] * middle[:-1] * near[1:] + yields[2:-1] * far[:-1] * middle[1:]
    return main, first, yields[2:-2] * far[:-2] * near[2:]


def _solve(bands: tuple[Floats, Floats, Floats], sides: Floats) -> None:
    """Turns right hand sides into inner moments, in place; column 0 is the load, others a moved base."""
    main, first, second = bands
    rows = len(main)
    pivot, near, far = main.copy(), np.zeros_like(main), np.zeros_like(main)
    for row in range(rows):
        # What lies below the diagonal is cleared by the one and the two rows above; further columns are still zero.
        if row > 1:
            pivot[row] -= far[row - 2] * second[row - 2]
            sides[row, : row + 2] -= far[row - 2] * sides[row - 2, : row + 2]
        if row > 0:
            rest = first[row - 1] - (far[row - 2] * near[row - 2] * pivot[row - 2] if row > 1 else 0.0)
            near[row - 1] = rest / pivot[row - 1]
            pivot[row] -= near[row - 1] * rest
            sides[row, : row + 3] -= near[row - 1] * sides[row - 1, : row + 3]
        if row < rows - 2:
            far[row] = second[row] / pivot[row]
    sides /= pivot[:, None]
    for row in range(rows - 2, -1, -1):
        sides[row] -= near[row] * sides[row + 1]
        if row < rows - 2:
            sides[row] -= far[row] * sides[row + 2]


def lost_greatest(found: Batch) -> Floats:
    """Greatest reaction of each jack when any one of the others is lost; shape (jacks, layouts) [kN].

    Args:
        found: layouts of three jacks or more

    >>> from calc.beam_loads import beam_load
    >>> grid = grid_of(beam_load(3.0, [(0.0, 3.0, 10.0)]), 0.5, 6, 1e4, 0.0)
    >>> lost_greatest(batch(grid, np.array([[0], [2], [6]]))).round(6).tolist()
    [[15.0], [45.0], [15.0]]
    """
    return lost_reactions(found).max(axis=1)


def lost_reactions(found: Batch) -> Floats:
    """Every one jack lost: shape (jack, jack lost, layouts) [kN].

    Args:
        found: layouts of three jacks or more

    >>> from calc.beam_loads import beam_load
    >>> grid = grid_of(beam_load(3.0, [(0.0, 3.0, 10.0)]), 0.5, 6, 1e4, 0.0)
    >>> lost_reactions(batch(grid, np.array([[0], [2], [6]])))[:, 1, 0].round(6).tolist()
    [15.0, 0.0, 15.0]
    """
    order = np.arange(len(found.reactions))
    require("number of jacks", len(order), "No", "be at least", 3)
    share = found.reactions / found.sensitivity[order, order]
    lost = found.reactions[:, None] - found.sensitivity * share
    lost[order, order] = 0.0
    return lost


def uneven_greatest(found: Batch, difference: float) -> Floats:
    """Greatest reaction of each jack when all stand within half a difference up or down; shape (jacks, layouts) [kN].

    Args:
        found: the layouts
        difference: greatest level difference of two jacks [m]

    >>> from calc.beam_loads import beam_load
    >>> grid = grid_of(beam_load(4.0, [(0.0, 4.0, 10.0)]), 0.5, 8, 1e4, 0.0)
    >>> uneven_greatest(batch(grid, np.array([[0], [4], [8]])), 0.001).round(6).tolist()
    [[11.25], [32.5], [11.25]]
    """
    return found.reactions + difference / 2 * np.abs(found.sensitivity).sum(axis=1)
