"""Wind on a house that stands on jacks: design wind speed, pressure, force on the face it meets.

Covers   V_z = V_b k1 k2 k3 k4, p_z = 0.6 V_z2, design pressure, force on a face; factors between the rows of a table; a
         basic wind speed nobody knows: then the wind at which work stops is what the house is looked at for.
Not      the face itself (wind_faces), pressure inside, friction along the sides, uplift of the roof, gust response.
Signs    pressure and force positive downwind.
Units    m, m2, m/s, kN, kN/m2, kN s2/m4.
Sources  IS 875 (Part 3):2015; the formulas read in two worked calculation sheets. The figures are allowances, each with
         its own word on whether anybody saw the page.
"""

from dataclasses import dataclass

from calc.allowances import Allowances
from calc.checks import WITHIN
from calc.fields import note, quantity
from calc.number import Name, Number, Text, maximum, minimum, same, total, where, word_where
from calc.survey import Job

NO_WIND_KNOWN = "within the limits set if no wind blows that stops work"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RiskStep:
    """Between two rows of the risk factors."""

    low: Number = quantity("m/s", "basic wind speed of the row below")
    high: Number = quantity("m/s", "basic wind speed of the row above")
    share: Number = quantity("-", "of the way between them that counts")
    change: Number = quantity("-", "of the factor on that way")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TerrainRow:
    """Terrain and height factor k2 of one terrain."""

    terrain: Name = note("as Job names it; an unknown one counts as open")
    low: Number = quantity("-", "at the lowest height of the table and below it")
    middle: Number = quantity("-", "at the height in the middle")
    high: Number = quantity("-", "at the greatest height")
    factor: Number = quantity("-", "at the top of the raised house")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Wind:
    """The wind the house is looked at for."""

    steps: tuple[RiskStep, ...]
    terrains: tuple[TerrainRow, ...]
    known: Number = quantity("No", "1 where the basic wind speed is known, else 0")
    basic: Number = quantity("m/s", "basic wind speed; 0 where it is not known")
    risk: Number = quantity("-", "k1, for the short time the house stands on jacks")
    top: Number = quantity("m", "top of the raised house above ground")
    first: Number = quantity("-", "of the way from the first height of the table to the second")
    second: Number = quantity("-", "of the way from the second to the third")
    terrain: Text = note("terrain the factor is taken for")
    terrain_factor: Number = quantity("-", "k2")
    design: Number = quantity("m/s", "design wind speed; 0 where the basic one is not known")
    checked: Number = quantity("m/s", "speed it is looked at for: the design speed, else that at which work stops")
    pressure: Number = quantity("kN/m2", "design pressure at that speed")
    told: Text = note("what that rests on, in words")
    passes: Text = note("verdict of a check that holds in this wind")


def share_between(value: Number, low: Number, high: Number) -> Number:
    """How far a value is on its way between two rows of a table: 0 before, 1 beyond [-].

    Args:
        value: where it is wanted [m]
        low: the row below, in the same unit [m]
        high: the row above, in the same unit [m]

    >>> [share_between(height, 10.0, 15.0) for height in (6.0, 12.5, 30.0)]
    [0, 0.5, 1]
    """
    return maximum(0, minimum(1, (value - low) / (high - low)))


def wind_speed(basic: Number, risk: Number, terrain: Number, ground: Number, importance: Number) -> Number:
    """Design wind speed [m/s].

    Args:
        basic: basic wind speed, V_b [m/s]
        risk: for the years the house stands like this, k1 [-]
        terrain: for terrain and height, k2 [-]
        ground: for hills, k3 [-]
        importance: for cyclones, k4 [-]

    Source:
        IS 875 (Part 3):2015 cl. 6.3, read in a worked calculation sheet.

    >>> round(wind_speed(44.0, 1.0, 1.05, 1.0, 1.0), 2)
    46.2
    """
    return basic * risk * terrain * ground * importance


def wind_pressure(speed: Number, air: Number) -> Number:
    """Wind pressure p_z [kN/m2].

    Args:
        speed: V_z [m/s]
        air: pressure for each squared m/s, 0.0006 in the code [kN s2/m4]

    Source:
        IS 875 (Part 3):2015 cl. 7.2, read in a worked calculation sheet.

    >>> round(wind_pressure(44.0, 0.0006), 4)
    1.1616
    """
    return speed**2 * air


def wind_force(pressure: Number, coefficient: Number, face: Number) -> Number:
    """Force on the face that the wind meets [kN].

    Args:
        pressure: design pressure [kN/m2]
        coefficient: push on one side and pull on the other together [-]
        face: projected area [m2]

    >>> wind_force(0.5, 1.2, 30.0)
    18.0
    """
    return pressure * coefficient * face


def wind_of(job: Job, top: Number, allow: Allowances) -> Wind:
    """The wind the house is looked at for.

    Args:
        job: the Job entries
        top: of the raised house above ground [m]
        allow: the allowances
    """
    steps = _risk_steps(job.wind_speed.value, allow)
    risk = allow.wind_risk_1 + total([step.change for step in steps])
    first = share_between(top, allow.wind_height_low, allow.wind_height_mid)
    second = share_between(top, allow.wind_height_mid, allow.wind_height_high)
    rows = _terrains(first, second, allow)
    houses, built = same(job.terrain, rows[1].terrain), same(job.terrain, rows[2].terrain)
    factor = where(houses, rows[1].factor, where(built, rows[2].factor, rows[0].factor))
    known = where(job.wind_speed.given, 1, 0)
    design = wind_speed(job.wind_speed.value, risk, factor, allow.wind_ground, allow.wind_importance) * known
    checked = where(known > 0, design, allow.stop_work_wind)
    in_open = word_where(same(job.terrain, "unknown"), "not known: taken as open", job.terrain)
    return Wind(
        steps=steps, terrains=rows, known=known, basic=job.wind_speed.value, risk=risk, top=top, first=first,
        second=second, terrain=in_open, terrain_factor=factor, design=design, checked=checked,
        pressure=wind_pressure(checked, allow.air_pressure) * allow.wind_reduction,
        told=word_where(known > 0, "the design wind of the place",
                        "NOT KNOWN: looked at for the wind that stops work"),
        passes=word_where(known > 0, WITHIN, NO_WIND_KNOWN),
    )  # fmt: skip


def _risk_steps(basic: Number, allow: Allowances) -> tuple[RiskStep, ...]:
    speeds, factors = ([getattr(allow, f"wind_{what}_{row}") for row in range(1, 7)] for what in ("zone", "risk"))
    return tuple(
        _risk_step(basic, *pair)
        for pair in zip(speeds[:-1], speeds[1:], factors[:-1], factors[1:], strict=True)
    )  # fmt: skip


def _risk_step(basic: Number, low: Number, high: Number, lower: Number, upper: Number) -> RiskStep:
    share = share_between(basic, low, high)
    return RiskStep(low=low, high=high, share=share, change=share * (upper - lower))


def _terrains(first: Number, second: Number, allow: Allowances) -> tuple[TerrainRow, ...]:
    rows = []
    for name, key in (("open", "open"), ("scattered houses", "houses"), ("built up", "built")):
        low, middle, high = (getattr(allow, f"wind_{key}_{height}") for height in ("low", "mid", "high"))
        factor = low + first * (middle - low) + second * (high - middle)
        rows.append(TerrainRow(terrain=Name(name), low=low, middle=middle, high=high, factor=factor))
    return tuple(rows)
