"""Jacks, packing and ground of a plan as rows: each wall and column in every state.

Covers   load of the hardest worked jack against what it may carry in that state, packing across the grain, pressure
         under its base.
Not      the beams (carrier_rows).
Signs    load and pressure positive downward.
Units    m, kN, kN/m2.
Sources  usable load and rating as on Job; packing as in its table; pressure by a factor for a state that passes: common
         practice, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.bases import PadRow
from calc.fields import note, quantity
from calc.jack_plan_rows import MemberPlan, MemberState
from calc.jack_sections import ACCIDENTAL
from calc.number import Filed, Name, Number, Text, fixed, maximum, where, within, word_where
from calc.packing import Timber
from calc.survey import Job

PASSING = (*ACCIDENTAL, "re-seating", "transfer back")
"""States that pass: rating and temporary pressure hold, not usable load and lasting pressure."""

JACK_CLAUSES = (
    "Jack: usable load with all at work, rating in a state that passes (Job). Packing: {}. Pressure: bearing pressure "
    "on Job, times soil_temporary in a state that passes"
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackLimits:
    """What any jack, its packing and its ground may take."""

    usable: Number = quantity("kN", "a jack with all at work")
    rated: Number = quantity("kN", "a jack in a state that passes")
    timber: str = note("packing over a jack")
    crushing: Number = quantity("kN/m2", "allowed on it across the grain")
    area: Number = quantity("m2", "of the packing")
    packing: Number = quantity("kN", "the packing bears")
    pressure: Number = quantity("kN/m2", "under a base with all at work")
    passing: Number = quantity("kN/m2", "under a base in a state that passes")
    widest_base: Number = quantity("m", "side of the widest jack base")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackStateRow:
    """The hardest worked jack of one wall or column in one state, weight doubt included."""

    name: Name = note("wall or column")
    state: str = note("state")
    passes: Number = quantity("No", "1 where the state passes, else 0")
    jack: Number = quantity("kN", "load of the jack")
    limit: Number = quantity("kN", "it may carry in that state")
    by_jack: Number = quantity("-", "use of the jack")
    by_packing: Number = quantity("-", "use of the packing")
    side: Number = quantity("m", "of its base")
    pressure: Number = quantity("kN/m2", "under its base")
    allowed: Number = quantity("kN/m2", "pressure allowed in that state")
    by_ground: Number = quantity("-", "use of the ground")
    use: Number = quantity("-", "greatest use")
    verdict: Text = note("within the limits set, or STOP")


def jack_limits(usable: Number, job: Job, timber: Timber, pads: Sequence[PadRow], allow: Allowances) -> JackLimits:
    """What any jack, its packing and its ground may take.

    Args:
        usable: usable load of one jack [kN]
        job: rating and bearing pressure
        timber: of the packing, at its softest
        pads: jack bases, one at least
        allow: the allowances
    """
    area = allow.packing_side**2
    crushing = fixed(timber.crushing, job.bearing.value, job.bearing.value)
    return JackLimits(
        usable=usable, rated=maximum(job.jack_rating, usable), timber=timber.name, crushing=crushing,
        area=area, packing=crushing * area, pressure=job.bearing.value,
        passing=job.bearing.value * allow.soil_temporary, widest_base=maximum(*(pad.side for pad in pads)),
    )  # fmt: skip


def jack_state_row(member: MemberPlan, state: MemberState, sides: Filed, limits: JackLimits) -> JackStateRow:
    """The hardest worked jack of one member in one state.

    Args:
        member: with its plan
        state: its demands, as floats
        sides: of the jack bases, filed under wall or column [m]
        limits: what a jack, its packing and its ground may take
    """
    name, passes = Name(member.name), fixed(int(state.state in PASSING), limits.usable)
    side = sides.at(name)
    jack = fixed(state.jack, limits.usable, limits.usable)
    limit = where(passes > 0, limits.rated, limits.usable)
    pressure = jack / side**2
    # Base sides carry an uneven share already; with all at work weight doubt is within it.
    allowed = where(passes > 0, limits.passing, limits.pressure)
    uses = (jack / limit, jack / limits.packing, pressure / allowed)
    use = maximum(*uses)
    return JackStateRow(
        name=name, state=state.state, passes=passes, jack=jack, limit=limit, by_jack=uses[0],
        by_packing=uses[1], side=side, pressure=pressure, allowed=allowed, by_ground=uses[2], use=use,
        verdict=word_where(within(use, 1), "within the limits set", "STOP"),
    )  # fmt: skip
