"""Jack types: what each can do, whether it fits under the beam, how many people it takes, how much of it is used.

Covers   closed height with plate and packing against the room there is, extra digging, stroke against a call,
         operators, share of the rating.
Not      pressures, pumps and circuits, the count of jacks (jacks), the state of one jack (the kit's last test).
Signs    heights positive upward, digging positive downward.
Units    m, kN, No.
Sources  common practice, no source: each row of the table is a default to be overwritten by the kit on hand.
"""

from dataclasses import dataclass

from calc.criteria import Criterion, criterion
from calc.fields import note, quantity
from calc.member_rules import JackRules, PackingRules
from calc.number import Number, ceil, maximum


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackType:
    """One type of jack."""

    name: str = note("type")
    circuits: Number = quantity("No", "1 where jacks can be joined in circuits of equal pressure, else 0")
    jacks_each: Number = quantity("No", "jacks one operator serves")
    holds: Number = quantity("No", "1 where it may hold its load over ten minutes without packing, else 0")
    share: Number = quantity("-", "usual share of the rating used, at most")
    closed: Number = quantity("m", "closed height")
    stroke: Number = quantity("m", "stroke")
    head: Number = quantity("m", "side or diameter of the head")
    foot: Number = quantity("m", "side or diameter of the foot")
    source: str = note("where it comes from")
    read: str = note("how it was read")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackFit:
    """Whether a jack goes under the beam."""

    stack: Number = quantity("m", "base, packing, jack closed and plate, one on the other")
    room: Number = quantity("m", "from the bottom of the dig to the underside of the beam")
    slack: Number = quantity("m", "height left for packing")
    extra_dig: Number = quantity("m", "digging deeper than there is")


def jack_fit(jack: JackType, base: Number, packing: Number, plate: Number, room: Number) -> JackFit:
    """A jack under the beam on its base; where it does not fit, the dig goes deeper.

    Args:
        jack: type, with its closed height
        base: thickness of the base [m]
        packing: least packing under or over the jack [m]
        plate: thickness of the plates over and under it [m]
        room: from the bottom of the dig to the underside of the beam [m]
    """
    stack = base + packing + jack.closed + plate
    return JackFit(stack=stack, room=room, slack=maximum(room - stack, 0), extra_dig=maximum(stack - room, 0))


def operators(jacks: Number, jack: JackType) -> Number:
    """People at the jacks [No].

    Args:
        jacks: worked at a time [No]
        jack: type, with the jacks one operator serves
    """
    return ceil(jacks / jack.jacks_each)


def share_criteria(share: Number, jack: JackType, rules: JackRules) -> tuple[Criterion, Criterion]:
    """The share of the rating used, against what is usual for the type and against what no jack is used for.

    Args:
        share: of the rating used [-]
        jack: type
        rules: figures of the rules
    """
    return (
        criterion("Share of the rating, usual for the type", share, jack.share, "-", jack.source),
        criterion("Share of the rating, any jack", share, rules.share_fault, "-", "common practice, no source"),
    )


def stroke_criterion(call: Number, jack: JackType, rules: PackingRules) -> Criterion:
    """One call and what is kept in hand against the stroke.

    Args:
        call: rise before the jack is re-seated [m]
        jack: type
        rules: figures of the rules
    """
    return criterion("Stroke, reserve and seating included", call + rules.stroke_reserve + rules.seating, jack.stroke,
                     "m", "common practice, no source")  # fmt: skip


def packs_while_holding(jacks: Number, jack: JackType) -> Number:
    """Jacks beside which a pack is kept tight because the type does not hold by itself [No].

    Args:
        jacks: under load [No]
        jack: type
    """
    return jacks * (1 - jack.holds)
