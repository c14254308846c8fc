"""Load on a carrier beam, ready for the beam solvers: straight pieces side by side and points.

Covers   one load out of overlapping pieces, its moments about each span's left end, prefix integrals along the beam.
Not      how the load came there (line_loads, sharing) and what the beam does with it (beam_on_jacks).
Signs    load positive downward; distances from the beam's left end.
Units    m, kN, kN/m.
Sources  statics. A piece that runs straight is kept as such: cut into even steps it would lose its moments.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from calc.errors import require
from calc.fields import quantity
from calc.line_loads import LineLoad

Floats = npt.NDArray[np.float64]

SLIVER = 1e-9
"""Edges nearer to each other than this [m] are one."""

# Gauss points of three are exact to the fifth power: a straight piece times distance cubed is of the fourth.
_GAUSS = 0.5 + 0.5 * np.array([[-np.sqrt(0.6)], [0.0], [np.sqrt(0.6)]])
_WEIGHT = np.array([[5.0], [8.0], [5.0]]) / 18


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamLoad:
    """Load along one beam: pieces that do not overlap, and points in order."""

    length: float = quantity("m", "of the beam")
    edges: Floats = quantity(
        "m", "where one piece ends and the next begins, from 0 to the length; one more than pieces"
    )
    first: Floats = quantity("kN/m", "load at the left end of each piece")
    last: Floats = quantity("kN/m", "load at the right end of each piece")
    places: Floats = quantity("m", "distance of each point load")
    loads: Floats = quantity("kN", "each point load")
    total: float = quantity("kN", "all of it")
    moment: float = quantity("kN m", "its moment about the left end")


def beam_load(
    length: float, uniform: Iterable[Sequence[float]] = (), points: Iterable[Sequence[float]] = ()
) -> BeamLoad:
    """Load of even pieces, each (from [m], to [m], load [kN/m]), and of points, each (at [m], load [kN]).

    Args:
        length: of the beam [m]
        uniform: even pieces as (from [m], to [m], load [kN/m]); they may overlap
        points: point loads as (at [m], load [kN])

    Raises:
        DomainError: length not positive, a piece or point off the beam, or any NaN.

    >>> beam_load(4.0, [(0.0, 4.0, 10.0), (1.0, 3.0, 5.0)], [(2.5, 8.0)]).total
    58.0
    """
    return _assembled(length, [(a, b, q, q) for a, b, q in uniform], [(at, load) for at, load in points])


def from_line_load(load: LineLoad, length: float) -> BeamLoad:
    """The load of a wall or beam of the house as a load for the beam solvers; straight pieces stay straight.

    Args:
        load: all of one kind of load on the member
        length: of the member [m]

    >>> wall = LineLoad()
    >>> wall.ramp(0.0, 3.0, 0.0, 12.0)
    >>> wall.point(2.0, 5.0)
    >>> found = from_line_load(wall, 3.0)
    >>> found.total, found.moment
    (23.0, 46.0)
    """
    return _assembled(length, [(r.start, r.end, r.first, r.last) for r in load.ramps], load.points)


def _assembled(
    length: float, ramps: Sequence[tuple[float, float, float, float]], points: Sequence[tuple[float, float]]
) -> BeamLoad:
    _must_lie_on(length, ramps, points)
    edges = _edges(length, [edge for ramp in ramps for edge in ramp[:2]])
    first, last = np.zeros(len(edges) - 1), np.zeros(len(edges) - 1)
    for start, end, at_start, at_end in ramps:
        one, two = int(np.abs(edges - start).argmin()), int(np.abs(edges - end).argmin())
        slope = (at_end - at_start) / max(edges[two] - edges[one], SLIVER)
        first[one:two] += at_start + slope * (edges[one:two] - edges[one])
        last[one:two] += at_start + slope * (edges[one + 1 : two + 1] - edges[one])
    places = np.clip(np.array([at for at, _ in sorted(points)], dtype=np.float64), 0.0, length)
    loads = np.array([load for _, load in sorted(points)], dtype=np.float64)
    parts = np.diff(edges) / 2 * np.stack([first, last])
    far = np.stack([2 * edges[:-1] + edges[1:], edges[:-1] + 2 * edges[1:]]) / 3
    return BeamLoad(
        length=length, edges=edges, first=first, last=last, places=places, loads=loads,
        total=float(parts.sum() + loads.sum()), moment=float((parts * far).sum() + loads @ places),
    )  # fmt: skip


def _must_lie_on(
    length: float, ramps: Sequence[tuple[float, float, float, float]], points: Sequence[tuple[float, float]]
) -> None:
    require("length", length, "m", "be more than", 0.0)
    require("length", length, "m", "be less than", np.inf)
    for start, end, *both in ramps:
        require("start of a piece", start, "m", "be at least", -SLIVER)
        require("end of a piece", end, "m", "be at most", length + SLIVER)
        require("length of a piece", end - start, "m", "be at least", 0.0)
        for load in both:
            require("line load", abs(load), "kN/m", "be less than", np.inf)
    for at, load in points:
        require("place of a point load", at, "m", "be at least", -SLIVER)
        require("place of a point load", at, "m", "be at most", length + SLIVER)
        require("point load", abs(load), "kN", "be less than", np.inf)


def _edges(length: float, marks: Iterable[float]) -> Floats:
    kept = [0.0]
    for mark in sorted(marks):
        if mark - kept[-1] > SLIVER and length - mark > SLIVER:
            kept.append(mark)
    return np.array([*kept, length])


def span_moments(load: BeamLoad, stops: Floats) -> Floats:
    """Sums of load times distance to the power 0, 1, 2, 3 from the left end of each span.

    A point on a stop belongs to the span that begins there, with no distance.

    Args:
        load: on the beam
        stops: ends of the spans in order, the beam's own ends included; shape (spans + 1,) [m]

    Returns:
        Shape (4, spans) [kN m**k]; distances are the span's own, so that nothing cancels on a long beam.

    >>> span_moments(beam_load(3.0, [(0.0, 3.0, 6.0)]), np.array([0.0, 1.0, 3.0]))[:2].tolist()
    [[6.0, 12.0], [3.0, 12.0]]
    """
    # Equal cuts do no harm: a part without width carries nothing.
    cuts = np.sort(np.concatenate([load.edges, stops]))
    start, spans = cuts[:-1], len(stops) - 1
    width = cuts[1:] - start
    piece = np.minimum(load.edges.searchsorted(start, side="right") - 1, len(load.first) - 1)
    span = np.minimum(stops.searchsorted(start, side="right") - 1, spans - 1)
    slope = (load.last - load.first) / (load.edges[1:] - load.edges[:-1])
    # Rows: the three Gauss points of every part.
    at = start + width * _GAUSS
    part = (load.first[piece] + slope[piece] * (at - load.edges[piece])) * width * _WEIGHT
    far = at - stops[span]
    home = np.minimum(stops.searchsorted(load.places, side="right") - 1, spans - 1)
    reach = load.places - stops[home]
    out = np.empty((4, spans))
    spread, single = part, load.loads
    for power in range(4):
        out[power] = np.bincount(span, spread[0] + spread[1] + spread[2], spans)
        if len(home):
            out[power] += np.bincount(home, single, spans)
        spread, single = spread * far, single * reach
    return out


def prefix_integrals(load: BeamLoad, stops: Floats) -> Floats:
    """Q0..Q3: sums of load times distance from the beam's left end to the power 0..3, up to each stop.

    Good to about ten digits on a wall of 15 m, for the difference of two of them loses digits as the distance
    grows; a search may use them, a result is worked out with span_moments.

    Args:
        load: on the beam
        stops: places in order; shape (places,) [m]

    Returns:
        Shape (4, places) [kN m**k]; a point on a stop is counted from the next stop on.

    >>> prefix_integrals(beam_load(2.0, [(0.0, 2.0, 3.0)]), np.array([0.0, 1.0, 2.0]))[1].tolist()
    [0.0, 1.5, 6.0]
    """
    # The first stop may lie beyond the beam's left end and the last one short of its right end.
    ends = np.concatenate([[0.0], stops, [load.length]])
    local = span_moments(load, ends)[:, :-1]
    start = ends[:-2]
    shifted = np.empty_like(local)
    shifted[0] = local[0]
    shifted[1] = local[1] + start * local[0]
    shifted[2] = local[2] + 2 * start * local[1] + start**2 * local[0]
    shifted[3] = local[3] + 3 * start * local[2] + 3 * start**2 * local[1] + start**3 * local[0]
    return np.cumsum(shifted, axis=1)
