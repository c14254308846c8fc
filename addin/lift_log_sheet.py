"""The sheets of the lift log: what the foreman types and is told, and the workings behind it.

Covers   Lift log (entries, verdicts, print, colours), Log stages (a column for each stage), the page Log workings.
Not      verdicts (calc.lift_log), which cell holds which entry (lift_log).
Rules    station and verdict stay in sight on a small screen, and the stages move past them; each verdict is in words,
         and shade only repeats them. Out of date with the plan: all is grey, and the hold point says STOP.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import time
from typing import Any

from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import Alignment, Font, PatternFill
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from addin.formulas import Spot
from addin.lift_log import (
    ASKED_CELL,
    FIRST_STAGE,
    FIRST_STATION,
    FOUND_ROW,
    HEAD,
    HEAD_ROW,
    HOLD_ROW,
    ITEM_ROW,
    ITEMS,
    LOG_SHEET,
    PLACE_HEADS,
    STATION,
    STATION_HEAD,
    TARGET_ROW,
    VERDICT_ROW,
    Log,
    entry_cells,
)
from addin.result_book import STALE_FORMULA, Listing, Page, ResultBook, Show, Table, show
from addin.sheets import LOG_STAGES_SHEET, LOG_WORKINGS_SHEET, WHAT
from addin.styles import COMPUTED, ENTRY, FAIL, PASS, WARN, protect, set_page
from calc.lift_log import LiftLog, LogSite, StageRow, StageTarget
from calc.number import Traced, TracedText

STAGE_WIDTH, PAGE_STAGES = 11.0, 14
"""Of a stage's column, in characters, and how many of them a printed page holds."""

_WIDTHS = {"A": 16.0, "B": 23.0, "C": 11.0, "D": 10.0, "E": 12.0}
_FIRST_BLOCK = {LOG_SHEET: 100_000, LOG_STAGES_SHEET: 200_000}
"""Number of the first block on each sheet drawn here; tables of pages count from 1."""

NO_LOG = (
    "The plan has fewer than two jacks, or more readings than this sheet is made for: keep a log of the lift by other "
    "means. What is not measured is STOP."
)
HELP = (
    "Type what each row asks for, and at each jack the mm risen since before the lift. Blank is not measured: STOP. "
    "Limits: Allowances, common practice; half the bend for weak masonry. Local codes and the engineer come first."
)
STALE_HOLD = "OUT OF DATE: STOP"
_CALLS_FOR = (("STOP", FAIL, True), ("correct", WARN, True), ("within", PASS, False))
"""A word in a verdict, the shade of its cell, and whether it stands in bold; the first that is found holds."""

_VALUES = ("load", "widening", "lean", "wind", "gap")
_FOUND = {
    "levels": ("Not read", "stations", "unread", "0", False), "mean": ("Mean rise", "mm", "mean", "0.0", True),
    "tilted": ("Tilt in 1 m", "mm", "tilt", "0.0", True),
    "bent": ("Greatest bend", "of its STOP", "share", "0.00", False),
    "stop": ("Bend, far apart", "mm", "", "", False),
}  # fmt: skip
"""Rows worked out at each stage: label, unit, field of a stage, format, whether it is shown in mm."""


_STATION_HEADS = (STATION, "Stage looked at", "Off the plane (mm)", "Bend to a neighbour (mm)", "Bend over its STOP")
# Seen above stations too, on a screen and on each printed page.
_HEADS = (HEAD, "Stage looked at", "Correct it over; off the plane", "STOP over; bend (mm)", "Unit; bend over its STOP")


@dataclass(slots=True)
class _Grid:
    """Cells of one sheet, placed first and drawn after; a block is one row of stages, or a table of many rows."""

    sheet: str
    results: ResultBook
    cells: list[tuple[Spot, Any, str, str]] = field(default_factory=list)
    blocks: int = 0

    def put(self, row: int, column: int, rows: Sequence[Sequence[Any]], style: str, number_format: str = "") -> None:
        """Place rows of nodes under each other."""
        block = _FIRST_BLOCK[self.sheet] + self.blocks
        self.blocks += 1
        self.results.homes.rows_in_block[block] = len(rows)
        for down, nodes in enumerate(rows):
            for along, node in enumerate(nodes):
                spot = Spot(self.sheet, row + down, column + along, block)
                if isinstance(node, (Traced, TracedText)):
                    self.results.homes.place(node, spot)
                self.cells.append((spot, node, style, number_format))

    def draw(self, sheet: Worksheet) -> None:
        for spot, node, style, number_format in self.cells:
            self.results.write(sheet, spot, node, style, number_format)


