"""A continuous carrier beam on jacks: reactions, moments, shears, deflections, and what a moved jack changes.

Covers   any number of jacks from two, overhangs, rigid or yielding supports, bases that have moved; the greatest
         sagging and hogging moment and shear, exact within each span; deflection at jacks and in mid-span.
Not      shear deformation, change of section along the beam, supports that let go (beam_cases).
Signs    load, reaction and downward movement positive; a sagging moment positive; shear positive up on the left.
Units    m, kN, kN/m, kN m; bending stiffness kN m2; compliance of a support m/kN.
Sources  the equation of five moments: three moments with supports that yield, as in any textbook of structures.
         The beam is never cut at a load: a short element beside a jack costs six digits in a stiffness method.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from calc.beam_loads import BeamLoad, Floats, span_moments
from calc.errors import require
from calc.fields import note, quantity


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamOnJacks:
    """A carrier beam at rest on its jacks."""

    load: BeamLoad = note("what it carries")
    stiffness: float = quantity("kN m2", "bending stiffness of the beam, EI")
    positions: Floats = quantity("m", "jacks from the beam's left end, in order")
    compliance: Floats = quantity("m/kN", "of each support: packing, jack, base and soil in a row; 0 is rigid")
    settlement: Floats = quantity("m", "each base by itself, downward")
    reactions: Floats = quantity("kN", "of each jack on the beam, upward")
    moments: Floats = quantity("kN m", "in the beam over each jack, sagging positive")
    movements: Floats = quantity("m", "of the beam over each jack, downward")
    sensitivity: Floats = quantity("kN/m", "change of reaction i when the base of jack j goes down by 1 m; n by n")
    bending: Floats = quantity(
        "kN", "change of the moment over jack i when the base of jack j goes down by 1 m; n by n"
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AlongBeam:
    """The greatest effects along a beam and where they are."""

    sagging: float = quantity("kN m", "greatest sagging moment, 0 where there is none")
    sagging_at: float = quantity("m", "where it is")
    hogging: float = quantity("kN m", "greatest hogging moment as a positive figure")
    hogging_at: float = quantity("m", "where it is")
    shear: float = quantity("kN", "greatest shear, either way")
    shear_at: float = quantity("m", "where it is")
    mid_movements: Floats = quantity("m", "of the beam in the middle of each span, downward")
    span_sagging: Floats = quantity("kN m", "greatest moment within each span, sagging positive")


def support_compliance(packing: float, pad: float, jack: float = 0.0) -> float:
    """What a support yields under one kilonewton: packing, jack and pad on soil one above the other [m/kN].

    Args:
        packing: of the timber, height / (modulus across the grain x area) [m/kN]
        pad: of the base on its soil, 1 / (subgrade modulus x area) [m/kN]
        jack: of the jack itself, 0 for a locked nut [m/kN]

    >>> round(support_compliance(packing=1 / 40e3, pad=1 / 10e3), 9)
    0.000125
    """
    for name, part in (("packing", packing), ("pad", pad), ("jack", jack)):
        require(f"compliance of the {name}", part, "m/kN", "be at least", 0.0)
    return packing + pad + jack


def beam_on_jacks(
    load: BeamLoad,
    positions: Sequence[float] | Floats,
    stiffness: float,
    compliance: float | Sequence[float] | Floats = 0.0,
    settlement: float | Sequence[float] | Floats = 0.0,
) -> BeamOnJacks:
    """Reactions of a carrier beam on its jacks, and how each answers to the movement of each other.

    Args:
        load: on the beam
        positions: jacks from the beam's left end, in order, at least two [m]
        stiffness: bending stiffness of the beam, EI [kN m2]
        compliance: of every support, or of each [m/kN]
        settlement: of every base, or of each, downward [m]

    Raises:
        DomainError: fewer than two jacks, jacks out of order or off the beam, a stiffness not positive, a negative
            compliance, or any NaN.

    >>> from calc.beam_loads import beam_load
    >>> beam = beam_on_jacks(beam_load(4.0, [(0.0, 4.0, 10.0)]), [0.0, 2.0, 4.0], 1e4)
    >>> beam.reactions.tolist(), round(float(beam.moments[1]), 9)
    ([7.5, 25.0, 7.5], -5.0)
    """
    x = np.asarray(positions, dtype=np.float64)
    count = len(x)
    yields, sinks = _each("compliance", compliance, count), _each("settlement", settlement, count)
    _check(load, x, stiffness, yields, sinks)
    span = x[1:] - x[:-1]
    parts = span_moments(load, np.concatenate([[0.0], x, [load.length]]))
    simple, moments, left, right = _hinged(parts, x, span)
    inner = np.eye(count, count - 2, k=-1)
    pushed = yields[:, None] * _chord_forces(span, inner)
    flexibility = _bending(span) + 6 * stiffness * _kinks(span, pushed)
    # The inverse serves the load and every moved base; the matrix is positive definite, and small beside its spans.
    answer = np.linalg.inv(flexibility)
    freed = _kinks(span, sinks + yields * (simple + _chord_forces(span, moments)))
    wanted = -(right[:-1] + left[1:]) - 6 * stiffness * freed - _known_ends(span, moments)
    moments[1:-1] = answer @ wanted
    inner[1:-1], bending = answer, np.zeros((count, count))
    bending[1:-1] = -6 * stiffness * _chord_forces(span, inner).T
    reactions = simple + _chord_forces(span, moments)
    return BeamOnJacks(
        load=load, stiffness=stiffness, positions=x, compliance=yields, settlement=sinks, reactions=reactions,
        moments=moments, movements=sinks + yields * reactions,
        sensitivity=_chord_forces(span, bending), bending=bending,
    )  # fmt: skip


def _each(what: str, given: float | Sequence[float] | Floats, count: int) -> Floats:
    found = np.array(given, dtype=np.float64)
    if found.ndim:
        require(f"number of figures for {what}", len(found), "No", "be at least", count)
        require(f"number of figures for {what}", len(found), "No", "be at most", count)
        return found
    return np.full(count, found)


def _check(load: BeamLoad, x: Floats, stiffness: float, yields: Floats, sinks: Floats) -> None:
    require("number of jacks", len(x), "No", "be at least", 2)
    require("first jack", float(x[0]), "m", "be at least", 0.0)
    require("last jack", float(x[-1]), "m", "be at most", load.length)
    require("distance of neighbouring jacks", float((x[1:] - x[:-1]).min()), "m", "be more than", 0.0)
    require("bending stiffness", stiffness, "kN m2", "be more than", 0.0)
    require("bending stiffness", stiffness, "kN m2", "be less than", np.inf)
    require("compliance of a support", float(yields.min()), "m/kN", "be at least", 0.0)
    require("compliance of a support", float(yields.max()), "m/kN", "be less than", np.inf)
    require("settlement of a base", float(np.abs(sinks).max()), "m", "be less than", np.inf)


def _hinged(parts: Floats, x: Floats, span: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    """Reactions with a hinge over every jack, moments of the overhangs, 6EI times the slopes of each span's ends."""
    m0, m1, m2, m3 = parts[:, 1:-1]
    reactions = np.zeros(len(x))
    reactions[:-1] += m0 - m1 / span
    reactions[1:] += m1 / span
    reactions[0] += parts[0, 0]
    reactions[-1] += parts[0, -1]
    moments = np.zeros(len(x))
    moments[0] = parts[1, 0] - parts[0, 0] * x[0]
    moments[-1] = -parts[1, -1]
    left = (2 * span**2 * m1 - 3 * span * m2 + m3) / span
    return reactions, moments, left, (span**2 * m1 - m3) / span


