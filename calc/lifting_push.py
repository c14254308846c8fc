"""A house on jacks at full rise, pushed by wind and by the notional force of temporary works, in both directions.

Covers   the force of the wind on each face, the house as calc.stability asks for it, bracing that is needed, the most
         wind to work in.
Not      the statics themselves (stability), the wind (wind), the faces (wind_faces); towers, guide frames and their
         ties, earthquake, uplift of the roof.
Signs    forces positive; the push may come from either side.
Units    m, m2, kN, m/s.
Sources  as in stability and wind. Of the dead load no more is counted on than what the jacks carry.
"""

from collections.abc import Sequence

from calc.allowances import Allowances
from calc.lifting_rows import Direction, JackStation
from calc.number import Number, maximum, minimum, where
from calc.stability import JackAlong, OnJacks, StabilityRules, stability_of, working_wind
from calc.take_down_rows import HouseTotals
from calc.wind import Wind, wind_force
from calc.wind_faces import Faces

ALONG_LETTERS, ALONG_NUMBERS = "along letters", "along numbers"


def stability_rules(allow: Allowances, sway: Number) -> StabilityRules:
    """What holds and what pushes, from the allowances.

    Args:
        allow: the allowances
        sway: notional horizontal force over the load [-]
    """
    return StabilityRules(holding=allow.holding_share, pushing=allow.pushing_factor, notional=sway,
                          middle=allow.middle_share, friction=allow.head_friction)  # fmt: skip


def bracing_force(push: Number, grip: Number, high: Number) -> Number:
    """Horizontal force that guides and braces must take: what friction leaves, and all of it in a high lift [kN].

    Args:
        push: wind and notional force with their factor [kN]
        grip: friction at the jack heads that is counted on [kN]
        high: 1 where the rise is more than the one without bracing [No]

    Source:
        Common practice, no source.

    >>> bracing_force(90.0, 60.0, 0), bracing_force(40.0, 60.0, 0), bracing_force(40.0, 60.0, 1)
    (30.0, 0, 40.0)
    """
    return where(high > 0, push, maximum(push - grip, 0))


def directions_of(
    house: HouseTotals, stations: Sequence[JackStation], faces: Faces, wind: Wind, high: Number, usable: Number,
    allow: Allowances, sway: Number,
) -> tuple[Direction, ...]:  # fmt: skip
    """Both directions; none where there are fewer than two jacks, which the checks of the lift refuse.

    Args:
        house: what is lifted, and its centre
        stations: every jack
        faces: of the house in the wind
        wind: the house is looked at for
        high: 1 where the rise is more than the one without bracing [No]
        usable: usable load of one jack [kN]
        allow: the allowances
        sway: notional horizontal force over the load [-]
    """
    if len(stations) < 2:
        return ()
    dead, height = minimum(house.dead, house.lifted), house.z - faces.heads
    rules = stability_rules(allow, sway)
    rows = []
    for name, area, middle, centre, places in (
        (ALONG_LETTERS, faces.area_x, faces.middle_x, house.x, [station.x for station in stations]),
        (ALONG_NUMBERS, faces.area_y, faces.middle_y, house.y, [station.y for station in stations]),
    ):
        on_jacks = OnJacks(
            direction=name, dead=dead, load=house.lifted, centre=centre, height=height,
            wind=wind_force(wind.pressure, allow.wind_coefficient, area), wind_height=middle,
            guided=allow.guided_force, usable=usable,
        )  # fmt: skip
        jacks = [JackAlong(name=station.name, at=at, force=station.force)
                 for station, at in zip(stations, places, strict=True)]  # fmt: skip
        rows.append(_direction(on_jacks, jacks, rules, area, wind, high, allow))
    return tuple(rows)


def _direction(
    house: OnJacks, jacks: Sequence[JackAlong], rules: StabilityRules, area: Number, wind: Wind, high: Number,
    allow: Allowances,
) -> Direction:  # fmt: skip
    found = stability_of(house, jacks, rules)
    push = found.pushed.force * rules.pushing
    return Direction(
        direction=house.direction, house=house, stability=found, area=area, wind=house.wind, push=push,
        grip=found.grip, bracing=bracing_force(push, found.grip, high), designed=house.guided,
        working=working_wind(found.wind_share, wind.checked, allow.stop_work_wind),
    )  # fmt: skip
