"""Jacks under one wall: the layout that holds for every load and support, and the wall in each state on its jacks.

Covers   placing on the worst of even bearing and jambs only, soft and stiff; all at work, one lost, uneven, re-seating,
         transfer back; short walls that hang between the walls they meet.
Not      columns (jack_columns), the choice of the carrier beam and the whole house (jack_plan).
Signs    along the wall from its From point; load downward and reactions upward positive; moments as magnitudes.
Units    m, kN, kN m; bending stiffness kN m2; compliance m/kN.
Sources  rules of placing (placing_rules); continuous beam on yielding supports (beam_on_jacks). Weight of a surveyed
         house in doubt, passes of re-seating and transfer: common practice, no source, as allowances.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from calc.allowances import Allowances
from calc.beam_cases import uneven, uneven_moments, without
from calc.beam_loads import BeamLoad
from calc.beam_on_jacks import BeamOnJacks, along_beam, beam_on_jacks
from calc.errors import NoLayout
from calc.fields import note, quantity
from calc.jack_lines import TWIN, GroundLine
from calc.jack_plan_rows import STATES, MemberState
from calc.jack_supports import Yield, wall_stiffness
from calc.number import value_of
from calc.placing import Layout, WallPlan, layout_of, place_jacks
from calc.placing_rules import PlacingRules, WallLine

MORE = 3
"""Jacks more that are tried where a layout for one load is not strong enough for the other."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Placed:
    """The layout of one wall, and the beams it stands for."""

    plan: WallPlan = note("as placed, on one of the loads")
    layout: Layout = note("recommended, the worst of all loads and supports")
    beams: tuple[BeamOnJacks, ...] = note("carrier beam alone, on each load and support")
    soft: tuple[float, ...] = quantity("kN", "predicted reactions on soft supports, beam alone, one jack line")
    stiff: tuple[float, ...] = quantity("kN", "predicted reactions on stiff supports, beam and wall, one jack line")
    note: str = note("what is to be known about a wall with fewer than three jacks")


def jack_lines_of(system: str) -> int:
    """Jack lines of a system: one under the wall, or one on either side of it.

    Args:
        system: lifting system

    >>> jack_lines_of("beam through wall"), jack_lines_of("twin beams and needles")
    (1, 2)
    """
    return 2 if system == TWIN else 1


def scaled(load: BeamLoad, factor: float, weight: float) -> BeamLoad:
    """A load times a factor, and an even weight of the beam with it.

    Args:
        load: along the beam
        factor: on the load and the weight [-]
        weight: of the beam [kN/m]

    >>> from calc.beam_loads import beam_load
    >>> found = scaled(beam_load(2.0, [(0.0, 2.0, 10.0)]), 1.5, 2.0)
    >>> found.total, found.moment
    (36.0, 36.0)
    """
    length = load.length
    return replace(
        load, first=factor * (load.first + weight), last=factor * (load.last + weight), loads=factor * load.loads,
        total=factor * (load.total + weight * length), moment=factor * (load.moment + weight * length**2 / 2),
    )  # fmt: skip


def place_wall(
    line: GroundLine, rules: PlacingRules, stiffness: float, weight: float, support: Yield, allow: Allowances
) -> Placed:
    """The jacks of one wall.

    Args:
        line: the wall
        rules: of placing, for this wall
        stiffness: of its carrier beams, all together [kN m2]
        weight: of its carrier beams [kN/m]
        support: softest and stiffest support
        allow: the allowances

    Raises:
        NoLayout: none keeps the rules; it says which rule stands in the way and what would help.
    """
    lines = tuple(_wall_lines(line, stiffness, weight, support, allow))
    plan, text = _placed(line, lines, rules, value_of(allow.tight_clear))
    layouts = [layout_of(other, rules, plan.recommended.positions) for other in lines]
    doubt = value_of(allow.weight_doubt)
    even = lines[0]
    soft = beam_on_jacks(even.load, plan.recommended.positions, even.stiffness, support.soft)
    stiff = beam_on_jacks(even.load, plan.recommended.positions, even.also[-1][0], support.stiff)
    beams = tuple(
        beam_on_jacks(other.load, plan.recommended.positions, even.stiffness, give)
        for other in lines for give in (support.soft, support.stiff)
    )  # fmt: skip
    return Placed(
        plan=plan, layout=worst_of(layouts), beams=beams, soft=tuple((soft.reactions / doubt).tolist()),
        stiff=tuple((stiff.reactions / doubt).tolist()), note=text,
    )  # fmt: skip


