"""What the lift takes from the store: jacks that fit and are enough, people at them, packing.

Covers   jacks in the store and on hire against those needed, closed height under the beam, people at the jacks, packs
         kept tight beside jacks that do not hold, timber of packing and partner packs.
Not      carrier beams (carrier_rows), hire by days and prices.
Signs    heights positive upward, digging downward.
Units    m, m3, No.
Sources  common practice, no source: types of jack and their figures are rows of a table, the kit on hand goes before.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.checks import CORRECT, PRACTICE, CheckRow, check
from calc.fields import note, quantity
from calc.jack_steering import TYPES
from calc.jack_types import JackType, operators, packs_while_holding, share_criteria
from calc.member_rules import MemberRules
from calc.number import Number, fixed, maximum, total, where
from calc.packing import partner_packs
from calc.survey import Job, KitItem, Survey


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class KitUse:
    """Jacks and packing of the lift."""

    kind: str = note("type of jack")
    needed: Number = quantity("No", "jacks in use and spares")
    there: Number = quantity("No", "such jacks in the store and on hire; 0 where none is listed")
    people: Number = quantity("No", "people at the jacks, all worked at a time")
    holding: Number = quantity("No", "packs kept tight because the jacks do not hold over ten minutes")
    closed: Number = quantity("m", "closed height of a jack")
    stack: Number = quantity("m", "jack closed, plates and least packing")
    room: Number = quantity("m", "from the bottom of the trench to the deepest carrier beam")
    deeper: Number = quantity("m", "trench deeper than below_cut for the jacks to go in")
    partners: Number = quantity("No", "partner packs beside released jacks")
    packing: Number = quantity("m3", "timber of the packing over all jacks at full rise")
    partner_packing: Number = quantity("m3", "timber of the partner packs at full rise")


def kit_use(
    survey: Survey, kind: JackType, jacks: Number, spares: Number, rise: Number, deepest: Number, rules: MemberRules,
    allow: Allowances,
) -> KitUse:  # fmt: skip
    """Jacks and packing of the lift, against the kit.

    Args:
        survey: kit and trench
        kind: type of jack in use
        jacks: in use [No]
        spares: on site [No]
        rise: of the house [m]
        deepest: depth of the deepest carrier beam [m]
        rules: figures of the rules
        allow: the allowances
    """
    job = survey.job
    ours = [item for item in survey.kit if TYPES.get(item.kind) == kind.name]
    closed = maximum(fixed(kind.closed, rise, rise) if not ours else 0 * rise, *(item.closed.value for item in ours))
    stack, room = closed + allow.plate_thickness + allow.packing_least, allow.below_cut - deepest
    high, area = maximum(rise, 0) + allow.packing_least, allow.packing_side**2
    partners = partner_packs(jacks, rules.packing)
    return KitUse(
        kind=kind.name, needed=jacks + spares, there=_there(ours, job, jacks), people=operators(jacks, kind),
        holding=packs_while_holding(jacks, kind), closed=closed, stack=stack, room=room,
        deeper=maximum(stack - room, 0), partners=partners, packing=jacks * area * high,
        partner_packing=partners * area * high,
    )  # fmt: skip


def _there(ours: Sequence[KitItem], job: Job, like: Number) -> Number:
    """Jacks of the type that reach the rating."""
    return total([
        0 * like, *(where(item.rating.value >= job.jack_rating, item.number.value, 0) for item in ours)
    ])  # fmt: skip


def kit_checks(found: KitUse, kind: JackType, job: Job, rules: MemberRules) -> Iterable[CheckRow]:
    """Whether there are enough jacks, whether they go in, and how much of their rating is used.

    Args:
        found: jacks and packing of the lift
        kind: type of jack in use
        job: share of the rating used
        rules: figures of the rules
    """
    yield check(name="Jacks in the store and on hire", state="on all jacks", where_="house", demand=found.needed,
                capacity=found.there, unit="No", fails=CORRECT, source="Kit")  # fmt: skip
    yield check(name="Jack, plates and least packing under the carrier beam", state="pockets cut", where_="house",
                demand=found.stack, capacity=found.room, unit="m", fails=CORRECT,
                source="geometry; dig deeper: below_cut on Allowances")  # fmt: skip
    usual, any_jack = share_criteria(job.share, kind, rules.jacks)
    yield check(name=usual.name, state="on all jacks", where_="house", demand=usual.demand,
                capacity=fixed(kind.share, job.share, job.share), unit="-", fails=CORRECT, source=PRACTICE)  # fmt: skip
    yield check(name=any_jack.name, state="on all jacks", where_="house", demand=any_jack.demand,
                capacity=any_jack.capacity, unit="-", source=PRACTICE)  # fmt: skip
