"""Jack bases: the pad under each jack.

Covers   side from load and allowable pressure, thickness by spreading the load at 45 degrees, pressure.
Not      punching and bars (jack_bases), neighbours that overlap (base_strips), old footings as bases (base_places),
         cribs (cribs).
Signs    load and pressure positive downward.
Units    m, kN, kN/m2.
Sources  load over area; spread at 45 degrees is common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.fields import note, quantity
from calc.jacks import JackRow
from calc.number import Name, Number, maximum, rounded_up_to, sqrt


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PadRow:
    """The pads under one wall or column, all alike."""

    name: Name = note("mark")
    kind: str = note("wall or column")
    count: Number = quantity("No", "pads")
    load: Number = quantity("kN", "load one pad is made for")
    allowable: Number = quantity("kN/m2", "allowable pressure under it")
    side: Number = quantity("m", "side")
    thickness: Number = quantity("m", "thickness")
    pressure: Number = quantity("kN/m2", "pressure under it")


def pad_side(load: Number, allowable: Number, step: Number) -> Number:
    """Side of a square pad [m].

    Args:
        load: on the pad [kN]
        allowable: pressure [kN/m2]
        step: sides are multiples of this [m]

    >>> round(pad_side(33.902, 120.0, 0.05), 2)
    0.55
    """
    return rounded_up_to(sqrt(load / allowable), step)


def pad_thickness(side: Number, plate: Number, least: Number, step: Number) -> Number:
    """Thickness of a pad whose load spreads at 45 degrees from the plate under the jack [m].

    Args:
        side: of the pad [m]
        plate: side of the plate [m]
        least: least thickness [m]
        step: thicknesses are multiples of this [m]

    >>> round(pad_thickness(0.55, 0.2, 0.15, 0.05), 2)
    0.2
    """
    return rounded_up_to(maximum((side - plate) / 2, least), step)


def pad_rows(jacks: Sequence[JackRow], allowable: Number, allow: Allowances) -> list[PadRow]:
    """Pads under every wall and column.

    Args:
        jacks: the first jack answer
        allowable: safe bearing pressure [kN/m2]
        allow: the allowances
    """
    rows = []
    for jack in jacks:
        side = pad_side(jack.uneven, allowable, allow.base_step)
        # A wall without jacks has no pads; its side is kept at one step so that no pressure divides by nothing.
        laid = maximum(side, allow.base_step)
        rows.append(PadRow(
            name=jack.name, kind=jack.kind, count=jack.count, load=jack.uneven, allowable=allowable, side=laid,
            thickness=maximum(jack.base_thickness, pad_thickness(
                laid, allow.jack_plate, allow.base_thickness_least, allow.base_thickness_step)),
            pressure=jack.uneven / laid**2,
        ))  # fmt: skip
    return rows
