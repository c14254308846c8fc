"""Jacks, packing and ground of a plan as rows: each wall and column in every state.

Covers   load of the hardest worked jack against what it may carry in that state, packing across the grain, pressure
         under its base.
Not      the beams (carrier_rows).
Signs    load and pressure positive downward.
Units    m, kN, kN/m2.
Sources  usable load and rating as on Job; packing as in its table; pressure by a factor for a state that passes: common
         practice, no source.
"""

from dataclasses import dataclass

from calc.allowances import Allowances
from calc.bases import PadRow
from calc.fields import note, quantity
from calc.jack_plan_rows import MemberPlan, MemberState
from calc.jack_sections import ACCIDENTAL
from calc.number import Name, Number, Text, fixed, maximum, within, word_where
from calc.packing import Timber
from calc.survey import Job

PASSING = (*ACCIDENTAL, "re-seating", "transfer back")
"""States that pass: rating and temporary pressure hold, not usable load and lasting pressure."""

JACK_CLAUSES = (
    "Jack: usable load with all at work, rating in a state that passes (Job). Packing: {}. Pressure: bearing pressure "
    "on Job, times soil_temporary in a state that passes"
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackStateRow:
    """The hardest worked jack of one wall or column in one state, weight doubt included."""

    name: Name = note("wall or column")
    state: str = note("state")
    jack: Number = quantity("kN", "load of the jack")
    limit: Number = quantity("kN", "it may carry in that state")
    by_jack: Number = quantity("-", "use of the jack")
    packing: Number = quantity("kN", "the packing bears")
    by_packing: Number = quantity("-", "use of the packing")
    pressure: Number = quantity("kN/m2", "under its base")
    allowed: Number = quantity("kN/m2", "pressure allowed in that state")
    by_ground: Number = quantity("-", "use of the ground")
    use: Number = quantity("-", "greatest use")
    verdict: Text = note("within the limits set, or STOP")


def jack_state_row(
    member: MemberPlan, state: MemberState, pad: PadRow, usable: Number, job: Job, timber: Timber, allow: Allowances
) -> JackStateRow:
    """The hardest worked jack of one member in one state.

    Args:
        member: with its plan
        state: its demands, as floats
        pad: bases of the member
        usable: usable load of one jack [kN]
        job: rating and bearing pressure
        timber: of the packing, at its softest
        allow: the allowances
    """
    passes = state.state in PASSING
    jack = fixed(state.jack, job.jack_rating, job.jack_rating)
    limit = maximum(job.jack_rating, usable) if passes else usable
    packing = fixed(timber.crushing, job.bearing.value, job.bearing.value) * allow.packing_side**2
    pressure = jack / pad.side**2
    # Base sides carry an uneven share already; with all at work weight doubt is within it.
    allowed = job.bearing.value * allow.soil_temporary if passes else job.bearing.value
    uses = (jack / limit, jack / packing, pressure / allowed)
    use = maximum(*uses)
    return JackStateRow(
        name=Name(member.name), state=state.state, jack=jack, limit=limit, by_jack=uses[0], packing=packing,
        by_packing=uses[1], pressure=pressure, allowed=allowed, by_ground=uses[2], use=use,
        verdict=word_where(within(use, 1), "within the limits set", "STOP"),
    )  # fmt: skip
