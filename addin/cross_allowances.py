"""Allowances held to what the calculation can use: each has limits of its own beside its shipped value.

Covers   a shipped allowance changed to a value below its least or above its most.
Not      whether it is there (reader), in which spelling (cross_frame), two allowances against each other; rows of the
         user's own, which the calculation does not ask for.
Signs    none.
Units    those of the row.
Sources  limits of templates/data/allowances.csv: set by this project, wide enough for any house.
"""

from addin import tables
from addin.cross_house import Findings, cell_of, name_of, number_of
from addin.entries import folded
from addin.reader import Reading


def check_allowances(reading: Reading, found: Findings) -> None:
    """A step, a spacing or a unit of 0 would be divided by, and a share above 1 would make loads from nothing.

    Args:
        reading: a survey whose cells all read
        found: collects a fault for each value outside its limits
    """
    limits = {folded(row.key): row for row in tables.figures()}
    for row in reading.tables["Allowances"]:
        limit, value = limits.get(folded(name_of(row))), number_of(row, "value")
        if limit is None or value is None or limit.least <= value <= limit.most:
            continue
        unit = {"-": "", "No": ""}.get(limit.unit, f" {limit.unit}")
        found.fault(
            "ALLOWANCE-RANGE", cell_of(row, "value"), f"the allowance {limit.key}", f"{value:.10g}{unit}",
            f"it must be {limit.least:.10g} to {limit.most:.10g}{unit}",
            f"Type a value between them; as shipped it is {limit.value:.10g}{unit}.",
        )  # fmt: skip