def _wall_lines(
    line: GroundLine, stiffness: float, weight: float, support: Yield, allow: Allowances
) -> Iterable[WallLine]:
    share, doubt = 1 / jack_lines_of(line.system), value_of(allow.weight_doubt)
    alone = stiffness * share
    whole = alone + wall_stiffness(line.thickness, line.height, allow) * share
    also = ((alone, support.stiff), (whole, support.soft), (whole, support.stiff))
    for load in (line.even, line.jambs):
        if load is not None:
            yield WallLine(
                load=scaled(load, doubt * share, weight), stiffness=alone, compliance=support.soft, also=also,
                doors=line.doors, junctions=line.meetings, ends=line.ends,
            )  # fmt: skip


CROWDED = "jacks stand nearer to the walls it meets than usual: there is no other place"
HELD = "with one jack lost the walls it meets hold its ends"
FEW = "two jacks: with one lost the wall hangs on the wall it meets"


def _placed(line: GroundLine, lines: Sequence[WallLine], rules: PlacingRules, tight: float) -> tuple[WallPlan, str]:
    """A layout by the rules; where there is none, nearer to the walls it meets, then with two jacks.

    Args:
        line: the wall
        lines: the same under each load
        rules: of placing
        tight: how near to a wall that meets a jack may stand where there is no other place [m]
    """
    ways: list[tuple[Sequence[WallLine], PlacingRules, tuple[str, ...]]] = [(lines, rules, ())]
    near = rules.end_near
    if line.meetings or max(line.ends[0][0], line.ends[1][0]) > near:
        # A door beside a corner leaves no other place than under the pier between them.
        closer = tuple(replace(one, ends=((near, line.ends[0][1]), (near, line.ends[1][1]))) for one in lines)
        finer = replace(rules, junction_clear=min(tight, rules.junction_clear), step=rules.step / 2)
        ways.append((closer, finer, (CROWDED,)))
    attempts = []
    for some, how, text in ways:
        attempts.append((some, how, text))
        if line.held == 2:
            # The walls it meets hold its ends when a jack is lost: then the beam does not tip, and two jacks will do.
            attempts.append((some, replace(how, lost_pulls=True), (HELD, *text)))
            attempts.append((some, replace(how, fewest=2), (FEW, *text)))
    first: NoLayout | None = None
    for some, how, text in attempts:
        try:
            return _strong_for_all(some, how), "; ".join(text)
        except NoLayout as why:
            first = first or why
    assert first
    raise first


def _strong_for_all(lines: Sequence[WallLine], rules: PlacingRules) -> WallPlan:
    """A layout placed on one load that is strong enough for the others too."""
    found = [place_jacks(line, rules) for line in lines]
    for plan in found:
        if all(layout_of(line, rules, plan.recommended.positions).use <= 1 + 1e-9 for line in lines):
            return plan
    jacks = max(len(plan.recommended.positions) for plan in found)
    for fewest in range(jacks, jacks + MORE + 1):
        for line in lines:
            plan = place_jacks(line, replace(rules, fewest=fewest))
            if all(layout_of(other, rules, plan.recommended.positions).use <= 1 + 1e-9 for other in lines):
                return plan
    raise NoLayout(
        "no layout is strong enough both with blocked windows bearing evenly and with their jambs alone",
        ("windows blocked early and wedged tight", "bigger jacks", "a closer spacing"),
    )


def worst_of(layouts: Sequence[Layout]) -> Layout:
    """The same positions under several loads: the worst of each jack.

    Args:
        layouts: of the same positions
    """
    first = layouts[0]
    hardest = [max(range(len(layouts)), key=lambda k: layouts[k].uses[order]) for order in range(len(first.positions))]
    lost = [max(range(len(layouts)), key=lambda k: layouts[k].one_lost[order]) for order in range(len(first.positions))]
    return replace(
        first,
        one_lost=tuple(layouts[k].one_lost[order] for order, k in enumerate(lost)),
        lost_with=tuple(layouts[k].lost_with[order] for order, k in enumerate(lost)),
        uneven=tuple(max(layout.uneven[order] for layout in layouts) for order in range(len(first.positions))),
        uses=tuple(layouts[k].uses[order] for order, k in enumerate(hardest)),
        governed_by=tuple(layouts[k].governed_by[order] for order, k in enumerate(hardest)),
        worst_one_lost=max(layout.worst_one_lost for layout in layouts),
        worst_uneven=max(layout.worst_uneven for layout in layouts), use=max(layout.use for layout in layouts),
    )  # fmt: skip