class LogSheets:
    """The sheets of one log: place everything before anything is drawn."""

    def __init__(
        self, results: ResultBook, log: Log, found: LiftLog, targets: Sequence[StageTarget], heading: Any
    ) -> None:
        self.results, self.log, self.found, self.heading = results, log, found, heading
        self._targets = targets
        self._front, self._behind = _Grid(LOG_SHEET, results), _Grid(LOG_STAGES_SHEET, results)
        self._titles: list[tuple[int, str, str]] = []
        """Rows of Log stages: what stands there, and its unit."""

    # ------------------------------------------------------------------------------------------ placing

    def place(self) -> None:
        """Give every node its cell. The page Log workings is placed like any other."""
        self._place_stages()
        self._place_front()

    def _place_stages(self) -> None:
        row = HEAD_ROW + 1
        for attr, meaning in LogSite.__dataclass_fields__.items():
            self._place_row(row, meaning, [getattr(self.found.site, attr)])
            if attr == "looked_at":
                self.results.name_entry(self.found.site.looked_at, "log_stage", LOG_STAGES_SHEET, f"C{row}")
            row += 1
        for attr, meaning in StageRow.__dataclass_fields__.items():
            self._place_row(row, meaning, [getattr(stage, attr) for stage in self.found.stages])
            row += 1
        for key in _VALUES:
            entered = [getattr(stage, key).value for stage in self.found.entries]
            self._behind.put(row, 3, [entered], "pb computed", "0.0000")
            item = next(item for item in ITEMS if item.key == key)
            self._titles.append((row, f"{item.label}, as entered", item.calc_unit))
            row += 1
        row += 2
        risen = [[stage.risen[at].value for stage in self.found.entries] for at in range(len(self.log.stations))]
        self._behind.put(row, 3, risen, "pb computed", "0.0000")
        self._titles += [(row - 1, "Risen, by station", "m")]
        self._titles += [(row + at, station.name, "m") for at, station in enumerate(self.log.stations)]
        row += len(risen) + 2
        self._behind.put(row, 3, self.found.shares, "pb computed", "0.000")
        self._titles += [(row - 1, "Bend of neighbours, over its stop", "")]
        names = [station.name for station in self.log.stations]
        self._titles += [(row + at, f"{names[a]} to {names[b]}", "") for at, (a, b) in enumerate(self.log.pairs)]

    def _place_row(self, row: int, meaning: Any, nodes: Sequence[Any]) -> None:
        unit = meaning.metadata.get("unit", "")
        style = "pb computed" if unit else "pb computed text"
        self._behind.put(row, 3, [nodes], style, {"No": "0", "": ""}.get(unit, "0.0000"))
        self._titles.append((row, meaning.metadata["doc"].capitalize(), "" if unit == "-" else unit))

    def _place_front(self) -> None:
        found, put, first = self.found, self._front.put, FIRST_STAGE
        # A copy: the targets live where they were worked out.
        put(TARGET_ROW, first, [[target.target * 1000 for target in self._targets]], "pb computed", "0")
        put(HOLD_ROW, 2, [[found.hold]], "pb computed text")
        put(VERDICT_ROW, 2, [[found.verdict]], "pb computed text")
        put(VERDICT_ROW, first, [[stage.verdict for stage in found.stages]], "pb computed text")
        put(HOLD_ROW, first, [[stage.hold for stage in found.stages]], "pb computed text")
        states = {row.what: row.verdict for row in found.states}
        for item in ITEMS:
            if item.key in states:
                put(ITEM_ROW[item.key], 2, [[states[item.key]]], "pb computed text")
        for key, (_, _, attr, form, in_mm) in _FOUND.items():
            if attr:
                nodes = [getattr(stage, attr) for stage in found.stages]
                put(FOUND_ROW[key], first, [[node * 1000 if in_mm else node for node in nodes]], "pb computed", form)
            if key in states:
                put(FOUND_ROW[key], 2, [[states[key]]], "pb computed text")
        self._place_limits()
        stations, verdicts = found.movement.stations, found.movement.verdicts
        put(ITEM_ROW["signed"], 2, [[found.signed]], "pb computed text")
        put(FIRST_STATION, 2, [[row.verdict] for row in verdicts], "pb computed text")
        put(FIRST_STATION, 3, [[row.residual * 1000] for row in stations], "pb computed", "0.0")
        put(FIRST_STATION, 4, [[row.bend * 1000] for row in verdicts], "pb computed", "0.0")
        put(FIRST_STATION, 5, [[row.share] for row in verdicts], "pb computed", "0.00")

    def _place_limits(self) -> None:
        limits = self.found.limits
        moves = limits.movement
        two: dict[int, tuple[Any, Any, str]] = {
            ITEM_ROW["load"]: ("", limits.load, "#,##0"), ITEM_ROW["widening"]: ("", limits.widening * 1000, "0.0"),
            ITEM_ROW["lean"]: (moves.tilt_alarm * 1000, moves.tilt_stop * 1000, "0.0"),
            ITEM_ROW["wind"]: ("", limits.wind, "0.0"), ITEM_ROW["water"]: ("rain", "water", ""),
            ITEM_ROW["gap"]: ("", limits.gap * 1000, "0.0"), ITEM_ROW["people_out"]: ("", "no", ""),
            FOUND_ROW["levels"]: ("", 0, "0"),
            FOUND_ROW["tilted"]: (moves.tilt_alarm * 1000, moves.tilt_stop * 1000, "0.0"),
            FOUND_ROW["bent"]: (limits.share, 1, "0.00"),
            FOUND_ROW["stop"]: (limits.difference_alarm * 1000, moves.difference * 1000, "0.0"),
        }  # fmt: skip
        for row, (alarm, stop, form) in two.items():
            self._front.put(row, 3, [[alarm, stop]], "pb computed", form)

    # ------------------------------------------------------------------------------------------ drawing

    def draw_log(self) -> None:
        """Draw the sheet of the day."""
        sheet, styles = _headed(self.results, LOG_SHEET, "Lift log", self.heading), self.results.styles
        last = FIRST_STAGE + len(self.log.stages) - 1
        bottom = FIRST_STATION + len(self.log.stations) - 1
        self._draw_asked(sheet)
        self._draw_labels(sheet, last)
        self._front.draw(sheet)
        for cell, key, typed in entry_cells(self.log):
            _put_entry(styles, sheet.cell(cell.row, cell.column), key, typed)
        _check_entries(sheet, self.log)
        _shade(sheet, last, bottom)
        without = f" No jacks are planned for {', '.join(self.log.without)}: not measured." if self.log.without else ""
        sheet["A2"] = HELP + without
        for row in (HEAD_ROW, HOLD_ROW, VERDICT_ROW, STATION_HEAD):
            sheet.row_dimensions[row].height = 43
        for row in range(FIRST_STATION, bottom + 1):
            sheet.cell(row, 2).alignment = Alignment(horizontal="left", vertical="center", shrink_to_fit=True)
        for letter, width in _WIDTHS.items():
            sheet.column_dimensions[letter].width = width
        for column in range(FIRST_STAGE, last + 3):
            sheet.column_dimensions[get_column_letter(column)].width = STAGE_WIDTH
        sheet.freeze_panes = f"C{HEAD_ROW + 1}"
        set_page(sheet, repeat_rows=f"1:{HEAD_ROW}")
        sheet.print_title_cols = "A:B"
        sheet.page_setup.fitToWidth = -(-len(self.log.stages) // PAGE_STAGES)
        sheet.print_area = f"A1:{get_column_letter(last)}{bottom}"
        protect(sheet)

    def _draw_asked(self, sheet: Worksheet) -> None:
        styles, results, row = self.results.styles, self.results, ASKED_CELL.row
        styles.put(sheet.cell(row, 1), "Hold point", "pb label must")
        cell: Any = styles.give(sheet.cell(row, 2), "pb total text")
        reference = results.renderer.reference(self.found.hold, Spot(LOG_SHEET, row, 2)).removeprefix("=")
        cell.value = f'=IF(plan_changed+results_changed=0,{reference},"{STALE_HOLD}")'
        results.values[LOG_SHEET, cell.coordinate] = self.found.hold.value  # type: ignore[union-attr]
        _put_entry(styles, sheet.cell(row, ASKED_CELL.column), "asked", self.log.asked)
        styles.put(sheet.cell(row, 4), "number of the stage to look at; blank: the last one with a reading. Looked at:",
                   "pb help")  # fmt: skip
        results.write(sheet, Spot(LOG_SHEET, row, FIRST_STAGE + 4), self.found.site.looked_at, "pb total", "0")
        sheet.row_dimensions[row].height = 28

    def _draw_labels(self, sheet: Worksheet, last: int) -> None:
        put = self.results.styles.put
        for row, titles in ((HEAD_ROW, _HEADS), (STATION_HEAD, _STATION_HEADS)):
            for column, text in enumerate(titles, start=1):
                put(sheet.cell(row, column), text, "pb header")
        for at, stage in enumerate(self.log.stages):
            for row in (HEAD_ROW, STATION_HEAD):
                put(sheet.cell(row, self.log.column(at)), stage, "pb header")
        for column, title in enumerate(PLACE_HEADS, start=last + 1):
            put(sheet.cell(HEAD_ROW, column), title, "pb header")
        lines = [(TARGET_ROW, "Rise", "mm"), (HOLD_ROW, "Hold point", ""), (VERDICT_ROW, "Verdict", "")]
        lines += [(ITEM_ROW[item.key], item.label, item.unit) for item in ITEMS]
        lines += [(FOUND_ROW[key], label, unit) for key, (label, unit, *_) in _FOUND.items()]
        for row, label, unit in lines:
            put(sheet.cell(row, 1), label, "pb label")
            put(sheet.cell(row, 5), unit, "pb unit")
        for at, station in enumerate(self.log.stations):
            put(sheet.cell(self.log.row(at), 1), station.name, "pb label")
            for column, value in enumerate((station.x, station.y), start=last + 1):
                put(sheet.cell(self.log.row(at), column), value, "pb computed", "0.00")

    def draw_stages(self) -> None:
        """Draw the sheet with a column for each stage."""
        sheet, put = _headed(self.results, LOG_STAGES_SHEET, "Stages of the lift log", None), self.results.styles.put
        for column, text in enumerate(("What", "Unit", *self.log.stages), start=1):
            put(sheet.cell(HEAD_ROW, column), text, "pb header")
            sheet.column_dimensions[get_column_letter(column)].width = (62.0, 8.0)[column - 1] if column < 3 else 11.0
        for row, what, unit in self._titles:
            put(sheet.cell(row, 1), what, "pb label")
            put(sheet.cell(row, 2), unit, "pb unit")
        self._behind.draw(sheet)
        for spot, _, style, _ in self._behind.cells:
            if style == "pb computed text":
                sheet.row_dimensions[spot.row].height = 43
        sheet.freeze_panes = f"C{HEAD_ROW + 1}"
        set_page(sheet, repeat_rows=f"1:{HEAD_ROW}")
        protect(sheet)

    def page(self) -> Page:
        """The page Log workings: movement of the house at the stage looked at, step by step."""
        return workings_page(self.found, self._targets)


def workings_page(found: LiftLog, targets: Sequence[StageTarget]) -> Page:
    """Movement of the house at the stage looked at, step by step; a table for each step."""
    moved, limits = found.movement, found.limits
    name = Show(attr="name", title=STATION, width=14)
    words = {attr: Show(attr=attr, width=24) for attr in ("moved", "seen", "verdict")}
    return Page(
        title=LOG_WORKINGS_SHEET, heading="Workings of the lift log", help=WHAT[LOG_WORKINGS_SHEET],
        blocks=(
            Listing(title="Stage looked at", record=found, column=4, how=False, text_span=3, shows=show(
                "worst unsigned verdict signed hold")),
            Table(title="Ground walls", records=limits.walls, how=False, shows=show(
                "name masonry mortar weak difference", name=Show(attr="name", title="Wall", width=14),
                masonry=Show(attr="masonry", width=16), mortar=Show(attr="mortar", width=16),
                difference=Show(attr="difference", format="0.0000"))),
            Listing(title="Limits", record=limits, column=4, shows=show(
                "load widening wind gap share difference_alarm",
                **{attr: Show(attr=attr, format="0.0000") for attr in ("widening", "gap", "difference_alarm")})),
            Listing(title="Limits of movement", record=limits.movement, column=4, how=False, shows=show(
                "alarm stop difference tilt_alarm tilt_stop", alarm=Show(attr="alarm", format="0.0000"),
                stop=Show(attr="stop", format="0.0000"), tilt_alarm=Show(attr="tilt_alarm", format="0.0000"),
                tilt_stop=Show(attr="tilt_stop", format="0.0000"))),
            Table(title="Stages", records=targets, shows=show(
                "name steps last rise target", name=Show(attr="name", title="Stage", width=14))),
            Table(title="Things entered or found, at the stage looked at", records=found.states, how=False,
                  verdict="verdict", shows=show("what state verdict", **words)),
            Listing(title="Plane through the readings", record=moved.plane, column=4, shows=show(
                "read x y risen sum_xx sum_xy sum_yy sum_xr sum_yr whole both_ways spread slope_x slope_y tilt known")),
            Listing(title="Tilt", record=moved.tilt, column=4, text_span=3, shows=show(
                "over_stop over_alarm seen stops verdict")),
            Listing(title="Movement", record=moved, column=4, text_span=3, shows=show("stops corrects verdict")),
            Table(title="Where stations stand", records=found.places, shows=show("name x y east north", name=name)),
            Table(title="What was read", records=moved.plane.parts, shows=show("name measured x y risen", name=name)),
            Table(title="From the middle of what was read", records=moved.plane.offs, shows=show(
                "name east north up xx xy yy xr yr", name=name)),
            Table(title="Off the plane", records=moved.stations, shows=show(
                "name measured risen plane residual", name=name,
                residual=Show(attr="residual", format="0.0000"))),
            Table(title="Neighbours", records=moved.pairs, shows=show(
                "one other measured east north distance difference off bend distortion alarm stop share corrects stops",
                one=Show(attr="one", width=14), **{attr: Show(attr=attr, format="0.0000") for attr in
                                                   ("difference", "off", "bend", "distortion", "alarm", "stop")})),
            Table(title="Stations and their neighbours", records=moved.verdicts, verdict="verdict", shows=show(
                "name bend distortion share unread over_stop over_alarm moved seen stops verdict", name=name, **words,
                bend=Show(attr="bend", format="0.0000"), distortion=Show(attr="distortion", format="0.0000"))),
        ),
    )  # fmt: skip


def draw_no_log(results: ResultBook, title: str, heading: Any) -> None:
    """Draw a sheet that says why there is no log."""
    sheet = _headed(results, title, title, heading)
    results.styles.put(sheet["A6"], NO_LOG, "pb help")
    set_page(sheet)
    protect(sheet)


def _headed(results: ResultBook, title: str, heading: str, warning: Any) -> Worksheet:
    sheet: Worksheet = results.book.create_sheet(title)
    results.styles.put(sheet["A1"], heading, "pb title")
    results.styles.put(sheet["A2"], WHAT[title], "pb help")
    if warning is not None:
        results.write(sheet, Spot(title, 3, 1), warning, "pb warning")
    results.styles.give(sheet["A4"], "pb warning")
    sheet["A4"] = STALE_FORMULA
    results.values[title, "A4"] = ""
    return sheet


_STYLE = {"day": "pb entry date", "hour": "pb entry text", "water": "pb entry wrapped", "people_out": "pb entry text",
          "signed": "pb entry wrapped"}  # fmt: skip


def _put_entry(styles: Any, cell: Any, key: str, typed: object) -> None:
    """An open cell with what was typed into it, whatever that was."""
    if isinstance(typed, time):
        typed = typed.isoformat("minutes")
    number_format = {"asked": "0", "risen": "0.0"}.get(key, "")
    styles.put(cell, typed, _STYLE.get(key, "pb entry"), number_format)


def _check_entries(sheet: Worksheet, log: Log) -> None:
    """What a cell takes when it is typed into; what is pasted is judged by the formulas."""
    first, last = (get_column_letter(log.column(at)) for at in (0, len(log.stages) - 1))
    bottom = log.row(len(log.stations) - 1)

    def check(area: str, text: str, **rule: Any) -> None:
        asked = DataValidation(allow_blank=True, showErrorMessage=True, error=text, errorTitle="Lift log", **rule)
        asked.add(area)
        sheet.add_data_validation(asked)

    for item in ITEMS:
        area = f"{first}{ITEM_ROW[item.key]}:{last}{ITEM_ROW[item.key]}"
        if item.choices:
            check(area, f"One of: {', '.join(item.choices)}.", type="list", formula1=f'"{",".join(item.choices)}"')
        elif item.unit:
            check(area, f"A plain number in {item.unit}, 0 or more.", type="decimal", operator="greaterThanOrEqual",
                  formula1="0")  # fmt: skip
        elif item.key == "day":
            check(area, "A date.", type="date", operator="greaterThan", formula1="1")
    check(f"{first}{FIRST_STATION}:{last}{bottom}", "Millimetres risen since before the lift, a plain number.",
          type="decimal", operator="between", formula1="-1000", formula2="20000")  # fmt: skip
    asked = f"{get_column_letter(ASKED_CELL.column)}{ASKED_CELL.row}"
    check(asked, f"A stage from 1 to {len(log.stages)}, or nothing.", type="whole", operator="between", formula1="1",
          formula2=str(len(log.stages)))  # fmt: skip


def _shade(sheet: Worksheet, last: int, bottom: int) -> None:
    """Grey when out of date; verdicts told apart by shade and weight; the stage looked at by its heading."""
    rules: Any = sheet.conditional_formatting
    first_letter, letter = get_column_letter(FIRST_STAGE), get_column_letter(last)

    def rule(area: str, formula: str, colour: str, font: Font, *, stop: bool = True) -> None:
        fill = PatternFill(bgColor=colour, fill_type="solid")
        rules.add(area, FormulaRule(formula=[formula], fill=fill, font=font, stopIfTrue=stop))  # type: ignore[no-untyped-call]

    rule(f"A{HEAD_ROW}:{letter}{bottom}", "plan_changed+results_changed>0", "E4E4E4", Font(color="A0A0A0", strike=True))
    for area in (f"B{ASKED_CELL.row}", f"B{HOLD_ROW}:B{bottom}", f"{first_letter}{HOLD_ROW}:{letter}{VERDICT_ROW}"):
        corner = area.partition(":")[0]
        for word, colour, bold in _CALLS_FOR:
            rule(area, f'ISNUMBER(SEARCH("{word}",{corner}))', colour, Font(bold=bold))
    # Of what was not read to the last station, a figure would say more than is known.
    unread = f"{first_letter}${FOUND_ROW['levels']}>0"
    rule(f"{first_letter}{FOUND_ROW['mean']}:{letter}{FOUND_ROW['bent']}", unread, COMPUTED, Font(color=COMPUTED))
    looked_at = f"COLUMN()-COLUMN(${first_letter}$1)+1=log_stage"
    for row in (HEAD_ROW, STATION_HEAD):
        rule(f"{first_letter}{row}:{letter}{row}", looked_at, "8FA3B5", Font(bold=True))
    rule(f"{first_letter}{ITEM_ROW['day']}:{letter}{bottom}", looked_at, ENTRY, Font(bold=True), stop=False)
