"""What happens to a carrier beam when jacks are lost, lifted unevenly, let go, or corrected.

Covers   every one jack lost, any two lost, the worst pattern of uneven lifting, supports that cannot pull, the least
         movements of the bases that bring all reactions between two limits. All from one sensitivity matrix.
Not      new equations: each case is an update of the beam as solved, but for `without`.
Signs    as beam_on_jacks; a movement of a base is positive downward, so a shim is a negative one.
Units    m, kN, kN/m.
Sources  statics of elastic systems; linear complementarity (complementarity).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from calc.beam_loads import Floats
from calc.beam_on_jacks import BeamOnJacks, along_beam, beam_on_jacks
from calc.complementarity import complementary
from calc.errors import DomainError, NothingFits, require
from calc.fields import quantity


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LetGo:
    """A beam whose supports can only push."""

    reactions: Floats = quantity("kN", "of each jack; zero where it has let go")
    gaps: Floats = quantity("m", "open between beam and support, where it has let go")


def one_lost(beam: BeamOnJacks) -> Floats:
    """Reactions with each jack lost in turn: row i is a jack, column j the jack lost [kN].

    Args:
        beam: at rest on three jacks or more; on two, the loss of one leaves nothing to stand on

    >>> from calc.beam_loads import beam_load
    >>> from calc.beam_on_jacks import beam_on_jacks
    >>> beam = beam_on_jacks(beam_load(3.0, [(0.0, 3.0, 10.0)]), [0.0, 1.0, 3.0], 1e4)
    >>> one_lost(beam)[:, 1].round(9).tolist()
    [15.0, 0.0, 15.0]
    """
    require("number of jacks", len(beam.positions), "No", "be at least", 3)
    change = beam.sensitivity * (beam.reactions / np.diag(beam.sensitivity))
    lost = beam.reactions[:, None] - change
    np.fill_diagonal(lost, 0.0)
    return lost


def two_lost(beam: BeamOnJacks, one: int, other: int) -> Floats:
    """Reactions with two jacks lost [kN].

    Args:
        beam: at rest on four jacks or more
        one: order of the first, from 0
        other: order of the second

    >>> from calc.beam_loads import beam_load
    >>> from calc.beam_on_jacks import beam_on_jacks
    >>> beam = beam_on_jacks(beam_load(3.0, [(0.0, 3.0, 10.0)]), [0.0, 1.0, 1.5, 3.0], 1e4)
    >>> two_lost(beam, 1, 2).round(9).tolist()
    [15.0, 0.0, 0.0, 15.0]
    """
    require("number of jacks", len(beam.positions), "No", "be at least", 4)
    require("distance in order of two lost jacks", abs(one - other), "No", "be at least", 1)
    pair = [one, other]
    away = np.linalg.solve(beam.sensitivity[np.ix_(pair, pair)], beam.reactions[pair])
    left = beam.reactions - beam.sensitivity[:, pair] @ away
    left[pair] = 0.0
    return left


def uneven(beam: BeamOnJacks, difference: float) -> tuple[Floats, Floats]:
    """Least and greatest reaction of each jack when all stand anywhere within half a difference up or down [kN].

    The worst pattern is exact: every jack takes the sign of its own entry.

    Args:
        beam: at rest on its jacks
        difference: greatest level difference of two jacks [m]

    >>> from calc.beam_loads import beam_load
    >>> from calc.beam_on_jacks import beam_on_jacks
    >>> beam = beam_on_jacks(beam_load(4.0, [(0.0, 4.0, 10.0)]), [0.0, 2.0, 4.0], 1e4)
    >>> [ends.round(6).tolist() for ends in uneven(beam, 0.001)]
    [[3.75, 17.5, 3.75], [11.25, 32.5, 11.25]]
    """
    require("level difference", difference, "m", "be at least", 0.0)
    sway = difference / 2 * np.abs(beam.sensitivity).sum(axis=1)
    return beam.reactions - sway, beam.reactions + sway


def uneven_moments(beam: BeamOnJacks, difference: float) -> tuple[float, float]:
    """Greatest sagging and hogging moment when all jacks stand within half a difference up or down [kN m].

    Hogging is exact under loads that push down: between jacks the moment bulges up, what uneven jacks add is straight.
    Sagging is never less than it can be: the greatest in each span is added to the greater of its ends.

    Args:
        beam: at rest on its jacks
        difference: greatest level difference of two jacks [m]

    >>> from calc.beam_loads import beam_load
    >>> from calc.beam_on_jacks import beam_on_jacks
    >>> beam = beam_on_jacks(beam_load(4.0, [(0.0, 4.0, 10.0)]), [0.0, 2.0, 4.0], 1e4)
    >>> [round(moment, 4) for moment in uneven_moments(beam, 0.001)]
    [10.3125, 12.5]
    """
    require("level difference", difference, "m", "be at least", 0.0)
    along = along_beam(beam)
    sway = difference / 2 * np.abs(beam.bending).sum(axis=1)
    hogging = max(along.hogging, float((sway - beam.moments).max()))
    within = along.span_sagging + np.maximum(sway[:-1], sway[1:])
    return max(along.sagging, float(within.max())), hogging


def without(beam: BeamOnJacks, *gone: int) -> BeamOnJacks:
    """The same beam with some jacks taken away, solved afresh: for its moments, shears and deflections.

    Args:
        beam: at rest on its jacks
        gone: orders of the jacks taken away, from 0; two at least are left

    >>> from calc.beam_loads import beam_load
    >>> from calc.beam_on_jacks import beam_on_jacks
    >>> beam = beam_on_jacks(beam_load(4.0, [(0.0, 4.0, 10.0)]), [0.0, 2.0, 4.0], 1e4)
    >>> round(along_beam(without(beam, 1)).sagging, 9)
    20.0
    """
    left = [order for order in range(len(beam.positions)) if order not in gone]
    return beam_on_jacks(beam.load, beam.positions[left], beam.stiffness, beam.compliance[left], beam.settlement[left])


def let_go(beam: BeamOnJacks, lost: int | None = None) -> LetGo:
    """Reactions when no support can pull: one that would is left behind with a gap.

    Args:
        beam: at rest on its jacks
        lost: order of a jack that is gone as well, if any

    Raises:
        DomainError: what is left cannot hold the load up; the resultant lies beyond the jacks.

    >>> from calc.beam_loads import beam_load
    >>> from calc.beam_on_jacks import beam_on_jacks
    >>> beam = beam_on_jacks(beam_load(4.0, points=[(0.5, 10.0)]), [0.0, 1.0, 4.0], 1e4)
    >>> beam.reactions.round(3).tolist(), let_go(beam).reactions.round(3).tolist()
    ([4.531, 5.625, -0.156], [5.0, 5.0, 0.0])
    """
    reactions, answer = beam.reactions, beam.sensitivity
    left = np.array([order for order in range(len(reactions)) if order != lost])
    if lost is not None:
        reactions = one_lost(beam)[:, lost]
        answer = answer - np.outer(answer[:, lost], answer[lost]) / answer[lost, lost]
    _must_stand(beam, left)
    part = answer[np.ix_(left, left)]
    # A base that follows the beam up by z takes the pull off: R = R0 - S z, pushes only, and z only where R is zero.
    gaps = np.zeros(len(reactions))
    gaps[left] = complementary(-(part + part.T) / 2, reactions[left])
    found = reactions - answer @ gaps
    found[gaps > 0] = 0.0
    if lost is not None:
        found[lost] = 0.0
    return LetGo(reactions=np.maximum(found, 0.0), gaps=gaps)


def _must_stand(beam: BeamOnJacks, left: Sequence[int] | np.ndarray) -> None:
    load, x = beam.load, beam.positions[left]
    require("load", load.total, "kN", "be more than", 0.0)
    require("number of jacks", len(x), "No", "be at least", 2)
    middle = load.moment / load.total
    require("resultant of the load", middle, "m", "be at least", float(x[0]))
    require("resultant of the load", middle, "m", "be at most", float(x[-1]))


def evening(beam: BeamOnJacks, least: float, greatest: float) -> Floats:
    """The least movements of the bases that bring every reaction between two limits [m].

    Least is the sum of squares. The least sum of amounts would move fewer jacks, each of them further; what cracks a
    wall is the greatest single movement, so the correction is spread. It is unique, and needs no other solver.

    Args:
        beam: at rest on its jacks
        least: no reaction below this [kN]
        greatest: no reaction above this [kN]

    Raises:
        NothingFits: no movement brings all of them within: the load itself is too great, too small or too far out.

    >>> from calc.beam_loads import beam_load
    >>> from calc.beam_on_jacks import beam_on_jacks
    >>> beam = beam_on_jacks(beam_load(4.0, [(0.0, 4.0, 10.0)]), [0.0, 2.0, 4.0], 1e4)
    >>> moved = evening(beam, 0.0, 22.0)
    >>> (beam.reactions + beam.sensitivity @ moved).round(6).tolist(), (1000 * moved).round(4).tolist()
    ([9.0, 22.0, 9.0], [-0.1333, 0.2667, -0.1333])
    """
    require("greatest reaction", greatest, "kN", "be at least", least)
    answer = beam.sensitivity
    rows = np.vstack([answer, -answer])
    short = np.concatenate([least - beam.reactions, beam.reactions - greatest])
    try:
        pushes = complementary(rows @ rows.T, -short)
    except NothingFits as reason:
        raise NothingFits("set of movements", greatest, float(beam.reactions.max()), "kN") from reason
    return rows.T @ pushes


def worst_lost(beam: BeamOnJacks) -> Floats:
    """Greatest reaction of each jack with any other one lost, where no support pulls [kN].

    Args:
        beam: at rest on three jacks or more

    Raises:
        DomainError: two jacks or fewer, or the beam would tip when one is lost.

    >>> from calc.beam_loads import beam_load
    >>> from calc.beam_on_jacks import beam_on_jacks
    >>> beam = beam_on_jacks(beam_load(3.0, [(0.5, 2.5, 15.0)]), [0.5, 1.5, 2.5], 1e4)
    >>> worst_lost(beam)[[0, 2]].round(6).tolist()
    [15.0, 15.0]
    """
    found = []
    for lost in range(len(beam.positions)):
        try:
            found.append(lost_without_pull(beam, lost))
        except DomainError as broken:
            what = f"with jack {lost + 1} lost, {broken.quantity}"
            raise DomainError(what, broken.value, broken.unit, broken.must, broken.limit) from broken
    return np.max(found, axis=0)


def lost_without_pull(beam: BeamOnJacks, lost: int) -> Floats:
    """Reactions with one jack lost, where supports that would pull have let go too [kN].

    Args:
        beam: at rest on three jacks or more
        lost: order of the jack that is gone

    Raises:
        DomainError: the beam would tip.

    >>> from calc.beam_loads import beam_load
    >>> from calc.beam_on_jacks import beam_on_jacks
    >>> beam = beam_on_jacks(beam_load(4.0, points=[(1.5, 10.0)]), [0.0, 1.0, 2.0, 4.0], 1e4)
    >>> lost_without_pull(beam, 1).round(3).tolist()
    [2.5, 0.0, 7.5, 0.0]
    """
    linear = one_lost(beam)[:, lost]
    if linear.min() >= 0:
        return linear
    try:
        return let_go(beam, lost).reactions
    except NothingFits as reason:
        raise DomainError(
            "reaction of a jack that cannot pull", float(linear.min()), "kN", "be at least", 0.0
        ) from reason
