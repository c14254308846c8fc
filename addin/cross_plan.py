"""Who carries whom: storeys without anything under them, slabs, beams and upper walls without support.

Covers   the troubles of calc.plan put to their cells, spans that cannot be shared out, walls that stay or are taken
         down and still carry, walls that stand on a slab, walls eaten up by their junctions.
Not      any load.
Signs    none.
Units    m.
Sources  conventions of calc.plan and calc.sharing.
"""

from collections import defaultdict
from collections.abc import Iterator

from addin.cross_house import Findings, House, cell_of, metres, name_of, storey_of
from addin.entries import shown
from addin.kinds import Floats
from addin.reader import Row
from addin.surveying import build_survey
from calc.number import text_of, value_of
from calc.outlines import OutlineError
from calc.plan import plan_of
from calc.plan_rows import Panel, Plan, Trouble
from calc.plan_slabs import bearing_edges
from calc.sharing import panel_shares, piece_points
from calc.survey import Survey

_MEMBERS = {"Walls": "wall", "Beams": "beam", "Columns": "column"}


def check_storeys(house: House, found: Findings) -> None:
    """Every storey that is named has walls or columns, and so has the one below it."""
    standing = {storey_of(row) for title in ("Walls", "Columns") for row in house.table(title)}
    told: set[int] = set()
    for title in ("Walls", "Columns", "Beams", "Rooms"):
        for row in house.table(title):
            storey = storey_of(row)
            missing = next((s for s in (storey, storey - 1) if s > 0 and s not in standing), None)
            if missing is None or missing in told:
                continue
            told.add(missing)
            below = "below it" if missing < storey else "on it"
            found.fault("STOREY-GAP", cell_of(row, "storey"), f"the storey of {name_of(row)}", str(storey),
                        f"there is neither a wall nor a column {below}",
                        f"Add the walls or columns of storey {missing}, or correct the storey.")  # fmt: skip


def check_plan(house: House, found: Findings) -> None:
    """Everything about who carries whom. Only where names, grid, rooms, members and storeys are sound."""
    survey = build_survey(house.rows, Floats(), house.allowances)
    plan = plan_of(survey)
    _translate(house, plan, found)
    _check_spans(house, plan, survey, found)
    _check_on_slab(house, plan, found)
    _check_short(house, plan, survey, found)
    _check_left_behind(house, plan, found)


def _row(house: House, title: str, name: str) -> Row:
    return next(row for row in house.table(title) if name_of(row) == name)


def _member_row(house: House, name: str) -> tuple[str, Row]:
    """The row of a wall, beam or column, and which of them it is."""
    return next((what, row) for title, what in _MEMBERS.items() for row in house.table(title) if name_of(row) == name)


# ---------------------------------------------------------------------------------------------- troubles


def _translate(house: House, plan: Plan, found: Findings) -> None:
    for trouble in dict.fromkeys(plan.troubles):
        if trouble.code in ("FREE-EDGE", "NO-SUPPORT"):
            _slab_trouble(house, trouble, found)
        elif trouble.code == "HANGS":
            what, row = _member_row(house, trouble.member)
            found.fault("HANGS", cell_of(row, "name"), f"{what} {trouble.member}", f"in the air: {trouble.found}",
                        "what stands on an upper storey needs a wall, beam or slab under it",
                        "Add what carries it, or correct its points or its storey.")  # fmt: skip
        else:
            _beam_trouble(house, trouble, found)


def _slab_trouble(house: House, trouble: Trouble, found: Findings) -> None:
    row = _row(house, "Rooms", trouble.member)
    floor = row["floor"].value == "suspended" and storey_of(row) == 1
    what = f"the slab, roof or floor of {trouble.member}" if floor else f"the slab or roof over {trouble.member}"
    plinth = " Under a suspended floor a plinth beam counts." if floor else ""
    if trouble.code == "NO-SUPPORT":
        found.fault("NO-SUPPORT", cell_of(row, "span"), what, "without any support",
                    "no wall and no beam runs along any of its sides",
                    f"Enter the walls or beams that carry it, or say none under Above.{plinth}")  # fmt: skip
        return
    start, end = trouble.where
    found.fault("FREE-EDGE", cell_of(row, "span"), what, f"free from {start} to {end}",
                "a side with neither wall nor beam has to be meant so",
                f"Put a wall or beam there, or choose 'auto, free edges' or a span.{plinth}")  # fmt: skip


_BEAM_RULES = {
    "NO-BEARING": ("without any bearing", "no wall, column or beam of its storey lies under it",
                   "Check its points and its storey, or add the column or wall it bears on."),
    "ONE-BEARING": ("on one bearing only", "on one bearing it tips",
                    "Add the column or wall at its other end, or correct its points."),
    "BEAM-RING": ("carried by a beam that it carries itself", "one of them must bear on something else",
                  "Correct Bears on, or the points, of one of them."),
}  # fmt: skip


