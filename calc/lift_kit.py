"""What the lift takes from the store: jacks that fit and are enough, people at them, packing.

Covers   jacks in the store and on hire against those needed, closed height under the beam, people at the jacks, packs
         kept tight beside jacks that do not hold, timber of packing and partner packs.
Not      carrier beams (carrier_rows), hire by days and prices.
Signs    heights positive upward, digging downward.
Units    m, m3, No.
Sources  common practice, no source: types of jack and their figures are rows of a table, the kit on hand goes before.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from calc.allowances import Allowances
from calc.checks import CORRECT, PRACTICE, CheckRow, check
from calc.fields import note, quantity
from calc.jack_steering import TYPES
from calc.jack_types import JackType, operators, packs_while_holding, share_criteria
from calc.member_rules import MemberRules
from calc.number import Number, Text, fixed, maximum, total, where
from calc.packing import partner_packs
from calc.survey import Job, KitItem, Survey


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class KitRow:
    """Jacks of the type in use, one entry of the kit."""

    name: Text = note("entry")
    rating: Number = quantity("kN", "rated load")
    closed: Number = quantity("m", "closed height")
    number: Number = quantity("No", "in the store or on hire")
    counts: Number = quantity("No", "of these, those that reach the rating of the job")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class KitUse:
    """Jacks and packing of the lift."""

    rows: tuple[KitRow, ...]
    kind: JackType = note("type of jack, its figures in cells of their own")
    name: str = note("type of jack")
    each: Number = quantity("No", "jacks one man serves")
    holds: Number = quantity("No", "1 where the type holds its load by itself, else 0")
    usual: Number = quantity("-", "usual share of the rating for the type, at most")
    needed: Number = quantity("No", "jacks in use and spares")
    there: Number = quantity("No", "such jacks in the store and on hire; 0 where none is listed")
    people: Number = quantity("No", "people at the jacks, all worked at a time")
    holding: Number = quantity("No", "packs kept tight because the jacks do not hold over ten minutes")
    closed: Number = quantity("m", "closed height of a jack")
    stack: Number = quantity("m", "jack closed, plates and least packing")
    room: Number = quantity("m", "from the bottom of the trench to the deepest carrier beam")
    deeper: Number = quantity("m", "trench deeper than below_cut for the jacks to go in")
    high: Number = quantity("m", "packing at full rise")
    partners: Number = quantity("No", "partner packs beside released jacks")
    packing: Number = quantity("m3", "timber of the packing over all jacks at full rise")
    partner_packing: Number = quantity("m3", "timber of the partner packs at full rise")


def kit_use(
    survey: Survey, kind: JackType, jacks: Number, spares: Number, rise: Number, deepest: Number, area: Number,
    rules: MemberRules, allow: Allowances,
) -> KitUse:  # fmt: skip
    """Jacks and packing of the lift, against the kit.

    Args:
        survey: kit and trench
        kind: type of jack in use, its figures in cells of their own
        jacks: in use [No]
        spares: on site [No]
        rise: of the house [m]
        deepest: depth of the deepest carrier beam [m]
        area: of the packing over a jack [m2]
        rules: figures of the rules
        allow: the allowances
    """
    rows = kit_rows(survey.kit, kind.name, survey.job)
    closed = maximum(*(row.closed for row in rows)) if rows else kind.closed
    stack, room = closed + allow.plate_thickness + allow.packing_least, allow.below_cut - deepest
    high = maximum(rise, 0) + allow.packing_least
    partners = partner_packs(jacks, rules.packing)
    return KitUse(
        rows=rows, kind=kind, name=kind.name, each=kind.jacks_each, holds=kind.holds, usual=kind.share,
        needed=jacks + spares, there=total([row.counts for row in rows]), people=operators(jacks, kind),
        holding=packs_while_holding(jacks, kind), closed=closed, stack=stack, room=room,
        deeper=maximum(stack - room, 0), high=high, partners=partners, packing=jacks * area * high,
        partner_packing=partners * area * high,
    )  # fmt: skip


def kit_rows(kit: Sequence[KitItem], kind: str, job: Job) -> tuple[KitRow, ...]:
    """The jacks of one type in the kit.

    Args:
        kit: things owned or hired
        kind: type of jack
        job: rating of the jacks of the job
    """
    return tuple(
        KitRow(name=item.name, rating=item.rating.value, closed=item.closed.value, number=item.number.value,
               counts=where(item.rating.value >= job.jack_rating, item.number.value, 0))
        for item in kit if TYPES.get(item.kind) == kind
    )  # fmt: skip


def type_in_cells(types: Sequence[JackType], name: str, length: Number, count: Number) -> JackType | None:
    """A type of jack whose figures stand in cells of their own; none where the type is not known.

    Args:
        types: of jacks
        name: of the type
        length: any length of the run [m]
        count: any number of the run, whatever its unit [kN]
    """
    kind = next((one for one in types if one.name == name), None)
    if kind is None:
        return None
    return replace(
        kind, circuits=fixed(kind.circuits, count), jacks_each=fixed(kind.jacks_each, count),
        holds=fixed(kind.holds, count), share=fixed(kind.share, count), closed=fixed(kind.closed, length, length),
        stroke=fixed(kind.stroke, length, length), head=fixed(kind.head, length, length),
        foot=fixed(kind.foot, length, length),
    )  # fmt: skip


def kit_checks(found: KitUse, job: Job, rules: MemberRules) -> Iterable[CheckRow]:
    """Whether there are enough jacks, whether they go in, and how much of their rating is used.

    Args:
        found: jacks and packing of the lift
        job: share of the rating used
        rules: figures of the rules
    """
    yield check(name="Jacks in the store and on hire", state="on all jacks", where_="house", demand=found.needed,
                capacity=found.there, unit="No", fails=CORRECT, source="Kit")  # fmt: skip
    yield check(name="Jack, plates and least packing under the carrier beam", state="pockets cut", where_="house",
                demand=found.stack, capacity=found.room, unit="m", fails=CORRECT,
                source="geometry; dig deeper: below_cut on Allowances")  # fmt: skip
    usual, any_jack = share_criteria(job.share, found.kind, rules.jacks)
    yield check(name=usual.name, state="on all jacks", where_="house", demand=usual.demand,
                capacity=usual.capacity, unit="-", fails=CORRECT, source=PRACTICE)  # fmt: skip
    yield check(name=any_jack.name, state="on all jacks", where_="house", demand=any_jack.demand,
                capacity=any_jack.capacity, unit="-", source=PRACTICE)  # fmt: skip
