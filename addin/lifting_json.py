"""The lift as data: the same figures as the sheets of the lift, under keys that end in their unit.

Not      rounding: figures are as computed.
"""

from typing import Any

from calc.lifting_rows import Direction, Lifting
from calc.number import text_of


def lifting_data(lifting: Lifting) -> dict[str, Any]:
    """The lift of the whole house."""
    plan, oil, time, limits, wind = lifting.plan, lifting.oil, lifting.time, lifting.limits, lifting.wind
    return {
        "verdict": text_of(lifting.verdict), "stops": _count(lifting.stops), "rise_m": plan.rise,
        "jacks": _count(lifting.jacks), "predicted_kN": lifting.predicted, "mean_jack_kN": lifting.mean,
        "most_loaded_jack_kN": lifting.most, "stop_total_kN": lifting.stop_house,
        "stop_most_loaded_jack_kN": lifting.stop_jack, "breakaway_m": lifting.breakaway,
        "preload": [
            {"hold": str(row.hold), "share": row.share, "total_kN": row.house, "mean_jack_kN": row.jack,
             "oil_kPa": row.pressure}
            for row in lifting.preload
        ],
        "strokes": {
            "net_m": plan.net, "count": _count(plan.cycles), "last_m": plan.last,
            "packing_courses": _count(plan.courses), "shims_m": plan.shims, "follow_ups": _count(plan.follow_ups),
            "masonry_stages": _count(plan.stages), "calls": _count(plan.calls), "call_m": plan.call,
            "reseatings": _count(plan.reseatings), "release_passes": _count(lifting.passes),
        },
        "oil": {"pumped_m3": oil.volume, "tank_m3": oil.tank, "pumping_d": oil.pumping},
        "days": {"set_up_d": time.set_up, "calls_d": time.lifting, "reseating_d": time.reseating,
                 "masonry_d": time.masonry, "holds_d": time.holds, "whole_d": time.whole},
        "follow_up_masonry_m3": lifting.masonry,
        "movement": {
            "difference_m": limits.difference, "stop_at_widest_spacing_m": limits.stop,
            "alarm_at_widest_spacing_m": limits.alarm, "call_m": limits.call, "instrument_error_m": limits.error,
            "instrument_hides_m": limits.blind,
            "table": [{"what": str(row.what), "alarm": row.alarm, "stop": row.stop, "unit": row.unit}
                      for row in limits.table],
        },
        "wind": {
            "known": bool(_count(wind.known)), "basic_m_per_s": wind.basic, "terrain": text_of(wind.terrain),
            "looked_at_m_per_s": wind.checked, "pressure_kPa": wind.pressure, "working_m_per_s": lifting.working,
        },
        "stability": {row.direction: _direction(row) for row in lifting.directions},
        "high_lift": {
            "braced": bool(_count(lifting.high.high)), "storey_below": bool(_count(lifting.high.below)),
            "designed_by_engineer": bool(_count(lifting.high.designed)),
        },
        "stations": [
            {"name": str(row.name), "under": str(row.member), "x_m": row.x, "y_m": row.y, "predicted_kN": row.force,
             "stop_kN": row.stop, "release_pass": _count(row.release)}
            for row in lifting.loads
        ],
        "hold_points": [
            {"hold": str(row.point), "at_or_each_m": row.every, "times": _count(row.times), "look": row.look,
             "signed_by": row.leave}
            for row in lifting.holds
        ],
        "ties": [row.what for row in lifting.ties],
    }  # fmt: skip


def _direction(row: Direction) -> dict[str, Any]:
    found = row.stability
    return {
        "face_m2": row.area, "wind_kN": row.wind, "notional_kN": found.pushed.notional, "push_with_factor_kN": row.push,
        "overturning_kNm": found.overturning, "righting_kNm": found.righting, "resultant_m": found.resultant,
        "middle_m": found.middle, "friction_kN": row.grip, "greatest_jack_kN": found.most, "least_jack_kN": found.least,
        "bracing_needed_kN": row.bracing, "bracing_designed_kN": row.designed, "working_wind_m_per_s": row.working,
    }  # fmt: skip


def _count(number: Any) -> int:
    return int(number)