def _bending(span: Floats) -> Floats:
    size = len(span) - 1
    square = np.zeros((size, size))
    # Strides of a row and one step run along the diagonals.
    square.flat[:: size + 1] = 2 * (span[:-1] + span[1:])
    square.flat[1 :: size + 1] = square.flat[size :: size + 1] = span[1:-1]
    return square


def _chord_forces(span: Floats, moments: Floats) -> Floats:
    """Forces that moments over the jacks, down the first axis, add to the reactions of the hinged beam."""
    slope = ((moments[1:] - moments[:-1]).T / span).T
    forces = np.zeros(moments.shape)
    forces[:-1] = slope
    forces[1:] -= slope
    return forces


def _kinks(span: Floats, movements: Floats) -> Floats:
    """Change of slope of the chords over each inner jack, for downward movements of the jacks down the first axis."""
    slope = ((movements[1:] - movements[:-1]).T / span).T
    return slope[1:] - slope[:-1]


def _known_ends(span: Floats, moments: Floats) -> Floats:
    known = np.zeros(len(span) - 1)
    if len(known):
        known[0] += span[0] * moments[0]
        known[-1] += span[-1] * moments[-1]
    return known


# ------------------------------------------------------------------------------------------ along the beam


def along_beam(beam: BeamOnJacks) -> AlongBeam:
    """The greatest moments and shear of a beam, from the roots of its shear and not from samples.

    Args:
        beam: at rest on its jacks

    >>> from calc.beam_loads import beam_load
    >>> found = along_beam(beam_on_jacks(beam_load(4.0, [(0.0, 4.0, 10.0)]), [0.0, 2.0, 4.0], 1e4))
    >>> round(found.sagging, 6), round(found.sagging_at, 6), round(found.hogging, 6), round(found.shear, 6)
    (2.8125, 0.75, 5.0, 12.5)
    """
    marks, moments, shears = _marks(beam)
    sag, hog, cut = int(moments.argmax()), int(moments.argmin()), int(np.abs(shears[1]).argmax())
    spans = zip(beam.positions[:-1], beam.positions[1:], strict=True)
    return AlongBeam(
        sagging=max(float(moments[sag]), 0.0), sagging_at=float(marks[sag]),
        hogging=max(-float(moments[hog]), 0.0), hogging_at=float(marks[hog]),
        shear=float(abs(shears[1, cut])), shear_at=float(shears[0, cut]), mid_movements=_mid_movements(beam),
        span_sagging=np.array([moments[(marks >= a) & (marks <= b)].max() for a, b in spans]),
    )  # fmt: skip