def _beam_trouble(house: House, trouble: Trouble, found: Findings) -> None:
    row = _row(house, "Beams", trouble.member)
    where = cell_of(row, "bears_on" if row["bears_on"].value else "name")
    if trouble.code == "BEARS-NOT":
        found.fault("BEARS-NOT", where, f"beam {trouble.member}", trouble.found,
                    "a bearing lies under the beam and on its storey",
                    "Correct Bears on, or the points of the beam or its bearing.")  # fmt: skip
        return
    told, rule, fix = _BEAM_RULES[trouble.code]
    found.fault(trouble.code, where, f"beam {trouble.member}", told, rule, fix)


# ---------------------------------------------------------------------------------------------- what the plan shows


def _check_spans(house: House, plan: Plan, survey: Survey, found: Findings) -> None:
    """Slabs whose load finds no side to go to."""
    for panel in plan.panels:
        if panel.kind == "none" or panel.closed or not any(piece.carrier for piece in panel.pieces):
            continue
        try:
            panel_shares(panel, piece_points(survey, panel))
        except OutlineError as refused:
            where = cell_of(_row(house, "Rooms", panel.room), "span")
            what = "of the floor of" if panel.kind == "floor" else "over"
            found.fault("ROOM-SPAN", where, f"the span {what} {panel.room}", shown(panel.span), str(refused),
                        "Choose the other span, or put a wall or beam on one of those sides.")  # fmt: skip


def _check_on_slab(house: House, plan: Plan, found: Findings) -> None:
    for stand in plan.stands:
        if stand.lower_kind == "slab":
            what, row = _member_row(house, stand.upper)
            run = f" from {metres(stand.start)} to {metres(stand.end)}" if what == "wall" and not stand.full else ""
            found.warn("ON-SLAB", cell_of(row, "name"), f"{what} {stand.upper}",
                       f"on the slab over {stand.lower}{run}",
                       "neither wall nor beam is under it, and whether the slab can carry it is not worked out",
                       "Look for a beam in the slab, and have the slab checked.")  # fmt: skip


def _check_short(house: House, plan: Plan, survey: Survey, found: Findings) -> None:
    thickness = {text_of(wall.name): value_of(wall.thickness) for wall in survey.walls}
    for row in house.table("Walls"):
        name = name_of(row)
        lost = sum(thickness[meeting.other] / 2 for meeting in plan.meetings if meeting.wall == name)
        if plan.members[name].length <= lost:
            found.fault("WALL-SHORT", cell_of(row, "end"), f"wall {name}", metres(plan.members[name].length),
                        f"the walls it meets take up {metres(lost)} of it, so nothing is left",
                        "Check its points and the thicknesses, or take it out.")  # fmt: skip


def _check_left_behind(house: House, plan: Plan, found: Findings) -> None:
    """Walls that do not go up with the house, and what they carry."""
    carried: dict[str, list[str]] = defaultdict(list)
    for carrier, what in _carryings(house, plan):
        if what not in carried[carrier]:
            carried[carrier].append(what)
    going_up = [row for row in house.table("Walls") if row["at_lift"].value in (None, "lifted")]
    if not going_up and not house.table("Columns"):
        found.fault(
            "NOTHING-LIFTED",
            cell_of(house.table("Walls")[0], "at_lift"),
            "every wall",
            "to stay or be rebuilt",
            "a house that is raised has walls or columns that go up",
            "Choose lifted for those.",
        )
    for row in house.table("Walls"):
        name, at_lift = name_of(row), row["at_lift"].value
        if at_lift == "stays" and storey_of(row) > 1:
            found.fault("STAYS-UPPER", cell_of(row, "at_lift"), f"wall {name}", "to stay",
                        "it stands on an upper storey and goes up with the house",
                        "Choose lifted, or taken down and rebuilt.")  # fmt: skip
        if at_lift not in ("stays", "taken down and rebuilt") or not carried[name]:
            continue
        code, what = ("STAYS-CARRIES", "to stay") if at_lift == "stays" else ("TAKEN-CARRIES", "to be taken down")
        listed = ", ".join(carried[name][:4]) + (" and more" if len(carried[name]) > 4 else "")
        found.fault(code, cell_of(row, "at_lift"), f"wall {name}", what, f"it carries {listed}",
                    "Choose lifted, or enter the beams and columns that carry in its place.")  # fmt: skip


def _carryings(house: House, plan: Plan) -> Iterator[tuple[str, str]]:
    """Each carrier with what it carries, in words."""
    for panel in plan.panels:
        kind = {"slab": "the slab over", "pitched roof": "the roof over", "floor": "the floor of"}.get(panel.kind)
        for carrier in _carriers(panel) if kind else ():
            yield carrier, f"{kind} {panel.room}"
    for rest in plan.rests:
        yield text_of(rest.support), f"beam {rest.beam}"
    for stand in plan.stands:
        yield text_of(stand.lower), f"{stand.upper} above it"
    for row in house.table("Attached"):
        names = row["on"].value
        for name in names if isinstance(names, tuple) and row["support"].value != "taken off" else ():
            yield name, name_of(row)


def _carriers(panel: Panel) -> Iterator[str]:
    """Who gets some of a slab; a wall along a one-way span gets none, unless the slab reaches out over it."""
    bearing = bearing_edges(panel.outline, panel.span) if panel.closed == "one way" else None
    for piece in panel.pieces:
        if piece.carrier and (bearing is None or piece.edge in bearing or piece.outside):
            yield text_of(piece.carrier)
