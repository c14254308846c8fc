"""How many jacks under each wall and column: by load and by spacing, and what a jack plan has beyond that.

Covers   usable load of a jack, counts, spacing, mean load, the quick figures per square metre.
Not      where each jack stands and what one lost jack does to its neighbours: that is the plan (jack_plan).
Signs    load positive downward.
Units    m, m2, kN, kN/m.
Sources  counting by load and spacing is common practice, no source. Share of rating: 29 CFR 1926.705(d) asks 2.5 times
         the load of lift-slab jacks, which is a share of 0.4; used here as a benchmark only.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.fields import note, quantity
from calc.number import (
    Filed,
    Name,
    Number,
    Text,
    at_issue,
    ceil,
    fixed,
    maximum,
    ratio,
    same,
    text_of,
    total,
    value_of,
    where,
    word_where,
)
from calc.own_rows import MemberRow
from calc.survey import Job
from calc.take_down_rows import BaseRow


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackRow:
    """Jacks of one ground wall or column."""

    name: Name = note("mark")
    kind: str = note("wall or column")
    member: Text = note("the same, as shown")
    length: Number = quantity("m", "length")
    lifted: Number = quantity("kN", "load in the lift")
    by_load: Number = quantity("No", "jacks by load")
    by_spacing: Number = quantity("No", "jacks by widest spacing")
    first: Number = quantity("No", "jacks by load and spacing")
    extra: Number = quantity("No", "jacks the plan has beyond these; less than 0 where it needs fewer")
    count: Number = quantity("No", "jacks")
    governed_by: Text = note("load, spacing or least number")
    lines: Number = quantity("No", "jack lines: 1 under a wall, 2 beside it")
    spacing: Number = quantity("m", "spacing of that many, evenly set")
    mean: Number = quantity("kN", "mean load of one jack")
    peak: Number = quantity("-", "what the plan makes its bases for over that mean and the uneven share")
    uneven: Number = quantity("kN", "load its base is made for")
    usable: Number = quantity("kN", "usable load of one jack")
    base_thickness: Number = quantity("m", "thickness its bases need in the plan; 0 without one")
    beams: Number = quantity("No", "carrier beams side by side, or on both sides")
    beam_mass: Number = quantity("kg/m", "of one of them")
    pocket_spacing: Number = quantity("m", "distance of pockets cut through the wall")
    thickness: Number = quantity("m", "thickness of the wall, other side of a column")
    section: Number = quantity("m2", "loaded wall section")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlannedCount:
    """What a jack plan says of one wall or column, on floats."""

    count: int = note("jacks")
    lines: int = note("jack lines")
    base_load: float = quantity("kN", "load its bases are made for")
    base_thickness: float = quantity("m", "thickness of its bases")
    beams: int = note("carrier beams side by side, or on both sides; 0 where there are none")
    beam_mass: float = quantity("kg/m", "of one of them")
    inputs: tuple[Number, ...] = note("numbers it rests on")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class JackTotals:
    """Jacks of the whole house."""

    usable: Number = quantity("kN", "usable load of one jack")
    first: Number = quantity("No", "jacks by load and spacing")
    planned: Number = quantity("No", "jacks the plan places; 0 without a plan")
    count: Number = quantity("No", "jacks in use")
    spares: Number = quantity("No", "spare jacks on site")
    by_load: Number = quantity("No", "jacks if load alone counted")
    stress: Number = quantity("kN/m2", "load on the wall section, all walls together")
    per_section: Number = quantity("No/m2", "jacks by load alone per m2 of loaded wall section")
    per_plan: Number = quantity("No/m2", "jacks per m2 of ground floor plan")


def usable_load(rating: Number, share: Number) -> Number:
    """Load one jack may be given [kN].

    Args:
        rating: rated load [kN]
        share: share of the rating used [-]

    >>> usable_load(200.0, 0.4)
    80.0
    """
    return rating * share


def jacks_by_load(load: Number, usable: Number) -> Number:
    """Jacks needed so that none carries more than its usable load on the mean [No].

    Args:
        load: load in the lift [kN]
        usable: usable load of one jack [kN]

    >>> jacks_by_load(216.973, 80.0)
    3.0
    """
    return ceil(load / usable)


def jacks_by_spacing(length: Number, end_distance: Number, widest: Number) -> Number:
    """Jacks needed so that neighbours are no further apart than the widest spacing [No].

    Args:
        length: of the wall [m]
        end_distance: first jack from either end [m]
        widest: widest spacing [m]

    >>> jacks_by_spacing(8.77, 0.3, 1.2)
    8.0
    """
    return ceil(maximum(length - 2 * end_distance, 0) / widest) + 1


def jack_count(load: Number, by_load: Number, by_spacing: Number, fewest: Number) -> Number:
    """Jacks under one wall or column: the greater count holds, and what carries nothing needs none [No].

    Args:
        load: load in the lift [kN]
        by_load: jacks by load [No]
        by_spacing: jacks by widest spacing [No]
        fewest: least number under one wall or column [No]

    >>> jack_count(216.973, 3.0, 8.0, 2.0), jack_count(0.0, 0.0, 8.0, 2.0)
    (8.0, 0)
    """
    return where(load > 0, maximum(by_load, by_spacing, fewest), 0)


def even_spacing(length: Number, end_distance: Number, count: Number) -> Number:
    """Distance between that many jacks, evenly set between the end ones [m].

    Args:
        length: of the wall [m]
        end_distance: first jack from either end [m]
        count: jacks [No]

    >>> round(even_spacing(8.77, 0.3, 8), 3)
    1.167
    """
    return maximum(length - 2 * end_distance, 0) / maximum(count - 1, 1)


def jacks_per_section(stress: Number, usable: Number) -> Number:
    """Jacks per square metre of loaded wall section [No/m2].

    Args:
        stress: load on the wall section [kN/m2]
        usable: usable load of one jack [kN]

    >>> round(jacks_per_section(58.0, 20.0), 2)
    2.9
    """
    return stress / usable


def jack_rows(
    bases: Sequence[BaseRow], members: Sequence[MemberRow], usable: Number, job: Job, allow: Allowances,
    planned: Mapping[str, PlannedCount] | None = None,
) -> list[JackRow]:  # fmt: skip
    """Jacks for every ground wall and column: by load and spacing, and what a plan has beyond that.

    The count by load and spacing stays live; what the plan adds is worked out at issue.

    Args:
        bases: ground walls and columns at the cut level
        members: all members, for their thickness
        usable: usable load of one jack [kN]
        job: the Job entries
        allow: the allowances
        planned: what the jack plan says, by name; nothing for a member without a layout
    """
    names = [member.name for member in members]
    across = Filed(names, [member.across for member in members])
    rows = []
    for base in bases:
        by_load, thickness = jacks_by_load(base.lifted, usable), across.at(base.name)
        is_wall = same(base.member, "wall")
        along = jacks_by_spacing(base.length, allow.end_distance, job.widest_spacing)
        by_spacing = where(is_wall, along, allow.fewest_jacks)
        # What stays, or carries nothing lifted, needs no jack.
        first = jack_count(base.lifted, by_load, by_spacing, allow.fewest_jacks)
        plan = (planned or {}).get(text_of(base.name))
        extra = at_issue(plan.count - value_of(first), *plan.inputs, like=first) if plan else 0 * first
        count = where(base.lifted > 0, maximum(first + extra, 1), 0)
        mean = ratio(base.lifted, count, 0)
        peak = _peak(plan, mean, allow)
        lines = fixed(plan.lines if plan else 1, count)
        spacing = where(is_wall, even_spacing(base.length, allow.end_distance, count / lines), 0)
        few = word_where(allow.fewest_jacks > by_spacing, "least number", "spacing")
        governed = word_where(by_load >= maximum(by_spacing, allow.fewest_jacks), "load", few)
        rows.append(JackRow(
            name=base.name, kind=base.kind, member=base.member, length=base.length, lifted=base.lifted, by_load=by_load,
            by_spacing=by_spacing, first=first, extra=extra, count=count, governed_by=governed, lines=lines,
            spacing=spacing,
            mean=mean, peak=peak, uneven=mean * allow.uneven * peak, usable=usable, thickness=thickness,
            section=base.length * thickness, **_as_built(plan, thickness, lines, allow),
        ))  # fmt: skip
    return rows


def _as_built(plan: PlannedCount | None, thickness: Number, lines: Number, allow: Allowances) -> dict[str, Number]:
    """Bases, carrier beams and pockets of the plan; what is priced where there is no layout."""
    pockets = where(lines > 1, allow.needle_spacing, allow.pocket_spacing)
    if plan is None:
        return {"base_thickness": 0 * thickness, "beams": allow.carrier_beams_side_by_side,
                "beam_mass": allow.carrier_beam_mass, "pocket_spacing": pockets}  # fmt: skip
    return {
        "base_thickness": at_issue(plan.base_thickness, *plan.inputs, like=thickness),
        "beams": at_issue(plan.beams, *plan.inputs, like=allow.carrier_beams_side_by_side),
        "beam_mass": at_issue(plan.beam_mass, *plan.inputs, like=allow.carrier_beam_mass),
        "pocket_spacing": pockets,
    }


def _peak(plan: PlannedCount | None, mean: Number, allow: Allowances) -> Number:
    """What bases of the plan are made for over the mean load with its uneven share; 1 without a plan."""
    usual = value_of(mean * allow.uneven)
    if plan is None or not usual:
        return ratio(mean, mean, 0) * 0 + 1
    return at_issue(plan.base_load / usual, *plan.inputs, like=allow.uneven)


def jack_totals(
    rows: Sequence[JackRow], ground_plan: Number, usable: Number, allow: Allowances, inputs: Sequence[Number] = ()
) -> JackTotals:
    """Jacks of the whole house and the quick figures.

    Args:
        rows: the first answer for each wall and column
        ground_plan: area of the ground floor on centre lines [m2]
        usable: usable load of one jack [kN]
        allow: the allowances
        inputs: numbers of the house a plan rests on, each in its own unit; none without a plan [-]
    """
    count, by_load = total([row.count for row in rows]), total([row.by_load for row in rows])
    planned = at_issue(value_of(count) if inputs else 0.0, *inputs, like=count)
    walls = [row for row in rows if row.kind == "wall"]
    stress = ratio(total([row.lifted for row in walls]), total([row.section for row in walls]), 0)
    return JackTotals(
        usable=usable,
        first=total([row.first for row in rows]),
        planned=planned,
        count=count,
        spares=maximum(ceil(count * allow.spare_share), allow.spare_least),
        by_load=by_load,
        stress=stress,
        per_section=jacks_per_section(stress, usable),
        per_plan=ratio(count, ground_plan, 0),
    )
