"""Formulas of the lift as a live sheet: written as formulas, worked out by an engine, followed through new entries."""

import io
from dataclasses import fields, is_dataclass, replace

import pytest
from openpyxl import Workbook

from addin.formulas import LONGEST, Homes, Renderer, Spot
from addin.kinds import Cell, Tracing
from calc.movement import movement_of
from calc.number import Traced, TracedText, text_of
from calc.stability import stability_checks, stability_of
from calc.strokes import lift_time, oil_plan, stroke_plan
from calc.survey import Entered
from tests.calc.test_movement import LIMITS, PAIRS, RISEN, readings
from tests.calc.test_stability import HOUSE, JACKS, RULES
from tests.calc.test_strokes import HABITS, OUTPUTS
from tests.engines import IronCalc, differences
from tests.steering import as_float, in_kind

ENTRIES, RESULTS = "Entries", "Results"


class Sheet:
    """Entries in one column of a sheet; records below each other on another, a field a column."""

    def __init__(self):
        self.book, self.homes, self.row, self.at = Workbook(), Homes(), 1, 0
        self.entries = self.book.worksheets[0]
        self.entries.title = ENTRIES
        self.results = self.book.create_sheet(RESULTS)
        self.values, self.formulas, self.placed = {}, {}, []

    def number(self, value, unit):
        """An entry in its own cell."""
        self.at += 1
        self.entries.cell(self.at, 1, value)
        return Tracing().number(value or 0.0, Cell(ENTRIES, self.at, 1), unit, unit)

    def reading(self, value):
        """A reading that may be blank, and whether it is there."""
        found = self.number(value, "m")
        return Entered(value=found, given=Tracing().given(value, Cell(ENTRIES, self.at, 1)))

    def show(self, *records):
        """Rows of records of one kind, side by side with no row between them; then those inside them."""
        for record in records:
            for column, f in enumerate(fields(record), start=1):
                value = getattr(record, f.name)
                if isinstance(value, (Traced, TracedText)):
                    spot = Spot(RESULTS, self.row, column, id(type(record)))
                    self.homes.place(value, spot)
                    self.placed.append((spot, value))
            self.row += 1
        self.row += 1
        for f in fields(records[0]):
            inner = [part for record in records for part in _records(getattr(record, f.name))]
            if inner:
                self.show(*inner)

    def written(self):
        """The bytes of the workbook, every placed number as a formula or a reference."""
        renderer = Renderer(self.homes)
        for spot, node in self.placed:
            home = self.homes.of(node)[0] == spot
            text = (renderer.formula if home else renderer.reference)(node, spot)
            self.results.cell(spot.row, spot.column).value = text
            self.formulas[RESULTS, spot.address] = text
            self.values[RESULTS, spot.address] = node.value
        out = io.BytesIO()
        self.book.save(out)
        return out.getvalue()


def _records(value):
    return [part for part in (value if isinstance(value, tuple) else (value,)) if is_dataclass(part)]


def station_sheet(risen):
    sheet = Sheet()
    plain = readings(as_float, **risen)
    live = [type(r)(name=r.name, x=sheet.number(r.x, "m"), y=sheet.number(r.y, "m"),
                    risen=sheet.reading(risen[str(r.name)])) for r in plain]  # fmt: skip
    sheet.show(movement_of(live, PAIRS, in_kind(LIMITS, sheet.number)))
    return sheet


def lift_sheet():
    sheet = Sheet()
    habits, jacks = in_kind(HABITS, sheet.number), sheet.number(25.0, "No")
    plan = stroke_plan(sheet.number(0.95, "m"), jacks, habits)
    oil = oil_plan(plan, jacks, sheet.number(0.004, "m2"), sheet.number(0.48, "m"), habits)
    rules, house = in_kind(RULES, sheet.number), in_kind(HOUSE, sheet.number)
    places, forces = ([sheet.number(getattr(jack, name), unit) for jack in JACKS]
                      for name, unit in (("at", "m"), ("force", "kN")))  # fmt: skip
    jacks_along = [replace(jack, at=at, force=force) for jack, at, force in zip(JACKS, places, forces, strict=True)]
    found = stability_of(house, jacks_along, rules)
    for record in (plan, oil, lift_time(plan, oil, jacks, sheet.number(27.0, "m3"), in_rates(sheet)), found):
        sheet.show(record)
    sheet.show(*stability_checks(found, house.usable, "a code"))
    return sheet


def in_rates(sheet):
    """Outputs as entries; their units are no matter to a sheet that converts nothing."""
    return in_kind(OUTPUTS, lambda value, _: sheet.number(value, "-"))


@pytest.mark.parametrize("make", [lambda: station_sheet(RISEN), lift_sheet], ids=["movement", "strokes and stability"])
def test_every_number_is_a_formula_that_an_engine_works_out_to_the_same(make):
    sheet = make()
    data = sheet.written()
    assert len(sheet.values) > 100
    assert differences(sheet.values, IronCalc(data).values(sheet.values)) == []
    long = {cell: text for cell, text in sheet.formulas.items() if len(text) > LONGEST}
    assert long == {}


def test_the_sheet_of_readings_follows_what_is_read_next():
    sheet = station_sheet(RISEN)
    engine = IronCalc(sheet.written())
    then = {**RISEN, "S2": 0.1, "S4": 0.1005, "S3": None, "S5": 0.107}
    for order, value in enumerate(then.values()):
        engine.enter(ENTRIES, f"A{3 * order + 3}", "" if value is None else repr(value))
    again = station_sheet(then)
    again.written()
    assert differences(again.values, engine.values(again.values)) == []
    assert again.values != sheet.values
    plain = movement_of(readings(as_float, **then), PAIRS, LIMITS)
    assert {text_of(row.verdict) for row in plain.verdicts} <= set(map(str, again.values.values()))