# ------------------------------------------------------------------------------------------ states


def wall_states(placed: Placed, rules: PlacingRules, lines: int, every: int, passes: int) -> tuple[MemberState, ...]:
    """One wall in every state on its jacks; moments and shears of the carrier beam alone.

    Args:
        placed: its layout and beams
        rules: level difference
        lines: jack lines, one or two
        every: one jack of so many is released at a time in a re-seating
        passes: passes of the transfer back
    """
    layout, beams = placed.layout, placed.beams
    level = [_state(beam, beam, lines) for beam in beams]
    few = len(layout.positions) < 3
    lost = [_lost(beam, order, lines, few) for beam in beams for order in range(len(layout.positions))]
    reseat = [_lost(beam, gone, lines, few) for beam in beams for gone in _every(len(layout.positions), every)]
    back = [_lost(beam, gone, lines, few) for beam in beams for gone in _every(len(layout.positions), passes)]
    sway = [_uneven(beam, rules.difference, lines) for beam in beams]
    worst = [_worst(state, found) for state, found in zip(STATES, (level, lost, sway, reseat, back), strict=True)]
    # What wall and beam together do counts for the jacks; the beam alone is what has to be strong.
    jacks = (max(placed.layout.reactions), layout.worst_one_lost, layout.worst_uneven)
    for order, jack in enumerate(jacks):
        if not (few and order == 1):
            worst[order] = replace(worst[order], jack=max(worst[order].jack, jack))
    # A beam bent by an accident is straightened again; its deflection is held to no limit.
    return tuple(
        replace(state, deflection_load=0.0) if state.state in ("one lost", "uneven") else state for state in worst
    )


def _every(jacks: int, interval: int) -> Iterable[tuple[int, ...]]:
    for start in range(min(interval, jacks)):
        yield tuple(range(start, jacks, interval))


def _lost(beam: BeamOnJacks, gone: int | tuple[int, ...], lines: int, few: bool) -> MemberState:
    away = (gone,) if isinstance(gone, int) else gone
    if len(beam.positions) - len(away) >= 2:
        return _state(without(beam, *away), beam, lines)
    assert few, "a layout of three jacks or more never loses all but one"
    # Of two jacks the other one is left, and the wall at the far end holds the beam there, as yielding as a jack.
    left = beam.positions[1 - away[0]]
    far = 0.0 if left > beam.load.length / 2 else beam.load.length
    hung = beam_on_jacks(beam.load, sorted((far, left)), beam.stiffness, beam.compliance[:2])
    return _state(hung, beam, lines)


def _state(now: BeamOnJacks, whole: BeamOnJacks, lines: int) -> MemberState:
    along = along_beam(now)
    chords = (now.movements[:-1] + now.movements[1:]) / 2
    sag = float(np.abs(along.mid_movements - chords).max())
    return MemberState(
        state=STATES[0], jack=float(now.reactions.max()), moment=lines * max(along.sagging, along.hogging),
        shear=lines * along.shear, deflection_load=lines * sag * whole.stiffness,
        span=float(np.diff(now.positions).max()),
    )  # fmt: skip


def _uneven(beam: BeamOnJacks, difference: float, lines: int) -> MemberState:
    level = _state(beam, beam, lines)
    sway = difference / 2 * np.abs(beam.bending).sum(axis=1)
    sheared = float(((sway[:-1] + sway[1:]) / np.diff(beam.positions)).max())
    return replace(
        level, jack=float(uneven(beam, difference)[1].max()), moment=lines * max(uneven_moments(beam, difference)),
        shear=level.shear + lines * sheared,
    )  # fmt: skip


def _worst(state: str, found: Sequence[MemberState]) -> MemberState:
    return MemberState(
        state=state, jack=max(one.jack for one in found), moment=max(one.moment for one in found),
        shear=max(one.shear for one in found), deflection_load=max(one.deflection_load for one in found),
        span=max(one.span for one in found),
    )  # fmt: skip


def widest_of(positions: Sequence[float]) -> float:
    """Widest spacing of a layout; 0 for a single jack [m].

    Args:
        positions: of the jacks in order [m]

    >>> widest_of([0.3, 1.2, 2.4])
    1.2
    """
    return max((there - here for here, there in pairwise(positions)), default=0.0)