def _marks(beam: BeamOnJacks) -> tuple[Floats, Floats, Floats]:
    """Places where the moment may be greatest and the moments there; places and values of shears beside every stop."""
    load = beam.load
    stops = np.unique(np.concatenate([load.edges, load.places, beam.positions]))
    width = np.diff(stops)
    piece = np.clip(np.searchsorted(load.edges, stops[:-1], side="right") - 1, 0, len(load.first) - 1)
    slope = ((load.last - load.first) / np.diff(load.edges))[piece]
    even = load.first[piece] + slope * (stops[:-1] - load.edges[piece])
    jumps = np.bincount(np.searchsorted(stops, beam.positions), beam.reactions, len(stops))
    if len(load.places):
        jumps -= np.bincount(np.searchsorted(stops, load.places), load.loads, len(stops))
    lost = width * (even + slope * width / 2)
    shear = np.cumsum(jumps)[:-1] - np.concatenate([[0.0], np.cumsum(lost)[:-1]])
    gained = width * (shear - width * (even / 2 + slope * width / 6))
    moment = np.concatenate([[0.0], np.cumsum(gained)])
    # Rounding summed from the left end is put right at every jack, where the moment is known.
    home = np.searchsorted(stops, beam.positions)
    moment += np.interp(stops, beam.positions, beam.moments - moment[home])
    inside = _roots(shear, even, slope, width)
    at = stops[:-1] + inside
    peak = moment[:-1] + inside * (shear - inside * (even / 2 + slope * inside / 6))
    turn = np.clip(np.divide(-even, slope, out=np.zeros_like(even), where=slope != 0), 0.0, width)
    beside = np.stack([
        np.concatenate([stops[:-1], stops[:-1] + turn, stops[1:]]),
        np.concatenate([shear, shear - turn * (even + slope * turn / 2), shear - lost]),
    ])  # fmt: skip
    found = np.isfinite(at)
    return np.concatenate([stops, at[found]]), np.concatenate([moment, peak[found]]), beside


def _roots(shear: Floats, even: Floats, slope: Floats, width: Floats) -> Floats:
    """Where the shear passes through zero within each part, two to a part; not a number where it does not."""
    # shear - even t - slope t^2 / 2 = 0, in the form that does not cancel for a nearly even load.
    inner = even**2 + 2 * slope * shear
    root = np.sqrt(np.where(inner >= 0, inner, np.nan))
    half = even + np.where(even >= 0, root, -root)
    with np.errstate(divide="ignore", invalid="ignore"):
        both = np.stack([2 * shear / half, -half / slope])
    return np.where((both > 0) & (both < width), both, np.nan)


def _mid_movements(beam: BeamOnJacks) -> Floats:
    x, span = beam.positions, np.diff(beam.positions)
    half = span / 2
    stops = np.empty(2 * len(span) + 1)
    stops[::2], stops[1::2] = x, x[:-1] + half
    parts = span_moments(beam.load, np.concatenate([[0.0], stops, [beam.load.length]]))[:, 1:-1]
    near, far = parts[:, ::2], parts[:, 1::2]
    # The far half is measured from the right jack: distances d become half - d.
    first = half * far[0] - far[1]
    third = half**3 * far[0] - 3 * half**2 * far[1] + 3 * half * far[2] - far[3]
    hinged = (3 * span**2 * (near[1] + first) - 4 * (near[3] + third)) / 48
    ends = span**2 / 16 * (beam.moments[:-1] + beam.moments[1:])
    return (beam.movements[:-1] + beam.movements[1:]) / 2 + (hinged + ends) / beam.stiffness
