"""The result as data: the same figures as the workbook, under keys that end in their unit.

Not      rounding: figures are as computed; the bill's amounts are rounded as the bill is.
"""

from collections.abc import Sequence
from datetime import date
from typing import Any

from addin.estimating import Worked
from addin.kinds import Floats
from addin.last_issue import Changes
from addin.lift_log import worked_log
from addin.lifting_json import lifting_data
from addin.problems import Problem
from addin.surveying import build_allowances
from calc.jack_plan_rows import JackPlan
from calc.number import text_of
from calc.settlement_rows import Settlement


def result(worked: Worked) -> dict[str, Any]:
    """Every result of a survey that was worked through."""
    found, rows, survey = worked.found, worked.rows, worked.survey
    house, jacks, totals = found.taken.house, found.jack_totals, found.totals
    job = rows.job
    released = text_of(found.release.grade)
    return {
        "job": {
            "name": job.get("job_name"), "client": job.get("client", ""), "place": job.get("place", ""),
            "reason": job.get("reason"), "construction": job.get("construction", "brick walls"),
            "storeys": len(worked.prepared.plan.storeys), "floor_area_m2": house.floor_area,
            "date": _iso(job.get("survey_date")),
        },
        "levels": {
            "existing_plinth_m": found.levels.plinth, "needed_plinth_m": found.levels.needed,
            "rise_m": found.levels.rise, "least_rise_m": found.levels.least_rise,
            "governed_by": text_of(found.levels.governed_by),
        },
        "loads": {
            "dead_kN": house.dead, "imposed_kN": house.imposed, "total_kN": house.service, "lifted_kN": house.lifted,
            "stays_kN": house.stays, "centre_m": [house.x, house.y], "centre_height_m": house.z,
            "balance_error": house.balance, "walls": _walls(worked), "columns": {
                base.name: {"total_kN": base.service, "lifted_kN": base.lifted}
                for base in found.taken.bases if base.kind == "column"
            },
        },
        "jacks": {
            "rating_kN": survey.job.jack_rating, "share": survey.job.share, "usable_kN": jacks.usable,
            "count": int(_float(jacks.count)), "least_count": int(_float(jacks.by_load)),
            "per_m2_wall_section": jacks.per_section, "per_m2_plan": jacks.per_plan,
            "spares": int(_float(jacks.spares)),
            **_circuits(worked.prepared.jacks),
            **{f"{kind}s": {
                row.name: {
                    **_placed(worked, text_of(row.name)),
                    "count": int(_float(row.count)), "by_load": int(_float(row.by_load)),
                    "by_spacing": int(_float(row.by_spacing)), "by_load_and_spacing": int(_float(row.first)),
                    "governed_by": text_of(row.governed_by),
                    "spacing_m": row.spacing, "mean_kN": row.mean,
                }
                for row in found.jacks if row.kind == kind
            } for kind in ("wall", "column")},
        },
        "bases": {f"{kind}s": {
            pad.name: {"side_m": pad.side, "thickness_m": pad.thickness, "pressure_kPa": pad.pressure}
            for pad in found.pads if pad.kind == kind
        } for kind in ("wall", "column")},
        "ground": {
            "allowable_kPa": survey.job.bearing.value, "allowable_known": bool(survey.job.bearing.given),
            "walls": {
                row.name: {"before_kPa": row.before, "trenched_kPa": row.trenched, "during_kPa": row.during,
                           "after_kPa": row.after}
                for row in found.pressures
            },
            "columns": {
                row.name: {"before_kPa": row.before, "trenched_kPa": row.trenched, "after_kPa": row.after}
                for row in found.column_pressures
            },
        },
        "lifting": lifting_data(found.lifting),
        "levelling": _levelling(found.settlement),
        "release": {
            "grade": released,
            "missing": [r.what for r in found.release.requirements if text_of(r.answer) == "missing"],
        },
        "quantities": [
            {
                "code": item.code, "description": item.description, "stage": item.stage, "unit": item.unit,
                "quantity": item.quantity,
                "lines": [
                    {"what": line.what, "number": line.number, "length": line.length, "breadth": line.breadth,
                     "depth": line.depth, "quantity": line.quantity}
                    for line in found.lines if line.code == item.code
                ],
            }
            for item in found.items
        ],
        "bill": {
            "currency": job.get("currency", "money"),
            "items": [
                {"code": item.code, "quantity": item.quantity, "unit": item.unit, "rate": item.rate,
                 "amount": item.amount}
                for item in found.bill
            ],
            "works": totals.works, "overheads": totals.overheads, "profit": totals.profit,
            "contingency": totals.contingency, "tax": totals.tax, "total": totals.total,
            "per_m2_floor": totals.per_floor_area,
        },
        "checks": [
            {"name": c.name, "state": c.state, "where": text_of(c.where), "demand": c.demand, "capacity": c.capacity,
             "unit": c.unit, "utilisation": c.utilisation, "verdict": text_of(c.verdict), "source": c.source}
            for c in found.checks
        ],
        "lift_log": _lift_log(worked),
        "faults": [],
        "warnings": problems(worked.warnings),
        "holds": problems(worked.holds),
    }  # fmt: skip


