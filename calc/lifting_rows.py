"""The rows of the lift: what a foreman, an owner and an engineer read of it.

Covers   one record a row; each field is computed once and complete when made, because a workbook shows it as a column.
Not      how they are worked out (lifting, lifting_limits, lifting_push).
Signs    a rise and a load are positive; x east, y north.
Units    in each field.
Sources  none of its own.
"""

from dataclasses import dataclass

from calc.checks import CheckRow
from calc.fields import note, quantity
from calc.number import Name, Number, Text
from calc.stability import OnJacks, Stability
from calc.strokes import LiftTime, OilPlan, Outputs, StrokeHabits, StrokePlan
from calc.wind import Wind
from calc.wind_faces import Faces


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackStation:
    """Where one jack stands and what it is predicted to carry."""

    name: Name = note("mark of the jack")
    member: Name = note("wall or column it lifts")
    x: Number = quantity("m", "east")
    y: Number = quantity("m", "north")
    force: Number = quantity("kN", "predicted, house level, nothing pushing")
    release: Number = quantity("No", "pass of a re-seating in which it is released, from 1")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StationLoad:
    """One jack on the day: its loads at each hold, and the load at which the lift stops."""

    name: Name = note("mark of the jack")
    member: Name = note("wall or column it lifts")
    x: Number = quantity("m", "east")
    y: Number = quantity("m", "north")
    first: Number = quantity("kN", "at the first hold of the preload")
    second: Number = quantity("kN", "at the second hold")
    force: Number = quantity("kN", "predicted: the third hold")
    stop: Number = quantity("kN", "measured load at which the lift stops")
    release: Number = quantity("No", "pass of a re-seating in which it is released")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PreloadRow:
    """One hold of the preload."""

    hold: Name = note("hold")
    share: Number = quantity("-", "of the predicted load")
    house: Number = quantity("kN", "all jacks together")
    jack: Number = quantity("kN", "mean of one jack")
    pressure: Number = quantity("kN/m2", "oil of a mean jack; nothing for a screw jack")
    look: str = note("what is looked at before the next")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WallLimit:
    """One lifted wall: the difference between neighbours its masonry bears."""

    wall: Text = note("wall")
    masonry: Text = note("masonry")
    mortar: Text = note("mortar")
    weak: Number = quantity("No", "1 for rubble, and for mud, lime or unknown mortar")
    difference: Number = quantity("m", "difference of neighbours that stops the lift")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MovementRow:
    """One line of the one table of movement and load."""

    what: Name = note("what is measured")
    alarm: Number = note("corrected beyond this, in `unit`; the stop itself where there is no alarm")
    stop: Number = note("work stops beyond this, in `unit`")
    unit: str = note("unit of both")
    do: str = note("what to do")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Limits:
    """How far the house may move out of shape, and what the levelling instrument sees of it."""

    walls: tuple[WallLimit, ...]
    table: tuple[MovementRow, ...]
    difference: Number = quantity("m", "difference of neighbours that stops the lift, in the weakest lifted wall")
    spacing: Number = quantity("m", "distance of neighbours the table is worked out for: widest spacing on Job")
    stop: Number = quantity("m", "difference of neighbours so far apart that stops the lift")
    alarm: Number = quantity("m", "difference of neighbours so far apart that is corrected")
    closest: Number = quantity("m", "difference of neighbours at the closest spacing on Job that stops the lift")
    call: Number = quantity("m", "most rise in one call")
    other: Number = quantity("m", "error of one reading without a rod at every jack")
    error: Number = quantity("m", "error of one reading of the instrument, either way")
    blind: Number = quantity("m", "difference that two such readings can hide")
    sees: Text = note("whether the instrument sees the stop, in words")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HoldPoint:
    """Work stops here until somebody has looked and signed."""

    point: Name = note("when")
    every: Number = quantity("m", "rise at which it comes, or between two of them")
    times: Number = quantity("No", "how often in the lift")
    look: str = note("what is looked at")
    leave: str = note("what is signed before the next step")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tie:
    """Something that holds the house to the ground and is cut before breakaway."""

    what: str = note("tie")
    how: str = note("how it is cut or loosened")
    signed: str = note("room to sign on paper")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Direction:
    """The house pushed in one direction."""

    direction: str = note("along letters or along numbers")
    house: OnJacks
    stability: Stability
    area: Number = quantity("m2", "face the wind meets")
    wind: Number = quantity("kN", "force of the wind the house is looked at for")
    push: Number = quantity("kN", "wind and notional force with their factor")
    grip: Number = quantity("kN", "friction at the jack heads that is counted on")
    bracing: Number = quantity("kN", "horizontal force that guides and braces must take")
    designed: Number = quantity("kN", "force they have been designed for, by Allowances")
    working: Number = quantity("m/s", "most wind to work in; 0: in none")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HighLift:
    """What a high lift, or a storey below, asks for."""

    high: Number = quantity("No", "1 where the rise is more than the one without bracing")
    below: Number = quantity("No", "1 where a storey or a basement comes below")
    designed: Number = quantity("No", "1 where an engineer designs the temporary works")
    height: Number = quantity("-", "height of the packing at full rise over its width")
    height_most: Number = quantity("-", "most of it: braced where the lift is high")
    bracing: Text = note("braced towers, guide frames, ties between feet")
    temporary_works: Text = note("whether an engineer designs the temporary works")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lifting:
    """The lift of the whole house."""

    stations: tuple[JackStation, ...]
    loads: tuple[StationLoad, ...]
    preload: tuple[PreloadRow, ...]
    habits: StrokeHabits
    plan: StrokePlan
    oil: OilPlan
    outputs: Outputs
    time: LiftTime
    limits: Limits
    faces: Faces
    wind: Wind
    directions: tuple[Direction, ...]
    high: HighLift
    holds: tuple[HoldPoint, ...]
    ties: tuple[Tie, ...]
    checks: tuple[CheckRow, ...]
    jacks: Number = quantity("No", "jacks in use")
    predicted: Number = quantity("kN", "load of all jacks together")
    mean: Number = quantity("kN", "load of one jack on the mean")
    most: Number = quantity("kN", "greatest predicted load of a jack")
    stop_house: Number = quantity("kN", "measured load of the house at which the lift stops")
    stop_jack: Number = quantity("kN", "measured load of the most loaded jack at which the lift stops")
    breakaway: Number = quantity("m", "first movement, then a hold")
    breakaway_calls: Number = quantity("No", "calls it takes")
    passes: Number = quantity("No", "passes of one re-seating of all jacks")
    masonry: Number = quantity("m3", "follow-up masonry, band included")
    working: Number = quantity("m/s", "most wind, in gusts, to work in; 0: in none")
    stops: Number = quantity("No", "checks of the lift that say STOP")
    verdict: Text = note("of all checks of the lift")
