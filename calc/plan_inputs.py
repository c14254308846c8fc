"""The numbers a jack plan rests on, kept beside it so that a workbook can say when one of them has changed.

Covers   numbers of the whole house and of each wall and column.
Not      names, points and choices, which the workbook guards by their text.
Units    as in the records they come from.
Sources  none of its own.
"""

from collections.abc import Mapping, Sequence

from calc.allowances import Allowances
from calc.member_rules import MemberRules
from calc.number import Number, maximum, text_of
from calc.survey import Survey
from calc.take_down_rows import BaseRow


def house_inputs(survey: Survey, rise: Number, allow: Allowances, rules: MemberRules) -> tuple[Number, ...]:
    """Numbers of the whole house that a plan rests on.

    Args:
        survey: the entries
        rise: of the house [m]
        allow: the allowances
        rules: figures of the codes
    """
    job = survey.job
    named = (
        "end_distance", "end_near", "reach_beyond", "tight_clear", "door_clear", "jamb_reach", "door_extra",
        "widest_weak", "movement_difference", "even_within", "placing_step", "weight_doubt", "uneven", "soil_temporary",
        "subgrade_soft", "subgrade_stiff", "packing_side", "packing_least", "jack_piston", "masonry_modulus",
        "plinth_beam_modulus", "side_distance", "pair_gap", "beams_filled", "filling_weight",
        "base_step", "base_clear", "circuit_least", "circuit_edge",
        "circuit_light", "transfer_passes", "carrier_beams_side_by_side",
    )  # fmt: skip
    steel = rules.steel
    return (
        job.jack_rating, job.share, job.stroke, job.widest_spacing, job.closest_spacing, job.bearing.value,
        maximum(rise, allow.rise_unbraced), *(getattr(allow, name) for name in named),
        steel.yield_stress, steel.elastic_modulus, steel.load_factor, steel.accidental_factor, steel.deflection_most,
        rules.packing.reseat_interval,
    )  # fmt: skip


def member_inputs(survey: Survey, bases: Sequence[BaseRow]) -> Mapping[str, tuple[Number, ...]]:
    """Numbers of each wall and column that its jacks rest on: load, length, thickness, openings.

    Args:
        survey: the entries
        bases: ground walls and columns at the cut level
    """
    found: dict[str, list[Number]] = {text_of(base.name): [base.lifted, base.length] for base in bases}
    for wall in survey.walls:
        found.get(text_of(wall.name), []).extend((wall.thickness, wall.height))
    for column in survey.columns:
        found.get(text_of(column.name), []).extend((column.breadth, column.depth))
    for opening in survey.openings:
        found.get(text_of(opening.wall), []).extend((opening.from_start, opening.width))
    return {name: tuple(numbers) for name, numbers in found.items()}