def _placed(worked: Worked, name: str) -> dict[str, Any]:
    """What the jack plan says of one wall or column; why there is no layout, where there is none."""
    plan, found = worked.prepared.jacks, worked.found.planned
    member = next((m for m in plan.members if m.name == name), None) if plan else None
    if plan is None or found is None or member is None:
        return {}
    if not member.states:
        return {"positions_m": [], "reactions_kN": [], "no_layout": member.why_not, "would_help": list(member.helps)}
    jacks = plan.jacks_of(name)
    uses = [_float(row.use) for row in found.beams if text_of(row.name) == name]
    worst = {state.state: state.jack for state in member.states}
    return {
        "jacks": [jack.name for jack in jacks], "positions_m": [jack.at for jack in jacks],
        "across_m": [jack.across for jack in jacks], "x_m": [jack.x for jack in jacks],
        "y_m": [jack.y for jack in jacks], "reactions_kN": [jack.soft for jack in jacks],
        "reactions_stiff_kN": [jack.stiff for jack in jacks], "worst_one_lost_kN": worst["one lost"],
        "worst_uneven_kN": worst["uneven"], "worst_reseating_kN": worst["re-seating"],
        "worst_transfer_kN": worst["transfer back"], "system": member.system, "system_chosen": member.chosen,
        "beam": member.section, "beams": member.side_by_side, "beam_utilisation": max(uses, default=0.0),
        "least_found": member.least, "lower_bound": member.lower_bound, "proven_least": member.proven,
        "remarks": list(member.helps),
    }  # fmt: skip


def _circuits(plan: JackPlan | None) -> dict[str, Any]:
    """Circuits of the plan, and why there are none."""
    if plan is None:
        return {}
    steering = plan.steering
    return {
        "bases_poured_as_one": [
            {"jacks": list(base.jacks), "area_m2": base.area, "mean_pressure_kPa": base.pressure,
             "mean_pressure_one_lost_kPa": base.passing} for base in plan.merged
        ],
        "circuits": [
            {"name": c.name, "jacks": list(c.jacks), "force_kN": c.force, "pressure_kPa": c.pressure,
             "deviation": c.deviation, "others_hold_when_lost": lost.stands,
             "on_one_jack_when_lost_kN": lost.on_one_jack, "held_by_packing_when_lost": list(lost.bare)}
            for c, lost in zip(steering.circuits, steering.lost, strict=True)
        ] if steering else [],
        "circuits_margin_m": steering.margin if steering else 0.0, "circuits_why_not": plan.steering_why,
        "single_jacks": [jack.name for jack in plan.jacks if not jack.circuit],
    }  # fmt: skip


def _walls(worked: Worked) -> dict[str, Any]:
    found = worked.found
    greatest = {row.name: row.greatest for row in found.greatest}
    return {
        base.name: {
            "length_m": base.length, "dead_kN": base.dead, "imposed_kN": base.imposed, "total_kN": base.service,
            "lifted_kN": base.lifted, "mean_kN_per_m": base.line_lifted, "greatest_kN_per_m": greatest[base.name],
        }
        for base in found.taken.bases
        if base.kind == "wall"
    }  # fmt: skip


