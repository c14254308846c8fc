"""Rules for the places of jacks under one wall, and where they leave room for a jack.

Covers   places barred by doors and cross walls, stretches that must have a jack, spacing of neighbours; all of it on
         a grid along the wall.
Not      how much a jack carries (placing_search), what to do where no layout is left (placing_reasons).
Signs    distances from the wall's left end.
Units    m, kN; bending stiffness kN m2; compliance m/kN.
Sources  common practice, no source: every figure is a default to be confirmed and changed.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from calc.beam_loads import BeamLoad, Floats
from calc.errors import require
from calc.fields import note, quantity

Flags = npt.NDArray[np.bool_]

SLIP = 1e-9
"""Distances are held to the rules within this [m]: 0.3 in steps of 0.1 is not 0.3 in binary."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlacingRules:
    """What a layout of jacks under one wall must keep to. Every default is common practice, open to change."""

    usable: float = quantity("kN", "greatest load of a jack with all of them at work and level")
    rated: float = quantity("kN", "greatest load of a jack with another one lost, or with uneven lifting")
    widest: float = quantity("m", "widest spacing, from the masonry and the beam; 0.9 in weak mortar", default=1.2)
    closest: float = quantity("m", "closest spacing, for the body of a jack and a hand beside it", default=0.5)
    difference: float = quantity("m", "greatest level difference while lifting; half for rubble or mud", default=0.002)
    end_near: float = quantity("m", "no jack nearer to an end of the wall", default=0.15)
    end_far: float = quantity("m", "the first jack no further from an end", default=0.30)
    junction_clear: float = quantity("m", "no jack nearer to the centre of a cross wall", default=0.1)
    junction_reach: float = quantity("m", "a jack within this of every cross wall", default=0.4)
    door_clear: float = quantity("m", "no jack nearer to a door gap", default=0.1)
    jamb_reach: float = quantity("m", "a jack within this beside every door jamb", default=0.35)
    door_extra: float = quantity("m", "a spacing over one door may be its width and this", default=0.7)
    even_within: float = quantity("-", "tributary loads wanted within this of their mean", default=0.10)
    worth: float = quantity("-", "a jack more for evenness must bring loads nearer to the mean by this, or to what is "
                            "wanted", default=0.05)  # fmt: skip
    extra_jacks: int = note("jacks over the least number that evenness may cost", default=2)
    fewest: int = note("least number; 2 only where others hold the ends when one of two is lost", default=3)
    lost_pulls: bool = note("whether another jack may pull when one is lost; where none does, the beam cannot tip",
                            default=False)  # fmt: skip
    step: float = quantity("m", "of the grid the jacks stand on", default=0.1)
    tries: int = note("perturbed searches for each number of jacks before it is given up", default=60)
    proof: int = note("greatest number of layouts that are all tried to prove a number of jacks too small",
                      default=200_000)  # fmt: skip
    seed: int = note("of the search; the same wall gives the same layout", default=1)

    def __post_init__(self) -> None:
        for name in ("usable", "widest", "closest", "step"):
            require(name, getattr(self, name), "kN" if name == "usable" else "m", "be more than", 0.0)
        require("rated load", self.rated, "kN", "be at least", self.usable)
        require("widest spacing", self.widest, "m", "be at least", self.closest)
        require("end_far", self.end_far, "m", "be at least", self.end_near)
        for name in ("difference", "end_near", "junction_clear", "junction_reach", "door_clear", "jamb_reach",
                     "door_extra"):  # fmt: skip
            require(name, getattr(self, name), "m", "be at least", 0.0)
        require("fewest jacks", self.fewest, "No", "be at least", 2)
        for count in (self.extra_jacks, self.tries, self.proof):
            require("number of tries", count, "No", "be at least", 0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WallLine:
    """One wall with its carrier beam, as jacks are placed along it."""

    load: BeamLoad = note("in the lift")
    stiffness: float = quantity("kN m2", "bending stiffness of the beam, or of beam and wall")
    compliance: float = quantity("m/kN", "of a support: packing, jack, base and soil in a row")
    also: tuple[tuple[float, float], ...] = note(
        "further pairs of stiffness [kN m2] and compliance [m/kN] a layout must be strong enough for: beam alone and "
        "beam with wall, on soft ground and on stiff", default=())  # fmt: skip
    doors: tuple[tuple[float, float], ...] = note("gaps where no jack may stand, from and to [m]", default=())
    junctions: tuple[float, ...] = note("centres of cross walls [m]", default=())
    ends: tuple[tuple[float, float], tuple[float, float]] | None = note(
        "nearest and furthest place of the end jack from the left end and from the right one [m]; none: as the rules "
        "say. A wall that ends on another one keeps clear of that one's jacks", default=None)  # fmt: skip

    def __post_init__(self) -> None:
        require("load of the wall", self.load.total, "kN", "be more than", 0.0)
        for stiffness, compliance in ((self.stiffness, self.compliance), *self.also):
            require("bending stiffness", stiffness, "kN m2", "be more than", 0.0)
            require("compliance of a support", compliance, "m/kN", "be at least", 0.0)
        for start, end in self.doors:
            require("start of a door", start, "m", "be at least", 0.0)
            require("end of a door", end, "m", "be more than", start)
            require("end of a door", end, "m", "be at most", self.load.length + SLIP)
        for (_, end), (start, _) in pairwise(sorted(self.doors)):
            require("start of the next door", start, "m", "be at least", end - SLIP)
        for at in self.junctions:
            require("cross wall", at, "m", "be at least", 0.0)
            require("cross wall", at, "m", "be at most", self.load.length + SLIP)
        for near, far in self.ends or ():
            require("nearest place of the end jack", near, "m", "be at least", 0.0)
            require("furthest place of the end jack", far, "m", "be at least", near)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of the wall that must have a jack."""

    start: float = quantity("m", "from")
    end: float = quantity("m", "to")
    why: str = note("what asks for it")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ways:
    """Where jacks may stand and follow one another on the grid. Tables go by place, then by places apart."""

    step: float = quantity("m", "from one place to the next")
    places: Flags = note("whether a jack may stand at each place")
    first: Flags = note("whether it may be the first")
    last: Flags = note("whether it may be the last")
    follows: Flags = note("whether the next jack may stand that many places on; shape (places, widest + 1)")


def end_places(line: WallLine, rules: PlacingRules) -> tuple[tuple[float, float], tuple[float, float]]:
    """Nearest and furthest place of the end jack from the left end and from the right one [m].

    Args:
        line: the wall
        rules: what a layout must keep to

    >>> from calc.beam_loads import beam_load
    >>> line = WallLine(load=beam_load(5.0, [(0.0, 5.0, 20.0)]), stiffness=2e4, compliance=1e-4)
    >>> end_places(line, PlacingRules(usable=80.0, rated=200.0))
    ((0.15, 0.3), (0.15, 0.3))
    """
    usual = (rules.end_near, rules.end_far)
    return line.ends or (usual, usual)


def stretches(line: WallLine, rules: PlacingRules) -> tuple[Stretch, ...]:
    """Every stretch that must have a jack: both ends, cross walls, both jambs of each door.

    Args:
        line: the wall
        rules: what a layout must keep to

    >>> from calc.beam_loads import beam_load
    >>> line = WallLine(load=beam_load(5.0, [(0.0, 5.0, 20.0)]), stiffness=2e4, compliance=1e-4, junctions=(2.5,))
    >>> [(s.start, round(s.end, 2), s.why) for s in stretches(line, PlacingRules(usable=80.0, rated=200.0))][::2]
    [(0.15, 0.3, 'the left end'), (2.1, 2.9, 'the cross wall at 2.50 m')]
    """
    length = line.load.length
    (left_near, left_far), (right_near, right_far) = end_places(line, rules)
    found = [
        Stretch(start=left_near, end=left_far, why="the left end"),
        Stretch(start=length - right_far, end=length - right_near, why="the right end"),
    ]
    for at in line.junctions:
        near = max(at - rules.junction_reach, 0.0), min(at + rules.junction_reach, length)
        found.append(Stretch(start=near[0], end=near[1], why=f"the cross wall at {at:.2f} m"))
    for start, end in line.doors:
        why = "the jamb at {:.2f} m of the door"
        found.append(Stretch(start=start - rules.jamb_reach, end=start, why=why.format(start)))
        found.append(Stretch(start=end, end=end + rules.jamb_reach, why=why.format(end)))
    return tuple(found)


def grid_places(line: WallLine, rules: PlacingRules) -> Floats:
    """Distances of the places of the grid from the wall's left end [m].

    Args:
        line: the wall
        rules: what a layout must keep to
    """
    return np.arange(int(line.load.length / rules.step + 1e-6) + 1) * np.float64(rules.step)


def free_places(line: WallLine, rules: PlacingRules) -> Flags:
    """Whether a jack may stand at each place of the grid.

    Args:
        line: the wall
        rules: what a layout must keep to
    """
    at = grid_places(line, rules)
    (left, _), (right, _) = end_places(line, rules)
    free = (at >= left - SLIP) & (at <= line.load.length - right + SLIP)
    for start, end in line.doors:
        free &= (at <= start - rules.door_clear + SLIP) | (at >= end + rules.door_clear - SLIP)
    for centre in line.junctions:
        free &= np.abs(at - centre) >= rules.junction_clear - SLIP
    return free


def widest_gap(line: WallLine, rules: PlacingRules) -> int:
    """The most places two neighbouring jacks may be apart anywhere on the wall.

    Args:
        line: the wall
        rules: what a layout must keep to
    """
    widths = [end - start + rules.door_extra for start, end in line.doors]
    return int(max(rules.widest, *widths, 0.0) / rules.step + 1e-6)


def ways_of(line: WallLine, rules: PlacingRules, wanted: tuple[Stretch, ...]) -> Ways:
    """Which places may follow one another, so that any way through them keeps the rules.

    Args:
        line: the wall
        rules: what a layout must keep to
        wanted: the stretches that must have a jack

    >>> from calc.beam_loads import beam_load
    >>> line = WallLine(load=beam_load(3.0, [(0.0, 3.0, 20.0)]), stiffness=2e4, compliance=1e-4)
    >>> rules = PlacingRules(usable=80.0, rated=200.0, step=0.5, end_near=0.0, end_far=0.5)
    >>> ways = ways_of(line, rules, stretches(line, rules))
    >>> ways.first.astype(int).tolist(), ways.follows[1].astype(int).tolist()
    ([1, 1, 0, 0, 0, 0, 0], [0, 1, 1])
    """
    free, at = free_places(line, rules), grid_places(line, rules)
    widest = widest_gap(line, rules)
    far = np.minimum(np.arange(len(at))[:, None] + np.arange(widest + 1), len(at) - 1)
    here, there = at[:, None], at[far]
    gap = rules.step * np.arange(widest + 1)
    # Over one door the limit is wider; over none or over two it is the widest spacing.
    over = [(here <= start + SLIP) & (there >= end - SLIP) for start, end in line.doors]
    doors = np.sum(over, axis=0) if over else np.zeros(far.shape)
    single = sum(((end - start + rules.door_extra) * one for (start, end), one in zip(line.doors, over, strict=True)),
                 np.zeros(far.shape))  # fmt: skip
    limit = np.where(doors == 1, np.maximum(single, rules.widest), rules.widest)
    follows = free[:, None] & free[far] & (gap >= rules.closest - SLIP) & (gap <= limit + SLIP)
    follows &= np.arange(len(at))[:, None] + np.arange(widest + 1) < len(at)
    first, last = free.copy(), free.copy()
    for part in wanted:
        follows &= ~((here < part.start - SLIP) & (there > part.end + SLIP))
        first &= at <= part.end + SLIP
        last &= at >= part.start - SLIP
    return Ways(step=rules.step, places=free, first=first, last=last, follows=follows)
