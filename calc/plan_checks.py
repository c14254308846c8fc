"""Checks of a jack plan: layouts, room between jacks, and the worst state of jacks, beams, masonry and collars.

Covers   one check for each member and kind of member; the rows behind them show every state.
Not      the rows themselves (planned), counts of jacks (checks).
Signs    demand and capacity are both positive.
Units    in each row.
Sources  beside each check.
"""

from collections.abc import Iterable, Sequence

from calc.allowances import Allowances
from calc.carrier_rows import BEAM_CLAUSES, BeamStateRow
from calc.checks import CORRECT, PRACTICE, CheckRow, check
from calc.jack_state_rows import JACK_CLAUSES, JackStateRow
from calc.lift_works import CollarRow, MasonryRow, NeedleRow, PlinthBeamRow
from calc.number import Name, Number, fixed, maximum, text_of
from calc.packing import Timber
from calc.planned import PlanRows
from calc.survey import Job


def plan_checks(planned: PlanRows, job: Job, timber: Timber, allow: Allowances) -> Iterable[CheckRow]:
    """Every check of a jack plan.

    Args:
        planned: its rows
        job: the Job entries
        timber: of the packing, at its softest
        allow: the allowances
    """
    yield from _without_layout(planned, job.closest_spacing)
    yield from _apart(planned, job, allow)
    yield from _held_by_walls_met(planned)
    yield from _poured_as_one(planned)
    yield from _used(planned, JACK_CLAUSES.format(f"{timber.source} ({timber.read})"))
    yield from _one_each("Masonry cut, carried and let down", "pockets to transfer", planned.masonry)
    for row in planned.masonry:
        yield check(name="Closing of new masonry at transfer", state="transfer back", where_=row.name,
                    demand=planned.masonry_limits.closing, capacity=row.closing_most, unit="m", fails=CORRECT,
                    source="common practice, no source: let down in more passes, or pump up again")  # fmt: skip
    yield from _one_each("Needles", "on all jacks", planned.needles)
    yield from _one_each("Collar or clamp", "on all jacks", planned.collars)
    yield from _one_each("Old plinth beam on jacks", "on all jacks", planned.plinth_beams)
    yield from _steered(planned, allow)


def _without_layout(planned: PlanRows, like: Number) -> Iterable[CheckRow]:
    """A wall for which no layout was found is no wall that may be lifted."""
    for member in planned.plan.members:
        none = fixed(0.0 if member.states else 1.0, like)
        yield check(name="Without a layout of jacks", state="on all jacks", where_=Name(member.name), demand=none,
                    capacity=none * 0, unit="No",
                    source=member.why_not or "rules of placing, on Allowances")  # fmt: skip


def _apart(planned: PlanRows, job: Job, allow: Allowances) -> Iterable[CheckRow]:
    """Jacks of two walls near their meeting: nearer than usual is looked at, packs in each other's way stop."""
    for one, other, apart in planned.plan.close:
        there, where_ = fixed(apart, job.closest_spacing, job.closest_spacing), Name(f"{one}, {other}")
        yield check(name="Room between jacks of two walls", state="on all jacks", where_=where_,
                    demand=job.closest_spacing, capacity=there, unit="m", fails=CORRECT,
                    source="closest spacing on Job")  # fmt: skip
        yield check(name="Packing of one jack beside that of another", state="on all jacks", where_=where_,
                    demand=allow.packing_side, capacity=there, unit="m", source="geometry")  # fmt: skip


def _held_by_walls_met(planned: PlanRows) -> Iterable[CheckRow]:
    """Walls whose ends another wall holds up when a jack is lost: that wall's jacks are not worked out for it."""
    most = planned.limits.usable
    for name, falls in planned.plan.hanging:
        load = fixed(falls, most, most)
        yield check(name="Load left to the wall it meets when a jack is lost, not designed", state="one lost",
                    where_=Name(name), demand=load, capacity=load * 0, unit="kN", fails=CORRECT,
                    source="statics; packs kept tight beside its jacks, and the engineer")  # fmt: skip


def _poured_as_one(planned: PlanRows) -> Iterable[CheckRow]:
    """Bases of different jack lines that claim the same ground."""
    limits = planned.limits
    for base in planned.plan.merged:
        for state, load, most in (
            ("on all jacks, uneven", base.pressure, limits.pressure),
            ("one lost", base.passing, limits.passing),
        ):
            yield check(name="Bases that run into one another, poured as one", state=state,
                        where_=Name(base.label), demand=fixed(load, most, most), capacity=most, unit="kN/m2",
                        source="mean under all of it; bearing pressure on Job, times soil_temporary when passing; "
                        "edges and bending: engineer")  # fmt: skip


def _used(planned: PlanRows, jack_source: str) -> Iterable[CheckRow]:
    groups: tuple[tuple[str, Sequence[JackStateRow] | Sequence[BeamStateRow], str], ...] = (
        ("Jack, packing and ground, worst state", planned.states, jack_source),
        ("Carrier beam, worst state", planned.beams, BEAM_CLAUSES),
    )
    for name, rows, source in groups:
        for member in dict.fromkeys(text_of(row.name) for row in rows):
            use = maximum(*(row.use for row in rows if text_of(row.name) == member))
            yield check(name=name, state="all states on jacks", where_=Name(member), demand=use,
                        capacity=fixed(1, use), unit="-", source=source)  # fmt: skip


def _one_each(
    name: str, state: str, rows: Sequence[MasonryRow] | Sequence[NeedleRow] | Sequence[CollarRow] |
    Sequence[PlinthBeamRow],
) -> Iterable[CheckRow]:  # fmt: skip
    for row in rows:
        yield check(name=name, state=state, where_=row.name, demand=row.use, capacity=fixed(1, row.use), unit="-",
                    source="Allowances, each with its source")  # fmt: skip


def _steered(planned: PlanRows, allow: Allowances) -> Iterable[CheckRow]:
    if planned.plan.steering is None:
        return
    most = max(circuit.deviation for circuit in planned.plan.steering.circuits)
    off = fixed(most, allow.circuit_off, allow.circuit_off)
    yield check(name="Force of a jack on a circuit off what it draws", state="on all jacks", where_="house", demand=off,
                capacity=allow.circuit_off, unit="-", fails=CORRECT, source=PRACTICE)  # fmt: skip