def _levelling(found: Settlement) -> dict[str, Any]:
    """A settled house; only its stations where three of them out of one line were not read."""
    stations = {str(s.name): {"x_m": s.x, "y_m": s.y, "level_m": s.level} for s in found.stations}
    if not found.known:
        return {"known": False, "stations": stations}
    house, planes = found.house[0], found.planes[0]
    for lift in found.lifts:
        stations[str(lift.name)] |= {"target_m": lift.target, "lift_m": lift.lift}
    return {
        "known": True, "settled": bool(house.settled), "course": house.course, "spread_m": house.spread,
        "tilt": house.tilt, "tilt_verdict": text_of(house.tilt_verdict), "greatest_distortion": house.distortion,
        "stations": stations, "total_lift_m": house.total, "greatest_lift_m": house.greatest,
        "target": {"height_m": planes.height, "slope_x": planes.slope_x, "slope_y": planes.slope_y},
        "common_rise_m": house.rise, "stop_difference_m": house.difference, "call_m": house.call,
        "neighbours": [
            {"one": str(p.one), "other": str(p.other), "line": p.line, "distance_m": p.distance,
             "difference_m": p.difference, "bend_m": p.bend, "distortion": p.distortion,
             "verdict": text_of(p.verdict)}
            for p in found.pairs
        ],
        "calls": int(_float(found.counts[0].calls)) if found.counts else 0,
        "strokes": [
            {"call": s.call, "station": s.name, "stroke_m": s.stroke, "lifted_m": s.lifted} for s in found.strokes
        ],
        "why_no_strokes": found.why_not,
    }  # fmt: skip


def _lift_log(worked: Worked) -> dict[str, Any]:
    """The stations and stages of the log, and what has been entered so far comes to."""
    log = worked.log
    if not log.drawn:
        return {"stations": [], "stages": [], "without_stations": list(log.without)}
    found = worked_log(log, worked.survey, worked.found, build_allowances(worked.rows, Floats()), Floats())
    names = [station.name for station in log.stations]
    return {
        "stations": [
            {"name": station.name, "member": station.member, "x_m": station.x, "y_m": station.y, "neighbours":
                [names[b if a == at else a] for a, b in log.pairs if at in (a, b)], "verdict": text_of(row.verdict)}
            for at, (station, row) in enumerate(zip(log.stations, found.movement.verdicts, strict=True))
        ],
        "stages": [
            {"name": name, "read": int(_float(row.read)), "unread": int(_float(row.unread)),
             # Of what was not read to the last station, a figure would say more than is known.
             **{key: None if _float(row.unread) > 0 else value for key, value in
                (("mean_rise_m", row.mean), ("tilt", row.tilt), ("greatest_bend_over_stop", row.share))},
             "verdict": text_of(row.verdict), "hold": text_of(row.hold)}
            for name, row in zip(log.stages, found.stages, strict=True)
        ],
        "looked_at": int(_float(found.site.looked_at)), "entries": len(log.typed),
        "without_stations": list(log.without),
        "verdict": text_of(found.verdict), "hold": text_of(found.hold),
    }  # fmt: skip


def changes_data(changes: Changes) -> dict[str, Any]:
    """What has changed in the bill since the last issue, as data."""
    return {
        "works_difference": changes.difference,
        "items": [
            {"code": row.code, "description": row.description, "unit": row.unit, "quantity_then": row.quantity_then,
             "quantity": row.quantity, "rate_then": row.rate_then, "rate": row.rate, "amount_then": row.amount_then,
             "amount": row.amount, "difference": row.difference}
            for row in changes.items
        ],
    }  # fmt: skip


def problems(found: Sequence[Problem]) -> list[dict[str, Any]]:
    """Faults or warnings as data."""
    return [
        {"sheet": p.where.sheet, "cell": p.where.cell, "code": p.code, "found": p.found, "message": str(p)}
        for p in found
    ]


def _float(number: Any) -> float:
    return float(number)


def _iso(day: object) -> str:
    return day.isoformat() if isinstance(day, date) else ""
